"""What stones say of those who lie there: the people of an inscription, with years and ages."""

import re
from dataclasses import dataclass

from plan_editor.records.written import name_words

_NEXT = re.compile(r"\balso\b|\blikewise\b|\band of\b|\band their\b|;", re.IGNORECASE)
"""Where an inscription comes to the next person."""

_YEAR = re.compile(r"\b(1[5-9]\d\d|20\d\d)\b")
_AGED = re.compile(r"\b(?:aged?|aet\.?|aetat\.?)\s+(\d{1,3})\b", re.IGNORECASE)
_IN_YEAR = re.compile(r"\bin (?:his|her) (\d{1,3})(?:st|nd|rd|th) year", re.IGNORECASE)
_ELSEWHERE = re.compile(
    r"\b(?:buried|interred|lies|rests) (?:at|in|elsewhere)\b|\blost at sea\b|\bkilled in\b"
    r"|\bfell (?:at|in)\b|\bno known grave\b",
    re.IGNORECASE,
)
_NO_NAMES = frozenset(
    name_words(
        "in loving memory of the who died departed this life aged age years also and his "
        "her their wife husband son daughter above sacred to be here lies rest peace at "
        "on a dear beloved january february april june july august september october "
        "november december"
    )
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Person:
    """One person of an inscription.

    Args:
        words: what may be the names.
        years: every year that stands by them, of birth or death.
        ages: every age, in years.
        elsewhere: whether the stone says that they lie in other ground.
    """

    words: frozenset[str]
    years: frozenset[int]
    ages: frozenset[int]
    elsewhere: bool = False


def people(inscription: str) -> tuple[Person, ...]:
    """Return the people of an inscription, in its order."""
    return tuple(p for part in _NEXT.split(inscription) if (p := _person(part)).words)


def _person(part: str) -> Person:
    ages = [int(a) for a in _AGED.findall(part)]
    ages += [max(int(a) - 1, 0) for a in _IN_YEAR.findall(part)]
    return Person(
        words=frozenset(w for w in name_words(part) if w not in _NO_NAMES),
        years=frozenset(int(y) for y in _YEAR.findall(part)),
        ages=frozenset(ages),
        elsewhere=_ELSEWHERE.search(part) is not None,
    )
