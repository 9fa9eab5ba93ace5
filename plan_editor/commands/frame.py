"""The plan's grid in words, and moving the plan to another by marks: what both doors share."""

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from plan_editor.drawing.norths import angle_told, facts_of
from plan_editor.edits.frame import MoveToGrid
from plan_editor.edits.framing import Framing, KnownMark, Scale, framed
from plan_editor.errors import CannotRead
from plan_editor.exchange.tables import Column, Table, TableRow, columns, number, read_table
from plan_editor.exchange.text_tables import text_lines
from plan_editor.ground.kept_books import has_bearings
from plan_editor.ground.measures import extent
from plan_editor.plan.checks import spoken
from plan_editor.plan.item import Basis, Item, ItemId, Method
from plan_editor.plan.plan import Plan
from plan_editor.survey.grids.crs import described
from plan_editor.survey.grids.frame_faults import CHECKED
from plan_editor.survey.grids.grid import LOCAL

TAPE_M = 30.0
"""The tape that the scale factor is told by."""

MARK = "mark"

HOW_KNOWN: Mapping[str, Method] = {
    "not recorded": Method.UNKNOWN,
    "by GNSS": Method.GNSS,
    "by instrument": Method.INSTRUMENT,
}
"""How the coordinates of marks may have been measured, in words."""

SCALES: Mapping[str, Scale] = {
    "is a metre on the ground (usual)": Scale.HELD,
    "is what the marks say": Scale.FREE,
}
"""What a metre of the plan becomes, in words."""

HEIGHT = (
    "The height of the ground is left out: at 300 m above the sea it is 5 mm more in 100 m."
)

_COLUMNS = (
    Column(name="mark", synonyms=("point", "name", "number", "no", "id"), needed=True),
    Column(name="E", synonyms=("east", "easting", "x"), needed=True),
    Column(name="N", synonyms=("north", "northing", "y"), needed=True),
    Column(name="sd", synonyms=("sd m", "standard deviation", "accuracy")),
)
_NOTHING = "Nothing was changed."
_TYPED = "What was typed"

_WORTH_SAYING = 0.0005
"""Own scale of the marks, off by more than this share, is spoken of: 15 mm in 30 m."""

_MUCH_TURNED_DEG = 45.0
_SEEN_TURN_DEG = 0.001


@dataclass(frozen=True, slots=True, kw_only=True)
class GridTold:
    """The plan's grid in words.

    Args:
        system: what it is called.
        origin: where the plan's origin lies.
        scale: what a tape reads on it.
        north: where true north lies.
        scale_factor, convergence_deg: the same as numbers; None of a local grid.
    """

    system: str
    origin: str
    scale: str
    north: str
    scale_factor: float | None = None
    convergence_deg: float | None = None


def grid_told(plan: Plan) -> GridTold:
    """Return the plan's grid in words; its figures are those in the middle of the plan."""
    e0, n0, e1, n1 = extent(plan) or (0.0, 0.0, 0.0, 0.0)
    origin = f"E {plan.grid.east:.10g}, N {plan.grid.north:.10g}"
    if plan.grid.crs == LOCAL:
        return GridTold(
            system="Local grid, tied to nothing but the ground",
            origin=origin,
            scale="A metre on the grid is a metre on the ground.",
            north="Where true north lies is not known.",
        )
    system = f"{plan.grid.crs}, {described(plan.grid.crs).name}"
    facts = facts_of(plan, ((e0 + e1) / 2, (n0 + n1) / 2))
    if facts is None:
        outside = f"The plan lies where {plan.grid.crs} has no meaning."
        return GridTold(system=system, origin=origin, scale=outside, north="")
    k, turn = facts.scale_factor, facts.convergence_deg
    side = "west" if turn > 0 else "east"
    return GridTold(
        system=system,
        origin=origin,
        scale=f"{TAPE_M:g} m on a level tape are {TAPE_M * k:.3f} m on the grid (scale factor"
        f" {k:.7f}).",
        north=f"True north lies {angle_told(turn)} {side} of grid north.",
        scale_factor=k,
        convergence_deg=turn,
    )


def marks_of(plan: Plan) -> tuple[Item[Any], ...]:
    """Return the marks of a plan, by their numbers."""
    found = plan.by_kind.get(MARK, {}).values()
    return tuple(sorted(found, key=lambda i: (len(i.number), i.number)))


def read_known(plan: Plan, path: Path) -> tuple[KnownMark, ...]:
    """Return the coordinates of marks out of a file: mark, E, N, and sd if it has it.

    Raises:
        CannotRead: it is no such table, or names a mark that the plan does not have.
    """
    return _known(plan, read_table(path))


def to_be_filled_in(plan: Plan) -> str:
    """Return a line for each mark, to type its coordinates behind."""
    numbers = ("".join(i.number.split()) for i in marks_of(plan))
    return "\n".join(f"{number}  " for number in numbers if number)


def typed_known(plan: Plan, text: str) -> tuple[KnownMark, ...]:
    """Return the coordinates of marks as typed or pasted, one mark a line.

    A line on which nothing stands behind the mark is passed over.

    Raises:
        CannotRead: a line is no mark with its coordinates.
    """
    lines = text_lines(text.encode(), _TYPED)
    rows = (TableRow(n, _in_words(cells)) for n, cells in lines)
    given = tuple(row for row in rows if any(row.cells[1:]))
    return _known(plan, Table(name=_TYPED, rows=given)) if given else ()


def _in_words(cells: tuple[str, ...]) -> tuple[str, ...]:
    # lines of which only some have a standard deviation part evenly at nothing
    if len(cells) > 1:
        return cells
    return tuple(re.sub(r"(?<=\d),(?=\d)", ".", word) for word in cells[0].split())


