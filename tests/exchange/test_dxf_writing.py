"""The written drawing, as ezdxf's audit and an independent reader (GDAL) find it."""

import collections
import re
import subprocess
import sys
from collections.abc import Iterator
from math import hypot
from pathlib import Path
from typing import Any

import numpy as np
import pyogrio
import pytest
import shapely
from drawings import lines_of
from ezdxf.document import Drawing as Document
from ezdxf.filemanagement import new, readfile
from ezdxf.render.hatching import hatch_entity
from hypothesis import HealthCheck, given, settings
from shapely import LineString, MultiLineString, Point, Polygon, affinity
from strategies import one_of_each, plans

from plan_editor.drawing.ink import Clipped, Fill, Picture, Stroke, Text
from plan_editor.drawing.viewport import Viewport
from plan_editor.errors import NoRoom, NotAllowed
from plan_editor.exchange.format import Report
from plan_editor.exchange.formats.dxf import FORMAT
from plan_editor.exchange.formats.dxf.board import APPLICATION, Board
from plan_editor.exchange.formats.dxf.hatches import add_hatch
from plan_editor.exchange.formats.dxf.ink_made import Onto, draw_ink
from plan_editor.exchange.formats.dxf.reading import read_here
from plan_editor.exchange.formats.dxf.writing import write
from plan_editor.exchange.whole import written_whole
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import (
    base_plan,
    bench,
    burial,
    grave,
    inspection,
    memorial,
    note,
    owner_contact,
    path,
    tree,
    wall,
    zone,
)
from plan_editor.plan.item import Item, Status, new_item
from plan_editor.plan.kind import kinds
from plan_editor.plan.look import Hatch, Pattern
from plan_editor.plan.plan import Plan, plan_of
from plan_editor.survey.grids.grid import Grid

NATIONAL = Grid(crs="EPSG:27700", east=544100.0, north=258300.0)

GRAVE = new_item(
    grave.KIND,
    Rectangle(east=10.0, north=20.0, width=0.91, length=2.13, bearing_deg=12.5),
    number="C 14",
    details=grave.GraveDetails(state=grave.State.RESERVED),
)
STONE = new_item(
    memorial.KIND,
    Rectangle(east=9.7, north=20.1, width=0.75, length=0.12, bearing_deg=12.5),
    number="M 14",
    details=memorial.MemorialDetails(height_m=1.2, material="slate, Tŷ’r ŵyl"),
)
FAILED = new_item(
    inspection.KIND,
    details=inspection.InspectionDetails(
        target=STONE.id, date="2025-10-03", result=inspection.Result.IMMEDIATE
    ),
)
YEW = new_item(
    tree.KIND,
    Point(31.25, -4.5),
    number="T 1",
    details=tree.TreeDetails(
        species="Taxus baccata", stems_mm=(850.0, 420.5), crown_north_m=4.0, crown_east_m=6.0
    ),
)
WALL = new_item(
    wall.KIND, LineString([(0, 0), (40, 0)]), details=wall.WallDetails(width_m=0.45)
)
MEADOW = new_item(
    zone.KIND,
    Polygon([(0, 0), (30, 0), (30, 20), (0, 20)], [[(5, 5), (5, 10), (15, 10), (15, 5)]]),
    details=zone.ZoneDetails(sort=zone.ZoneSort.WILDLIFE),
)
GROUND = (GRAVE, STONE, FAILED, YEW, WALL, MEADOW)


@pytest.fixture
def out(tmp_path: Path) -> Path:
    return tmp_path / "plan.dxf"


def _plan(*items: Item[Any], grid: Grid = NATIONAL) -> Plan:
    return plan_of(items, name="St Elfric, Harrowmere", grid=grid)


def _written(out: Path, *items: Item[Any], grid: Grid = NATIONAL) -> Document:
    write(_plan(*items, grid=grid), out)
    return readfile(out)


def _told(entity: Any) -> list[str]:
    return [value for code, value in entity.get_xdata(APPLICATION) if code == 1000]


def _parts(document: Document, item: Item[Any], part: str) -> list[Any]:
    space = document.modelspace()
    marked = [e for e in space if e.has_xdata(APPLICATION)]
    return [e for e in marked if _told(e)[0] == item.id and _told(e)[4:] == [part]]


