"""Items, plans and edits of every declared kind, made from the declarations alone.

Nothing here is written for one kind: a new file in ``plan_editor/kinds`` is drawn from at once.
"""

import string
from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace
from functools import cache
from math import cos, sin, tau
from typing import Any

import shapely
from hypothesis import strategies as st
from shapely import LineString, MultiPolygon, Point, Polygon
from shapely.geometry.base import BaseGeometry

from plan_editor.edits.base_plans import PlaceBasePlan
from plan_editor.edits.basic import (
    Add,
    Describe,
    Remove,
    Renumber,
    Replace,
    SetBasis,
    SetStatus,
)
from plan_editor.edits.burial_register import TakeInRegister
from plan_editor.edits.burials import ChooseSpace, EnterBurial, RecordAsDug
from plan_editor.edits.copying import Duplicate, Paste
from plan_editor.edits.corrections import CorrectEntry, Reason
from plan_editor.edits.field_books import AdjustFieldBooks, TakeInFieldBook
from plan_editor.edits.forgetting import ForgetPerson
from plan_editor.edits.frame import MoveToGrid
from plan_editor.edits.framing import KnownMark, Scale
from plan_editor.edits.holes import CutHole
from plan_editor.edits.inspections_in import TakeInInspections, WrittenInspection
from plan_editor.edits.joining import Join
from plan_editor.edits.kind_changes import ChangeKind
from plan_editor.edits.marks import AddMark, PlaceMark
from plan_editor.edits.matches import AcceptMatches, Match
from plan_editor.edits.memorials import FixStone
from plan_editor.edits.mending import Mend
from plan_editor.edits.mowing_rates import TakeOverRates
from plan_editor.edits.numbering import NumberRule
from plan_editor.edits.papers import AddPapers, paper_item
from plan_editor.edits.person import Person
from plan_editor.edits.places import Align, Move, Reshape, Turn
from plan_editor.edits.points import AddPoints
from plan_editor.edits.refitting import RefitBasePlan
from plan_editor.edits.register import MakeSafe, RecordInspection
from plan_editor.edits.removals import MoveRemains
from plan_editor.edits.reserving import ReleaseSpace, ReserveSpace
from plan_editor.edits.reverting import TakeBack
from plan_editor.edits.rows import (
    EvenOut,
    LayOutRow,
    NumberAnew,
    PutInLine,
    StretchRow,
    TurnToRow,
)
from plan_editor.edits.settling import SettleFindings, TellAgain, settled_item
from plan_editor.edits.shapes import CutOut, Simplify, Split, ToLine
from plan_editor.edits.tracing import RecordStep
from plan_editor.edits.works_wanted import MakeWorks
from plan_editor.edits.written_entries import WrittenEntry
from plan_editor.errors import EditRefused
from plan_editor.geometry.outlines import Rectangle
from plan_editor.geometry.ranks import Axis, at_pitch
from plan_editor.geometry.tolerance import stored
from plan_editor.kinds.inspection import InspectionDetails, Result
from plan_editor.kinds.mark import MarkDetails
from plan_editor.kinds.reservation import ReservationDetails, Stage
from plan_editor.kinds.tracing import TracingDetails
from plan_editor.plan.change import Change
from plan_editor.plan.checks import spoken
from plan_editor.plan.detail import Detail, Value
from plan_editor.plan.document import Entry
from plan_editor.plan.edit import Edit
from plan_editor.plan.item import BASE_PLAN, Basis, Item, ItemId, Method, Status, new_item
from plan_editor.plan.kind import Form, Kind, kind_named, kinds
from plan_editor.plan.plan import Plan, plan_of
from plan_editor.survey.books.field_book import BookLine, FieldBook, Sort, same
from plan_editor.survey.books.reducing import angle_sd_of, sd_of
from plan_editor.survey.fits.models import Control
from plan_editor.survey.grids.grid import Grid

REACH_MM = 150_000
"""How far from the plan's origin things are drawn, in millimetres."""

Place = BaseGeometry | Rectangle | None

millimetres = st.integers(-REACH_MM, REACH_MM).map(lambda mm: mm / 1000)
places = st.tuples(millimetres, millimetres)
texts = st.one_of(
    st.text(string.ascii_letters + " ŵłß–'\n", max_size=6),
    st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\0"), max_size=4),
)
dates = st.one_of(
    st.just(""),
    st.integers(1538, 2100).map(str),
    st.dates().map(lambda d: d.isoformat()[:7]),
    st.dates().map(lambda d: d.isoformat()),
)
numbers = st.sampled_from(["", "C 14", "c14", "1", "12", "A 3", "Łódź 7"])
ids = st.uuids().map(lambda u: ItemId(u.hex))


# shapes


@st.composite
def rings(draw: st.DrawFn) -> list[tuple[float, float]]:
    """Return the corners of a ring round a middle: it never crosses itself."""
    east, north = draw(places)
    reaches = draw(st.lists(st.integers(500, 20_000), min_size=3, max_size=7))
    spokes = zip((tau * n / len(reaches) for n in range(len(reaches))), reaches, strict=True)
    return [(east + r / 1000 * cos(turn), north + r / 1000 * sin(turn)) for turn, r in spokes]


