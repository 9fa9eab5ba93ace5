"""The plan's file to other programs: the standard, GDAL and GDAL's validator.

Requirements are those of OGC 12-128r19 (GeoPackage 1.4). The validator is the one that comes
with GDAL, as Debian ships it (python3-gdal 3.6.2).
"""

import re
import sqlite3
import struct
import subprocess
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path
from typing import Any

import numpy as np
import pyogrio
import pytest
import shapely
from keeping import AT_SEA, made
from strategies import one_of_each

from plan_editor.edits.basic import Add
from plan_editor.kinds import base_plan
from plan_editor.plan.detail import Value
from plan_editor.plan.document import Document
from plan_editor.plan.item import new_item
from plan_editor.plan.kind import Kind, kinds
from plan_editor.plan.plan import Plan
from plan_editor.storage.layout import layout_of
from plan_editor.storage.loading import read_plan
from plan_editor.storage.plan_file import PlanFile
from plan_editor.survey.grids.grid import Grid

DEBIAN_PYTHON = "/usr/bin/python3"
ORIGIN = np.array((AT_SEA.east, AT_SEA.north))
KINDS = [pytest.param(kind, id=kind.name) for kind in kinds()]
DRAWN = [pytest.param(kind, id=kind.name) for kind in kinds() if kind.drawn]


@pytest.fixture(scope="module")
def path(tmp_path_factory: pytest.TempPathFactory) -> Path:
    items = one_of_each().items.values()
    return made(tmp_path_factory.mktemp("gdal") / "plan.gpkg", items)


@pytest.fixture(scope="module")
def plan(path: Path) -> Plan:
    return read_plan(path)


@pytest.fixture
def con(path: Path) -> Iterator[sqlite3.Connection]:
    with closing(sqlite3.connect(path)) as con:
        yield con


def layer(path: Path, kind: Kind) -> tuple[dict[str, Any], list[Any], dict[str, list[Any]]]:
    told, _, wkbs, columns = pyogrio.raw.read(path, layer=kind.name)
    shapes = shapely.from_wkb(wkbs).tolist() if wkbs is not None else []
    return told, shapes, dict(zip(told["fields"], (c.tolist() for c in columns), strict=True))


def test_the_header_is_that_of_geopackage_1_4(path: Path) -> None:
    head = path.read_bytes()[:100]
    assert head[:16] == b"SQLite format 3\x00"  # requirement 1
    assert struct.unpack(">I", head[68:72])[0] == 0x47504B47  # requirement 2
    assert struct.unpack(">I", head[60:64])[0] == 10400


def test_sqlite_finds_nothing_wrong(con: sqlite3.Connection) -> None:
    assert con.execute("PRAGMA integrity_check").fetchall() == [("ok",)]  # requirement 6
    assert con.execute("PRAGMA foreign_key_check").fetchall() == []  # requirement 7


def test_the_systems_that_must_be_there_are_there(con: sqlite3.Connection) -> None:
    rows = con.execute(
        "SELECT srs_id, organization, organization_coordsys_id FROM gpkg_spatial_ref_sys"
    ).fetchall()  # requirement 11
    assert set(rows) == {
        (-1, "NONE", -1),
        (0, "NONE", 0),
        (4326, "EPSG", 4326),
        (27700, "EPSG", 27700),
    }


def test_times_of_change_are_written_as_the_standard_says(con: sqlite3.Connection) -> None:
    times = [t for (t,) in con.execute("SELECT last_change FROM gpkg_contents")]
    pattern = r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}Z"  # requirement 15
    assert all(re.fullmatch(pattern, t) for t in times)


@pytest.mark.parametrize("kind", DRAWN)
def test_a_blob_is_as_the_standard_says(
    con: sqlite3.Connection, plan: Plan, kind: Kind
) -> None:
    rows = con.execute(f"SELECT id, geom FROM {kind.name} WHERE geom NOT NULL").fetchall()
    assert rows
    for found, blob in rows:
        item = plan.items[found]
        magic, version, flags, srs_id, e0, e1, n0, n1 = struct.unpack("<2sBBi4d", blob[:40])
        assert (magic, version, flags, srs_id) == (b"GP", 0, 0b0000_0011, 27700)
        shape = shapely.from_wkb(blob[40:])
        assert (e0, n0, e1, n1) == shape.bounds
        assert np.allclose(
            shapely.get_coordinates(shape),
            shapely.get_coordinates(item.shape) + ORIGIN,
            rtol=0,
            atol=1e-9,
        )


def test_gdals_validator_finds_only_what_it_is_too_old_for(path: Path) -> None:
    done = subprocess.run(
        [DEBIAN_PYTHON, "-m", "osgeo_utils.samples.validate_gpkg", "-k", str(path)],
        capture_output=True,
        text=True,
        check=False,
        timeout=120,
    )
    assert "Traceback" not in done.stderr, done.stderr
    lines = set((done.stdout + done.stderr).strip().splitlines())
    # GeoPackage 1.4 replaced two triggers; GDAL 3.12's own files get the same two lines
    assert lines == {
        f"Req 75: rtree_{kind.name}_geom_{trigger} trigger missing"
        for kind in kinds()
        if kind.drawn
        for trigger in ("update1", "update3")
    }


