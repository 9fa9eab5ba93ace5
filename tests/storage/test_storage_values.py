"""Single rows, records and blobs, and what is wrong with them."""

import json
import struct
from dataclasses import dataclass, field
from typing import Any

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from keeping import AT_SEA, graves
from strategies import areas, lines, points

from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import base_plan, grave, tree
from plan_editor.plan.detail import about
from plan_editor.plan.item import Basis, Item
from plan_editor.plan.kind import Form, Kind
from plan_editor.storage import blobs, records, rows
from plan_editor.storage.layout import layout_of
from plan_editor.storage.many import many
from plan_editor.storage.wkb import is_plain
from plan_editor.survey.grids.grid import Grid

ROW = rows.row_of(graves(1)[0])
NAMES = layout_of(grave.KIND).names


def with_(**held: Any) -> rows.Row:
    return tuple(held.get(name, value) for name, value in zip(NAMES, ROW, strict=True))


ODD = [
    ({"id": None}, "has no id"),
    ({"id": 7}, "has no id"),
    ({"number": 7}, "where a text belongs"),
    ({"status": "gone"}, "as “Status”"),
    ({"basis_method": "guessed"}, "where its basis belongs"),
    ({"basis_sd_m": "wide"}, "where its basis belongs"),
    ({"corner_east": "there"}, "where a length belongs"),
    ({"rectangle_width": 0.0}, "sides longer than nothing"),
    ({"corner_east": float("inf")}, "finite"),
    ({"state": "haunted"}, "as “State”"),
    ({"state": 3}, "as “State”"),
    ({"coffins": "two"}, "as “Depth for coffins”"),
    ({"depth_m": float("inf")}, "as “Depth as dug”"),
    ({"remarks": 7}, "as “Remarks”"),
]


@pytest.mark.parametrize(("held", "words"), ODD)
def test_a_row_that_is_no_item_says_why(held: dict[str, Any], words: str) -> None:
    shape = shapely.box(0, 0, 1, 1)
    with pytest.raises(ValueError, match=words):
        rows.item_of(grave.KIND, with_(**held), shape)
    columns = [(value,) for value in with_(**held)]
    shapes = np.array([shape], dtype=object)
    with pytest.raises(ValueError, match=r".+"):
        rows.items_of(grave.KIND, columns, shapes)


def test_what_is_not_recorded_has_its_default() -> None:
    nothing = tuple(held if n == "id" else None for n, held in zip(NAMES, ROW, strict=True))
    item = rows.item_of(grave.KIND, nothing, shapely.box(0, 0, 1, 1))
    assert item.details == grave.GraveDetails()
    assert item.basis == Basis()
    assert (item.number, item.rectangle) == ("", None)


@pytest.mark.parametrize("text", ["[[1]]", '{"a": 1}', "[" * 100_000, "[NaN]", "x", '["a"]'])
def test_numbers_that_are_none_say_so(text: str) -> None:
    layout = layout_of(base_plan.KIND)
    held = {"id": "a" * 32, "fit": text}
    row = tuple(held.get(c.name, c.default) for c in layout.columns)
    with pytest.raises(ValueError, match="as “Fit”"):
        rows.item_of(base_plan.KIND, row, None)


RECORDS = [
    "{}",
    "[]",
    "3",
    '{"kind": "dragon", "shape": null, "columns": {}}',
    '{"kind": "tree", "shape": null, "columns": {"id": "a"}}',
    '{"kind": "tree", "shape": "00", "columns": {"id": "a"}}',
    '{"kind": "tree", "shape": "xyz", "columns": {"id": "a"}}',
    '{"kind": "tree", "shape": 7, "columns": {"id": "a"}}',
    f'{{"kind": "tree", "shape": "{shapely.box(0, 0, 1, 1).wkb.hex()}", "columns": {{}}}}',
    f'{{"kind": "tree", "shape": "{shapely.Point(1, 2).wkb.hex()}", "columns": {{}}}}',
]


@pytest.mark.parametrize("record", RECORDS)
def test_a_record_that_is_none_is_refused(record: str) -> None:
    with pytest.raises(ValueError, match=r".+"):
        records.item_of(json.loads(record))


