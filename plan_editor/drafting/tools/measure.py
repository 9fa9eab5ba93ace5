"""Measure lengths, bearings and areas on the plan; nothing is drawn."""

from dataclasses import dataclass, replace

from shapely import LineString, Point
from shapely.geometry.base import BaseGeometry

from plan_editor.drafting.adding import apart
from plan_editor.drafting.figures import Place, figures_of_area, figures_of_line
from plan_editor.drafting.tool import Act, Answer, Pointer, Setting, ToolButton
from plan_editor.plan.plan import Plan

FROM = "Click where to measure from"
ON = "Click where to measure to; a double click or Enter ends it"
DONE = "Click where to measure from next"


@dataclass(frozen=True, slots=True)
class Ready:
    """Nothing is begun."""

    def take(self, pointer: Pointer, plan: Plan) -> Answer:
        """Begin at a press."""
        if pointer.act is Act.PRESS:
            here = pointer.east, pointer.north
            return Measuring(corners=(here,)).showing(here)
        return Answer(tool=self, prompt=FROM)


@dataclass(frozen=True, slots=True, kw_only=True)
class Measuring:
    """Some places are fixed, at least one."""

    corners: tuple[Place, ...]

    def take(self, pointer: Pointer, plan: Plan) -> Answer:
        """Fix another place at a press; finish, or go back."""
        here = pointer.east, pointer.north
        match pointer.act:
            case Act.MOVE | Act.RELEASE:
                return self.showing(here)
            case Act.PRESS:
                return self._with(here).showing(here)
            case Act.BACK if len(self.corners) > 1:
                return replace(self, corners=self.corners[:-1]).showing(here)
            case Act.FINISH if len(self.corners) > 1:
                return Measured(corners=self.corners).showing()
            case _:  # given up
                return Answer(tool=Ready(), prompt=FROM)

    def showing(self, here: Place) -> Answer:
        """Return the figures as far as a place."""
        corners = self._with(here).corners
        return Answer(
            tool=self,
            prompt=ON,
            preview=(*_line(corners), *map(Point, self.corners)),
            figures=_figures(corners),
            origin=self.corners[-1],
        )

    def _with(self, here: Place) -> "Measuring":
        return Measuring(corners=(*self.corners, here)) if self._new(here) else self

    def _new(self, here: Place) -> bool:
        return apart(self.corners[-1], here)


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """The figures stay until something else is measured."""

    corners: tuple[Place, ...]

    def take(self, pointer: Pointer, plan: Plan) -> Answer:
        """Begin anew at a press."""
        if pointer.act in {Act.PRESS, Act.CANCEL, Act.BACK}:
            return Ready().take(pointer, plan)
        return self.showing()

    def showing(self) -> Answer:
        """Return the figures."""
        return Answer(
            tool=self,
            prompt=DONE,
            preview=(*_line(self.corners), *map(Point, self.corners)),
            figures=_figures(self.corners),
        )


def _line(corners: tuple[Place, ...]) -> tuple[BaseGeometry, ...]:
    return (LineString(corners),) if len(corners) > 1 else ()


def _figures(corners: tuple[Place, ...]) -> tuple[str, ...]:
    return figures_of_line(corners) + tuple(
        f"within it {area}" for area in figures_of_area(corners)[:1]
    )


def _start(setting: Setting) -> Answer:
    del setting  # anything can be measured
    return Answer(tool=Ready(), prompt=FROM)


TOOL = ToolButton(
    name="measure",
    title="Measure",
    icon="measure",
    key="M",
    order=60,
    jobs=frozenset({"survey", "trace", "records", "safety", "space", "sheets"}),
    start=_start,
    edits=False,
)
