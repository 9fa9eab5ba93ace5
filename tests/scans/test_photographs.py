"""Photographs as the plan keeps them: small, upright, nothing of the camera left in them."""

import io
import struct

import numpy as np
import pytest
from PIL import Image

from plan_editor.errors import CannotRead
from plan_editor.scans.photographs import LONGEST, photograph

_AT = struct.Struct("<I").pack


def _ascii(text: str) -> bytes:
    return text.encode() + b"\0"


def _entry(tag: int, sort: int, count: int, value: bytes) -> bytes:
    return struct.pack("<HHI", tag, sort, count) + value.ljust(4, b"\0")


def exif(*, taken: str, lat=(51, 28, 40.0), lon=(0, 0, 5.0), sides=("N", "W")) -> bytes:
    """Write what a camera notes, by hand, after CIPA DC-008 (Exif 2.32) and TIFF 6.0."""
    parts = (*lat, *lon)
    rationals = b"".join(struct.pack("<II", round(p * 100), 100) for p in parts)
    date = _ascii(taken)
    sub = 8 + 2 + 2 * 12 + 4
    gps = sub + 2 + 12 + 4
    texts = gps + 2 + 4 * 12 + 4
    places = texts + len(date)
    return b"".join(
        (
            b"Exif\0\0II*\0" + _AT(8),
            struct.pack("<H", 2),
            _entry(0x8769, 4, 1, _AT(sub)),
            _entry(0x8825, 4, 1, _AT(gps)),
            _AT(0),
            struct.pack("<H", 1),
            _entry(0x9003, 2, len(date), _AT(texts)),
            _AT(0),
            struct.pack("<H", 4),
            _entry(1, 2, 2, _ascii(sides[0])),
            _entry(2, 5, 3, _AT(places)),
            _entry(3, 2, 2, _ascii(sides[1])),
            _entry(4, 5, 3, _AT(places + 24)),
            _AT(0),
            date,
            rationals,
        )
    )


def jpeg(width: int = 400, height: int = 300, noted: bytes = b"") -> bytes:
    pixels = np.full((height, width, 3), 120, dtype=np.uint8)
    pixels[: height // 2] = (200, 40, 40)
    out = io.BytesIO()
    Image.fromarray(pixels).save(out, "JPEG", exif=noted)
    return out.getvalue()


TAKEN = "2026:03:14 10:20:30"
GREENWICH = exif(taken=TAKEN)
"""51° 28' 40" N, 0° 0' 5" W: the observatory of Greenwich, to a second."""


def test_day_and_place_are_read_and_then_left_out() -> None:
    made = photograph(jpeg(noted=GREENWICH))
    assert made.taken == "2026-03-14"
    assert made.place == pytest.approx((-0.0013889, 51.4777778), abs=1e-6)
    with Image.open(io.BytesIO(made.content)) as kept:
        assert "exif" not in kept.info
    assert b"Exif" not in made.content
    assert b"2026" not in made.content


def test_a_large_photograph_is_made_smaller_and_a_small_one_is_not() -> None:
    large, small = photograph(jpeg(4000, 3000)), photograph(jpeg(400, 300))
    assert (large.width, large.height) == (LONGEST, LONGEST * 3 // 4)
    assert (small.width, small.height) == (400, 300)


def test_a_photograph_that_lies_on_its_side_is_put_upright() -> None:
    noted = Image.Exif()
    noted[0x0112] = 6  # CIPA DC-008: its first row is the right side
    made = photograph(jpeg(400, 300, noted.tobytes()))
    assert (made.width, made.height) == (300, 400)


def test_a_photograph_of_which_nothing_is_noted_has_neither_day_nor_place() -> None:
    made = photograph(jpeg())
    assert (made.taken, made.place) == ("", None)


@pytest.mark.parametrize(
    "noted",
    [
        exif(taken="0000:00:00 00:00:00", lat=(0, 0, 0.0), lon=(0, 0, 0.0)),
        exif(taken="yesterday", lat=(95, 0, 0.0)),
        exif(taken="", lon=(181, 0, 0.0)),
    ],
)
def test_what_a_camera_without_a_fix_or_clock_writes_is_not_believed(noted: bytes) -> None:
    made = photograph(jpeg(noted=noted))
    assert (made.taken, made.place) == ("", None)


def test_a_place_that_is_no_number_is_passed_over() -> None:
    noted = GREENWICH[:-16] + struct.pack("<II", 1, 0) + GREENWICH[-8:]
    assert photograph(jpeg(noted=noted)).place is None


def test_southern_places_count_below_nought_and_eastern_ones_above() -> None:
    noted = exif(taken="", lat=(33, 51, 31.0), lon=(151, 12, 51.0), sides=("S", "E"))
    assert photograph(jpeg(noted=noted)).place == pytest.approx((151.214167, -33.858611))


@pytest.mark.parametrize("source", [b"", b"no picture", jpeg()[:200]])
def test_what_is_no_picture_is_refused(source: bytes) -> None:
    with pytest.raises(CannotRead):
        photograph(source)
