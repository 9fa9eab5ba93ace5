"""Draw something of any kind, by the form that the kind has."""

from dataclasses import dataclass, replace

from shapely import LineString, Point, Polygon
from shapely.geometry.base import BaseGeometry

from plan_editor.drafting.adding import added, apart
from plan_editor.drafting.figures import (
    Place,
    figures_of_area,
    figures_of_line,
)
from plan_editor.drafting.head_line import HeadFrom
from plan_editor.drafting.tool import Act, Answer, Pointer, Setting, Tool, ToolButton
from plan_editor.geometry.tolerance import SAME
from plan_editor.plan.kind import Form, Kind
from plan_editor.plan.plan import Plan

CHOOSE = "Choose what to draw"

FIRST = {
    Form.NONE: CHOOSE,
    Form.POINT: "Click where the {} is",
    Form.LINE: "Click where the {} begins",
    Form.AREA: "Click the first corner of the {}",
    Form.RECTANGLE: "Click one end of the head line of the {}",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Ready:
    """Nothing is begun.

    Args:
        kind: what is drawn; None as long as nothing was chosen to draw.
        form: its shape.
    """

    kind: Kind | None
    form: Form

    def take(self, pointer: Pointer, plan: Plan) -> Answer:
        """Begin at a press; a point is drawn at once."""
        waiting = _waiting(self)
        if pointer.act is not Act.PRESS or self.kind is None:
            return waiting
        here = pointer.east, pointer.north
        match self.form:
            case Form.POINT:
                return added(plan, self.kind, Point(here), after=waiting, otherwise=waiting)
            case Form.LINE | Form.AREA:
                return Cornered(drawn=self, kind=self.kind, corners=(here,)).showing(here)
            case Form.RECTANGLE:
                return HeadFrom(waiting=waiting, kind=self.kind, start=here).showing(here)
            case _:  # it has no place
                return waiting


@dataclass(frozen=True, slots=True, kw_only=True)
class Cornered:
    """A line or an area has some corners.

    Args:
        drawn: the state to come back to.
        kind: what is drawn.
        corners: so far, at least one.
    """

    drawn: Ready
    kind: Kind
    corners: tuple[Place, ...]

    def take(self, pointer: Pointer, plan: Plan) -> Answer:
        """Add a corner at a press; close on the first one; finish, or go back."""
        here = pointer.east, pointer.north
        match pointer.act:
            case Act.MOVE | Act.RELEASE:
                return self.showing(here)
            case Act.CANCEL:
                return _waiting(self.drawn)
            case Act.BACK:
                return self._back(here)
            case Act.FINISH:
                return self._finished(plan, here)
            case _:  # a press
                return self._pressed(pointer, plan, here)

    def showing(self, here: Place) -> Answer:
        """Return what it looks like with the pointer at a place."""
        corners = (*self.corners, here) if apart(self.corners[-1], here) else self.corners
        line = figures_of_line((self.corners[-1], here))
        whole = figures_of_area(corners) if self._is_area else figures_of_line(corners)[2:]
        return Answer(
            tool=self,
            prompt=self._prompt(),
            preview=(*self._shapes(corners), *map(Point, self.corners)),
            figures=(*line, *whole),
            origin=self.corners[-1],
        )

    @property
    def _is_area(self) -> bool:
        return self.drawn.form is Form.AREA

    def _prompt(self) -> str:
        if len(self.corners) < (3 if self._is_area else 2):
            return "Click the next corner, or type how far and on what bearing"
        if self._is_area:
            return "Click the next corner; the first one, a double click or Enter closes it"
        return "Click the next corner; a double click or Enter ends it"

    def _shapes(self, corners: tuple[Place, ...]) -> tuple[BaseGeometry, ...]:
        if len(corners) < 2:
            return ()
        if self._is_area and len(corners) > 2 and (area := Polygon(corners)).is_valid:
            return (area,)
        return (LineString(corners),)

    def _pressed(self, pointer: Pointer, plan: Plan, here: Place) -> Answer:
        reach = SAME if pointer.typed else pointer.reach
        if len(self.corners) >= 3 and not apart(self.corners[0], here, reach):
            closed = self if self._is_area else self._with(self.corners[0])
            return closed._finished(plan, here)  # noqa: SLF001  # of its own kind
        if not apart(self.corners[-1], here):
            return self.showing(here)
        return self._with(here).showing(here)

    def _with(self, corner: Place) -> "Cornered":
        return replace(self, corners=(*self.corners, corner))

    def _back(self, here: Place) -> Answer:
        if len(self.corners) == 1:
            return _waiting(self.drawn)
        return replace(self, corners=self.corners[:-1]).showing(here)

    def _finished(self, plan: Plan, here: Place) -> Answer:
        fewest = 3 if self._is_area else 2
        if len(self.corners) < fewest:
            return replace(
                self.showing(here), prompt=f"It needs at least {fewest} corners: click the next"
            )
        shape = Polygon(self.corners) if self._is_area else LineString(self.corners)
        return added(
            plan, self.kind, shape, after=_waiting(self.drawn), otherwise=self.showing(here)
        )


def _waiting(ready: Ready) -> Answer:
    if ready.kind is None:
        return Answer(tool=ready, prompt=CHOOSE)
    return Answer(tool=ready, prompt=FIRST[ready.form].format(ready.kind.title.lower()))


def _start(setting: Setting) -> Answer:
    kind = setting.kind
    form = Form.NONE if kind is None else setting.form or kind.form
    tool: Tool = Ready(kind=kind, form=form)
    return tool.take(Pointer(act=Act.MOVE), Plan())


TOOL = ToolButton(
    name="draw",
    title="Draw",
    icon="line",
    key="D",
    order=20,
    jobs=frozenset({"survey", "trace", "records", "space"}),
    start=_start,
    draws=True,
)
