"""Churchyards and sections of the ground: what is in each, and one of them shown alone."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

import shapely

from plan_editor.commands.command import Ask, Part
from plan_editor.commands.size import area, thousands
from plan_editor.errors import CannotUse
from plan_editor.geometry.nearby import Box
from plan_editor.ground.sections import (
    Piece,
    churchyard_of,
    churchyards,
    is_piece,
    section_of,
    sections,
)
from plan_editor.plan.item import ItemId
from plan_editor.plan.plan import Plan
from plan_editor.session import Session

MARGIN_M = 2.0
"""So much ground is shown round a piece of it."""

FREE = "free"
"""The state of a grave of which most people ask."""

NO_PIECE = (
    "Nothing is chosen that lies in a section or a churchyard. Choose a section, or a thing in"
    " it, and ask again."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceLine:
    """One churchyard or section in the list.

    Args:
        item: its boundary or section.
        name: what it is called; parts of sections stand a little to the right.
        graves, free, ashes: how many lie in it.
    """

    item: ItemId
    name: str
    graves: str
    free: str
    ashes: str


def piece_lines(plan: Plan) -> tuple[PieceLine, ...]:
    """Return the churchyards and then the sections of the ground, parts below their whole."""
    yards = (_line(p, f"Churchyard {p.name}".strip(), 0) for p in churchyards(plan))
    return (*yards, *_below(sections(plan), None, 0))


def piece_told(plan: Plan, item: ItemId) -> tuple[tuple[str, str], ...]:
    """Return what there is in a churchyard or a section, as words and figures."""
    found = next((p for p in (*churchyards(plan), *sections(plan)) if p.item == item), None)
    return () if found is None else tuple(_told(plan, found))


def piece_in_hand(session: Session) -> ItemId | None:
    """Return the section or churchyard that is chosen, or in which the thing chosen lies."""
    if len(session.chosen) != 1:
        return None
    plan, chosen = session.document.plan, session.chosen[0]
    if is_piece(plan.items[chosen]):
        return chosen
    return section_of(plan, chosen) or churchyard_of(plan, chosen)


def box_of_piece(plan: Plan, item: ItemId) -> Box | None:
    """Return the ground to look at; None of what has no place."""
    if (box := plan.items[item].box) is None:
        return None
    west, south, east, north = box
    return west - MARGIN_M, south - MARGIN_M, east + MARGIN_M, north + MARGIN_M


def show_only(session: Session, item: ItemId) -> None:
    """Show only what reaches into a section or a churchyard; base plans stay."""
    plan = session.document.plan
    piece = plan.items[item]
    placed = [i for i in plan.items.values() if i.shape is not None and not i.kind.pinned]
    ground = piece.shape
    shapely.prepare(ground)
    there = shapely.intersects(ground, [i.shape for i in placed]).tolist()
    out = (
        i.id
        for i, within in zip(placed, there, strict=True)
        if i.id != item and (not within or i.kind == piece.kind)
    )
    session.show(replace(session.showing, things=frozenset(out)))


def show_all_pieces(session: Session) -> None:
    """Show again what lies elsewhere."""
    session.show(replace(session.showing, things=frozenset()))


def has_piece(session: Session) -> bool:
    """Return whether something is chosen that lies in a section or a churchyard, or is one."""
    return piece_in_hand(session) is not None


def only_in_hand(session: Session, ask: Ask) -> None:
    """Show only the section or churchyard in hand, and look at it.

    Raises:
        CannotUse: there is none.
    """
    item = piece_in_hand(session)
    if item is None:
        raise CannotUse(NO_PIECE)
    show_only(session, item)
    session.choose((item,))
    ask.show_chosen()
    ask.reach(Part.GROUND)


def is_partly_shown(session: Session) -> bool:
    """Return whether things that lie elsewhere are left out."""
    return bool(session.showing.things)


def _below(pieces: tuple[Piece, ...], whole: ItemId | None, deep: int) -> Iterator[PieceLine]:
    for piece in pieces:
        if piece.part_of == whole:
            yield _line(piece, piece.name or "Section without a name", deep)
            yield from _below(pieces, piece.item, deep + 1)


def _line(piece: Piece, name: str, deep: int) -> PieceLine:
    free = sum(count for state, count in piece.graves if state == FREE)
    return PieceLine(
        item=piece.item,
        name=f"{'    ' * deep}{name}",
        graves=thousands(piece.all_graves),
        free=thousands(free),
        ashes=thousands(piece.ashes_plots),
    )


def _told(plan: Plan, piece: Piece) -> Iterator[tuple[str, str]]:
    yield "Area", area(piece.area_m2)
    for state, count in piece.graves:
        yield f"Graves, {state}", thousands(count)
    for words, count in (
        ("Vaults", piece.vaults),
        ("Ashes plots", piece.ashes_plots),
        ("Memorials", piece.memorials),
    ):
        if count:
            yield words, thousands(count)
    if piece.part_of is not None:
        yield "A part of", plan.items[piece.part_of].called()
    for other in piece.overlaps:
        yield "Lies over", plan.items[other].called()
