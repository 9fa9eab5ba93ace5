"""Whatever a plan holds, its register is matched, looked through and compared."""

from hypothesis import given
from hypothesis import strategies as st
from strategies import plans

from plan_editor.plan.plan import Plan
from plan_editor.records.looking_up import ready
from plan_editor.records.matching import LEAST, proposals
from plan_editor.records.work_list import work_list


@given(plans(), st.text(max_size=20))
def test_any_plan_is_matched_looked_through_and_compared(plan: Plan, typed: str) -> None:
    assert all(LEAST <= p.score <= 1.0 for p in proposals(plan))
    assert all(f.item in plan.items for f in ready(plan).find(typed))
    assert all(i in plan.items for task in work_list(plan) for i in task.items)
