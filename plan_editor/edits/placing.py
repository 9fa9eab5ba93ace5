"""Base plans placed by points: what they would do, before anything is done."""

from collections.abc import Sequence
from typing import Any

from plan_editor.edits.base_plans import PlaceBasePlan, paper_of
from plan_editor.plan.item import Item, ItemId
from plan_editor.survey.fits.fitting import Fit, Pair, fit
from plan_editor.survey.fits.models import Control, Model


def by_pairs(base_plan: ItemId, pairs: Sequence[Pair]) -> PlaceBasePlan:
    """Return the edit that places a base plan.

    Args:
        base_plan: its item.
        pairs: of places on the base plan (pixels right and down, or a drawing's own units) and
            on the ground (metres about the plan's origin).
    """
    return PlaceBasePlan(id=base_plan, control=_control(pairs))


def fit_by_pairs(item: Item[Any], pairs: Sequence[Pair]) -> Fit:
    """Return how a base plan would lie, with the residual of each pair.

    Raises:
        CannotUse: the pairs do not place it.
    """
    return fit(Model.SIMILARITY, _control(pairs), paper_of(item))


def _control(pairs: Sequence[Pair]) -> tuple[Control, ...]:
    return tuple(Control(x=x, y=y, east=e, north=n) for (x, y), (e, n) in pairs)
