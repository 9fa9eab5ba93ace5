"""What a kind of item declares, once, for canvas, form, table, DXF, key and schedule alike."""

import importlib
from dataclasses import dataclass, field, fields, replace
from enum import StrEnum
from functools import cache
from typing import Any, Generic, get_type_hints

from typing_extensions import TypeVar, override

from plan_editor.declared import declared
from plan_editor.plan.detail import BURIAL_PLACES, EVERYTHING, About, Detail, Value, detail_of
from plan_editor.plan.look import Look

D_co = TypeVar("D_co", covariant=True, default=Any)


class Form(StrEnum):
    """What shape an item has on the ground."""

    NONE = "none"
    POINT = "point"
    LINE = "line"
    AREA = "area"
    RECTANGLE = "rectangle"


class Blocks(StrEnum):
    """What an item stands in the way of."""

    DIGGING = "digging"
    MOWING = "mowing"
    WALKING = "walking"


@dataclass(frozen=True, slots=True, kw_only=True)
class LookWhen:
    """Another look, and its line in the key, where a detail has a certain value."""

    detail: str
    value: Any
    look: Look
    legend: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind(Generic[D_co]):
    """What there can be on a plan.

    Args:
        name: written to files; changing it takes an upgrade.
        title, plural: as the user reads it.
        forms: the shapes it may have; the first is how it is drawn by hand.
        details: the frozen dataclass of what is recorded.
        look: how it is drawn.
        looks: other looks by the value of a detail; the first that fits is taken.
        element: six letters for the element field of an ISO 13567 layer name.
        legend: its line in the key.
        order: low is drawn first, under the others.
        help: one sentence for the person who draws it.
        blocks: what it stands in the way of.
        width: name of what holds the width of a line or the diameter of a point, in metres.
        label: name of the detail that labels it where it has no number; empty for none.
        names_people: whether the label may name somebody living, or somebody whose burial is
            still to come, though the detail is not private.
        holds_burials: whether it is a space for burials; such kinds spell their states alike.
        numbered: whether no two of the kind may bear the same number.
        crown: name of a property that tells how far a point spreads north, east, south and
            west, in metres, or None; empty for none.
        pinned: its place follows from its details, so that it is not moved by hand.
        roots: name of a property of the details that tells the radius to which the ground round
            a point is to be left alone, in metres, or None; empty for none.
        figure: name of a method of the details that words the length of the line; or empty.
        aside: name of the detail that tells how far to the right of its line it is drawn.
        facing: name of the detail that holds the bearing to which a point faces, in degrees
            from grid north; empty for what has no front. Its symbol is drawn facing south.
        view: name of the detail that tells a piece of ground to look at, of something without
            a shape: east and north of its middle and metres across; empty for none.
        usual_m: usual width along the head line, and usual length, of a rectangle, in metres.
        since: name of the detail that tells since when it is there, or when an event was.
        until: name of the detail that tells until when it is there.
        seen: name of the detail that tells a day on which it was there, perhaps not the first.
    """

    name: str
    title: str
    plural: str
    forms: tuple[Form, ...]
    details: type[D_co]
    look: Look = field(default_factory=Look)
    looks: tuple[LookWhen, ...] = ()
    element: str = ""
    legend: str = ""
    order: int = 50
    help: str = ""
    blocks: frozenset[Blocks] = frozenset()
    width: str = ""
    label: str = ""
    names_people: bool = False
    holds_burials: bool = False
    numbered: bool = False
    crown: str = ""
    pinned: bool = False
    roots: str = ""
    figure: str = ""
    aside: str = ""
    facing: str = ""
    usual_m: tuple[float, float] | None = None
    view: str = ""
    since: str = ""
    until: str = ""
    seen: str = ""

    @property
    def form(self) -> Form:
        """How it is drawn by hand."""
        return self.forms[0]

    @property
    def drawn(self) -> bool:
        """Whether it has a place on the plan."""
        return self.form is not Form.NONE

    @property
    def one(self) -> str:
        """One of them in a sentence: ``a path``, ``an ashes plot``, ``grass``."""
        title = self.title.lower()
        if self.title == self.plural:
            return title
        return f"{'an' if title[0] in 'aeiou' else 'a'} {title}"

    @property
    def layer(self) -> str:
        """Its DXF layer: ISO 13567 agent, element and presentation fields, ``Z-GRAVE-E-``."""
        return f"Z-{self.element:-<6}E-"

    def entries(self) -> tuple[Detail, ...]:
        """Return its details in the order in which they are declared."""
        return _entries(self)

    @property
    def guarded(self) -> bool:
        """Whether its label may name somebody living, and is told only where that is wanted."""
        return self.names_people or _has_private_label(self)

    def references(self) -> tuple[Detail, ...]:
        """Return the details that point to other items."""
        return _references(self)

    def look_of(self, details: object) -> Look:
        """Return how an item with these details is drawn."""
        when = self.when(details)
        return self.look if when is None else when.look

    def when(self, details: object) -> LookWhen | None:
        """Return the special look that fits these details, or None."""
        return next((w for w in self.looks if getattr(details, w.detail) == w.value), None)

    def width_m(self, details: object) -> float:
        """Return the width of the line or diameter of the point, in metres; 0.0 of neither."""
        return float(getattr(details, self.width) or 0.0) if self.width else 0.0

    def crown_m(self, details: object) -> tuple[float, float, float, float] | None:
        """Return how far a point spreads north, east, south and west, in metres, if known."""
        found: tuple[float, float, float, float] | None = (
            getattr(details, self.crown) if self.crown else None
        )
        return found

    def facing_deg(self, details: object) -> float | None:
        """Return the bearing to which a point faces, in degrees from grid north, if known."""
        found: float | None = getattr(details, self.facing) if self.facing else None
        return found

    def view_m(self, details: object) -> tuple[float, float, float, float] | None:
        """Return the piece of ground that something without a shape tells to look at.

        Least east and north, greatest east and north.
        """
        seen: tuple[float, ...] = getattr(details, self.view) if self.view else ()
        if len(seen) != 3:
            return None
        east, north, half = seen[0], seen[1], abs(seen[2]) / 2
        return east - half, north - half, east + half, north + half

    def roots_m(self, details: object) -> float | None:
        """Return to what radius the ground round a point is to be left alone, in metres."""
        found: float | None = getattr(details, self.roots) if self.roots else None
        return found

    @override
    def __eq__(self, other: object) -> bool:
        """Two kinds of one name are the same kind."""
        return isinstance(other, Kind) and self.name == other.name

    @override
    def __hash__(self) -> int:
        return hash(self.name)

    @override
    def __reduce__(self) -> tuple[Any, ...]:
        # a kind is a constant of its module: another process finds it there
        return _constant, (self.details.__module__, "KIND")


