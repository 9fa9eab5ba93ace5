"""Go through what was found in a scan: draw it, leave it out, or set it right first.

One is in hand at a time, in order along the rows. All can be done by key: A or Enter draws it,
L leaves it out, O draws all of its row, Backspace goes back.
"""

from dataclasses import dataclass, replace
from enum import Enum
from functools import lru_cache

import shapely
from shapely import LineString, MultiPoint, Point
from shapely.geometry.base import BaseGeometry

from plan_editor.drafting.adding import apart
from plan_editor.drafting.corners import corner_moved, corners, middles, side_moved
from plan_editor.drafting.figures import Place
from plan_editor.drafting.head_line import sizes
from plan_editor.drafting.proposed import Course
from plan_editor.drafting.tool import (
    Act,
    Answer,
    Blank,
    Offer,
    Pointer,
    Setting,
    ToolButton,
)
from plan_editor.edits.basic import Add
from plan_editor.edits.rows import LayOutRow
from plan_editor.geometry.outlines import Rectangle, outlines
from plan_editor.geometry.ranks import head_of
from plan_editor.ground.proposal_rows import in_rows
from plan_editor.ground.proposals import Proposal
from plan_editor.plan.plan import Plan

NONE = "Nothing waits: look for graves under Found in the scan first"
ALL = "All have been gone through; Backspace goes back, Esc puts the tool down"
THIS = "Enter draws it, L leaves it out; pull its corners and sides to set it right"
LEFT = "It was left out; Enter draws it all the same, L goes on"
PUT = "Let go or click where it belongs"

ACCEPT, LEAVE, ROW, BACK = "accept", "leave out", "row", "back"

_KEYS = {Act.FINISH: ACCEPT, Act.BACK: BACK, Act.MOVE: "", Act.RELEASE: ""}
"""What other keys take up; moving the pointer takes up nothing."""

ROUND_M = 2.5
"""So much ground round the one in hand is to be in sight."""

BAR = 0.08
"""So far down from its head line, of its length, a bar tells which side that is."""


@dataclass(frozen=True, slots=True)
class Through:
    """One is in hand, or none is left."""

    course: Course

    def take(self, pointer: Pointer, plan: Plan) -> Answer:
        """Draw the one in hand, leave it out, go back, or take hold of a part of it."""
        walk = Through(self.course.on(plan))
        match pointer.act:
            case Act.CANCEL:
                return Answer(tool=self, prompt=walk.prompt)
            case Act.PRESS:
                return walk.pressed(pointer, plan)
            case Act.FILL:
                number = dict(pointer.filled).get("number", walk.course.number).strip()
                return Through(replace(walk.course, typed=number)).showing()
            case _:
                return walk.taking(_KEYS.get(pointer.act, pointer.offer), plan)

    def taking(self, offer: str, plan: Plan) -> Answer:
        """Return what follows from an offer; without one, what it looks like."""
        match offer:
            case "accept" | "row":
                return self.drawn(plan, one=offer == ACCEPT)
            case "leave out":
                return Through(self.course.without(plan)).showing()
            case "back":
                return Through(self.course.before(plan)).showing()
            case _:
                return self.showing()

    def drawn(self, plan: Plan, *, one: bool) -> Answer:
        """Return the answer that draws the one in hand, or all of its row."""
        at = self.course.at
        if at is None or any(p.base_plan not in plan.items for p in self.course.its_row()):
            return self.showing()
        meant = (at,) if one else self.course.its_row()
        items = self.course.items(plan, meant)
        after = Through(self.course.accepted(plan, meant, items[-1].number)).showing()
        return replace(after, edit=Add(items) if len(items) == 1 else LayOutRow(items))

    def pressed(self, pointer: Pointer, plan: Plan) -> Answer:
        """Take hold of a part of the one in hand, or take another in hand."""
        here = pointer.east, pointer.north
        rectangle = self.course.rectangle
        if rectangle is not None and (grip := _grip(rectangle, here, pointer.reach)):
            hand = Held(walk=self, before=rectangle, grip=grip, start=here, drawn=False)
            return hand.showing(here)
        point = Point(here)
        meant = (p for p in self.course.open if p.rectangle.outline().covers(point))
        found = next(meant, None)
        return (self if found is None else Through(self.course.to(found, plan))).showing()

    @property
    def prompt(self) -> str:
        """What can be done."""
        if self.course.at is None:
            return ALL if self.course.rows else NONE
        return LEFT if self.course.at in self.course.left_out else THIS

    def showing(self) -> Answer:
        """Return what it looks like: the one in hand strongly, the others lightly."""
        course, rectangle = self.course, self.course.rectangle
        answer = Answer(tool=self, prompt=self.prompt, left_out=course.left_out)
        row, others = course.its_row(), course.open  # the pointer moves all the time: once
        offers = self._offers(len(row))
        if rectangle is None or course.at is None:
            return replace(answer, offers=offers[-1:] if course.waiting else ())
        return replace(
            answer,
            preview=_strongly(rectangle),
            lightly=(*_outlines(tuple(p for p in others if p is not course.at)), *_line(row)),
            look_at=_round(rectangle),
            figures=(
                *sizes(rectangle)[:2],
                f"score {course.at.score:.2f}",
                f"{len(row)} in its row",
                f"{len(others)} to go",
            ),
            offers=offers,
            blanks=(Blank(name="number", title="Number", text=course.number),),
        )

    def _offers(self, in_row: int) -> tuple[Offer, ...]:
        first = next(iter(self.course.waiting), None)
        return (
            Offer(name=ACCEPT, title="Draw it", key="A"),
            Offer(name=LEAVE, title="Leave it out", key="L"),
            Offer(name=ROW, title="Draw its row", key="O", possible=in_row > 1),
            Offer(name=BACK, title="Back", key="B", possible=first != self.course.at),
        )


