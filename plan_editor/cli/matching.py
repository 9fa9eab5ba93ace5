"""The verbs that match the burial register with the ground, and that find a grave."""

from argparse import Namespace
from collections.abc import Sequence
from math import nan
from pathlib import Path
from typing import Any

from plan_editor.cli.changing import AUTHOR, refuse_if_changed_elsewhere
from plan_editor.cli.table import columns
from plan_editor.cli.verb import Said
from plan_editor.commands.matching import (
    CAUTION,
    Compared,
    accepted,
    compare,
    counted,
    row_of,
    why,
)
from plan_editor.commands.reading import read
from plan_editor.errors import CannotUse
from plan_editor.plan.document import Document
from plan_editor.plan.item import ItemId
from plan_editor.plan.plan import Plan
from plan_editor.records.looking_up import FoundGrave, ready
from plan_editor.records.matching import GraveProposal
from plan_editor.records.work_list import Task
from plan_editor.storage.plan_file import PlanFile


def match(asked: Namespace) -> Said:
    """Say which graves are likely and what is to be looked into; 1 while there is anything."""
    path = Path(asked.plan)
    if asked.accept is None:
        there = read(path)
        return _said(there.plan, compare(there.plan), 0, there.remarks)
    least = _least(asked.accept)
    with PlanFile.open(path) as file:
        refuse_if_changed_elsewhere(file)
        document = Document(file.plan, journal=file, author=AUTHOR)
        sure = compare(document.plan).sure(least)
        remarks: tuple[str, ...] = ()
        if sure:
            document.apply(accepted(sure))
            remarks = file.save()
        plan = document.plan
    return _said(plan, compare(plan), len(sure), remarks)


def find(asked: Namespace) -> Said:
    """Say which entries and stones fit what was typed; 1 if none does."""
    there = read(Path(asked.plan))
    found = ready(there.plan).find(asked.text)
    lines = [f.text for f in found] or [f"Nothing on the plan fits “{asked.text}”."]
    facts = {
        "text": asked.text,
        "found": [_found(f, there.plan) for f in found],
        "remarks": list(there.remarks),
    }
    return Said(text="\n".join((*lines, *there.remarks)), facts=facts, code=int(not found))


def _least(text: str) -> float:
    try:
        least = float(text)
    except ValueError:
        least = nan
    if not 0.0 < least <= 1.0:
        raise CannotUse(
            f"“{text}” is no score; nothing was changed. Write a number above 0 and up to 1,"
            " such as --accept 0.75."
        )
    return least


def _said(plan: Plan, compared: Compared, matched: int, remarks: Sequence[str]) -> Said:
    lines: list[str] = []
    if matched:
        lines += [f"{_many(matched)} matched, in one step.", ""]
    if best := compared.best:
        rows = [("score", "entry", "grave", "why")]
        lines += [columns([*rows, *((*row_of(plan, p), why(p)) for p in best)], left=(1, 2, 3))]
        lines += ["", CAUTION, ""]
    lines += [f"{t.sort}: {t.says}" for t in compared.tasks]
    lines.append(_summed(compared))
    facts = {
        "matched": matched,
        "proposals": [_proposal(p, plan) for p in compared.proposals],
        "work": [_task(t, plan) for t in compared.tasks],
        "caution": CAUTION,
        "remarks": list(remarks),
    }
    code = int(bool(compared.tasks))
    return Said(text="\n".join((*lines, *remarks)), facts=facts, code=code)


def _many(count: int) -> str:
    return "1 entry was" if count == 1 else f"{count} entries were"


def _summed(compared: Compared) -> str:
    if not compared.tasks:
        return "Register and ground agree."
    counts = "; ".join(f"{sort}: {count}" for sort, count in counted(compared.tasks))
    return f"To be looked into: {len(compared.tasks)} ({counts})."


def _proposal(proposal: GraveProposal, plan: Plan) -> dict[str, Any]:
    return {
        "entry": _item(proposal.entry, plan),
        "grave": _item(proposal.grave, plan),
        "score": proposal.score,
        "reasons": list(proposal.reasons),
    }


def _task(task: Task, plan: Plan) -> dict[str, Any]:
    items = [_item(i, plan) for i in task.items]
    return {"sort": str(task.sort), "items": items, "says": task.says}


def _found(found: FoundGrave, plan: Plan) -> dict[str, Any]:
    lies = None if found.grave is None else _item(found.grave, plan)
    return {
        "item": _item(found.item, plan),
        "grave": lies,
        "text": found.text,
        "score": found.score,
    }


def _item(item: ItemId, plan: Plan) -> dict[str, str]:
    there = plan.items[item]
    return {"id": item, "kind": there.kind.name, "number": there.number}
