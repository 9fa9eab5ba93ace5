"""Whether marks carry a plan into another grid at all, and which of them is to be doubted."""

from collections.abc import Sequence

from plan_editor.survey.grids.frame_fit import FrameFit, Known, frame_fit, mirrored_fit, spread

MOST_OFF_M = 0.5
"""A mark that is missed by more is not where it is said to be: our own figure."""

MOST_SCALE_OFF = 0.01
"""No tape and no plan is off by more than this, as a share: our own figure."""

LEAST_SPREAD_M = 1.0
"""Marks closer together, in root mean square about their middle, turn nothing."""

CHECKED = 3
"""So many marks show whether they are right."""

_CLEARLY = 3.0
"""So many times better must the marks agree mirrored, or without one, for that to be said."""


def together(marks: Sequence[Known]) -> str:
    """Return that marks lie too close together, as a sentence, or ""."""
    on_plan, by_coordinates = spread(marks)
    if on_plan < LEAST_SPREAD_M:
        return "The marks lie all together on the plan. Take marks that lie far apart."
    if by_coordinates < LEAST_SPREAD_M:
        return (
            "The marks lie all together by their coordinates. Take marks that lie far apart,"
            " and metres: latitude and longitude in degrees look like that."
        )
    return ""


def misfit(marks: Sequence[Known], fit: FrameFit, held_scale: float) -> str:
    """Return why marks do not carry the plan, in sentences with every residual, or ""."""
    if agrees(fit, held_scale):
        return ""
    if (
        len(marks) >= CHECKED
        and mirrored_fit(marks).rmse * _CLEARLY < frame_fit(marks, scale=None).rmse
    ):
        return (
            "The marks fit only if the plan is mirrored. Were easting and northing exchanged?"
        )
    doubted = suspect(marks, fit, held_scale)
    if doubted is not None:
        why = f"{marks[doubted].name} is not where it is said to be; the others agree."
    elif scale_is_off(fit, held_scale):
        why = (
            f"The marks lie {fit.own_scale / held_scale:.4g} times as far apart by their"
            " coordinates as on the plan. Are both in metres?"
        )
    else:
        why = "The marks do not agree."
    return f"{why} {residuals_told(marks, fit)} Check the coordinates, or leave a mark out."


def agrees(fit: FrameFit, held_scale: float) -> bool:
    """Return whether every mark is met, and the marks have nearly the scale of the grids."""
    return max(fit.off) <= MOST_OFF_M and not scale_is_off(fit, held_scale)


def scale_is_off(fit: FrameFit, held_scale: float) -> bool:
    """Return whether the marks' own scale cannot be."""
    return abs(fit.own_scale / held_scale - 1.0) > MOST_SCALE_OFF


def suspect(marks: Sequence[Known], fit: FrameFit, held_scale: float) -> int | None:
    """Return which mark is to be doubted: the one without which the others agree far better.

    None where there is no such one, or too few marks to tell.
    """
    if len(marks) <= CHECKED:
        return None
    without = [_without(marks, held_scale, i) for i in range(len(marks))]
    best, second, *_ = sorted(range(len(marks)), key=lambda i: without[i].rmse)
    better = without[best].rmse * _CLEARLY
    alone = agrees(without[best], held_scale) and better < without[second].rmse
    return best if alone and better < fit.rmse else None


def residuals_told(marks: Sequence[Known], fit: FrameFit) -> str:
    """Return how far each mark is missed, as a sentence."""
    told = (f"{m.name} by {off:,.2f} m" for m, off in zip(marks, fit.off, strict=True))
    return f"Missed are {', '.join(told)}."


def _without(marks: Sequence[Known], held_scale: float, left_out: int) -> FrameFit:
    rest = [m for i, m in enumerate(marks) if i != left_out]
    return frame_fit(rest, scale=held_scale)
