"""Lengths in metres, millimetres, feet and inches: read and write."""

import math
import re
import unicodedata

FOOT = 0.3048
"""Metres to an international foot. Source: Weights and Measures Act 1985, schedule 1."""

INCHES_TO_A_FOOT = 12

INCH = FOOT / INCHES_TO_A_FOOT
"""Metres to an inch."""

METRIC = {
    "": 1.0,
    "m": 1.0,
    "metre": 1.0,
    "metres": 1.0,
    "cm": 0.01,
    "mm": 0.001,
}
"""Metres to each unit that may follow a number; without one it is metres."""

WHAT_IS_READ = "Write a length like 2.74, 274 cm, 2740 mm or 9' 4½\"."

_NUMBER = r"\d+(?:\.\d+)?|\.\d+"
_METRIC = re.compile(rf"(?P<number>{_NUMBER})\s*(?P<unit>[a-z]*)", re.ASCII)
_IMPERIAL = re.compile(
    rf"""(?:(?P<feet>{_NUMBER})\s*(?:'|ft|foot|feet)\s*-?\s*)?
    (?P<inches>{_NUMBER})?\s*(?P<fraction>\d+\s*/\s*\d+)?\s*(?P<mark>"|ins?|inch|inches)?""",
    re.ASCII | re.VERBOSE,
)
_TYPED_AS = str.maketrans(
    {"′": "'", "’": "'", "‘": "'", "\u00b4": "'", "″": '"', "”": '"', "“": '"'}
)


def metres(text: str) -> float:
    """Return a length as typed, in metres.

    Read are metres (``2.74``, ``2,74``, ``2.74 m``), ``274 cm``, ``2740 mm``, and feet and
    inches (``9' 4½"``, ``9 ft 4 1/2 in``, ``9'4``, ``9'``, ``4"``).

    Raises:
        ValueError: it is none of these; the text says what can be written.
    """
    length = _read(_plain(text))
    if length is None or not math.isfinite(length):
        raise ValueError(f"“{text.strip()}” is not a length. {WHAT_IS_READ}")
    return length


def as_metres(length: float, places: int = 2) -> str:
    """Return a length in metres as text: ``2.74 m``."""
    return f"{round(length, places) + 0.0:.{places}f} m"


def as_feet_and_inches(length: float, parts: int = 4) -> str:
    """Return a length in metres as feet and inches: ``9' 4½"``.

    Args:
        length: in metres.
        parts: of an inch, to which it is rounded: 4 or 2.
    """
    count = math.floor(abs(length) / INCH * parts + 0.5)
    inches, rest = divmod(count, parts)
    feet, inches = divmod(inches, 12)
    fraction = {0.0: "", 0.25: "¼", 0.5: "½", 0.75: "¾"}[rest / parts]
    sign = "-" if length < 0 and count else ""
    under_a_foot = f'{inches or ("" if fraction else 0)}{fraction}"'
    return f"{sign}{feet}' {inches}{fraction}\"" if feet else f"{sign}{under_a_foot}"


def _read(plain: str) -> float | None:
    """Return a length in metres, or None where it is none."""
    metric = _METRIC.fullmatch(plain)
    if metric is not None and metric["unit"] in METRIC:
        return float(metric["number"]) * METRIC[metric["unit"]]
    imperial = _IMPERIAL.fullmatch(plain)
    if imperial is None or not _says_what_it_counts(imperial):
        return None
    inches = float(imperial["inches"] or 0) + _share(imperial["fraction"])
    if imperial["feet"] and inches >= INCHES_TO_A_FOOT:
        return None
    return float(imperial["feet"] or 0) * FOOT + inches * INCH


def _plain(text: str) -> str:
    """Return the text in small letters with plain signs, a point for a comma, no ½.

    Raises:
        ValueError: a comma may stand for the point or for thousands.
    """
    if re.search(r"\d,\d{3}(?!\d)", text):
        raise ValueError(
            f"“{text.strip()}” can be read in two ways. Write a point before the decimals, and "
            "nothing between thousands."
        )
    plain = text.strip().casefold().translate(_TYPED_AS).replace("''", '"')
    spelt = "".join(_spelt(character) for character in plain)
    return re.sub(r"(?<=\d),(?=\d)", ".", spelt)


def _spelt(character: str) -> str:
    """Return ½ as `` 1/2``, other characters as they are."""
    if unicodedata.decomposition(character).startswith("<fraction>"):
        return " " + unicodedata.normalize("NFKD", character).replace("\u2044", "/")
    return character


def _says_what_it_counts(imperial: re.Match[str]) -> bool:
    """Return whether there are feet, or else inches with their mark."""
    inches = imperial["inches"] or imperial["fraction"]
    if imperial["feet"]:
        return bool(inches) or not imperial["mark"]
    return bool(inches and imperial["mark"])


def _share(fraction: str | None) -> float:
    """Return what a fraction such as 1/2 is.

    Raises:
        ValueError: it is not less than one.
    """
    if fraction is None:
        return 0.0
    upper, lower = (int(number) for number in fraction.split("/"))
    if upper >= lower:
        raise ValueError(f"“{fraction}” is not a part of an inch. {WHAT_IS_READ}")
    return upper / lower
