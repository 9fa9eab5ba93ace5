"""Places as they are written: eastings and northings in groups of three digits."""

from plan_editor.survey.grids.grid import Grid

THIN = "\u202f"


def place(grid: Grid, east: float, north: float) -> str:
    """Return a place in the plan's own grid: ``E 553 112.48   N 421 087.15``.

    Args:
        grid: of the plan.
        east: metres about the plan's origin.
        north: metres about the plan's origin.
    """
    e, n = grid.to_crs(east, north)
    return f"E {coordinate(e)}   N {coordinate(n)}"


def coordinate(metres: float) -> str:
    """Return a coordinate to the centimetre, its digits in groups of three."""
    return f"{metres:,.2f}".replace(",", THIN)
