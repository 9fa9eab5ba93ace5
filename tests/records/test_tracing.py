"""What is known of the family of an unsafe stone, and when notices end."""

from dataclasses import replace

import pytest

from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import grave, inspection, memorial, owner_contact, tracing
from plan_editor.kinds.inspection import InspectionDetails, Result
from plan_editor.kinds.memorial import MemorialDetails
from plan_editor.kinds.owner_contact import OwnerContactDetails
from plan_editor.kinds.tracing import Step, TracingDetails
from plan_editor.plan.item import new_item
from plan_editor.plan.plan import plan_of
from plan_editor.records.days import days_after
from plan_editor.records.due import dues
from plan_editor.records.tracing import (
    Next,
    owners_of,
    runs_until,
    trails,
    usual_step,
)

GRAVE = new_item(grave.KIND, Rectangle(east=0, north=0, width=1, length=2), number="C 3")
STONE = new_item(
    memorial.KIND,
    Rectangle(east=0, north=0, width=0.8, length=0.2),
    number="C 3",
    details=MemorialDetails(grave=GRAVE.id),
)
FAILED = new_item(
    inspection.KIND,
    details=InspectionDetails(target=STONE.id, date="2026-02-01", result=Result.IMMEDIATE),
)
DAY = "2026-03-15"


def step(sort, date, days=None, of=STONE):
    return new_item(
        tracing.KIND,
        details=TracingDetails(target=of.id, step=sort, date=date, days=days),
    )


def owner(**told):
    return new_item(owner_contact.KIND, details=OwnerContactDetails(**told))


def trail(*items, on=DAY):
    (found,) = trails(plan_of([GRAVE, STONE, FAILED, *items]), on)
    return found


def notices(*items, on=DAY):
    found = dues(plan_of([GRAVE, STONE, FAILED, *items]), on)
    return [(d.date, d.title, d.item) for d in found if d.sort == "notices"]


@pytest.mark.parametrize(
    ("date", "days", "ends"),
    [
        # Lester v Garland (1808) 15 Ves 248, from memory: the day of the event is left out
        ("2026-03-01", 28, "2026-03-29"),
        ("2024-02-01", 28, "2024-02-29"),  # a leap year
        ("2023-02-01", 28, "2023-03-01"),
        ("2026-12-20", 28, "2027-01-17"),
        ("2026-02", 28, "2026-03-28"),  # it may have been the 28th
        ("9999-12-20", 28, "9999-12-31"),
    ],
)
def test_the_day_of_a_notice_is_not_counted(date, days, ends):
    assert runs_until(step(Step.NOTICE_ON_STONE, date, days)) == ends


@pytest.mark.parametrize(
    ("sort", "date", "days"),
    [(Step.REPLY, "2026-03-01", 28), (Step.LETTER, "", 28), (Step.LETTER, "2026-03-01", None)],
)
def test_what_has_no_day_or_no_days_ends_on_none(sort, date, days):
    assert runs_until(step(sort, date, days)) == ""


def test_six_weeks_are_42_days():
    assert days_after("2026-03-01", 42) == "2026-04-12"


FIRST, LATE = "2026-02-10", "2026-03-10"
NOTICE = step(Step.NOTICE_ON_STONE, FIRST, 28)
OWNER = owner(grave=GRAVE.id)


@pytest.mark.parametrize(
    ("items", "follows"),
    [
        ((), Next.ENQUIRE),
        ((OWNER,), Next.WRITE),
        ((step(Step.ENQUIRY, FIRST),), Next.FIX),
        ((OWNER, step(Step.ENQUIRY, FIRST)), Next.WRITE),
        ((OWNER, step(Step.LETTER, LATE, 28)), Next.WAIT),
        ((OWNER, step(Step.LETTER, FIRST, 28)), Next.FIX),
        ((step(Step.NOTICE_ON_STONE, LATE, 28),), Next.WAIT),
        ((NOTICE,), Next.PUBLISH),
        ((NOTICE, step(Step.NOTICE_PUBLIC, FIRST, 28)), Next.ASK),
        ((step(Step.NOTICE_ON_STONE, LATE, 28), step(Step.REPLY, LATE)), Next.SETTLE),
        ((step(Step.REPLY, "2026-03-16"),), Next.ENQUIRE),  # not known yet on that day
    ],
)
def test_what_comes_next_follows_from_what_was_done(items, follows):
    assert trail(*items).next is follows


