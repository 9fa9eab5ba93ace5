"""The length and the bearing that are typed while drawing, in two fields."""

from math import atan2, degrees

from plan_editor.errors import CannotUse
from plan_editor.geometry.bearings import along, read
from plan_editor.geometry.lengths import metres
from plan_editor.geometry.tolerance import FARTHEST, SAME

Place = tuple[float, float]
"""East and north in metres about the plan's origin."""


def typed_place(origin: Place, toward: Place, *, length: str, bearing: str) -> Place:
    """Return the place at a typed length and bearing from an origin.

    Args:
        origin: where it is measured from.
        toward: where the pointer is; an empty bearing is that towards it, an empty length the
            distance to it.
        length: as typed: ``2.74``, ``9' 4½"``.
        bearing: as typed, clockwise from grid north: ``75.5``, ``N 30 E``.

    Raises:
        CannotUse: one of them cannot be read, or both are empty, or there is nothing to tell
            the way; nothing was changed.
    """
    away = toward[0] - origin[0], toward[1] - origin[1]
    distance = (away[0] ** 2 + away[1] ** 2) ** 0.5
    if not length.strip() and not bearing.strip():
        raise CannotUse("Nothing was placed. Type a length, a bearing, or both.")
    if distance <= SAME and not (length.strip() and bearing.strip()):
        raise CannotUse(
            "Nothing was placed: the pointer shows no way to go. Type both the length and the"
            " bearing, or point the way."
        )
    try:
        far = metres(length) if length.strip() else distance
        way = read(bearing) if bearing.strip() else degrees(atan2(*away))
    except ValueError as unread:
        raise CannotUse(f"Nothing was placed. {unread}") from unread
    if not SAME < far <= FARTHEST:
        raise CannotUse("Nothing was placed. Type a length greater than nothing, under 100 km.")
    east, north = along(way, far)
    return origin[0] + east, origin[1] + north


def typed_count(text: str, most: int) -> int | None:
    """Return the whole number from 1 to so many that was typed; None where it is none."""
    bare = text.strip()
    # longer than any number that is meant: such are not worked out
    if not bare.isdecimal() or len(bare) > len(str(most)):
        return None
    return count if 1 <= (count := int(bare)) <= most else None
