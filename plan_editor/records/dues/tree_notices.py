"""Notices to the council of work on trees in a conservation area: their days.

It may be done after six weeks from the date of the notice and before two years from it, or with
the council's consent: Town and Country Planning Act 1990, s. 211 (3) (b), from memory.
"""

from plan_editor.kinds import tree
from plan_editor.kinds.tree import TreeDetails
from plan_editor.plan.item import Item
from plan_editor.plan.plan import Plan
from plan_editor.records.days import days_after, first_day, last_day, months_after
from plan_editor.records.due import Due, SortOfDue

SIX_WEEKS = 42
TWO_YEARS = 24

_SORT = "tree_notices"


def find(plan: Plan, on: str) -> tuple[Due, ...]:
    """Return the day on which each six weeks end, and the day on which its two years do."""
    del on  # days to know of, whether past or to come
    told = (t for t in plan.of(tree.KIND) if t.details.conservation_area)
    return tuple(due for t in told if t.details.notice_given for due in _dues(t))


def _dues(found: Item[TreeDetails]) -> tuple[Due, Due]:
    given = found.details.notice_given
    called = found.called()
    # a notice of a month was given on its last day for the one, and on its first for the other
    ended = days_after(last_day(given), SIX_WEEKS)
    return (
        Due(
            sort=_SORT,
            key=f"{found.id} six weeks",
            date=ended,
            title=f"{called}: the council's six weeks end",
            says="Without its consent no work before this day is over. A preservation order"
            " needs consent all the same, and birds on the nest are protected.",
            item=found.id,
        ),
        Due(
            sort=_SORT,
            key=f"{found.id} two years",
            date=months_after(first_day(given), TWO_YEARS),
            title=f"{called}: the notice to the council is two years old",
            says="Work that is not done before this day needs a new notice.",
            item=found.id,
        ),
    )


DUE = SortOfDue(
    name=_SORT,
    title="Tree notices",
    task=False,
    find=find,
    source="Town and Country Planning Act 1990, s. 211: six weeks, and two years.",
)
