"""What has happened to a drawn plan, of several sorts and by rising levels."""

from dataclasses import dataclass, replace


@dataclass(frozen=True, slots=True, kw_only=True)
class Damage:
    """What has happened to a plan.

    Args:
        blur_px: standard deviation of the blur, in pixels of the picture.
        stains: from 0 to 1: how dark the worst stain is, and how many there are.
        skew: how far the paper leans, as a share, and cockles, in tenths of a metre.
        broken: share of every line that is worn away.
        lettering: from 0 to 1: how much is written by hand in and across the graves.
        noise: standard deviation of the grain, in grey levels.
        fading: how much paler than full the ink has become, from 0 to 1.
        quality: of the JPEG; 0 for none.
    """

    blur_px: float = 0.6
    stains: float = 0.0
    skew: float = 0.0
    broken: float = 0.0
    lettering: float = 0.0
    noise: float = 1.5
    fading: float = 0.0
    quality: int = 0


CLEAN = Damage()

SAMPLE = Damage(
    blur_px=0.7,
    stains=0.6,
    skew=0.3,
    broken=0.02,
    lettering=0.3,
    noise=1.5,
    fading=0.38,
    quality=72,
)
"""About as the sample's scan is, laid on the ground at the same fineness.

Measured there on 344 outlines, across their long sides: the ink takes 0.32 of the paper's
light (a tenth of them less than 0.18), strokes are 2.0 pixels wide at half their depth, 0.1 %
of their lengths are worn away; JPEG quality 72. The same, measured on a plan with this damage:
0.25 (0.20), 2.25 pixels, 1.0 %.
"""

LEVELS = 5
_WORST = {
    "blur": Damage(blur_px=2.6),
    "stains": Damage(stains=1.0),
    "skew": Damage(skew=1.0),
    "broken lines": Damage(broken=0.4),
    "hand lettering": Damage(lettering=1.0),
}
_PART = {
    "blur": "blur_px",
    "stains": "stains",
    "skew": "skew",
    "broken lines": "broken",
    "hand lettering": "lettering",
}
DAMAGES = tuple(_WORST)


def damaged(sort: str, level: int) -> Damage:
    """Return damage of one sort, from level 1 to 5, on an otherwise clean plan."""
    part = _PART[sort]
    low, high = getattr(CLEAN, part), getattr(_WORST[sort], part)
    return replace(CLEAN, **{part: low + (high - low) * level / LEVELS})


def all_at(level: int) -> Damage:
    """Return every sort of damage at once, each at half the strength of that level."""
    values = {p: getattr(damaged(s, level), p) for s, p in _PART.items()}
    clean = {p: getattr(CLEAN, p) for p in values}
    halved = {p: clean[p] + (v - clean[p]) / 2 for p, v in values.items()}
    return replace(CLEAN, noise=2.5, fading=0.06 * level, quality=75, **halved)
