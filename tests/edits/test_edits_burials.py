"""A burial: the space is chosen, dug, and the entry is written in the register."""

from dataclasses import replace

import pytest

from plan_editor.edits.burials import ChooseSpace, EnterBurial, RecordAsDug, next_number
from plan_editor.errors import EditRefused
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import ashes_plot, burial, grave, note, request, reservation, vault
from plan_editor.kinds.request import Asked, Progress
from plan_editor.kinds.reservation import Stage
from plan_editor.plan.document import Document
from plan_editor.plan.item import Item, new_item
from plan_editor.plan.plan import Plan, plan_of

PLACE = Rectangle(east=0, north=0, width=1.22, length=2.74)
FREE = grave.State.FREE
WANTED = new_item(
    request.KIND,
    details=request.RequestDetails(
        surname="Farrow",
        forenames="Ada",
        abode="Harrowmere",
        died="2026-05-02",
        age="82",
        coffins=2,
        applicant="A. Living Person",
    ),
)


def space(number: str = "C 14", **details: object) -> Item:
    told = grave.GraveDetails(**{"state": FREE, **details})
    return new_item(grave.KIND, PLACE, number=number, details=told)


def plot(number: str = "Z 1", **details: object) -> Item:
    told = ashes_plot.AshesPlotDetails(**{"state": ashes_plot.State.FREE, **details})
    return new_item(ashes_plot.KIND, PLACE, number=number, details=told)


def for_ashes(wanted: Item = WANTED) -> Item:
    return replace(wanted, details=replace(wanted.details, sort=Asked.ASHES))


def laid(where: Item, sort: burial.BurialSort = burial.BurialSort.COFFIN, **rest: str) -> Item:
    details = burial.BurialDetails(grave=where.id, sort=sort, book=rest.pop("book", ""))
    return new_item(burial.KIND, details=details, **rest)


def kept_for(where: Item, stage: Stage = Stage.GRANTED) -> Item:
    details = reservation.ReservationDetails(
        grave=where.id, stage=stage, faculty="F 7", expires="2031-05-01"
    )
    return new_item(reservation.KIND, details=details)


def refused(plan: Plan, where: Item, wanted: Item = WANTED, **rest: object) -> str:
    with pytest.raises(EditRefused) as told:
        ChooseSpace(request=wanted.id, space=where.id, **rest).changes(plan)
    assert "Nothing was changed." in str(told.value)
    return str(told.value).partition(" Nothing")[0]


def test_a_burial_goes_from_the_first_call_to_the_register_and_back() -> None:
    where = space()
    before = plan_of([where, WANTED, laid(space(), number="417")])
    document = Document(before)
    document.apply(ChooseSpace(request=WANTED.id, space=where.id, called="grave C 14"))
    assert document.undo_title == "Choose grave C 14 for a burial"
    told = document.plan.items[WANTED.id].details
    assert (told.grave, told.progress) == (where.id, Progress.AGREED)

    dug = RecordAsDug(request=WANTED.id, dug="2026-05-13", depth_m=1.93, called="grave C 14")
    document.apply(dug)
    assert document.undo_title == "Record grave C 14 as dug"
    after = document.plan.items[where.id].details
    assert (after.state, after.dug, after.depth_m, after.coffins) == (
        grave.State.OCCUPIED,
        "2026-05-13",
        1.93,
        2,
    )
    assert document.plan.items[WANTED.id].details.progress is Progress.DUG

    entering = EnterBurial(
        request=WANTED.id, buried="2026-05-14", minister="Revd J. Wold", lid_m=1.4
    )
    document.apply(entering)
    entry = document.plan.items[entering.id]
    assert entry.number == "418"
    assert entry.details == burial.BurialDetails(
        surname="Farrow",
        forenames="Ada",
        sort=burial.BurialSort.COFFIN,
        abode="Harrowmere",
        died="2026-05-02",
        buried="2026-05-14",
        age="82",
        minister="Revd J. Wold",
        grave=where.id,
        belief=burial.Belief.CERTAIN,
        depth_m=1.4,
    )
    done = document.plan.items[WANTED.id].details
    assert (done.progress, done.burial) == (Progress.BURIED, entry.id)
    for _ in range(3):
        document.undo()
    assert document.plan.items == before.items


