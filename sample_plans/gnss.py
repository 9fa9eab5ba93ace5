"""The point file of the sample: one morning with a satellite receiver, by corrections (RTK).

Latitude and longitude are those of ETRS89, to eight decimals, which is a millimetre. All marks
were measured again, and what had come since: a pin, two pegs, a young rowan, a new hedge.
"""

import csv
import io
from collections.abc import Iterator

import numpy as np
from marks import marks
from shapely import get_coordinates
from shapely.geometry.base import BaseGeometry
from story import GRID, place
from trees import trees

from plan_editor.plan.item import Basis
from plan_editor.survey.grids.crossing import ETRS89, crossed

FILE = "harrowmere-gnss.csv"

DAY = "2026-04-18"

SHEET_OF_WATER_M = 46.9
"""How far sea level lies above the ellipsoid about there; the ground is metres higher."""

NEW = (
    ("M15", place(38.0, -36.5), "MARK Steel pin in the footing of the south wall"),
    ("P1", place(24.0, 24.0), "PEG"),
    ("P2", place(33.0, 25.5), "PEG"),
    ("T31", place(36.5, 22.0), "TREE rowan"),
    ("1", place(40.2, 20.0), "HEDGE1 hawthorn"),
    ("2", place(40.8, 24.4), "HEDGE1"),
    ("3", place(40.1, 28.7), "HEDGE1"),
)
"""What is not on the plan yet: name, place in metres about the plan's origin, code."""


def places() -> tuple[tuple[str, tuple[float, float], str], ...]:
    """Return every point that was measured: name, place about the plan's origin, code."""
    veterans = (t for t in trees(Basis()) if t.details.veteran)
    old = [(m.number, _at(m.shape), f"MARK {m.details.description}") for m in marks()]
    old += [(t.number, _at(t.shape), f"TREE {t.details.species}") for t in veterans]
    return (*old, *NEW)


def gnss_file() -> bytes:
    """Return the file."""
    text = io.StringIO(newline="")
    rows = csv.writer(text, lineterminator="\n")
    rows.writerow(
        ("point", "latitude", "longitude", "ellipsoidal height", "sd", "code", "date")
    )
    rows.writerows(_rows())
    return text.getvalue().encode("utf-8")


def _rows() -> Iterator[tuple[str, ...]]:
    told = places()
    there = np.array([at for _, at, _ in told]).round(3) + np.array((GRID.east, GRID.north))
    found = crossed(there, source=GRID.crs, target=ETRS89)
    for n, ((name, _, code), lon, lat) in enumerate(
        zip(told, found.east, found.north, strict=True)
    ):
        height = SHEET_OF_WATER_M + 6.0 + (n * 7 % 10) / 10
        sd = 0.012 + (n * 3 % 5) / 1000
        yield name, f"{lat:.8f}", f"{lon:.8f}", f"{height:.2f}", f"{sd:.3f}", code, DAY


def _at(shape: BaseGeometry | None) -> tuple[float, float]:
    east, north = get_coordinates(shape)[0]
    return float(east), float(north)
