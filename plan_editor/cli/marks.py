"""The verbs ``marks advise`` and ``marks list``."""

from argparse import Namespace
from pathlib import Path
from typing import Any

from plan_editor.cli.table import columns
from plan_editor.cli.verb import Said
from plan_editor.commands.marks import MarkLine, mark_lines
from plan_editor.commands.reaching import (
    CAUTION,
    LIMITS_M,
    NOTHING_HELPS,
    Advice,
    advice,
    checked_words,
    gains,
    own_words,
    place_words,
    quantile_words,
    read_tape,
    share,
    shares,
)
from plan_editor.commands.reading import read
from plan_editor.ground.new_marks import NewMark
from plan_editor.survey.adjustment.fixes import Fixes


def advise(asked: Namespace) -> Said:
    """Say how well pegs can be set out, and where new marks would help."""
    file = read(Path(asked.plan))
    found = advice(file.plan, read_tape(asked.tape))
    basis = found.today.basis()
    facts = {
        "crs": file.plan.grid.crs,
        "tape_m": found.today.tape_m,
        "marks": len(found.today.marks),
        "cell_m": round(found.today.cells.side_m, 3),
        "ground_m2": round(found.today.cells.ground.area, 1),
        "today": _served(found.today.fixes),
        "advice": [
            _place(found, n, f, words)
            for n, f, words in zip(found.new, found.stages[1:], gains(found), strict=True)
        ],
        "basis": list(basis),
        "caution": CAUTION,
        "remarks": list(file.remarks),
    }
    text = "\n".join((_told(found), "", *basis, CAUTION, *file.remarks))
    return Said(text=text, facts=facts, code=1 if found.today.fixes.out_of_reach else 0)


def list_marks(asked: Namespace) -> Said:
    """Say which marks there are, where, how well they are known and how they are found."""
    file = read(Path(asked.plan))
    found = mark_lines(file.plan)
    rows = [("mark", "E", "N", "known to", "", "how to find it"), *map(_row, found)]
    table = columns(rows, left=(0, 4, 5)) if found else "There is no mark on this plan yet."
    facts = {
        "crs": file.plan.grid.crs,
        "marks": [_facts(line) for line in found],
        "remarks": list(file.remarks),
    }
    return Said(text="\n".join((table, *file.remarks)), facts=facts)


def _row(line: MarkLine) -> tuple[str, ...]:
    east, north = ("" if c is None else f"{c:.3f}" for c in (line.east, line.north))
    return line.number, east, north, line.sd, line.stays, line.description


def _facts(line: MarkLine) -> dict[str, Any]:
    east, north = (None if c is None else round(c, 3) for c in (line.east, line.north))
    return {
        "id": line.item,
        "name": line.number,
        "E": east,
        "N": north,
        "sd_m": line.sd_m,
        "method": line.method,
        "permanent": line.permanent,
        "description": line.description,
    }


def _served(fixes: Fixes) -> dict[str, Any]:
    two = max(1.0 - fixes.out_of_reach - fixes.share_checked, 0.0)
    return {
        "within_mm": {f"{m * 1000:.0f}": round(fixes.within(m), 4) for m in LIMITS_M},
        "out_of_reach": round(fixes.out_of_reach, 4),
        "checked": round(fixes.share_checked, 4),
        "unchecked": round(two, 4),
        "peg_error_mm": {
            name: None if (error := fixes.quantile(part)) is None else round(error * 1000, 1)
            for name, part in (("50 %", 0.5), ("75 %", 0.75), ("90 %", 0.9))
        },
    }


def _place(found: Advice, new: NewMark, fixes: Fixes, gained: str) -> dict[str, Any]:
    east, north = found.grid.to_crs(new.place.east, new.place.north)
    return {
        "E": round(east, 3),
        "N": round(north, 3),
        "place": new.place.words,
        "sd_m": round(new.sd_m, 4),
        "by": "tape" if new.taped else "GNSS",
        "with_it": _served(fixes),
        "gain": gained,
        "reason": f"{place_words(found.grid, new)}: {gained}.",
    }


def _told(found: Advice) -> str:
    fixes = found.today.fixes
    count = len(found.today.marks)
    marks = "the one mark" if count == 1 else f"the {count} marks"
    rows = [("peg error", "of the ground"), *((c.title, share(s)) for c, s in shares(fixes))]
    lines = [
        f"By a tape of {found.today.tape_m:g} m from {marks} of today:",
        columns(rows),
        *filter(None, (quantile_words(fixes), checked_words(fixes))),
        "",
    ]
    if not found.new:
        return "\n".join((*lines, NOTHING_HELPS))
    lines.append("New permanent marks that would help most, each with those before it:")
    for number, (new, gained) in enumerate(zip(found.new, gains(found), strict=True), 1):
        lines.append(f"{number}. {place_words(found.grid, new)}: {gained}")
        lines.append(f"   ({own_words(new)}).")
    return "\n".join(lines)
