"""The evidence of what was done about one thing, in the order of its days."""

from plan_editor.declared import late
from plan_editor.plan.plan import Plan
from plan_editor.printing.sheet import Asked, Sheet, not_loaded
from plan_editor.records.chronology import photographs


def _pictures(plan: Plan, asked: Asked) -> tuple[str, ...]:
    if asked.item is None or asked.item not in plan.items:
        return ()
    return photographs(plan, asked.item, contacts=asked.contacts)


SHEET = Sheet(
    name="evidence",
    title="Evidence",
    order=80,
    purpose="What was found and done about one thing, day by day, with its photographs, and how"
    " the record of it was kept.",
    compose=late("plan_editor.printing.sheets.evidence.made", "compose", not_loaded),
    about=(
        "memorial",
        "grave",
        "ashes_plot",
        "vault",
        "tree",
        "wall",
        "building",
        "gate",
        "fence",
        "hedge",
        "path",
        "steps",
        "bench",
        "notice_board",
        "light",
    ),
    pictures=_pictures,
    chronicle=True,
)
