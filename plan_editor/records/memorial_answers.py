"""What an application for a memorial complies with, what takes a faculty, what is not told."""

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum
from textwrap import shorten
from typing import Any

from plan_editor.geometry.tolerance import SAME
from plan_editor.ground.church import from_church
from plan_editor.ground.parish import parish_figures
from plan_editor.ground.spaces import burials_in
from plan_editor.ground.standing import standing_on
from plan_editor.kinds import grave, vault
from plan_editor.kinds.application import ApplicationDetails, AskedFor, Shape
from plan_editor.kinds.burial import BurialSort
from plan_editor.kinds.parish import ParishDetails
from plan_editor.plan.item import Item
from plan_editor.plan.plan import Plan
from plan_editor.records.materials import Named, named
from plan_editor.records.regulations import ROWS, UPRIGHT, WORDS, Row, Words
from plan_editor.records.settling import settling_until

Application = Item[ApplicationDetails]

_LONGEST = 120
"""So many letters of an inscription stand in an answer; a sheet prints the whole of it."""


class Verdict(StrEnum):
    """What comes of one rule, the gravest first."""

    FACULTY = "takes a faculty"
    WAIT = "not yet"
    NOT_TOLD = "not told"
    JUDGE = "for the incumbent to judge"
    COMPLIES = "complies"


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """The answer by one rule.

    Args:
        title: what is held against it.
        told: what is asked for, in words.
        bound: what is allowed, in words.
        verdict: what comes of it.
        source: on whose word.
        note: what to mind.
    """

    title: str
    told: str
    bound: str
    verdict: Verdict
    source: str
    note: str = ""


def answers(plan: Plan, asked: Application, on: str) -> tuple[Answer, ...]:
    """Return the answer by every rule that concerns an application, on an ISO date.

    Where only an inscription, a repair or a removal is asked for, nothing else is asked for
    that is not told.
    """
    figures = parish_figures(plan)
    words = tuple(_in_words(w, figures, asked.details) for w in WORDS)
    found = (
        *_leave(asked.details),
        _form(figures, asked.details),
        *(_by_row(r, figures, asked.details) for r in ROWS if asked.details.form in r.forms),
        _material(figures, asked.details),
        _kerbs(figures, asked.details),
        *words,
        *_on_the_ground(plan, figures, asked, on),
    )
    wanted = {AskedFor.NEW: found, AskedFor.REPLACEMENT: found, AskedFor.INSCRIPTION: words}
    must = wanted.get(asked.details.asked_for, ())
    return tuple(a for a in found if a in must or a.verdict is not Verdict.NOT_TOLD)


def gravest(told: Iterable[Answer]) -> Verdict:
    """Return the gravest verdict: what comes of the application as a whole."""
    order = list(Verdict)
    return min((a.verdict for a in told), key=order.index, default=Verdict.NOT_TOLD)


def _leave(details: ApplicationDetails) -> tuple[Answer, ...]:
    if details.asked_for is not AskedFor.REMOVAL:
        return ()
    return (
        Answer(
            title="Asked for",
            told=str(details.asked_for),
            bound="by faculty",
            verdict=Verdict.FACULTY,
            source="Common practice; ask the diocesan registry.",
        ),
    )


def _form(figures: ParishDetails, details: ApplicationDetails) -> Answer:
    verdict = {Shape.UNKNOWN: Verdict.NOT_TOLD, Shape.OTHER: Verdict.FACULTY}
    return Answer(
        title="Form",
        told=str(details.form),
        bound="headstone, cross, ledger or tablet",
        verdict=verdict.get(details.form, Verdict.COMPLIES),
        source=figures.memorial_forms_source,
    )


def _by_row(row: Row, figures: ParishDetails, details: ApplicationDetails) -> Answer:
    size = row.measure(details)
    low, high = row.within(figures, details)
    return Answer(
        title=row.title,
        told="not told" if size is None else _mm(size),
        bound=f"up to {_mm(high)}" if not low else f"{low:,.0f} to {_mm(high)}",
        verdict=_verdict(size, low, high),
        source=str(getattr(figures, row.source)),
        note=row.note if size is None else "",
    )


def _verdict(size: float | None, low: float, high: float) -> Verdict:
    if size is None:
        return Verdict.NOT_TOLD
    return Verdict.COMPLIES if low <= size <= high else Verdict.FACULTY


