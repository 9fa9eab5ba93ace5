"""In what order proposals are gone through, and which of two searches mean the same."""

from random import Random

from plan_editor.geometry.outlines import Rectangle
from plan_editor.ground.proposal_rows import in_rows, numbers_before
from plan_editor.ground.proposals import Proposal, apart_from
from plan_editor.kinds import grave
from plan_editor.plan.item import ItemId, new_item
from plan_editor.plan.plan import plan_of

SCAN = ItemId("5" * 32)


def found(east: float, north: float) -> Proposal:
    """Return a grave with its head to the west, its south-west corner at a place."""
    place = Rectangle(east=east, north=north, width=1.2, length=2.4)
    return Proposal(rectangle=place, score=0.9, base_plan=SCAN)


def test_rows_come_from_the_west_and_each_from_the_south_where_feet_lie_to_the_east() -> None:
    west = [found(0.0, 1.5 * n) for n in range(4)]
    east = [found(3.5, 1.5 * n) for n in range(3)]
    alone = found(1.7, 40.0)
    mixed = [*west, *east, alone]
    Random(1).shuffle(mixed)  # noqa: S311  # seeded chance
    assert in_rows(mixed) == (tuple(west), (alone,), tuple(east))


def test_nothing_found_is_no_row() -> None:
    assert in_rows(()) == ()


def test_numbers_of_those_before_in_the_row_are_told_and_of_no_others() -> None:
    there = [
        new_item(grave.KIND, found(0.0, 1.5 * n).rectangle, number=f"C {n + 1}")
        for n in range(3)
    ]
    apart = new_item(grave.KIND, found(9.0, 0.0).rectangle, number="Z 9")
    plan = plan_of([*there, apart])
    before = numbers_before(plan, grave.KIND, found(0.05, 4.5).rectangle)
    assert before == ("C 1", "C 2", "C 3")
    assert numbers_before(plan, grave.KIND, found(0.0, -1.5).rectangle) == ()
    assert numbers_before(plan, grave.KIND, found(40.0, 0.0).rectangle) == ()


def test_what_means_one_of_the_others_is_taken_away_and_the_order_stays() -> None:
    others = [found(0.0, 0.0), found(0.0, 1.5)]
    again, new = found(0.1, 0.05), found(7.0, 0.0)
    assert apart_from(others, [new, again]) == (new,)
    assert apart_from((), [new, again]) == (new, again)
