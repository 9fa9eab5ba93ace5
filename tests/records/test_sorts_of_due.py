"""Sorts of due: grass left uncut, burials wished; and nobody living is named by any."""

from dataclasses import replace

import pytest
import shapely

from plan_editor.kinds import grass, grave, request
from plan_editor.kinds.grass import GrassDetails, Regime
from plan_editor.kinds.request import Progress, RequestDetails
from plan_editor.plan.item import new_item
from plan_editor.plan.plan import plan_of
from plan_editor.records.dues import requests, uncut_until

ON = "2026-11-25"


def test_grass_is_left_alone_until_the_last_day_that_its_date_may_mean():
    pieces = [
        new_item(
            grass.KIND,
            shapely.box(n, 0, n + 1, 1),
            details=GrassDetails(regime=Regime.SUMMER, name=f"Bank {n}", uncut_until=until),
        )
        for n, until in enumerate(("2027-07-15", "2027-02", ""))
    ]
    found = uncut_until.DUE.find(plan_of(pieces), ON)
    assert [d.date for d in found] == ["2027-07-15", "2027-02-28"]
    assert found[0].title == "Grass Bank 0: uncut until this day"
    assert found[0].says.startswith("Summer meadow: no machine")
    assert found[0].item == pieces[0].id
    assert not uncut_until.DUE.task


@pytest.mark.parametrize(
    ("progress", "awaited"),
    [
        (Progress.ASKED, True),
        (Progress.AGREED, True),
        (Progress.DUG, True),
        (Progress.BURIED, False),
        (Progress.DECLINED, False),
        (Progress.WITHDRAWN, False),
    ],
)
def test_a_burial_is_awaited_until_it_has_taken_place_or_been_given_up(progress, awaited):
    told = RequestDetails(surname="Tarn", wished="2026-12-04", progress=progress)
    found = requests.DUE.find(plan_of([new_item(request.KIND, details=told)]), ON)
    assert [d.date for d in found] == (["2026-12-04"] if awaited else [])


def test_a_wished_burial_tells_its_space_and_hour_and_neither_who_is_dead_nor_who_asks():
    space = new_item(grave.KIND, number="C 14")
    told = RequestDetails(
        surname="Tarn",
        wished="2026-12-04",
        hour="11:30",
        grave=space.id,
        applicant="Ivy Sallow",
        director="Sallow and Son",
    )
    one = new_item(request.KIND, details=told)
    (due,) = requests.DUE.find(plan_of([space, one]), ON)
    assert due.title == "Burial, Grave C 14"
    assert due.says == "Coffin at 11:30; asked for."
    assert due.item == due.key == one.id
    bare = replace(one, details=replace(told, grave=None, hour=""))
    (due,) = requests.DUE.find(plan_of([bare]), ON)
    assert (due.title, due.says) == ("Burial, no space chosen yet", "Coffin; asked for.")


def test_a_request_without_a_day_is_not_due():
    assert requests.DUE.find(plan_of([new_item(request.KIND)]), ON) == ()
