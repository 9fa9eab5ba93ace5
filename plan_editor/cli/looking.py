"""Verbs that only look at a plan."""

from argparse import Namespace
from dataclasses import asdict
from pathlib import Path
from typing import Any

import shapely
from shapely.affinity import translate

from plan_editor.cli.dates import day
from plan_editor.cli.pieces import piece_facts, piece_table
from plan_editor.cli.table import columns
from plan_editor.cli.verb import Said
from plan_editor.commands.frame import GridTold, grid_told
from plan_editor.commands.history import Log, longer
from plan_editor.commands.reading import read
from plan_editor.commands.safety import without_zone
from plan_editor.ground.base_plans import Listed, listed
from plan_editor.ground.clearance import KeptFrom, Zone, zones
from plan_editor.ground.measures import Measure, extent, measures
from plan_editor.ground.rules import Purpose
from plan_editor.ground.sections import churchyards, sections
from plan_editor.plan.plan import Plan
from plan_editor.records.safety import standings, unsafe
from plan_editor.storage.log import Line
from plan_editor.storage.verifying import verify as look_through
from plan_editor.survey.grids.grid import Grid

_BASIS = (
    "Areas and lengths are on the flat, in metres of the grid; they are as good as the survey"
    " that each place rests on."
)

_UNTOLD = (
    "Memorials without an inspection that came to a result: {untold} of {count}. Whether"
    " those are safe is not known."
)

_BARE = "Unsafe, and no rule says how far to keep off: {}. Fence it off as you see fit."


def show(asked: Namespace) -> Said:
    """Count what there is, with areas and lengths."""
    file = read(Path(asked.plan))
    plan = file.plan
    found = measures(plan)
    box = extent(plan)
    corners = _in_crs(plan.grid, box) if box else None
    grid = grid_told(plan)
    facts = {
        "name": plan.name,
        "crs": plan.grid.crs,
        "origin": [plan.grid.east, plan.grid.north],
        "scale_factor": grid.scale_factor,
        "convergence_deg": grid.convergence_deg,
        "extent": corners,
        "items": sum(m.count for m in found),
        "kinds": {m.kind.name: _measured(m) for m in found},
        "churchyards": piece_facts(churchyards(plan)),
        "sections": piece_facts(sections(plan)),
        "basis": _BASIS,
        "remarks": list(file.remarks),
    }
    text = _shown(plan, grid, found, corners)
    return Said(text="\n".join((text, *file.remarks)), facts=facts)


def clearance(asked: Namespace) -> Said:
    """Say how far to keep from what is unsafe."""
    on = day(asked.date)
    file = read(Path(asked.plan))
    plan = file.plan
    purpose = Purpose(asked.purpose) if asked.purpose else None
    known = standings(plan, on=on, kinds=("memorial",))
    found = zones(plan, unsafe(plan, on=on), purpose=purpose)
    untold = sum(s.latest is None for s in known)
    bare = without_zone(plan, on)
    facts = {
        "date": on,
        "crs": plan.grid.crs,
        "zones": [_zone(z, plan.grid) for z in found],
        "memorials": len(known),
        "without_result": untold,
        "without_zone": list(bare),
        "basis": _BASIS,
        "remarks": list(file.remarks),
    }
    doubt = _UNTOLD.format(untold=untold, count=len(known))
    doubts = [doubt] if untold else []
    doubts += [_BARE.format(", ".join(bare))] if bare else []
    text = "\n".join((_told(found, on), *doubts, *file.remarks))
    return Said(text=text, facts=facts)


def base_list(asked: Namespace) -> Said:
    """Say which base plans there are."""
    file = read(Path(asked.plan))
    found = listed(file.plan)
    text = "\n".join(map(_base_plan_line, found)) or "There is no base plan yet."
    facts = {"base_plans": [asdict(one) for one in found], "remarks": list(file.remarks)}
    return Said(text="\n".join((text, *file.remarks)), facts=facts)


def history(asked: Namespace) -> Said:
    """Say who changed what, and when; the latest last."""
    log = longer(Path(asked.plan), Log())
    rows = [(str(n.number), n.when, n.author, _line_told(log, n)) for n in log.lines]
    text = "\n".join("  ".join(row) for row in rows) or "Nothing was changed yet."
    return Said(text=text, facts={"entries": [_line_facts(log, line) for line in log.lines]})


