import pytest

from plan_editor.geometry.mappings import Perspective, Straight
from plan_editor.ground.base_plans import laid, listed
from plan_editor.ground.provisional import on_base_plan, provisionally
from plan_editor.kinds import base_plan
from plan_editor.kinds.base_plan import BasePlanDetails, Content
from plan_editor.plan.item import new_item
from plan_editor.plan.plan import plan_of
from plan_editor.survey.fits.models import Model

FIT = (0.1, 0.0, 5.0, 0.0, -0.1, 9.0)


def test_only_what_was_placed_lies_under_the_ground():
    on_the_desk = new_item(base_plan.KIND, details=BasePlanDetails(name="unplaced"))
    placed = new_item(
        base_plan.KIND,
        details=BasePlanDetails(
            name="1962",
            content=Content.DRAWING,
            fit=FIT,
            copyright="© The parish.",
            licence="12",
            reproducible=True,
        ),
    )
    (found,) = laid(plan_of([on_the_desk, placed]))
    assert (found.item, found.name, found.is_scan) == (placed.id, "1962", False)
    assert found.mapping == Straight(FIT)
    assert found.reproducible
    assert found.acknowledgement == "© The parish. Licence 12."


def test_nothing_to_acknowledge_is_an_empty_line():
    plain = new_item(base_plan.KIND, details=BasePlanDetails(fit=FIT))
    assert laid(plan_of([plain]))[0].acknowledgement == ""


EIGHT = (0.1, 0.0, 5.0, 0.0, -0.1, 9.0, 0.0001, 0.0)


def slanted(**more):
    details = BasePlanDetails(
        name="photograph", model=Model.PROJECTIVE, fit=FIT, bend=EIGHT, page=3, **more
    )
    return new_item(base_plan.KIND, details=details)


def test_a_slanted_photograph_lies_by_its_eight_numbers():
    (found,) = laid(plan_of([slanted()]))
    assert (found.mapping, found.page) == (Perspective(FIT, EIGHT), 3)
    # the pixel at (1000, 0): (0.1 · 1000 + 5) / (0.0001 · 1000 + 1) = 105 / 1.1
    x, y = on_base_plan(found, 105 / 1.1, 9 / 1.1)
    assert (x, y) == pytest.approx((1000, 0), abs=1e-6)


def test_the_list_says_by_which_fit_it_was_placed():
    (told,) = listed(plan_of([slanted()]))
    assert (told.model, told.page, told.placed) == (Model.PROJECTIVE, 3, True)
    (told,) = listed(plan_of([new_item(base_plan.KIND, details=BasePlanDetails())]))
    assert (told.model, told.metres, told.placed) == (None, None, False)


def test_laid_across_the_view_a_photograph_is_straight_again():
    item = slanted(extent=(0.0, 0.0, 400.0, 200.0))
    found = provisionally(item, (0.0, 0.0, 100.0, 100.0))
    assert found.mapping == Straight((0.2, 0.0, 10.0, 0.0, -0.2, 70.0))
