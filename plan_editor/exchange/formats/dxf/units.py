"""The unit of a drawing, in metres: from its header, or guessed from its size."""

from dataclasses import dataclass

_FOOT = 0.3048
_US_FOOT = 1200 / 3937

METRES = {
    1: _FOOT / 12,
    2: _FOOT,
    3: _FOOT * 5280,
    4: 0.001,
    5: 0.01,
    6: 1.0,
    7: 1000.0,
    8: _FOOT / 12e6,
    9: _FOOT / 12e3,
    10: _FOOT * 3,
    11: 1e-10,
    12: 1e-9,
    13: 1e-6,
    14: 0.1,
    15: 10.0,
    16: 100.0,
    17: 1e9,
    21: _US_FOOT,
    22: _US_FOOT / 12,
    23: _US_FOOT * 3,
    24: _US_FOOT * 5280,
}
"""Metres in one unit, by $INSUNITS of the DXF reference, without those of astronomy."""

_WIDEST = 5000.0
"""Metres; no churchyard is wider, so a drawing of more units than that is in millimetres."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Unit:
    """How long a unit of a drawing is, and what was guessed about it, in plain words."""

    metres: float
    guessed: tuple[str, ...] = ()


def unit_of(number: int, across: float) -> Unit:
    """Return the unit of a drawing.

    Args:
        number: its $INSUNITS; 0 where it does not say.
        across: its longer side, in its own unit; only looked at where it does not say.
    """
    if number in METRES:
        return Unit(metres=METRES[number])
    name, metres = ("metres", 1.0) if across <= _WIDEST else ("millimetres", 0.001)
    said = (
        f"The drawing does not say its unit; {name} were taken, "
        f"which makes it {across * metres:,.2f} m across"
    )
    return Unit(metres=metres, guessed=(said,))