def _mm(size: float) -> str:
    return f"{size:,.1f}".removesuffix(".0") + " mm"


def _material(figures: ParishDetails, details: ApplicationDetails) -> Answer:
    allowed = figures.memorial_materials.strip(" ,")
    told = details.material.strip()
    verdict = _NAMED[named(told, allowed)] if told and allowed else Verdict.NOT_TOLD
    return Answer(
        title="Material",
        told=told or "not told",
        bound=allowed or "the parish has no list on its plan",
        verdict=verdict,
        source=figures.memorial_source,
        note=_MATERIAL_NOTES.get(verdict, "") if allowed else _LOOK_UP,
    )


_NAMED = {
    Named.PLAINLY: Verdict.COMPLIES,
    Named.PERHAPS: Verdict.JUDGE,
    Named.NOT: Verdict.FACULTY,
}
_MATERIAL_NOTES = {Verdict.JUDGE: "More is said of it than the list names."}
_LOOK_UP = "Look it up in the diocese's regulations."


def _in_words(words: Words, figures: ParishDetails, details: ApplicationDetails) -> Answer:
    told = " / ".join(filter(None, map(str.strip, words.told(details).splitlines())))
    rule = words.rule(figures).strip()
    return Answer(
        title=words.title,
        told=shorten(told, _LONGEST, placeholder=" …") or "not told",
        bound=rule or "the parish has no rule on its plan",
        verdict=Verdict.JUDGE if told and rule else Verdict.NOT_TOLD,
        source=figures.wording_source,
        note="" if rule else _LOOK_UP,
    )


def _kerbs(figures: ParishDetails, details: ApplicationDetails) -> Answer:
    outside = details.kerbs and not figures.kerbs_allowed
    return Answer(
        title="Kerbs",
        told="asked for" if details.kerbs else "none",
        bound="allowed" if figures.kerbs_allowed else "none without faculty",
        verdict=Verdict.FACULTY if outside else Verdict.COMPLIES,
        source=figures.memorial_forms_source,
    )


def _on_the_ground(
    plan: Plan, figures: ParishDetails, asked: Application, on: str
) -> tuple[Answer, ...]:
    space = None if asked.details.grave is None else plan.items[asked.details.grave]
    upright = asked.details.form in UPRIGHT
    wall = (_from_wall(plan, figures, asked, space),) if upright else ()
    return (*wall, _settled(plan, figures, space, on))


def _from_wall(
    plan: Plan, figures: ParishDetails, asked: Application, space: Item[Any] | None
) -> Answer:
    distance = None if space is None else from_church(plan, _stands(plan, asked, space))
    if distance is None:
        verdict = Verdict.NOT_TOLD
    else:
        near = distance < figures.church_distance_m - SAME
        verdict = Verdict.FACULTY if near else Verdict.COMPLIES
    return Answer(
        title="Distance from the church",
        told="not known" if distance is None else f"{distance:.2f} m on the plan",
        bound=f"{figures.church_distance_m:g} m or more",
        verdict=verdict,
        source=figures.memorial_forms_source,
        note="Measure it on the ground." if distance is not None else "",
    )


def _stands(plan: Plan, asked: Application, space: Item[Any]) -> Item[Any]:
    details = asked.details
    if details.memorial is not None:
        return plan.items[details.memorial]
    place = standing_on(space, details)
    return space if place is None else space.on(place)


def _settled(plan: Plan, figures: ParishDetails, space: Item[Any] | None, on: str) -> Answer:
    until = "" if space is None else _until(plan, figures, space)
    if not until:
        verdict = Verdict.NOT_TOLD
    else:
        verdict = Verdict.COMPLIES if until <= on else Verdict.WAIT
    return Answer(
        title="Settling",
        told=f"settled by {until}" if until else "not known when it was dug",
        bound=f"{figures.settling_months} months from the last digging",
        verdict=verdict,
        source=figures.settling_source,
    )


def _until(plan: Plan, figures: ParishDetails, space: Item[Any]) -> str:
    """Return the day on which a space has settled, by its digging or its last coffin."""
    days = [
        b.details.buried
        for b in burials_in(plan, space.id)
        if b.details.sort is not BurialSort.ASHES or space.kind != grave.KIND
    ]
    dug = "" if space.kind == vault.KIND else space.details.dug
    return max(settling_until(day, figures.settling_months) for day in (*days, dug))
