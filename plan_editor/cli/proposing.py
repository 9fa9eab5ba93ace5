"""The verb that looks for graves on a scan, and draws those that are sure enough."""

from argparse import Namespace
from collections.abc import Sequence
from math import nan
from pathlib import Path
from typing import Any

from plan_editor.cli.changing import AUTHOR, refuse_if_changed_elsewhere
from plan_editor.cli.names import one_line
from plan_editor.cli.table import columns
from plan_editor.cli.verb import Said
from plan_editor.commands.making import KeptIn
from plan_editor.commands.proposing import accepted, scan_named
from plan_editor.commands.proposing import propose as proposed
from plan_editor.commands.reading import read
from plan_editor.errors import CannotUse
from plan_editor.geometry.bearings import as_degrees
from plan_editor.ground.proposals import Proposal
from plan_editor.plan.document import Document
from plan_editor.storage.plan_file import PlanFile
from plan_editor.survey.grids.grid import Grid

CAUTION = (
    "A proposal is what the scan seems to show. Look at each before it is relied on, and check"
    " by tape before anything is dug."
)


def propose(asked: Namespace) -> Said:
    """Say what a scan shows that is not drawn yet, or draw what is sure enough of it."""
    path = Path(asked.plan)
    name = one_line(asked.base, "--base")
    if asked.accept is None:
        found = read(path)
        base_plan = scan_named(found.plan, name)
        proposals = proposed(found.plan, KeptIn(path), base_plan, kind=asked.kind)
        return _said(name, found.plan.grid, proposals, found.remarks)
    least = _least(asked.accept)
    with PlanFile.open(path) as file:
        refuse_if_changed_elsewhere(file)
        document = Document(file.plan, journal=file, author=AUTHOR)
        base_plan = scan_named(document.plan, name)
        proposals = proposed(document.plan, file, base_plan, kind=asked.kind)
        sure = tuple(p for p in proposals if p.score >= least)
        remarks: tuple[str, ...] = ()
        if sure:
            document.apply(accepted(document.plan, sure, asked.kind))
            remarks = file.save()
    return _said(name, file.plan.grid, proposals, remarks, drawn=len(sure))


def _least(text: str) -> float:
    try:
        least = float(text)
    except ValueError:
        least = nan
    if not 0.0 <= least <= 1.0:
        raise CannotUse(
            f"“{text}” is no score; nothing was changed. Write a number from 0 to 1, such as"
            " --accept 0.5."
        )
    return least


def _said(
    name: str,
    grid: Grid,
    proposals: Sequence[Proposal],
    remarks: Sequence[str],
    drawn: int | None = None,
) -> Said:
    lines = [_heading(name, proposals, drawn)]
    if proposals:
        rows: list[tuple[str, ...]] = [("score", "E", "N", "wide m", "long m", "bearing")]
        rows += [_row(p, grid) for p in proposals]
        lines += ["", columns(rows, left=()), "", CAUTION]
    facts: dict[str, Any] = {
        "base": name,
        "crs": grid.crs,
        "proposals": [_facts(p, grid) for p in proposals],
        "drawn": drawn or 0,
        "caution": CAUTION,
        "remarks": list(remarks),
    }
    code = 1 if proposals and not drawn else 0
    return Said(text="\n".join((*lines, *remarks)), facts=facts, code=code)


def _heading(name: str, proposals: Sequence[Proposal], drawn: int | None) -> str:
    if not proposals:
        return f"“{name}” shows nothing more of the sizes that are drawn."
    count = "1 outline" if len(proposals) == 1 else f"{len(proposals)} outlines"
    shown = f"“{name}” seems to show {count} not drawn yet"
    if drawn is None:
        return f"{shown}; nothing was changed."
    return (
        f"{shown}; the {drawn} surest were drawn, without numbers."
        if drawn
        else (f"{shown}; none is that sure, and nothing was changed.")
    )


def _row(proposal: Proposal, grid: Grid) -> tuple[str, ...]:
    one = proposal.rectangle
    east, north = grid.to_crs(one.east, one.north)
    return (
        f"{proposal.score:.2f}",
        f"{east:.2f}",
        f"{north:.2f}",
        f"{one.width:.2f}",
        f"{one.length:.2f}",
        as_degrees(one.bearing_deg),
    )


def _facts(proposal: Proposal, grid: Grid) -> dict[str, Any]:
    one = proposal.rectangle
    east, north = grid.to_crs(one.east, one.north)
    return {
        "score": round(proposal.score, 4),
        "E": round(east, 3),
        "N": round(north, 3),
        "width_m": round(one.width, 3),
        "length_m": round(one.length, 3),
        "bearing_deg": round(one.bearing_deg, 2),
        "corners": [[round(c, 3) for c in grid.to_crs(*corner)] for corner in one.corners()],
    }