def _by_gdal(path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[dict[str, Any]]:
    monkeypatch.setenv("DXF_ENCODING", "UTF-8")
    pyogrio.set_gdal_config_options({"DXF_ENCODING": "UTF-8", "DXF_INLINE_BLOCKS": True})
    try:
        meta, _, shapes, fields = pyogrio.raw.read(path)
    finally:
        pyogrio.set_gdal_config_options({"DXF_ENCODING": None, "DXF_INLINE_BLOCKS": None})
    for i, shape in enumerate(shapes):
        told = {name: column[i] for name, column in zip(meta["fields"], fields, strict=True)}
        yield told | {"shape": shapely.from_wkb(shape)}


def test_every_kind_in_every_form_gives_a_drawing_without_errors(out: Path) -> None:
    plan = one_of_each()
    write(plan, out)
    document = readfile(out)
    audit = document.audit()
    assert audit.errors == []
    assert audit.fixes == []
    drawn = {i.kind for i in plan.items.values() if i.shape is not None}
    for kind in drawn - {base_plan.KIND}:
        assert kind.layer in document.layers, kind.name
        assert any(e.dxf.layer == kind.layer for e in document.modelspace()), kind.name


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(plan=plans())
def test_any_plan_gives_a_drawing_without_errors(plan: Plan, out: Path) -> None:
    write(plan, out)
    audit = readfile(out).audit()
    assert audit.errors == []


def test_layers_are_named_by_the_fields_of_iso_13567(out: Path) -> None:
    # agent 2, element 6, presentation 2 (ISO 13567-2:2017, mandatory fields)
    document = _written(out, *GROUND)
    names = {layer.dxf.name for layer in document.layers} - {"0", "Defpoints", "VIEWPORTS"}
    assert all(re.fullmatch(r"Z-[A-Z0-9][A-Z0-9-]{5}[ETHB]-", name) for name in names)
    assert {"Z-GRAVE-E-", "Z-GRAVE-T-", "Z-TREE--E-", "Z-ZONE--H-"} <= names
    assert document.layers.get("Z-GRAVE-E-").description == "Graves"


def test_every_kind_has_a_layer_of_its_own() -> None:
    layers = [kind.layer for kind in kinds() if kind.drawn]
    assert len(set(layers)) == len(layers)
    assert all(len(layer) == 10 for layer in layers)


def test_a_layer_has_the_colour_width_and_dashes_of_its_kind(out: Path) -> None:
    document = _written(out, YEW, new_item(path.KIND, LineString([(0, 5), (9, 5)])))
    tree_layer = document.layers.get("Z-TREE--E-")
    assert tree_layer.rgb == (0x3F, 0x6B, 0x35)
    assert tree_layer.dxf.lineweight == 18
    dashes = document.linetypes.get(document.layers.get("Z-PATH--E-").dxf.linetype)
    lengths = [tag.value for tag in dashes.pattern_tags.tags if tag.code == 49]
    assert lengths == [2.0, -1.0]


def test_the_drawing_is_in_metres(out: Path) -> None:
    header = _written(out, *GROUND).header
    assert (header["$INSUNITS"], header["$MEASUREMENT"], header["$LUNITS"]) == (6, 1, 2)
    assert header["$ACADVER"] == "AC1024"  # R2010


def test_gdal_reads_the_same_coordinates(out: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    write(_plan(*GROUND), out)
    found = list(_by_gdal(out, monkeypatch))

    def lies(layer: str, wanted: Any) -> bool:
        here = [shapely.get_parts(f["shape"]) for f in found if f["Layer"] == layer]
        lines = [part for parts in here for part in parts if part.geom_type == "LineString"]
        return any(shapely.hausdorff_distance(line, wanted) < 1e-6 for line in lines)

    east, north = NATIONAL.east, NATIONAL.north
    assert lies("Z-GRAVE-E-", affinity.translate(GRAVE.shape.exterior, east, north))
    body = Polygon(STONE.rectangle.corners()).exterior
    assert lies("Z-MEMOR-E-", affinity.translate(body, east, north))
    assert lies("Z-WALL--E-", LineString([(east, north), (east + 40, north)]))
    yew = shapely.union_all([f["shape"] for f in found if f["Layer"] == "Z-TREE--E-"])
    middle = Point(east + 31.25, north - 4.5)
    assert yew.distance(middle) < 1e-6
    # a crown reaches 4 m north and 6 m east of the stem, and as far as their mean elsewhere
    assert np.allclose(
        yew.bounds, (middle.x - 5, middle.y - 5, middle.x + 6, middle.y + 4), atol=1e-6
    )


def test_gdal_finds_the_hatched_area_less_its_hole(
    out: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    write(_plan(MEADOW), out)
    (hatch,) = [f["shape"] for f in _by_gdal(out, monkeypatch) if f["Layer"] == "Z-ZONE--H-"]
    assert hatch.area == pytest.approx(30 * 20 - 10 * 5, abs=1e-6)


def test_gdal_reads_numbers_and_letters_right(
    out: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    words = new_item(note.KIND, Point(3, 4), details=note.NoteDetails(text="Ffynnon Ŵyn ŷ ł"))
    write(_plan(words, GRAVE, STONE), out)
    texts = {f["Text"]: f for f in _by_gdal(out, monkeypatch) if f["Text"]}
    assert texts["Ffynnon Ŵyn ŷ ł"]["Layer"] == "Z-NOTE--T-"
    assert texts["slate, Tŷ’r ŵyl"]["Layer"] == "Z-MEMOR-T-"  # an attribute of the stone
    number = texts["C 14"]["shape"]
    middle = GRAVE.shape.centroid
    assert hypot(number.x - NATIONAL.east - middle.x, number.y - NATIONAL.north - middle.y) < 2


def test_ids_come_back_from_the_drawing(out: Path) -> None:
    document = _written(out, *GROUND)
    marked = [e for e in document.modelspace() if e.has_xdata(APPLICATION)]
    kinds_by_id = {_told(e)[0]: _told(e)[1] for e in marked if _told(e)[0] != "clearance"}
    placed = [i for i in GROUND if i.shape is not None]
    assert kinds_by_id == {i.id: i.kind.name for i in placed}
    assert len(marked) == len(document.modelspace())
    (line,) = _parts(document, WALL, "line")
    assert [v for code, v in line.get_xdata(APPLICATION) if code == 1041] == [0.45]
    assert _told(line)[2:4] == ["", "existing"]


def test_a_stone_is_a_block_with_attributes(out: Path) -> None:
    document = _written(out, GRAVE, STONE, FAILED)
    (put,) = _parts(document, STONE, "place")
    said = {a.dxf.tag: a.dxf.text for a in put.attribs}
    assert put.dxftype() == "INSERT"
    assert said["NUMBER"] == "M 14"
    assert said["HEIGHT_M"] == "1.2"
    assert said["FORM"] == "headstone"
    assert said["MATERIAL"] == "slate, Tŷ’r ŵyl"
    assert (said["SAFE"], said["INSPECTED"]) == ("no", "2025-10-03")
    assert [a.dxf.tag for a in put.attribs if not a.is_invisible] == ["NUMBER"]
    assert {a.dxf.layer for a in put.attribs} == {"Z-MEMOR-T-"}


def test_a_stone_that_nobody_inspected_is_not_called_safe(out: Path) -> None:
    document = _written(out, STONE)
    (put,) = _parts(document, STONE, "place")
    assert put.get_attrib_text("SAFE") == "not inspected"


def test_a_bench_that_faces_east_is_a_block_turned_to_the_left(out: Path) -> None:
    # drawn facing south: to face east it is turned by a quarter, anticlockwise
    details = bench.BenchDetails(facing_deg=90.0)
    seat, other = (
        new_item(bench.KIND, Point(1, 1), details=details),
        new_item(bench.KIND, Point(2, 2)),
    )
    document = _written(out, seat, other)
    (put,), (left,) = (_parts(document, i, "place") for i in (seat, other))
    assert put.dxf.rotation % 360.0 == 90.0
    assert left.dxf.get("rotation", 0.0) == 0.0


def test_a_tree_is_a_block_with_attributes(out: Path) -> None:
    (put,) = _parts(_written(out, YEW), YEW, "place")
    said = {a.dxf.tag: a.dxf.text for a in put.attribs}
    assert said["SPECIES"] == "Taxus baccata"
    assert said["STEMS_MM"] == "850 420.5"
    assert said["VETERAN"] == "no"


def test_a_space_of_ground_is_an_outline_that_can_be_measured(out: Path) -> None:
    (outline,) = _parts(_written(out, GRAVE), GRAVE, "outline")
    assert outline.dxftype() == "LWPOLYLINE"
    assert outline.closed
    corners = Polygon(outline.vertices())
    assert corners.area == pytest.approx(0.91 * 2.13, abs=0.002)  # corners in whole millimetres


def test_a_hole_is_a_ring_of_its_own(out: Path) -> None:
    document = _written(out, MEADOW)
    (outer,) = _parts(document, MEADOW, "outline")
    (hole,) = _parts(document, MEADOW, "hole")
    assert Polygon(outer.vertices()).area == pytest.approx(600)
    assert Polygon(hole.vertices()).area == pytest.approx(50)


def test_a_line_with_a_width_has_its_middle_and_its_edges(out: Path) -> None:
    document = _written(out, WALL)
    (edge,) = _parts(document, WALL, "edge")
    assert Polygon(edge.vertices()).area == pytest.approx(40 * 0.45)
    (middle,) = _parts(document, WALL, "line")
    assert LineString(middle.vertices()).length == pytest.approx(40.0, abs=1e-9)


def test_what_is_proposed_is_dashed_and_what_goes_is_crossed_out(out: Path) -> None:
    going = new_item(wall.KIND, LineString([(0, 9), (30, 9)]))
    document = _written(
        out,
        Item(**{**_fields(GRAVE), "status": Status.PROPOSED}),
        Item(**{**_fields(going), "status": Status.TO_BE_REMOVED}),
    )
    (outline,) = _parts(document, GRAVE, "outline")
    assert outline.dxf.linetype.startswith("DASH")
    assert len(_parts(document, going, "sign")) >= 2


def _fields(item: Item[Any]) -> dict[str, Any]:
    return {name: getattr(item, name) for name in item.__dataclass_fields__}


def test_a_reserved_grave_has_one_stroke_across_and_a_bar_at_its_head(out: Path) -> None:
    document = _written(out, GRAVE)
    lengths = sorted(
        hypot(*(e.dxf.end - e.dxf.start).vec2) for e in _parts(document, GRAVE, "sign")
    )
    # the bar is six tenths of the head line; the stroke a diagonal
    assert lengths == pytest.approx([0.6 * 0.91, hypot(0.91, 2.13)], abs=0.002)


def test_the_zone_round_an_unsafe_stone_is_hatched_for_each_purpose(out: Path) -> None:
    document = _written(out, STONE, FAILED)
    zones = {
        e.dxf.layer: e
        for e in document.modelspace()
        if e.has_xdata(APPLICATION) and _told(e)[0] == "clearance"
    }
    assert {"Z-CLRPEOE-", "Z-CLRPEOH-", "Z-CLRMACE-", "Z-CLRMACH-"} == set(zones)
    told = _told(zones["Z-CLRPEOE-"])
    assert told[1] == "unsafe-memorial-people"
    assert told[3:] == [STONE.id]
    # Steiner: area + perimeter × d + π d², with d = 1.2 + 1.0 m
    area = 0.75 * 0.12 + 2 * (0.75 + 0.12) * 2.2 + np.pi * 2.2**2
    assert Polygon(zones["Z-CLRPEOE-"].vertices()).area == pytest.approx(area, rel=2e-3)


def test_the_paper_sheet_shows_the_ground_exactly_to_scale(out: Path) -> None:
    document = _written(out, *GROUND)
    (name,) = [n for n in document.layout_names() if n != "Model"]
    scale = float(name.removeprefix("Plan 1 to "))
    page = document.layout(name)
    window = page.viewports()[-1]
    mm_per_metre = window.dxf.height / window.dxf.view_height
    assert mm_per_metre == pytest.approx(1000.0 / scale, rel=1e-12)
    assert 40.0 * mm_per_metre == pytest.approx(40_000.0 / scale, abs=1e-9)
    # in the middle of the window lies the middle of the ground
    e0, n0, e1, n1 = _ground()
    looked_at = window.dxf.view_center_point
    assert looked_at.x == pytest.approx(NATIONAL.east + (e0 + e1) / 2, abs=1e-6)
    assert looked_at.y == pytest.approx(NATIONAL.north + (n0 + n1) / 2, abs=1e-6)
    texts = [e.dxf.text for e in page.query("TEXT")]
    assert f"SCALE 1 : {scale:g}" in texts
    assert "St Elfric, Harrowmere" in texts
    assert any("burials that were never recorded" in text for text in texts)
    assert (page.dxf_layout.dxf.paper_width, page.dxf_layout.dxf.paper_height) == (420, 297)


def _ground() -> tuple[float, float, float, float]:
    # east: from the meadow to the wall's end; north: from the yew's crown to the grave's corner
    north = max(n for _, n in GRAVE.rectangle.corners())
    return 0.0, -4.5 - 5.0, 40.0, round(north, 3)


@pytest.mark.parametrize(
    ("across", "paper", "scale"),
    [
        # 420 − 30 − 76 − 10 mm are 304: 30.4 m at 1:100, 60.8 m at 1:200
        ((30.0, 20.0), 420, 100),
        ((60.0, 50.0), 420, 200),
        ((90.0, 70.0), 594, 200),
        ((220.0, 100.0), 1189, 250),
        ((3000.0, 100.0), 1189, 5000),
        ((90_000.0, 100.0), 1189, 160_000),
    ],
)
def test_the_paper_is_the_smallest_that_will_do(
    out: Path, across: tuple[float, float], paper: int, scale: int
) -> None:
    wide, high = across
    document = _written(out, new_item(wall.KIND, LineString([(0, 0), (wide, high)])))
    page = document.layout(f"Plan 1 to {scale}")
    assert page.dxf_layout.dxf.paper_width == paper


def test_the_coordinate_system_is_told(out: Path) -> None:
    document = _written(out, *GROUND)
    told = document.modelspace().get_geodata()
    assert told is not None
    assert told.get_crs() == (27700, True)
    matrix, number = told.get_crs_transformation()
    assert number == 27700
    assert matrix.transform((544110.0, 258320.0)).isclose((544110.0, 258320.0), abs_tol=1e-6)


def test_a_local_grid_claims_no_place_on_the_earth(out: Path) -> None:
    document = _written(out, *GROUND, grid=Grid())
    assert document.modelspace().get_geodata() is None


def test_base_plans_register_and_private_details_stay_out(out: Path) -> None:
    owner = new_item(
        owner_contact.KIND,
        details=owner_contact.OwnerContactDetails(
            name="Hester Quayle", telephone="01632 960123"
        ),
    )
    lain = new_item(burial.KIND)
    scan = new_item(
        base_plan.KIND,
        Polygon([(0, 0), (9, 0), (9, 9)]),
        details=base_plan.BasePlanDetails(name="Plan of 1962"),
    )
    report = write(_plan(GRAVE, owner, lain, scan), out)
    assert report == Report(
        done=("1 grave",),
        passed_over=(
            "base plans (1)",
            "entries without a place on the ground, such as those of the register (2)",
            "entries with private details of living people (1)",
        ),
    )
    content = out.read_text("utf-8")
    for secret in ("Quayle", "960123", "Plan of 1962", scan.id, owner.id):
        assert secret not in content


def test_a_base_plan_does_not_make_the_paper_larger(out: Path) -> None:
    scan = new_item(base_plan.KIND, shapely.box(-500, -500, 500, 500))
    document = _written(out, new_item(wall.KIND, LineString([(0, 0), (30, 20)])), scan)
    assert "Plan 1 to 100" in document.layout_names()


def test_an_empty_plan_gives_an_empty_drawing(out: Path) -> None:
    document = _written(out)
    assert len(document.modelspace()) == 0
    assert document.audit().errors == []


def test_what_was_written_is_read_back_where_it_was(out: Path) -> None:
    write(_plan(*GROUND), out)
    found = read_here(out.read_bytes())
    assert found.unit.metres == 1.0
    assert found.report.guessed == ()
    lines = MultiLineString(lines_of(found))
    ring = affinity.translate(GRAVE.shape.exterior, NATIONAL.east, NATIONAL.north)
    assert lines.buffer(1e-5).covers(ring)
    assert {"C 14", "M 14", "T 1"} <= set(found.texts)


@pytest.mark.parametrize(
    ("pattern", "per_area"),
    [
        # metres of line, or dots, in a square metre; spacing 2 m, marks 1 m at 1:1000
        (Pattern.LINES, 1 / 2),
        (Pattern.CROSSED, 2 / 2),
        (Pattern.DOTS, 1 / 4),
        (Pattern.STROKES, 1 / 4),
        (Pattern.CROSSES, 2 * 0.8 * np.sqrt(2) / 4),
    ],
)
def test_a_pattern_is_as_dense_as_its_look_says(pattern: Pattern, per_area: float) -> None:
    document = new("R2010", units=6)
    board = Board(
        document=document,
        space=document.modelspace(),
        grid=Grid(),
        viewport=Viewport(east=0, north=0, scale=1000, frame=(0, 0, 1, 1)),
    )
    square = shapely.box(0.3, 0.3, 200.3, 200.3)
    hatch = Hatch(pattern=pattern, angle_deg=30, spacing=2.0, size=1.0)
    lines = list(hatch_entity(add_hatch(board, square, hatch, "0")))
    total = len(lines) if pattern is Pattern.DOTS else sum(a.distance(b) for a, b in lines)
    assert total / square.area == pytest.approx(per_area, rel=0.03)


def test_listing_the_formats_loads_no_ezdxf() -> None:
    code = (
        "import sys; from plan_editor.exchange.format import formats; found = formats();"
        "assert [f.name for f in found] == ['dxf'], found;"
        "assert 'ezdxf' not in sys.modules"
    )
    subprocess.run([sys.executable, "-c", code], check=True)


def test_a_folder_that_is_not_there_is_told(tmp_path: Path) -> None:
    assert FORMAT.write is not None
    with pytest.raises(NotAllowed, match="cannot be written"):
        FORMAT.write(_plan(GRAVE), tmp_path / "nowhere" / "plan.dxf")


def test_a_full_disk_leaves_what_was_there(out: Path) -> None:
    out.write_text("before")
    with pytest.raises(NoRoom, match="no room"):
        _half(out, OSError(28, "No space left on device"))
    assert out.read_text() == "before"
    assert [p.name for p in out.parent.iterdir()] == ["plan.dxf"]


def _half(out: Path, error: Exception) -> None:
    with written_whole(out) as beside:
        beside.write_text("half")
        raise error


def test_a_drawing_that_cannot_be_finished_leaves_what_was_there(out: Path) -> None:
    out.write_text("before")
    with pytest.raises(ZeroDivisionError):
        _half(out, ZeroDivisionError())
    assert out.read_text() == "before"
    assert [p.name for p in out.parent.iterdir()] == ["plan.dxf"]


def test_a_line_break_in_a_name_does_not_break_the_drawing(out: Path) -> None:
    odd = Item(**{**_fields(GRAVE), "number": "C 14\r\n  0\nEOF"})
    document = _written(out, odd)
    assert document.audit().errors == []
    (number,) = _parts(document, odd, "number")
    assert number.dxf.text == "C 14 0 EOF"


def test_ink_beyond_a_frame_is_cut_off() -> None:
    document = new("R2010", units=6)
    onto = Onto(
        document=document,
        space=document.modelspace(),
        lines="0",
        texts="0",
        to_space=lambda points: points,
        unit=1.0,
    )
    square = np.array([(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)])
    box = (-1.0, -1.0, 5.0, 5.0)
    inner = Clipped(
        box=(-1.0, -1.0, 20.0, 20.0),
        ink=(
            Stroke(lines=(square,), closed=True),
            Fill(rings=(square,)),
            Fill(rings=(square / 4,)),
            Text(text="in", x=1, y=1),
            Text(text="out", x=6, y=1),
            Picture(pixels=np.zeros((2, 2), dtype=np.uint8), left=0, bottom=0, right=1, top=1),
        ),
    )
    draw_ink(onto, (Clipped(box=box, ink=(inner,)), inner.ink[-1]))
    found = document.modelspace()
    lines = sorted(e.dxf.start.distance(e.dxf.end) for e in found.query("LINE"))
    assert lines == pytest.approx([5.0, 5.0])
    assert [t.dxf.text for t in found.query("TEXT")] == ["in"]
    assert len(found.query("HATCH")) == 1


def test_items_drawn_alike_share_a_block(out: Path) -> None:
    trees = [new_item(tree.KIND, Point(i, 0)) for i in range(50)]
    document = _written(out, *trees)
    names = collections.Counter(e.dxf.name for e in document.modelspace().query("INSERT"))
    assert names == {"TREE-TREE": 50}
