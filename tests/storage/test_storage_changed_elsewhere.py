"""What GDAL does to a plan's file is recognised, and is taken in as one edit or refused."""

import sqlite3
import subprocess
from contextlib import closing
from dataclasses import astuple, replace
from pathlib import Path
from textwrap import dedent

import numpy as np
import pytest
import shapely
from keeping import AT_SEA, graves, made
from shapely import Polygon

from plan_editor.edits.basic import Add, Replace
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import burial, grave, tree
from plan_editor.plan.change import Change
from plan_editor.plan.document import Document
from plan_editor.plan.item import Status, new_item
from plan_editor.storage.loading import read_plan, untouched
from plan_editor.storage.plan_file import PlanFile
from plan_editor.storage.saving import backup_of, counter_of
from plan_editor.storage.verifying import verify

DEBIAN_PYTHON = "/usr/bin/python3"
EAST, NORTH = AT_SEA.east, AT_SEA.north


@pytest.fixture
def path(tmp_path: Path) -> Path:
    first = graves(3)
    others = (
        new_item(tree.KIND, shapely.Point(30.0, 4.0), number="T 1"),
        new_item(burial.KIND, details=burial.BurialDetails(grave=first[0].id)),
    )
    return made(tmp_path / "plan.gpkg", (*first, *others))


def by_gdal(path: Path, code: str) -> None:
    """Run some lines in GDAL's own Python, with ``data`` open for update."""
    lines = (
        "from osgeo import gdal, ogr",
        "ogr.UseExceptions()",
        "gdal.PushErrorHandler('CPLQuietErrorHandler')",
        f"data = ogr.Open({str(path)!r}, 1)",
        dedent(code).strip(),
        "data = None",
    )
    subprocess.run([DEBIAN_PYTHON, "-c", "\n".join(lines)], check=True, timeout=60)


def by_sqlite(path: Path, sql: str) -> None:
    """Run a statement the way any program could: with the functions that triggers need."""
    with closing(sqlite3.connect(path)) as con:
        for name in ("ST_MinX", "ST_MaxX", "ST_MinY", "ST_MaxY", "ST_IsEmpty"):
            con.create_function(name, 1, lambda blob: 0 if blob else None, deterministic=True)
        con.executescript(sql)


def feature(layer: str, wkt: str, **fields: str) -> str:
    set_fields = "\n".join(f"f.SetField({n!r}, {v!r})" for n, v in fields.items())
    return (
        f"layer = data.GetLayerByName({layer!r})\n"
        "f = ogr.Feature(layer.GetLayerDefn())\n"
        f"f.SetGeometry(ogr.CreateGeometryFromWkt({wkt!r}))\n{set_fields}\n"
        "layer.CreateFeature(f)"
    )


def in_place(shape: shapely.Geometry) -> str:
    return str(shapely.to_wkt(shapely.transform(shape, lambda c: c + np.array((EAST, NORTH)))))


def moved(number: str, east: float, north: float) -> str:
    return f"""
layer = data.GetLayerByName('grave')
layer.SetAttributeFilter("number = '{number}'")
f = layer.GetNextFeature()
ring = f.GetGeometryRef().GetGeometryRef(0)
for i in range(ring.GetPointCount()):
    e, n, *_ = ring.GetPoint(i)
    ring.SetPoint_2D(i, e + {east}, n + {north})
layer.SetFeature(f)
"""


def test_opening_it_for_update_and_changing_nothing_is_no_change(path: Path) -> None:
    by_gdal(path, "len(data)")
    with PlanFile.open(path) as file:
        assert file.changed_elsewhere == ()
        assert file.remarks == ()


def test_our_own_save_is_known_without_looking_at_the_rows(path: Path) -> None:
    counter = counter_of(path)
    assert untouched(path, counter)
    by_gdal(path, moved("G 1", 1.0, 0.0))
    assert not untouched(path, counter)


def test_a_row_added_by_gdal_is_an_addition(path: Path) -> None:
    before = read_plan(path)
    new = Rectangle(east=50.0, north=1.5, width=1.22, length=2.74, bearing_deg=0.0)
    by_gdal(path, feature("grave", in_place(new.outline()), number="G 50"))
    with PlanFile.open(path) as file:
        assert file.plan == before
        (change,) = file.changed_elsewhere
        assert change.before is None
        assert change.after is not None
        assert (change.after.kind, change.after.number) == (grave.KIND, "G 50")
        assert change.after.shape == new.outline()
        assert change.after.rectangle is not None
        found, wanted = astuple(change.after.rectangle), astuple(new)
        assert found == pytest.approx(wanted, abs=1e-9)
        assert change.after.status is Status.EXISTING
        assert change.after.details == grave.GraveDetails()


