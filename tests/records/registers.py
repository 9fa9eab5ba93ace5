"""Invented churchyards with their burial registers, and the faults that real registers have.

Shares of faults are realistic guesses, common practice among transcribers: a place is written
in two entries of three, one in twenty of those is wrong; one name in eight is spelt otherwise
or misread; forenames are often initials or shortened; one stone in ten names somebody who
lies elsewhere; one entry in ten has its grave nowhere on the plan.
"""

import random
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import burial, grave, memorial
from plan_editor.kinds.burial import BurialDetails, BurialSort
from plan_editor.kinds.grave import GraveDetails, State
from plan_editor.kinds.memorial import MemorialDetails
from plan_editor.plan.item import Item, ItemId, new_item
from plan_editor.plan.plan import Plan, plan_of

SURNAMES_TEXT = """Smith Jones Taylor Brown Wilson Johnson Davies Robinson Wright Thompson Evans
Walker White Roberts Green Hall Wood Jackson Clarke Harris Cooper King Lee Martin Baker Harrison
Morris Allen Morgan Turner Hill Parker Carter Phillips Mitchell Watson Shaw Bennett Cook Webb
Holmes Palmer Mason Knight Barker Chapman Marshall Stevens Gibson Fisher Hunt Reed Reid Gray
Grey Pearson Pearce Lawson Lowe Dawson Hudson Barrett Fletcher Brooks Sutton Burton Read Field
Holland Haynes Hewitt Thorpe Ogden Sykes Pickles Haigh Beaumont Crowther Drake Earnshaw Firth
Greenwood Hirst Ibbotson Jagger Kaye Lumb Mallinson Naylor Oldroyd Priestley Quarmby Ramsden
Shackleton Tattersall Uttley Varley Wadsworth Yeadon Ackroyd Bottomley Clegg Dyson
"""
MEN_TEXT = """John William Thomas George James Henry Joseph Charles Robert Edward Samuel Richard
Frederick Albert Arthur Alfred Walter Ernest Harold Frank Benjamin Herbert Percy Leonard
"""
WOMEN_TEXT = """Mary Elizabeth Sarah Ann Jane Hannah Margaret Alice Martha Emma Ellen Harriet
Annie Florence Edith Ada Susannah Catherine Charlotte Lucy Rebecca Ruth Dorothy Ethel
"""
SURNAMES, MEN, WOMEN = (t.split() for t in (SURNAMES_TEXT, MEN_TEXT, WOMEN_TEXT))
SHORT = {
    "John": "Jno", "William": "Wm", "Thomas": "Thos", "George": "Geo", "James": "Jas",
    "Joseph": "Jos", "Charles": "Chas", "Robert": "Robt", "Edward": "Edwd", "Samuel": "Saml",
    "Richard": "Richd", "Elizabeth": "Eliz", "Margaret": "Margt", "Catherine": "Cath",
}  # fmt: skip
MISREAD = tuple(zip("nuaoecltriehwm", "unoacetlneibun", strict=True))
"""Letters of a clerk's hand that are read one for the other."""
PLACES = (
    "{a} {n}",
    "{a}{n}",
    "{a}.{n}",
    "row {a} no {n}",
    "Row {a}, No. {n}",
    "{n} in row {a}",
)
A_ROW = 40


@dataclass(frozen=True, slots=True)
class Dead:
    """Somebody invented."""

    surname: str
    forenames: tuple[str, ...]
    born: int
    died: int
    born_as: str = ""


@dataclass(frozen=True, slots=True)
class Register:
    """A plan with entries that have no grave yet, and the grave where each truly lies."""

    plan: Plan
    truth: Mapping[ItemId, ItemId | None]


