from dataclasses import replace

import pytest
import shapely
from churchyards import found, grave_at, mended

from plan_editor.checking.rule import Severity
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import grave, memorial
from plan_editor.kinds.memorial import MemorialDetails, MemorialForm
from plan_editor.plan.item import Basis, Item, new_item

RULE = "memorials_and_graves"


def stone(east: float, north: float, on: Item | None = None, **details) -> Item:
    """A headstone 0.9 m broad and 0.15 m thick that faces east."""
    place = Rectangle(east=east, north=north, width=0.9, length=0.15)
    told = MemorialDetails(grave=None if on is None else on.id, **details)
    return new_item(memorial.KIND, place, details=told, number="M 1", basis=Basis(sd_m=0.02))


def test_a_stone_at_the_head_of_one_grave_is_found_and_linked_to_it() -> None:
    one, other = grave_at(0, 0, "A 1"), grave_at(0, 1.5, "A 2")
    (finding,) = found(RULE, (one, other, stone(-0.3, 0.1)))
    assert finding.text.endswith("is kept as standing on no grave; it stands at grave A 1.")
    (after,) = mended(RULE, (one, other, stone(-0.3, 0.1))).of(memorial.KIND)
    assert after.details.grave == one.id


def test_a_ledger_on_a_grave_is_linked_to_it() -> None:
    slab = Rectangle(east=0.3, north=0.15, width=0.9, length=2.0)
    flat = new_item(
        memorial.KIND, slab, details=MemorialDetails(form=MemorialForm.LEDGER), number="M 2"
    )
    mended(RULE, (grave_at(0, 0, "A 1"), flat))


def test_a_stone_between_two_heads_is_told_and_left() -> None:
    graves = (grave_at(0, 0, "A 1"), grave_at(0, 1.0, "A 2"))
    (finding,) = found(RULE, (*graves, stone(-0.2, 0.66)))
    assert "grave A 1 or grave A 2" in finding.text
    assert finding.mend is None


def test_a_stone_where_no_grave_is_drawn_is_told() -> None:
    (finding,) = found(RULE, (grave_at(0, 0), stone(20, 20)))
    assert "none that is drawn lies under it" in finding.text
    assert finding.severity is Severity.DOUBT
    (vase,) = found(RULE, (stone(20, 20, form=MemorialForm.VASE),))
    assert vase.severity is Severity.REMARK


def test_a_stone_by_a_loose_plot_without_a_head_is_not_at_it() -> None:
    plot = new_item(grave.KIND, shapely.box(0, 0, 3, 3))
    (finding,) = found(RULE, (plot, stone(-0.3, 0.5)))
    assert finding.mend is None


def test_a_stone_far_from_its_grave_is_found_with_the_distance() -> None:
    one = grave_at(0, 0, "A 1")
    (finding,) = found(RULE, (one, stone(-5.15, 0.1, one)))
    assert "grave A 1, 5.0 m away" in finding.text
    assert found(RULE, (one, stone(-1.1, 0.1, one))) == ()


@pytest.mark.parametrize("lost", ["stone", "grave"])
def test_what_has_no_place_is_passed_over(lost: str) -> None:
    one = grave_at(0, 0, "A 1")
    there = stone(-5, 0, one)
    if lost == "stone":
        there = replace(there, shape=None, rectangle=None)
    else:
        one = replace(one, shape=None, rectangle=None)
    assert found(RULE, (one, there)) == ()