def test_a_grave_moved_by_gdal_keeps_its_size_to_the_last_bit(path: Path) -> None:
    by_gdal(path, moved("G 2", 1.25, -0.5))
    with PlanFile.open(path) as file:
        (change,) = file.changed_elsewhere
        assert change.before is not None
        assert change.after is not None
        was, now = change.before.rectangle, change.after.rectangle
        assert was is not None
        assert now == replace(was, east=was.east + 1.25, north=was.north - 0.5)


def test_a_grave_drawn_crooked_by_gdal_is_no_longer_a_rectangle(path: Path) -> None:
    crooked = Polygon([(40, 0), (41, 0), (41.3, 2), (40, 2)])
    by_gdal(path, feature("grave", in_place(crooked), number="G 40"))
    with PlanFile.open(path) as file:
        (change,) = file.changed_elsewhere
        assert change.after is not None
        assert change.after.rectangle is None
        assert change.after.shape == crooked


def test_a_row_removed_by_gdal_is_a_removal(path: Path) -> None:
    (gone,) = (i for i in read_plan(path).items.values() if i.number == "G 3")
    by_gdal(path, f"data.ExecuteSQL(\"DELETE FROM grave WHERE id = '{gone.id}'\")")
    with PlanFile.open(path) as file:
        assert file.changed_elsewhere == (Change(gone, None),)


def test_a_detail_written_by_gdal_is_a_change_of_that_detail(path: Path) -> None:
    by_gdal(path, "data.ExecuteSQL(\"UPDATE tree SET species = 'Yew' WHERE number = 'T 1'\")")
    with PlanFile.open(path) as file:
        (change,) = file.changed_elsewhere
        assert change.before is not None
        assert change.after == replace(
            change.before, details=replace(change.before.details, species="Yew")
        )


def test_what_gdal_did_is_taken_in_as_one_edit(path: Path) -> None:
    by_gdal(path, moved("G 2", 1.0, 0.0))
    by_gdal(path, feature("tree", in_place(shapely.Point(5, 5)), number="T 2"))
    with PlanFile.open(path) as file:
        document = Document(file.plan, journal=file)
        entry = document.apply(
            Replace(made=file.changed_elsewhere, title="Changed by another program")
        )
        assert entry is not None
        assert len(entry.changes) == 2
        assert read_plan(file.working_copy) == document.plan
        file.save()
        after = document.plan
    with PlanFile.open(path) as file:
        assert file.plan == after
        assert file.changed_elsewhere == ()
    assert verify(path).findings == ()


def test_what_gdal_did_can_be_refused(path: Path) -> None:
    before = read_plan(path)
    by_gdal(path, moved("G 2", 1.0, 0.0))
    by_gdal(path, feature("tree", in_place(shapely.Point(5, 5)), number="T 2"))
    by_gdal(path, "data.ExecuteSQL(\"DELETE FROM grave WHERE number = 'G 3'\")")
    assert read_plan(path) == before
    with PlanFile.open(path) as file:
        assert len(file.changed_elsewhere) == 3
        file.save()
    assert read_plan(path) == before
    assert list(read_plan(path).items.values())[-1].number == "G 3"  # put back: it came last
    assert verify(path).findings == ()
    with closing(sqlite3.connect(backup_of(path))) as con:
        assert con.execute("SELECT count(*) FROM tree").fetchone() == (2,)


def test_a_grave_that_is_pointed_at_stays(path: Path) -> None:
    by_gdal(path, "data.ExecuteSQL(\"DELETE FROM grave WHERE number IN ('G 1', 'G 3')\")")
    with PlanFile.open(path) as file:
        (change,) = file.changed_elsewhere
        assert change.before is not None
        assert change.before.number == "G 3"
        (remark,) = file.remarks
        assert "Grave G 1 was removed by another program" in remark
        Document(file.plan, journal=file).apply(
            Replace(made=file.changed_elsewhere, title="Changed")
        )


def test_a_row_that_then_points_at_nothing_is_left_as_it_was(path: Path) -> None:
    by_gdal(path, "data.ExecuteSQL(\"UPDATE burial SET grave = 'nobody'\")")
    with PlanFile.open(path) as file:
        assert file.changed_elsewhere == ()
        (remark,) = file.remarks
        assert "points" in remark


def test_a_number_borne_twice_is_left_out(path: Path) -> None:
    new = Rectangle(east=50.0, north=1.5, width=1.22, length=2.74)
    by_gdal(path, feature("grave", in_place(new.outline()), number="g1"))
    with PlanFile.open(path) as file:
        (change,) = file.changed_elsewhere
        assert change.after is not None
        assert change.after.number == ""
        assert "twice" in file.remarks[0]


