"""The days of the sample agree with one another, and its things read right when called."""

import pytest

from plan_editor.kinds import cordon, inspection, paper, tracing, vault
from plan_editor.kinds.inspection import Result
from plan_editor.kinds.paper import Sort
from plan_editor.kinds.tracing import Step
from plan_editor.plan.item import ItemId
from plan_editor.plan.plan import Plan
from plan_editor.records.days import first_day, last_day
from plan_editor.resources import sample
from plan_editor.storage.loading import read_plan
from plan_editor.storage.log import read_entry, read_history


@pytest.fixture(scope="module")
def plan() -> Plan:
    return read_plan(sample("harrowmere.gpkg"))


@pytest.fixture(scope="module")
def failed(plan: Plan) -> dict[ItemId, str]:
    """Return on which day each thing was first found unsafe."""
    found: dict[ItemId, str] = {}
    for look in plan.of(inspection.KIND):
        if look.details.result is Result.IMMEDIATE:
            day = look.details.date
            found[look.details.target] = min(day, found.get(look.details.target, day))
    return found


def test_nothing_is_fenced_off_before_it_was_found_unsafe(
    plan: Plan, failed: dict[ItemId, str]
) -> None:
    cordons = plan.of(cordon.KIND)
    assert cordons
    for one in cordons:
        told = one.details
        assert failed[told.target] <= told.since
        assert told.since <= (told.notice or told.since)


def test_what_was_fenced_off_the_same_day_was(plan: Plan, failed: dict[ItemId, str]) -> None:
    same = [
        i.details
        for i in plan.of(inspection.KIND)
        if i.details.action.endswith("Fenced off the same day.")
    ]
    assert same
    since = {c.details.target: c.details.since for c in plan.of(cordon.KIND)}
    for told in same:
        assert since[told.target] == told.date == failed[told.target]


def test_no_family_is_looked_for_before_its_stone_was_found_unsafe(
    plan: Plan, failed: dict[ItemId, str]
) -> None:
    steps = plan.of(tracing.KIND)
    assert {s.details.step for s in steps} >= {Step.LETTER, Step.NOTICE_ON_STONE}
    for step in steps:
        assert failed[step.details.target] <= step.details.date


def test_a_sketch_of_a_stone_was_made_when_it_was_looked_at(plan: Plan) -> None:
    looked = {(i.details.target, i.details.date) for i in plan.of(inspection.KIND)}
    things = {target for target, _ in looked}
    sketches = [
        p.details
        for p in plan.of(paper.KIND)
        if p.details.sort is Sort.PHOTOGRAPH and p.details.target in things
    ]
    assert sketches
    for told in sketches:
        assert first_day(told.date) == last_day(told.date)
        assert (told.target, told.date) in looked


def test_a_vault_is_called_by_its_number_once(plan: Plan) -> None:
    assert [v.called() for v in plan.of(vault.KIND)] == ["Vault Chancel"]


def test_nothing_is_written_down_before_its_day(plan: Plan) -> None:
    late = ("date", "asked", "received", "since", "looked_at", "done", "died")
    for line in read_history(sample("harrowmere.gpkg")):
        entry = read_entry(sample("harrowmere.gpkg"), line.number)
        for change in entry.changes:
            if change.before is None and change.after is not None:
                told = [getattr(change.after.details, name, "") for name in late]
                assert all(first_day(day) <= entry.when[:10] for day in told if day)
