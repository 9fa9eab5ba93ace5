"""Pyramids on disk: right, whole or not there, made once."""

import errno
import hashlib
import itertools
import json
import os
import shutil
import time
from pathlib import Path

import numpy as np
import pytest
from pictures import as_bytes, as_file, drawing

from plan_editor.errors import CannotRead, NoRoom, NotAllowed
from plan_editor.scans import shelf
from plan_editor.scans.shelf import Frame, frame_of, put_on_shelf
from plan_editor.scans.tiles import digest_of, make_tiles, open_tiles

BIG = as_bytes(drawing("RGB", (2300, 1501)), "PNG", compress_level=1)
GREY = as_bytes(drawing("L", (1300, 900)), "PNG", compress_level=1)


def halved(pixels: np.ndarray) -> np.ndarray:
    """Return the means of two by two pixels; at an odd edge of those that are there."""
    odd = [(0, n % 2) for n in pixels.shape[:2]] + [(0, 0)] * (pixels.ndim - 2)
    padded = np.pad(pixels.astype(float), odd, mode="edge")
    return sum(padded[i::2, j::2] for i in (0, 1) for j in (0, 1)) / 4


def names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def test_the_finest_level_is_the_scan_itself(tmp_path):
    pyramid = open_tiles(make_tiles(BIG, tmp_path))
    assert (pyramid.levels[0].pixels == np.asarray(drawing("RGB", (2300, 1501)))).all()
    assert pyramid.colour
    assert (pyramid.width, pyramid.height) == (2300, 1501)


def test_each_level_is_the_means_of_two_by_two_pixels_below(tmp_path):
    levels = open_tiles(make_tiles(BIG, tmp_path)).levels
    assert [(v.scale, v.width, v.height) for v in levels] == [
        (1, 2300, 1501),
        (2, 1150, 751),
        (4, 575, 376),
    ]
    for below, level in itertools.pairwise(levels):
        assert np.abs(level.pixels - halved(below.pixels)).max() <= 0.5


def test_levels_are_the_same_however_small_the_strips(tmp_path, monkeypatch):
    whole = open_tiles(make_tiles(BIG, tmp_path / "one"))
    monkeypatch.setattr(shelf, "STRIP_BYTES", 100_000)
    cut = open_tiles(make_tiles(BIG, tmp_path / "other"))
    for one, other in zip(whole.levels, cut.levels, strict=True):
        assert (one.pixels == other.pixels).all()


def test_a_grey_scan_takes_one_byte_a_pixel(tmp_path):
    pyramid = open_tiles(make_tiles(GREY, tmp_path))
    assert not pyramid.colour
    assert pyramid.levels[0].file.stat().st_size == 1300 * 900


def test_a_folder_bears_the_digest_of_the_file(tmp_path):
    path = as_file(tmp_path, drawing(), "PNG")
    folder = make_tiles(path, tmp_path / "shelf")
    assert folder == tmp_path / "shelf" / hashlib.sha256(path.read_bytes()).hexdigest()
    assert digest_of(path) == digest_of(path.read_bytes())


def test_a_second_time_nothing_is_decoded(tmp_path):
    folder = make_tiles(GREY, tmp_path)
    before = (folder / "level_1.raw").stat().st_mtime_ns
    told = []
    assert make_tiles(GREY, tmp_path, progress=told.append) == folder
    assert (folder / "level_1.raw").stat().st_mtime_ns == before
    assert told == [1.0]


@pytest.mark.parametrize("harm", ["no facts", "short", "gone", "older edition", "nonsense"])
def test_what_is_not_whole_is_made_anew(tmp_path, harm):
    folder = make_tiles(GREY, tmp_path)
    facts = folder / "facts.json"
    match harm:
        case "no facts":
            facts.unlink()
        case "short":
            os.truncate(folder / "level_1.raw", 1000)
        case "gone":
            (folder / "level_2.raw").unlink()
        case "older edition":
            facts.write_text(json.dumps(json.loads(facts.read_text()) | {"edition": 0}))
        case "nonsense":
            facts.write_text("[]")
    with pytest.raises(CannotRead, match="not whole"):
        open_tiles(folder)
    assert make_tiles(GREY, tmp_path) == folder
    assert open_tiles(folder).width == 1300


def test_progress_grows_to_the_end(tmp_path, monkeypatch):
    monkeypatch.setattr(shelf, "STRIP_BYTES", 100_000)
    told = []
    make_tiles(BIG, tmp_path, progress=told.append)
    assert told == sorted(told)
    assert len(told) > 20
    assert told[-1] == pytest.approx(1.0)


