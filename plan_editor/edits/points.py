"""Measured points put on the plan, by their codes, as one edit."""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

import shapely
from shapely import LineString, Point, Polygon
from shapely.geometry.base import BaseGeometry

from plan_editor.edits.chosen import called
from plan_editor.edits.codes import REMARKS, Code, Written, written
from plan_editor.errors import EditRefused
from plan_editor.kinds import mark
from plan_editor.plan.change import Change
from plan_editor.plan.checks import spoken
from plan_editor.plan.item import Basis, Item, Method, new_item
from plan_editor.plan.kind import Form
from plan_editor.plan.plan import Plan

ELLIPSOID = "ellipsoid"
"""What heights of satellite receivers are above; no level is."""

SAME_THING_M = 2.0
"""Two things of a kind and a number that are nearer than this are one."""

_MOST = 3
"""So many points are named in a sentence."""

PEG = Code(
    word="",
    also=(),
    kind=mark.KIND,
    form=Form.POINT,
    words="description",
    numbered=True,
    details=(("permanent", False),),
)
"""What becomes of a point whose code nobody knows: a temporary mark."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """A measured point.

    Args:
        line: of its file, from 1.
        name: empty where it has none.
        east, north: in metres about the plan's origin.
        height: in metres, or None.
        datum: what the height is above, ``ellipsoid`` perhaps; empty where nobody says.
        sd_m: standard deviation of east and of north, in metres, or None.
        code, words, date: as in its file.
        joined: whether its file joins it to its neighbours.
    """

    line: int
    name: str = ""
    east: float
    north: float
    height: float | None = None
    datum: str = ""
    sd_m: float | None = None
    code: str = ""
    words: str = ""
    date: str = ""
    joined: bool = False

    @property
    def called(self) -> str:
        """What to call it in a sentence: ``P 12 (line 14)``."""
        return f"{self.name} (line {self.line})" if self.name else f"line {self.line}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Coded:
    """A thing, and the points that it was made of."""

    item: Item[Any]
    points: tuple[Measured, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class AddPoints:
    """Put what was measured on the plan.

    Args:
        items: new ones.
        source: the file, as the user would say it.
    """

    items: tuple[Item[Any], ...]
    source: str

    @property
    def title(self) -> str:
        """As the undo menu says it."""
        return f"Put {called(self.items)} from {' '.join(self.source.split())} on the plan"

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        """Return the items as they come.

        Raises:
            EditRefused: one of them is on the plan already.
        """
        if there := next((i for i in self.items if i.id in plan.items), None):
            raise EditRefused(f"{there.called()} is on the plan already. Nothing was changed.")
        return tuple(Change(None, item) for item in self.items)


def coded(
    points: Sequence[Measured], codes: Mapping[str, Code], *, method: Method, source: str
) -> tuple[tuple[Coded, ...], tuple[str, ...]]:
    """Return what points become by their codes, and what is to be said of it.

    Args:
        points: in the order in which they were measured.
        codes: the table, by word.
        method: how they were measured.
        source: the file.
    """
    basis = Basis(method=method, source=source)
    things: list[Coded] = []
    said: list[str] = []
    for code, group in _groups(points, codes):
        fault = _fault(code, group)
        if fault and group[0].joined:
            said.append(f"{_listed(group)}: {fault}. They were left out.")
            continue
        if fault:
            said.append(f"{_listed(group)}: {fault}. It comes as temporary marks.")
            things += [_thing(PEG, (point,), basis) for point in group]
        else:
            things.append(_thing(code, group, basis))
    return tuple(things), (*_unknown(points, codes), *said)


def on_the_plan(plan: Plan, item: Item[Any]) -> Item[Any] | None:
    """Return the thing on the plan that bears the same number, if it is the same thing.

    No two of some kinds bear one number; of the others, what lies near is the same.
    """
    alike = (i for i in plan.of(item.kind) if item.number and i.shape is not None)
    for there in alike:
        if spoken(there.number) == spoken(item.number) and (
            item.kind.numbered or distance(there, item) <= SAME_THING_M
        ):
            return there
    return None


def distance(one: Item[Any], other: Item[Any]) -> float:
    """Return how far two placed things are apart, in metres."""
    return float(shapely.distance(one.shape, other.shape))


Group = tuple[Measured, ...]


def _groups(
    points: Sequence[Measured], codes: Mapping[str, Code]
) -> Iterator[tuple[Code, Group]]:
    """Return the points of each thing: one, or those of a line in the order of the file."""
    held: dict[tuple[Any, ...], tuple[Code, list[Measured]]] = {}
    last: tuple[Any, ...] = ()
    for point in points:
        told = written(point.code)
        code = codes.get(told.word, PEG)
        single = code.form is Form.POINT and not point.joined
        apart = () if told.run and not single else (point.line,)
        key = (code.word, told.run, *apart)
        if not single and not told.run and last[:2] == key[:2]:
            key = last
        held.setdefault(key, (code, []))[1].append(point)
        last = key
    return ((code, tuple(group)) for code, group in held.values())


def _fault(code: Code, group: Group) -> str:
    """Return what keeps a group from being what its code says, or ""."""
    if code.form is Form.POINT:
        return f"the code “{group[0].code}” joins no points" if len(group) > 1 else ""
    wanted = 3 if code.form is Form.AREA else 2
    what = f"the {'outline' if code.form is Form.AREA else 'line'} of {code.kind.one}"
    if len({(p.east, p.north) for p in group}) < wanted:
        return f"{what} wants {wanted} points at least"
    return "" if _shape(code, group).is_valid else f"{what} crosses itself"


def _shape(code: Code, group: Group) -> BaseGeometry:
    places = [(p.east, p.north) for p in group]
    match code.form:
        case Form.AREA:
            return Polygon(places)
        case Form.LINE:
            closes = any(written(p.code).closes for p in group) and len(places) > 2
            return LineString([*places, places[0]] if closes else places)
        case _:
            return Point(places[0])


def _thing(code: Code, group: Group, basis: Basis) -> Coded:
    known = [p.sd_m for p in group if p.sd_m is not None]
    sd = round(max(known), 4) if len(known) == len(group) else None
    item = new_item(
        code.kind,
        _shape(code, group),
        details=code.kind.details(**_details(code, group)),
        number=group[0].name if code.numbered else "",
        basis=replace(basis, date=max(p.date for p in group), sd_m=sd),
    )
    return Coded(item=item, points=group)


def _details(code: Code, group: Group) -> dict[str, Any]:
    made = dict(code.details)
    names = {d.name for d in code.kind.entries()}
    remarks = list(dict.fromkeys(filter(None, (_words(written(p.code), p) for p in group))))
    if code.words and remarks:
        made[code.words] = remarks.pop(0)
    if not code.word:
        remarks += dict.fromkeys(f"Code {p.code}." for p in group if p.code)
    if code.form is Form.POINT and group[0].height is not None:
        levels = _level(group[0]) if "level_m" in names else {}
        made |= levels
        remarks += [] if levels else [_height(group[0])]
    if REMARKS in names and remarks:
        made[REMARKS] = "\n".join(filter(None, (str(made.get(REMARKS, "")), *remarks)))
    return made


def _words(told: Written, point: Measured) -> str:
    return " ".join(filter(None, (told.words if told.word else "", point.words)))


def _level(point: Measured) -> dict[str, Any]:
    if point.datum in ("", ELLIPSOID) or point.height is None:
        return {}
    return {"level_m": round(point.height, 3), "datum": point.datum}


def _height(point: Measured) -> str:
    above = {"": "what it is above was not said", ELLIPSOID: "above the ellipsoid, no level"}
    return f"Height {point.height:.3f} m, {above.get(point.datum, f'above {point.datum}')}."


def _unknown(points: Iterable[Measured], codes: Mapping[str, Code]) -> Iterator[str]:
    loose = [p for p in points if not p.joined and written(p.code).word not in codes]
    counts = Counter(p.code for p in loose)
    for code, count in counts.items():
        first = next(p for p in loose if p.code == code)
        which = f"{count} points have" if count > 1 else f"{first.called} has"
        what = f"the code “{code}”, which the table does not know" if code else "no code"
        marks = "they become temporary marks" if count > 1 else "it becomes a temporary mark"
        yield f"{which} {what}: {marks}."


def _listed(group: Group) -> str:
    told = ", ".join(p.called for p in group[:_MOST])
    return f"{told} and {len(group) - _MOST} more" if len(group) > _MOST else told