def verify(asked: Namespace) -> Said:
    """Look for damage, and for changes by other programs."""
    report = look_through(Path(asked.plan))
    held = f"{report.items} things, {report.entries} log entries, {report.media} media"
    text = (
        f"{report.path.name} is whole: {held}." if report.whole else "\n".join(report.findings)
    )
    facts = {
        "items": report.items,
        "entries": report.entries,
        "media": report.media,
        "findings": list(report.findings),
    }
    return Said(text=text, facts=facts, code=0 if report.whole else 1)


def _line_told(log: Log, line: Line) -> str:
    title = log.told(line)
    return f"{title}; from here on in {line.grid.told()}" if line.moves_grid else title


def _line_facts(log: Log, line: Line) -> dict[str, Any]:
    grid = {"crs": line.grid.crs, "origin": [line.grid.east, line.grid.north]}
    return {**asdict(line), "grid": grid, "taken_back": line.number in log.taken_back}


def _in_crs(grid: Grid, box: tuple[float, float, float, float]) -> list[float]:
    east, north = grid.to_crs(box[0], box[1])
    far_east, far_north = grid.to_crs(box[2], box[3])
    return [round(n, 3) for n in (east, north, far_east, far_north)]


def _measured(measure: Measure) -> dict[str, Any]:
    return {
        "count": measure.count,
        "area_m2": round(measure.area_m2, 3),
        "length_m": round(measure.length_m, 3),
    }


def _shown(
    plan: Plan, grid: GridTold, found: tuple[Measure, ...], corners: list[float] | None
) -> str:
    where = "nothing is drawn yet"
    if corners:
        e0, n0, e1, n1 = corners
        where = f"E {e0:.2f} to {e1:.2f}, N {n0:.2f} to {n1:.2f}"
    rows = [
        (m.kind.plural, str(m.count), _figure(m.area_m2), _figure(m.length_m)) for m in found
    ]
    table = columns((("", "count", "area m2", "length m"), *rows)) if rows else ""
    pieces = filter(None, (piece_table(plan),))
    lines = [
        plan.name,
        f"Coordinate system: {plan.grid.crs}; {where}",
        f"{grid.scale} {grid.north}".strip(),
    ]
    return "\n".join(
        (*lines, "", table, "", *(f"{p}\n" for p in pieces), _BASIS) if rows else lines
    )


def _figure(number: float) -> str:
    return f"{number:,.1f}" if number else ""


def _zone(zone: Zone, grid: Grid) -> dict[str, Any]:
    there = translate(zone.shape, grid.east, grid.north)
    return {
        "rule": zone.rule.name,
        "purpose": zone.rule.purpose.value,
        "items": [_kept(k) for k in zone.kept_from],
        "distance_m": round(zone.distance_m, 3),
        "area_m2": round(zone.area_m2, 3),
        "wkt": shapely.to_wkt(there, rounding_precision=3),
        "source": zone.rule.source,
        "caution": zone.rule.caution,
        "local_rule": zone.rule.local_rule,
    }


def _kept(kept: KeptFrom) -> dict[str, Any]:
    return {
        "id": kept.item.id,
        "number": kept.item.number,
        "distance_m": round(kept.distance_m, 3),
        "assumed": list(kept.assumed),
    }


def _told(found: tuple[Zone, ...], on: str) -> str:
    if not found:
        return f"By the inspections up to {on} nothing with a zone is known to be unsafe."
    lines = [f"By the inspections up to {on}:"]
    for rule in dict.fromkeys(z.rule for z in found):
        lines += ["", rule.title, rule.source, rule.caution, ""]
        rows = [_zone_row(z) for z in found if z.rule is rule]
        lines.append(columns((("round", "distance m", "area m2"), *rows)))
    return "\n".join((*lines, "", _BASIS))


def _zone_row(zone: Zone) -> tuple[str, ...]:
    names = ", ".join(_name(k) for k in zone.kept_from)
    return names, f"{zone.distance_m:.2f}", f"{zone.area_m2:.1f}"


def _name(kept: KeptFrom) -> str:
    return f"{kept.item.number or 'no number'}{' (height assumed)' if kept.assumed else ''}"


def _base_plan_line(one: Listed) -> str:
    sort = one.sort if one.page == 1 else f"{one.sort} (page {one.page})"
    if not one.placed:
        return f"{one.name}: {sort}, not placed yet"
    misfit = "" if one.rmse_m is None else f", its points agree within {one.rmse_m:.3f} m"
    if one.loo_rmse_m is not None:
        misfit += f", one left out is missed by {one.loo_rmse_m:.3f} m"
    unit = "pixel" if one.sort == "scan" else "unit"
    return f"{one.name}: {sort}, {one.model} fit, {one.metres:.4g} m to the {unit}{misfit}"
