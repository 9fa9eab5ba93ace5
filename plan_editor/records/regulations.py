"""Memorials that are asked for, held against the parish's own regulations.

``ROWS`` lists what is measured, within which of the parish's figures, and on whose word; what
falls outside takes a faculty. ``WORDS`` lists what is judged by a rule in words. Figures and
rules are the plan's: each parish enters its own.
"""

from collections.abc import Callable
from dataclasses import dataclass

from plan_editor.kinds.application import ApplicationDetails, Shape
from plan_editor.kinds.parish import ParishDetails
from plan_editor.records.materials import is_plainly

Measure = Callable[[ApplicationDetails], float | None]
Bounds = Callable[[ParishDetails, ApplicationDetails], tuple[float, float]]

UPRIGHT = frozenset({Shape.HEADSTONE, Shape.CROSS})
FLAT = frozenset({Shape.LEDGER, Shape.TABLET})
KNOWN = UPRIGHT | FLAT


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One rule on a size, in millimetres.

    Args:
        title: what is measured.
        forms: of which memorials.
        measure: takes it from an application; None where it is not told.
        within: the least and the most, inclusive; the least is 0 where there is none.
        source: name of the parish's detail that says whence the figures come.
        note: what to mind where it is not told.
    """

    title: str
    forms: frozenset[Shape]
    measure: Measure
    within: Bounds
    source: str = "memorial_source"
    note: str = ""


def _wider(part: float | None, than: float | None) -> float | None:
    """Return by how much a part stands out at each of two sides, in millimetres."""
    return None if part is None or than is None else (part - than) / 2


def _sides(details: ApplicationDetails) -> tuple[float, float] | None:
    if details.height_mm is None or details.width_mm is None:
        return None
    return max(details.height_mm, details.width_mm), min(details.height_mm, details.width_mm)


def _long(details: ApplicationDetails) -> float | None:
    sides = _sides(details)
    return None if sides is None else sides[0]


def _short(details: ApplicationDetails) -> float | None:
    sides = _sides(details)
    return None if sides is None else sides[1]


def _depth_over(details: ApplicationDetails) -> float | None:
    both = _wider(details.base_depth_mm, details.thickness_mm)
    return None if both is None else 2 * both


def _foundation_across(details: ApplicationDetails) -> float | None:
    return _wider(details.foundation_width_mm, details.base_width_mm or details.width_mm)


def _foundation_deep(details: ApplicationDetails) -> float | None:
    return _wider(details.foundation_depth_mm, details.base_depth_mm or details.thickness_mm)


def _thick(figures: ParishDetails, details: ApplicationDetails) -> tuple[float, float]:
    slate = is_plainly(details.material, "slate")
    least = figures.slate_least_thickness_mm if slate else figures.memorial_least_thickness_mm
    return least, figures.memorial_thickness_mm


def _over(figures: ParishDetails, details: ApplicationDetails) -> tuple[float, float]:
    front = figures.vase_projection_mm if details.vase else figures.base_projection_mm
    return 0.0, front + figures.base_projection_mm


def _foundation(figures: ParishDetails, details: ApplicationDetails) -> tuple[float, float]:
    del details
    return figures.foundation_least_mm, figures.foundation_most_mm


_HEADSTONE = frozenset({Shape.HEADSTONE})
_CROSS = frozenset({Shape.CROSS})
_LEDGER = frozenset({Shape.LEDGER})
_TABLET = frozenset({Shape.TABLET})
_FURTHER = "memorial_forms_source"
_SUNK = "A stone without a base is sunk by a third of its length, or held by a ground anchor."
_SETTING = "A foundation lies flush with the turf for a mower to pass over, or deep under it."

ROWS = (
    Row(
        title="Height",
        forms=_HEADSTONE,
        measure=lambda d: d.height_mm,
        within=lambda f, _: (f.memorial_least_height_mm, f.memorial_height_mm),
    ),
    Row(
        title="Height",
        forms=_CROSS,
        measure=lambda d: d.height_mm,
        within=lambda f, _: (0.0, f.cross_height_mm),
        source=_FURTHER,
    ),
    Row(
        title="Width",
        forms=_HEADSTONE,
        measure=lambda d: d.width_mm,
        within=lambda f, _: (f.memorial_least_width_mm, f.memorial_width_mm),
    ),
    Row(
        title="Width",
        forms=_CROSS,
        measure=lambda d: d.width_mm,
        within=lambda f, _: (0.0, f.memorial_width_mm),
    ),
    Row(
        title="Thickness",
        forms=_HEADSTONE,
        measure=lambda d: d.thickness_mm,
        within=_thick,
    ),
    Row(
        title="Thickness",
        forms=_CROSS,
        measure=lambda d: d.thickness_mm,
        within=lambda f, _: (0.0, f.memorial_thickness_mm),
    ),
    Row(
        title="Length",
        forms=_LEDGER,
        measure=_long,
        within=lambda f, _: (f.ledger_least_length_mm, f.ledger_length_mm),
        source=_FURTHER,
    ),
    Row(
        title="Width",
        forms=_LEDGER,
        measure=_short,
        within=lambda f, _: (f.ledger_least_width_mm, f.ledger_width_mm),
        source=_FURTHER,
    ),
    Row(
        title="Longer side",
        forms=_TABLET,
        measure=_long,
        within=lambda f, _: (0.0, f.tablet_length_mm),
        source=_FURTHER,
    ),
    Row(
        title="Shorter side",
        forms=_TABLET,
        measure=_short,
        within=lambda f, _: (0.0, f.tablet_width_mm),
        source=_FURTHER,
    ),
    Row(
        title="Base at each side",
        forms=UPRIGHT,
        measure=lambda d: _wider(d.base_width_mm, d.width_mm),
        within=lambda f, _: (0.0, f.base_projection_mm),
        source=_FURTHER,
        note=_SUNK,
    ),
    Row(
        title="Base in front and behind",
        forms=UPRIGHT,
        measure=_depth_over,
        within=_over,
        source=_FURTHER,
        note=_SUNK,
    ),
    Row(
        title="Foundation at each side",
        forms=UPRIGHT,
        measure=_foundation_across,
        within=_foundation,
        source=_FURTHER,
        note=_SETTING,
    ),
    Row(
        title="Foundation in front and behind",
        forms=UPRIGHT,
        measure=_foundation_deep,
        within=_foundation,
        source=_FURTHER,
        note=_SETTING,
    ),
)
"""Every rule on a size that there is."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Words:
    """One rule in words: nothing can be measured, the incumbent judges.

    Args:
        title: what is judged.
        told: takes it from an application; empty where it is not told.
        rule: takes the parish's rule; empty where it has none on its plan.
    """

    title: str
    told: Callable[[ApplicationDetails], str]
    rule: Callable[[ParishDetails], str]


WORDS = (
    Words(
        title="Inscription",
        told=lambda d: d.inscription,
        rule=lambda f: f.inscription_rule,
    ),
    Words(title="Lettering", told=lambda d: d.lettering, rule=lambda f: f.lettering_rule),
)
"""Every rule in words that there is; their source is the parish's ``wording_source``."""
