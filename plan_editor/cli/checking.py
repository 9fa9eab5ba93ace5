"""The verb that looks through a plan for slips of drawing."""

from argparse import Namespace
from pathlib import Path
from typing import Any

from plan_editor.cli.verb import Said
from plan_editor.commands.checking import NOTHING_FOUND, Checked, Told, counted
from plan_editor.commands.checking import check as check_plan
from plan_editor.commands.reading import read
from plan_editor.plan.item import ItemId
from plan_editor.plan.plan import Plan


def check(asked: Namespace) -> Said:
    """Say what the rules find; 1 if there is anything."""
    file = read(Path(asked.plan))
    found = check_plan(file.plan, asked.rule or "")
    assert found is not None  # noqa: S101  # nobody cancels it here
    facts = {
        "plan": file.plan.name,
        "crs": file.plan.grid.crs,
        "rules": [r.name for r in found.rules],
        "findings": [_finding(t, file.plan) for t in found.told],
        "let_stand": found.stand,
        "remarks": list(file.remarks),
    }
    lines = [*(_line(t, file.plan) for t in found.told), _summed(found), *file.remarks]
    return Said(text="\n".join(lines), facts=facts, code=int(bool(found.told)))


def _line(told: Told, plan: Plan) -> str:
    finding = told.finding
    place = _place(told, plan)
    where = "no place" if place is None else f"E {place[0]:.2f} N {place[1]:.2f}"
    mend = f" [{finding.mend.title}]" if finding.mend is not None else ""
    return f"{finding.severity}  {finding.rule}  {where}  {finding.text}{mend}"


def _summed(found: Checked) -> str:
    stand = f" {found.stand} more were let stand." if found.stand else ""
    return f"{f'{counted(found)}.' if found.told else NOTHING_FOUND}{stand}"


def _finding(told: Told, plan: Plan) -> dict[str, Any]:
    finding = told.finding
    return {
        "rule": finding.rule,
        "severity": str(finding.severity),
        "items": [_item(i, plan) for i in finding.items],
        "place": _place(told, plan),
        "text": finding.text,
        "mend": None if finding.mend is None else finding.mend.title,
    }


def _item(item: ItemId, plan: Plan) -> dict[str, str]:
    there = plan.items[item]
    return {"id": item, "kind": there.kind.name, "number": there.number}


def _place(told: Told, plan: Plan) -> list[float] | None:
    if told.finding.place is None:
        return None
    return [round(n, 3) for n in plan.grid.to_crs(*told.finding.place)]
