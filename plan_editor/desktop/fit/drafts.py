"""Fits that were begun: kept while the window is open, so that giving up loses no point."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Any

from plan_editor.commands.control import Points, points_of
from plan_editor.commands.marks import MarkLine
from plan_editor.plan.item import Item, ItemId
from plan_editor.survey.fits.models import Model
from plan_editor.survey.grids.grid import Grid


@dataclass(frozen=True, slots=True, kw_only=True)
class Draft:
    """What was begun.

    Args:
        points: those left out too.
        model: the kind of fit; None for the best.
        over: the control of the base plan when it was begun, or as it was placed by this.
    """

    points: Points = ()
    model: Model | None = None
    over: tuple[float, ...] = ()


class Drafts:
    """One for each base plan. Where that was placed otherwise meanwhile, it is begun anew."""

    def __init__(self) -> None:
        self._kept: dict[ItemId, Draft] = {}

    def begin(self, item: Item[Any], marks: Iterable[MarkLine], grid: Grid) -> Draft:
        """Return what was begun, or the points by which the base plan was placed."""
        kept = self._kept.get(item.id)
        if kept is None or kept.over != item.details.control:
            kept = Draft(points=points_of(item, marks, grid), over=item.details.control)
        self._kept[item.id] = kept
        return kept

    def of(self, item: ItemId | None) -> Draft:
        """Return what was begun of a base plan; nothing of none."""
        return Draft() if item is None else self._kept[item]

    def change(self, item: ItemId, points: Points, model: Model | None) -> None:
        """Keep other points or another kind of fit."""
        self._kept[item] = replace(self._kept[item], points=points, model=model)

    def placed(self, item: Item[Any]) -> None:
        """Note that a base plan was placed by what was begun."""
        self._kept[item.id] = replace(self._kept[item.id], over=item.details.control)
