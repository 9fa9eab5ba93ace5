"""What memory a large scan takes: A0 at 300 dots per inch in colour."""

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

LONG = os.environ.get("HYPOTHESIS_PROFILE") == "thorough"

pytestmark = pytest.mark.skipif(
    not sys.platform.startswith("linux"), reason="memory is read from /proc"
)


def paper(seed: int) -> np.ndarray:
    """Return stained paper of that size with ink lines on it."""
    width, height = A0_AT_300
    noise = np.random.default_rng(seed)
    stain = noise.integers(200, 255, (256, 256, 3), dtype=np.uint8)
    sheet = np.tile(stain, (height // 256 + 1, width // 256 + 1, 1))[:height, :width]
    sheet[::97] = 40
    sheet[:, ::131] = 40
    return sheet


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


@pytest.mark.skipif(not LONG, reason="takes a minute: run under HYPOTHESIS_PROFILE=thorough")
@pytest.mark.parametrize(
    ("name", "how"),
    [
        ("scan.png", {"compress_level": 1}),
        ("scan.tif", {"compression": "tiff_lzw"}),
        ("progressive.jpg", {"progressive": True}),
    ],
)
def test_an_a0_scan_of_every_sort_stays_within_a_gigabyte(tmp_path, name, how):
    Image.fromarray(paper(1)).save(tmp_path / name, **how)
    assert measured(tmp_path, [tmp_path / name])["peak"] <= 1000


@pytest.mark.skipif(not LONG, reason="takes a minute: run under HYPOTHESIS_PROFILE=thorough")
def test_an_a0_scan_at_600_in_black_and_white_stays_within_a_gigabyte(tmp_path):
    ink = (
        Image.fromarray(paper(1)).convert("1", dither=Image.Dither.NONE).resize((19866, 28087))
    )
    ink.save(tmp_path / "scan.tif", compression="group4")
    assert measured(tmp_path, [tmp_path / "scan.tif"])["peak"] <= 1000
