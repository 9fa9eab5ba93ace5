"""A base plan placed again: what was traced on it goes along, as the paper does."""

from dataclasses import replace
from math import hypot, sqrt

import pytest
import shapely

from plan_editor.edits.base_plans import PlaceBasePlan, scan_item
from plan_editor.edits.basic import Add
from plan_editor.edits.refitting import RefitBasePlan, taking_along, traced
from plan_editor.errors import EditRefused
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import grave, path, tree
from plan_editor.plan.document import Document
from plan_editor.plan.item import Basis, ItemId, Method, new_item
from plan_editor.plan.plan import plan_of
from plan_editor.survey.fits.models import Control, Model

SCAN = scan_item("1962", "d" * 64, width=200, height=100)
TRACED = Basis(method=Method.TRACED, source="1962", base_plan=SCAN.id)
YEW = new_item(tree.KIND, shapely.Point(15.0, 15.0), basis=TRACED)
GRAVE = new_item(
    grave.KIND,
    Rectangle(east=10.0, north=12.0, width=1.0, length=2.0, bearing_deg=10.0),
    basis=replace(TRACED, sd_m=0.5),
)
TAPED = new_item(tree.KIND, shapely.Point(8.0, 12.0), basis=Basis(method=Method.TAPED))
REGISTERED = new_item(path.KIND, shapely.LineString([(6, 11), (20, 19)]), basis=TRACED)


def control(*numbers):
    return tuple(Control(x=x, y=y, east=e, north=n) for x, y, e, n in numbers)


FIRST = control((0, 0, 5, 20), (200, 100, 25, 10))
"""North up, a tenth of a metre to the pixel."""

SHIFTED = control((0, 0, 8, 16), (200, 100, 28, 6))
"""The same three metres to the east and four to the south."""

STRETCHED = control((0, 0, 5, 20), (200, 0, 27, 20), (0, 100, 5, 10), (200, 100, 27, 10))
"""A tenth wider from the upper left corner."""


@pytest.fixture
def document():
    made = Document(plan_of([SCAN, YEW, GRAVE, TAPED, REGISTERED]))
    made.apply(PlaceBasePlan(id=SCAN.id, control=FIRST))
    return made


def test_what_was_traced_goes_along_and_what_was_measured_stays(document):
    before = document.plan
    document.apply(RefitBasePlan(id=SCAN.id, control=SHIFTED))
    after = document.plan.items
    assert {i.id for i in traced(before, SCAN.id)} == {YEW.id, GRAVE.id, REGISTERED.id}
    assert after[YEW.id].shape.equals(shapely.Point(18.0, 11.0))
    assert after[REGISTERED.id].shape.equals(shapely.LineString([(9, 7), (23, 15)]))
    assert after[TAPED.id] == before.items[TAPED.id]
    moved = after[GRAVE.id].rectangle
    # its corner is kept to the micrometre, and its sides are what they were
    assert (moved.east, moved.north) == pytest.approx((13.0, 8.0), abs=1e-6)
    assert (moved.width, moved.length) == pytest.approx((1.0, 2.0), abs=1e-9)
    assert moved.bearing_deg == pytest.approx(10.0, abs=1e-6)
    # it is one edit, and one undo takes all of it back
    document.undo()
    assert document.plan.items == before.items


def test_the_title_says_how_much_goes_along(document):
    edit = taking_along(document.plan, SCAN.id, SHIFTED, Model.SIMILARITY)
    document.apply(edit)
    assert document.undo_title == (
        "Place a base plan again by 2 points, with 3 things traced on it"
    )
    assert RefitBasePlan(id=SCAN.id, control=SHIFTED).title.endswith("with what was traced")


def test_a_stretched_paper_stretches_what_was_traced_and_a_rectangle_stays_one(document):
    document.apply(RefitBasePlan(id=SCAN.id, control=STRETCHED, model=Model.AFFINE))
    after = document.plan.items
    # ten metres from the left edge have become eleven
    assert after[YEW.id].shape.equals(shapely.Point(16.0, 15.0))
    grown = after[GRAVE.id].rectangle
    assert 2.0 < grown.width * grown.length < 2.21
    assert grown.length == pytest.approx(2.2, abs=0.02)  # it lies nearly east and west


