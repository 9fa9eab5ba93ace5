"""Scales, and which of them lets a piece of ground fit a frame."""

PREFERRED = (
    20.0, 50.0, 100.0, 200.0, 250.0, 500.0, 1000.0, 1250.0, 2000.0, 2500.0, 5000.0, 10_000.0,
)  # fmt: skip
"""Reductions of ISO 5455:1979, and 1:250, 1:1250 and 1:2500 of British practice."""

MARGIN = 3.0
"""Kept free round the ground within the frame, in millimetres."""

Size = tuple[float, float]


def fits(ground: Size, frame: Size, scale: float) -> bool:
    """Return whether ground, east by north in metres, fits a frame in millimetres."""
    return all(
        metres * 1000.0 / scale + 2 * MARGIN <= room + 1e-9
        for metres, room in zip(ground, frame, strict=True)
    )


def largest(ground: Size, frame: Size, *, least: float = PREFERRED[0]) -> float | None:
    """Return the largest preferred scale that fits, 1:``least`` at most; None if none does."""
    return next((s for s in PREFERRED if s >= least and fits(ground, frame, s)), None)
