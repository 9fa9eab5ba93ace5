"""By what somebody is known, and whether words name that person."""

import re
import unicodedata
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

from plan_editor.plan.item import Item, ItemId

_TITLES = frozenset(
    ("mr", "mrs", "miss", "ms", "mx", "dr", "rev", "revd", "reverend", "canon", "sir", "lady")
)
_LINKS = frozenset(("and", "for", "from", "by", "to", "with", "of", "the"))
_PARTICLES = frozenset(("van", "der", "den", "de", "du", "la", "le", "von", "st"))
"""They belong to a surname, and tell nobody apart."""

_NEAR = 3
"""So many words before a surname are looked through for a forename."""

_LEAST_NUMBER, _LOCAL = 5, 6
"""Figures that a telephone number has at least; that its end has, dialled without the code."""

_LEAST = 3
"""Letters of a word that tells an address apart."""

_PARTS = frozenset(("flat", "unit", "apartment", "room", "floor", "house"))
_STREETS = frozenset(
    ("street", "road", "lane", "close", "avenue", "drive", "way", "row", "green", "hill")
)

_WORD = re.compile(r"[^\W_]+(?:-[^\W_]+)*")
_GENITIVE = re.compile(r"['’]s\b|['’]", re.IGNORECASE)
_NUMBER = re.compile(r"\+?\(?\d[\d \t().-]{3,}\d")
_ABROAD = re.compile(r"^(?:\+|00)44\D*0?")
_MAIL = re.compile(r"[^\s@<>,;:()\"]+@[^\s@<>,;:()\"]+[^\s@<>,;:()\".]")
_POSTCODE = re.compile(r"\b[A-Z]{1,2}\d[A-Z\d]?\s*\d[A-Z]{2}\b", re.IGNORECASE)
"""As British addresses have it; a whole street shares one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Person:
    """Somebody to be forgotten.

    Args:
        id: of the contact.
        surname: in small letters.
        forenames: and initials, in small letters, in their order.
        numbers: of telephones, figures alone.
        mails: e-mail addresses in small letters.
        lines: of the address, each as its words in small letters.
        once: ids of things that pointed to the contact at some time, as the log has it.
        corrected: ids of things whose words named the person at some time, and do so no longer.
    """

    id: ItemId
    surname: str = ""
    forenames: tuple[str, ...] = ()
    numbers: frozenset[str] = frozenset()
    mails: frozenset[str] = frozenset()
    lines: tuple[tuple[str, ...], ...] = ()
    once: frozenset[ItemId] = frozenset()
    corrected: frozenset[ItemId] = frozenset()

    def is_named_in(self, text: str) -> bool:
        """Return whether a text holds the whole name, telephone, e-mail or address line.

        A whole name is the surname with a forename or an initial; a surname alone is others'
        too.
        """
        written = _written(text)
        words = [word.casefold() for word in written]
        return (
            any(self._is_whole(written, words, at) for at in self._surnames(words))
            or any(_within(line, words) for line in self.lines)
            or any(n in m or _ends(n, m) for m in _numbers(text) for n in self.numbers)
            or not self.mails.isdisjoint(_mails(text))
        )

    def may_be_named_in(self, text: str) -> bool:
        """Return whether a text names the person, or addresses somebody of that surname."""
        if not text:
            return False
        words = [word.casefold() for word in _written(text)]
        addressed = any(at and words[at - 1] in _TITLES for at in self._surnames(words))
        return addressed or self.is_named_in(text)

    def is_pointed_to_by(self, item: Item[Any]) -> bool:
        """Return whether a thing points to the contact."""
        return any(getattr(item.details, d.name) == self.id for d in item.kind.references())

    def _surnames(self, words: Sequence[str]) -> list[int]:
        return [at for at, word in enumerate(words) if word == self.surname]

    def _is_whole(self, written: Sequence[str], words: Sequence[str], at: int) -> bool:
        """Return whether a surname at some place has one of the person's forenames with it."""
        first = {part for f in self.forenames[:1] for part in (f, f[0])}
        others = {f for f in self.forenames[1:] if len(f) > 1}
        for back in range(at - 1, max(at - 1 - _NEAR, -1), -1):
            if words[back] in first | others:
                return True
            if not (written[back][0].isupper() or words[back] == "and"):
                break
        # “Example, Jane”, but not “Tom Example, Jane Other”
        begins = at == 0 or words[at - 1] in _LINKS
        after = [w for w in words[at + 1 : at + 1 + _NEAR] if w not in _TITLES]
        return begins and not first.isdisjoint(after[:1])


def person_of(item: Item[Any], once: Iterable[ItemId] = ()) -> Person:
    """Return by what somebody is known, from the contact."""
    held = item.details
    surname, forenames = _name(held.name)
    return Person(
        id=item.id,
        surname=surname,
        forenames=forenames,
        numbers=frozenset(_numbers(held.telephone)),
        mails=frozenset(_mails(held.email)),
        lines=tuple(_lines(held.address)),
        once=frozenset(once),
    )


def _name(name: str) -> tuple[str, tuple[str, ...]]:
    """Return surname and forenames of “Mrs Jane T. Example” or “Example, Jane T.”."""
    before, _, after = name.partition(",")
    *rest, surname = _telling_name(before) or [""]
    return surname, (*rest, *_telling_name(after))


def _telling_name(part: str) -> list[str]:
    words = (word.casefold() for word in _written(part))
    return [w for w in words if w not in _TITLES | _LINKS | _PARTICLES]


def _lines(address: str) -> Iterable[tuple[str, ...]]:
    """Return those lines of an address that tell it apart: house and street, or a house."""
    carried: tuple[str, ...] = ()
    first = True
    for part in re.split(r"[\n,;]", _POSTCODE.sub(" ", address)):
        words = tuple(word.casefold() for word in _written(part))
        telling = [w for w in words if len(w) >= _LEAST and w.isalpha() and w not in _PARTS]
        if not telling:  # “9,” or “Flat 2”: the next part belongs to it
            carried = words or carried
            continue
        if not _has_figure(words):
            words = (*carried, *words)
        named = first and len(telling) > 1 and words[-1] not in _STREETS
        if _has_figure(words) or named:
            yield words
        carried, first = (), False


def _has_figure(words: Iterable[str]) -> bool:
    return any(c.isdigit() for word in words for c in word)


def _within(line: Sequence[str], words: Sequence[str]) -> bool:
    starts = range(len(words) - len(line) + 1)
    return any(tuple(words[at : at + len(line)]) == tuple(line) for at in starts)


def _numbers(text: str) -> list[str]:
    """Return the telephone numbers in a text, figures alone; +44 is the 0 of home."""
    found = (_ABROAD.sub("0", m.group().lstrip("(")) for m in _NUMBER.finditer(text))
    figures = ("".join(c for c in one if c.isdigit()) for one in found)
    return [one for one in figures if len(one) >= _LEAST_NUMBER]


def _ends(number: str, written: str) -> bool:
    return len(written) >= _LOCAL and number.endswith(written)


def _mails(text: str) -> list[str]:
    return [m.group().casefold() for m in _MAIL.finditer(text)]


def _written(text: str) -> list[str]:
    """Return the words of a text as they are written, without the s of a genitive."""
    plain = unicodedata.normalize("NFKC", text).replace("\u2010", "-")  # a hyphen of its own
    return _WORD.findall(_GENITIVE.sub("", plain))
