from dataclasses import replace

import pytest
from churchyards import found, grave_at, old_plan

from plan_editor.checking.rule import Severity
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import memorial
from plan_editor.kinds.memorial import MemorialDetails
from plan_editor.plan.item import Basis, Method, new_item

POOR, STALE = "poor_fit", "stale_base_plan"


def test_a_fit_that_misses_by_70_cm_under_graves_is_a_fault() -> None:
    under = old_plan(miss=0.7, sd_m=0.5)
    (finding,) = found(POOR, (under, grave_at(1, 1, sd_m=0.5, on=under.id)))
    assert "by 0.70 m (root mean square), so that a grave may be the next" in finding.text
    assert "1 thing is traced on it" in finding.text
    assert finding.severity is Severity.FAULT


def test_a_fit_is_held_against_the_ground_that_its_plan_shows() -> None:
    # 40 m square is 56.57 m from corner to corner, a 250th of which is 0.226 m
    assert found(POOR, (old_plan(miss=0.22),)) == ()
    (finding,) = found(POOR, (old_plan(miss=0.23),))
    assert "much for the 57 m that it shows" in finding.text
    # 1:2500, a kilometre across: 1.1 m is what such maps are good for
    assert found(POOR, (old_plan(miss=1.1, size=1000.0),)) == ()


def test_a_fit_without_a_point_to_spare_is_remarked_once_something_is_traced_on_it() -> None:
    under = old_plan(miss=None, sd_m=None)
    assert found(POOR, (under,)) == ()
    graves = [grave_at(1, n, on=under.id) for n in (1, 3)]
    (finding,) = found(POOR, (under, *graves))
    assert "placed by 3 points, none to spare" in finding.text
    assert "2 things are traced on it" in finding.text


def test_a_drawing_in_its_own_coordinates_has_no_fit_to_judge() -> None:
    assert found(POOR, (old_plan(control=(), miss=0.9),)) == ()


def test_what_lies_beyond_the_paper_was_not_taken_along() -> None:
    under = old_plan()
    assert found(STALE, (under,)) == ()
    inside, out = (grave_at(e, 5, "A 1", sd_m=0.07, on=under.id) for e in (5, 39))
    assert found(STALE, (under, inside)) == ()
    (finding,) = found(STALE, (under, inside, out))
    assert finding.items == (out.id, under.id)
    assert "beyond its edge" in finding.text


def test_what_claims_less_than_half_the_doubt_of_the_fit_was_traced_on_another() -> None:
    under = old_plan(sd_m=0.3)
    graves = [grave_at(5, n, sd_m=0.1, on=under.id) for n in (5, 8)]
    (finding,) = found(STALE, (under, *graves))
    assert finding.text.startswith(
        "2 things, a grave among them, are kept as traced on base plan 1962, but"
    )
    assert "0.30 m: it was placed anew since" in finding.text
    graves = [
        replace(g, basis=replace(g.basis, sd_m=sd))
        for g, sd in zip(graves, (0.2, None), strict=True)
    ]
    assert found(STALE, (under, *graves)) == ()


def test_what_was_put_up_after_the_paper_was_drawn_is_told() -> None:
    under = old_plan(date="1962")
    place = Rectangle(east=5, north=5, width=0.9, length=0.15)

    def stone(erected: str):
        basis = Basis(method=Method.TRACED, base_plan=under.id, sd_m=0.07)
        told = MemorialDetails(erected=erected)
        return new_item(memorial.KIND, place, details=told, basis=basis)

    assert found(STALE, (under, stone("1962-05"), stone("1901"), stone(""))) == ()
    (finding,) = found(STALE, (under, stone("1975"), grave_at(5, 9, sd_m=0.07, on=under.id)))
    assert "newer than 1962" in finding.text


def test_what_was_traced_on_a_plan_that_is_placed_no_longer_is_told() -> None:
    under = replace(old_plan(), shape=None)
    (finding,) = found(STALE, (under, grave_at(5, 5, "A 1", sd_m=0.07, on=under.id)))
    assert "placed no longer" in finding.text


@pytest.mark.parametrize("source", ["Plan of 1962", "Plan\nof 1962", ""])
def test_what_was_traced_on_something_that_is_gone_is_remarked(source: str) -> None:
    one = grave_at(5, 5, "A 1")
    one = replace(one, basis=replace(one.basis, source=source))
    (finding,) = found(STALE, (one,))
    assert ("Plan of 1962" if source else "not named") in finding.text
    assert finding.severity is Severity.REMARK


def test_a_base_plan_that_is_not_placed_has_no_place_yet() -> None:
    (finding,) = found("no_place", (replace(old_plan(), shape=None), grave_at(0, 0)))
    assert finding.place is None
    assert "has no place on the plan yet" in finding.text
