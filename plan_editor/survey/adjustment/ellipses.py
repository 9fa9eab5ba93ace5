"""Error ellipses: where a point lies with 95 % certainty, from its covariance."""

import math

from plan_editor.survey.adjustment.observed import Ellipse

CHI_SQUARE_95 = 5.991
"""95 % of the squared distances of two normal coordinates, in standard errors, are below this.

Source: table of the chi-square distribution, 2 degrees of freedom, upper 5 %; -2·ln 0.05.
"""


def ellipse_95(east: float, between: float, north: float) -> Ellipse:
    """Return the 95 % ellipse of variances of east and north and the covariance between them.

    The standard deviations that were given for the measurements scale it, not the residuals.
    Source of the semi-axes and the bearing: Ghilani, Adjustment Computations, chapter 19.
    """
    middle, spread = (east + north) / 2, math.hypot((east - north) / 2, between)
    bearing = math.degrees(math.atan2(2 * between, north - east)) / 2
    return Ellipse(
        a=math.sqrt(CHI_SQUARE_95 * max(0.0, middle + spread)),
        b=math.sqrt(CHI_SQUARE_95 * max(0.0, middle - spread)),
        bearing_deg=bearing % 180.0,
    )
