"""What stands in a cell of a register, taken as what the plan keeps of it, with any doubt."""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from plan_editor.edits.corrections import DETAILS
from plan_editor.exchange.register_columns import COLUMNS, NAME
from plan_editor.records.written_dates import written_date

LONGEST = 1_000
"""No column of a register but the remarks holds more letters."""

LONGEST_REMARKS = 20_000

OLDEST = 115
"""Years; whoever is said to have been older is worth a look. Our own figure."""

_ERRORS = frozenset({"#N/A", "#REF!", "#VALUE!", "#NAME?", "#DIV/0!", "#NUM!", "#NULL!"})
_TAG = re.compile(r"</?[a-z!][^<>]*>", re.IGNORECASE)
_MISREAD = re.compile(
    "[\u00c3\u00c2][\u0080-\u00bf\u0152-\u017e\u2018-\u203a\u20ac\u2122]|\u00e2\u20ac|\ufffd"
)
"""UTF-8 that was read as Windows-1252: the first of its two bytes is C2 or C3, or E2 82."""
_FORMULA = re.compile(r"[=+@]|-\D")
_APOSTROPHE = re.compile(r"'+\s*[=+\-@]")
_SORTS: Mapping[str, str] = {
    "coffin": "coffin",
    "body": "coffin",
    "burial": "coffin",
    "full burial": "coffin",
    "b": "coffin",
    "ashes": "ashes",
    "cremated remains": "ashes",
    "cremation": "ashes",
    "cr": "ashes",
    "c": "ashes",
    "unknown": "unknown",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Taken:
    """What a cell comes to.

    Args:
        columns: names of details, each with its value.
        doubt: what is doubtful about it; "" where nothing is.
        words: what is kept as a remark, because the value does not say all that was written.
        figures: whether it is a date whose day and month could change places.
    """

    columns: tuple[tuple[str, Any], ...] = ()
    doubt: str = ""
    words: str = ""
    figures: bool = False


def taken(name: str, cell: str) -> Taken:
    """Return what a cell comes to under a column of that name."""
    text = without_apostrophe(cell)
    if text in ("", "-", "–"):
        return Taken()
    if text.upper() in _ERRORS:
        return Taken(doubt=f"{text} is what a spreadsheet writes where it could not reckon")
    longest = LONGEST_REMARKS if name == "remarks" else LONGEST
    if len(text) > longest:
        return Taken(doubt=f"it is longer than {longest:,} letters and was not taken")
    return _READ.get(name, _text)(name, text)


def without_apostrophe(cell: str) -> str:
    """Return a cell without the sign that keeps programs from taking it as a formula."""
    return cell[1:].strip() if _APOSTROPHE.match(cell) else cell


def with_apostrophe(text: str) -> str:
    """Return a text that is to be read again as it is: see ``without_apostrophe``."""
    return f"'{text}" if _APOSTROPHE.match(" ".join(text.split())) else text


def _text(name: str, text: str) -> Taken:
    return Taken(columns=((name, text),), doubt=_odd(name, text))


def _odd(name: str, text: str) -> str:
    if _TAG.search(text):
        return "marks of a web page stand in it"
    if _MISREAD.search(text):
        return "some letters may have been read wrongly: save the table as UTF-8"
    if _FORMULA.match(text):
        return "it begins like a formula, and is taken as text"
    if name == "age" and (found := re.match(r"\d+", text)) and int(found[0][:9]) > OLDEST:
        return f"{found[0][:9]} is more than the {OLDEST} years that anyone is known to reach"
    return ""


def _whole_name(name: str, text: str) -> Taken:
    """Return a name taken apart: the surname is before a comma, or the last word."""
    odd = _odd(name, text)
    before, comma, after = (part.strip() for part in text.partition(","))
    if comma and before and after:
        return Taken(columns=(("surname", before), ("forenames", after)), doubt=odd)
    words = text.strip(" ,").split()
    if len(words) < 2:
        doubt = odd or "one word is taken as the surname"
        return Taken(columns=(("surname", " ".join(words)),), doubt=doubt)
    pair = (("surname", words[-1]), ("forenames", " ".join(words[:-1])))
    return Taken(columns=pair, doubt=odd)


def _date(name: str, text: str) -> Taken:
    read = written_date(text)
    words = f"{COLUMNS[name]} as written: {text}" if read.doubt and text != read.iso else ""
    told = ((name, read.iso),) if read.iso else ()
    return Taken(columns=told, doubt=read.doubt, words=words, figures=read.figures)


def _sort(name: str, text: str) -> Taken:
    plain = " ".join(re.sub(r"[.()]", "", text.casefold()).split())
    sort = _SORTS.get(plain)
    if own := next((c for c in DETAILS[name].choices if c == sort), None):
        return Taken(columns=((name, own),))
    return _only_words(name, text, "is neither coffin nor ashes")


def _belief(name: str, text: str) -> Taken:
    if own := next((c for c in DETAILS[name].choices if c == text.casefold()), None):
        return Taken(columns=((name, own),))
    return _only_words(name, text, "is neither certain, probable nor doubtful")


def _depth(name: str, text: str) -> Taken:
    about = DETAILS[name].about
    bare = re.sub(r"\s*(?:m|metres?)\.?$", "", text.casefold())
    if not re.fullmatch(r"\d{1,3}(?:\.\d+)?", bare, re.ASCII):
        return _only_words(name, text, "is no depth in metres")
    depth = float(bare)
    if not (about.low or 0.0) <= depth <= (about.high or depth):
        return _only_words(name, text, f"is beyond {about.high:g} m")
    return Taken(columns=((name, depth),))


def _only_words(name: str, text: str, why: str) -> Taken:
    short = text if len(text) <= 40 else f"{text[:39]}…"
    return Taken(doubt=f"“{short}” {why}", words=f"{COLUMNS[name]} as written: {text}")


_READ: Mapping[str, Callable[[str, str], Taken]] = {
    NAME: _whole_name,
    "buried": _date,
    "died": _date,
    "sort": _sort,
    "belief": _belief,
    "depth_m": _depth,
}
