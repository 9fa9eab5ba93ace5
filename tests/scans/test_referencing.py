"""Where a picture says that it lies: files of another program, and the published rules."""

import base64
import math
from pathlib import Path

import pytest
from pictures import as_bytes, drawing, with_turn
from PIL.TiffImagePlugin import ImageFileDirectory_v2

from plan_editor.errors import CannotRead
from plan_editor.scans.reading import probe
from plan_editor.scans.referencing import read_tags, read_world_file, world_file_names

# 20 by 16 pixels each, written by gdal_translate 3.6.2 (GDAL, MIT licence). What gdalinfo says
# of them: TURNED lies by 553110 + 0.3 x + 0.4 y, 421020 + 0.4 x - 0.3 y; NORTH_UP and POINT
# begin at 553110, 421020 with pixels of 0.5 m; the system of the last has no number, that of
# the others is EPSG:27700.
TURNED = (
    "SUkqAAgAAAAPAAABAwABAAAAFAAAAAEBAwABAAAAEAAAAAIBAwABAAAACAAAAAMBAwABAAAACAAAAAYBAwABAAAAAQAA"
    "ABEBBAABAAAAqQEAABUBAwABAAAAAQAAABYBAwABAAAAEAAAABcBBAABAAAADQAAABwBAwABAAAAAQAAAD0BAwABAAAA"
    "AQAAAFMBAwABAAAAAQAAANiFDAAQAAAAwgAAAK+HAwAgAAAAQgEAALGHAgAnAAAAggEAAAAAAAAzMzMzMzPTP5qZmZmZ"
    "mdk/AAAAAAAAAAAAAAAALOEgQZqZmZmZmdk/MzMzMzMz078AAAAAAAAAAAAAAABwshlBAAAAAAAAAAAAAAAAAAAAAAAA"
    "AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAADwPwEAAQAAAAcAAAQAAAEAAQABBAAAAQAB"
    "AAIEsYcfAAAAAQixhwcAHwAGCAAAAQCOIwAMAAABADRsBAwAAAEAKSNPU0dCMzYgLyBCcml0aXNoIE5hdGlvbmFsIEdy"
    "aWR8T1NHQjM2fAB4nDtxYhRQAgDHZPoB"
)
NORTH_UP = (
    "SUkqAAgAAAAQAAABAwABAAAAFAAAAAEBAwABAAAAEAAAAAIBAwABAAAACAAAAAMBAwABAAAACAAAAAYBAwABAAAAAQAA"
    "ABEBBAABAAAAfQEAABUBAwABAAAAAQAAABYBAwABAAAAEAAAABcBBAABAAAADQAAABwBAwABAAAAAQAAAD0BAwABAAAA"
    "AQAAAFMBAwABAAAAAQAAAA6DDAADAAAAzgAAAIKEDAAGAAAA5gAAAK+HAwAgAAAAFgEAALGHAgAnAAAAVgEAAAAAAAAA"
    "AAAAAADgPwAAAAAAAOA/AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAALOEgQQAAAABwshlBAAAAAAAA"
    "AAABAAEAAAAHAAAEAAABAAEAAQQAAAEAAQACBLGHHwAAAAEIsYcHAB8ABggAAAEAjiMADAAAAQA0bAQMAAABACkjT1NH"
    "QjM2IC8gQnJpdGlzaCBOYXRpb25hbCBHcmlkfE9TR0IzNnwAeJw7cWIUUAIAx2T6AQ=="
)
POINT = (
    "SUkqAAgAAAAQAAABAwABAAAAFAAAAAEBAwABAAAAEAAAAAIBAwABAAAACAAAAAMBAwABAAAACAAAAAYBAwABAAAAAQAA"
    "ABEBBAABAAAAfQEAABUBAwABAAAAAQAAABYBAwABAAAAEAAAABcBBAABAAAADQAAABwBAwABAAAAAQAAAD0BAwABAAAA"
    "AQAAAFMBAwABAAAAAQAAAA6DDAADAAAAzgAAAIKEDAAGAAAA5gAAAK+HAwAgAAAAFgEAALGHAgAnAAAAVgEAAAAAAAAA"
    "AAAAAADgPwAAAAAAAOA/AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAACALOEgQQAAAABvshlBAAAAAAAA"
    "AAABAAEAAAAHAAAEAAABAAEAAQQAAAEAAgACBLGHHwAAAAEIsYcHAB8ABggAAAEAjiMADAAAAQA0bAQMAAABACkjT1NH"
    "QjM2IC8gQnJpdGlzaCBOYXRpb25hbCBHcmlkfE9TR0IzNnwAeJw7cWIUUAIAx2T6AQ=="
)
OWN_SYSTEM = (
    "SUkqAAgAAAARAAABAwABAAAAFAAAAAEBAwABAAAAEAAAAAIBAwABAAAACAAAAAMBAwABAAAACAAAAAYBAwABAAAAAQAA"
    "ABEBBAABAAAAfQIAABUBAwABAAAAAQAAABYBAwABAAAAEAAAABcBBAABAAAADQAAABwBAwABAAAAAQAAAD0BAwABAAAA"
    "AQAAAFMBAwABAAAAAQAAAA6DDAADAAAA2gAAAIKEDAAGAAAA8gAAAK+HAwBUAAAAIgEAALCHDAAIAAAAygEAALGHAgBz"
    "AAAACgIAAAAAAAAAAAAAAADgPwAAAAAAAOA/AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAALOEgQQAA"
    "AABwshlBAAAAAAAAAAABAAEAAAAUAAAEAAABAAEAAQQAAAEAAQACBLGHCAAAAAAIAAABAP9/AQixh2oACAACCAAAAQD/"
    "fwYIAAABAI4jCAgAAAEA/38JCLCHAQAFAAsIsIcBAAYADQiwhwEABwAADAAAAQD/fwIMAAABAP9/AwwAAAEAAQAEDAAA"
    "AQApIwgMsIcBAAEACQywhwEAAAAKDLCHAQADAAsMsIcBAAQAFAywhwEAAgAAAAAAAABJQAAAAAAAAPA/AAAAAAAA8D8A"
    "AAAAAAAAAAAAAAAAAAAAYhBY2RZUWEG5lRQOM7VyQAAAAAAAAAAAdW5rbm93bnxHQ1MgTmFtZSA9IHVua25vd258RGF0"
    "dW0gPSBVbmtub3duIGJhc2VkIG9uIEFpcnkgMTgzMCBlbGxpcHNvaWR8RWxsaXBzb2lkID0gQWlyeSAxODMwfFByaW1l"
    "bSA9IEdyZWVud2ljaHx8AHicO3FiFFACAMdk+gE="
)


