"""Memorials at the heads of the graves: what stands there, of what, and how high."""

from dataclasses import dataclass
from functools import cache
from math import cos, radians, sin
from random import Random
from typing import Any

from fittings import VAULT
from graves import Space, spaces
from inscriptions import inscription
from story import TAPED, dice, id_of, made, numbered

from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import grave, memorial, vault
from plan_editor.kinds.grave import State
from plan_editor.kinds.memorial import Anchor, MemorialDetails, MemorialForm
from plan_editor.plan.item import Basis, Item, ItemId

MARKED = 0.71
"""Part of the used graves that have a memorial."""

Make = tuple[MemorialForm, float, float, float, str]
"""Form; metres along its face, back from it and up; material."""

_CHOSEN: dict[str, Make] = {
    "H 9": (MemorialForm.CHEST_TOMB, 0.95, 1.9, 1.05, "limestone"),
    "J 11": (MemorialForm.CHEST_TOMB, 0.9, 1.85, 0.95, "limestone"),
    "L 6": (MemorialForm.CROSS, 0.52, 0.38, 1.25, "marble"),
    "J 4": (MemorialForm.OBELISK, 0.8, 0.8, 2.65, "polished granite"),
}
_WAR_GRAVES = ("R 3", "R 5")
_TALL = {"C 12": 1.45, "C 13": 1.2, "C 15": 1.3, "E 8": 1.65, "Q 6": 1.35, "J 7": 1.5}
_ALWAYS = {*_CHOSEN, *_WAR_GRAVES, *_TALL, "E 9", "W 11", "F 7"}
_HEIGHT_UNKNOWN = "E 9"


@dataclass(frozen=True, slots=True, kw_only=True)
class Stone:
    """A memorial of the story, and the grave it stands on."""

    space: Space
    rectangle: Rectangle
    details: MemorialDetails

    @property
    def key(self) -> str:
        """What the story calls it: the number of its grave."""
        return self.space.number


@cache
def stones() -> tuple[Stone, ...]:
    """Return the memorials on graves, in the order of the graves."""
    return tuple(s for space in spaces() if (s := _on(space)) is not None)


def memorials(old: Basis) -> tuple[Item[Any], ...]:
    """Return the memorials; one stands on the vault."""
    return (
        *(
            numbered(
                stone.key,
                made(
                    memorial.KIND,
                    stone.key,
                    stone.rectangle,
                    details=stone.details,
                    basis=old if stone.space.in_1962 else TAPED,
                ),
            )
            for stone in stones()
        ),
        _on_the_vault(old),
    )


def memorial_id(key: str) -> ItemId:
    """Return the id of the memorial on the grave of that number."""
    return id_of(memorial.KIND, key)


def _on(space: Space) -> Stone | None:
    chance = dice(f"stone {space.number}")
    used = space.state in (State.OCCUPIED, State.UNKNOWN)
    recent = space.year >= 2025  # the ground settles before a stone is set
    if not used or recent:
        return None
    if chance.random() > MARKED and space.number not in _ALWAYS:
        return None
    form, across, deep, height, material = _form(space, chance)
    return Stone(
        space=space,
        rectangle=_standing(
            space.rectangle, form, min(across, space.rectangle.width - 0.06), deep
        ),
        details=MemorialDetails(
            form=form,
            height_m=None if space.number == _HEIGHT_UNKNOWN else height,
            material=material,
            anchor=_anchor(space, form, chance),
            grave=id_of(grave.KIND, space.number),
            erected=str(space.year + 1),
            inscription=inscription(space),
            war_grave=space.number in _WAR_GRAVES,
        ),
    )


def _form(space: Space, chance: Random) -> Make:
    if space.number in _CHOSEN:
        return _CHOSEN[space.number]
    if space.number in _WAR_GRAVES:
        return MemorialForm.HEADSTONE, 0.38, 0.08, 0.81, "Portland stone"
    return _modern(chance) if space.row.lawn else _old(space, chance)


def _old(space: Space, chance: Random) -> Make:
    wide = space.rectangle.width
    pick = 0.0 if space.number in _TALL else chance.random()
    if pick < 0.78:
        return (
            MemorialForm.HEADSTONE,
            round(min(chance.uniform(0.55, 0.85), wide - 0.12), 2),
            round(chance.uniform(0.09, 0.16), 2),
            _TALL.get(space.number, round(chance.uniform(0.55, 1.4), 2)),
            chance.choice(("limestone", "limestone", "sandstone", "slate")),
        )
    if pick < 0.90:
        height = round(chance.uniform(0.8, 1.5), 2)
        return MemorialForm.CROSS, 0.5, 0.36, height, chance.choice(("limestone", "marble"))
    if pick < 0.96:
        return MemorialForm.LEDGER, 0.75, 1.75, 0.15, "limestone"
    return MemorialForm.KERB, round(wide - 0.16, 2), 1.9, 0.2, "granite"


def _modern(chance: Random) -> Make:
    if chance.random() < 0.06:
        return MemorialForm.CROSS, 0.45, 0.1, 0.9, "oak"
    return (
        MemorialForm.HEADSTONE,
        round(chance.uniform(0.6, 0.9), 2),
        chance.choice((0.08, 0.1, 0.1, 0.15)),
        round(chance.uniform(0.75, 1.0), 2),
        chance.choice(("granite", "granite", "slate", "Portland stone")),
    )


def _anchor(space: Space, form: MemorialForm, chance: Random) -> Anchor:
    flat = form in (MemorialForm.LEDGER, MemorialForm.KERB, MemorialForm.CHEST_TOMB)
    if flat:
        return Anchor.NONE
    if space.year >= 2004:
        return Anchor.GROUND_ANCHOR
    if space.row.lawn:
        return Anchor.FOUNDATION
    return chance.choice((Anchor.SUNK, Anchor.UNKNOWN))


def _standing(on: Rectangle, form: MemorialForm, across: float, deep: float) -> Rectangle:
    """Return the memorial's footprint within the grave: centred, near the head, facing east.

    Its own head line is its face: it runs south, along the side that looks to the foot.
    """
    flat = form in (MemorialForm.LEDGER, MemorialForm.KERB, MemorialForm.CHEST_TOMB)
    from_head = 0.2 if flat else 0.05
    angle = radians(on.bearing_deg)
    north, foot = (on.width + across) / 2, from_head + deep
    return Rectangle(
        east=on.east + north * sin(angle) + foot * cos(angle),
        north=on.north + north * cos(angle) - foot * sin(angle),
        width=across,
        length=deep,
        bearing_deg=round((on.bearing_deg + 180.0) % 360.0, 1),
    )


def _on_the_vault(old: Basis) -> Item[Any]:
    return numbered(
        "Vault 1",
        made(
            memorial.KIND,
            "Vault 1",
            _standing(VAULT, MemorialForm.CHEST_TOMB, 1.1, 2.1),
            details=MemorialDetails(
                form=MemorialForm.CHEST_TOMB,
                height_m=1.15,
                material="limestone, iron rail",
                anchor=Anchor.NONE,
                grave=id_of(vault.KIND, "1"),
                erected="1834",
            ),
            basis=old,
        ),
    )
