"""Base plans: an old plan, a photograph or a surveyor's drawing laid under the ground."""

from dataclasses import dataclass, field
from enum import StrEnum

from plan_editor.plan.kind import Form, Kind, about
from plan_editor.plan.look import Look, Pen


class Content(StrEnum):
    """What sort of file it is."""

    SCAN = "scan"
    DRAWING = "drawing"


@dataclass(frozen=True, slots=True, kw_only=True)
class ControlPoint:
    """A place on the base plan and the same place on the ground.

    Args:
        x, y: pixels right and down from the top left corner of a scan; units of the file, right
            and up, of a drawing.
        east, north: metres about the plan's origin.
    """

    x: float
    y: float
    east: float
    north: float


@dataclass(frozen=True, slots=True, kw_only=True)
class BasePlanDetails:
    """What is recorded of a base plan; once placed, its shape is its outline on the ground."""

    name: str = field(default="", metadata=about("Name", schedule=True))
    content: Content = field(default=Content.SCAN, metadata=about("Sort", made=True))
    digest: str = field(
        default="",
        metadata=about(
            "Digest", made=True, help="SHA-256 of the original file, kept in the plan."
        ),
    )
    extent: tuple[float, ...] = field(
        default=(),
        metadata=about(
            "Extent",
            made=True,
            group=4,
            most=4,
            help="Least x and y, greatest x and y, in pixels or the file's own units.",
        ),
    )
    fit: tuple[float, ...] = field(
        default=(),
        metadata=about(
            "Fit",
            made=True,
            group=6,
            most=6,
            help="Six numbers a b c d e f: east = a x + b y + c, north = d x + e y + f.",
        ),
    )
    control: tuple[float, ...] = field(
        default=(),
        metadata=about(
            "Control",
            made=True,
            group=4,
            help="x, y, east, north of each point that it was placed by.",
        ),
    )
    rmse_m: float | None = field(
        default=None, metadata=about("Misfit (root mean square)", unit="m", low=0.0, made=True)
    )
    opacity: float = field(default=0.6, metadata=about("Opacity", low=0.05, high=1.0))
    shown: bool = field(default=True, metadata=about("Shown"))
    source: str = field(default="", metadata=about("Source", schedule=True))
    date: str = field(default="", metadata=about("Date", date=True, schedule=True))
    copyright: str = field(default="", metadata=about("Copyright line"))
    licence: str = field(default="", metadata=about("Licence number"))
    reproducible: bool = field(
        default=False,
        metadata=about(
            "May be reproduced",
            help="Only then is it printed under a sheet, with its copyright line.",
        ),
    )

    @property
    def control_points(self) -> tuple[ControlPoint, ...]:
        """The points that it was placed by."""
        rows = zip(*(self.control[i::4] for i in range(4)), strict=True)
        return tuple(ControlPoint(x=x, y=y, east=e, north=n) for x, y, e, n in rows)


KIND = Kind(
    name="base_plan",
    title="Base plan",
    plural="Base plans",
    forms=(Form.AREA, Form.NONE),
    details=BasePlanDetails,
    look=Look(pen=Pen(width=0.18, colour="#566268", dash=(4.0, 2.0))),
    element="BASE",
    legend="",
    order=0,
    help="An old plan or a surveyor's drawing under the ground.",
    label="name",
    pinned=True,
)
