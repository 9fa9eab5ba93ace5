"""Base plans: an old plan, a photograph or a surveyor's drawing laid under the ground."""

from dataclasses import dataclass, field
from enum import StrEnum

from plan_editor.geometry.mappings import Mapping
from plan_editor.plan.detail import about
from plan_editor.plan.kind import Form, Kind
from plan_editor.plan.look import Look, Pen
from plan_editor.survey.fits.models import Control, Model, mapping_of


class Content(StrEnum):
    """What sort of file it is."""

    SCAN = "scan"
    DRAWING = "drawing"


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
    page: int = field(
        default=1,
        metadata=about(
            "Page", made=True, low=1, high=100_000, help="Of a file of several pages."
        ),
    )
    model: Model = field(default=Model.SIMILARITY, metadata=about("Kind of fit", made=True))
    fit: tuple[float, ...] = field(
        default=(),
        metadata=about(
            "Fit",
            made=True,
            group=6,
            most=6,
            help="Six numbers a b c d e f: east = a x + b y + c, north = d x + e y + f; of a"
            " projective fit or a warp the straight fit that comes near it.",
        ),
    )
    bend: tuple[float, ...] = field(
        default=(),
        metadata=about(
            "Bend",
            made=True,
            help="Of a projective fit a to h: east = (a x + b y + c) / (g x + h y + 1),"
            " north = (d x + e y + f) / (the same). Of a warp the smoothing at each point.",
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
    control_sd: tuple[float, ...] = field(
        default=(),
        metadata=about(
            "Standard deviations of the control",
            unit="m",
            low=0.0,
            made=True,
            help="One a point, of east and of north; 0 where it is not known.",
        ),
    )
    control_names: str = field(
        default="",
        metadata=about(
            "Names of the control", made=True, help="One a point, with line breaks between."
        ),
    )
    rmse_m: float | None = field(
        default=None, metadata=about("Misfit (root mean square)", unit="m", low=0.0, made=True)
    )
    loo_rmse_m: float | None = field(
        default=None,
        metadata=about(
            "Misfit of points left out",
            unit="m",
            low=0.0,
            made=True,
            help="Root mean square of what each point is missed by when it is left out of the"
            " fit.",
        ),
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
    def control_points(self) -> tuple[Control, ...]:
        """The points that it was placed by."""
        count = len(self.control) // 4
        sds = (*self.control_sd, *(0.0,) * count)[:count]
        names = (*self.control_names.split("\n"), *("",) * count)[:count]
        rows = zip(*(self.control[i::4] for i in range(4)), sds, names, strict=True)
        return tuple(
            Control(x=x, y=y, east=e, north=n, sd=sd or None, name=name)
            for x, y, e, n, sd, name in rows
        )

    @property
    def mapping(self) -> Mapping | None:
        """The way from it to the ground; None until it is placed.

        None too where a file was changed so that its numbers are none of its kind of fit.
        """
        control = self.control_points
        bent = {Model.PROJECTIVE: 8, Model.WARP: len(control)}.get(self.model)
        if not self.fit or (bent is not None and len(self.bend) != bent):
            return None
        a, b, c, d, e, f = self.fit
        return mapping_of(self.model, (a, b, c, d, e, f), self.bend, control)


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
