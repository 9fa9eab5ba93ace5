"""Scans of every sort laid under the ground; what is said of them."""

import io
from pathlib import Path

import numpy as np
import pytest
from PIL import Image
from PIL.TiffImagePlugin import ImageFileDirectory_v2

from plan_editor.commands import referencing
from plan_editor.commands.backdrops import backdrops
from plan_editor.commands.laying import lay, pages_in
from plan_editor.edits.georeferenced import as_referenced
from plan_editor.errors import CannotRead, NotThere
from plan_editor.ground.base_plans import laid
from plan_editor.plan.document import Document
from plan_editor.plan.item import BASE_PLAN
from plan_editor.plan.plan import plan_of
from plan_editor.storage.plan_file import PlanFile
from plan_editor.survey.grids.grid import Grid

GRID = Grid(crs="EPSG:27700", east=553100.0, north=421000.0)
WORLD = "0.1\n0\n0\n-0.1\n553110.05\n421019.95\n"


@pytest.fixture
def file(tmp_path):
    with PlanFile.create(tmp_path / "ground.gpkg", name="St Bega", grid=GRID) as found:
        yield found


def laid_down(file, path: Path, page: int = 1):
    """Lay a file; return the document and what was said."""
    document = Document(file.plan, journal=file, author="a test")
    return document, lay(document, file, path, name="1962", page=page)


def details_of(document):
    (item,) = document.plan.by_kind[BASE_PLAN].values()
    return item.details


def picture(path: Path, mode: str = "L", **how) -> Path:
    Image.new(mode, (200, 100), 200 if mode == "L" else None).save(path, **how)
    return path


def tagged(path: Path, epsg: int) -> Path:
    tags = ImageFileDirectory_v2()
    for tag, sort, value in (
        (33550, 12, (0.1, 0.1, 0.0)),
        (33922, 12, (0.0, 0.0, 0.0, 553110.0, 421020.0, 0.0)),
        (34735, 3, (1, 1, 0, 2, 1024, 0, 1, 1, 3072, 0, 1, epsg)),
    ):
        tags.tagtype[tag] = sort
        tags[tag] = value
    return picture(path, tiffinfo=tags)


def test_a_scan_without_coordinates_waits(file, tmp_path):
    document, done = laid_down(file, picture(tmp_path / "scan.png"))
    assert not done.placed
    assert done.text == "1962: a scan of 200 by 100 pixels. It is not placed yet."
    assert laid(document.plan) == ()


@pytest.mark.parametrize("name", ["scan.pgw", "SCAN.PGW", "scan.pngw", "scan.wld"])
def test_a_scan_beside_a_world_file_is_placed(file, tmp_path, name):
    (tmp_path / name).write_text(WORLD)
    document, done = laid_down(file, picture(tmp_path / "scan.png"))
    assert done.placed
    assert f"placed by its world file {name}" in done.text
    assert "taken for the plan's own" in done.text
    assert details_of(document).fit == pytest.approx((0.1, 0.0, 10.0, 0.0, -0.1, 20.0))


def test_a_world_file_far_from_the_plan_is_said(file, tmp_path):
    (tmp_path / "scan.pgw").write_text(WORLD.replace("553110", "3110"))
    _, done = laid_down(file, picture(tmp_path / "scan.png"))
    assert not done.placed
    assert "more than 100 km" in done.text


def test_a_world_file_that_is_none_is_said_and_the_scan_is_laid(file, tmp_path):
    (tmp_path / "scan.pgw").write_text(WORLD.replace("553110.05", "nan"))
    _, done = laid_down(file, picture(tmp_path / "scan.png"))
    assert not done.placed
    assert "line 5, “nan”, is no number" in done.text


def test_a_world_file_that_may_not_be_read_is_said(file, tmp_path, monkeypatch):
    (tmp_path / "scan.pgw").write_text(WORLD)
    monkeypatch.setattr(referencing, "_world_file", lambda _: tmp_path / "gone.pgw")
    _, done = laid_down(file, picture(tmp_path / "scan.png"))
    assert "gone.pgw cannot be opened" in done.text


def test_a_folder_that_may_not_be_looked_into_has_no_world_file(tmp_path):
    assert referencing._world_file(tmp_path / "nowhere" / "scan.png") is None


