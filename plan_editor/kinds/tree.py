"""Trees: species, stems, crown."""

from dataclasses import dataclass, field
from enum import StrEnum
from math import sqrt

from plan_editor.plan.detail import about
from plan_editor.plan.kind import Blocks, Form, Kind, LookWhen
from plan_editor.plan.look import Look, Pen

_GREEN = "#3F6B35"
_FEW = 5
_PROTECTED = 12.0
_VETERAN = 15.0
_BEYOND_CROWN = 5.0  # metres
_FARTHEST = 15.0  # metres, the limit of BS 5837:2012 annex D


class Category(StrEnum):
    """Quality of a tree, after BS 5837:2012."""

    A = "A: high quality"
    B = "B: moderate quality"
    C = "C: low quality"
    U = "U: cannot be kept long"


def _spread(way: str) -> float | None:
    found: float | None = field(
        default=None,
        metadata=about(f"Crown spread {way}", unit="m", low=0.0, high=40.0),
    )
    return found


@dataclass(frozen=True, slots=True, kw_only=True)
class TreeDetails:
    """What is recorded of a tree, after BS 5837: stems at 1.5 m, crown spread four ways."""

    species: str = field(default="", metadata=about("Species", schedule=True))
    stems_mm: tuple[float, ...] = field(
        default=(),
        metadata=about(
            "Stem diameters",
            unit="mm",
            low=10.0,
            high=6000.0,
            help="At 1.5 m above the ground; one number for each stem.",
            schedule=True,
        ),
    )
    crown_north_m: float | None = _spread("north")
    crown_east_m: float | None = _spread("east")
    crown_south_m: float | None = _spread("south")
    crown_west_m: float | None = _spread("west")
    height_m: float | None = field(
        default=None, metadata=about("Height", unit="m", low=0.0, high=80.0)
    )
    veteran: bool = field(default=False, metadata=about("Ancient or veteran", schedule=True))
    protected: str = field(
        default="", metadata=about("Preservation order", help="Number of the order, if any.")
    )
    conservation_area: bool = field(
        default=False,
        metadata=about(
            "In a conservation area",
            help="Then the council has six weeks' notice before work on a stem over 75 mm.",
        ),
    )
    notice_given: str = field(
        default="",
        metadata=about("Notice given on", date=True, help="To the council, of work on it."),
    )
    category: Category | None = field(
        default=None,
        metadata=about("Category", help="After BS 5837, as a tree surgeon judged it."),
    )
    remarks: str = field(default="", metadata=about("Remarks", long=True))

    @property
    def crown_m(self) -> tuple[float, float, float, float] | None:
        """Crown spread north, east, south, west in metres; None unless at least one is known.

        A spread that was not measured is taken as the mean of those that were.
        """
        told = (self.crown_north_m, self.crown_east_m, self.crown_south_m, self.crown_west_m)
        known = [s for s in told if s is not None]
        if not known:
            return None
        mean = sum(known) / len(known)
        north, east, south, west = (mean if s is None else s for s in told)
        return north, east, south, west

    @property
    def stem_m(self) -> float | None:
        """Diameter of its thickest stem in metres; None where none was measured."""
        return max(self.stems_mm) / 1000 if self.stems_mm else None

    @property
    def roots_m(self) -> float | None:
        """Radius to which the ground is left to its roots, in metres; None where unknown.

        BS 5837:2012, 4.6.1 and annex D: twelve times the stem diameter, at most 15 m. Of an
        ancient or veteran tree fifteen times without limit, or 5 m beyond its crown where that
        is more (standing advice of Natural England and the Forestry Commission).
        """
        combined = self._combined_m
        if not self.veteran:
            return None if combined is None else min(_PROTECTED * combined, _FARTHEST)
        by_stem = () if combined is None else (_VETERAN * combined,)
        by_crown = () if self.crown_m is None else (max(self.crown_m) + _BEYOND_CROWN,)
        return max((*by_stem, *by_crown), default=None)

    @property
    def _combined_m(self) -> float | None:
        """Up to five stems count as the root of the sum of their squares, more by their mean.

        BS 5837:2012, 4.6.1; for more than five from memory.
        """
        if not self.stems_mm:
            return None
        if len(self.stems_mm) <= _FEW:
            return sqrt(sum(s * s for s in self.stems_mm)) / 1000
        return sqrt(sum(self.stems_mm) ** 2 / len(self.stems_mm)) / 1000


KIND = Kind(
    name="tree",
    title="Tree",
    plural="Trees",
    forms=(Form.POINT,),
    details=TreeDetails,
    look=Look(pen=Pen(width=0.18, colour=_GREEN), symbol="tree", symbol_mm=3.0),
    looks=(
        LookWhen(
            detail="veteran",
            value=True,
            look=Look(pen=Pen(width=0.25, colour=_GREEN), symbol="veteran_tree", symbol_mm=4.0),
            legend="Ancient or veteran tree",
        ),
    ),
    element="TREE",
    legend="Tree",
    order=80,
    help="A tree with a stem thicker than 75 mm at 1.5 m.",
    blocks=frozenset({Blocks.DIGGING, Blocks.MOWING}),
    label="species",
    width="stem_m",
    crown="crown_m",
    roots="roots_m",
)