def test_what_was_as_uncertain_as_the_old_fit_is_as_uncertain_as_the_new(document):
    loose = (*SHIFTED, Control(x=200, y=0, east=28.4, north=16.0))
    document.apply(RefitBasePlan(id=SCAN.id, control=loose))
    after = document.plan.items
    assert after[SCAN.id].basis.sd_m > 0.05
    # a pixel is 0.1 m wide there, more or less, and pointing adds 2/√3 of it
    both = hypot(after[SCAN.id].basis.sd_m, 0.1 * 2 / sqrt(3))
    assert after[YEW.id].basis.sd_m == pytest.approx(both, rel=0.02)
    assert after[GRAVE.id].basis.sd_m == 0.5  # somebody knew better


def test_what_states_the_fit_alone_goes_on_stating_that(document):
    loose = (*SHIFTED, Control(x=200, y=0, east=28.4, north=16.0))
    looser = (*SHIFTED, Control(x=200, y=0, east=29.0, north=16.0))
    document.apply(RefitBasePlan(id=SCAN.id, control=loose))
    fit = document.plan.items[SCAN.id].basis.sd_m
    bare = replace(YEW, id=ItemId("9" * 32), basis=replace(YEW.basis, sd_m=fit))
    document.apply(Add((bare,)))
    document.apply(RefitBasePlan(id=SCAN.id, control=looser))
    after = document.plan.items
    assert after[bare.id].basis.sd_m == after[SCAN.id].basis.sd_m > fit
    both = hypot(after[SCAN.id].basis.sd_m, 0.1 * 2 / sqrt(3))
    assert after[YEW.id].basis.sd_m == pytest.approx(both, rel=0.02)


def test_a_base_plan_that_is_not_placed_takes_nothing_along():
    with pytest.raises(EditRefused, match="not placed yet"):
        RefitBasePlan(id=SCAN.id, control=FIRST).changes(plan_of([SCAN, YEW]))


def test_what_would_vanish_is_refused_by_name(document):
    short = new_item(path.KIND, shapely.LineString([(6, 11), (6.005, 11)]), basis=TRACED)
    document.apply(Add((short,)))
    tiny = control((0, 0, 5, 20), (200, 100, 5.04, 19.98))
    with pytest.raises(EditRefused, match=r"^Path .*cannot go along"):
        document.apply(RefitBasePlan(id=SCAN.id, control=tiny))
    assert document.plan.items[YEW.id].shape.equals(YEW.shape)


def test_a_grave_that_would_be_no_rectangle_is_refused_by_name(document):
    leaning = control((0, 0, 5, 20), (200, 0, 25, 70), (0, 100, 5, 10), (200, 100, 25, 60))
    with pytest.raises(EditRefused, match=r"^Grave .*no longer be a rectangle"):
        document.apply(RefitBasePlan(id=SCAN.id, control=leaning, model=Model.AFFINE))


@pytest.mark.parametrize(
    "changed",
    [
        {"fit": (0.1, 0.0, 5.0, 0.2, 0.0, 20.0)},  # flat
        {"model": Model.PROJECTIVE, "bend": (1.0, 0.0, 0.0, 1.0, 0.0, 0.0, 0.0, 0.0)},
        {"model": Model.WARP, "bend": (0.0, 0.0)},  # two points carry no warp
    ],
)
def test_a_fit_that_another_program_spoiled_takes_nothing_along(document, changed):
    item = document.plan.items[SCAN.id]
    spoiled = replace(item, details=replace(item.details, **changed))
    plan = plan_of([spoiled, YEW])
    with pytest.raises(EditRefused, match="leads to no place on the paper"):
        RefitBasePlan(id=SCAN.id, control=SHIFTED).changes(plan)


def test_a_base_plan_on_which_nothing_was_traced_is_placed_alone(document):
    plan = plan_of([document.plan.items[SCAN.id], TAPED])
    (change,) = RefitBasePlan(id=SCAN.id, control=SHIFTED).changes(plan)
    assert change.after.id == SCAN.id