def test_tags_of_the_plans_own_system_place_a_scan(file, tmp_path):
    (tmp_path / "scan.tfw").write_text(WORLD.replace("553110.05", "553777"))
    document, done = laid_down(file, tagged(tmp_path / "scan.tif", 27700))
    assert done.text.endswith("It is placed by its GeoTIFF tags.")
    assert details_of(document).fit == pytest.approx((0.1, 0.0, 10.0, 0.0, -0.1, 20.0))


@pytest.mark.parametrize(
    ("epsg", "says"),
    [(32630, "of EPSG:32630, and the plan's of EPSG:27700"), (32767, "not name by a number")],
)
def test_tags_of_another_system_are_said(file, tmp_path, epsg, says):
    _, done = laid_down(file, tagged(tmp_path / "scan.tif", epsg))
    assert not done.placed
    assert says in done.text


def test_on_a_local_grid_no_system_counts(tmp_path):
    with PlanFile.create(tmp_path / "local.gpkg", name="x", grid=Grid()) as file:
        _, done = laid_down(file, tagged(tmp_path / "scan.tif", 27700))
    assert "and the plan's of a local grid" in done.text


def pages(path: Path) -> Path:
    first, second = Image.new("L", (200, 100), 250), Image.new("L", (80, 60), 10)
    first.save(path, save_all=True, append_images=[second], resolution=100)
    return path


@pytest.mark.parametrize(
    ("name", "size"), [("scan.tif", "80 by 60"), ("scan.pdf", "240 by 180")]
)
def test_one_page_of_several_is_laid(file, tmp_path, name, size):
    path = pages(tmp_path / name)
    assert pages_in(path) == 2
    document, done = laid_down(file, path, page=2)
    assert f"a scan of {size} pixels, page 2 of 2." in done.text
    details = details_of(document)
    assert details.page == 2
    # the bytes are those of the file, and what is drawn is the page
    assert file.read(details.digest) == path.read_bytes()
    (item,) = document.plan.by_kind[BASE_PLAN].values()
    there = as_referenced(item, (0.1, 0.0, 553100.0, 0.0, -0.1, 421000.0), GRID)
    (drop,) = backdrops(laid(plan_of([there])), file)
    pixels = drop.content.resampled(drop.laid.mapping, (0.5, -1.5, 1.5, -0.5), 0.1)
    assert pixels.mean() == pytest.approx(10, abs=1)


def test_a_page_that_is_not_there_is_said_with_the_name_of_the_file(file, tmp_path):
    with pytest.raises(CannotRead, match=r"scan.tif: .* no page 3"):
        laid_down(file, pages(tmp_path / "scan.tif"), page=3)


def test_only_some_sorts_of_file_have_pages(tmp_path):
    assert pages_in(tmp_path / "gone.png") == 1
    with pytest.raises(NotThere):
        pages_in(tmp_path / "gone.pdf")
    (tmp_path / "bad.pdf").write_bytes(b"%PDF-1.7")
    with pytest.raises(CannotRead, match=r"bad\.pdf: This PDF is damaged"):
        pages_in(tmp_path / "bad.pdf")


def test_a_drawing_has_one_page(file, tmp_path):
    (tmp_path / "x.dxf").write_text("0\nEOF\n")
    with pytest.raises(CannotRead, match=r"x.dxf: .* no page 2"):
        laid_down(file, tmp_path / "x.dxf", page=2)


def test_what_is_lost_of_a_scan_is_said(file, tmp_path):
    values = np.linspace(0, 60_000, 20_000).reshape(100, 200).astype(np.uint16)
    Image.fromarray(values).save(tmp_path / "scan.tif")
    _, done = laid_down(file, tmp_path / "scan.tif")
    assert "65,536 greys are kept as 256. It is not placed yet." in done.text


def test_a_world_file_is_of_the_first_page_only(file, tmp_path):
    (tmp_path / "scan.tfw").write_text(WORLD)
    _, done = laid_down(file, pages(tmp_path / "scan.tif"), page=2)
    assert not done.placed


def test_what_cannot_be_decoded_is_not_kept(file, tmp_path):
    stream = io.BytesIO()
    Image.effect_noise((300, 300), 90).save(stream, "PNG")
    (tmp_path / "cut.png").write_bytes(stream.getvalue()[:20_000])
    with pytest.raises(CannotRead, match=r"cut\.png: .* cut short"):
        laid_down(file, tmp_path / "cut.png")