def test_a_space_that_cannot_be_had_is_refused_with_its_reason() -> None:
    closed, unknown = space(state=grave.State.CLOSED), space(state=grave.State.UNKNOWN)
    word = new_item(note.KIND)
    plan = plan_of([WANTED, closed, unknown, word])
    assert refused(plan, closed) == "Grave C 14 is recorded as one that cannot be used."
    assert refused(plan, unknown) == "It is not recorded whether Grave C 14 is free."
    assert refused(plan, word) == "Note is no grave, vault or ashes plot."


def test_a_space_kept_for_another_is_refused_and_had_under_its_own_reservation() -> None:
    where = space(state=grave.State.RESERVED)
    kept = kept_for(where)
    plan = plan_of([WANTED, where, kept])
    assert refused(plan, where) == "Grave C 14 is kept under faculty F 7 until 2031-05-01."
    document = Document(plan)
    document.apply(ChooseSpace(request=WANTED.id, space=where.id, reservation=kept.id))
    entering = EnterBurial(request=WANTED.id, buried="2026-05-14")
    document.apply(entering)
    assert document.plan.items[kept.id].details.stage is Stage.USED
    assert document.plan.items[where.id].details.state is grave.State.OCCUPIED

    lapsed = kept_for(where, Stage.LAPSED)
    plan = plan_of([WANTED, where, lapsed])
    nobody = "Grave C 14 is recorded as reserved, and no reservation says for whom."
    assert refused(plan, where) == nobody
    assert refused(plan, where, reservation=lapsed.id) == nobody


def test_a_reservation_without_an_end_is_told_without() -> None:
    where = space(state=grave.State.RESERVED)
    kept = kept_for(where)
    kept = replace(kept, details=replace(kept.details, expires=""))
    assert refused(plan_of([WANTED, where, kept]), where) == (
        "Grave C 14 is kept under faculty F 7."
    )


def test_a_reservation_of_another_space_stays_when_the_burial_is_entered() -> None:
    where, elsewhere = space(), space("C 15", state=grave.State.RESERVED)
    kept = kept_for(elsewhere)
    document = Document(plan_of([WANTED, where, elsewhere, kept]))
    document.apply(ChooseSpace(request=WANTED.id, space=where.id, reservation=kept.id))
    document.apply(RecordAsDug(request=WANTED.id, dug="2026-05-13"))
    document.apply(EnterBurial(request=WANTED.id, buried="2026-05-14"))
    assert document.plan.items[kept.id] == kept


def test_a_full_space_is_refused() -> None:
    where = space(state=grave.State.OCCUPIED, coffins=2)
    one, two = laid(where), laid(where, burial.BurialSort.UNKNOWN)
    over = laid(where, burial.BurialSort.ASHES)
    other = replace(WANTED, id=new_item(note.KIND).id)
    coming = replace(
        other, details=replace(other.details, grave=where.id, progress=Progress.AGREED)
    )
    full = "Grave C 14 is full: room for 2, "
    assert refused(plan_of([WANTED, where, one, two, over]), where) == f"{full}2 laid."
    assert refused(plan_of([WANTED, where, one, coming]), where) == (
        f"{full}1 laid and 1 more asked for."
    )
    edit = ChooseSpace(request=WANTED.id, space=where.id)
    assert edit.changes(plan_of([WANTED, where, one, over]))
    # what nobody was laid in has room for one, and no more is known
    first = space()
    assert ChooseSpace(request=WANTED.id, space=first.id).changes(plan_of([WANTED, first]))
    assert "full: room for 1" in refused(plan_of([WANTED, first, laid(first)]), first)
    unknown = space(state=grave.State.OCCUPIED)
    assert refused(plan_of([WANTED, unknown]), unknown) == (
        "Grave C 14 is in use (recorded as “occupied”), and it is not recorded for how many it"
        " has room. Record that on its card if one more may be laid."
    )
    used = replace(laid(unknown), number="412")
    assert "in use (by entry 412 of the register), and it is not recorded for how many" in (
        refused(plan_of([WANTED, unknown, used]), unknown)
    )


