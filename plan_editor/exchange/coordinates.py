"""Coordinates as people and instruments write them: metres, and degrees in any dress."""

import re
from math import isfinite

_BLANK = "[ \u00a0\u2007\u2009\u202f]"
_LETTER = re.compile(r"(?i)^[EN]\s*(?=[-+\d])|(?<=[\d.])\s*[EN]$")
_UNIT = re.compile(r"(?<=[\d.])\s*(?P<unit>[a-z'\"′″]+)\.?$", re.IGNORECASE)
_METRES = frozenset({"m", "metre", "metres", "meter", "meters"})
_LOST = re.compile(r"[+-]?\d+(?:[.,]\d*)?e[+-]?\d+", re.IGNORECASE | re.ASCII)
_PLAIN = re.compile(r"[+-]?(?:\d+\.?\d*|\.\d+)", re.ASCII)
_GROUPED = re.compile(r"[+-]?\d{1,3}(?:,\d{3})+(?:\.\d*)?", re.ASCII)
_SPACED = re.compile(rf"[+-]?\d{{1,3}}(?:{_BLANK}\d{{3}})+(?:[.,]\d*)?", re.ASCII)
_COMMA = re.compile(r"[+-]?\d+,\d+", re.ASCII)

_SIGNS = str.maketrans({"º": "°", "˚": "°", "′": "'", "’": "'", "″": '"', "”": '"', "−": "-"})
_DEGREES = re.compile(
    r"""(?P<front>[NSEW])?\s*(?P<sign>[+-])?\s*(?P<degrees>\d+(?:[.,]\d+)?)
    (?:\s*°|\s*[°:\s]\s*(?P<minutes>\d{1,2}(?:[.,]\d+)?)
    (?:\s*'|\s*[':\s]\s*(?P<seconds>\d{1,2}(?:[.,]\d+)?)\s*(?:"|'')?)?)?
    \s*(?P<back>[NSEW])?""",
    re.IGNORECASE | re.VERBOSE | re.ASCII,
)
_DRESSED = re.compile(r"[°:'\"NSEW]|\d\s+\d", re.IGNORECASE)
_SHORT = 40


def metres_of(text: str) -> float:
    """Return a coordinate or height in metres: ``553112.48``, ``553,112.48``, ``E 553112,48``.

    Raises:
        ValueError: it is none, or may be read in two ways; the text says so.
    """
    bare = _LETTER.sub("", text.strip().replace("−", "-"))
    if _LOST.fullmatch(bare):
        raise ValueError(
            f"“{_shown(text)}” has lost its last figures; format the column as numbers with"
            " three decimals and save it again"
        )
    value = float(_with_point(_without_unit(bare, text), text))
    if not isfinite(value):
        raise ValueError(f"“{_shown(text)}” is no number")
    return value


def degrees_of(text: str) -> tuple[float, str]:
    """Return an angle in degrees and the letter beside it, if any: ``52°39'27.25"N``.

    South and west are negative.

    Raises:
        ValueError: it is no angle; the text says so.
    """
    found = _DEGREES.fullmatch(text.strip().translate(_SIGNS))
    if found is None or (found["front"] and found["back"]):
        raise ValueError(f"“{_shown(text)}” is no angle; write 52.657571 or 52°39'27.25\"N")
    parts = [float((found[n] or "0").replace(",", ".")) for n in _PARTS]
    _refuse_parts(found, parts, text)
    letter = (found["front"] or found["back"] or "").upper()
    if found["sign"] == "-" and letter:
        raise ValueError(f"“{_shown(text)}” has both a sign and the letter {letter}")
    south = found["sign"] == "-" or letter in ("S", "W")
    degrees = parts[0] + parts[1] / 60 + parts[2] / 3600
    return (-degrees if south else degrees), letter


def is_dressed(text: str) -> bool:
    """Return whether a cell is an angle and says so, by signs, letters or parts."""
    if not _DRESSED.search(text):
        return False
    try:
        degrees_of(text)
    except ValueError:
        return False
    return True


_PARTS = ("degrees", "minutes", "seconds")


def _refuse_parts(found: re.Match[str], parts: list[float], text: str) -> None:
    if parts[1] >= 60 or parts[2] >= 60:
        raise ValueError(f"“{_shown(text)}” has 60 minutes or seconds, or more")
    broken = [n for n in _PARTS if found[n] and not found[n].isdigit()]
    last = [n for n in _PARTS if found[n]][-1]
    if broken and broken != [last]:
        raise ValueError(f"“{_shown(text)}” has a fraction before its last part")


def _without_unit(bare: str, text: str) -> str:
    if (found := _UNIT.search(bare)) is None:
        return bare
    if found["unit"].lower() not in _METRES:
        raise ValueError(f"“{_shown(text)}” is not in metres")
    return bare[: found.start()]


def _with_point(bare: str, text: str) -> str:
    if _PLAIN.fullmatch(bare):
        return bare
    if _GROUPED.fullmatch(bare):
        if bare.count(",") == 1 and "." not in bare:
            raise ValueError(
                f"“{_shown(text)}” may be read in two ways; take the comma away, or put a"
                " point in its place"
            )
        return bare.replace(",", "")
    if _SPACED.fullmatch(bare):
        return re.sub(_BLANK, "", bare).replace(",", ".")
    if _COMMA.fullmatch(bare):
        return bare.replace(",", ".")
    raise ValueError(f"“{_shown(text)}” is no number")


def _shown(text: str) -> str:
    return text if len(text) <= _SHORT else f"{text[: _SHORT - 1]}…"
