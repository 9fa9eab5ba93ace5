"""Strips of a decoded scan, against Pillow's own whole pictures."""

import io

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from pictures import as_bytes, drawing, with_turn
from PIL import Image, ImageOps

from plan_editor.errors import CannotRead
from plan_editor.scans import facts
from plan_editor.scans.decoding import Decoded, decoded


def whole(scan: Decoded, rows: int = 37) -> np.ndarray:
    """Return all of a scan, put together from strips."""
    tops = range(0, scan.height, rows)
    return np.concatenate([scan.strip(t, min(t + rows, scan.height)) for t in tops])


@pytest.mark.parametrize("kind", ["PNG", "TIFF", "JPEG"])
@pytest.mark.parametrize("turn", range(1, 9))
def test_strips_are_upright_as_pillow_turns_the_picture(kind, turn):
    content = as_bytes(drawing(), kind, exif=with_turn(turn))
    with Image.open(io.BytesIO(content)) as image:
        upright = np.asarray(ImageOps.exif_transpose(image))
    scan = decoded(content)
    assert (scan.width, scan.height) == (upright.shape[1], upright.shape[0])
    assert (whole(scan) == upright).all()


def test_black_and_white_is_black_and_white():
    image = drawing("1")
    scan = decoded(as_bytes(image, "TIFF", compression="group4"))
    assert not scan.colour
    assert (whole(scan) == np.asarray(image) * 255).all()


def test_colours_of_a_palette_are_colours():
    image = drawing("P")
    scan = decoded(as_bytes(image, "PNG"))
    assert (whole(scan) == np.asarray(image.convert("RGB"))).all()


