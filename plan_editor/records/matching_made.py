"""How entries are matched with graves: names compared all at once, then weighed singly."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import chain, takewhile
from math import prod

import numpy as np
from rapidfuzz.distance import OSA
from rapidfuzz.process import cdist

from plan_editor.kinds import burial
from plan_editor.plan.plan import Plan
from plan_editor.records import weighing
from plan_editor.records.matching import LEAST, MOST, GraveProposal, Stopped
from plan_editor.records.matching_ground import (
    Entry,
    Ground,
    Place,
    read_entry,
    read_ground,
)
from plan_editor.records.stones import Person
from plan_editor.records.weighing import Weight
from plan_editor.records.written import slips

PRESENT = 0.7
"""Of so many entries the grave is on the plan, before anything is known. Our own figure."""

LONG, LETTERS_OFF = 7, 2
"""Words of so many letters may differ by two, shorter ones by one, of three by none."""

AT_ONE_GO = 1000

Close = dict[str, dict[str, int]]
"""Words of the register, each with those of the stones that differ by a letter or two."""


@dataclass(frozen=True, slots=True)
class _Known:
    ground: Ground
    close: Close


def proposals(plan: Plan, stopped: Stopped) -> tuple[GraveProposal, ...]:
    """Return proposals for every entry without a grave, the surest first; see ``matching``."""
    entries = [read_entry(b) for b in plan.of(burial.KIND) if b.details.grave is None]
    ground = read_ground(plan)
    if not entries or not ground.places:
        return ()
    known = _Known(ground, _close_words(entries, ground.words))
    going = takewhile(lambda _: not stopped(), entries)
    found = chain.from_iterable(_of_entry(e, known) for e in going)
    return tuple(sorted(found, key=lambda p: (-p.score, p.entry, p.grave)))


def _close_words(entries: Iterable[Entry], words: list[str]) -> Close:
    mine = sorted({w for e in entries for w in (*e.surname, *e.forenames) if len(w) > 3})
    found: Close = {}
    for start in range(0, len(mine), AT_ONE_GO):
        part = mine[start : start + AT_ONE_GO]
        apart = cdist(
            part, words, scorer=OSA.distance, score_cutoff=LETTERS_OFF, dtype=np.uint8
        )
        for a, b in zip(*np.nonzero(apart <= LETTERS_OFF), strict=True):
            if 0 < apart[a, b] <= _may_differ(part[a]):
                found.setdefault(part[a], {})[words[b]] = int(apart[a, b])
    return found


def _may_differ(word: str) -> int:
    return LETTERS_OFF if len(word) >= LONG else 1


def _of_entry(entry: Entry, known: _Known) -> Iterator[GraveProposal]:
    weighed = [(n, _weights(entry, n, known)) for n in sorted(_candidates(entry, known))]
    ratios = [prod(w.ratio for w in weights) for _, weights in weighed]
    absent = len(known.ground.places) * (1.0 - PRESENT) / PRESENT
    whole = sum(ratios) + absent
    ranked = sorted(zip(ratios, weighed, strict=True), key=lambda r: (-r[0], r[1][0]))
    for ratio, (n, weights) in ranked[:MOST]:
        score = round(ratio / whole, 4)
        if score >= LEAST:
            yield GraveProposal(
                entry=entry.item.id,
                grave=known.ground.places[n].item.id,
                score=score,
                reasons=tuple(w.reason for w in weights if w.reason),
            )


def _candidates(entry: Entry, known: _Known) -> set[int]:
    """Return the places that anything at all speaks for: number, name, or year of death."""
    ground = known.ground
    found = {n for key in entry.keys for n in ground.by_key.get(key, ())}
    for slip in chain.from_iterable(map(slips, entry.keys)):
        found.update(ground.by_slip.get(slip, ()))
    for word in entry.surname:
        for name in (word, *known.close.get(word, ())):
            found.update(ground.by_name.get(name, ()))
    for year in entry.years:
        found.update(ground.by_year.get(year, ()))
    return found


def _weights(entry: Entry, n: int, known: _Known) -> tuple[Weight, ...]:
    place = known.ground.places[n]
    beside = [known.ground.places[m] for m in known.ground.beside.get(n, ())]
    return (
        weighing.weigh_number(entry, place, len(known.ground.places)),
        *_named(entry, place, beside, known),
        weighing.weigh_use(entry, place),
        weighing.weigh_time(entry, known.ground.years_beside.get(n, frozenset())),
    )


def _named(
    entry: Entry, place: Place, beside: list[Place], known: _Known
) -> tuple[Weight, ...]:
    """Weigh the names on the stone and of those who lie there; without any, those beside."""
    if not place.names:
        family = any(_surname_in(entry, p, known) is not None for p in beside)
        told = "the same surname beside it"
        return (Weight(weighing.FAMILY_BESIDE, told) if family else Weight(),)
    surname = _surname(entry, place, known)
    if not place.people:
        return (surname,)
    persons = [(_person(entry, p, known), p) for p in place.people]
    best, who = max(persons, key=lambda p: p[0].ratio)
    if best.ratio <= weighing.NOT_NAMED:
        return surname, Weight(weighing.NOT_NAMED, "the stone does not seem to name them")
    if who.elsewhere:
        return surname, Weight(weighing.ELSEWHERE, "the stone says: buried elsewhere")
    return surname, best


def _surname_in(entry: Entry, place: Place, known: _Known) -> int | None:
    """Return how the surname stands among the names of a place: SAME, CLOSE, or None."""
    if not entry.surname:
        return None
    if all(w in place.names for w in entry.surname):
        return weighing.SAME
    near = all(
        w in place.names or any(c in place.names for c in known.close.get(w, ()))
        for w in entry.surname
    )
    return weighing.CLOSE if near else None


def _surname(entry: Entry, place: Place, known: _Known) -> Weight:
    if not entry.surname:
        return Weight()
    likeness = _surname_in(entry, place, known)
    by_chance = max(_share(w, known) for w in entry.surname)
    if likeness is None:
        return Weight(0.12, "another surname there")
    if likeness == weighing.SAME:
        return Weight(0.75 / by_chance, f"the surname {entry.item.details.surname} there")
    return Weight(0.12 / by_chance, f"a surname like {entry.item.details.surname} there")


def _share(word: str, known: _Known) -> float:
    """Return what share of places has a word, or one like it, among its names."""
    words = (word, *known.close.get(word, ()))
    named = {n for w in words for n in known.ground.by_name.get(w, ())}
    return max(len(named), 1) / max(known.ground.named, 1)


def _person(entry: Entry, person: Person, known: _Known) -> Weight:
    parts = (
        weighing.weigh_forenames(entry, person, known.close),
        weighing.weigh_year(entry, person),
        weighing.weigh_age(entry, person),
    )
    told = ", ".join(p.reason for p in parts if p.reason)
    return Weight(prod(p.ratio for p in parts), f"on the stone: {told}" if told else "")
