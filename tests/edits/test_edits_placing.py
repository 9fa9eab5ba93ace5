"""Base plans placed by pairs of points."""

from dataclasses import replace

import pytest
from strategies import kind_of, plain

from plan_editor.edits.placing import by_pairs, fit_by_pairs
from plan_editor.errors import CannotUse
from plan_editor.kinds.base_plan import BasePlanDetails
from plan_editor.plan.document import Document
from plan_editor.plan.plan import plan_of

SCAN = replace(
    plain(kind_of("base_plan")), details=BasePlanDetails(extent=(0.0, 0.0, 1000.0, 500.0))
)
# 1000 pixels are 100 m; down on the scan is south on the ground
PAIRS = [((0.0, 0.0), (10.0, 60.0)), ((1000.0, 500.0), (110.0, 10.0))]


def test_pairs_tell_how_it_would_lie_before_anything_is_done() -> None:
    fit = fit_by_pairs(SCAN, PAIRS)
    assert fit.parameters == pytest.approx((0.1, 0.0, 10.0, 0.0, -0.1, 60.0))
    assert fit.rmse == pytest.approx(0.0, abs=1e-9)


def test_what_they_tell_is_what_is_done() -> None:
    document = Document(plan_of([SCAN]))
    document.apply(by_pairs(SCAN.id, PAIRS))
    placed = document.plan.items[SCAN.id]
    assert placed.details.fit == pytest.approx(fit_by_pairs(SCAN, PAIRS).parameters)
    assert placed.shape is not None
    assert placed.shape.bounds == pytest.approx((10.0, 10.0, 110.0, 60.0))
    assert [(c.x, c.y, c.east, c.north) for c in placed.details.control_points] == [
        (*on_scan, *on_ground) for on_scan, on_ground in PAIRS
    ]


def test_one_pair_does_not_place_it() -> None:
    with pytest.raises(CannotUse):
        fit_by_pairs(SCAN, PAIRS[:1])