ODD = {
    "a shape of another sort": feature("grave", f"POINT ({EAST} {NORTH})"),
    "no shape": "layer = data.GetLayerByName('tree')\n"
    "layer.CreateFeature(ogr.Feature(layer.GetLayerDefn()))",
    "far away": feature("tree", "POINT (5 5)"),
    "an empty shape": feature("tree", "POINT EMPTY"),
    "several points": feature("tree", f"MULTIPOINT ({EAST} {NORTH}, {EAST} 218005)"),
    "a curve": feature(
        "fence", f"CIRCULARSTRING ({EAST} {NORTH}, 456001 218001, 456002 {NORTH})"
    ),
    "a ring that crosses itself": feature(
        "zone", in_place(Polygon([(0, 0), (5, 5), (5, 0), (0, 5)]))
    ),
    "an unknown choice": feature("tree", f"POINT ({EAST} {NORTH})", status="felled"),
    "a number out of range": feature(
        "memorial", in_place(shapely.box(0, 0, 1, 1)), height_m="99"
    ),
}


@pytest.mark.parametrize("code", [pytest.param(c, id=n) for n, c in ODD.items()])
def test_a_row_that_cannot_be_an_item_is_told_and_not_lost(path: Path, code: str) -> None:
    before = read_plan(path)
    by_gdal(path, code)
    rows = count_of_rows(path)
    with PlanFile.open(path) as file:
        assert file.plan == before
        assert file.changed_elsewhere == ()
        (remark,) = file.remarks
        assert remark.startswith("Row ")
        file.save()
    with PlanFile.open(path) as file:  # saved by us, and still there
        assert file.plan == before
        assert len(file.remarks) == 1
    assert count_of_rows(path) == rows


def count_of_rows(path: Path) -> int:
    with closing(sqlite3.connect(path)) as con:
        tables = ("grave", "tree", "fence", "zone", "memorial")
        return sum(con.execute(f"SELECT count(*) FROM {t}").fetchone()[0] for t in tables)


def test_a_shape_spoilt_by_another_program_is_put_back(path: Path) -> None:
    before = read_plan(path)
    by_sqlite(path, "UPDATE tree SET geom = x'4750'")
    with PlanFile.open(path) as file:
        assert file.plan == before
        assert "tree" in file.remarks[0]
        file.save()
    assert read_plan(path) == before
    assert verify(path).findings == ()


def test_a_text_in_another_encoding_is_shown_as_far_as_it_can_be_read(path: Path) -> None:
    by_sqlite(path, "UPDATE tree SET species = CAST(x'4368EA6E65' AS TEXT)")
    with PlanFile.open(path) as file:
        (change,) = file.changed_elsewhere
        assert change.after is not None
        assert change.after.details.species == "Ch\ufffdne"


def test_an_id_borne_twice_is_told(path: Path) -> None:
    stolen = next(i.id for i in read_plan(path).items.values() if i.kind == grave.KIND)
    by_sqlite(path, f"UPDATE tree SET id = '{stolen}'")
    with PlanFile.open(path) as file:
        assert "id" in file.remarks[0]
        assert all(c.id != stolen for c in file.changed_elsewhere)


def test_a_table_that_was_dropped_comes_back_as_the_log_has_it(path: Path) -> None:
    before = read_plan(path)
    by_sqlite(path, "DROP TABLE tree")
    with PlanFile.open(path) as file:
        assert file.plan == before
        (change,) = file.changed_elsewhere
        assert change.after is None
        file.save()
    assert read_plan(path) == before


def test_tables_and_columns_of_others_survive_saving(path: Path) -> None:
    by_gdal(
        path,
        """
        from osgeo import osr
        system = osr.SpatialReference()
        system.ImportFromEPSG(27700)
        layer = data.CreateLayer("bats", system, ogr.wkbPoint)
        layer.CreateField(ogr.FieldDefn("seen", ogr.OFTString))
        f = ogr.Feature(layer.GetLayerDefn())
        f.SetField("seen", "1 May")
        f.SetGeometry(ogr.CreateGeometryFromWkt("POINT (456001 218001)"))
        layer.CreateFeature(f)
        data.GetLayerByName("grave").CreateField(ogr.FieldDefn("colour", ogr.OFTString))
        data.ExecuteSQL("UPDATE grave SET colour = 'grey'")
        """,
    )
    with PlanFile.open(path) as file:
        assert file.remarks == ()
        assert file.changed_elsewhere == ()
        document = Document(file.plan, journal=file)
        document.apply(Add(graves(1, first=9)))
        file.save()
    with closing(sqlite3.connect(path)) as con:
        assert con.execute("SELECT seen FROM bats").fetchall() == [("1 May",)]
        colours = con.execute("SELECT colour FROM grave ORDER BY fid").fetchall()
    assert colours == [("grey",)] * 3 + [(None,)]
    assert verify(path).findings == ()
