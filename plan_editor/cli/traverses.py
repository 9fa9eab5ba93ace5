"""The verb that works out a traverse by itself."""

from argparse import Namespace
from itertools import pairwise
from math import fsum
from typing import Any

from plan_editor.cli.field_books import area_facts, book_of, point_facts
from plan_editor.cli.table import columns
from plan_editor.cli.verb import Said
from plan_editor.commands.field_books import area_in_words
from plan_editor.commands.numbers import signed
from plan_editor.commands.traverses import Walked, walked
from plan_editor.survey.adjustment.observed import Found
from plan_editor.survey.adjustment.reliability import most_s0
from plan_editor.survey.adjustment.traverse import Point
from plan_editor.survey.books.field_book import same
from plan_editor.survey.grids.grid import Grid

BOWDITCH = "bowditch"
LEAST_SQUARES = "least-squares"
HERE = Grid()
BASIS = "Distances were taken as they are: no scale factor of a grid was put to them."
TOO_MUCH = (
    "It misses by more than its tapes and its bearings or angles explain. Look for a blunder"
    " and measure again: no sharing out makes such points true."
)
CAUTION = "Nobody digs by a point of a traverse before it was taped from a mark as well."


def traverse(asked: Namespace) -> Said:
    """Work out a traverse."""
    found = walked(book_of(asked))
    squares = asked.adjust == LEAST_SQUARES
    text = [_head(found), _points(found, squares=squares), *_sentences(found, squares=squares)]
    return Said(
        text="\n".join(filter(None, text)),
        facts=_facts(asked, found, squares=squares),
        code=1 if _misses_too_much(found) or (squares and _is_doubtful(found)) else 0,
    )


def _is_doubtful(found: Walked) -> bool:
    open_ones = any(p.east is None for p in found.adjusted.points)
    return open_ones or any(m.suspect for m in found.adjusted.measurements)


def _misses_too_much(found: Walked) -> bool:
    answer = found.adjusted
    return answer.s0 is not None and answer.s0 > most_s0(answer.dof)


def _head(found: Walked) -> str:
    done = found.traverse
    ratio = "none" if done.ratio is None else f"1:{done.ratio:.0f}"
    ends = "closed" if found.is_closed else f"from {found.start.name} to {found.legs[-1].end}"
    angles = (
        ""
        if done.angular_deg is None
        else f" The angles missed by {signed(done.angular_deg * 60, 1)} minutes."
    )
    return (
        f"Traverse of {len(found.legs)} legs, {ends}, {done.length:.3f} m: it missed by"
        f" {done.misclosure:.3f} m ({signed(done.misclosure_east, 3)} east,"
        f" {signed(done.misclosure_north, 3)} north), ratio {ratio}.{angles}"
    )


def _points(found: Walked, *, squares: bool) -> str:
    if squares:
        head: tuple[str, ...] = ("point", "E", "N", "sd E", "sd N", "")
        rows = [head, *map(_adjusted_row, _named(found))]
    else:
        rows = [("point", "E", "N"), *map(_row, _walked(found))]
    return f"\n{columns(rows)}\n"


def _row(point: Point) -> tuple[str, ...]:
    return point.name, f"{point.east:.3f}", f"{point.north:.3f}"


def _adjusted_row(point: Found) -> tuple[str, ...]:
    if point.east is None or point.north is None:
        return (point.name, "", "", "", "", str(point.standing))
    sds = (f"{sd or 0.0:.3f}" for sd in (point.sd_east, point.sd_north))
    return (point.name, f"{point.east:.3f}", f"{point.north:.3f}", *sds, str(point.standing))


def _sentences(found: Walked, *, squares: bool) -> list[str]:
    area = _area(found, squares=squares)
    return [
        "" if area is None else f"It encloses {area:.1f} m² ({area / 10_000:.4f} ha).",
        ""
        if found.given
        else f"The book gives no place of {found.start.name}: it was put at E"
        f" {found.start.east:.0f}, N {found.start.north:.0f}.",
        *(_checks(found) if squares else []),
        TOO_MUCH if _misses_too_much(found) else "",
        *map(area_in_words, found.runs),
        *found.notes,
        BASIS,
        CAUTION,
    ]


def _more(dof: int) -> str:
    return "1 measurement more" if dof == 1 else f"{dof} measurements more"


def _checks(found: Walked) -> list[str]:
    answer = found.adjusted
    s0 = (
        "Nothing checks anything."
        if answer.s0 is None
        else f"{_more(answer.dof)} than needed; s0 {answer.s0:.2f}, which is near 1 where"
        " nothing is wrong and the standard deviations are honest."
    )
    return [s0, *(a.text for a in found.advice)]


def _facts(asked: Namespace, found: Walked, *, squares: bool) -> dict[str, Any]:
    done, answer = found.traverse, found.adjusted
    facts: dict[str, Any] = {
        "file": asked.book,
        "book": found.book.name,
        "adjust": asked.adjust,
        "closed": found.is_closed,
        "length": done.length,
        "misclosure": done.misclosure,
        "misclosure_E": done.misclosure_east,
        "misclosure_N": done.misclosure_north,
        "ratio": done.ratio,
        "angular_misclosure_deg": done.angular_deg,
        "area": _area(found, squares=squares),
        "offset_areas": [area_facts(run) for run in found.runs],
        "notes": list(found.notes),
        "misses_too_much": _misses_too_much(found),
        "basis": BASIS,
        "caution": CAUTION,
    }
    if squares:
        return facts | {
            "points": [point_facts(p, HERE) for p in _named(found)],
            "dof": answer.dof,
            "s0": answer.s0,
            "advice": [a.text for a in found.advice],
        }
    return facts | {
        "points": [{"name": p.name, "E": p.east, "N": p.north} for p in _walked(found)],
        "legs": [
            {
                "from": line.start,
                "to": line.end,
                "distance": leg.metres,
                "adjusted_distance": length,
                "adjusted_bearing_deg": way,
            }
            for line, leg, (length, way) in zip(
                found.legs, found.measured, done.legs, strict=True
            )
        ],
    }


def _walked(found: Walked) -> list[Point]:
    """Return the points, the start of a closed traverse once."""
    points = found.traverse.points
    return list(points[:-1] if found.is_closed else points)


def _named(found: Walked) -> list[Found]:
    """Return the points as least squares has them: those of the traverse first."""
    order = {same(p.name): n for n, p in enumerate(_walked(found))}
    return sorted(found.adjusted.points, key=lambda p: order.get(same(p.name), len(order)))


def _area(found: Walked, *, squares: bool) -> float | None:
    if not squares or not found.is_closed:
        return found.traverse.area
    places = {same(p.name): (p.east, p.north) for p in found.adjusted.points}
    ring = [places[same(p.name)] for p in found.traverse.points]
    known = [(e, n) for e, n in ring if e is not None and n is not None]
    if len(known) < len(ring):
        return None
    e0, n0 = known[0]
    near = [(e - e0, n - n0) for e, n in known]
    return abs(fsum(a * d - b * c for (a, b), (c, d) in pairwise(near))) / 2.0
