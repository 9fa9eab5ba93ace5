"""What is looked for in a scan, as the plan shows it, and what of it is drawn already."""

from dataclasses import replace

import pytest

from plan_editor.geometry.outlines import Rectangle
from plan_editor.ground.proposals import Proposal, learnt, new_proposals
from plan_editor.kinds import ashes_plot, bench, grave
from plan_editor.plan.item import Basis, ItemId, Method, new_id, new_item
from plan_editor.plan.plan import Plan, plan_of

SCAN = new_id()
ONE = Rectangle(east=10.0, north=20.0, width=1.2, length=2.4, bearing_deg=356.0)


def plan_with(*rectangles: Rectangle, base_plan: ItemId | None = SCAN, kind=grave.KIND) -> Plan:
    basis = Basis(method=Method.TRACED, base_plan=base_plan)
    return plan_of(new_item(kind, r, basis=basis) for r in rectangles)


def both(one: Plan, other: Plan) -> Plan:
    return plan_of((*one.items.values(), *other.items.values()))


def test_sizes_and_bearings_are_those_traced_on_that_scan():
    other = replace(ONE, width=0.5, length=1.0, bearing_deg=90.0)
    traced = plan_with(ONE, replace(ONE, width=1.1), replace(ONE, bearing_deg=2.0))
    told = learnt(both(traced, plan_with(*[other] * 5, base_plan=None)), SCAN)
    (size,) = told.sizes
    assert 0.9 < size.width.low < 1.1
    assert 1.2 < size.width.high < 1.4
    assert 2.0 < size.length.low < 2.4 < size.length.high
    (bearings,) = told.bearings
    # across north
    assert bearings.low == pytest.approx(353.0)
    assert bearings.high == pytest.approx(365.0)
    assert bearings.middle == pytest.approx(359.0)


def test_with_fewer_than_three_on_that_scan_the_whole_plan_tells():
    other = replace(ONE, width=0.8, length=1.6)
    told = learnt(both(plan_with(ONE), plan_with(other, other, base_plan=None)), SCAN)
    assert len(told.sizes) == 2


def test_with_fewer_than_three_at_all_it_is_the_usual_size_at_any_bearing():
    told = learnt(plan_with(ONE, ONE), SCAN)
    assert told.bearings == ()
    (size,) = told.sizes
    assert size.width.middle == pytest.approx(1.22)
    assert size.length.middle == pytest.approx(2.74)
    (plot,) = learnt(plan_with(), SCAN, ashes_plot.KIND).sizes
    assert plot.width.middle == pytest.approx(0.6)


def test_a_kind_without_a_usual_size_cannot_be_learnt_from_nothing():
    with pytest.raises(ValueError, match="bench has no usual size"):
        learnt(plan_with(), SCAN, bench.KIND)


def test_sizes_and_bearings_fall_into_groups():
    child = replace(ONE, width=0.6, length=1.2)
    across = replace(ONE, bearing_deg=86.0)
    told = learnt(plan_with(ONE, ONE, child, child, across, across), SCAN)
    assert len(told.sizes) == 2
    middles = sorted(b.middle % 360.0 for b in told.bearings)
    assert middles == pytest.approx([86.0, 356.0])


def test_graves_all_round_are_looked_for_at_any_bearing():
    told = learnt(plan_with(*(replace(ONE, bearing_deg=d) for d in range(0, 360, 10))), SCAN)
    assert told.bearings == ()


def test_what_is_drawn_already_is_not_proposed_again():
    there, near, new = (
        Proposal(rectangle=ONE.moved(e, 0.0), score=s, base_plan=SCAN)
        for e, s in ((0.0, 0.9), (0.8, 0.7), (3.0, 0.4))
    )
    better = replace(new, rectangle=ONE.moved(8.0, 0.0), score=0.8)
    assert new_proposals((there, near, new, better), plan_with(ONE)) == (better, new)
    assert new_proposals((new, better), plan_with()) == (better, new)
    assert new_proposals((), plan_with(ONE)) == ()
