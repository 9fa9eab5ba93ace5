"""Placed scans written for other programs."""

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from plan_editor.commands.exporting_base_plans import write_base_plan, write_base_plan_named
from plan_editor.edits.base_plans import drawing_item, placed, scan_item
from plan_editor.edits.basic import Add
from plan_editor.errors import CannotUse, NotAllowed
from plan_editor.plan.document import Document
from plan_editor.plan.item import ItemId
from plan_editor.storage.plan_file import PlanFile
from plan_editor.survey.fits.models import Model
from plan_editor.survey.grids.grid import Grid

GRID = Grid(crs="EPSG:27700", east=553100.0, north=421000.0)
SIX = (0.1, 0.02, 10.0, 0.02, -0.1, 20.0)
EIGHT = (*SIX, 0.0005, 0.0003)


def a_plan(folder: Path, suffix: str = ".png", **details) -> tuple[Path, ItemId]:
    """Return a saved plan with a placed scan of a dark spot, its middle at pixel 151, 82."""
    paper = np.full((120, 200), 220, dtype=np.uint8)
    paper[80:84, 149:153] = 0
    Image.fromarray(paper).save(folder / f"scan{suffix}")
    where = folder / "ground.gpkg"
    with PlanFile.create(where, name="x", grid=GRID) as file:
        content = (folder / f"scan{suffix}").read_bytes()
        digest = file.add(content, content_type="image/png", name="scan")
        item = scan_item("1962", digest, width=200, height=120)
        item = placed(replace(item, details=replace(item.details, **details)), SIX)
        on_desk = scan_item("on the desk", digest, width=200, height=120)
        drawing = placed(drawing_item("survey", digest, extent=(0, 0, 9, 9)), SIX)
        twin = replace(on_desk, id=ItemId("7" * 32))
        twins = [replace(i, details=replace(i.details, name="twin")) for i in (on_desk, twin)]
        other = replace(on_desk, id=ItemId("8" * 32))
        document = Document(file.plan, journal=file, author="a test")
        document.apply(Add(items=(item, other, drawing, *twins)))
        file.save()
    return where, item.id


def spot(path: Path) -> tuple[float, float]:
    """Return where the middle of the spot lies, by the tags of a GeoTIFF."""
    with Image.open(path) as image:
        side, tie = image.tag_v2[33550][0], image.tag_v2[33922]
        rows, columns = np.nonzero(np.asarray(image) < 60)
    return tie[3] + side * (columns.mean() + 0.5), tie[4] - side * (rows.mean() + 0.5)


@pytest.mark.parametrize(
    "details",
    [{"model": Model.AFFINE}, {"model": Model.PROJECTIVE, "bend": EIGHT}],
    ids=["affine", "projective"],
)
def test_a_geotiff_lies_in_the_plans_system(tmp_path, details):
    plan, item = a_plan(tmp_path, **details)
    done = write_base_plan(plan, item, tmp_path / "out.tif")
    w = 0.0005 * 151 + 0.0003 * 82 + 1 if "bend" in details else 1.0
    east = (0.1 * 151 + 0.02 * 82 + 10) / w + 553100
    north = (0.02 * 151 - 0.1 * 82 + 20) / w + 421000
    assert spot(done.path) == pytest.approx((east, north), abs=0.06)
    assert (done.crs, done.world_file) == ("EPSG:27700", None)
    assert done.basis.startswith("How well it lies is not known")
    (told,) = done.remarks
    assert "may be reproduced" in told


@pytest.mark.parametrize(
    ("suffix", "world"), [(".png", "out.pgw"), (".jpg", "out.jgw"), (".jp2", "out.j2w")]
)
def test_a_picture_is_written_as_it_came_with_a_world_file(tmp_path, suffix, world):
    plan, _ = a_plan(tmp_path, suffix, reproducible=True, model=Model.AFFINE)
    done = write_base_plan_named(plan, "1962", tmp_path / f"out{suffix}")
    assert done.path.read_bytes() == (tmp_path / f"scan{suffix}").read_bytes()
    assert done.world_file == tmp_path / world
    lines = [float(line) for line in done.world_file.read_text().splitlines()]
    # a, d, b, e, and the middle of the first pixel: 10 + 0.05 + 0.01, 20 + 0.01 - 0.05
    assert lines == pytest.approx([0.1, 0.02, 0.02, -0.1, 553110.06, 421019.96], abs=1e-9)
    assert done.remarks == ()


@pytest.mark.parametrize(
    ("base", "out", "says"),
    [
        ("1962", "out.jpg", r"end in .png or .tif"),
        ("1962", "out", r"end in .png or .tif"),
        ("1962", "ground.gpkg", "is a plan"),
        ("1926", "out.tif", "There is no base plan “1926”"),
        ("on the desk", "out.tif", "not placed yet"),
        ("survey", "out.tif", "drawing"),
        ("twin", "out.tif", "2 base plans"),
    ],
)
def test_what_cannot_be_written_is_said(tmp_path, base, out, says):
    plan, _ = a_plan(tmp_path)
    before = plan.read_bytes()
    with pytest.raises(CannotUse, match=says):
        write_base_plan_named(plan, base, tmp_path / out)
    assert plan.read_bytes() == before
    assert not (tmp_path / "out.tif").exists()


@pytest.mark.parametrize(
    ("left_out", "said"),
    [(None, "agree within 0.12 m. Measure"), (0.34, "one left out is missed by 0.34 m.")],
)
def test_how_well_its_points_agree_goes_with_it(tmp_path, left_out, said):
    plan, item = a_plan(tmp_path, rmse_m=0.12, loo_rmse_m=left_out)
    assert said in write_base_plan(plan, item, tmp_path / "out.tif").basis


def test_a_bent_fit_has_no_world_file(tmp_path):
    plan, item = a_plan(tmp_path, model=Model.PROJECTIVE, bend=EIGHT)
    with pytest.raises(CannotUse, match="a world file cannot say that"):
        write_base_plan(plan, item, tmp_path / "out.png")


def test_a_tiff_is_written_as_a_geotiff_only(tmp_path):
    plan, _ = a_plan(tmp_path, ".tif")
    with pytest.raises(CannotUse, match=r"end in \.tif"):
        write_base_plan_named(plan, "1962", tmp_path / "out.png")


def test_an_item_that_is_not_placed_is_refused(tmp_path):
    plan, _ = a_plan(tmp_path)
    with pytest.raises(CannotUse, match="not placed"):
        write_base_plan(plan, ItemId("8" * 32), tmp_path / "out.tif")


def test_a_folder_that_is_not_there_is_said(tmp_path):
    plan, _ = a_plan(tmp_path)
    for name in ("out.tif", "out.png"):
        with pytest.raises(NotAllowed, match="Choose another folder"):
            write_base_plan_named(plan, "1962", tmp_path / "nowhere" / name)


def test_a_turned_photograph_says_so(tmp_path):
    exif = Image.Exif()
    exif[274] = 6
    Image.new("L", (120, 200), 9).save(tmp_path / "scan.jpg", exif=exif)
    where = tmp_path / "turned.gpkg"
    with PlanFile.create(where, name="x", grid=GRID) as file:
        digest = file.add(
            (tmp_path / "scan.jpg").read_bytes(), content_type="image/jpeg", name="scan"
        )
        item = placed(scan_item("1962", digest, width=200, height=120), SIX)
        Document(file.plan, journal=file, author="a test").apply(Add(items=(item,)))
        file.save()
    done = write_base_plan_named(where, "1962", tmp_path / "out.jpg")
    assert "stored turned" in done.remarks[0]
