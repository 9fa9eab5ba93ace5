"""In what one item differs from itself at another time, field by field."""

from dataclasses import dataclass, replace
from enum import StrEnum
from functools import cache
from typing import Any

from plan_editor.plan.detail import About, Detail, Value
from plan_editor.plan.item import Basis, Item, Method, Status
from plan_editor.plan.kind import Kind

DETAILS, ITEM, BASIS = "details", "item", "basis"
"""Of what a field is: of the details of a kind, of every item, of how its place is known."""

PLACE = "place"
"""The field of shape and rectangle, which are one truth."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Field:
    """One field of an item.

    Args:
        of: ``DETAILS``, ``ITEM`` or ``BASIS``.
        detail: its name, its title and what sort of value it holds; the value of a place is of
            no sort that has words.
    """

    of: str
    detail: Detail

    @property
    def is_place(self) -> bool:
        """Whether it is the place, shape and rectangle together."""
        return self.of == ITEM and self.detail.name == PLACE

    def value(self, item: Item[Any]) -> Any:
        """Return what an item has in it."""
        if self.is_place:
            return item.shape, item.rectangle
        return getattr(_holder(item, self.of), self.detail.name)

    def having(self, item: Item[Any], value: Any) -> Item[Any]:
        """Return an item with another value in it. Nothing is checked."""
        if self.is_place:
            shape, rectangle = value
            return replace(item, shape=shape, rectangle=rectangle)
        made = {self.detail.name: value}
        if self.of == DETAILS:
            return replace(item, details=replace(item.details, **made))
        if self.of == BASIS:
            return replace(item, basis=replace(item.basis, **made))
        return replace(item, **made)


@dataclass(frozen=True, slots=True, kw_only=True)
class Difference:
    """A field with two values."""

    field: Field
    before: Any
    after: Any


@cache
def fields_of(kind: Kind) -> tuple[Field, ...]:
    """Return every field of an item of a kind, in the order in which a card shows them."""
    details = (Field(of=DETAILS, detail=d) for d in kind.entries())
    return (_NUMBER, _PLACE, *details, _STATUS, *_BASIS)


def differences(before: Item[Any], after: Item[Any]) -> tuple[Difference, ...]:
    """Return the fields in which two items of one kind differ."""
    values = ((f, f.value(before), f.value(after)) for f in fields_of(before.kind))
    return tuple(Difference(field=f, before=b, after=a) for f, b, a in values if b != a)


def _holder(item: Item[Any], of: str) -> Any:
    return {DETAILS: item.details, ITEM: item, BASIS: item.basis}[of]


def _field(of: str, name: str, value: Value, default: Any, told: About) -> Field:
    choices = tuple(type(default)) if isinstance(default, StrEnum) else ()
    return Field(
        of=of,
        detail=Detail(
            name=name,
            value=value,
            default=default,
            optional=default is None,
            choices=choices,
            about=told,
        ),
    )


_NUMBER = _field(ITEM, "number", Value.TEXT, "", About(title="Number"))
_PLACE = _field(ITEM, PLACE, Value.NUMBERS, (None, None), About(title="Place"))
_STATUS = _field(ITEM, "status", Value.CHOICE, Status.EXISTING, About(title="Status"))
_BASIS = (
    _field(BASIS, "method", Value.CHOICE, Method.UNKNOWN, About(title="Place known by")),
    _field(BASIS, "source", Value.TEXT, "", About(title="Place taken from")),
    _field(BASIS, "base_plan", Value.ITEM, None, About(title="Traced on")),
    _field(BASIS, "date", Value.DATE, "", About(title="Measured", date=True)),
    _field(BASIS, "sd_m", Value.NUMBER, None, About(title="Standard deviation", unit="m")),
)
assert [f.detail.name for f in _BASIS] == list(Basis.__slots__)  # noqa: S101  # or one is lost