@pytest.mark.parametrize("kind", ["PNG", "TIFF"])
def test_sixteen_bits_become_their_upper_eight(kind):
    values = (np.arange(160 * 120, dtype=np.uint32) * 3).astype(np.uint16).reshape(120, 160)
    scan = decoded(as_bytes(Image.fromarray(values), kind))
    assert not scan.colour
    assert (whole(scan) == values // 256).all()


def test_sixteen_bits_of_the_other_byte_order_are_the_same():
    values = np.arange(160 * 120, dtype=">u2").reshape(120, 160)
    image = Image.frombytes("I;16B", (160, 120), values.tobytes())
    assert (whole(decoded(as_bytes(image, "TIFF"))) == values // 256).all()


@pytest.mark.parametrize(
    ("mode", "clear", "expected"),
    [
        ("RGBA", (10, 20, 30, 0), (255, 255, 255)),
        ("RGBA", (10, 20, 30, 255), (10, 20, 30)),
        ("RGBA", (0, 0, 0, 128), (127, 127, 127)),
        ("LA", (40, 0), 255),
        ("LA", (40, 255), 40),
    ],
)
def test_what_is_clear_shows_white_paper(mode, clear, expected):
    scan = decoded(as_bytes(Image.new(mode, (20, 20), clear), "PNG"))
    assert np.abs(whole(scan)[3, 4].astype(int) - expected).max() <= 1


def test_a_colour_of_a_palette_can_be_clear():
    image = Image.new("P", (20, 20), 1)
    image.putpalette([9, 9, 9, 80, 90, 100])
    scan = decoded(as_bytes(image, "PNG", transparency=1))
    assert whole(scan)[0, 0].tolist() == [255, 255, 255]


def test_a_grey_can_be_clear():
    image = Image.new("L", (20, 20), 7)
    scan = decoded(as_bytes(image, "PNG", transparency=7))
    assert not scan.colour
    assert whole(scan)[0, 0] == 255


def test_printers_colours_become_those_of_a_screen():
    # no ink is white, all of black is black
    paper = Image.new("CMYK", (40, 40), (0, 0, 0, 0))
    paper.paste((0, 0, 0, 255), (0, 0, 40, 20))
    pixels = whole(decoded(as_bytes(paper, "TIFF")))
    assert pixels[30, 5].tolist() == [255, 255, 255]
    assert pixels[5, 5].tolist() == [0, 0, 0]


@pytest.mark.parametrize("size", [(160, 120), (161, 121), (33, 47)])
@pytest.mark.parametrize("turn", [1, 6])
def test_very_large_black_and_white_is_halved_to_grey(monkeypatch, size, turn):
    monkeypatch.setattr(facts, "HALVED_1_BIT", 1000)
    image = drawing("1", size)
    scan = decoded(as_bytes(image, "PNG", exif=with_turn(turn)))
    upright = np.asarray(image) * 255.0
    if turn == 6:
        upright = np.rot90(upright, -1)
    assert scan.scale == 2
    assert (scan.width, scan.height) == tuple((n + 1) // 2 for n in upright.shape[::-1])
    assert np.abs(whole(scan, rows=10) - means(upright)).max() <= 0.5


def means(pixels: np.ndarray) -> np.ndarray:
    """Return the means of two by two pixels; at an odd edge of those that are there."""
    odd = [(0, n % 2) for n in pixels.shape]
    padded = np.pad(pixels, odd, mode="edge")
    quarters = [padded[i::2, j::2] for i in (0, 1) for j in (0, 1)]
    return sum(quarters) / 4


@pytest.mark.parametrize("how", [{}, {"progressive": True}])
def test_a_very_large_jpeg_is_decoded_at_half_resolution(monkeypatch, how):
    monkeypatch.setattr(facts, "HALVED_JPEG", 1000)
    monkeypatch.setattr(facts, "HALVED_PROGRESSIVE", 1000)
    image = drawing(size=(161, 121))
    scan = decoded(as_bytes(image, "JPEG", quality=95, **how))
    assert (scan.scale, scan.width, scan.height) == (2, 81, 61)
    half = np.asarray(image.reduce(2)).astype(int)
    assert np.abs(whole(scan)[:60, :80] - half[:60, :80]).mean() < 2


@pytest.mark.parametrize(("width", "height", "share"), [(160, 120, 0.5), (160, 120, 0.9)])
def test_a_scan_cut_short_is_not_decoded(width, height, share):
    content = as_bytes(drawing(size=(width, height)), "JPEG")
    with pytest.raises(CannotRead, match="cut short"):
        decoded(content[: int(len(content) * share)])


@given(st.integers(1, 8), st.integers(16, 40), st.integers(16, 40), st.integers(1, 45))
def test_strips_of_any_height_make_the_same_picture(turn, width, height, rows):
    scan = decoded(as_bytes(drawing("L", (width, height)), "PNG", exif=with_turn(turn)))
    assert (whole(scan, rows) == scan.strip(0, scan.height)).all()


def test_jpeg_2000_without_loss_is_what_it_was():
    image = drawing(size=(161, 121))
    scan = decoded(as_bytes(image, "JPEG2000", irreversible=False))
    assert (whole(scan) == np.asarray(image)).all()


@pytest.mark.parametrize(("most", "scale"), [(10_000, 2), (2_000, 4)])
def test_a_very_large_jpeg_2000_is_halved_until_it_is_small(monkeypatch, most, scale):
    monkeypatch.setattr(facts, "HALVED_JPEG_2000", most)
    image = drawing(size=(161, 121))
    scan = decoded(as_bytes(image, "JPEG2000", irreversible=False))
    assert scan.scale == scale
    assert (scan.width, scan.height) == pytest.approx((161 / scale, 121 / scale), abs=0.75)
    coarse = np.asarray(image.reduce(scale)).astype(int)
    same = tuple(slice(0, n) for n in (121 // scale, 161 // scale))
    assert np.abs(whole(scan)[same] - coarse[same]).mean() < 4


@pytest.mark.parametrize("kind", ["float", "whole"])
def test_greys_of_32_bits_are_spread_from_the_darkest_to_the_lightest(kind):
    values = np.linspace(-3000.0, 7000.0, 160 * 120).reshape(120, 160)
    numbers = values.astype(np.float32 if kind == "float" else np.int32)
    scan = decoded(as_bytes(Image.fromarray(numbers), "TIFF"))
    found = whole(scan)
    assert not scan.colour
    assert (found.min(), found.max()) == (0, 255)
    # a step of 10,000 / 255 = 39.2 in the file is one grey
    assert np.abs(found - (numbers + 3000.0) / 39.2157).max() <= 0.51


def test_what_is_no_number_is_white_paper():
    values = np.full((40, 40), 5.0, dtype=np.float32)
    values[0] = np.nan
    values[1] = -np.inf
    values[2] = 9.0
    found = whole(decoded(as_bytes(Image.fromarray(values), "TIFF")))
    assert [found[row, 0] for row in (0, 2, 3)] == [255, 255, 0]


@pytest.mark.parametrize("value", [7.0, np.nan])
def test_one_grey_of_32_bits_is_white_paper(value):
    values = np.full((40, 40), value, dtype=np.float32)
    assert (whole(decoded(as_bytes(Image.fromarray(values), "TIFF"))) == 255).all()


def test_a_page_of_a_tiff_is_that_page():
    pages = [drawing("L", (100 + n, 80)) for n in range(3)]
    content = as_bytes(pages[0], "TIFF", save_all=True, append_images=pages[1:])
    for n, page in enumerate(pages):
        assert (whole(decoded(content, n + 1)) == np.asarray(page)).all()
    assert decoded(content).width == 100
