"""Burials that are asked for: what each still lacks, how deep to dig, and what comes next."""

from dataclasses import dataclass
from enum import StrEnum

from plan_editor.ground.parish import parish_figures
from plan_editor.ground.spaces import why_not
from plan_editor.kinds import request
from plan_editor.kinds.parish import ParishDetails
from plan_editor.kinds.request import Asked, Progress, RequestDetails, Right
from plan_editor.plan.item import Item
from plan_editor.plan.plan import Plan

Request = Item[RequestDetails]

CLEARANCE_MM = 100.0
"""Room to dig all round a coffin, at the least: 100 to 150 mm, guides of coffin makers."""


class Next(StrEnum):
    """What is to be done next."""

    CHOOSE = "choose the space"
    DIG = "dig"
    ENTER = "write the register"
    NOTHING = "nothing"


_NEXT = {
    Progress.ASKED: Next.CHOOSE,
    Progress.AGREED: Next.DIG,
    Progress.DUG: Next.ENTER,
    Progress.BURIED: Next.NOTHING,
    Progress.DECLINED: Next.NOTHING,
    Progress.WITHDRAWN: Next.NOTHING,
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """How far a request has come.

    Args:
        request: the request.
        next: what is to be done next.
        lacks: what must be known or agreed first, in plain words.
        depth_m: how deep to dig for what is asked, in metres; None for ashes and where nobody
            has said for how many coffins.
    """

    request: Request
    next: Next
    lacks: tuple[str, ...]
    depth_m: float | None


def requests_asked(plan: Plan) -> tuple[Standing, ...]:
    """Return every request: those with something left to do first, by the day of burial."""
    told = (standing_of(plan, r) for r in plan.of(request.KIND))
    return tuple(sorted(told, key=_order))


def standing_of(plan: Plan, wanted: Request) -> Standing:
    """Return how far a request has come, and what it lacks."""
    following = _NEXT[wanted.details.progress]
    return Standing(
        request=wanted,
        next=following,
        lacks=() if following is Next.NOTHING else lacking(plan, wanted),
        depth_m=depth_asked(parish_figures(plan), wanted.details),
    )


def lacking(plan: Plan, wanted: Request) -> tuple[str, ...]:
    """Return what a request still lacks, one sentence each, the right of burial first."""
    details = wanted.details
    found = (
        _right(details),
        *(_size(details) if details.sort is Asked.COFFIN else ()),
        "" if details.wished else "The day of the burial is not fixed.",
        *_space(plan, wanted),
    )
    return tuple(filter(None, found))


def depth_asked(figures: ParishDetails, details: RequestDetails) -> float | None:
    """Return how deep to dig for a request, in metres, or None; see ``depth_for``."""
    if details.sort is Asked.ASHES or details.coffins is None:
        return None
    lowest = None if details.height_mm is None else details.height_mm / 1000
    return depth_for(figures, details.coffins, lowest_m=lowest)


def depth_for(figures: ParishDetails, coffins: int, *, lowest_m: float | None = None) -> float:
    """Return the depth of a grave for so many coffins, in metres: cover, coffins and earth.

    Args:
        figures: of the parish: earth over the top coffin and between two, height of a coffin.
        coffins: how many find room one over the other; 1 or more.
        lowest_m: height of the one that is laid now, where it is known.
    """
    lowest = figures.coffin_m if lowest_m is None else lowest_m
    above = (coffins - 1) * (figures.coffin_m + figures.separation_m)
    return figures.cover_m + lowest + above


def _right(details: RequestDetails) -> str:
    if details.right is Right.UNKNOWN:
        return "On what the right of burial rests is not known."
    if details.right is Right.CONSENT and not details.consent:
        return "The day of the incumbent's consent is missing."
    return ""


def _size(details: RequestDetails) -> tuple[str, ...]:
    sides = {
        "length": details.length_mm,
        "width": details.width_mm,
        "height": details.height_mm,
    }
    missing = [name for name, side in sides.items() if side is None]
    size = f"The outer {_listed(missing)} of the coffin is missing." if missing else ""
    depth = "" if details.coffins else "For how many coffins to dig is not said."
    return size, depth


def _listed(names: list[str]) -> str:
    return " and ".join(filter(None, (", ".join(names[:-1]), names[-1])))


def _space(plan: Plan, wanted: Request) -> tuple[str, ...]:
    if wanted.details.grave is None:
        return ("No space is chosen.",)
    space = plan.items[wanted.details.grave]
    taken = why_not(plan, space, wanted) if wanted.details.progress is Progress.AGREED else ""
    place = space.rectangle
    if place is None or wanted.details.sort is Asked.ASHES:
        return (taken,)
    return taken, _tight(space.called(), (place.width, place.length), wanted.details)


def _tight(called: str, grave_m: tuple[float, float], details: RequestDetails) -> str:
    """Return whether a coffin is too large for a grave as it is drawn, as a sentence."""
    short, long = sorted(grave_m)
    sides = ((details.width_mm, short), (details.length_mm, long))
    if any(side is not None and side + 2 * CLEARANCE_MM > room * 1000 for side, room in sides):
        return (
            f"{called}, {long:.2f} by {short:.2f} m, leaves less than {CLEARANCE_MM:g} mm round"
            " the coffin."
        )
    return ""


def _order(told: Standing) -> tuple[bool, str, str]:
    details = told.request.details
    return told.next is Next.NOTHING, details.wished or "9999", details.asked