def test_equal_items_have_equal_records() -> None:
    (one,) = graves(1)
    again: Item[Any] = records.item_of(records.record_of(one))
    assert again == one
    assert records.record_of(again) == records.record_of(one)


@dataclass(frozen=True, slots=True, kw_only=True)
class Twice:
    number: str = field(default="", metadata=about("Number"))


def test_a_detail_may_not_be_called_like_a_column_of_every_kind() -> None:
    kind = Kind(name="x", title="", plural="", forms=(Form.POINT,), details=Twice)
    with pytest.raises(ValueError, match="number"):
        layout_of(kind)


def test_many_values_are_what_one_by_one_they_would_be() -> None:
    made = many(
        Basis, 2, method=["a", "b"], source="xy", base_plan=[None] * 2, date="12", sd_m=(1, 2)
    )
    assert made[1] == Basis(method="b", source="y", date="2", sd_m=2)  # type: ignore[arg-type]  # any value will do
    assert hash(made[1]) == hash(Basis(method="b", source="y", date="2", sd_m=2))  # type: ignore[arg-type]


def test_items_keep_their_arguments_as_they_are() -> None:
    # only then may they be made column by column; a rectangle's checks are made on the columns
    assert not hasattr(Item, "__post_init__")
    assert hasattr(Rectangle, "__post_init__")


shapes = st.one_of(points, lines, areas())


@given(shape=shapes, flavor=st.sampled_from(["iso", "extended"]), order=st.sampled_from([0, 1]))
def test_shapes_of_every_flavour_are_read(shape: Any, flavor: str, order: int) -> None:
    wkb = shapely.to_wkb(shapely.force_3d(shape, 7.0), flavor=flavor, byte_order=order)
    assert is_plain(wkb)
    blob = b"GP\x00\x01" + struct.pack("<i", -1) + wkb
    (found,) = blobs.decoded([blob], Grid())
    assert found == shape


@given(shape=shapes, cut=st.integers(1, 60))
def test_a_shape_that_is_cut_off_is_none(shape: Any, cut: int) -> None:
    blob = blobs.encoded([shape], AT_SEA, 27700)[0]
    assert blob is not None
    assert blobs.decoded([blob[:-cut]], AT_SEA).tolist() == [None]


@pytest.mark.parametrize("code", [0, 7, 8, 15, 17, 0x20000001, 4001, 9001, 0xFFFFFFFF])
def test_other_sorts_of_shape_do_not_get_through(code: int) -> None:
    assert not is_plain(struct.pack("<BII", 1, code, 0))


@pytest.mark.parametrize(
    "blob",
    [
        b"GP\x01\x03" + bytes(60),
        b"GP\x00\x0b" + bytes(9),
        b"GP\x00\x13",
        b"GP\x00\x23" + bytes(60),
    ],
)
def test_headers_of_another_sort_are_none(blob: bytes) -> None:
    assert blobs.decoded([blob], AT_SEA).tolist() == [None]
    assert blobs.FUNCTIONS["ST_MinX"](blob) is None
    assert blobs.FUNCTIONS["ST_IsEmpty"](blob) == 1


@given(shape=shapes)
def test_what_triggers_call_gives_the_box(shape: Any) -> None:
    plain = b"GP\x00\x01" + struct.pack("<i", -1) + shape.wkb
    boxed = blobs.encoded([shape], Grid(), -1)[0]
    for blob in (plain, boxed):
        e0, n0, e1, n1 = shape.bounds
        found = [blobs.FUNCTIONS[n](blob) for n in ("ST_MinX", "ST_MaxX", "ST_MinY", "ST_MaxY")]
        assert found == [e0, e1, n0, n1]
        assert blobs.FUNCTIONS["ST_IsEmpty"](blob) == 0
    assert blobs.FUNCTIONS["ST_IsEmpty"](None) is None


def test_trees_are_points() -> None:
    assert layout_of(tree.KIND).geometry == "POINT"
    assert layout_of(grave.KIND).geometry == "GEOMETRY"
