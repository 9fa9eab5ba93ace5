"""What a scan says of itself, and what is refused in a sentence."""

import struct
import zlib
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pictures import as_bytes, as_file, drawing, with_turn
from PIL import Image, ImageFile, TiffImagePlugin, TiffTags

from plan_editor.errors import CannotRead
from plan_editor.scans import facts, reading
from plan_editor.scans.decoding import decoded
from plan_editor.scans.facts import ScanFacts
from plan_editor.scans.reading import MOST_PIXELS, opened, probe


def png_of(width: int, height: int, *, bits: int, colour: int) -> bytes:
    """Return a PNG that claims a size, with next to no pixels in it: a decompression bomb."""

    def chunk(name: bytes, content: bytes) -> bytes:
        check = zlib.crc32(name + content)
        return struct.pack(">I", len(content)) + name + content + struct.pack(">I", check)

    head = struct.pack(">IIBBBBB", width, height, bits, colour, 0, 0, 0)
    return b"".join(
        [
            b"\x89PNG\r\n\x1a\n",
            chunk(b"IHDR", head),
            chunk(b"IDAT", zlib.compress(bytes(4096))),
            chunk(b"IEND", b""),
        ]
    )


def test_a_photograph_of_a_plan_says_what_it_is(tmp_path):
    path = as_file(tmp_path, drawing(), "JPEG", dpi=(300, 300))
    assert probe(path) == ScanFacts(
        width=160,
        height=120,
        mode="RGB",
        dpi=(300.0, 300.0),
        turn=1,
        format="JPEG",
        frames=1,
    )
    assert probe(path).colour


@pytest.mark.parametrize(
    ("mode", "kind", "how", "colour"),
    [
        ("1", "PNG", {}, False),
        ("1", "TIFF", {"compression": "group4"}, False),
        ("L", "JPEG", {}, False),
        ("L", "TIFF", {"compression": "tiff_lzw"}, False),
        ("RGB", "PNG", {}, True),
        ("RGB", "TIFF", {"compression": "jpeg"}, True),
        ("RGBA", "PNG", {}, True),
        ("P", "PNG", {}, True),
        ("CMYK", "JPEG", {}, True),
        ("LA", "PNG", {}, False),
        ("I;16", "PNG", {}, False),
        ("F", "TIFF", {}, False),
        ("I", "TIFF", {}, False),
        ("RGB", "JPEG2000", {}, True),
        ("L", "JPEG2000", {"no_jp2": True}, False),
    ],
)
def test_every_sort_of_picture_is_recognised(mode, kind, how, colour):
    found = probe(as_bytes(drawing(mode), kind, **how))
    assert (found.mode, found.format, found.colour) == (mode, kind, colour)
    assert (found.width, found.height) == (160, 120)


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "TIFF"])
@pytest.mark.parametrize("turn", range(1, 9))
def test_size_and_resolution_are_those_of_the_upright_picture(kind, turn):
    found = probe(as_bytes(drawing(), kind, exif=with_turn(turn), dpi=(200, 100)))
    assert found.turn == turn
    sideways = turn >= 5
    assert (found.width, found.height) == ((120, 160) if sideways else (160, 120))
    expected = (100.0, 200.0) if sideways else (200.0, 100.0)
    assert found.dpi == pytest.approx(expected, rel=1e-3)


def test_the_turn_of_a_png_may_stand_after_its_pixels():
    content = as_bytes(drawing(), "PNG", exif=with_turn(6))
    start = content.index(b"eXIf") - 4
    length = struct.unpack(">I", content[start : start + 4])[0]
    chunk, end = content[start : start + 12 + length], content.index(b"IEND") - 4
    moved = content[:start] + content[start + len(chunk) : end] + chunk + content[end:]
    assert probe(moved) == probe(content)
    assert probe(moved).turn == 6


def test_a_turn_that_does_not_exist_is_upright():
    assert probe(as_bytes(drawing(), "PNG", exif=with_turn(9))).turn == 1


@pytest.mark.parametrize("dpi", [(1, 1), (50_000, 50_000)])
def test_a_resolution_that_cannot_be_is_not_recorded(dpi):
    assert probe(as_bytes(drawing(), "PNG", dpi=dpi)).dpi is None


def test_no_resolution_is_none():
    assert probe(as_bytes(drawing(), "PNG")).dpi is None


def test_the_resolution_that_stands_for_none_is_none():
    # Exif 2.32, tag 282: where the resolution is unknown, 72 is written
    assert probe(as_bytes(drawing(), "JPEG", dpi=(72, 72))).dpi is None
    assert probe(as_bytes(drawing(), "JPEG", exif=with_turn(3))).dpi is None


def test_a_resolution_in_words_is_none():
    records = TiffImagePlugin.ImageFileDirectory_v2()
    records[282], records.tagtype[282] = "three hundred", TiffTags.ASCII
    records[283], records.tagtype[283] = "three hundred", TiffTags.ASCII
    records[296] = 2
    assert probe(as_bytes(drawing(), "TIFF", tiffinfo=records)).dpi is None


