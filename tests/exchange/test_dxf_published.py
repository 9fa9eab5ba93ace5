"""Drawings that nobody here made: the integration tests' files of the ezdxf sources.

Each is read or refused in one sentence, and several are compared with what GDAL finds in them.
"""

from pathlib import Path
from typing import Any

import numpy as np
import pyogrio
import pytest
import shapely
from drawings import lines_of

from plan_editor.errors import CannotRead
from plan_editor.exchange.formats.dxf.reading import Found, read_drawing, read_here


@pytest.fixture(scope="session")
def published(ezdxf_sources: Path) -> Path:
    return ezdxf_sources / "integration_tests" / "data"


def _by_gdal(path: Path) -> list[tuple[str, Any]]:
    """Return what GDAL finds in the model space: the class of each thing, and its shape."""
    meta, _, shapes, fields = pyogrio.raw.read(path)
    names = list(meta["fields"])
    classes = fields[names.index("SubClasses")]
    return list(zip(map(str, classes), map(shapely.from_wkb, shapes), strict=True))


def _lengths(found: Found) -> list[float]:
    return sorted(float(np.hypot(*np.diff(line, axis=0).T).sum()) for line in lines_of(found))


def test_every_one_is_read_or_refused_in_a_sentence(published: Path) -> None:
    files = sorted(p for p in published.iterdir() if p.is_file())
    read, refused = set(), {}
    for path in files:
        try:
            found = read_here(path.read_bytes())
        except CannotRead as error:
            refused[path.name] = str(error)
            continue
        read.add(path.name)
        assert len(found.lengths) + len(found.texts) > 0, path.name
        assert np.isfinite(found.points).all(), path.name
        assert np.isfinite(found.frames).all(), path.name
    assert len(files) >= 36
    assert len(read) == 27
    for name, said in refused.items():
        assert "Nothing was changed." in said, name
        assert "\n" not in said, name
        if name.endswith(".dxf"):
            assert _by_gdal(published / name) == []  # nor does GDAL find anything in it


def test_the_measuring_instruments_drawing(published: Path) -> None:
    # 11 POINT, 10 LINE, 11 TEXT in the file; GDAL finds the same
    path = published / "Leica_Disto_S910.dxf"
    found = read_drawing(path.read_bytes())
    assert found.report.done == (
        "32 lines",  # two for the cross of each point
        "11 texts",
        "11 points, drawn as a cross 0.2 m wide",
    )
    by_gdal = [shape for _, shape in _by_gdal(path)]
    straight = [g for g in by_gdal if g.geom_type == "LineString"]
    ours = shapely.union_all([shapely.LineString(x) for x in found.line_work.lines])
    assert len(straight) == 10
    assert shapely.hausdorff_distance(shapely.union_all(straight), ours) < 0.11
    for line in straight:
        assert ours.buffer(1e-6).covers(line)


def test_the_drawing_of_blocks_lies_where_gdal_puts_it(published: Path) -> None:
    path = published / "custom_blocks.dxf"
    found = read_here(path.read_bytes())
    assert found.unit.metres == 0.001  # $INSUNITS 4
    by_gdal = shapely.union_all([shape for _, shape in _by_gdal(path)])
    ours = shapely.union_all([shapely.LineString(x) for x in lines_of(found)])
    assert ours.length == pytest.approx(by_gdal.length, rel=1e-3)
    assert np.allclose(ours.bounds, by_gdal.bounds, atol=0.05)


def test_the_very_old_drawing_has_its_lines_and_arcs(published: Path) -> None:
    # 13 LINE and 9 ARC
    path = published / "AC1003_LINE_Example.dxf"
    found = read_here(path.read_bytes())
    assert len(_by_gdal(path)) == 22
    assert len(found.lengths) == 22
    assert sum(n == 2 for n in found.lengths) == 13
    assert found.report.passed_over == ("whatever lay in the damaged parts of the file",)


def test_arcs_circles_and_lines_are_as_long_as_gdal_finds_them(published: Path) -> None:
    path = published / "issue1106.dxf"
    found = read_here(path.read_bytes())
    by_gdal = sorted(shape.length for _, shape in _by_gdal(path))
    assert len(by_gdal) == len(found.lengths)
    # GDAL draws a circle with a chord for every four degrees: 0.02 % short
    assert np.allclose(_lengths(found), by_gdal, rtol=3e-4)


@pytest.mark.parametrize(("name", "lines"), [("small_r13.dxf", 16), ("empty_handles.dxf", 8)])
def test_plain_lines_agree_with_gdal_to_the_micrometre(
    published: Path, name: str, lines: int
) -> None:
    path = published / name
    found = read_here(path.read_bytes())
    ours = shapely.union_all([shapely.LineString(x) for x in lines_of(found)])
    theirs = shapely.union_all([shape for _, shape in _by_gdal(path)])
    assert len(found.lengths) == lines
    assert shapely.hausdorff_distance(ours, theirs) < 1e-6


def test_a_damaged_drawing_gives_its_lines_and_the_texts_that_gdal_finds(
    published: Path,
) -> None:
    # 1441 LINE are in it, of which GDAL finds none, and 63 TEXT, most of them blank
    path = published / "recover01.dxf"
    found = read_here(path.read_bytes())
    meta, _, _, fields = pyogrio.raw.read(path)
    texts = fields[list(meta["fields"]).index("Text")]
    assert len(texts) == 63
    assert sorted(found.texts) == sorted(t.strip() for t in texts if t and t.strip())
    assert len(found.lengths) == 1441


@pytest.mark.parametrize("version", ["r12", "r13", "r14"])
def test_a_binary_drawing_is_as_gdal_finds_it(published: Path, version: str) -> None:
    path = published / f"bin_dxf_{version}.dxf"
    ours = shapely.union_all(
        [shapely.LineString(x) for x in lines_of(read_here(path.read_bytes()))]
    )
    theirs = shapely.union_all([shape for _, shape in _by_gdal(path)])
    assert shapely.hausdorff_distance(ours, theirs) < 0.01