@st.composite
def areas(draw: st.DrawFn) -> BaseGeometry:
    """Return an outline: plain, with a hole, or in two parts."""
    outline = Polygon(draw(rings()))
    match draw(st.sampled_from(["plain", "plain", "hole", "parts"])):
        case "hole":
            hole = shapely.affinity.scale(outline, 0.3, 0.3, origin=outline.centroid)
            holed = outline.difference(hole)
            outline = holed if holed.geom_type == "Polygon" else outline
        case "parts":
            other = shapely.affinity.translate(outline, 400.0, 0.0)
            return stored(MultiPolygon([outline, other]))
    return stored(outline)


points = places.map(Point)
lines = st.lists(places, min_size=2, max_size=5, unique=True).map(LineString).map(stored)
rectangles = st.builds(
    Rectangle,
    east=millimetres,
    north=millimetres,
    width=st.integers(50, 9_000).map(lambda mm: mm / 1000),
    length=st.integers(50, 9_000).map(lambda mm: mm / 1000),
    bearing_deg=st.integers(0, 3599).map(lambda tenths: tenths / 10),
)

BY_FORM: Mapping[Form, st.SearchStrategy[Any]] = {
    Form.NONE: st.none(),
    Form.POINT: points,
    Form.LINE: lines,
    Form.AREA: areas(),
    Form.RECTANGLE: st.one_of(rectangles, rectangles, areas()),
}


def places_of(kind: Kind) -> st.SearchStrategy[Place]:
    """Return where an item of a kind may be."""
    return st.one_of([BY_FORM[form] for form in kind.forms])


def put(item: Item[Any], place: Place) -> Item[Any]:
    """Return an item at a place."""
    if place is None:
        return replace(item, shape=None, rectangle=None)
    return item.on(place) if isinstance(place, Rectangle) else item.at(place)


# details


def values_of(detail: Detail, plan: Plan) -> st.SearchStrategy[Any]:
    """Return the values that a detail may hold, references to what is on the plan."""
    held = _VALUES[detail.value](detail, plan)
    return st.one_of(st.none(), held) if detail.optional else held


def _numbers(detail: Detail, plan: Plan) -> st.SearchStrategy[float]:
    low, high = detail.about.low, detail.about.high
    return st.floats(
        -1e6 if low is None else low, 1e6 if high is None else high, allow_subnormal=False
    )


def _wholes(detail: Detail, plan: Plan) -> st.SearchStrategy[int]:
    low, high = detail.about.low, detail.about.high
    return st.integers(
        -(2**53) if low is None else int(low), 2**53 if high is None else int(high)
    )


def _references(detail: Detail, plan: Plan) -> st.SearchStrategy[ItemId | None]:
    there = [i for name in detail.about.refers_to for i in plan.by_kind.get(name, ())]
    return st.sampled_from(there) if there else st.none()


