"""Outlines that were found in a scan and are proposed to be drawn."""

from dataclasses import dataclass

from plan_editor.geometry.outlines import Rectangle
from plan_editor.plan.item import ItemId


@dataclass(frozen=True, slots=True, kw_only=True)
class Proposal:
    """One rectangle that a base plan seems to show.

    Args:
        rectangle: where it would lie, in metres about the plan's origin; its head line is on
            the side on which the graves already traced have theirs.
        score: how sure it is, from 0 to 1.
        base_plan: on which base plan it was found.
    """

    rectangle: Rectangle
    score: float
    base_plan: ItemId