def tags_of(content: bytes):
    return read_tags(content, probe(content))


@pytest.mark.parametrize(
    ("file", "fit", "epsg", "nameless"),
    [
        (TURNED, (0.3, 0.4, 553110.0, 0.4, -0.3, 421020.0), 27700, False),
        (NORTH_UP, (0.5, 0.0, 553110.0, 0.0, -0.5, 421020.0), 27700, False),
        (POINT, (0.5, 0.0, 553110.0, 0.0, -0.5, 421020.0), 27700, False),
        (OWN_SYSTEM, (0.5, 0.0, 553110.0, 0.0, -0.5, 421020.0), None, True),
    ],
)
def test_tags_of_another_program_are_understood(file, fit, epsg, nameless):
    found = tags_of(base64.b64decode(file))
    assert found.fit == pytest.approx(fit, abs=1e-9)
    assert (found.epsg, found.nameless) == (epsg, nameless)


def tagged(**values) -> bytes:
    numbers = {"scale": 33550, "ties": 33922, "matrix": 34264, "keys": 34735}
    tags = ImageFileDirectory_v2()
    for name, value in values.items():
        tags.tagtype[numbers[name]] = 3 if name == "keys" else 12
        tags[numbers[name]] = value
    return as_bytes(drawing("L"), "TIFF", tiffinfo=tags)


SCALE, TIES = (0.5, 0.5, 0.0), (0.0, 0.0, 0.0, 100.0, 200.0, 0.0)


def test_a_tie_point_may_be_any_pixel():
    found = tags_of(tagged(scale=SCALE, ties=(10.0, 20.0, 0.0, 100.0, 200.0, 0.0)))
    assert found.fit == (0.5, 0.0, 95.0, 0.0, -0.5, 210.0)
    assert (found.epsg, found.nameless) == (None, False)


@pytest.mark.parametrize(
    "values",
    [
        {},
        {"scale": SCALE},
        {"ties": TIES},
        {"scale": (0.5,), "ties": TIES},
        {"scale": SCALE, "ties": TIES[:5]},
        {"scale": (0.0, 0.0, 0.0), "ties": TIES},
        {"scale": (math.nan, 0.5, 0.0), "ties": TIES},
        {"matrix": (1.0, 2.0, 3.0)},
        {"matrix": (math.inf,) * 16},
    ],
)
def test_tags_that_place_nothing_are_none(values):
    assert tags_of(tagged(**values)) is None


