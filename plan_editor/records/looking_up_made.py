"""How graves are found: each different word is compared once, and leads to its entries."""

from collections.abc import Collection, Iterable, Iterator
from typing import Any

import numpy as np
from numpy.typing import NDArray
from rapidfuzz import fuzz, process
from rapidfuzz.process import cdist

from plan_editor.kinds import burial, memorial
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.kind import burial_kinds
from plan_editor.plan.plan import Plan
from plan_editor.records.looking_up import MOST, FoundGrave, line_of
from plan_editor.records.written import key_of, keys_in, name_words

LIKE = 75.0
"""From this share of letters in common, per cent, two words may be the same."""

PART = 0.9
"""How well a word fits of which what was typed is a part only; its beginning fits better."""

BEGINS = 0.95


Places = NDArray[np.int64]
"""Those that have a word, by their place among all."""


class WordTable:
    """Which words lead to which items. See ``looking_up.Register``."""

    def __init__(self, plan: Plan) -> None:
        worded = list(_worded(plan))
        self._items = [item for item, _ in worded]
        self._plan = plan
        leads: dict[str, list[int]] = {}
        for n, (_, words) in enumerate(worded):
            for word in words:
                leads.setdefault(word, []).append(n)
        # a register has as many numbers as entries, and they are never a letter or two off
        self._figures = {w: np.array(p) for w, p in leads.items() if w.isdecimal()}
        self._words = {w: np.array(p) for w, p in leads.items() if not w.isdecimal()}
        self._places: dict[tuple[str, ...], list[Item[Any]]] = {}
        for place in (i for kind in burial_kinds() for i in plan.of(kind) if i.number):
            self._places.setdefault(key_of(place.number), []).append(place)
        self._by_key: dict[tuple[str, ...], list[int]] = {}
        for n, item in enumerate(self._items):
            for key in self._keys(item):
                self._by_key.setdefault(key, []).append(n)

    def find(self, text: str, most: int = MOST) -> tuple[FoundGrave, ...]:
        """Return what fits, the best first; see ``looking_up.Register``."""
        fits = self._fits(list(dict.fromkeys(_words(text))))
        for key in keys_in(text):
            fits[self._by_key.get(key, [])] = 1.0
        there = np.flatnonzero(fits)
        best = there[np.argsort(-fits[there], kind="stable")][:most]
        found = tuple(self._found(int(n), float(fits[n])) for n in best)
        return (*self._bare(text, {f.grave for f in found}), *found)[:most]

    def _bare(self, text: str, told: Collection[ItemId | None]) -> Iterator[FoundGrave]:
        """Return graves of that number in which none of what was found lies."""
        for key in keys_in(text):
            for place in self._places.get(key, ()):
                if place.id not in told:
                    called = place.called()
                    yield FoundGrave(item=place.id, grave=place.id, text=called, score=1.0)

    def _fits(self, typed: list[str]) -> NDArray[np.float64]:
        """Return how well each item fits the words that were typed; 0.0 where one does not."""
        fits = np.zeros((len(typed), len(self._items)))
        for row, word in zip(fits, typed, strict=True):
            found = self._begun(word) if word.isdecimal() else self._alike(word)
            for places, fit in found:
                row[places] = np.maximum(row[places], fit)
        if not typed:
            return np.zeros(len(self._items))
        return np.where(fits.all(axis=0), fits.mean(axis=0), 0.0)

    def _begun(self, typed: str) -> Iterator[tuple[Places, float]]:
        """Return who has figures that begin so."""
        for word, places in self._figures.items():
            if word.startswith(typed):
                yield places, 1.0 if word == typed else BEGINS

    def _alike(self, typed: str) -> Iterator[tuple[Places, float]]:
        """Return who has a word that holds what was typed, or is a letter or two off it.

        A single letter is an initial.
        """
        words = list(self._words)
        like = cdist([typed], words, scorer=fuzz.ratio, score_cutoff=LIKE) / 100.0
        for word, share in zip(words, like[0].tolist() if words else (), strict=True):
            if word.startswith(typed):
                yield self._words[word], 1.0 if word == typed else BEGINS
            elif len(typed) > 1 and (share or typed in word):
                yield self._words[word], max(share, PART if typed in word else 0.0)

    def _keys(self, item: Item[Any]) -> Iterator[tuple[str, ...]]:
        lies = item.details.grave
        if lies is not None and (number := self._plan.items[lies].number):
            yield key_of(number)
        if item.kind == memorial.KIND and item.number:
            yield key_of(item.number)

    def _found(self, n: int, score: float) -> FoundGrave:
        item = self._items[n]
        lies: ItemId | None = item.details.grave
        text = line_of(self._plan, item)
        if item.kind == memorial.KIND:
            where = "" if lies is None else f" – {self._plan.items[lies].called()}"
            text = f"{text}: {' '.join(item.details.inscription.split())}{where}"
        return FoundGrave(item=item.id, grave=lies, text=text, score=round(score, 4))


def ready(plan: Plan) -> WordTable:
    """Return a plan's register, ready to be looked through."""
    return WordTable(plan)


def alike(plan: Plan, text: str, most: int) -> tuple[ItemId, ...]:
    """Return entries whose surname is spelt much as one of the words; see ``looking_up``."""
    entries = tuple(plan.of(burial.KIND))
    surnames = [e.details.surname.casefold() for e in entries]
    found: dict[int, float] = {}
    for word in text.casefold().split():
        for _, share, n in process.extract(
            word, surnames, scorer=fuzz.ratio, score_cutoff=LIKE, limit=most
        ):
            found[n] = max(share, found.get(n, 0.0))
    best = sorted(found, key=lambda n: (-found[n], n))[:most]
    return tuple(entries[n].id for n in best)


def _worded(plan: Plan) -> Iterator[tuple[Item[Any], set[str]]]:
    for entry in plan.of(burial.KIND):
        has = entry.details
        texts = (has.surname, has.forenames, has.died[:4], has.buried[:4], entry.number)
        yield entry, _all_words((*texts, has.abode, has.place_written))
    for stone in plan.of(memorial.KIND):
        if stone.details.inscription:
            yield stone, _all_words((stone.details.inscription, stone.number))


def _all_words(texts: Iterable[str]) -> set[str]:
    return {word for text in texts for word in _words(text)}


def _words(text: str) -> Iterator[str]:
    """Return words, and figures without the noughts before them."""
    yield from name_words(text)
    figures = "".join(c if c.isdecimal() else " " for c in text)
    yield from (f.lstrip("0") or "0" for f in figures.split())
