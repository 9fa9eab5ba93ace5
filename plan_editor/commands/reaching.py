"""How well pegs can be set out over the ground, and where new marks would help, in words."""

from dataclasses import dataclass
from itertools import pairwise
from math import inf, isfinite, nan

import numpy as np

from plan_editor.commands.places import coordinate
from plan_editor.drawing.sketch import Sketch, SketchDot, SketchPatch, Tone
from plan_editor.errors import CannotUse
from plan_editor.ground.new_marks import NewMark, new_marks
from plan_editor.ground.reach import Reach, reach
from plan_editor.plan.plan import Plan
from plan_editor.survey.adjustment.fixes import Fixes
from plan_editor.survey.grids.grid import Grid

SHORTEST_TAPE_M, LONGEST_TAPE_M = 2.0, 100.0

MATTERS = ("mark", "boundary", "building", "wall", "hedge", "gate", "fence")
"""The kinds that the map is made of."""

CAUTION = (
    "A forecast from these figures, not a measurement. Set each peg out by three ties where"
    " there are three, and measure sides and diagonals before anybody digs. A pin or a cut in"
    " old masonry needs leave, so ask the diocese first; a corner as it stands needs none."
)

NOTHING_HELPS = (
    "No corner of a building or wall, gatepost or end of a railing that a tape joins to the"
    " marks of today would help by as much as one part in a hundred."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class ErrorClass:
    """Ground on which pegs are about as good.

    Args:
        title: in the key.
        above_m, up_to_m: the error of a peg lies between these.
        tone, strength: how it is sketched.
    """

    title: str
    above_m: float
    up_to_m: float
    tone: Tone
    strength: float


LIMITS_M = (0.02, 0.05, 0.1)
"""Errors of a peg that are told apart: a finger's breadth, a hand's breadth, a hand's span."""

CLASSES = (
    ErrorClass(title="20 mm or less", above_m=-1.0, up_to_m=0.02, tone=Tone.GOOD, strength=0.5),
    ErrorClass(title="to 50 mm", above_m=0.02, up_to_m=0.05, tone=Tone.GOOD, strength=0.1),
    ErrorClass(title="to 100 mm", above_m=0.05, up_to_m=0.1, tone=Tone.DOUBT, strength=0.1),
    ErrorClass(title="worse", above_m=0.1, up_to_m=1e9, tone=Tone.DANGER, strength=0.1),
    ErrorClass(title="out of reach", above_m=1e9, up_to_m=inf, tone=Tone.SOFT, strength=0.3),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Advice:
    """How well pegs can be set out today, and the new marks that would help most."""

    grid: Grid
    today: Reach
    new: tuple[NewMark, ...]

    @property
    def stages(self) -> tuple[Fixes, ...]:
        """How well with the marks of today, with the first new one, with the second too, …."""
        return (self.today.fixes, *(n.fixes for n in self.new))


def advice(plan: Plan, tape_m: float) -> Advice:
    """Return how well pegs can be set out, and where new marks would help. Cost: a second.

    Raises:
        CannotUse: the tape is no tape, there is no mark, or no boundary with ground in it.
    """
    if not SHORTEST_TAPE_M <= tape_m <= LONGEST_TAPE_M:
        raise CannotUse(
            f"No tape is {tape_m:g} m long. Give its length in metres, from"
            f" {SHORTEST_TAPE_M:g} to {LONGEST_TAPE_M:g}."
        )
    today = reach(plan, tape_m)
    return Advice(grid=plan.grid, today=today, new=new_marks(plan, today))


def read_tape(text: str) -> float:
    """Return the typed length of a tape, in metres.

    Raises:
        CannotUse: it is no number.
    """
    try:
        length = float(text.strip().removesuffix("m").replace(",", "."))
    except ValueError:
        length = nan
    if not isfinite(length):
        raise CannotUse(f"“{text}” is no length of a tape. Write it in metres, such as 30.")
    return length


def share(part: float) -> str:
    """Return a share in words that never round a little to nothing or most to all."""
    if 0.0 < part < 0.01:
        return "under 1 %"
    if 0.99 < part < 1.0:
        return "over 99 %"
    return f"{part * 100:.0f} %"


def quantile_words(fixes: Fixes) -> str:
    """Return within what errors half and nine tenths of the ground keep, where they do."""
    named = (("half", fixes.quantile(0.5)), ("nine tenths", fixes.quantile(0.9)))
    told = [f"{part} of the ground within {e * 1000:.0f} mm" for part, e in named if e]
    return f"{', '.join(told).capitalize()}." if told else ""


def shares(fixes: Fixes) -> tuple[tuple[ErrorClass, float], ...]:
    """Return the classes, each with its share of the ground."""
    error = fixes.error_m
    return tuple(
        (c, float(np.mean((c.above_m < error) & (error <= c.up_to_m)))) for c in CLASSES
    )


def checked_words(fixes: Fixes) -> str:
    """Return on how much of the ground three ties check one another, and on how much not."""
    two = 1.0 - fixes.out_of_reach - fixes.share_checked
    return (
        f"Three ties check one another on {share(fixes.share_checked)} of the ground. On"
        f" {share(max(two, 0.0))} a peg can be set out, but a misread tape would not show."
    )


def place_words(grid: Grid, new: NewMark) -> str:
    """Return where a new mark would be."""
    e, n = grid.to_crs(new.place.east, new.place.north)
    return f"A mark at the {new.place.words} (E {coordinate(e)}, N {coordinate(n)})"


def gains(found: Advice) -> tuple[str, ...]:
    """Return what each new mark gains beside those before it, sentence by sentence."""
    return tuple(_gain(before, after) for before, after in pairwise(found.stages))


def own_words(new: NewMark) -> str:
    """Return how well the mark itself would be known, and by what."""
    how = "taped from the marks that it sees" if new.taped else "by GNSS or an instrument"
    return f"its own place to ± {new.sd_m * 1000:.0f} mm, {how}"


def sketched(found: Advice) -> Sketch:
    """Return the map of the error of pegs, and the places for new marks."""
    patches = [p for c in CLASSES for p in _patches(found.today, c)]
    dots = [
        SketchDot(
            east=n.place.east, north=n.place.north, text=f"new mark {k}", tone=Tone.MEASURED
        )
        for k, n in enumerate(found.new, 1)
    ]
    return Sketch(patches=tuple(patches), dots=tuple(dots))


def _gain(before: Fixes, after: Fixes) -> str:
    limit = max(LIMITS_M, key=lambda m: after.within(m) - before.within(m))
    told = [
        _instead(
            f"pegs within {limit * 1000:.0f} mm on", after.within(limit), before.within(limit)
        )
    ]
    if after.share_checked > before.share_checked:
        told.append(
            _instead("checked by a third tie on", after.share_checked, before.share_checked)
        )
    if after.out_of_reach < before.out_of_reach:
        told.append(_instead("out of reach on", after.out_of_reach, before.out_of_reach))
    return ", ".join(told)


def _instead(what: str, now: float, before: float) -> str:
    on, instead = share(now), share(before)
    if on == instead:
        on, instead = f"{now * 100:.1f} %", f"{before * 100:.1f} %"
    return f"{what} {on} of the ground instead of {instead}"


def _patches(today: Reach, wanted: ErrorClass) -> list[SketchPatch]:
    """Return the cells of a class, those beside one another in a row as one patch."""
    error, side = today.fixes.error_m, today.cells.side_m
    centres = today.cells.centres[(wanted.above_m < error) & (error <= wanted.up_to_m)]
    if not len(centres):
        return []
    ends = np.flatnonzero(
        (np.diff(centres[:, 0]) > 1.5 * side) | (np.diff(centres[:, 1]) > 0.5 * side)
    )
    first = np.concatenate([[0], ends + 1])
    last = np.concatenate([ends, [len(centres) - 1]])
    runs = zip(centres[first] - side / 2, centres[last] + side / 2, strict=True)
    return [
        SketchPatch(
            points=np.array([(w, s), (e, s), (e, n), (w, n)]),
            strength=wanted.strength,
            tone=wanted.tone,
        )
        for (w, s), (e, n) in runs
    ]
