"""Names, ages and numbers of graves as registers and stones write them, brought to one form."""

import re
import unicodedata
from collections.abc import Iterator
from functools import lru_cache

ABBREVIATED = {
    "abm": "abraham",
    "alexr": "alexander",
    "andw": "andrew",
    "ann": "anne",
    "benj": "benjamin",
    "cath": "catherine",
    "chas": "charles",
    "danl": "daniel",
    "edwd": "edward",
    "eliz": "elizabeth",
    "elizth": "elizabeth",
    "fredk": "frederick",
    "geo": "george",
    "hy": "henry",
    "jas": "james",
    "jno": "john",
    "jos": "joseph",
    "margt": "margaret",
    "matt": "matthew",
    "nichs": "nicholas",
    "richd": "richard",
    "robt": "robert",
    "saml": "samuel",
    "susanna": "susannah",
    "thos": "thomas",
    "wm": "william",
    "xpher": "christopher",
}
"""Forenames as clerks shortened them. Common practice in English registers; from memory."""

_PIECES = re.compile(r"[^\W\d_]+|\d+")

_FILLERS = frozenset(
    _PIECES.findall(
        "row no nos number grave plot section sect sec space line in of the new old at and"
    )
)
"""Words that stand about a grave's number and are no part of it."""

_MEASURES = frozenset(
    _PIECES.findall(
        "ft feet foot inches inch m metre metres yd yds yard yards paces steps from"
    )
)
"""A figure before one of these is a distance."""

_MOST_PIECES = 3

Key = tuple[str, ...]
"""A grave's number in pieces, letters before figures: ``("c", "14")``."""


def name_words(text: str) -> tuple[str, ...]:
    """Return the words of a name: small letters without accents, short forms in full."""
    plain = unicodedata.normalize("NFKD", text.casefold().replace("'", "").replace("’", ""))
    bare = "".join(c for c in plain if not unicodedata.combining(c))
    return tuple(ABBREVIATED.get(w, w) for w in re.findall(r"[^\W\d_]+", bare))


def age_in_years(text: str) -> int | None:
    """Return an age as a register has it in whole years, or None where it has no figure."""
    if not (found := re.search(r"\d{1,3}", text)):
        return 0 if "infant" in text.casefold() else None
    small = re.search(r"week|month|day|hour", text.casefold())
    return 0 if small else int(found[0])


def key_of(number: str) -> Key:
    """Return a grave's number in pieces: ``C 14``, ``C.14`` and ``c014`` are one."""
    pieces = [p.casefold().lstrip("0") or "0" for p in _PIECES.findall(number)]
    return tuple(sorted(pieces, key=str.isdecimal))


def keys_in(place: str) -> tuple[Key, ...]:
    """Return what may be a grave's number in the register's words, the longest first.

    A lone figure counts only where nothing else is written: ``14`` and ``No. 14``, but not
    ``by the yew, 14``; a figure before feet or paces is none.
    """
    pieces = [p.casefold() for p in _PIECES.findall(place)]
    bare = [p for p in pieces if p not in _FILLERS]
    found = dict.fromkeys(_keys(bare))
    return tuple(sorted(found, key=lambda k: -len(k)))


def _keys(pieces: list[str]) -> Iterator[Key]:
    for long in range(min(_MOST_PIECES, len(pieces)), 0, -1):
        for start in range(len(pieces) - long + 1):
            part = pieces[start : start + long]
            after = pieces[start + long : start + long + 1]
            measured = part[-1].isdecimal() and after and after[0] in _MEASURES
            figures = sum(p.isdecimal() for p in part)
            whole = long == len(pieces)
            if figures and not measured and (whole or figures < long):
                yield key_of(" ".join(part))


@lru_cache(maxsize=50_000)
def slips(key: Key) -> frozenset[Key]:
    """Return a number with any one sign hidden, and with any two neighbours changed round.

    Two numbers of which one is a slip of the pen for the other share one of these.
    """
    return frozenset(_slips(key))


def _slips(key: Key) -> Iterator[Key]:
    for n, piece in enumerate(key):
        for at in range(len(piece)):
            yield *key[:n], f"{piece[:at]}*{piece[at + 1 :]}", *key[n + 1 :]
        for at in range(len(piece) - 1):
            both = "".join(sorted(piece[at : at + 2]))  # the same for either order
            yield *key[:n], f"{piece[:at]}<{both}>{piece[at + 2 :]}", *key[n + 1 :]
