"""A line of a field book as one would write it: the other way round from ``book_lines``."""

from collections.abc import Mapping

from plan_editor.survey.books.field_book import BookLine, Sort


def texts_of(line: BookLine) -> Mapping[str, str]:
    """Return the texts of a line by the names of the columns; what is not said is left out.

    Lengths are in metres with their unit, so that they read the same in a book kept in feet;
    angles are in degrees. Read again they give the line, to a tenth of a millimetre.
    """
    told = {
        "type": line.sort.value,
        "from": line.start,
        "to": line.end,
        "point": line.point,
        "distance": _length(line.distance),
        "offset": _length(None if line.aside is None else abs(line.aside)),
        "side": _side(line),
        "bearing": _number(line.bearing),
        "angle": _number(line.angle),
        "back": line.back,
        "slope": _number(line.slope_deg),
        "rise": _length(line.rise),
        "sd": _length(line.sd),
        "code": line.code,
        "out": "yes" if line.left_out else "",
        "remarks": line.remarks,
    }
    return {name: text for name, text in told.items() if text}


def _side(line: BookLine) -> str:
    if line.sort is Sort.OFFSET and line.aside is not None:
        return "left" if line.aside < 0 else "right"
    return {True: "right", False: "left", None: ""}[line.right]


def _length(metres: float | None) -> str:
    return "" if metres is None else f"{_number(metres)} m"


def _number(number: float | None) -> str:
    return "" if number is None else f"{number:.4f}".rstrip("0").rstrip(".")
