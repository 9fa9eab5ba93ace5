"""Scales, and which of them lets a piece of ground fit a frame."""

PREFERRED = (
    20.0, 50.0, 100.0, 200.0, 250.0, 500.0, 1000.0, 1250.0, 2000.0, 2500.0, 5000.0, 10_000.0,
)  # fmt: skip
"""Reductions of ISO 5455:1979, and 1:250, 1:1250 and 1:2500 of British practice."""

INTERMEDIATE = (
    30.0, 40.0, 60.0, 75.0, 125.0, 150.0, 300.0, 400.0, 600.0, 750.0, 1500.0, 3000.0, 4000.0,
)  # fmt: skip
"""Round scales between the preferred ones.

ISO 5455:1979, clause 5, lets intermediate scales be chosen exceptionally, where the recommended
ones cannot be used for a functional reason: here, that the drawing would be lost on its paper.
"""

MARGIN = 3.0
"""Kept free round the ground within the frame, in millimetres."""

Size = tuple[float, float]


def needed(ground: Size, scale: float) -> Size:
    """Return the frame, in millimetres, that ground, east by north in metres, takes."""
    east, north = ground
    return east * 1000.0 / scale + 2 * MARGIN, north * 1000.0 / scale + 2 * MARGIN


def fits(ground: Size, frame: Size, scale: float) -> bool:
    """Return whether ground, east by north in metres, fits a frame in millimetres."""
    taken = needed(ground, scale)
    return all(mm <= room + 1e-9 for mm, room in zip(taken, frame, strict=True))


def largest(ground: Size, frame: Size, *, least: float = PREFERRED[0]) -> float | None:
    """Return the largest preferred scale that fits, 1:``least`` at most; None if none does."""
    return next((s for s in PREFERRED if s >= least and fits(ground, frame, s)), None)
