"""Where register and ground disagree."""

from dataclasses import replace
from typing import Any

import pytest

from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import ashes_plot, burial, grave, removal, reservation
from plan_editor.kinds.burial import BurialDetails, BurialSort
from plan_editor.kinds.grave import GraveDetails, State
from plan_editor.kinds.removal import RemovalDetails
from plan_editor.kinds.reservation import ReservationDetails, Stage
from plan_editor.plan.item import Item, new_item
from plan_editor.plan.plan import plan_of
from plan_editor.records.work_list import Sort, work_list

PLACE = Rectangle(east=0, north=0, width=1.2, length=2.4)


def _grave(number: str, **told: Any) -> Item[GraveDetails]:
    return new_item(grave.KIND, PLACE, details=GraveDetails(**told), number=number)


def _entry(**told: Any) -> Item[BurialDetails]:
    return new_item(burial.KIND, details=BurialDetails(**told))


def _said(*items: Item) -> list[tuple[Sort, str]]:
    return [(t.sort, t.says) for t in work_list(plan_of(items))]


def test_an_entry_without_a_grave_is_told_with_the_registers_words() -> None:
    entry = replace(
        _entry(surname="Lumb", forenames="Ada", buried="1911", place_written="by the yew"),
        number="7",
    )
    assert _said(entry) == [
        (
            Sort.NO_GRAVE,
            "Entry 7, Ada Lumb, 1911: no grave is recorded. The register writes “by the yew”.",
        )
    ]


def test_one_whose_remains_were_moved_away_needs_no_grave() -> None:
    entry = _entry(surname="Lumb")
    moved = new_item(
        removal.KIND, details=RemovalDetails(burial=entry.id, elsewhere="Scarbridge")
    )
    assert _said(entry, moved) == []


def test_a_used_grave_without_an_entry_is_told_and_a_free_one_is_not() -> None:
    used = _grave("C 1", state=State.OCCUPIED)
    said = _said(used, _grave("C 2", state=State.FREE), _grave("C 3"))
    assert said == [
        (Sort.NO_ENTRY, "Grave C 1 is used, and no entry of the register lies there.")
    ]


def test_an_entry_in_a_free_grave_is_told() -> None:
    free = _grave("C 2", state=State.FREE)
    ((sort, says),) = _said(free, _entry(surname="Lumb", grave=free.id))
    assert sort is Sort.IN_FREE
    assert says == "Grave C 2 is free on the plan, and the register has there: Entry, Lumb."


def test_two_coffins_are_too_many_for_one_and_ashes_are_not_counted() -> None:
    one = _grave("C 1", state=State.OCCUPIED, coffins=1)
    first = _entry(surname="Lumb", grave=one.id, sort=BurialSort.COFFIN)
    second = _entry(surname="Kaye", grave=one.id)
    ashes = _entry(surname="Lumb", grave=one.id, sort=BurialSort.ASHES)
    assert _said(one, first, ashes) == []
    (task,) = work_list(plan_of((one, first, second, ashes)))
    assert task.sort is Sort.CROWDED
    assert task.items == (one.id, first.id, second.id)
    double = replace(one, details=replace(one.details, coffins=2))
    assert _said(double, first, second) == []


KEPT = {"stage": Stage.GRANTED, "granted": "1990-05-01", "expires": "2020-04-30"}


@pytest.mark.parametrize(
    ("kept", "buried", "told"),
    [
        (KEPT, "2001-02-03", True),
        (KEPT, "1990", False),  # perhaps before it was granted
        (KEPT, "1985", False),
        (KEPT, "2020", False),  # perhaps after it ended
        (KEPT, "2019", True),
        (KEPT, "", False),
        ({**KEPT, "stage": Stage.REFUSED}, "2001", False),
        ({**KEPT, "held_for": "Ann Lumb"}, "2001", False),  # her husband, as is usual
        ({**KEPT, "held_for": "Ann Kaye"}, "2001", True),
        ({**KEPT, "expires": ""}, "2050", True),
        ({**KEPT, "expires": "", "term_years": 30.0}, "2021", False),
        ({**KEPT, "expires": "", "term_years": 30.0}, "2019", True),
        ({**KEPT, "stage": Stage.USED}, "2001", False),
        ({**KEPT, "granted": ""}, "2001", False),
    ],
)
def test_a_burial_in_a_space_kept_for_somebody_else_is_told(
    kept: dict[str, Any], buried: str, *, told: bool
) -> None:
    one = _grave("C 1", state=State.OCCUPIED)
    entry = _entry(surname="Lumb", grave=one.id, buried=buried)
    held = new_item(reservation.KIND, details=ReservationDetails(grave=one.id, **kept))
    found = work_list(plan_of((one, entry, held)))
    assert [t.sort for t in found] == [Sort.KEPT_BACK] * told
    assert all("Kaye" not in t.says for t in found)  # living people are not named


def test_a_second_burial_in_a_used_reservation_is_told_and_one_for_no_space_is_not() -> None:
    one = _grave("C 1", state=State.OCCUPIED)
    used = ReservationDetails(grave=one.id, **{**KEPT, "stage": Stage.USED})
    held = new_item(reservation.KIND, details=used)
    loose = new_item(reservation.KIND, details=ReservationDetails(**KEPT))
    first = _entry(surname="Lumb", grave=one.id, buried="1999")
    second = _entry(surname="Kaye", grave=one.id, buried="2003")
    (task,) = work_list(plan_of((one, held, loose, second, first)))
    assert task.items == (one.id, second.id, held.id)


def test_a_plot_for_ashes_is_looked_at_too() -> None:
    details = ashes_plot.AshesPlotDetails(state=ashes_plot.State.OCCUPIED)
    plot = new_item(ashes_plot.KIND, PLACE, details=details, number="G 1")
    assert [s for s, _ in _said(plot)] == [Sort.NO_ENTRY]