def test_pages_are_counted():
    pages = [drawing("L"), drawing("L")]
    content = as_bytes(drawing("L"), "TIFF", save_all=True, append_images=pages)
    assert (probe(content).frames, probe(content).pages) == (3, 3)


def test_several_pictures_of_a_camera_in_one_file_are_jpeg():
    content = as_bytes(drawing(), "MPO", save_all=True, append_images=[drawing()])
    found = probe(content)
    assert (found.format, found.frames, found.pages) == ("JPEG", 2, 1)


@pytest.mark.parametrize(
    "content",
    [
        b"",
        b"not a picture",
        b"%PDF-1.7\n",
        b"GIF89a" + bytes(50),
        b"\x89PNG\r\n\x1a\n",
        b"II*\x00",
        b"\xff\xd8\xff",
    ],
)
def test_what_is_no_picture_is_refused_in_a_sentence(content):
    with pytest.raises(CannotRead, match="nothing was changed"):
        probe(content)


def test_a_picture_of_another_format_is_refused():
    with pytest.raises(CannotRead, match="not a PNG, JPEG, TIFF, JPEG 2000 or PDF"):
        probe(as_bytes(drawing(), "BMP"))


def test_a_file_that_is_not_there_is_named():
    with pytest.raises(CannotRead, match="attic"):
        probe(Path("attic/plan.png"))


def test_an_icon_is_refused():
    with pytest.raises(CannotRead, match="only 15 by 90 pixels"):
        probe(as_bytes(drawing(size=(15, 90)), "PNG"))


def test_pixels_of_an_odd_sort_are_refused(monkeypatch):
    monkeypatch.setattr(reading, "GREY_MODES", frozenset({"L"}))
    with pytest.raises(CannotRead, match="not read here"):
        probe(as_bytes(drawing("1"), "TIFF"))


@pytest.mark.parametrize(
    ("width", "height", "bits", "colour"),
    [
        (20_001, 20_000, 8, 2),  # just over 400 million in colour
        (25_000, 24_001, 1, 0),  # just over 600 million in black and white
        (60_000, 60_000, 8, 2),  # 3.6 thousand million
        (2_000_000_000, 2_000_000_000, 8, 2),
    ],
)
def test_a_bomb_is_refused_before_it_is_unpacked(width, height, bits, colour):
    bomb = png_of(width, height, bits=bits, colour=colour)
    assert len(bomb) < 1000
    with pytest.raises(CannotRead, match="more than 400 million pixels"):
        probe(bomb)


def test_the_largest_scans_that_are_read_are_not_bombs():
    assert probe(png_of(20_000, 20_000, bits=8, colour=2)).width == 20_000
    # A0 at 600 dots per inch in black and white: 841 x 1189 mm
    a0 = probe(png_of(19_866, 28_087, bits=1, colour=0))
    assert a0.width * a0.height > MOST_PIXELS


WHOLE = {
    "JPEG": as_bytes(drawing(), "JPEG"),
    "progressive JPEG": as_bytes(drawing(), "JPEG", progressive=True),
    "PNG": as_bytes(drawing(), "PNG"),
    "plain TIFF": as_bytes(drawing(), "TIFF"),
    "LZW TIFF": as_bytes(drawing(), "TIFF", compression="tiff_lzw"),
    "JPEG 2000": as_bytes(drawing(), "JPEG2000"),
    "G4 TIFF": as_bytes(drawing("1"), "TIFF", compression="group4"),
}


@pytest.mark.parametrize("sort", WHOLE)
def test_a_whole_file_is_found_whole(sort):
    scan, found = decoded(WHOLE[sort]), probe(WHOLE[sort])
    assert (scan.width, scan.height, scan.colour) == (found.width, found.height, found.colour)


@pytest.mark.parametrize("share", [0.15, 0.5, 0.9, 0.98])
@pytest.mark.parametrize("sort", WHOLE)
def test_a_file_cut_short_is_refused(sort, share):
    content = WHOLE[sort]
    with pytest.raises(CannotRead, match="nothing was changed"):
        decoded(content[: int(len(content) * share)])


def test_too_little_memory_is_said():
    with pytest.raises(CannotRead, match="not enough memory"), opened(WHOLE["PNG"]):
        raise MemoryError


def test_pillow_is_not_asked_to_overlook_what_is_missing():
    assert not ImageFile.LOAD_TRUNCATED_IMAGES
    assert Image.MAX_IMAGE_PIXELS is not None


