from dataclasses import replace

import pytest
from churchyards import found, grave_at, old_plan

from plan_editor.checking.rule import Severity
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import ashes_plot, vault
from plan_editor.plan.item import Basis, Status, new_item

RULE = "overlapping_graves"


def test_two_graves_of_4_by_9_feet_laid_1_m_apart_share_0_60_square_metres() -> None:
    one, other = grave_at(0, 0, "A 1"), grave_at(0, 1.0, "A 2")
    (finding,) = found(RULE, (one, other))
    assert finding.items == (one.id, other.id)
    assert "share 0.60 m², 0.22 m deep" in finding.text
    assert finding.severity is Severity.DOUBT
    assert finding.place == pytest.approx((1.37, 1.11))


def test_neighbours_that_touch_or_overlap_within_their_doubt_are_not_found() -> None:
    graves = [grave_at(0, 0), grave_at(0, 1.22), grave_at(0, 2.39), grave_at(20, 0)]
    assert found(RULE, graves) == ()


def test_the_doubt_of_a_base_plan_is_shared_by_what_is_traced_on_it() -> None:
    under = old_plan(sd_m=0.3)
    apart = [grave_at(0, 0, sd_m=0.3), grave_at(0, 1.0, sd_m=0.3)]
    assert found(RULE, apart) == ()
    both = [grave_at(0, n, sd_m=0.3, on=under.id) for n in (0, 1.0)]
    assert len(found(RULE, [under, *both])) == 1


def test_a_grave_within_a_vault_is_a_fault_and_ashes_in_a_grave_are_none() -> None:
    place = Rectangle(east=0, north=0, width=4, length=4)
    tomb = new_item(vault.KIND, place, basis=Basis(sd_m=0.02))
    (finding,) = found(RULE, (tomb, grave_at(0.5, 0.5)))
    assert finding.severity is Severity.FAULT
    ashes = new_item(ashes_plot.KIND, Rectangle(east=0.5, north=0.5, width=0.6, length=0.6))
    assert found(RULE, (ashes, grave_at(0, 0))) == ()


def test_what_is_drawn_twice_or_to_be_removed_is_another_matter() -> None:
    assert found(RULE, (grave_at(0, 0), grave_at(0, 0))) == ()
    going = replace(grave_at(0, 0.5), status=Status.TO_BE_REMOVED)
    assert found(RULE, (grave_at(0, 0), going)) == ()