def register(seed: int, entries: int) -> Register:
    """Return a churchyard whose register has so many entries, with their faults."""
    chance = random.Random(seed)  # noqa: S311  # a game, not a secret
    items: list[Item[Any]] = []
    truth: dict[ItemId, ItemId | None] = {}
    graves = 0
    while len(truth) < entries:
        family = _family(chance, 1830 + 180 * len(truth) // entries)
        ground = _grave(graves, chance)
        graves += 1
        lost = chance.random() < 0.1
        stone = chance.random() < 0.62
        if not lost:
            items.append(ground)
            if stone:
                items.append(_stone(chance, ground, family))
        for place, one in enumerate(family):
            known = place == 0 and chance.random() < 0.12 and not lost
            entry = _entry(chance, one, ground)
            if known:
                entry = replace(entry, details=replace(entry.details, grave=ground.id))
            else:
                truth[entry.id] = None if lost else ground.id
            items.append(entry)
    return Register(plan_of(items, name="Harrowmere"), truth)


def _family(chance: random.Random, year: int) -> tuple[Dead, ...]:
    # the first names of the list are the commonest, as in any village
    surname = SURNAMES[min(int(chance.expovariate(1 / 30)), len(SURNAMES) - 1)]
    died = min(year + chance.randrange(12), 2012)
    found = []
    for n in range(chance.choices((1, 2, 3), (45, 40, 15))[0]):
        female = chance.random() < 0.5
        pool = WOMEN if female else MEN
        names = [pool[min(int(chance.expovariate(1 / 6)), len(pool) - 1)] for _ in range(2)]
        age = 0 if chance.random() < 0.06 else int(chance.triangular(1, 95, 72))
        maiden = chance.choice(SURNAMES) if female and n and chance.random() < 0.1 else ""
        many = 1 if chance.random() < 0.6 or names[0] == names[1] else 2
        found.append(Dead(surname, tuple(names[:many]), died - age, died, maiden))
        died = min(died + chance.randrange(25), 2015)
    return tuple(found)


def _grave(number: int, chance: random.Random) -> Item[GraveDetails]:
    row, place = divmod(number, A_ROW)
    name = f"{_letters(row)} {place + 1}"
    at = Rectangle(east=1.5 * place, north=3.0 * row, width=1.2, length=2.4)
    coffins = chance.choice((None, 1, 2, 3))
    details = GraveDetails(state=State.OCCUPIED, coffins=coffins)
    return new_item(grave.KIND, at, details=details, number=name)


def _letters(row: int) -> str:
    return chr(65 + row % 26) * (1 + row // 26)


def _stone(
    chance: random.Random, ground: Item[GraveDetails], family: tuple[Dead, ...]
) -> Item[MemorialDetails]:
    told = [one for n, one in enumerate(family) if n == 0 or chance.random() < 0.8]
    lines = [_line(chance, one, first=n == 0) for n, one in enumerate(told)]
    if chance.random() < 0.1:
        away = replace(
            _family(chance, told[0].died)[0], surname=told[0].surname, died=told[0].died + 5
        )
        line = f"also of {' '.join(away.forenames)}, died {away.died}, interred at Scarbridge"
        lines.append(line)
    assert ground.rectangle is not None
    at = replace(ground.rectangle, width=0.8, length=0.15)
    details = MemorialDetails(grave=ground.id, inscription="\n".join(lines))
    return new_item(memorial.KIND, at, details=details, number=ground.number)


def _line(chance: random.Random, one: Dead, *, first: bool) -> str:
    name = " ".join(one.forenames if chance.random() < 0.8 else one.forenames[:1])
    whole = f"{name} {one.surname}" if first or chance.random() < 0.3 else name
    begin = "In loving memory of" if first else "also of"
    match chance.randrange(4):
        case 0:
            end = f"who died in {one.died} aged {one.died - one.born}"
        case 1:
            end = f"{one.born} – {one.died}"
        case 2:
            end = f"died 4 March {one.died} aged {one.died - one.born} years"
        case _:
            end = f"died {one.died}"
    return f"{begin} {whole}, {end}"


def _entry(chance: random.Random, one: Dead, ground: Item[GraveDetails]) -> Item[BurialDetails]:
    surname = one.born_as or _misspelt(chance, one.surname)
    age = one.died - one.born + chance.choices((0, 1, -1), (90, 6, 4))[0]
    year = one.died + (chance.random() < 0.02)
    if chance.random() < 0.02:
        year = int(_two_changed(chance, str(year)[:2] + "".join(str(year)[2:])))
    details = BurialDetails(
        surname=surname,
        forenames=" ".join(_forenames(chance, one.forenames)),
        sort=chance.choice((BurialSort.COFFIN, BurialSort.UNKNOWN)),
        buried=str(year) if 1500 < year < 2100 else str(one.died),
        age="" if chance.random() < 0.15 else str(max(age, 0)),
        place_written=_place(chance, ground.number),
    )
    return new_item(burial.KIND, details=details)


def _misspelt(chance: random.Random, name: str) -> str:
    if chance.random() > 0.12:
        return name
    ways = [(a, b) for a, b in MISREAD if a in name[1:]]
    if ways and chance.random() < 0.7:
        a, b = chance.choice(ways)
        return name[0] + name[1:].replace(a, b, 1)
    return f"{name}e" if chance.random() < 0.5 else name.replace("ll", "l").replace("s", "ss")


def _forenames(chance: random.Random, names: tuple[str, ...]) -> tuple[str, ...]:
    match chance.choices(
        ("whole", "initials", "short", "first", "misread"), (60, 12, 14, 9, 5)
    )[0]:
        case "initials":
            return tuple(f"{n[0]}." for n in names)
        case "short":
            return tuple(SHORT.get(n, n) for n in names)
        case "first":
            return names[:1]
        case "misread":
            return tuple(_misspelt(chance, n) for n in names)
        case _:
            return names


def _place(chance: random.Random, number: str) -> str:
    if chance.random() > 0.66:
        return chance.choice(("", "", "", "near the yew", "by the wall, 14 ft from the gate"))
    row, place = number.split()
    fault = chance.random()
    if fault < 0.02:
        place = _two_changed(chance, place)
    elif fault < 0.035:
        place = str(max(1, int(place) + chance.choice((-1, 1, -10, 10))))
    elif fault < 0.05:
        row = chance.choice("ABCDEFGH")
    return chance.choice(PLACES).format(a=row, n=place)


def _two_changed(chance: random.Random, figures: str) -> str:
    if len(figures) < 2:
        return figures
    at = chance.randrange(len(figures) - 1)
    return figures[:at] + figures[at + 1] + figures[at] + figures[at + 2 :]
