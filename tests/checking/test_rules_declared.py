import pytest
from churchyards import found, grave_at

from plan_editor.checking.rule import findings, rule_named, rules
from plan_editor.errors import PlanEditorError
from plan_editor.plan.plan import Plan, plan_of
from plan_editor.resources import sample
from plan_editor.storage.loading import read_plan


def test_an_empty_plan_has_nothing_to_find() -> None:
    assert list(findings(Plan())) == []


@pytest.mark.parametrize("rule", rules(), ids=lambda r: r.name)
def test_a_rule_says_what_it_finds_and_where_its_figures_come_from(rule) -> None:
    assert rule.help.endswith(".")
    assert rule.source
    assert rule.title == rule.title.strip()
    assert rule_named(rule.name) is rule


def test_a_rule_that_is_not_there_is_told_with_those_that_are() -> None:
    with pytest.raises(PlanEditorError, match=r"no rule called “graves”.*overlapping_graves"):
        rule_named("graves")


def test_findings_come_in_the_same_order_every_time_and_name_their_rule() -> None:
    plan = plan_of([grave_at(0, n * 1.0, f"A {n}") for n in range(6)])
    once = list(findings(plan))
    assert once == list(findings(plan))
    assert {f.rule for f in once} <= {r.name for r in rules()}
    assert found("overlapping_graves", plan) == tuple(
        f for f in once if f.rule == "overlapping_graves"
    )


def test_the_sample_has_no_fault() -> None:
    plan = read_plan(sample("harrowmere.gpkg"))
    assert [f.text for f in findings(plan)] == []
