"""How far readings in the field are usually off, from ``resources/taping.toml``."""

import tomllib
from dataclasses import dataclass
from functools import cache

from plan_editor.errors import CannotRead
from plan_editor.resources import resource


@dataclass(frozen=True, slots=True, kw_only=True)
class Tape:
    """A sort of tape.

    Args:
        name: ``fibre``.
        title: in words.
        reading_m: standard deviation of any distance, in metres.
        per_metre: and for every metre of it.
        source: where the figures come from.
    """

    name: str
    title: str
    reading_m: float
    per_metre: float
    source: str

    def sd(self, metres: float) -> float:
        """Return the standard deviation of a distance, in metres."""
        return self.reading_m + self.per_metre * abs(metres)


@dataclass(frozen=True, slots=True, kw_only=True)
class Usual:
    """What is taken where a field book does not say how far its readings are off.

    Args:
        tape: the one that is taken where the book names none.
        tapes: every sort of tape.
        aside: standard deviation of the right angle of an offset, in metres for every metre of
            the offset.
        bearing_deg: standard deviation of a bearing.
        angle_deg: standard deviation of an included angle.
    """

    tape: Tape
    tapes: tuple[Tape, ...]
    aside: float
    bearing_deg: float
    angle_deg: float

    def named(self, name: str) -> Tape | None:
        """Return the tape of that name, or None."""
        return next((t for t in self.tapes if t.name == name.casefold()), None)


@cache
def usual() -> Usual:
    """Return what is usual.

    Raises:
        CannotRead: the resource lacks a figure, or holds one that is none.
    """
    path = resource("taping.toml")
    try:
        told = tomllib.loads(path.read_text("utf-8"))
        tapes = tuple(_tape(name, one) for name, one in told["tape"].items())
        return Usual(
            tape={t.name: t for t in tapes}[told["usual_tape"]],
            tapes=tapes,
            aside=_figure(told["offset"]["per_metre_aside"]),
            bearing_deg=_figure(told["bearing"]["degrees"]),
            angle_deg=_figure(told["angle"]["degrees"]),
        )
    except (KeyError, TypeError, ValueError) as fault:
        raise CannotRead(
            f"{path.name} lacks a figure that is needed, or one in it is not a number: {fault}."
            " Put back the file that came with the program."
        ) from fault


def _tape(name: str, told: dict[str, object]) -> Tape:
    return Tape(
        name=name,
        title=str(told["title"]),
        reading_m=_figure(told["reading_m"]),
        per_metre=_figure(told["per_metre"]),
        source=str(told["source"]),
    )


def _figure(value: object) -> float:
    if not isinstance(value, (int, float)) or not 0.0 <= value <= 100.0:
        raise ValueError(f"{value} is no standard deviation")
    return float(value)
