"""Numbers by rule: a row's letter and a count, in either direction, with gaps or without."""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from itertools import pairwise

_NUMBER = re.compile(r"(?s)(.*?)([0-9]{1,9})")

LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"
"""Letters of rows. I and O are left out, since they are read as 1 and 0: so ISO 5457 has it
for the letters along the edges of a drawing."""


class Gaps(StrEnum):
    """What becomes of numbers for which there is no grave."""

    CLOSED = "no gaps"
    AS_NUMBERED = "the gaps that there are"
    AS_THEY_LIE = "a number for each empty space"


@dataclass(frozen=True, slots=True, kw_only=True)
class NumberRule:
    """How things in a row are numbered.

    Args:
        prefix: what stands before the count, with any blank: ``C ``.
        first: the first count.
        step: from one to the next; less than nothing counts down.
        digits: how many digits there are at least, with noughts before: 2 for ``C 04``.
    """

    prefix: str = ""
    first: int = 1
    step: int = 1
    digits: int = 0

    def number(self, place: int) -> str:
        """Return the number at a place of the row, 0 for the first.

        Raises:
            ValueError: it would be less than nothing.
        """
        count = self.first + place * self.step
        if count < 0:
            raise ValueError(f"the count would come to {count}")
        return f"{self.prefix}{count:0{self.digits}d}"

    def numbers(self, count: int) -> tuple[str, ...]:
        """Return the numbers of so many things.

        Raises:
            ValueError: one would be less than nothing.
        """
        return tuple(self.number(n) for n in range(count))


def rule_from(number: str) -> NumberRule | None:
    """Return the rule by which a number is the first; None where it ends in no count."""
    found = _NUMBER.fullmatch(number.strip())
    if found is None:
        return None
    prefix, count = found.groups()
    return NumberRule(
        prefix=prefix, first=int(count), digits=len(count) if count.startswith("0") else 0
    )


def count_of(number: str) -> int | None:
    """Return the count in which a number ends, or None."""
    rule = rule_from(number)
    return None if rule is None else rule.first


def going_on(numbers: Sequence[str]) -> NumberRule | None:
    """Return the rule by which a row goes on after its last number.

    Args:
        numbers: in order along the row; those that are empty or end in no count tell nothing.
    """
    last = rule_from(numbers[-1]) if numbers else None
    if last is None:
        return None
    counts = [c for c in map(count_of, numbers) if c is not None]
    falling = sum(b < a for a, b in pairwise(counts)) > sum(b > a for a, b in pairwise(counts))
    step = -1 if falling else 1
    return replace(last, first=last.first + step, step=step)


def renumbered(
    rule: NumberRule, numbers: Sequence[str], spaces: Sequence[int], gaps: Gaps
) -> tuple[str, ...]:
    """Return the new numbers of a row.

    Args:
        rule: of the first.
        numbers: those that there are, in the order in which the new ones run.
        spaces: how many spaces each thing stands after the first, in the same order.
        gaps: what becomes of gaps.

    Raises:
        ValueError: a number would be less than nothing, or gaps between numbers are to be kept
            where one has none; the text says which.
    """
    if gaps is Gaps.CLOSED:
        return rule.numbers(len(numbers))
    places = spaces if gaps is Gaps.AS_THEY_LIE else _counted_from_first(numbers)
    return tuple(rule.number(n) for n in places)


def next_letter(taken: Iterable[str]) -> str:
    """Return the letter of the next row: the one after the last that is taken, ``AA`` after Z.

    Args:
        taken: letters of rows; what is no such letter tells nothing.
    """
    places = [p for p in map(_place, taken) if p is not None]
    return _letter(max(places, default=-1) + 1)


def _counted_from_first(numbers: Sequence[str]) -> list[int]:
    found: list[int] = []
    for number in numbers:
        count = count_of(number)
        if count is None:
            raise ValueError(f"“{number}” ends in no count" if number else "one has no number")
        found.append(count)
    falling = found[-1] < found[0]
    return [found[0] - c if falling else c - found[0] for c in found]


def _place(letter: str) -> int | None:
    """Return which row a letter stands for, from 0, as columns of a table are counted."""
    if not letter or any(part not in LETTERS for part in letter):
        return None
    place = 0
    for part in letter:
        place = place * len(LETTERS) + LETTERS.index(part) + 1
    return place - 1


def _letter(place: int) -> str:
    found = ""
    place += 1
    while place > 0:
        place, part = divmod(place - 1, len(LETTERS))
        found = LETTERS[part] + found
    return found
