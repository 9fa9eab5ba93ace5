"""Write a plan as a DXF drawing, and say what is in it and what stayed behind."""

from collections import Counter
from datetime import datetime
from pathlib import Path
from typing import Any

from plan_editor.exchange.format import Report
from plan_editor.exchange.formats.dxf.document import Made, drawing_of
from plan_editor.exchange.whole import written_whole
from plan_editor.plan.item import BASE_PLAN, Item
from plan_editor.plan.kind import Kind
from plan_editor.plan.plan import Plan


def write(plan: Plan, path: Path) -> Report:
    """Write a plan to a DXF file (R2010), whole or not at all.

    Metres, and the true coordinates of the plan's system; base plans, the register and what is
    private stay out.

    Raises:
        NoRoom, NotAllowed: it could not be written; what was there before is as it was.
    """
    made = drawing_of(plan, datetime.now().astimezone().date().isoformat())
    with written_whole(path) as beside:
        made.document.saveas(beside)
    return Report(done=_done(made), passed_over=_passed_over(plan))


def _done(made: Made) -> tuple[str, ...]:
    counts: Counter[Kind] = Counter()
    for group in made.groups:
        counts[group.kind] += len(group.items)
    done = [_counted(count, kind) for kind, count in counts.items()]
    if zones := len(made.zones):
        done.append(f"{zones:,} zone{'' if zones == 1 else 's'} to keep off")
    return tuple(done)


def _counted(count: int, kind: Kind) -> str:
    return f"{count:,} {(kind.title if count == 1 else kind.plural).lower()}"


def _passed_over(plan: Plan) -> tuple[str, ...]:
    items = plan.items.values()
    base = sum(item.kind.name == BASE_PLAN for item in items)
    placeless = sum(item.shape is None and item.kind.name != BASE_PLAN for item in items)
    private = sum(_holds_private(item) for item in items)
    told = (
        (base, "base plans"),
        (placeless, "entries without a place on the ground, such as those of the register"),
        (private, "entries with private details of living people"),
    )
    return tuple(f"{words} ({count:,})" for count, words in told if count)


def _holds_private(item: Item[Any]) -> bool:
    return any(
        detail.about.private and getattr(item.details, detail.name) != detail.default
        for detail in item.kind.entries()
    )
