"""In plain words, what differs between two states of one thing."""

from textwrap import shorten

from plan_editor.commands.forms import capital, shown_on
from plan_editor.edits.chosen import called
from plan_editor.geometry.tolerance import SAME
from plan_editor.plan.comparing import Moved
from plan_editor.plan.differences import Difference
from plan_editor.plan.item import Item
from plan_editor.plan.plan import Plan

LONGEST = 60
"""A value is told in so many letters."""

NOTHING = "nothing"
PRIVATE = "changed; it concerns a living person and is not shown"
_TURNED_DEG = 0.01
"""A smaller turn is not told, in degrees: 2 m long, a thing moves by less than a millimetre."""


def name_of(item: Item) -> str:
    """Return what to call a thing at the head of a line; nobody living is named."""
    return capital(called((item,)))


def told(
    found: Difference, moved: Moved | None, before: Plan, after: Plan
) -> tuple[str, str, str]:
    """Return a field's title, and in words what it held before and holds after.

    A place has no words for what it was; it is told how far it moved, as what it is after.

    Args:
        found: the field with its values.
        moved: how the place differs, where that is known.
        before: the plan in which names for the first value are found.
        after: that for the second.
    """
    detail = found.field.detail
    if found.field.is_place:
        return detail.about.title, "", _place(found, moved)
    if detail.about.private:
        return detail.about.title, "", PRIVATE
    values = ((found.before, before), (found.after, after))
    one, other = (_value(found, value, plan) for value, plan in values)
    return detail.about.title, one, other


def line(found: Difference, moved: Moved | None, before: Plan, after: Plan) -> str:
    """Return what ``told`` tells in one line: ``State: free → reserved``."""
    title, one, other = told(found, moved, before, after)
    return f"{title}: {one} → {other}" if one else f"{title}: {other}"


def moved_words(moved: Moved) -> str:
    """Return how a thing lies against where it lay: ``moved 1.25 m on bearing 045°``."""
    parts = []
    if moved.distance_m >= SAME:
        parts.append(f"moved {moved.distance_m:.3f} m on bearing {moved.bearing_deg:05.1f}°")
    if abs(moved.turned_deg) >= _TURNED_DEG:
        way = "clockwise" if moved.turned_deg > 0 else "anticlockwise"
        parts.append(f"turned {abs(moved.turned_deg):.2f}° {way}")
    if moved.reshaped:
        parts.append("given another shape")
    return ", ".join(parts) or "moved by less than a millimetre"


def _place(found: Difference, moved: Moved | None) -> str:
    if moved is not None:
        return moved_words(moved)
    return "taken away" if found.after[0] is None else "given"


def _value(found: Difference, value: object, plan: Plan) -> str:
    detail = found.field.detail
    words = " ".join(shown_on(detail, value, plan).split())
    if not words:
        return NOTHING if value in (None, "", ()) else "something not named"
    unit = f" {detail.about.unit}" if detail.about.unit else ""
    return shorten(words, LONGEST, placeholder="…") + unit