def _known(plan: Plan, table: Table) -> tuple[KnownMark, ...]:
    named = {spoken(i.number): i.id for i in marks_of(plan) if i.number}
    return tuple(_one(named, table.name, line, cells) for line, cells in _rows(table))


def _rows(table: Table) -> Iterable[tuple[int, Sequence[str]]]:
    """Return the line and the four cells of each row; a table without header is in order."""
    if _is_row(table.rows[0]):
        return [(row.line, row.cells) for row in table.rows]
    found = columns(table, _COLUMNS)
    names = [c.name for c in _COLUMNS]
    return [(row.line, [found.cell(row, n) for n in names]) for row in found.rows]


def _is_row(row: TableRow) -> bool:
    try:
        return all(number(cell) for cell in row.cells[1:3]) and len(row.cells) > 2
    except ValueError:
        return False


def _one(named: dict[str, ItemId], table: str, line: int, cells: Sequence[str]) -> KnownMark:
    where = f"{table}, line {line}"
    name, east, north, sd = (*cells, "", "", "", "")[:4]
    if spoken(name) not in named:
        raise CannotRead(
            f"{where}: the plan has no mark “{name}”. {_NOTHING} Write the number that the"
            " mark bears on the plan."
        )
    try:
        return KnownMark(
            mark=named[spoken(name)],
            east=number(east),
            north=number(north),
            sd_m=number(sd) if sd else None,
        )
    except ValueError as error:
        raise CannotRead(f"{where}: {error}. {_NOTHING} Write metres: 553112.480.") from error


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """A move that is wanted: the system, the marks, and how they are known."""

    crs: str
    marks: tuple[KnownMark, ...]
    scale: Scale = Scale.HELD
    method: Method = Method.UNKNOWN
    source: str = ""
    date: str = ""

    def edit(self) -> MoveToGrid:
        """Return the edit."""
        basis = Basis(method=self.method, source=self.source, date=self.date)
        return MoveToGrid(crs=self.crs, marks=self.marks, scale=self.scale, basis=basis)

    def framing(self, plan: Plan) -> Framing:
        """Return how the plan would lie.

        Raises:
            EditRefused: the marks do not carry it there.
        """
        return framed(plan, self.crs, self.marks, self.scale)


def framing_told(framing: Framing, scale: Scale) -> tuple[str, ...]:
    """Return how the plan would lie, in sentences; what is doubtful comes last."""
    fit, grid = framing.fit, framing.grid
    hand = "clockwise" if fit.way.turn_deg >= 0 else "anticlockwise"
    turned = f"turned {abs(fit.way.turn_deg):.3f}° {hand}"
    kept = "held at that of the ground" if scale is Scale.HELD else "that of the marks"
    return (
        f"The plan comes to lie in {grid.told()}: {turned}, scale {fit.way.scale:.7f}, {kept}.",
        f"The marks are missed by {max(fit.off):.3f} m at most, {fit.rmse:.3f} m in root mean"
        " square.",
        *_doubts(framing),
    )


def bearings_told(plan: Plan, framing: Framing) -> tuple[str, ...]:
    """Return what befalls the bearings of field books, which were read from the old north."""
    if abs(framing.fit.way.turn_deg) < _SEEN_TURN_DEG or not has_bearings(plan):
        return ()
    return (
        "The bearings of the field books on the plan turn with it. A book that is taken in from"
        " its file once more still has them as they were: turn them in the file first.",
    )


def _doubts(framing: Framing) -> Iterable[str]:
    fit = framing.fit
    off = fit.own_scale / framing.held_scale - 1.0
    if abs(off) > _WORTH_SAYING:
        so = "farther apart" if off > 0 else "nearer together"
        yield (
            f"By their coordinates the marks lie {100 * abs(off):.2f} % {so} than on the plan:"
            " look at the tape, or at how the plan was scaled."
        )
    if len(framing.marks) >= CHECKED:
        return
    yield "Two marks show no error of theirs: measure a third, better two more."
    if abs(fit.way.turn_deg) > _MUCH_TURNED_DEG:
        yield (
            "It is turned far round. Were easting and northing exchanged? Two marks cannot"
            " tell."
        )


RESIDUALS = ("mark", "E off, m", "N off, m", "off by, m")
"""What stands over the residuals: fitted less given."""


def residual_rows(framing: Framing) -> tuple[tuple[str, ...], ...]:
    """Return each mark with its residual, to the millimetre."""
    found = zip(framing.marks, framing.fit.residuals, framing.fit.off, strict=True)
    return tuple((m.name, _signed(e), _signed(n), f"{off:.3f}") for m, (e, n), off in found)


def _signed(metres: float) -> str:
    return f"{round(metres, 3) + 0.0:+.3f}"  # nought has no sign of its own


def framing_facts(framing: Framing) -> dict[str, Any]:
    """Return the same for a program."""
    fit, grid = framing.fit, framing.grid
    return {
        "crs": grid.crs,
        "origin": [grid.east, grid.north],
        "rotation_deg": round(fit.way.turn_deg, 7),
        "scale": fit.way.scale,
        "scale_held": framing.held_scale,
        "scale_of_marks": fit.own_scale,
        "shift": [fit.way.c + grid.east, fit.way.d + grid.north],
        "rmse_m": round(fit.rmse, 4),
        "residuals": [
            {"mark": m.name, "E": round(e, 4), "N": round(n, 4), "off_m": round(off, 4)}
            for m, (e, n), off in zip(framing.marks, fit.residuals, fit.off, strict=True)
        ],
    }
