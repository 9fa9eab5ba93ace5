"""What memory a large scan takes: A0 at 300 dots per inch in colour.

One sort of file is tried at that size always; the others at a quarter of the area, and at full
size under the thorough profile.
"""

import json
import os
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

A0_AT_300 = (9933, 14043)
"""841 x 1189 mm (ISO 216) at 300 dots to 25.4 mm."""

OWN = 250.0
"""Megabytes that the process with all its libraries takes before any scan, rounded up."""

SIDE = 1.0 if os.environ.get("HYPOTHESIS_PROFILE") == "thorough" else 0.5
"""Of the sheets of the other sorts, as a part of the full side."""

pytestmark = pytest.mark.skipif(
    not sys.platform.startswith("linux"), reason="memory is read from /proc"
)


def paper(seed: int, side: float = 1.0) -> np.ndarray:
    """Return stained paper of that size, or smaller, with ink lines on it."""
    width, height = (int(side * pixels) for pixels in A0_AT_300)
    noise = np.random.default_rng(seed)
    stain = noise.integers(200, 255, (256, 256, 3), dtype=np.uint8)
    sheet = np.tile(stain, (height // 256 + 1, width // 256 + 1, 1))[:height, :width]
    sheet[::97] = 40
    sheet[:, ::131] = 40
    return sheet


def most() -> float:
    """Return the megabytes that the whole process may take: its own, and those of the scan."""
    return OWN + (1000 - OWN) * SIDE**2


def measured(folder: Path, scans: list[Path]) -> dict:
    program = Path(__file__).with_name("memory.py")
    done = subprocess.run(  # our own program
        [sys.executable, program, folder / "shelf", *scans],
        check=True,
        capture_output=True,
        text=True,
    )
    return json.loads(done.stdout)


def test_two_a0_scans_stay_within_a_gigabyte(tmp_path):
    scans = [tmp_path / "one.jpg", tmp_path / "two.jpg"]
    for seed, path in enumerate(scans):
        Image.fromarray(paper(seed)).save(path, quality=75)
    memory = measured(tmp_path, scans)
    assert memory["peak"] <= 1000
    assert memory["held"][1] - memory["held"][0] <= 150


@pytest.mark.parametrize(
    ("name", "how"),
    [
        ("scan.png", {"compress_level": 1}),
        ("scan.tif", {"compression": "tiff_lzw"}),
        ("progressive.jpg", {"progressive": True}),
    ],
)
def test_an_a0_scan_of_every_sort_stays_within_a_gigabyte(tmp_path, name, how):
    Image.fromarray(paper(1, SIDE)).save(tmp_path / name, **how)
    assert measured(tmp_path, [tmp_path / name])["peak"] <= most()


def test_an_a0_scan_in_jpeg_2000_stays_within_a_gigabyte(tmp_path):
    # just so large that it is halved, as the whole sheet is
    sheet = Image.fromarray(paper(1, max(SIDE, 0.55)))
    sheet.save(tmp_path / "scan.jp2", quality_mode="rates", quality_layers=[40])
    assert measured(tmp_path, [tmp_path / "scan.jp2"])["peak"] <= most()


def test_an_a0_scan_in_printers_colours_stays_within_a_gigabyte(tmp_path):
    Image.fromarray(paper(1, SIDE)).convert("CMYK").save(tmp_path / "scan.jpg", quality=75)
    assert measured(tmp_path, [tmp_path / "scan.jpg"])["peak"] <= most()


def test_an_a0_page_of_a_pdf_stays_within_a_gigabyte_in_both_processes(tmp_path):
    # a scan of A0 at 300 dots per inch, as a copy shop makes it
    Image.fromarray(paper(1, SIDE)).save(tmp_path / "scan.pdf", resolution=300)
    memory = measured(tmp_path, [tmp_path / "scan.pdf"])
    assert memory["peak"] <= most()
    assert memory["child"] <= most()


def test_an_a0_scan_at_600_in_black_and_white_stays_within_a_gigabyte(tmp_path):
    sheet = Image.fromarray(paper(1, SIDE)).convert("1", dither=Image.Dither.NONE)
    ink = sheet.resize((2 * sheet.width, 2 * sheet.height))
    ink.save(tmp_path / "scan.tif", compression="group4")
    assert measured(tmp_path, [tmp_path / "scan.tif"])["peak"] <= most()
