"""Draw something of any kind, by the form that the kind has."""

from dataclasses import dataclass, replace
from enum import Enum

from shapely import Point

from plan_editor.drafting.adding import Wanted
from plan_editor.drafting.along_edge import AlongFrom
from plan_editor.drafting.cornered import Cornered
from plan_editor.drafting.facing import Facing
from plan_editor.drafting.figures import Place
from plan_editor.drafting.head_line import First, HeadFrom
from plan_editor.drafting.outline import Piece
from plan_editor.drafting.parallel import parallel_to
from plan_editor.drafting.round import CirclePoints, CircleTo
from plan_editor.drafting.tapes import begun_tapes
from plan_editor.drafting.tool import Act, Answer, Offer, Pointer, Setting, Tool, ToolButton
from plan_editor.drafting.touched import way_here
from plan_editor.plan.kind import Form
from plan_editor.plan.plan import Plan

CHOOSE = "Choose what to draw"


class Way(Enum):
    """By what it is drawn."""

    USUAL = "usual"
    RECTANGLE = "rectangle"
    CIRCLE = "circle"
    CIRCLE_POINTS = "circle by three points"
    PARALLEL = "parallel"
    LONG_SIDE = "long side"


FIRST = {
    Form.NONE: CHOOSE,
    Form.POINT: "Click where the {} is",
    Form.LINE: "Click where the {} begins",
    Form.AREA: "Click the first corner of the {}",
    Form.RECTANGLE: "Click one end of the head line of the {}",
}

FIRST_BY = {
    Way.RECTANGLE: "Click one end of the first side of the {}",
    Way.CIRCLE: "Click the middle of the {}",
    Way.CIRCLE_POINTS: "Click a place on the edge of the {}",
    Way.PARALLEL: "Click a line, or a side of something, along which the {} runs",
    Way.LONG_SIDE: "Click the head end of a long side of the {}",
}

ROUND = (
    Offer(name=Way.CIRCLE.value, title="Circle", key="O"),
    Offer(name=Way.CIRCLE_POINTS.value, title="Circle by three points", key="P"),
)
TAPES = Offer(name="tapes", title="Two tapes", key="Y")
ALONG = Offer(name="along", title="Along an edge", key="L")

OFFERS = {
    Form.NONE: (),
    Form.POINT: (TAPES,),
    Form.LINE: (Offer(name=Way.PARALLEL.value, title="Parallel", key="P"), ALONG, TAPES),
    Form.AREA: (
        Offer(name=Way.RECTANGLE.value, title="Rectangle", key="G"),
        *ROUND,
        ALONG,
        TAPES,
        Offer(name="hole", title="Hole", key="H"),
    ),
    Form.RECTANGLE: (Offer(name=Way.LONG_SIDE.value, title="Long side first", key="L"), TAPES),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Ready:
    """Nothing is begun.

    Args:
        wanted: what is drawn; None as long as nothing was chosen to draw.
        way: by what.
    """

    wanted: Wanted | None
    way: Way = Way.USUAL

    def take(self, pointer: Pointer, plan: Plan) -> Answer:
        """Begin at a press; a point is drawn at once, unless it is asked which way it faces."""
        if self.wanted is None:
            return self.waiting()
        if pointer.act is Act.TAKE:
            return self._taken(self.wanted, pointer, plan)
        if pointer.act is Act.PRESS:
            return self._begun(self.wanted, pointer, plan)
        return self.waiting()

    def waiting(self, prompt: str = "") -> Answer:
        """Return what it looks like."""
        if self.wanted is None:
            return Answer(tool=self, prompt=CHOOSE)
        first = FIRST_BY.get(self.way, FIRST[self.wanted.form])
        return Answer(
            tool=self,
            prompt=prompt or first.format(self.wanted.noun),
            offers=tuple(replace(o, on=self._is_on(o)) for o in offers_of(self.wanted)),
        )

    def _is_on(self, offer: Offer) -> bool:
        hole = self.wanted is not None and self.wanted.hole
        return offer.name == self.way.value or (offer.name == "hole" and hole)

    def _taken(self, wanted: Wanted, pointer: Pointer, plan: Plan) -> Answer:
        if pointer.offer not in {o.name for o in offers_of(wanted)}:
            return self.waiting()
        match pointer.offer:
            case "hole":
                turned = replace(wanted, hole=not wanted.hole)
                return replace(self, wanted=turned).waiting()
            case "along":
                outline = Cornered(waiting=self.waiting(), wanted=wanted)
                return AlongFrom(outline=outline, before=self.waiting()).showing()
            case "tapes":
                return begun_tapes(self.waiting(), (pointer.east, pointer.north), plan)
            case _:
                way = Way(pointer.offer)
                return replace(self, way=Way.USUAL if way is self.way else way).waiting()

    def _begun(self, wanted: Wanted, pointer: Pointer, plan: Plan) -> Answer:
        here, waiting = (pointer.east, pointer.north), self.waiting()
        match self.way:
            case Way.CIRCLE:
                return CircleTo(waiting=waiting, wanted=wanted, middle=here).showing(here)
            case Way.CIRCLE_POINTS:
                begun = CirclePoints(waiting=waiting, wanted=wanted, places=(here,))
                return begun.showing(here)
            case Way.PARALLEL:
                found = parallel_to(pointer, plan, waiting=waiting, wanted=wanted)
                return found or self.waiting("There is no line there. Click on one, or a side")
            case _:
                return self._usual(wanted, pointer, plan, here)

    def _usual(self, wanted: Wanted, pointer: Pointer, plan: Plan, here: Place) -> Answer:
        waiting = self.waiting()
        side = way_here(plan, pointer.hits, here, pointer.reach)
        if wanted.form is Form.RECTANGLE or self.way is Way.RECTANGLE:
            first = First.LONG if self.way is Way.LONG_SIDE else First.HEAD
            begun_at = HeadFrom(
                waiting=waiting, wanted=wanted, start=here, way=side, first=first
            )
            return begun_at.showing(here)
        if wanted.form is not Form.POINT:
            piece = Piece(places=(here,), basis=pointer.basis)
            begun = Cornered(waiting=waiting, wanted=wanted, pieces=(piece,), way=side)
            return begun.showing(here)
        wanted = replace(wanted, basis=pointer.basis)
        if wanted.kind.facing:
            return Facing(waiting=waiting, wanted=wanted, at=here).showing(here)
        return wanted.done(plan, Point(here), after=waiting, otherwise=waiting)


def offers_of(wanted: Wanted) -> tuple[Offer, ...]:
    """Return what can be done otherwise before anything is begun."""
    sized = wanted.form is Form.POINT and any(
        d.name == wanted.kind.width for d in wanted.kind.entries()
    )
    return (*(ROUND if sized else ()), *OFFERS[wanted.form])


def _start(setting: Setting) -> Answer:
    kind = setting.kind
    wanted = None
    if kind is not None and kind.drawn:
        wanted = Wanted(kind=kind, form=setting.form or kind.form)
    tool: Tool = Ready(wanted=wanted)
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