@pytest.mark.parametrize("keys", [(1,), (1, 1, 0, 9, 3072), (1, 1, 0, 1, 3072, 34737, 1, 9)])
def test_keys_that_are_cut_short_or_texts_tell_no_system(keys):
    assert tags_of(tagged(scale=SCALE, ties=TIES, keys=keys)).epsg is None


def test_a_system_in_degrees_is_told():
    keys = (1, 1, 0, 2, 1024, 0, 1, 2, 2048, 0, 1, 4326)
    assert tags_of(tagged(scale=SCALE, ties=TIES, keys=keys)).epsg == 4326


def test_a_picture_of_another_sort_has_no_tags():
    assert tags_of(as_bytes(drawing(), "PNG")) is None


@pytest.mark.parametrize(
    ("name", "first", "also"),
    [
        ("plan.jpg", "plan.jgw", "plan.jpgw"),
        ("plan.jpeg", "plan.jgw", "plan.jpegw"),
        ("plan.TIF", "plan.tfw", "plan.wld"),
        ("a.b.png", "a.b.pgw", "a.b.wld"),
        ("plan.jp2", "plan.j2w", "plan.jp2w"),
    ],
)
def test_a_world_file_is_called_as_its_picture(name, first, also):
    found = world_file_names(Path(name))
    assert found[0] == first
    assert also in found


def test_a_picture_without_a_suffix_has_no_world_file():
    assert world_file_names(Path("plan")) == ()


FACTS = probe(as_bytes(drawing(), "PNG"))


@pytest.mark.parametrize("sign", [".", ","])
def test_a_world_file_tells_the_middle_of_the_first_pixel(sign):
    lines = "0.5\n0.1\n0.2\n-0.5\n1000.0\n2000.0\n".replace(".", sign)
    found = read_world_file(lines.encode(), FACTS)
    # half a pixel back each way: 1000 - 0.25 - 0.1, 2000 - 0.05 + 0.25
    assert found.fit == pytest.approx((0.5, 0.2, 999.65, 0.1, -0.5, 2000.2))
    assert (found.epsg, found.nameless) == (None, False)


def test_a_world_file_may_begin_with_a_byte_order_mark_and_end_without_a_line():
    lines = b"\xef\xbb\xbf0.5\r\n0\r\n0\r\n-0.5\r\n1000\r\n2000"
    assert read_world_file(lines, FACTS).fit[2] == pytest.approx(999.75)


@pytest.mark.parametrize(
    ("lines", "says"),
    [
        (b"", "six lines"),
        (b"1\n0\n0\n-1\n5\n", "six lines"),
        (b"1\n0\n0\n-1\n5\n5\n5\n", "six lines"),
        (b"1\n0\n0\n-1\n5\n5\n" + b" " * 5000, "six lines"),
        (b"1\n0\n0\n-1\n5\nnan\n", "line 6, “nan”"),
        (b"1\n0\n0\n-1\ninf\n5\n", "line 5"),
        (b"1\n0\n0\nminus\n5\n5\n", "line 4, “minus”"),
        (b"\xff\xfe1\n0\n0\n-1\n5\n5\n", "line 1"),
        (b"1\n0\n0\n0\n5\n5\n", "flatten"),
    ],
)
def test_what_is_no_world_file_says_why(lines, says):
    with pytest.raises(CannotRead, match=says):
        read_world_file(lines, FACTS)


@pytest.mark.parametrize("turn", range(1, 9))
@pytest.mark.parametrize("kind", ["JPEG", "TIFF"])
def test_the_world_file_of_a_turned_picture_is_of_its_stored_pixels(kind, turn):
    facts = probe(as_bytes(drawing(), kind, exif=with_turn(turn)))
    # stored 160 across and 120 down; a metre a pixel, the corner at 0, 0
    fit = read_world_file(b"1\n0\n0\n-1\n0.5\n-0.5\n", facts).fit
    # where the picture's own upper left corner lies upright: Exif 2.32, tag 274, says on which
    # side the stored first row is, and on which the stored first column
    wide, high = facts.width, facts.height
    corner = {
        1: (0, 0), 2: (wide, 0), 3: (wide, high), 4: (0, high),
        5: (0, 0), 6: (wide, 0), 7: (wide, high), 8: (0, high),
    }[turn]  # fmt: skip
    a, b, c, d, e, f = fit
    east, north = a * corner[0] + b * corner[1] + c, d * corner[0] + e * corner[1] + f
    assert (east, north) == pytest.approx((0, 0))
    # and its lower right one is at 160, -120
    across, down = wide - corner[0], high - corner[1]
    east, north = a * across + b * down + c, d * across + e * down + f
    assert (east, north) == pytest.approx((160, -120))
