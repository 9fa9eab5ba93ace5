"""How graves are found: each different word is compared once, and leads to its entries."""

from collections.abc import Iterable, Iterator
from typing import Any

import numpy as np
from numpy.typing import NDArray
from rapidfuzz import fuzz
from rapidfuzz.process import cdist

from plan_editor.kinds import burial, memorial
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.plan import Plan
from plan_editor.records.looking_up import MOST, FoundGrave
from plan_editor.records.work_list import entry_called
from plan_editor.records.written import key_of, keys_in, name_words

LIKE = 75.0
"""From this share of letters in common, per cent, two words may be the same."""

PART = 0.9
"""How well a word fits of which what was typed is a part only; its beginning fits better."""

BEGINS = 0.95


class WordTable:
    """Which words lead to which items. See ``looking_up.Register``."""

    def __init__(self, plan: Plan) -> None:
        told = list(_told(plan))
        self._items = [item for item, _ in told]
        self._plan = plan
        leads: dict[str, list[int]] = {}
        for place, (_, words) in enumerate(told):
            for word in words:
                leads.setdefault(word, []).append(place)
        self._words = list(leads)
        self._leads = [np.array(places, dtype=np.int64) for places in leads.values()]
        self._by_key: dict[tuple[str, ...], list[int]] = {}
        for place, item in enumerate(self._items):
            for key in self._keys(item):
                self._by_key.setdefault(key, []).append(place)

    def find(self, text: str, most: int = MOST) -> tuple[FoundGrave, ...]:
        """Return what fits, the best first; see ``looking_up.Register``."""
        fits = self._fits(list(dict.fromkeys(_words(text))))
        for key in keys_in(text):
            fits[self._by_key.get(key, [])] = 1.0
        there = np.flatnonzero(fits)
        best = there[np.argsort(-fits[there], kind="stable")][:most]
        return tuple(self._found(int(n), float(fits[n])) for n in best)

    def _fits(self, typed: list[str]) -> NDArray[np.float64]:
        """Return how well each item fits the worst of the words that were typed."""
        fits = np.full(len(self._items), 1.0 if typed and self._words else 0.0)
        if not (typed and self._words):
            return fits
        like = cdist(typed, self._words, scorer=fuzz.ratio, score_cutoff=LIKE) / 100.0
        for word, row in zip(typed, like, strict=True):
            self._parts(word, row)
            one = np.zeros(len(self._items))
            for n in np.flatnonzero(row):
                np.maximum.at(one, self._leads[n], row[n])
            fits = np.where(one > 0.0, fits + one, 0.0) * (fits > 0.0)
        return np.where(fits > 0.0, (fits - 1.0) / len(typed), 0.0)

    def _parts(self, typed: str, like: NDArray[Any]) -> None:
        """Let words fit of which what was typed is a part; figures and initials only so."""
        only_so = typed.isdecimal() or len(typed) == 1
        for n, word in enumerate(self._words):
            if typed == word:
                like[n] = 1.0
            elif word.startswith(typed):
                like[n] = BEGINS
            elif not only_so and typed in word:
                like[n] = max(like[n], PART)
            elif only_so:
                like[n] = 0.0

    def _keys(self, item: Item[Any]) -> Iterator[tuple[str, ...]]:
        lies = item.details.grave
        if lies is not None and (number := self._plan.items[lies].number):
            yield key_of(number)
        if item.kind == memorial.KIND and item.number:
            yield key_of(item.number)

    def _found(self, n: int, score: float) -> FoundGrave:
        item = self._items[n]
        lies: ItemId | None = item.details.grave
        if item.kind == burial.KIND:
            text = entry_called(item)
        else:
            text = f"{item.called()}: {' '.join(item.details.inscription.split())}"
        where = "" if lies is None else f" – {self._plan.items[lies].called()}"
        return FoundGrave(
            item=item.id, grave=lies, text=f"{text}{where}", score=round(score, 4)
        )


def ready(plan: Plan) -> WordTable:
    """Return a plan's register, ready to be looked through."""
    return WordTable(plan)


def _told(plan: Plan) -> Iterator[tuple[Item[Any], set[str]]]:
    for entry in plan.of(burial.KIND):
        told = entry.details
        texts = (told.surname, told.forenames, told.died[:4], told.buried[:4], entry.number)
        yield entry, _all_words((*texts, told.abode, told.place_written))
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
