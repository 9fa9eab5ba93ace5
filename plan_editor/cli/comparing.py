"""The verb that compares two plans, or a plan with what was known on a day."""

from argparse import Namespace
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import shapely

from plan_editor.cli.verb import Said
from plan_editor.commands.comparing import (
    Compared,
    by_kind,
    compare_files,
    counted,
    lines_of,
    names_of,
)
from plan_editor.commands.difference_words import name_of, told
from plan_editor.commands.past import read_day
from plan_editor.plan.comparing import Moved, Pair
from plan_editor.plan.item import Item
from plan_editor.survey.grids.grid import Grid

MOST_NAMED = 12
"""So many things of a kind that came or went are named; the JSON names all."""


def compare(asked: Namespace) -> Said:
    """Say in what two plans differ."""
    other = Path(asked.other) if asked.other is not None else None
    day = read_day(asked.on) if asked.on is not None else ""
    found = compare_files(Path(asked.plan), other, day)
    return Said(
        text="\n".join(_lines(found)), facts=_facts(found), code=int(found.found.differs)
    )


def _lines(of: Compared) -> Iterator[str]:
    yield f"From {of.names[0]} to {of.names[1]}: {counted(of.found)}."
    yield from _listed("Added", of.found.added)
    yield from _listed("Removed", of.found.removed)
    yield from _pairs("Changed", of.found.changed, of)
    yield from _pairs("Of two origins, seem the same", of.found.alike, of)
    if of.remarks:
        yield ""
    yield from of.remarks


def _listed(title: str, items: tuple[Item[Any], ...]) -> Iterator[str]:
    if items:
        yield ""
        yield f"{title}:"
    for kind, these in by_kind(items):
        names = names_of(these)
        more = len(names) - MOST_NAMED
        rest = (f"and {more} more",) if more > 0 else ()
        named = ", ".join((*names[:MOST_NAMED], *rest))
        what = kind.title if len(these) == 1 else kind.plural
        yield f"  {len(these)} {what.lower()}{': ' if named else ''}{named}"


def _pairs(title: str, pairs: tuple[Pair, ...], of: Compared) -> Iterator[str]:
    if pairs:
        yield ""
        yield f"{title}:"
    for pair in pairs:
        yield f"  {name_of(pair.after)}"
        yield from (f"    {line}" for line in lines_of(pair, of))


def _facts(of: Compared) -> dict[str, Any]:
    grid = of.found.grids[1]
    return {
        "from": of.names[0],
        "to": of.names[1],
        "same": of.found.same,
        "crs": grid.crs,
        "places_compared": of.found.places,
        "added": [_item(i, grid) for i in of.found.added],
        "removed": [_item(i, grid) for i in of.found.removed],
        "changed": [_pair(p, of) for p in of.found.changed],
        "seem_the_same": [_pair(p, of) for p in of.found.alike],
        "remarks": list(of.remarks),
    }


def _item(item: Item[Any], grid: Grid) -> dict[str, Any]:
    return {
        "id": item.id,
        "kind": item.kind.name,
        "number": item.number,
        "place": _place(item, grid),
    }


def _place(item: Item[Any], grid: Grid) -> list[float] | None:
    if item.shape is None:
        return None
    ((east, north),) = shapely.get_coordinates(item.shape.centroid).tolist()
    return [round(n, 3) for n in grid.to_crs(east, north)]


def _pair(pair: Pair, of: Compared) -> dict[str, Any]:
    return {
        **_item(pair.after, of.found.grids[1]),
        "was": pair.before.id,
        "fields": [_field(d, pair, of) for d in pair.differences],
        "moved": None if pair.moved is None else _moved(pair.moved),
    }


def _field(found: Any, pair: Pair, of: Compared) -> dict[str, str]:
    title, before, after = told(found, pair.moved, of.before, of.after)
    return {
        "of": found.field.of,
        "field": found.field.detail.name,
        "title": title,
        "before": before,
        "after": after,
    }


def _moved(moved: Moved) -> dict[str, Any]:
    return {
        "distance_m": round(moved.distance_m, 3),
        "bearing_deg": round(moved.bearing_deg, 2),
        "turned_deg": round(moved.turned_deg, 3),
        "reshaped": moved.reshaped,
    }
