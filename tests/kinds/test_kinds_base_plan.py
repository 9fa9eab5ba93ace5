"""Base plans whose numbers were changed by another program do no harm."""

import numpy as np
import pytest

from plan_editor.errors import CannotUse
from plan_editor.geometry.mappings import Perspective, Straight
from plan_editor.kinds.base_plan import BasePlanDetails
from plan_editor.survey.fits.models import Model, Warp

FIT = (0.1, 0.0, 5.0, 0.0, -0.1, 9.0)
CONTROL = (0.0, 0.0, 5.0, 9.0, 100.0, 0.0, 15.2, 9.0, 0.0, 100.0, 5.0, -1.1)


@pytest.mark.parametrize(
    ("model", "bend", "kind"),
    [
        (Model.SIMILARITY, (), Straight),
        (Model.AFFINE, (), Straight),
        (Model.PROJECTIVE, (*FIT, 0.0, 0.0), Perspective),
        (Model.WARP, (0.0, 0.0, 0.0), Warp),
    ],
)
def test_each_kind_of_fit_has_its_way_to_the_ground(model, bend, kind):
    details = BasePlanDetails(model=model, fit=FIT, bend=bend, control=CONTROL)
    assert isinstance(details.mapping, kind)


@pytest.mark.parametrize(
    ("model", "bend"),
    [(Model.PROJECTIVE, (1.0, 2.0)), (Model.WARP, ()), (Model.WARP, (0.0,) * 4)],
)
def test_numbers_of_another_kind_of_fit_place_nothing(model, bend):
    details = BasePlanDetails(model=model, fit=FIT, bend=bend, control=CONTROL)
    assert details.mapping is None


@pytest.mark.parametrize("count", [0, 2, 3])
def test_a_warp_of_too_few_points_or_one_line_is_refused_in_a_sentence(count):
    control = tuple(n for i in range(count) for n in (10.0 * i, 10.0 * i, 1.0 * i, -1.0 * i))
    details = BasePlanDetails(model=Model.WARP, fit=FIT, bend=(0.0,) * count, control=control)
    with pytest.raises(CannotUse, match="place it by points again"):
        details.mapping.to_ground(np.zeros((1, 2)))
