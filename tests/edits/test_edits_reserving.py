"""A space is kept for somebody by faculty, and made free again."""

from dataclasses import replace

import pytest

from plan_editor.edits.reserving import ReleaseSpace, ReserveSpace
from plan_editor.errors import EditRefused
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import burial, grave, note, request, reservation
from plan_editor.kinds.request import Progress
from plan_editor.kinds.reservation import ReservationDetails, Stage
from plan_editor.plan.document import Document
from plan_editor.plan.item import Item, new_item
from plan_editor.plan.plan import plan_of

GRANTED = ReservationDetails(
    faculty="F 7", expires="2031-05-01", term_years=30.0, held_for="A. Living Person"
)


def space(state: grave.State = grave.State.FREE) -> Item:
    place = Rectangle(east=0, north=0, width=1.22, length=2.74)
    return new_item(grave.KIND, place, number="C 14", details=grave.GraveDetails(state=state))


def kept_in(where: Item, stage: Stage = Stage.GRANTED) -> Item:
    return new_item(reservation.KIND, details=replace(GRANTED, grave=where.id, stage=stage))


def test_a_space_is_reserved_and_released() -> None:
    where = space()
    document = Document(plan_of([where]))
    edit = ReserveSpace(space=where.id, details=GRANTED, called="grave C 14")
    document.apply(edit)
    assert document.undo_title == "Reserve grave C 14 by faculty"
    kept = document.plan.items[edit.id].details
    assert kept == replace(GRANTED, grave=where.id, stage=Stage.GRANTED)
    assert document.plan.items[where.id].details.state is grave.State.RESERVED

    document.apply(ReleaseSpace(reservation=edit.id, stage=Stage.GIVEN_UP, called="grave C 14"))
    assert document.undo_title == "Release grave C 14"
    assert document.plan.items[edit.id].details.stage is Stage.GIVEN_UP
    assert document.plan.items[where.id].details.state is grave.State.FREE


def test_without_a_faculty_nothing_is_reserved() -> None:
    where = space()
    with pytest.raises(EditRefused, match="number of the faculty is missing"):
        ReserveSpace(space=where.id, details=replace(GRANTED, faculty=" ")).changes(
            plan_of([where])
        )


@pytest.mark.parametrize(
    ("state", "says"),
    [
        (grave.State.OCCUPIED, "is in use: it is recorded as “occupied”, though no entry"),
        (grave.State.CLOSED, "cannot be used"),
        (grave.State.UNKNOWN, "It is not recorded whether"),
    ],
)
def test_a_space_that_is_not_free_is_refused(state: grave.State, says: str) -> None:
    where = space(state)
    with pytest.raises(EditRefused, match=says):
        ReserveSpace(space=where.id, details=GRANTED).changes(plan_of([where]))


def test_what_the_records_say_of_a_free_space_counts() -> None:
    where = space()
    laid = new_item(burial.KIND, details=burial.BurialDetails(grave=where.id))
    coming = new_item(
        request.KIND,
        details=request.RequestDetails(grave=where.id, progress=Progress.AGREED),
    )
    word = new_item(note.KIND)
    edit = ReserveSpace(space=where.id, details=GRANTED)
    for more, says in (
        (laid, "C 14 is in use by 1 entry of the register. If that is wrong, clear “Lies in”"),
        (replace(laid, number="412"), "is in use by entry 412 of the register"),
        (coming, "is chosen for a burial"),
        (kept_in(where), "kept already under faculty F 7"),
    ):
        with pytest.raises(EditRefused, match=says):
            edit.changes(plan_of([where, more]))
    with pytest.raises(EditRefused, match="is no grave"):
        ReserveSpace(space=word.id, details=GRANTED).changes(plan_of([word]))


@pytest.mark.parametrize(
    ("numbers", "says"),
    [
        (("12", "13"), "entries 12 and 13 of the register"),
        (("12", "13", "40"), "entries 12, 13 and 40 of the register"),
        (("12", ""), "2 entries of the register"),
        (tuple("1234567"), "7 entries of the register"),
    ],
)
def test_who_hinders_is_told_by_the_numbers_of_the_entries(
    numbers: tuple[str, ...], says: str
) -> None:
    where = space()
    details = burial.BurialDetails(grave=where.id)
    laid = [new_item(burial.KIND, number=n, details=details) for n in numbers]
    with pytest.raises(EditRefused, match=says):
        ReserveSpace(space=where.id, details=GRANTED).changes(plan_of([where, *laid]))


def test_a_space_marked_as_reserved_gets_the_faculty_that_it_lacks() -> None:
    where = space(grave.State.RESERVED)
    (only,) = ReserveSpace(space=where.id, details=GRANTED).changes(plan_of([where]))
    assert only.before is None


def test_only_what_was_granted_is_released_and_for_a_reason() -> None:
    where = space(grave.State.RESERVED)
    used, kept = kept_in(where, Stage.USED), kept_in(where)
    plan = plan_of([where, used, kept])
    for wrong in (used, where):
        with pytest.raises(EditRefused, match="keeps no space now"):
            ReleaseSpace(reservation=wrong.id).changes(plan)
    with pytest.raises(EditRefused, match="lapsed or it was given up"):
        ReleaseSpace(reservation=kept.id, stage=Stage.USED).changes(plan)


def test_a_space_kept_twice_or_used_meanwhile_stays_as_it_is() -> None:
    where = space(grave.State.RESERVED)
    one, other = kept_in(where), kept_in(where)
    in_use = grave.GraveDetails(state=grave.State.OCCUPIED)
    for plan in (
        plan_of([where, one, other]),
        plan_of([replace(where, details=in_use), one]),
        plan_of([replace(one, details=replace(one.details, grave=None))]),
    ):
        (only,) = ReleaseSpace(reservation=one.id).changes(plan)
        assert only.after is not None
        assert only.after.details.stage is Stage.LAPSED
