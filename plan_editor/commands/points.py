"""Points from receivers and instruments: a file looked at, and put on the plan as one edit."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import hypot
from pathlib import Path
from typing import Any

from plan_editor.commands.point_faults import Sifted, alone, twice
from plan_editor.commands.point_files import Looked, file_of, places, source_of, usual_crs
from plan_editor.edits.codes import Code, read_codes, shipped_codes
from plan_editor.edits.points import AddPoints, Coded, Measured, coded, distance, on_the_plan
from plan_editor.errors import CannotUse
from plan_editor.exchange.point_columns import Layout
from plan_editor.exchange.points import FilePoint, PointFile
from plan_editor.plan.item import Item, Method
from plan_editor.plan.plan import Plan
from plan_editor.survey.grids.crossing import Crossed, crossed, is_in_degrees, outside
from plan_editor.survey.grids.grid import LOCAL, Grid

AGREES_M = 0.05
"""A mark measured again that is nearer than this to the mark on the plan, or than twice what
both are uncertain by, is where it was."""


UNSAID = (
    "The file does not say how well its points are known, and nothing is recorded of that."
    " Where it is known, add a column sd with the standard deviation in metres."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """What is told of one point.

    Args:
        point: with its place in metres about the plan's origin.
        east, north: in the plan's coordinate system.
        became: what it becomes: ``Tree``; empty where it is on the plan already.
        kind: the name of that kind; empty likewise.
    """

    point: Measured
    east: float
    north: float
    became: str
    kind: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Ready:
    """What would become of a file.

    Args:
        edit: puts the things on the plan; None where nothing is new.
        points: those that were taken, in the order of the file.
        added: how many of each kind, by its name.
        warnings: whole sentences.
        left_out: a sentence for each line or point that was not taken.
        differs: a sentence for each thing that is on the plan already and lies elsewhere.
        agrees: how many are on the plan already and lie where they lay.
        crs: the coordinate system of the file.
        by: the way from there to the plan's; empty where it is the same.
        accuracy_m: of that way, at its worst.
    """

    edit: AddPoints | None
    points: tuple[Told, ...]
    added: Mapping[str, int]
    warnings: tuple[str, ...]
    left_out: tuple[str, ...]
    differs: tuple[str, ...]
    agrees: int
    crs: str
    by: str
    accuracy_m: float

    @property
    def sentences(self) -> tuple[str, ...]:
        """Everything that is to be said, the worst first."""
        return (*self.left_out, *self.differs, *self.warnings)


def codes_of(path: Path | None) -> Mapping[str, Code]:
    """Return a table of codes: the one in a file, or the one that comes with the program.

    Raises:
        CannotUse: the file is no table of codes.
    """
    return shipped_codes() if path is None else read_codes(path)


def ready(
    plan: Plan,
    looked: Looked,
    *,
    crs: str = "",
    layout: Layout | None = None,
    codes: Mapping[str, Code],
) -> Ready:
    """Return what would become of a file on a plan. Nothing is changed.

    Args:
        plan: where the points go.
        looked: the file.
        crs: the coordinate system that it is in, as typed; empty for the usual one.
        layout: what its columns hold, where that is not what they seem to.
        codes: the table of codes, by word.

    Raises:
        CannotUse, CannotRead: the file as a whole makes no sense so; the text says what it
            looks like.
    """
    source = source_of(crs or usual_crs(looked, plan.grid))
    _refuse_unknown_grid(source, plan.grid)
    file = file_of(looked, plan.grid, layout or looked.layout, source)
    sifted = twice(alone(file.points, degrees=file.degrees))
    way = crossed(places(sifted.points), source=source, target=plan.grid.crs)
    points = _measured(sifted.points, way, plan.grid)
    method = Method.GNSS if is_in_degrees(source) else Method.INSTRUMENT
    things, said = coded(points, codes, method=method, source=looked.name)
    fresh, differs, agrees = _compared(plan, things)
    return Ready(
        edit=AddPoints(items=tuple(t.item for t in fresh), source=looked.name)
        if fresh
        else None,
        points=_told(points, fresh, plan.grid),
        added=_counted(fresh),
        warnings=(*way.warnings, *file.taken, *_doubts(file, sifted, source), *said),
        left_out=(*file.left_out, *sifted.left_out),
        differs=differs,
        agrees=agrees,
        crs=source,
        by=way.by,
        accuracy_m=float(way.accuracy_m.max(initial=0.0)),
    )


def _refuse_unknown_grid(source: str, grid: Grid) -> None:
    if (source == LOCAL) == (grid.crs == LOCAL):
        return
    which, other = ("The plan", source) if grid.crs == LOCAL else ("The file", grid.crs)
    raise CannotUse(
        f"{which} has a grid of its own, and nobody knows where that lies in {other}. Nothing"
        " was changed. Move the plan to the national grid by its marks first, or give the"
        " number of the coordinate system that the file is in."
    )


def _measured(points: tuple[FilePoint, ...], way: Crossed, grid: Grid) -> tuple[Measured, ...]:
    east, north = grid.to_plan(way.east, way.north)
    return tuple(
        Measured(
            line=p.line,
            name=p.name,
            east=round(float(e), 3),
            north=round(float(n), 3),
            height=p.height,
            datum=p.datum,
            sd_m=_with_way(p.sd_m, float(accuracy)),
            code=p.code,
            words=p.words,
            date=p.date,
            joined=p.joined,
        )
        for p, e, n, accuracy in zip(points, east, north, way.accuracy_m, strict=True)
    )


def _with_way(sd_m: float | None, accuracy_m: float) -> float | None:
    """Return the standard deviation of a point that was measured so well and came that way.

    The accuracy that the register states is taken as one standard deviation.
    """
    if sd_m is None:
        return accuracy_m or None
    return round(hypot(sd_m, accuracy_m), 4)


def _compared(
    plan: Plan, things: tuple[Coded, ...]
) -> tuple[tuple[Coded, ...], tuple[str, ...], int]:
    """Return what is new, what is on the plan elsewhere, how many lie where they lay."""
    fresh: list[Coded] = []
    differs: list[str] = []
    agrees = 0
    for thing in things:
        there = on_the_plan(plan, thing.item)
        if there is None:
            fresh.append(thing)
        elif (off := distance(there, thing.item)) > _allowed(there, thing.item):
            differs.append(_differs(thing.item, there, off))
        else:
            agrees += 1
    return tuple(fresh), tuple(differs), agrees


def _allowed(there: Item[Any], item: Item[Any]) -> float:
    return max(AGREES_M, 2 * hypot(there.basis.sd_m or 0.0, item.basis.sd_m or 0.0))


def _differs(item: Item[Any], there: Item[Any], off: float) -> str:
    return (
        f"{item.number} differs by {off:.2f} m from the {there.kind.title.lower()} on the plan,"
        " which stays as it is."
    )


def _told(
    points: tuple[Measured, ...], fresh: tuple[Coded, ...], grid: Grid
) -> tuple[Told, ...]:
    kinds = {p.line: t.item.kind for t in fresh for p in t.points}
    told = []
    for point in points:
        east, north = grid.to_crs(point.east, point.north)
        kind = kinds.get(point.line)
        told.append(
            Told(
                point=point,
                east=round(east, 3),
                north=round(north, 3),
                became=kind.title if kind else "",
                kind=kind.name if kind else "",
            )
        )
    return tuple(told)


def _counted(fresh: tuple[Coded, ...]) -> Mapping[str, int]:
    counts: dict[str, int] = {}
    for thing in fresh:
        counts[thing.item.kind.name] = counts.get(thing.item.kind.name, 0) + 1
    return counts


def _doubts(file: PointFile, sifted: Sifted, source: str) -> tuple[str, ...]:
    found = list(sifted.warnings)
    if source != LOCAL and (count := int(outside(places(sifted.points), source).sum())):
        found.append(f"{count} of the points lie outside the area that {source} is made for.")
    if any(p.sd_m is None for p in sifted.points):
        found.append(UNSAID)
    return (*found, *_about_heights(file))


def _about_heights(file: PointFile) -> tuple[str, ...]:
    loose = [p for p in file.points if p.height is not None and not p.datum]
    if not loose:
        return ()
    above = (
        "heights of a receiver are mostly above the ellipsoid, which in Britain lies some 50 m"
        " from sea level"
        if file.degrees
        else "a height is of use only with what it is above"
    )
    return (
        f"The file does not say what its heights are above ({above}): they are kept as remarks."
        " Where it is known, name the column so: “level above Ordnance Datum Newlyn”.",
    )
