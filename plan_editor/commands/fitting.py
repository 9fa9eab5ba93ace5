"""A base plan fitted to points: points read from a file, and the edit that places it."""

from dataclasses import dataclass
from pathlib import Path

from plan_editor.commands.base_plans import base_plan_named
from plan_editor.commands.control import resolution
from plan_editor.edits.base_plans import PlaceBasePlan, paper_of
from plan_editor.edits.refitting import taking_along, traced
from plan_editor.errors import CannotRead
from plan_editor.exchange.coordinates import metres_of
from plan_editor.exchange.tables import Column, Columns, TableRow, columns, number, read_table
from plan_editor.plan.edit import Edit
from plan_editor.plan.item import ItemId
from plan_editor.plan.media import Kept
from plan_editor.plan.plan import Plan
from plan_editor.survey.fits.fitting import Fit, fit, recommended
from plan_editor.survey.fits.models import Control, Model
from plan_editor.survey.grids.grid import Grid

TABLES = (".csv", ".txt", ".xlsx")
"""How the names of files of points end."""

ALONG, NOT_ALONG = "Move them with it", "Leave them where they are"
"""The answers to whether what was traced goes along."""

MOST_POINTS = 2_000
"""More than that nobody clicks; the file is of another sort."""

_WANTED = (
    Column(name="mark", synonyms=("point", "name", "no", "number", "id")),
    Column(
        name="px", synonyms=("x", "pixel x", "pixels right", "right", "column"), needed=True
    ),
    Column(name="py", synonyms=("y", "pixel y", "pixels down", "down", "row"), needed=True),
    Column(name="E", synonyms=("east", "easting"), needed=True),
    Column(name="N", synonyms=("north", "northing"), needed=True),
    Column(name="sd", synonyms=("standard deviation", "sigma", "±"), needed=False),
)


def read_control(path: Path, grid: Grid) -> tuple[Control, ...]:
    """Return the points in a table with the columns mark, px, py, E, N and perhaps sd.

    Args:
        path: CSV, other text in columns, or a workbook.
        grid: of the plan; E and N are coordinates of its system, in metres.

    Raises:
        CannotRead: it cannot be read, lacks a column, holds no point or too many, or a cell is
            not what it should be; the text says which.
    """
    found = columns(read_table(path), _WANTED)
    if not found.rows:
        raise CannotRead(f"{path.name}: there is no point under the header. Nothing was read.")
    if len(found.rows) > MOST_POINTS:
        raise CannotRead(
            f"{path.name} holds {len(found.rows):,} points, more than {MOST_POINTS:,}. Nothing"
            " was read. Keep those that are marks on the base plan."
        )
    return tuple(_control(path.name, found, row, grid) for row in found.rows)


@dataclass(frozen=True, slots=True, kw_only=True)
class Fitted:
    """How a base plan of a name would lie.

    Args:
        item: the base plan.
        name: what it is called.
        fit: the kind that was asked for, or the one to take.
        fits: every kind that the points allow; only the one asked for where that is all.
        advised: the kind to take; None where none can be told.
    """

    item: ItemId
    name: str
    fit: Fit
    fits: tuple[Fit, ...]
    advised: Model | None


def fitted(
    plan: Plan, media: Kept, name: str, control: tuple[Control, ...], model: Model | None
) -> Fitted:
    """Return the fit of a base plan to points; the best kind where none is asked for.

    Raises:
        CannotUse: there is no base plan of that name, or the points do not place it.
        CannotRead, DamagedPlan: its kept bytes are not what they were.
    """
    line = base_plan_named(plan, name)
    item = plan.items[line.item]
    paper = paper_of(item)
    if not paper.upward:
        dots = resolution(media, item.details.digest, item.details.page)
        paper = paper_of(item, dots)
    fits, best = recommended(control, paper)
    made = best if model is None else fit(model, control, paper)
    return Fitted(item=line.item, name=line.name, fit=made, fits=fits, advised=best.model)


def along_question(plan: Plan, item: ItemId) -> str:
    """Return what is to be asked before a base plan is placed again.

    Empty where nothing was traced on it, or it does not lie on the ground yet.
    """
    details = plan.items[item].details
    count = len(traced(plan, item)) if details.fit else 0
    if count == 0:
        return ""
    were = "1 thing was" if count == 1 else f"{count} things were"
    return (
        f"{were} traced on “{details.name}”. Shall they move with it, to where they lie on the"
        " paper now? What was checked on the ground since is better left where it is."
    )


def placing(plan: Plan, item: ItemId, fit: Fit, *, along: bool) -> Edit:
    """Return the edit that places a base plan by a fit.

    Args:
        plan: as it is before.
        item: the base plan.
        fit: how it is to lie.
        along: whether what was traced on it goes along.
    """
    if along:
        return taking_along(plan, item, fit.control, fit.model)
    return PlaceBasePlan(id=item, control=fit.control, model=fit.model)


def _control(file: str, table: Columns, row: TableRow, grid: Grid) -> Control:
    where = f"{file}, line {row.line}"
    cells = table.named(row)
    try:
        x, y = number(cells["px"]), number(cells["py"])
        east, north = grid.to_plan(metres_of(cells["E"]), metres_of(cells["N"]))
        sd = number(cells["sd"]) if cells.get("sd") else None
    except ValueError as fault:
        raise CannotRead(f"{where}: {fault}. Nothing was read.") from fault
    if sd is not None and not 0.0 < sd <= 100.0:
        raise CannotRead(
            f"{where}: a standard deviation is given in metres and is more than nothing."
            " Nothing was read."
        )
    # what the difference of large numbers leaves in the last places was not measured
    east, north = round(east, 6), round(north, 6)
    return Control(x=x, y=y, east=east, north=north, sd=sd, name=cells.get("mark", ""))