class Part(Enum):
    """What is held of a rectangle."""

    CORNER = "corner"
    SIDE = "side"
    WHOLE = "all of it"


Grip = tuple[Part, int]
"""A part, and which one: corners and sides as ``Rectangle.corners`` counts them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """A part of the one in hand is being set right.

    Args:
        walk: how far the proposals are gone through.
        before: the one in hand as it was.
        grip: what is held.
        start: where it was taken hold of.
        drawn: it was moved so far as to mean more than a click, or a click took hold of it.
    """

    walk: Through
    before: Rectangle
    grip: Grip
    start: Place
    drawn: bool

    def take(self, pointer: Pointer, plan: Plan) -> Answer:
        """Show what it would look like; letting go after a way, or a click, puts it there."""
        here = pointer.east, pointer.north
        course = self.walk.course
        if course.on(plan).at != course.at or pointer.act in {Act.CANCEL, Act.BACK}:
            shown = Through(course.on(plan)).showing()
            still = pointer.act is Act.CANCEL
            return Answer(tool=shown.tool, prompt=shown.prompt) if still else shown
        far = self.drawn or apart(self.start, here, pointer.reach)
        match pointer.act:
            case Act.MOVE:
                return replace(self, drawn=far).showing(here)
            case Act.RELEASE | Act.PRESS | Act.FINISH if far:
                return self._put(here)
            case Act.RELEASE if self.grip[0] is not Part.WHOLE:
                # a click took hold of it, another puts it, however near
                return replace(self, drawn=True).showing(here)
            case _:
                return self.walk.take(pointer, plan)

    def showing(self, here: Place) -> Answer:
        """Return what it would look like."""
        shown = self.walk.showing()
        there = self._at(here)
        return replace(
            shown,
            tool=self,
            prompt=PUT,
            preview=(there.outline(), _bar(there), Point(here)),
            figures=sizes(there),
            offers=(),
            blanks=(),
        )

    def _put(self, here: Place) -> Answer:
        return Through(replace(self.walk.course, place=self._at(here))).showing()

    def _at(self, here: Place) -> Rectangle:
        part, which = self.grip
        if part is Part.CORNER:
            return corner_moved(self.before, which, here)
        if part is Part.SIDE:
            return side_moved(self.before, which, here)
        return self.before.moved(here[0] - self.start[0], here[1] - self.start[1])


def _grip(rectangle: Rectangle, here: Place, reach: float) -> Grip | None:
    """Return the corner in reach, or the middle of a side, or else all of it."""
    outline = rectangle.outline()
    near: list[tuple[float, Grip]] = [
        (Point(p).distance(Point(here)), (part, n))
        for part, found in ((Part.CORNER, corners(outline)), (Part.SIDE, middles(outline)))
        for n, (_, p) in enumerate(found)
    ]
    far, grip = min(near, key=lambda found: found[0])
    if far <= reach:
        return grip
    return (Part.WHOLE, 0) if outline.covers(Point(here)) else None


def _strongly(rectangle: Rectangle) -> tuple[BaseGeometry, ...]:
    outline = rectangle.outline()
    handles = tuple(Point(p) for p in rectangle.corners())
    return (outline, _bar(rectangle), *handles, MultiPoint([p for _, p in middles(outline)]))


def _line(row: tuple[Proposal, ...]) -> tuple[LineString, ...]:
    """Return the line along the heads of what would be drawn as a row."""
    heads = [head_of(p.rectangle) for p in row]
    return (LineString(heads),) if len(heads) > 1 else ()


def _bar(rectangle: Rectangle) -> LineString:
    corner, end, foot_end, foot = rectangle.corners()
    return LineString([_on_way(corner, foot), _on_way(end, foot_end)])


def _on_way(head: Place, foot: Place) -> Place:
    return head[0] + BAR * (foot[0] - head[0]), head[1] + BAR * (foot[1] - head[1])


def _round(rectangle: Rectangle) -> tuple[float, float, float, float]:
    west, south, east, north = shapely.bounds(rectangle.outline()).tolist()
    return west - ROUND_M, south - ROUND_M, east + ROUND_M, north + ROUND_M


@lru_cache(maxsize=4)
def _outlines(proposals: tuple[Proposal, ...]) -> tuple[BaseGeometry, ...]:
    """Return outlines; kept, since the pointer moves all the time."""
    return tuple(outlines([p.rectangle for p in proposals]))


def _start(setting: Setting) -> Answer:
    every = in_rows(setting.proposals)
    return Through(Course(rows=every, left_out=setting.left_out).on(setting.plan)).showing()


TOOL = ToolButton(
    name="proposals",
    title="Found",
    icon="proposals",
    key="Q",
    order=27,
    jobs=frozenset({"trace", "space"}),
    start=_start,
)
