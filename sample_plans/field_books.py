"""Two field books of the sample: one that is on the plan, and one that waits to be taken in.

The first, of September 2025, fixes four nails in the grass. The second, of April 2026, lies
beside the plan as a file, and has the faults that real ones have: a tape that was misread by a
whole metre, and a point that is tied from two marks which nearly stand in line with it.
"""

import csv
import io
from collections.abc import Iterable, Mapping
from math import hypot
from random import Random

from marks import marks
from shapely import get_coordinates
from story import GRID, MIDDLE, dice

from plan_editor.edits.field_books import TakeInFieldBook
from plan_editor.geometry.lengths import as_feet_and_inches
from plan_editor.plan.item import ItemId
from plan_editor.survey.adjustment.taping import usual
from plan_editor.survey.books.book_settings import BookSettings
from plan_editor.survey.books.whole_book import whole_book
from plan_editor.survey.grids.grid_facts import scale_factor

FILE = "harrowmere-ties.csv"
MISREAD_M = 1.0
"""By so much the tape from M4 to Q1 was misread."""

OBSERVER = "Churchwarden and sexton"

NAILS = {"N1": (38.0, 22.0), "N2": (56.0, 22.0), "N3": (70.0, 30.0), "N4": (34.0, 58.0)}
"""Where they were driven in, in metres about the plan's origin."""

TIES_2025 = {
    "N1": ("M3", "M4", "M10"),
    "N2": ("M4", "M5", "M6", "M11"),
    "N3": ("M6", "M5", "M7", "M13"),
    "N4": ("M8", "M2", "M14"),
}
CHECKS_2025 = (("N1", "N2"), ("N2", "N3"))

LATER = {"Q1": (48.0, 16.0), "Q2": (75.0, 20.0), "Q3": (93.17, 21.27), "T32": (47.3, 25.4)}
TIES_2026 = {
    "Q1": ("M10", "M11", "M4", "N1", "N2"),
    "Q2": ("N3", "N2", "M12"),
    "Q3": ("M12", "M13"),
}
CHECKS_2026 = (("Q1", "Q2"),)
IN_FEET = frozenset({"Q2"})
"""The sexton reads his own tape for it."""

DITCH = ((5.0, 2.10), (10.0, 2.85), (15.0, 3.40), (20.0, 3.25), (25.0, 2.40))
"""Along the base line M9 to M10, and to the left of it, in metres on the ground."""

COLUMNS = (
    "type",
    "from",
    "to",
    "point",
    "distance",
    "offset",
    "side",
    "rise",
    "code",
    "remarks",
)
Row = Mapping[str, str]


def taken_in() -> TakeInFieldBook:
    """Return the edit that takes the first book in."""
    chance = dice("field book 2025")
    rows = [
        _taped("tie", start, point, chance)
        for point, ties in TIES_2025.items()
        for start in ties
    ]
    rows += [_taped("check", *ends, chance) for ends in CHECKS_2025]
    book = whole_book(
        list(enumerate(rows, 2)),
        BookSettings(
            name="Field book 2025",
            date="2025-09-13",
            observer=OBSERVER,
            tape=usual().named("steel") or usual().tape,
        ),
    )
    return TakeInFieldBook(book=book, seed=ItemId("2025"))


def ties_file() -> bytes:
    """Return the second book as a CSV file."""
    text = io.StringIO(newline="")
    text.write("# Field book, second round: nails for the mowing plan and a sapling\n")
    text.write("book: Field book 2026\ndate 2026-04-25\n")
    text.write(f"observer {OBSERVER}\nunit metres\ntape steel\n")
    out = csv.DictWriter(text, COLUMNS, restval="", lineterminator="\n")
    out.writeheader()
    out.writerows(_rows_2026())
    return text.getvalue().encode("utf-8")


def _rows_2026() -> Iterable[Row]:
    chance = dice("field book 2026")
    for point, ties in TIES_2026.items():
        for start in ties:
            row = _taped("tie", start, point, chance, feet=point in IN_FEET)
            if (start, point) == ("M4", "Q1"):
                row["distance"] = f"{float(row['distance']) + MISREAD_M:.2f}"
            if (start, point) == ("M12", "Q3"):
                row |= {"side": "left", "remarks": "seen from M12 looking to M13"}
            if (start, point) == ("M12", "Q2"):
                row |= {"rise": "1' 4\"", "remarks": "tape held along the slope"}
            yield row
    yield _offset("N1", "N2", "T32", chance) | {"code": "TREE field maple"}
    for n, (along, aside) in enumerate(DITCH, 1):
        yield {
            "type": "offset",
            "from": "M9",
            "to": "M10",
            "point": f"D{n}",
            "distance": f"{along:.2f}",
            "offset": f"{aside + chance.gauss(0.0, 0.02):.2f}",
            "side": "left",
            "code": "DRY-DITCH1",
        }
    for ends in CHECKS_2026:
        yield _taped("check", *ends, chance)


def _taped(
    sort: str, start: str, end: str, chance: Random, *, feet: bool = False
) -> dict[str, str]:
    (e0, n0), (e1, n1) = _place(start), _place(end)
    metres = hypot(e1 - e0, n1 - n0) / scale_factor(GRID, *MIDDLE)
    if (start, end) == ("M12", "Q2"):
        metres = hypot(metres, 16 * 0.0254)
    tape = usual().named("steel") or usual().tape
    read = metres + chance.gauss(0.0, tape.sd(metres))
    far = {"tie": "point", "check": "to"}[sort]
    said = as_feet_and_inches(read) if feet else f"{read:.2f}"
    return {"type": sort, "from": start, far: end, "distance": said}


def _offset(start: str, end: str, point: str, chance: Random) -> dict[str, str]:
    (e0, n0), (e1, n1), (e, n) = (_place(name) for name in (start, end, point))
    length = hypot(e1 - e0, n1 - n0)
    along = ((e - e0) * (e1 - e0) + (n - n0) * (n1 - n0)) / length
    aside = ((e - e0) * (n1 - n0) - (n - n0) * (e1 - e0)) / length
    return {
        "type": "offset",
        "from": start,
        "to": end,
        "point": point,
        "distance": f"{along + chance.gauss(0.0, 0.02):.2f}",
        "offset": f"{abs(aside) + chance.gauss(0.0, 0.02):.2f}",
        "side": "right" if aside > 0 else "left",
    }


def _place(name: str) -> tuple[float, float]:
    there = {**NAILS, **LATER}
    for one in marks():
        east, north = get_coordinates(one.shape)[0].tolist()
        there[one.number] = (east, north)
    return there[name]
