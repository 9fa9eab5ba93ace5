"""Base plans placed by each kind of fit: what is kept, given back by undo, and refused."""

from dataclasses import replace

import numpy as np
import pytest

from plan_editor.edits.base_plans import PlaceBasePlan, paper_of, scan_item
from plan_editor.errors import EditRefused
from plan_editor.plan.document import Document
from plan_editor.plan.plan import plan_of
from plan_editor.survey.fits.fitting import fit
from plan_editor.survey.fits.models import Control, Model

SCAN = scan_item("1891", "d" * 64, width=1200, height=900)
PLACES = [(x, y) for x in (80.0, 610.0, 1130.0) for y in (70.0, 440.0, 820.0)]


def cockled(x, y):
    """Return the ground of a pixel of a sheet taken at a slant, stretched, bowed by 0.2 m."""
    below = 1.0 + 4e-5 * x - 2e-5 * y
    east = (0.05 * x + 0.002 * y + 3.0) / below + 0.2 * np.sin(y / 300)
    north = (0.001 * x - 0.049 * y + 60.0) / below + 0.2 * np.cos(x / 400)
    return round(float(east), 3), round(float(north), 3)


CONTROL = tuple(
    Control(x=x, y=y, east=e, north=n, sd=0.02 + 0.01 * (k % 3), name=f"M{k}")
    for k, (x, y) in enumerate(PLACES)
    for e, n in [cockled(x, y)]
)
AGAIN = tuple(
    Control(x=c.x, y=c.y, east=c.east + 7.1, north=c.north - 0.3, name=c.name) for c in CONTROL
)


def bits(item):
    """Return an item as text; numbers that differ in the last bit differ in it."""
    return repr((item.id, item.details, item.basis, item.shape and item.shape.wkb))


@pytest.mark.parametrize("model", Model)
def test_undo_gives_the_base_plan_back_bit_for_bit(model):
    document = Document(plan_of([SCAN]))
    before = bits(document.plan.items[SCAN.id])
    document.apply(PlaceBasePlan(id=SCAN.id, control=CONTROL, model=model))
    first = bits(document.plan.items[SCAN.id])
    document.apply(PlaceBasePlan(id=SCAN.id, control=AGAIN, model=model))
    second = bits(document.plan.items[SCAN.id])
    assert len({before, first, second}) == 3
    document.undo()
    assert bits(document.plan.items[SCAN.id]) == first
    document.undo()
    assert bits(document.plan.items[SCAN.id]) == before
    document.redo()
    document.redo()
    assert bits(document.plan.items[SCAN.id]) == second


@pytest.mark.parametrize("model", Model)
def test_one_kind_of_fit_after_another_leaves_nothing_of_the_first(model):
    other = Model.WARP if model is not Model.WARP else Model.PROJECTIVE
    directly, after = Document(plan_of([SCAN])), Document(plan_of([SCAN]))
    after.apply(PlaceBasePlan(id=SCAN.id, control=AGAIN, model=other))
    for document in (directly, after):
        document.apply(PlaceBasePlan(id=SCAN.id, control=CONTROL, model=model))
    assert bits(after.plan.items[SCAN.id]) == bits(directly.plan.items[SCAN.id])


@pytest.mark.parametrize("model", Model)
def test_what_is_kept_leads_where_the_fit_led(model):
    # twelve digits are kept of each number
    found = fit(model, CONTROL, paper_of(SCAN))
    (change,) = PlaceBasePlan(id=SCAN.id, control=CONTROL, model=model).changes(plan_of([SCAN]))
    details = change.after.details
    corners = np.array([(0.0, 0.0), (1200.0, 0.0), (1200.0, 900.0), (0.0, 900.0)])
    there = found.mapping.to_ground(corners)
    assert np.abs(details.mapping.to_ground(corners) - there).max() < 1e-6
    assert np.abs(details.mapping.to_paper(there) - corners).max() < 1e-3
    assert details.control_points == CONTROL
    assert (details.model, details.rmse_m) == (model, round(found.rmse, 4))


def test_a_fit_that_would_fold_the_sheet_is_refused_and_nothing_is_changed():
    # the points lie west of x = 900 and fit exactly; there the sheet would go to infinity
    folding = tuple(
        Control(x=x, y=y, east=0.04 * x / (1 - x / 900), north=-0.04 * y / (1 - x / 900))
        for x in (0.0, 200.0, 400.0)
        for y in (0.0, 300.0, 700.0)
    )
    document = Document(plan_of([SCAN]))
    with pytest.raises(EditRefused, match=r"would be folded over or torn.*simpler kind of fit"):
        document.apply(PlaceBasePlan(id=SCAN.id, control=folding, model=Model.PROJECTIVE))
    assert document.plan.items[SCAN.id] is SCAN
    assert document.undo_title is None


def test_a_fit_that_would_flatten_the_sheet_is_refused_and_nothing_is_changed():
    along = [0.05 * c.x + 0.013 * c.y for c in CONTROL]
    flat = tuple(
        Control(x=c.x, y=c.y, east=a, north=0.4 * a)
        for c, a in zip(CONTROL, along, strict=True)
    )
    document = Document(plan_of([SCAN]))
    for model in (Model.AFFINE, Model.PROJECTIVE, Model.WARP):
        with pytest.raises(EditRefused, match="all in one line on the ground"):
            document.apply(PlaceBasePlan(id=SCAN.id, control=flat, model=model))
    assert document.plan.items[SCAN.id] is SCAN


def test_a_base_plan_of_which_no_extent_is_known_is_not_placed():
    empty = replace(SCAN, details=replace(SCAN.details, extent=()))
    with pytest.raises(EditRefused, match="shows nothing yet"):
        PlaceBasePlan(id=SCAN.id, control=CONTROL).changes(plan_of([empty]))
