"""A place by two tapes: how far it is from one mark and from another.

A tape reads horizontal metres on the ground; the plan's grid makes them longer or shorter by
its scale factor.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from math import hypot, sqrt
from typing import Any

from shapely import LinearRing, MultiPoint, Point

from plan_editor.drafting.figures import Place, length
from plan_editor.drafting.tool import Act, Answer, Blank, Offer, Pointer
from plan_editor.errors import CannotUse
from plan_editor.geometry import lengths
from plan_editor.geometry.arcs import Circle
from plan_editor.geometry.tolerance import SAME
from plan_editor.ground.marks import standing_marks
from plan_editor.plan.checks import spoken
from plan_editor.plan.item import Basis, Item, ItemId, Method
from plan_editor.plan.plan import Plan
from plan_editor.survey.adjustment import loci
from plan_editor.survey.adjustment.taping import usual
from plan_editor.survey.grids.grid_facts import scale_factor

LONGEST_M = 200.0
"""No tape of a churchyard is longer: a longer one is a slip of the keys."""

SLACK_SDS = 3.0
"""Tapes that miss each other by fewer standard deviations than this meet between them."""

ASKED = "Type the two marks and the distance from each, then press Enter"
OFF = Offer(name="tapes", title="Two tapes", key="Y", on=True)


@dataclass(frozen=True, slots=True, kw_only=True)
class TwoTapes:
    """Two marks and two distances are wanted.

    Args:
        before: what follows when it is given up; its tool takes the place that is found.
        marks: the numbers of the marks that are offered.
    """

    before: Answer
    marks: tuple[str, str]

    def take(self, pointer: Pointer, plan: Plan) -> Answer:
        """Take the marks and the distances as they were typed; a press on a mark offers it."""
        match pointer.act:
            case Act.FILL:
                return self._filled(dict(pointer.filled), plan)
            case Act.PRESS if number := _mark_under(pointer.hits, plan):
                return replace(self, marks=(self.marks[1], number)).showing(plan)
            case Act.CANCEL:
                return self.before.tool.take(pointer, plan)
            case Act.BACK | Act.TAKE:
                return self.before
            case _:
                return self.showing(plan)

    def showing(self, plan: Plan, prompt: str = ASKED) -> Answer:
        """Return what it looks like: the marks that are offered are shown."""
        found = (_mark(plan, number) for number in self.marks)
        return Answer(
            tool=self,
            prompt=prompt,
            preview=(*self.before.preview, *(_point(m) for m in found if m is not None)),
            offers=(OFF,),
            blanks=_blanks(self.marks),
        )

    def _filled(self, typed: dict[str, str], plan: Plan) -> Answer:
        try:
            tapes = [_read(plan, typed, which) for which in ("first", "second")]
            return _met(self, tapes, plan)
        except CannotUse as refused:
            return self.showing(plan, str(refused))


@dataclass(frozen=True, slots=True, kw_only=True)
class Taped:
    """Two tapes meet at one place or two; the one nearer to the pointer is taken.

    Args:
        asked: the state that it comes from.
        circles: of the tapes, in grid metres.
        places: where they meet.
        words: the readings, for the card.
        basis: how well the place is known.
    """

    asked: TwoTapes
    circles: tuple[Circle, Circle]
    places: tuple[Place, ...]
    words: tuple[str, ...]
    basis: Basis

    def take(self, pointer: Pointer, plan: Plan) -> Answer:
        """Hand the place on at a press or Enter."""
        here = self.nearest((pointer.east, pointer.north))
        match pointer.act:
            case Act.PRESS | Act.FINISH:
                found = Pointer(
                    act=Act.PRESS,
                    east=here[0],
                    north=here[1],
                    typed=True,
                    reach=pointer.reach,
                    chosen=pointer.chosen,
                    shown=pointer.shown,
                    basis=self.basis,
                )
                return self.asked.before.tool.take(found, plan)
            case Act.FILL:
                return self.asked.take(pointer, plan)
            case Act.CANCEL:
                return self.asked.before.tool.take(pointer, plan)
            case Act.BACK:
                return self.asked.showing(plan)
            case Act.TAKE:
                return self.asked.before
            case _:
                return self.showing(here)

    def nearest(self, to: Place) -> Place:
        """Return where they meet, on the side of a place."""
        return min(self.places, key=lambda p: hypot(p[0] - to[0], p[1] - to[1]))

    def showing(self, here: Place) -> Answer:
        """Return what it looks like with one of the places taken."""
        two = "Point to the side on which it lies, then click" if len(self.places) > 1 else ""
        return Answer(
            tool=self,
            prompt=f"{two or 'Click'} or press Enter to take the place where the tapes meet",
            preview=(
                *self.asked.before.preview,
                *(LinearRing(c.corners()) for c in self.circles),
                *(Point(c.middle) for c in self.circles),
                MultiPoint(self.places),
                Point(here),
            ),
            figures=(*self.words, f"known to ± {self.basis.sd_m or 0.0:.2f} m"),
            offers=(OFF,),
        )


def begun_tapes(before: Answer, near: Place, plan: Plan) -> Answer:
    """Return what follows when two tapes are to be typed: the nearest two marks are offered.

    Args:
        before: what follows when that is given up; its tool takes the place that is found.
        near: where the pointer is.
        plan: as it is.
    """
    named = [m for m in standing_marks(plan) if m.number]
    if len(named) < 2:
        return replace(
            before, prompt="Two marks with numbers are needed to measure from. Set them first"
        )
    first, second = sorted(named, key=lambda m: _point(m).distance(Point(near)))[:2]
    return TwoTapes(before=before, marks=(first.number, second.number)).showing(plan)


def taped(known: Iterable[Basis | None]) -> Basis | None:
    """Return how a shape is known of which every place was taped; None of any other."""
    found = list(known)
    bases = [b for b in found if b is not None]
    if not bases or len(bases) < len(found):
        return None
    worst = max(b.sd_m or 0.0 for b in bases)
    return Basis(method=Method.TAPED, source="two tapes to each corner", sd_m=worst)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Tape:
    """A reading: from which mark, how far on the ground, and its standard deviation."""

    mark: Item[Any]
    metres: float
    sd: float


def _blanks(marks: tuple[str, str]) -> tuple[Blank, ...]:
    return tuple(
        blank
        for which, number in zip(("first", "second"), marks, strict=True)
        for blank in (
            Blank(
                name=f"{which} mark", title="From" if which == "first" else "and", text=number
            ),
            Blank(name=f"{which} tape", title="Tape", example="4.57 or 15'"),
        )
    )


def _read(plan: Plan, typed: dict[str, str], which: str) -> _Tape:
    number = typed.get(f"{which} mark", "").strip()
    mark = _mark(plan, number)
    if mark is None:
        raise CannotUse(
            f"There is no mark “{number}” on the plan. Nothing was placed. Type its number."
        )
    tape = typed.get(f"{which} tape", "").strip()
    if not tape:
        raise CannotUse(f"The tape from {number} is not typed yet. Nothing was placed.")
    try:
        far = lengths.metres(tape)
    except ValueError as unread:
        raise CannotUse(f"From {number}: {unread} Nothing was placed.") from unread
    if not SAME < far <= LONGEST_M:
        raise CannotUse(
            f"From {number}: a tape is longer than nothing and not longer than"
            f" {LONGEST_M:.0f} m. Nothing was placed."
        )
    return _Tape(mark=mark, metres=far, sd=hypot(usual().tape.sd(far), mark.basis.sd_m or 0.0))


def _met(asked: TwoTapes, tapes: Sequence[_Tape], plan: Plan) -> Answer:
    """Return what follows from two readings.

    Raises:
        CannotUse: they do not meet, or the grid means nothing there.
    """
    one, other = tapes
    a, b = _point(one.mark), _point(other.mark)
    scale = scale_factor(plan.grid, (a.x + b.x) / 2, (a.y + b.y) / 2)
    circles = tuple(_circle(t, scale) for t in tapes)
    _refuse_apart(one, other, a.distance(b) / scale)
    met = loci.meetings(
        *(loci.Circle(middle=complex(*c.middle), radius=c.radius) for c in circles)
    )
    if not met:
        raise CannotUse("Both tapes are from the same place. Nothing was placed. Take another.")
    source = f"tapes from {one.mark.number} and {other.mark.number}"
    state = Taped(
        asked=replace(asked, marks=(one.mark.number, other.mark.number)),
        circles=(circles[0], circles[1]),
        places=tuple((m.place.real, m.place.imag) for m in met),
        words=tuple(f"{length(t.metres)} from {t.mark.number}" for t in tapes),
        basis=Basis(method=Method.TAPED, source=source, sd_m=_sd(one, other, met[0].sure)),
    )
    return state.showing(state.places[0])


def _sd(one: _Tape, other: _Tape, sure: float) -> float:
    """Return the standard deviation of east and of north of where two tapes meet, in metres.

    Each reading shifts the place by its error over the sine of the angle of crossing. Where
    the circles only touch, an error of e moves it aside by some h with h² = 2 e r, where r is
    the shorter tape: the deviation of a circle from its tangent.
    """
    error = sqrt((one.sd**2 + other.sd**2) / 2)
    aside = sqrt(2 * error * min(one.metres, other.metres))
    return round(min(error / sure, max(error, aside)), 3)


def _refuse_apart(one: _Tape, other: _Tape, apart: float) -> None:
    """Raise CannotUse where two tapes miss each other by more than tapes are off."""
    slack = SLACK_SDS * hypot(one.sd, other.sd)
    marks = f"{one.mark.number} and {other.mark.number} lie {apart:.2f} m apart"
    if one.metres + other.metres < apart - slack:
        raise CannotUse(
            f"{one.metres:.2f} m and {other.metres:.2f} m do not reach each other: {marks}."
            " Nothing was placed. Look at the readings."
        )
    long, short = max(one.metres, other.metres), min(one.metres, other.metres)
    if long - short > apart + slack:
        raise CannotUse(
            f"{long:.2f} m goes past all that {short:.2f} m can reach: {marks}."
            " Nothing was placed. Look at the readings."
        )


def _circle(tape: _Tape, scale: float) -> Circle:
    middle = _point(tape.mark)
    return Circle((middle.x, middle.y), tape.metres * scale)


def _mark(plan: Plan, number: str) -> Item[Any] | None:
    wanted = spoken(number)
    return next(
        (m for m in standing_marks(plan) if m.number and spoken(m.number) == wanted), None
    )


def _mark_under(hits: Iterable[ItemId], plan: Plan) -> str:
    found = {m.id: m.number for m in standing_marks(plan)}
    return next((found[i] for i in hits if found.get(i)), "")


def _point(mark: Item[Any]) -> Point:
    """Return where a mark that stands is."""
    return Point() if mark.shape is None else mark.shape.centroid
