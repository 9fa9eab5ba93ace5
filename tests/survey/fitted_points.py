"""Points for fits, published and made."""

from collections.abc import Iterable

from plan_editor.survey.fits.fitting import Fit, fit
from plan_editor.survey.fits.models import Control, Model
from plan_editor.survey.fits.paper import Paper

UPWARD = Paper(upward=True)
"""Published points count upward on both sides."""

Pairs = Iterable[tuple[tuple[float, float], tuple[float, float]]]


def control(pairs: Pairs) -> tuple[Control, ...]:
    """Return pairs as points without names and standard deviations."""
    return tuple(Control(x=x, y=y, east=e, north=n) for (x, y), (e, n) in pairs)


def fitted(pairs: Pairs, model: Model = Model.SIMILARITY) -> Fit:
    """Return the fit of pairs whose first place counts upward."""
    return fit(model, control(pairs), UPWARD)


# Budapest University of Technology and Economics, open geodesy notebooks (OSGeoLabBp tutorials,
# data processing, lesson "trans"): nine points measured twice; K9 was moved by 0.25 m between
BUDAPEST = (
    ("K1", 0.0, 5.9427, 0.0002, 5.9422),
    ("K2", 6.0242, 0.0, 6.0252, -0.0006),
    ("K3", 9.7954, 5.3061, 9.7959, 5.3061),
    ("K4", 17.9716, 5.2726, 17.9716, 5.2729),
    ("K5", 31.6363, 5.5274, 31.6366, 5.5280),
    ("K6", 33.2002, 7.0923, 33.1994, 7.0916),
    ("K7", 35.9246, 14.5219, 35.9235, 14.5207),
    ("K8", 40.6884, 21.0337, 40.6888, 21.0319),
    ("K9", 32.501, 22.8658, 32.2494, 22.8644),
)


def budapest(sd: float | None = None) -> tuple[Control, ...]:
    """Return the nine points of Budapest."""
    return tuple(
        Control(x=x, y=y, east=e, north=n, sd=sd, name=name) for name, x, y, e, n in BUDAPEST
    )