@given(
    st.sampled_from(sorted(WHOLE)),
    st.lists(st.tuples(st.floats(0, 1, exclude_max=True), st.integers(0, 255)), max_size=12),
)
def test_damage_is_either_harmless_or_refused_in_a_sentence(sort, hits):
    content = bytearray(WHOLE[sort])
    for where, value in hits:
        content[int(where * len(content))] = value
    try:
        scan = decoded(bytes(content))
    except CannotRead as refused:
        assert "nothing was changed" in str(refused)  # noqa: PT017  # either answer is right
    else:
        assert min(scan.width, scan.height) >= 16


@pytest.mark.parametrize("kind", ["PNG", "JPEG", "TIFF", "JPEG2000"])
@pytest.mark.parametrize("page", [0, 2, -1])
def test_a_page_that_is_not_there_is_refused(kind, page):
    with pytest.raises(CannotRead, match=f"only one page .* no page {page}"):
        probe(as_bytes(drawing(), kind), page)


def test_each_page_of_a_tiff_says_what_it_is():
    second = drawing("1", (90, 70))
    content = as_bytes(drawing(), "TIFF", save_all=True, append_images=[second])
    assert probe(content).mode == "RGB"
    found = probe(content, 2)
    assert (found.mode, found.width, found.page, found.frames) == ("1", 90, 2, 2)
    with pytest.raises(CannotRead, match=r"2 pages .* no page 3"):
        probe(content, 3)


def test_a_damaged_second_page_of_a_tiff_hides_no_first():
    content = bytearray(
        as_bytes(drawing("L"), "TIFF", save_all=True, append_images=[drawing("L")])
    )
    # the offset of the second directory stands at the end of the first
    first = struct.unpack_from("<I", content, 4)[0]
    entries = struct.unpack_from("<H", content, first)[0]
    end = first + 2 + 12 * entries
    for broken in (len(content) - 3, 5, 0xFFFFFFF0):
        struct.pack_into("<I", content, end, broken)
        assert probe(bytes(content)).pages == 1
        assert decoded(bytes(content)).width == 160
        with pytest.raises(CannotRead, match="nothing was changed"):
            probe(bytes(content), 2)


def test_pages_that_go_round_in_a_ring_are_counted_once():
    content = bytearray(
        as_bytes(drawing("L"), "TIFF", save_all=True, append_images=[drawing("L")])
    )
    first = struct.unpack_from("<I", content, 4)[0]
    second_at = first + 2 + 12 * struct.unpack_from("<H", content, first)[0]
    second = struct.unpack_from("<I", content, second_at)[0]
    third_at = second + 2 + 12 * struct.unpack_from("<H", content, second)[0]
    struct.pack_into("<I", content, third_at, first)
    assert probe(bytes(content)).pages == 2


def test_more_pages_than_are_counted_are_not_counted(monkeypatch):
    monkeypatch.setattr(reading, "MOST_PAGES", 2)
    pages = [drawing("L"), drawing("L")]
    content = as_bytes(drawing("L"), "TIFF", save_all=True, append_images=pages)
    assert probe(content).pages == 2


def test_a_large_progressive_jpeg_in_printers_colours_is_refused(monkeypatch):
    monkeypatch.setattr(reading, "MOST_CMYK_PROGRESSIVE", 10_000)
    assert probe(as_bytes(drawing("CMYK"), "JPEG")).width == 160
    with pytest.raises(CannotRead, match="not progressively"):
        probe(as_bytes(drawing("CMYK"), "JPEG", progressive=True))


@pytest.mark.parametrize(
    ("mode", "kind", "how", "words"),
    [
        ("RGB", "PNG", {}, ""),
        ("CMYK", "JPEG", {}, "printer's colours"),
        ("I;16", "PNG", {}, "65,536 greys"),
        ("F", "TIFF", {}, "its darkest to its lightest"),
    ],
)
def test_what_is_lost_on_the_way_is_said(mode, kind, how, words):
    told = probe(as_bytes(drawing(mode), kind, **how)).remarks
    assert len(told) == bool(words)
    assert words in " ".join(told)


@pytest.mark.parametrize(
    ("mode", "kind", "how", "words"),
    [
        ("1", "PNG", {}, "half its resolution"),
        ("RGB", "JPEG", {}, "half its resolution"),
        ("RGB", "JPEG", {"progressive": True}, "half its resolution"),
        ("CMYK", "JPEG", {"progressive": True}, "half its resolution"),
        ("RGB", "JPEG2000", {}, "a quarter of its resolution"),
        ("RGB", "PNG", {}, ""),
    ],
)
def test_what_is_kept_coarser_is_said(monkeypatch, mode, kind, how, words):
    for name in ("1_BIT", "JPEG", "PROGRESSIVE", "PROGRESSIVE_CMYK"):
        monkeypatch.setattr(facts, f"HALVED_{name}", 10_000)
    monkeypatch.setattr(facts, "HALVED_JPEG_2000", 2_000)
    told = " ".join(probe(as_bytes(drawing(mode), kind, **how)).remarks)
    assert words in told
    assert bool(words) == ("resolution" in told)