@pytest.mark.parametrize("after", [0, 1, 5])
def test_what_is_cancelled_leaves_nothing_behind(tmp_path, monkeypatch, after):
    monkeypatch.setattr(shelf, "STRIP_BYTES", 1_000_000)
    asked = []

    def enough() -> bool:
        asked.append(None)
        return len(asked) > after

    assert make_tiles(BIG, tmp_path, cancelled=enough) is None
    assert names(tmp_path) == []


def test_a_scan_cut_short_leaves_nothing_behind(tmp_path):
    with pytest.raises(CannotRead, match="cut short"):
        make_tiles(GREY[:2000], tmp_path)
    assert names(tmp_path) == []


def test_a_full_disk_is_said_and_leaves_nothing_behind(tmp_path):
    frame = Frame(width=20, height=20, scale=1, colour=False)

    def strips():
        yield np.zeros((10, 20), dtype=np.uint8)
        raise OSError(errno.ENOSPC, "No space left on device")

    with pytest.raises(NoRoom, match="no room left"):
        put_on_shelf(
            tmp_path / "scan",
            frame,
            strips(),
            progress=lambda _: None,
            cancelled=lambda: False,
        )
    assert names(tmp_path) == []


def test_a_shelf_that_cannot_be_written_is_said(tmp_path):
    (tmp_path / "shelf").write_text("a file, no folder")
    with pytest.raises(NotAllowed, match="cannot be written"):
        make_tiles(GREY, tmp_path / "shelf")


def test_two_at_once_do_no_harm(tmp_path):
    # the other one is done while this one still writes
    def other(share: float) -> None:
        if share == 0.3:
            make_tiles(GREY, tmp_path)

    folder = make_tiles(GREY, tmp_path, progress=other)
    assert names(tmp_path) == [folder.name]
    assert open_tiles(folder).height == 900


def test_what_a_dead_program_left_half_made_is_cleared_away_after_a_day(tmp_path):
    old, new = tmp_path / ".making-old", tmp_path / ".making-new"
    for folder in (old, new):
        folder.mkdir()
        (folder / "level_1.raw").write_bytes(b"x")
    two_days_ago = time.time() - 2 * 86_400
    os.utime(old, (two_days_ago, two_days_ago))
    folder = make_tiles(GREY, tmp_path)
    assert names(tmp_path) == [".making-new", folder.name]


def test_what_another_program_tidied_away_at_that_moment_does_no_harm(tmp_path):
    # listed a moment ago, gone now: as a link that leads nowhere
    (tmp_path / f"{shelf.MAKING}gone").symlink_to(tmp_path / "nowhere")
    folder = make_tiles(GREY, tmp_path)
    assert folder is not None
    assert frame_of(folder) is not None


def test_the_level_is_the_coarsest_that_is_fine_enough(tmp_path):
    pyramid = open_tiles(make_tiles(BIG, tmp_path))
    wanted = [0.1, 1.0, 1.5, 1.6, 3.0, 3.1, 50.0]
    assert [pyramid.level_for(n) for n in wanted] == [0, 0, 0, 1, 1, 2, 2]


def test_a_window_is_a_view_of_what_is_there(tmp_path):
    pyramid = open_tiles(make_tiles(GREY, tmp_path))
    window = pyramid.window(1, 10, 20, 110, 70)
    assert window.shape == (50, 100)
    assert np.shares_memory(window, pyramid.levels[1].pixels)
    assert pyramid.window(0, -50, -50, 10, 20).shape == (20, 10)
    assert pyramid.window(0, 1290, 890, 5000, 5000).shape == (10, 10)
    assert pyramid.window(0, -20, 0, -10, 10).size == 0


def test_nobody_writes_into_the_pixels(tmp_path):
    pyramid = open_tiles(make_tiles(GREY, tmp_path))
    with pytest.raises(ValueError, match="read-only"):
        pyramid.levels[0].pixels[0, 0] = 1


def test_a_folder_that_is_not_there_has_no_frame(tmp_path):
    folder = make_tiles(GREY, tmp_path)
    assert frame_of(folder) == Frame(width=1300, height=900, scale=1, colour=False)
    shutil.rmtree(folder)
    assert frame_of(folder) is None


def test_a_picture_that_nobody_looked_for_gives_way_to_a_new_one(tmp_path):
    forgotten, used = make_tiles(GREY, tmp_path), make_tiles(BIG, tmp_path)
    long_ago = time.time() - 61 * 86_400
    for folder in (forgotten, used):
        os.utime(folder / shelf.FACTS, (long_ago, long_ago))
    open_tiles(used)
    newcomer = make_tiles(as_bytes(drawing("L", (40, 30)), "PNG"), tmp_path)
    assert names(tmp_path) == sorted([used.name, newcomer.name])