def test_gdal_lists_every_kind(path: Path) -> None:
    layers = {name for name, _ in pyogrio.list_layers(path).tolist()}
    assert layers >= {kind.name for kind in kinds()} | {"plan", "history", "media"}


@pytest.mark.parametrize("kind", DRAWN)
def test_gdal_reads_every_shape_in_place(path: Path, plan: Plan, kind: Kind) -> None:
    told, shapes, columns = layer(path, kind)
    assert told["crs"] == "EPSG:27700"
    assert len(columns["id"]) == plan.count(kind)
    for found, shape in zip(columns["id"], shapes, strict=True):
        wanted = plan.items[found].shape
        assert (shape is None) == (wanted is None)
        if shape is not None and wanted is not None:
            moved = shapely.transform(shape, lambda c: c - ORIGIN)
            assert moved.equals_exact(wanted, 1e-9)


@pytest.mark.parametrize("kind", KINDS)
def test_gdal_reads_every_column_with_its_type(path: Path, kind: Kind) -> None:
    told, _, _ = layer(path, kind)
    types = dict(zip(told["fields"], told["ogr_types"], strict=True))
    booleans = {
        name
        for name, sub in zip(told["fields"], told["ogr_subtypes"], strict=True)
        if sub == "OFSTBoolean"
    }
    wanted = {
        Value.NUMBER: "OFTReal",
        Value.WHOLE: "OFTInteger64",
        Value.YES_NO: "OFTInteger",
    }
    assert tuple(told["fields"]) == layout_of(kind).names
    for detail in kind.entries():
        assert types[detail.name] == wanted.get(detail.value, "OFTString")
        assert (detail.name in booleans) == (detail.value is Value.YES_NO)


@pytest.mark.parametrize("kind", KINDS)
def test_gdal_reads_what_is_recorded(path: Path, plan: Plan, kind: Kind) -> None:
    _, _, columns = layer(path, kind)
    for at, found in enumerate(columns["id"]):
        item = plan.items[found]
        assert columns["number"][at] == item.number
        assert columns["status"][at] == item.status
        for detail in kind.entries():
            if detail.value in (Value.TEXT, Value.LONG_TEXT, Value.DATE, Value.CHOICE):
                assert columns[detail.name][at] == getattr(item.details, detail.name)


@pytest.mark.parametrize("kind", KINDS)
def test_columns_have_titles_and_choices_for_people(
    con: sqlite3.Connection, kind: Kind
) -> None:
    titles = dict(
        con.execute(
            "SELECT column_name, title FROM gpkg_data_columns WHERE table_name = ?",
            (kind.name,),
        ).fetchall()
    )
    for detail in kind.entries():
        assert titles[detail.name].startswith(detail.about.title)
        choices = {
            value
            for (value,) in con.execute(
                "SELECT value FROM gpkg_data_column_constraints JOIN gpkg_data_columns"
                " USING (constraint_name) WHERE table_name = ? AND column_name = ?",
                (kind.name, detail.name),
            )
        }
        assert choices == set(detail.choices)


@pytest.mark.parametrize("kind", DRAWN)
def test_the_index_finds_what_lies_in_a_box(path: Path, plan: Plan, kind: Kind) -> None:
    item = next(i for i in plan.of(kind) if i.shape is not None)
    box = shapely.transform(item.shape, lambda c: c + ORIGIN).bounds
    found = pyogrio.raw.read(path, layer=kind.name, bbox=box)
    assert item.id in found[3][0].tolist()


def test_a_local_grid_has_no_system(tmp_path: Path) -> None:
    path = made(tmp_path / "local.gpkg", one_of_each().items.values(), Grid())
    told = pyogrio.read_info(path, layer="tree")
    assert told["crs"] is None or "Undefined Cartesian" in told["crs"]
    with closing(sqlite3.connect(path)) as con:
        found = con.execute("SELECT DISTINCT srs_id FROM gpkg_geometry_columns").fetchall()
    assert found == [(-1,)]


def test_other_programs_find_which_base_plan_has_which_picture(tmp_path: Path) -> None:
    path = tmp_path / "plan.gpkg"
    with PlanFile.create(path, name="", grid=AT_SEA) as file:
        digest = file.add(b"a picture", content_type="image/png", name="old plan.png")
        details = base_plan.BasePlanDetails(name="1962", digest=digest)
        document = Document(file.plan, journal=file)
        document.apply(Add((new_item(base_plan.KIND, details=details),)))
        file.save()
    with closing(sqlite3.connect(path)) as con:
        mapping = con.execute(
            "SELECT mapping_table_name FROM gpkgext_relations"
            " WHERE base_table_name = 'base_plan' AND related_table_name = 'media'"
        ).fetchone()[0]
        found = con.execute(
            f"SELECT b.digest, m.data, m.content_type, m.name FROM {mapping} x"
            " JOIN base_plan b ON b.fid = x.base_id JOIN media m ON m.id = x.related_id"
        ).fetchall()
    assert found == [(digest, b"a picture", "image/png", "old plan.png")]
