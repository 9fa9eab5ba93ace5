"""The families of unsafe stones: what was done to find each, the next step, its recording."""

from dataclasses import dataclass
from typing import Any

from plan_editor.commands.today import today
from plan_editor.drawing.dates import in_words
from plan_editor.edits.basic import Add
from plan_editor.edits.chosen import called_on
from plan_editor.edits.tracing import RecordStep
from plan_editor.plan.detail import Detail
from plan_editor.plan.document import Document
from plan_editor.plan.edit import Edit
from plan_editor.plan.item import ItemId, new_item
from plan_editor.plan.kind import kind_of_ours
from plan_editor.plan.numbers import natural
from plan_editor.plan.plan import Plan
from plan_editor.records.tracing import RECKONED, Trail, runs_until, trails, usual_step
from plan_editor.records.wordings import as_own

CAUTION = (
    "Keep people off an unsafe stone at once: that waits for no notice. What may be done to a"
    " stone whose family is not found, the diocese's rules and the registry say."
)
RECKONING = RECKONED

_FIELDS = ("step", "date", "days", "contact", "where", "by", "says")


@dataclass(frozen=True, slots=True, kw_only=True)
class FamilyLine:
    """One stone in the list.

    Args:
        item: the stone.
        number: what it is called.
        family: whether it is known.
        ends: ISO date on which the longest letter or notice ends; empty where none runs.
        next: what comes next.
        steps: what was done: day, step, and until when it runs.
    """

    item: ItemId
    number: str
    family: str
    ends: str
    next: str
    steps: tuple[tuple[str, str, str], ...]


def family_lines(plan: Plan) -> tuple[FamilyLine, ...]:
    """Return the stones that are unsafe today, or only made safe, by number."""
    lines = (_line(t) for t in trails(plan, today()))
    return tuple(sorted(lines, key=lambda x: natural(x.number)))


def step_fields() -> tuple[Detail, ...]:
    """Return what is asked of a step, in order."""
    by_name = {d.name: d for d in kind_of_ours("tracing").entries()}
    return tuple(by_name[name] for name in _FIELDS)


def usual_values(plan: Plan, stone: ItemId) -> dict[str, Any]:
    """Return what the fields of a new step hold at first."""
    found = next((t for t in trails(plan, today()) if t.stone.id == stone), None)
    if found is None:
        return {"date": today()}
    usual = usual_step(found, today())
    return {name: getattr(usual, name) for name in ("step", "date", "days")}


def record_step(document: Document, stone: ItemId, values: dict[str, Any]) -> Edit:
    """Return the edit that records a step for a stone."""
    return RecordStep(
        target=stone,
        details=kind_of_ours("tracing").details(**values),
        called=called_on(document.plan, (stone,)),
    )


def word_yourself(plan: Plan) -> Edit | None:
    """Return the edit that copies the shipped words into the plan, to be changed there.

    None where the parish has its own words for every notice and letter.
    """
    found = as_own(plan)
    kind = kind_of_ours("wording")
    return Add(tuple(new_item(kind, details=d) for d in found)) if found else None


def words_in_use(plan: Plan) -> tuple[ItemId, ...]:
    """Return the wordings that are kept on the plan, the first of which is shown."""
    return tuple(w.id for w in plan.of(kind_of_ours("wording")))


def next_told(line: FamilyLine) -> str:
    """Return what comes next, in a sentence."""
    until = f" until {in_words(line.ends)}" if line.ends else ""
    return f"Next: {line.next}{until}."


def steps_told(line: FamilyLine) -> str:
    """Return what was done, a line for each step."""
    return "\n".join(
        f"{day}: {step}{f', {until}' if until else ''}" for day, step, until in line.steps
    )


def _line(trail: Trail) -> FamilyLine:
    return FamilyLine(
        item=trail.stone.id,
        number=trail.stone.number or trail.stone.called(),
        family="known" if trail.known else "not known",
        ends=trail.until,
        next=str(trail.next),
        steps=tuple(
            (in_words(s.details.date) or "no day", str(s.details.step), _until(runs_until(s)))
            for s in trail.steps
        ),
    )


def _until(day: str) -> str:
    return f"until {in_words(day)}" if day else ""