def kinds() -> tuple[Kind, ...]:
    """Return every kind there is, in the order in which they are drawn."""
    return tuple(sorted(declared("plan_editor.kinds", "KIND", Kind), key=lambda k: k.order))


@cache
def burial_kinds() -> tuple[Kind, ...]:
    """Return the kinds of spaces for burials, in the order in which they are drawn."""
    return tuple(k for k in kinds() if k.holds_burials)


@cache
def kind_named(name: str) -> Kind | None:
    """Return the kind of that name, or None."""
    return next((k for k in kinds() if k.name == name), None)


def kind_of_ours(name: str) -> Kind:
    """Return the kind of a name that the program itself gives.

    Raises:
        LookupError: there is none; the program has misspelt it.
    """
    found = kind_named(name)
    if found is None:
        raise LookupError(f"there is no kind named {name!r}")
    return found


def _constant(module: str, name: str) -> Any:
    return getattr(importlib.import_module(module), name)


@cache
def _entries(kind: Kind) -> tuple[Detail, ...]:
    hints = get_type_hints(kind.details)
    return tuple(
        detail_of(f.name, hints[f.name], f.default, _about(kind, f.metadata["about"]))
        for f in fields(kind.details)
    )


def _about(kind: Kind, told: About) -> About:
    meant = (name for told_name in told.refers_to for name in _meant(kind, told_name))
    return replace(told, refers_to=tuple(meant))


def _meant(kind: Kind, name: str) -> tuple[str, ...]:
    """Return the names of the kinds that a name in ``refers_to`` stands for."""
    if name in EVERYTHING:
        return tuple(k.name for k in kinds() if k != kind)
    if name in BURIAL_PLACES:
        return tuple(k.name for k in burial_kinds())
    return (name,)


@cache
def _has_private_label(kind: Kind) -> bool:
    return any(d.about.private for d in _entries(kind) if d.name == kind.label)


@cache
def _references(kind: Kind) -> tuple[Detail, ...]:
    return tuple(d for d in _entries(kind) if d.value is Value.ITEM)