@st.composite
def _many(draw: st.DrawFn, detail: Detail, plan: Plan) -> tuple[float, ...]:
    group, most = detail.about.group, detail.about.most or 3 * detail.about.group
    count = draw(st.integers(0, most // group)) * group
    return tuple(draw(st.lists(_numbers(detail, plan), min_size=count, max_size=count)))


_VALUES: Mapping[Value, Callable[[Detail, Plan], st.SearchStrategy[Any]]] = {
    Value.TEXT: lambda detail, plan: texts,
    Value.LONG_TEXT: lambda detail, plan: texts,
    Value.DATE: lambda detail, plan: dates,
    Value.NUMBER: _numbers,
    Value.WHOLE: _wholes,
    Value.YES_NO: lambda detail, plan: st.booleans(),
    Value.CHOICE: lambda detail, plan: st.sampled_from(detail.choices),
    Value.ITEM: _references,
    Value.NUMBERS: _many,
}


@st.composite
def some_details(draw: st.DrawFn, kind: Kind, plan: Plan) -> dict[str, Any]:
    """Return new values for a few details of a kind."""
    chosen = draw(st.lists(st.sampled_from(kind.entries()), max_size=4, unique_by=_name))
    return {d.name: draw(values_of(d, plan)) for d in chosen}


def _name(detail: Detail) -> str:
    return detail.name


def bases(plan: Plan) -> st.SearchStrategy[Basis]:
    """Return how a place may be known."""
    traced = tuple(plan.by_kind.get(BASE_PLAN, ()))
    return st.builds(
        Basis,
        method=st.sampled_from(Method),
        source=texts,
        base_plan=st.sampled_from((None, *traced)),
        date=dates,
        sd_m=st.none() | st.floats(0.0, 50.0),
    )


# items and plans


@st.composite
def items_of(draw: st.DrawFn, kind: Kind, plan: Plan) -> Item[Any]:
    """Return a new item of a kind, which may refer to what is on the plan."""
    item: Item[Any] = Item(
        id=draw(ids),
        kind=kind,
        details=replace(kind.details(), **draw(some_details(kind, plan))),
        number=draw(numbers),
        status=draw(st.sampled_from(Status)),
        basis=draw(bases(plan)),
    )
    return put(item, draw(places_of(kind)))


def items(plan: Plan) -> st.SearchStrategy[Item[Any]]:
    """Return a new item of any kind."""
    return st.sampled_from(kinds()).flatmap(lambda kind: items_of(kind, plan))


@st.composite
def plans(draw: st.DrawFn, most: int = 12) -> Plan:
    """Return a plan whose items may refer to one another."""
    plan = plan_of([], name=draw(texts))
    for kind in draw(st.lists(st.sampled_from(kinds()), max_size=most)):
        item = draw(items_of(kind, plan))
        taken = {spoken(i.number) for i in plan.of(kind)}
        if kind.numbered and spoken(item.number) in taken:
            item = replace(item, number="")
        plan = plan_of([*plan.items.values(), item], name=plan.name)
    return plan


@cache
def one_of_each() -> Plan:
    """Return a plan with two items of every kind: nothing recorded of one, all of the other."""
    plan = plan_of(plain(kind, n) for n, kind in enumerate(kinds()))
    full = [told(i, n) for n, i in enumerate(plan.items.values(), len(plan.items))]
    return plan_of([*plan.items.values(), *(refer(i, plan) for i in full)])


def told(item: Item[Any], n: int) -> Item[Any]:
    """Return the n-th of a row, of the same kind and with something in every detail."""
    details = {d.name: _something(d) for d in item.kind.entries() if d.value is not Value.ITEM}
    return replace(
        plain(item.kind, n),
        number=f"No. {n}",
        details=replace(item.details, **details),
        basis=Basis(method=Method.TAPED, source="Book 2", date="1962-05", sd_m=0.02),
    )


def refer(item: Item[Any], plan: Plan) -> Item[Any]:
    """Return an item that refers to whatever it can on a plan."""
    found = {
        d.name: next(i for name in d.about.refers_to for i in plan.by_kind.get(name, ()))
        for d in item.kind.references()
    }
    return replace(item, details=replace(item.details, **found))


def _something(detail: Detail) -> Any:
    low = 1 if detail.about.low is None else detail.about.low + 1e-4
    count = detail.about.most or 2 * detail.about.group
    return {
        Value.TEXT: f"{detail.about.title}: ŵłß",
        Value.LONG_TEXT: "one line\nand another",
        Value.DATE: "1911-04-16",
        Value.NUMBER: float(low),
        Value.WHOLE: int(low),
        Value.YES_NO: not detail.default,
        Value.CHOICE: detail.choices[-1] if detail.choices else None,
        Value.NUMBERS: tuple(low + n for n in range(count)),
    }[detail.value]


def plain(kind: Kind, n: int = 0) -> Item[Any]:
    """Return an item of a kind about which nothing is recorded, the n-th of a row."""
    item: Item[Any] = Item(id=ItemId(f"{n:032x}"), kind=kind, details=kind.details())
    east = 10.0 * n
    at: Mapping[Form, Place] = {
        Form.NONE: None,
        Form.POINT: Point(east, 0.0),
        Form.LINE: LineString([(east, 0.0), (east + 5.0, 1.0)]),
        Form.AREA: shapely.box(east, 0.0, east + 5.0, 5.0),
        Form.RECTANGLE: Rectangle(east=east, north=0.0, width=1.22, length=2.74),
    }
    return put(item, at[kind.form])


# edits


@cache
def kind_of(name: str) -> Kind:
    """Return the kind of that name."""
    kind = kind_named(name)
    assert kind is not None
    return kind


def _some(plan: Plan, wanted: Iterable[Item[Any]] | None = None) -> Any:
    there = [i.id for i in (plan.items.values() if wanted is None else wanted)]
    known = st.lists(st.sampled_from(there), min_size=1, max_size=4, unique=True).map(tuple)
    return known if there else st.just((ItemId("f" * 32),))


def _placed(plan: Plan) -> list[Item[Any]]:
    return [i for i in plan.items.values() if i.shape is not None and not i.kind.pinned]


def _one(plan: Plan, wanted: Iterable[Item[Any]] | None = None) -> Any:
    return _some(plan, wanted).map(lambda chosen: chosen[0])


def _adds(plan: Plan) -> st.SearchStrategy[Edit]:
    return st.lists(items(plan), min_size=1, max_size=3).map(lambda new: Add(tuple(new)))


def _moves(plan: Plan) -> st.SearchStrategy[Edit]:
    step = st.floats(-20.0, 20.0)
    return st.builds(Move, ids=_some(plan, _placed(plan)), east=step, north=step)


def _turns(plan: Plan) -> st.SearchStrategy[Edit]:
    turn = st.floats(-360.0, 360.0)
    about = st.one_of(places, places, st.none())
    return st.builds(Turn, ids=_some(plan, _placed(plan)), degrees=turn, about=about)


@st.composite
def _reshapes(draw: st.DrawFn, plan: Plan) -> Edit:
    chosen = draw(_one(plan, _placed(plan)))
    kind = plan.items[chosen].kind if chosen in plan.items else kind_of("path")
    wanted = draw(st.one_of(*[st.just(kind)] * 4, st.sampled_from(kinds())))
    return Reshape(id=chosen, place=draw(places_of(wanted)))


@st.composite
def _describes(draw: st.DrawFn, plan: Plan) -> Edit:
    chosen = draw(_one(plan))
    told = plan.items.get(chosen)
    alike = [i for i in plan.items.values() if told is not None and i.kind == told.kind]
    kind = kind_of("path") if told is None else told.kind
    details = draw(some_details(kind, plan))
    return Describe(ids=draw(_some(plan, alike)), details=tuple(details.items()))


@st.composite
def _renumbers(draw: st.DrawFn, plan: Plan) -> Edit:
    numbered = [i for i in plan.items.values() if i.kind.numbered]
    chosen = draw(_one(plan, draw(st.sampled_from([numbered, None]))))
    kind = plan.items[chosen].kind if chosen in plan.items else kind_of("grave")
    alike = ["", *(i.number for i in plan.of(kind))]
    return Renumber(id=chosen, number=draw(st.one_of(numbers, st.sampled_from(alike))))


def _statuses(plan: Plan) -> st.SearchStrategy[Edit]:
    return st.builds(SetStatus, ids=_some(plan), status=st.sampled_from(Status))


@st.composite
def _set_bases(draw: st.DrawFn, plan: Plan) -> Edit:
    basis = draw(bases(plan))
    names = draw(st.lists(st.sampled_from(Basis.__slots__), unique=True))
    return SetBasis(ids=draw(_some(plan)), basis=tuple((n, getattr(basis, n)) for n in names))


def _removes(plan: Plan) -> st.SearchStrategy[Edit]:
    return st.builds(Remove, ids=_some(plan))


@st.composite
def _replaces(draw: st.DrawFn, plan: Plan) -> Edit:
    first = draw(st.one_of(_moves(plan), _statuses(plan)))
    try:
        return Replace(made=first.changes(plan), title="Changed elsewhere")
    except EditRefused:  # there is nothing to change: let the plan refuse this too
        return Replace(made=(Change(plain(kind_of("path")), None),), title="Changed elsewhere")


@st.composite
def _take_backs(draw: st.DrawFn, plan: Plan) -> Edit:
    """Return one that takes back an entry which led to the plan, or to one like it."""
    sort = draw(st.sampled_from([_adds, _moves, _describes, _statuses, _removes]))
    try:
        undone = draw(sort(plan)).changes(plan)
    except EditRefused:
        undone = ()
    grid = draw(st.sampled_from([plan.grid] * 4 + [Grid(crs="local", east=1.0)]))
    entry = Entry(
        number=1,
        title="Move grave C 14",
        author="",
        when="1962-05-03T10:00:00+00:00",
        changes=tuple(c.reversed() for c in undone),
        grid_before=draw(st.sampled_from([grid] * 4 + [plan.grid])),
        grid=grid,
    )
    return TakeBack(entry=entry, day="3 May 1962")


@st.composite
def _inspections(draw: st.DrawFn, plan: Plan) -> Edit:
    things = ("memorial", "tree", "wall", "gate")
    thing = draw(_one(plan, (i for name in things for i in plan.of(kind_of(name)))))
    told = draw(some_details(kind_of("inspection"), plan))
    return RecordInspection(target=thing, details=InspectionDetails(**told), id=draw(ids))


@st.composite
def _rounds(draw: st.DrawFn, plan: Plan) -> Edit:
    rows = st.builds(
        WrittenInspection,
        row=st.integers(2, 9),
        number=st.one_of(st.sampled_from(["", "A 1"]), _one(plan)),
        date=dates,
        result=st.sampled_from(Result),
        id=ids,
    )
    found = draw(st.lists(rows, max_size=3, unique_by=lambda row: row.id))
    return TakeInInspections(found=tuple(found), source="round.csv")


@st.composite
def _made_safe(draw: st.DrawFn, plan: Plan) -> Edit:
    failed = [i.details for i in plan.of(kind_of("inspection")) if i.details.target]
    target = draw(_one(plan, (plan.items[d.target] for d in failed)))
    barrier = st.one_of(st.none(), _one(plan, plan.of(kind_of("cordon"))))
    day = st.sampled_from(["2026-09-20", "2026-09", *(d.date for d in failed)])
    return MakeSafe(
        target=target,
        details=InspectionDetails(
            date=draw(day), inspector=draw(st.sampled_from(["", "A mason"]))
        ),
        cordon=draw(barrier),
        id=draw(ids),
    )


@st.composite
def _works_made(draw: st.DrawFn, plan: Plan) -> Edit:
    return MakeWorks(
        inspection=draw(_one(plan, plan.of(kind_of("inspection")))),
        id=draw(ids),
        called=draw(texts),
    )


@st.composite
def _tracings(draw: st.DrawFn, plan: Plan) -> Edit:
    stones = (*plan.of(kind_of("memorial")), *plan.of(kind_of("grave")))
    told = draw(some_details(kind_of("tracing"), plan))
    return RecordStep(
        target=draw(_one(plan, stones)), details=TracingDetails(**told), id=draw(ids)
    )


def _rates() -> st.SearchStrategy[Edit]:
    rates = st.one_of(st.none(), st.floats(0.0, 2000.0))
    return st.builds(
        TakeOverRates, source=texts, mowing_m2_h=rates, minutes_a_stone=rates, id=ids
    )


@st.composite
def _placings(draw: st.DrawFn, plan: Plan) -> Edit:
    point = st.builds(
        Control, x=millimetres, y=millimetres, east=millimetres, north=millimetres
    )
    control = draw(st.lists(point, min_size=1, max_size=4))
    return PlaceBasePlan(
        id=draw(_one(plan, plan.of(kind_of(BASE_PLAN)))), control=tuple(control)
    )


@st.composite
def _refittings(draw: st.DrawFn, plan: Plan) -> Edit:
    placing = draw(_placings(plan))
    assert isinstance(placing, PlaceBasePlan)
    return RefitBasePlan(id=placing.id, control=placing.control)


@st.composite
def _grid_moves(draw: st.DrawFn, plan: Plan) -> Edit:
    """Return a move by marks that agree to the millimetre, or by some that do not at all."""
    system, east, north = draw(
        st.sampled_from(
            [("EPSG:27700", 553000.0, 421000.0), ("EPSG:2157", 6e5, 7.5e5), ("local", 0.0, 0.0)]
        )
    )
    turn, stretch = draw(st.floats(-3.2, 3.2)), draw(st.floats(0.995, 1.005))
    astray = draw(st.sampled_from([0.0] * 5 + [400.0]))
    known = []
    for chosen in draw(_some(plan, plan.of(kind_of("mark")))):
        place = plan.items[chosen].shape.centroid if chosen in plan.items else Point(0, 0)
        there = shapely.affinity.rotate(place, turn, origin=(0, 0), use_radians=True)
        there = shapely.affinity.scale(there, stretch, stretch, origin=(0, 0))
        known.append(
            KnownMark(
                mark=chosen,
                east=round(there.x + east + draw(st.floats(-1, 1)) * astray, 3),
                north=round(there.y + north, 3),
                sd_m=draw(st.none() | st.floats(0.0, 1.0)),
            )
        )
    basis = replace(draw(bases(plan)), base_plan=None)
    scale = draw(st.sampled_from(Scale))
    return MoveToGrid(crs=system, marks=tuple(known), scale=scale, basis=basis)


@st.composite
def _book_lines(draw: st.DrawFn, names: list[str], n: int) -> BookLine:
    start, end, point = draw(st.permutations(names))[:3]
    sort = draw(st.sampled_from(Sort))
    length = st.integers(1, 40_000).map(lambda mm: mm / 1000)
    bare = BookLine(
        line=n,
        sort=sort,
        start=start,
        end="" if sort is Sort.TIE else end,
        point=point if sort in (Sort.TIE, Sort.OFFSET) else "",
        distance=draw(length),
        aside=draw(length) if sort is Sort.OFFSET else None,
        bearing=draw(st.none() | st.floats(0.0, 359.0)) if sort is Sort.LEG else None,
        right=draw(st.sampled_from([None, False, True])) if sort is Sort.TIE else None,
        code=draw(st.sampled_from(["", "", "tree", "wall1", "nothing known"])),
        compass=draw(st.booleans()),
        left_out=draw(st.integers(0, 9)) == 0,
    )
    return replace(bare, sd=sd_of(bare), angle_sd=angle_sd_of(bare))


@st.composite
def _field_books(draw: st.DrawFn, plan: Plan) -> Edit:
    marks = [i.number for i in plan.of(kind_of("mark")) if i.number]
    names = list({same(n): n for n in [*marks[:4], "P1", "P2", "P3", "x"]}.values())
    count = draw(st.integers(0, 8))
    lines = tuple(draw(_book_lines(names, n)) for n in range(1, count + 1))
    name = draw(st.sampled_from(["Book 1", "Book 2", ""]))
    return TakeInFieldBook(
        book=FieldBook(name=name, date=draw(dates), lines=lines), seed=draw(ids)
    )


@st.composite
def _placed_marks(draw: st.DrawFn, plan: Plan) -> Edit:
    east, north = draw(places)
    wanted = draw(st.sampled_from([list(plan.of(kind_of("mark"))), None]))
    return PlaceMark(
        id=draw(_one(plan, wanted)), east=east, north=north, basis=draw(bases(plan))
    )


def _points(plan: Plan) -> st.SearchStrategy[Edit]:
    kinds_ = st.sampled_from([k for k in kinds() if k.drawn])
    things = st.lists(kinds_.flatmap(lambda kind: items_of(kind, plan)), max_size=3)
    there = tuple(plan.items.values())  # these it must refuse
    some = st.one_of(things, st.sampled_from(there).map(lambda i: [i])) if there else things
    return st.builds(AddPoints, items=some.map(tuple), source=texts)


@st.composite
def _new_marks(draw: st.DrawFn, plan: Plan) -> Edit:
    east, north = draw(places)
    told = draw(some_details(kind_of("mark"), plan))
    return AddMark(
        number=draw(numbers),
        east=east,
        north=north,
        details=MarkDetails(**told),
        basis=draw(bases(plan)),
        id=draw(ids),
    )


def _duplicates(plan: Plan) -> st.SearchStrategy[Edit]:
    step = st.floats(-20.0, 20.0)
    some = st.one_of(_some(plan, _placed(plan)), _some(plan))
    return st.builds(Duplicate, ids=some, east=step, north=step, seed=ids)


@st.composite
def _pastes(draw: st.DrawFn, plan: Plan) -> Edit:
    elsewhere = draw(plans(most=4))
    return Paste(items=tuple(elsewhere.items.values()), seed=draw(ids))


@st.composite
def _kind_changes(draw: st.DrawFn, plan: Plan) -> Edit:
    chosen = draw(_one(plan, _placed(plan)))
    form = plan.items[chosen].form if chosen in plan.items else Form.LINE
    fitting = st.sampled_from([k for k in kinds() if form in k.forms and k.drawn])
    kind = draw(st.one_of(fitting, st.sampled_from(kinds())))
    return ChangeKind(ids=(chosen,), kind=kind, seed=draw(ids))


@st.composite
def _holes(draw: st.DrawFn, plan: Plan) -> Edit:
    areas = [i for i in _placed(plan) if i.form in (Form.AREA, Form.RECTANGLE)]
    chosen = draw(_one(plan, draw(st.sampled_from([areas, areas, None]))))
    shape = plan.items[chosen].shape if chosen in plan.items else None
    middle = Point(0, 0) if shape is None else shape.representative_point()
    half = draw(st.sampled_from([0.05, 0.2, 1.0, 9.0]))
    corners = [(-half, -half), (half, -half), (half, half), (-half, draw(st.floats(-1, 1)))]
    hole = Polygon([(middle.x + e, middle.y + n) for e, n in corners])
    return CutHole(id=chosen, hole=hole)


def _flat(plan: Plan) -> Any:
    """Return some lines and areas of the plan, and now and then something else among them."""
    held = [i for i in _placed(plan) if i.form is not Form.POINT]
    return st.one_of(_some(plan, held), _some(plan, held), _some(plan))


@st.composite
def _across(draw: st.DrawFn, plan: Plan, ids_: tuple[ItemId, ...]) -> tuple[Any, ...]:
    """Return the corners of a line through the middle of something, or only near it."""
    item = plan.items.get(ids_[0])
    box = (0.0, 0.0, 1.0, 1.0) if item is None or item.box is None else item.box
    east, north = (box[0] + box[2]) / 2, (box[1] + box[3]) / 2
    long = draw(st.sampled_from([0.5, 3.0, 50.0]))
    turn = draw(st.floats(0.0, tau))
    start = east - long * cos(turn), north - long * sin(turn)
    bent = draw(st.lists(st.just((east + 0.1, north)), max_size=1))
    return (start, *bent, (east + long * cos(turn), north + long * sin(turn)))


@st.composite
def _splits(draw: st.DrawFn, plan: Plan) -> Edit:
    chosen = draw(_flat(plan))
    return Split(ids=chosen, cut=draw(_across(plan, chosen)), seed=draw(ids))


@st.composite
def _cut_outs(draw: st.DrawFn, plan: Plan) -> Edit:
    chosen = draw(_flat(plan))
    by = draw(st.one_of(st.none(), _one(plan, _placed(plan))))
    (e0, n0), *_, (e1, n1) = draw(_across(plan, chosen))
    piece = ((e0, n0), (e1, n1), draw(st.sampled_from([(e1, n0), (e1, n1), (e0, n1)])))
    return CutOut(ids=chosen, piece=piece, by=by, seed=draw(ids))


@st.composite
def _joins(draw: st.DrawFn, plan: Plan) -> Edit:
    """Return one that joins some things of a kind, or of several."""
    first = draw(_flat(plan))
    kind = plan.items[first[0]].kind if first[0] in plan.items else kind_of("path")
    alike = [i for i in _placed(plan) if i.kind == kind]
    return Join(ids=draw(st.sampled_from([draw(_some(plan, alike)), first])))


@st.composite
def _to_lines(draw: st.DrawFn, plan: Plan) -> Edit:
    lines_ = [i for i in _placed(plan) if i.form is Form.LINE]
    return ToLine(
        id=draw(st.one_of(_one(plan, lines_), _one(plan))),
        at_start=draw(st.booleans()),
        to=draw(_one(plan, _placed(plan))),
        near=draw(places),
    )


def _simplifies(plan: Plan) -> st.SearchStrategy[Edit]:
    tolerances = st.sampled_from([0.001, 0.05, 0.5, 3.0, 100.0])
    return st.builds(Simplify, ids=_flat(plan), tolerance=tolerances)


def _aligns(plan: Plan) -> st.SearchStrategy[Edit]:
    return st.builds(Align, ids=_some(plan, _placed(plan)), bearing_deg=st.floats(-400, 400))


def _row(plan: Plan) -> Any:
    """Return some rectangles of the plan, and now and then something else among them."""
    held = [i for i in _placed(plan) if i.rectangle is not None]
    return st.one_of(_some(plan, held), _some(plan, held), _some(plan))


@st.composite
def _laid_out(draw: st.DrawFn, plan: Plan) -> Edit:
    first, count = draw(rectangles), draw(st.integers(1, 5))
    axis = Axis(start=(first.east, first.north), bearing_deg=first.bearing_deg)
    size = (first.width, first.length)
    places = at_pitch(axis, size, count, first.width, right=draw(st.booleans()))
    numbers_ = NumberRule(prefix="R ", first=draw(st.integers(0, 9))).numbers(count)
    of_kind = kind_of(draw(st.sampled_from(["grave", "ashes_plot"])))
    return LayOutRow(
        tuple(
            replace(new_item(of_kind, place, number=number), id=draw(ids))
            for place, number in zip(places, numbers_, strict=True)
        )
    )


@st.composite
def _numbered_anew(draw: st.DrawFn, plan: Plan) -> Edit:
    chosen = draw(_some(plan))
    given_ = draw(st.lists(numbers, min_size=len(chosen), max_size=len(chosen)))
    return NumberAnew(numbers=tuple(zip(chosen, given_, strict=True)))


def _in_line(plan: Plan) -> st.SearchStrategy[Edit]:
    line = st.builds(Axis, start=places, bearing_deg=st.floats(0.0, 359.0))
    return st.builds(PutInLine, ids=_row(plan), line=line)


def _turned_to_row(plan: Plan) -> st.SearchStrategy[Edit]:
    return st.builds(TurnToRow, ids=_row(plan), bearing_deg=st.floats(0.0, 359.0))


def _stretched(plan: Plan) -> st.SearchStrategy[Edit]:
    return st.builds(StretchRow, ids=_row(plan), start=places, end=places)


def _mends(plan: Plan) -> st.SearchStrategy[Edit]:
    one = st.one_of(_moves(plan), _describes(plan), _renumbers(plan), _removes(plan))
    several = st.lists(one, min_size=1, max_size=3).map(tuple)
    return st.builds(Mend, title=st.just("Mend some things"), edits=several)


def _settled(plan: Plan) -> st.SearchStrategy[Edit]:
    digest = st.sampled_from(["0" * 32, "1" * 32])
    one = st.builds(settled_item, st.just("spikes"), texts, digest, dates)
    return st.lists(one, max_size=2).map(lambda items: SettleFindings(tuple(items)))


def _papers(plan: Plan) -> st.SearchStrategy[Edit]:
    one = st.builds(paper_item, st.just("0" * 64), says=texts, date=dates)
    some = st.lists(one, min_size=1, max_size=2).map(tuple)
    return st.builds(AddPapers, target=_one(plan), papers=some)


def _forgettings(plan: Plan) -> st.SearchStrategy[Edit]:
    held = list(plan.of(kind_of("owner_contact")))
    some = st.one_of(st.just(frozenset[ItemId]()), st.just(frozenset(plan.items)))
    return st.builds(
        ForgetPerson,
        st.builds(
            Person,
            id=st.one_of(_one(plan, held), _one(plan)),
            lines=st.sampled_from(((), (("jane",),))),
            once=some,
            corrected=some,
        ),
    )


def _spaces(plan: Plan) -> Any:
    """Return the id of some space for burials, and now and then of something else."""
    held = [i for i in plan.items.values() if i.kind.name in ("grave", "ashes_plot", "vault")]
    return st.one_of(_one(plan, held), _one(plan, held), _one(plan))


def _requests(plan: Plan) -> Any:
    held = list(plan.of(kind_of("request")))
    return st.one_of(_one(plan, held), _one(plan, held), _one(plan))


def _chosen_spaces(plan: Plan) -> st.SearchStrategy[Edit]:
    kept = [None, *plan.by_kind.get("reservation", ())]
    return st.builds(
        ChooseSpace,
        request=_requests(plan),
        space=_spaces(plan),
        reservation=st.sampled_from(kept),
    )


def _as_dug(plan: Plan) -> st.SearchStrategy[Edit]:
    depth = st.one_of(st.none(), st.floats(0.0, 5.0))
    return st.builds(RecordAsDug, request=_requests(plan), dug=dates, depth_m=depth)


def _entered(plan: Plan) -> st.SearchStrategy[Edit]:
    return st.builds(
        EnterBurial,
        request=_requests(plan),
        buried=dates,
        minister=texts,
        book=texts,
        number=numbers,
        lid_m=st.one_of(st.none(), st.floats(0.0, 6.0)),
        id=ids,
    )


@st.composite
def _reserved(draw: st.DrawFn, plan: Plan) -> Edit:
    told = draw(some_details(kind_of("reservation"), plan))
    details = ReservationDetails(**{"faculty": draw(texts), **told})
    return ReserveSpace(space=draw(_spaces(plan)), details=details, id=draw(ids))


def _released(plan: Plan) -> st.SearchStrategy[Edit]:
    held = list(plan.of(kind_of("reservation")))
    kept = st.one_of(_one(plan, held), _one(plan))
    return st.builds(ReleaseSpace, reservation=kept, stage=st.sampled_from(Stage))


def _burials(plan: Plan) -> Any:
    return st.one_of(_one(plan, plan.of(kind_of("burial"))), _one(plan))


def _columns(plan: Plan) -> Any:
    burial = kind_of("burial")
    told = some_details(burial, plan).map(lambda d: tuple(d.items()))
    numbered_ = numbers.map(lambda n: (("number", n),))
    return st.one_of(told, numbered_, st.just((("nothing known", 1),)))


def _corrected(plan: Plan) -> st.SearchStrategy[Edit]:
    reasons = st.builds(Reason, date=dates, by=texts, why=texts)
    columns = _columns(plan)
    return st.builds(
        CorrectEntry, burial=_burials(plan), columns=columns, reason=reasons, seed=ids
    )


def _moved_remains(plan: Plan) -> st.SearchStrategy[Edit]:
    graves = [i for k in ("grave", "vault", "ashes_plot") for i in plan.of(kind_of(k))]
    return st.builds(
        MoveRemains,
        burial=_burials(plan),
        moved_to=st.none() | _one(plan, graves) | _one(plan),
        elsewhere=st.sampled_from(["", "Another churchyard"]),
        date=dates,
        faculty=texts,
        id=ids,
    )


@st.composite
def _written_entry(draw: st.DrawFn, plan: Plan, row: int) -> WrittenEntry:
    burial = kind_of("burial")
    plain_ = {n: v for n, v in draw(some_details(burial, plan)).items() if n != "grave"}
    return WrittenEntry(
        row=row,
        number=draw(numbers),
        details=tuple(plain_.items()),
        lies_in=draw(numbers),
        id=draw(ids),
    )


@st.composite
def _registers(draw: st.DrawFn, plan: Plan) -> Edit:
    rows = [draw(_written_entry(plan, n)) for n in range(2, 2 + draw(st.integers(0, 4)))]
    return TakeInRegister(entries=tuple(rows), source=draw(texts), date=draw(dates))


@st.composite
def _matches(draw: st.DrawFn, plan: Plan) -> Edit:
    entry = draw(_one(plan, plan.of(kind_of("burial"))))
    return AcceptMatches(
        (Match(entry=entry, grave=draw(_one(plan, plan.of(kind_of("grave"))))),)
    )


def _fixed(plan: Plan) -> st.SearchStrategy[Edit]:
    held = list(plan.of(kind_of("application")))
    asked = st.one_of(_one(plan, held), _one(plan, held), _one(plan))
    return st.builds(FixStone, application=asked, fixed=dates, id=ids)


EDITS: Mapping[type, Callable[[Plan], st.SearchStrategy[Edit]]] = {
    Add: _adds,
    ForgetPerson: _forgettings,
    Move: _moves,
    Turn: _turns,
    Reshape: _reshapes,
    Describe: _describes,
    Renumber: _renumbers,
    SetStatus: _statuses,
    SetBasis: _set_bases,
    Remove: _removes,
    Replace: _replaces,
    TakeBack: _take_backs,
    RecordInspection: _inspections,
    MakeSafe: _made_safe,
    TakeInInspections: _rounds,
    MakeWorks: _works_made,
    RecordStep: _tracings,
    TakeOverRates: lambda plan: _rates(),
    AddPapers: _papers,
    PlaceBasePlan: _placings,
    RefitBasePlan: _refittings,
    AddPoints: _points,
    PlaceMark: _placed_marks,
    AddMark: _new_marks,
    TakeInFieldBook: _field_books,
    AdjustFieldBooks: lambda plan: st.just(AdjustFieldBooks()),
    MoveToGrid: _grid_moves,
    Duplicate: _duplicates,
    Paste: _pastes,
    ChangeKind: _kind_changes,
    CutHole: _holes,
    Split: _splits,
    CutOut: _cut_outs,
    Join: _joins,
    ToLine: _to_lines,
    Simplify: _simplifies,
    Align: _aligns,
    LayOutRow: _laid_out,
    StretchRow: _stretched,
    EvenOut: lambda plan: st.builds(EvenOut, ids=_row(plan)),
    PutInLine: _in_line,
    TurnToRow: _turned_to_row,
    NumberAnew: _numbered_anew,
    Mend: _mends,
    ChooseSpace: _chosen_spaces,
    RecordAsDug: _as_dug,
    EnterBurial: _entered,
    ReserveSpace: _reserved,
    ReleaseSpace: _released,
    FixStone: _fixed,
    SettleFindings: _settled,
    TakeInRegister: _registers,
    CorrectEntry: _corrected,
    MoveRemains: _moved_remains,
    TellAgain: lambda plan: st.just(TellAgain()),
    AcceptMatches: _matches,
}
"""How to draw each edit that there is for a plan; ``tests/every`` sees that none lacks."""


def edits(plan: Plan) -> st.SearchStrategy[Edit]:
    """Return an edit of any sort; the plan may take it or refuse it."""
    return st.sampled_from(tuple(EDITS)).flatmap(lambda sort: EDITS[sort](plan))
