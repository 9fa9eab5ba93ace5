"""A DXF of five thousand graves and stones against bare ezdxf writing the same entities."""

from dataclasses import dataclass
from pathlib import Path
from time import process_time
from typing import Any

import pytest
from ezdxf.document import Drawing as Document
from ezdxf.filemanagement import new, readfile

from plan_editor.exchange.formats.dxf.board import APPLICATION
from plan_editor.exchange.formats.dxf.writing import write
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import grave, memorial
from plan_editor.plan.item import new_item
from plan_editor.plan.plan import Plan, plan_of
from plan_editor.survey.grids.grid import Grid

GRAVES = 5000
ROUNDS = 3


def _ground() -> Plan:
    """Return rows of graves, each with a headstone."""
    items: list[Any] = []
    for n in range(GRAVES):
        row, place = divmod(n, 100)
        east, north = row * 2.75, place * 1.25
        items.append(
            new_item(
                grave.KIND,
                Rectangle(east=east, north=north, width=0.91, length=2.13, bearing_deg=4.0),
                number=f"{row + 1}/{place + 1}",
                details=grave.GraveDetails(state=grave.State.OCCUPIED),
            )
        )
        items.append(
            new_item(
                memorial.KIND,
                Rectangle(east=east, north=north, width=0.75, length=0.12, bearing_deg=4.0),
                number=f"M {n + 1}",
                details=memorial.MemorialDetails(height_m=0.9, material="slate"),
            )
        )
    return plan_of(items, name="Bench", grid=Grid(crs="EPSG:27700", east=544100, north=258300))


@dataclass(frozen=True, slots=True)
class _Entity:
    """What is to be given to ezdxf for one entity."""

    sort: str
    attributes: dict[str, Any]
    points: list[tuple[float, float]]
    words: list[tuple[int, Any]]
    attached: list[tuple[str, str, dict[str, Any]]]


def _entities(document: Document) -> list[_Entity]:
    drop = {"handle", "owner", "paperspace", "count"}
    return [
        _Entity(
            sort=e.dxftype(),
            attributes=e.dxfattribs(drop=drop),
            points=list(e.vertices()) if e.dxftype() == "LWPOLYLINE" else [],
            words=[(t.code, t.value) for t in e.get_xdata(APPLICATION)],
            attached=[
                (a.dxf.tag, a.dxf.text, a.dxfattribs(drop=drop | {"tag", "text"}))
                for a in getattr(e, "attribs", ())
            ],
        )
        for e in document.modelspace()
    ]


def _bare(entities: list[_Entity], path: Path) -> None:
    """Write entities whose every value is at hand, by the plainest calls that ezdxf has."""
    document = new("R2010", units=6)
    document.appids.add(APPLICATION)
    document.blocks.new("MEMOR-SOLID")
    space = document.modelspace()
    for e in entities:
        if e.sort == "LWPOLYLINE":
            made: Any = space.add_lwpolyline(
                e.points, format="xy", close=True, dxfattribs=e.attributes
            )
        else:
            made = space.new_entity(e.sort, e.attributes)
        made.set_xdata(APPLICATION, e.words)
        for tag, text, attributes in e.attached:
            made.add_attrib(tag, text, attributes["insert"], dxfattribs=attributes)
    document.saveas(path)


@pytest.mark.bench
def test_a_drawing_of_five_thousand_graves_beside_bare_ezdxf(
    tmp_path: Path,
) -> None:
    plan, ours, theirs = _ground(), tmp_path / "ours.dxf", tmp_path / "theirs.dxf"
    write(plan, ours)
    entities = _entities(readfile(ours))
    assert len(entities) >= 4 * GRAVES  # outline, bar, number, stone
    spent: dict[str, list[float]] = {"ours": [], "bare": []}
    for _ in range(ROUNDS):
        begun = process_time()
        write(plan, ours)
        middle = process_time()
        _bare(entities, theirs)
        spent["ours"].append(middle - begun)
        spent["bare"].append(process_time() - middle)
    same = theirs.stat().st_size / ours.stat().st_size
    ratio = min(spent["ours"]) / min(spent["bare"])
    print(  # noqa: T201
        f"\nDXF of {GRAVES} graves and stones: {min(spent['ours']):.2f} s, "
        f"bare ezdxf {min(spent['bare']):.2f} s, ratio {ratio:.2f} (goal 1.5), "
        f"size ratio {same:.2f}"
    )
    assert 0.98 < same < 1.02
