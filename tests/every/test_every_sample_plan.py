"""Every plan that comes with the program opens, is true, and comes back as it was saved."""

import shutil
from pathlib import Path

import pytest

from plan_editor.ground.base_plans import laid
from plan_editor.plan.checks import fault_of, references
from plan_editor.plan.plan import Plan
from plan_editor.resources import sample
from plan_editor.scans.reading import probe
from plan_editor.storage.loading import read_media, read_plan
from plan_editor.storage.plan_file import PlanFile
from plan_editor.storage.verifying import verify

PLANS = sorted(sample("harrowmere.gpkg").parent.glob("*.gpkg"))


@pytest.fixture(params=PLANS, ids=lambda path: path.stem)
def path(request: pytest.FixtureRequest, tmp_path: Path) -> Path:
    return Path(shutil.copy(request.param, tmp_path))


def test_it_opens_and_nobody_else_has_changed_it(path: Path) -> None:
    with PlanFile.open(path) as kept:
        assert kept.changed_elsewhere == ()
        assert kept.remarks == ()
        assert kept.plan.revision == len(kept.entries())


def test_it_is_whole(path: Path) -> None:
    assert verify(path).whole


def test_it_comes_back_as_it_was_saved(path: Path) -> None:
    with PlanFile.open(path) as kept:
        before = kept.plan
        kept.save()
    after = read_plan(path)
    assert dict(after.items) == dict(before.items)
    assert (after.name, after.grid, after.revision) == (
        before.name,
        before.grid,
        before.revision,
    )


def test_every_item_on_it_is_sound(path: Path) -> None:
    plan = read_plan(path)
    assert {
        item.called(): fault for item in plan.items.values() if (fault := fault_of(item))
    } == {}


def test_nothing_on_it_points_at_nothing(path: Path) -> None:
    plan = read_plan(path)
    assert [item.called() for item in plan.items.values() if _astray(plan, item)] == []


def test_its_base_plans_are_in_it_and_can_be_read(path: Path) -> None:
    for base in laid(read_plan(path)):
        assert base.is_scan
        facts = probe(read_media(path, base.digest))
        assert facts.width > 0


def _astray(plan: Plan, item: object) -> bool:
    return any(
        target not in plan.items or plan.items[target].kind.name not in allowed
        for _, allowed, target in references(item)
    )