def test_a_trail_tells_its_steps_in_order_and_what_runs():
    late, early = step(Step.NOTICE_PUBLIC, LATE, 28), step(Step.LETTER, FIRST, 60, of=GRAVE)
    found = trail(late, early, NOTICE)
    assert found.stone == STONE
    assert found.steps == (early, NOTICE, late)
    assert found.running == (early, late)
    assert found.until == "2026-04-11"  # 10 February and 60 days
    assert not found.known


def test_a_family_is_known_by_a_contact_or_a_reply():
    assert trail(OWNER).known
    assert trail(owner(memorial=STONE.id)).known
    assert trail(step(Step.REPLY, FIRST)).known
    assert not trail(owner(name="nobody's")).known


def test_whoever_answers_for_a_grave_answers_for_its_stone_and_not_the_other_way():
    of_stone = owner(memorial=STONE.id)
    plan = plan_of([GRAVE, STONE, OWNER, of_stone])
    assert owners_of(plan, STONE.id) == (OWNER, of_stone)
    assert owners_of(plan, GRAVE.id) == (OWNER,)


def test_a_sound_stone_has_no_trail():
    assert trails(plan_of([STONE, NOTICE]), DAY) == ()


def test_a_notice_is_due_on_its_last_day():
    assert notices(step(Step.NOTICE_ON_STONE, LATE, 28)) == [
        ("2026-04-07", "Memorial C 3: notice on the stone ends", STONE.id)
    ]
    # what is done for the grave is told once, of the grave
    assert notices(step(Step.LETTER, LATE, 28, of=GRAVE)) == [
        ("2026-04-07", "Grave C 3: letter ends", GRAVE.id)
    ]


def test_a_notice_that_ran_out_is_due_while_the_stone_is_unsafe_and_nothing_followed():
    assert notices(NOTICE) == [
        ("2026-03-10", "Memorial C 3: notice on the stone ends", STONE.id)
    ]
    sound = InspectionDetails(target=STONE.id, date="2026-03-12", result=Result.SOUND)
    assert notices(NOTICE, new_item(inspection.KIND, details=sound)) == []


@pytest.mark.parametrize(
    ("later", "ended"),
    [
        (step(Step.REPLY, "2026-02-20"), True),
        (step(Step.NO_REPLY, "2026-02-20"), True),
        (step(Step.NOTICE_PUBLIC, "2026-03-11"), True),
        (step(Step.NOTICE_PUBLIC, "2026-03-01"), False),  # beside it, not after it
        (step(Step.ENQUIRY, "2026-03-11"), False),
    ],
)
def test_an_answer_or_a_later_notice_ends_one(later, ended):
    assert (notices(NOTICE, later) == []) is ended


def test_a_step_that_is_of_nothing_is_passed_over():
    stray = replace(NOTICE, details=replace(NOTICE.details, target=None))
    assert notices(stray) == []


@pytest.mark.parametrize(
    ("items", "sort", "days"),
    [
        ((), Step.ENQUIRY, None),
        ((OWNER,), Step.LETTER, 28),
        ((step(Step.ENQUIRY, FIRST),), Step.NOTICE_ON_STONE, 28),
        ((NOTICE,), Step.NOTICE_PUBLIC, 28),
        ((step(Step.NOTICE_ON_STONE, LATE, 28),), Step.REPLY, None),
    ],
)
def test_the_step_that_is_recorded_next_is_the_one_that_was_to_come(items, sort, days):
    usual = usual_step(trail(*items), DAY)
    assert (usual.step, usual.date, usual.days) == (sort, DAY, days)


def test_a_stone_that_was_made_safe_for_now_still_wants_its_family():
    safe = InspectionDetails(target=STONE.id, date="2026-02-02", result=Result.MADE_SAFE)
    assert trail(new_item(inspection.KIND, details=safe)).stone == STONE
