"""The verb that puts measured points on a plan: looked at, then one edit, saved whole."""

from argparse import Namespace
from pathlib import Path
from typing import Any

from plan_editor.cli.changing import AUTHOR, refuse_if_changed_elsewhere
from plan_editor.cli.table import columns
from plan_editor.cli.verb import Said
from plan_editor.commands.point_files import look
from plan_editor.commands.point_words import accuracy, in_words
from plan_editor.commands.points import Ready, Told, codes_of, ready
from plan_editor.plan.document import Document
from plan_editor.plan.plan import Plan
from plan_editor.storage.loading import read_plan
from plan_editor.storage.plan_file import PlanFile

SHOWN = 40
"""So many points are listed; a program gets them all."""


def points(asked: Namespace) -> Said:
    """Put the points of a file on a plan, or say what would become of them."""
    if asked.dry_run:
        return _said(asked, _ready(read_plan(Path(asked.plan)), asked), ())
    with PlanFile.open(Path(asked.plan)) as file:
        refuse_if_changed_elsewhere(file)
        document = Document(file.plan, journal=file, author=AUTHOR)
        found = _ready(document.plan, asked)
        remarks: tuple[str, ...] = ()
        if found.edit is not None:
            document.apply(found.edit)
            remarks = tuple(file.save())
    return _said(asked, found, remarks)


def _ready(plan: Plan, asked: Namespace) -> Ready:
    codes = codes_of(None if asked.map is None else Path(asked.map))
    return ready(plan, look(Path(asked.file)), crs=asked.crs, codes=codes)


def _said(asked: Namespace, found: Ready, remarks: tuple[str, ...]) -> Said:
    done = "Nothing was changed: this was a dry run." if asked.dry_run else ""
    lines = [
        in_words(found, dry=asked.dry_run),
        *_table(found),
        accuracy(found),
        *found.sentences,
        done,
    ]
    return Said(
        text="\n".join(filter(None, (*lines, *remarks))),
        facts=_facts(asked, found),
        code=1 if found.left_out or found.differs else 0,
    )


def _table(found: Ready) -> list[str]:
    rows = [("point", "becomes", "east", "north", "sd"), *map(_row, found.points[:SHOWN])]
    more = len(found.points) - SHOWN
    return [columns(rows, left=(0, 1)), f"and {more} more" if more > 0 else ""]


def _row(told: Told) -> tuple[str, ...]:
    sd = "" if told.point.sd_m is None else f"{told.point.sd_m:.3f}"
    name = told.point.name or f"line {told.point.line}"
    became = told.became or "on the plan already"
    return name, became, f"{told.east:.3f}", f"{told.north:.3f}", sd


def _facts(asked: Namespace, found: Ready) -> dict[str, Any]:
    return {
        "plan": asked.plan,
        "file": asked.file,
        "dry_run": asked.dry_run,
        "points": [_point(told) for told in found.points],
        "warnings": list(found.sentences),
        "crs": found.crs,
        "by": found.by,
        "accuracy_m": found.accuracy_m,
        "added": dict(found.added),
        "agrees": found.agrees,
        "differs": list(found.differs),
        "left_out": list(found.left_out),
    }


def _point(told: Told) -> dict[str, Any]:
    point = told.point
    return {
        "name": point.name,
        "E": told.east,
        "N": told.north,
        "sd": point.sd_m,
        "height": point.height,
        "height_above": point.datum,
        "code": point.code,
        "kind": told.kind,
        "line": point.line,
    }
