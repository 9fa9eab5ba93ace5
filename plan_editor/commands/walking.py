"""The way from the gate to what is chosen, as the window shows it."""

from collections.abc import Sequence
from dataclasses import dataclass

from plan_editor.commands.today import today
from plan_editor.drawing.sketch import Sketch, SketchLine, Tone
from plan_editor.errors import CannotUse
from plan_editor.ground.clearance import zones
from plan_editor.ground.rules import Purpose
from plan_editor.ground.walking import way_to
from plan_editor.ground.way_words import in_words
from plan_editor.plan.item import ItemId
from plan_editor.plan.plan import Plan
from plan_editor.records.resting import named, place_of, resting_at
from plan_editor.records.safety import unsafe

CHOOSE = "Choose a grave, a stone or an entry, and the way to it from the gate is shown."
CAUTION = (
    "The ground is uneven; keep away from stones that are fenced off. The sheet “Visitor's"
    " slip” prints the way."
)
NO_PLACE = "{} has no place on the plan yet. Say in which grave it belongs first."
NO_WAY = (
    "No way was found to {}: the plan has neither gate, boundary nor path from which to walk"
    " there, or it is walled in. Draw a gate and the paths."
)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class WayShown:
    """A way as it is shown.

    Args:
        item: for which thing it was asked.
        title: to what, and how far.
        lines: who rests there, then the way in words and what was taken for granted.
        sketch: over the ground.
    """

    item: ItemId
    title: str
    lines: tuple[str, ...]
    sketch: Sketch


def goal(plan: Plan, chosen: Sequence[ItemId]) -> ItemId | None:
    """Return the one thing that is chosen, if it is on the plan."""
    return chosen[0] if len(chosen) == 1 and chosen[0] in plan.items else None


def way_shown(plan: Plan, item: ItemId) -> WayShown:
    """Return the way to a thing, round what is unsafe today.

    Raises:
        CannotUse: it has no place on the plan, or no way leads there.
    """
    place = place_of(plan, item)
    if place is None:
        raise CannotUse(NO_PLACE.format(plan.items[item].called()))
    kept_off = zones(plan, unsafe(plan, on=today()), purpose=Purpose.PEOPLE)
    way = way_to(plan, place.id, [z.shape for z in kept_off])
    if way is None:
        raise CannotUse(NO_WAY.format(place.called()))
    names = tuple(f"{named(entry)}." for entry in resting_at(plan, item))
    line = SketchLine(points=way.places, tone=Tone.MEASURED, arrow=True)
    return WayShown(
        item=item,
        title=f"{place.called()}: about {max(1, round(way.length_m))} m on foot",
        lines=(*names, *in_words(way), *way.assumed),
        sketch=Sketch(lines=(line,)),
    )