def test_ashes_go_into_a_plot_with_room_or_over_coffins() -> None:
    small, full, old = plot(), plot("Z 2", interments=1), space(state=grave.State.OCCUPIED)
    ashes = for_ashes()
    plan = plan_of([ashes, small, full, old, laid(full, burial.BurialSort.ASHES)])
    assert refused(plan, full, ashes) == "Ashes plot Z 2 is full: room for 1, 1 laid."
    assert ChooseSpace(request=ashes.id, space=old.id).changes(plan)
    assert refused(plan_of([WANTED, small]), small) == "Ashes plot Z 1 has room for ashes only."

    document = Document(plan)
    document.apply(ChooseSpace(request=ashes.id, space=old.id))
    document.apply(RecordAsDug(request=ashes.id, dug="2026-05-13", depth_m=0.5))
    assert document.plan.items[old.id].details == old.details
    document.apply(ChooseSpace(request=ashes.id, space=small.id))
    document.apply(RecordAsDug(request=ashes.id, dug="2026-05-13", depth_m=0.5))
    dug = document.plan.items[small.id].details
    assert (dug.state, dug.dug, dug.depth_m) == (ashes_plot.State.OCCUPIED, "2026-05-13", 0.5)


def test_a_vault_is_opened_and_not_dug() -> None:
    where = new_item(vault.KIND, PLACE, details=vault.VaultDetails(state=vault.State.FREE))
    document = Document(plan_of([WANTED, where]))
    document.apply(ChooseSpace(request=WANTED.id, space=where.id))
    document.apply(RecordAsDug(request=WANTED.id, dug="2026-05-13", depth_m=2.0))
    after = document.plan.items[where.id].details
    assert after == vault.VaultDetails(state=vault.State.OCCUPIED)


def test_a_depth_that_nobody_measured_leaves_the_one_there_was() -> None:
    where = space(depth_m=2.1, coffins=3)
    document = Document(plan_of([WANTED, where]))
    document.apply(ChooseSpace(request=WANTED.id, space=where.id))
    document.apply(RecordAsDug(request=WANTED.id, dug="2026-05-13"))
    after = document.plan.items[where.id].details
    assert (after.depth_m, after.coffins) == (2.1, 3)


def test_steps_without_their_day_or_space_are_refused() -> None:
    where = space()
    chosen = replace(WANTED, details=replace(WANTED.details, grave=where.id))
    over = replace(chosen, details=replace(chosen.details, progress=Progress.WITHDRAWN))
    for edit, of, says in (
        (RecordAsDug(request=WANTED.id, dug="2026-05-13"), WANTED, "No space is chosen"),
        (EnterBurial(request=WANTED.id, buried="2026-05-14"), WANTED, "No space is chosen"),
        (RecordAsDug(request=WANTED.id, dug=""), chosen, "day of digging is missing"),
        (EnterBurial(request=WANTED.id, buried=""), chosen, "day of the burial is missing"),
        (RecordAsDug(request=WANTED.id, dug="2026"), over, "recorded as “withdrawn”"),
        (RecordAsDug(request=where.id, dug="2026"), chosen, "is no burial request"),
    ):
        with pytest.raises(EditRefused, match=says) as told:
            edit.changes(plan_of([of, where]))
        assert "Nothing was changed." in str(told.value)


def test_the_next_number_follows_the_highest_of_its_own_book() -> None:
    where = space()
    plan = plan_of(
        [
            where,
            laid(where, number="9"),
            laid(where, number="10"),
            laid(where, number="unnumbered"),
            laid(where, number="A 007", book="Ashes"),
        ]
    )
    assert next_number(plan) == "11"
    assert next_number(plan, " ashes ") == "A 008"
    assert next_number(plan, "Another") == "1"


def test_a_number_that_the_register_has_is_refused() -> None:
    where = space()
    chosen = replace(WANTED, details=replace(WANTED.details, grave=where.id))
    plan = plan_of([where, chosen, laid(where, number="10")])
    with pytest.raises(EditRefused, match="has an entry 10 already"):
        EnterBurial(request=chosen.id, buried="2026", number="10").changes(plan)
    assert EnterBurial(request=chosen.id, buried="2026", number="10", book="B").changes(plan)


def test_nobody_living_is_named_in_a_title() -> None:
    edit = EnterBurial(request=WANTED.id, buried="2026", called=WANTED.called())
    assert "Living" not in edit.title
