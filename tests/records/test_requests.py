"""What a burial that is asked for still lacks, how deep to dig, and what comes next."""

from dataclasses import replace

import pytest

from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import ashes_plot, burial, grave, request, reservation
from plan_editor.kinds.parish import ParishDetails
from plan_editor.kinds.request import Asked, Progress, Right
from plan_editor.plan.item import Item, new_item
from plan_editor.plan.plan import plan_of
from plan_editor.records.requests import (
    Next,
    depth_asked,
    depth_for,
    lacking,
    requests_asked,
)

FULL = request.RequestDetails(
    surname="Farrow",
    asked="2026-05-04",
    right=Right.PARISHIONER,
    length_mm=1930.0,
    width_mm=580.0,
    height_mm=400.0,
    coffins=2,
    wished="2026-05-14",
)


def space(number: str = "C 14", width: float = 1.22, **details: object) -> Item:
    place = Rectangle(east=0, north=0, width=width, length=2.74)
    told = grave.GraveDetails(**{"state": grave.State.FREE, "coffins": 2, **details})
    return new_item(grave.KIND, place, number=number, details=told)


def asked(**details: object) -> Item:
    return new_item(request.KIND, details=replace(FULL, **details))


@pytest.mark.parametrize(
    ("cover", "coffins", "depth"),
    [
        # worked by hand from Local Authorities' Cemeteries Order 1977, Schedule 2: 3 feet of
        # earth, 6 inches between coffins; a coffin of 0.42 m (custom)
        (0.914, 1, 1.334),
        (0.914, 2, 1.906),
        (0.914, 3, 2.478),
        # 1 m over the coffin, asked for to protect groundwater
        (1.0, 1, 1.42),
        (1.0, 2, 1.992),
        (1.0, 3, 2.564),
    ],
)
def test_depths_agree_with_those_worked_by_hand(
    cover: float, coffins: int, depth: float
) -> None:
    assert depth_for(ParishDetails(cover_m=cover), coffins) == pytest.approx(depth, abs=5e-4)


def test_the_lowest_coffin_counts_with_its_own_height() -> None:
    figures = ParishDetails()
    # 0.914 + 0.55 + 0.152 + 0.42
    assert depth_asked(figures, replace(FULL, height_mm=550.0)) == pytest.approx(2.036)
    assert depth_asked(figures, replace(FULL, height_mm=None)) == pytest.approx(1.906)
    assert depth_asked(figures, replace(FULL, coffins=None)) is None
    assert depth_asked(figures, replace(FULL, sort=Asked.ASHES)) is None


def test_what_has_everything_lacks_nothing() -> None:
    free = space()
    ready = asked(grave=free.id, progress=Progress.AGREED)
    assert lacking(plan_of([free, ready]), ready) == ()


def test_everything_that_is_missing_is_said() -> None:
    bare = new_item(request.KIND)
    assert lacking(plan_of([bare]), bare) == (
        "On what the right of burial rests is not known.",
        "The outer length, width and height of the coffin is missing.",
        "For how many coffins to dig is not said.",
        "The day of the burial is not fixed.",
        "No space is chosen.",
    )


def test_consent_needs_its_day_and_ashes_need_no_size() -> None:
    here = new_item(
        ashes_plot.KIND,
        Rectangle(east=0, north=0, width=0.6, length=0.6),
        details=ashes_plot.AshesPlotDetails(state=ashes_plot.State.FREE),
    )
    told = asked(
        sort=Asked.ASHES,
        right=Right.CONSENT,
        length_mm=None,
        coffins=None,
        grave=here.id,
        progress=Progress.AGREED,
    )
    plan = plan_of([here, told])
    assert lacking(plan, told) == ("The day of the incumbent's consent is missing.",)
    agreed = replace(told, details=replace(told.details, consent="2026-05-05"))
    assert lacking(plan, agreed) == ()


def test_one_size_alone_is_told_alone() -> None:
    free = space()
    told = asked(width_mm=None, grave=free.id)
    assert lacking(plan_of([free, told]), told) == (
        "The outer width of the coffin is missing.",
    )


def test_a_coffin_too_large_for_its_grave_is_told_from_the_millimetre() -> None:
    narrow = space(width=0.78)
    fits = asked(grave=narrow.id)  # 580 and twice 100 are 780
    tight = asked(grave=narrow.id, width_mm=581.0)
    plan = plan_of([narrow, fits, tight])
    assert lacking(plan, fits) == ()
    assert lacking(plan, tight) == (
        "Grave C 14, 2.74 by 0.78 m, leaves less than 100 mm round the coffin.",
    )


def test_a_space_that_was_chosen_and_then_filled_is_told() -> None:
    free = space(coffins=1)
    told = asked(grave=free.id, progress=Progress.AGREED)
    other = new_item(burial.KIND, details=burial.BurialDetails(grave=free.id))
    assert lacking(plan_of([free, told, other]), told) == (
        "Grave C 14 is full: room for 1, 1 laid.",
    )


def test_those_with_something_left_to_do_come_first_by_their_day() -> None:
    kept = new_item(reservation.KIND)
    late, soon = asked(wished="2026-06-01"), asked(wished="2026-05-20")
    undated = asked(wished="")
    done = asked(wished="2026-01-02", progress=Progress.BURIED)
    told = requests_asked(plan_of([kept, done, undated, late, soon]))
    assert [s.request for s in told] == [soon, late, undated, done]
    assert [s.next for s in told] == [Next.CHOOSE] * 3 + [Next.NOTHING]
    assert told[-1].lacks == ()
    assert told[0].depth_m == pytest.approx(1.886)  # 0.914 + 0.40 + 0.152 + 0.42
