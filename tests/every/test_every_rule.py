"""What holds for every rule of the plan check: it only looks, and a mend mends."""

from math import isfinite

import shapely
from hypothesis import example, given
from hypothesis import strategies as st
from strategies import one_of_each, plans

from plan_editor.checking.rule import Finding, findings, rules
from plan_editor.errors import EditRefused
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import boundary, grass, grave, memorial, section
from plan_editor.plan.document import Document
from plan_editor.plan.item import Basis, Method, new_item
from plan_editor.plan.plan import Plan, plan_of

steps = st.integers(0, 40).map(lambda n: n / 4)
sides = st.sampled_from([0.1, 0.25, 1.0, 5.0, 9.75])
boxes = st.builds(
    lambda e, n, w, h: shapely.box(e, n, e + w, n + h), steps, steps, sides, sides
)
rectangles = st.builds(
    Rectangle,
    east=st.sampled_from([0.0, 0.0, 0.3, 0.9, 3.0]),
    north=st.integers(0, 12).map(lambda n: n * 1.25),
    width=st.sampled_from([1.2, 1.2, 4.0]),
    length=st.sampled_from([2.4, 2.4, 12.0]),
    bearing_deg=st.sampled_from([0.0, 0.0, 9.0, 30.0]),
)
sure = st.sampled_from([Basis(), Basis(sd_m=0.02), Basis(method=Method.TRACED, sd_m=0.3)])
crowded = st.lists(
    st.one_of(
        st.builds(new_item, st.sampled_from([grass.KIND, section.KIND]), boxes, basis=sure),
        st.builds(new_item, st.just(boundary.KIND), boxes, basis=sure),
        st.builds(
            new_item, st.sampled_from([grave.KIND, memorial.KIND]), rectangles, basis=sure
        ),
    ),
    max_size=16,
).map(plan_of)


def key(finding: Finding) -> tuple[str, frozenset[str], tuple[float, float] | None]:
    return finding.rule, frozenset(finding.items), finding.place


@given(st.one_of(plans(), crowded))
@example(one_of_each())
@example(Plan())
def test_a_rule_looks_at_any_plan_and_says_where_and_what(plan: Plan) -> None:
    for finding in findings(plan):
        assert finding.rule in {r.name for r in rules()}
        assert finding.items
        assert all(i in plan.items for i in finding.items)
        assert finding.text.endswith(".")
        assert "\n" not in finding.text
        assert finding.place is None or all(map(isfinite, finding.place))


@given(st.one_of(plans(), crowded))
@example(one_of_each())
def test_a_mend_is_refused_or_sets_right_what_was_found_and_can_be_undone(plan: Plan) -> None:
    for finding in findings(plan):
        if finding.mend is None:
            continue
        document = Document(plan)
        try:
            document.apply(finding.mend)
        except EditRefused:
            assert document.plan is plan
            continue
        rule = next(r for r in rules() if r.name == finding.rule)
        assert key(finding) not in {key(f) for f in findings(document.plan, rule)}
        document.undo()
        assert dict(document.plan.items) == dict(plan.items)
