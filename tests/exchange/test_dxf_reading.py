"""Each sort of thing in a foreign drawing lies where its definition says, to a millimetre."""

from math import cos, hypot, pi, radians, sin, sqrt
from typing import Any

import numpy as np
import pytest
from drawings import METRES, area, between, lines_of, only_line, read, rows
from ezdxf.document import Drawing as Document
from ezdxf.enums import TextEntityAlignment
from ezdxf.math import Matrix44

from plan_editor.errors import CannotRead

MM = 0.001
MILLIMETRES = 4
FAR = (544100.0, 258300.0)


def test_a_line_is_read_to_the_last_digit() -> None:
    ends = ((544100.123456, 258300.654321, 12.5), (544140.5, 258310.25, -3.0))
    line = only_line(read(lambda _, space: space.add_line(*ends)))
    assert line.tolist() == [[544100.123456, 258300.654321], [544140.5, 258310.25]]


@pytest.mark.parametrize("radius", [0.01, 0.3, 12.0, 900.0])
def test_a_circle_keeps_within_a_millimetre_of_the_true_circle(radius: float) -> None:
    found = read(lambda _, space: space.add_circle(FAR, radius))
    line = only_line(found)
    distance = np.hypot(*(between(line) - FAR).T)
    assert np.abs(distance - radius).max() < MM
    assert np.allclose(line[0], line[-1])


def test_an_arc_turns_anticlockwise_from_its_start_to_its_end() -> None:
    found = read(lambda _, space: space.add_arc((10, 20), 5.0, 300.0, 30.0))
    line = only_line(found)
    assert np.allclose(line[0], (10 + 5 * cos(radians(300)), 20 + 5 * sin(radians(300))))
    assert np.allclose(line[-1], (10 + 5 * cos(radians(30)), 20 + 5 * sin(radians(30))))
    assert np.abs(np.hypot(*(between(line) - (10, 20)).T) - 5.0).max() < MM
    assert line[:, 0].min() > 10  # it stays on the right of its centre


def test_a_drawing_in_millimetres_is_held_to_a_millimetre_on_the_ground() -> None:
    found = read(lambda _, space: space.add_circle((0, 0), 12_000.0), units=MILLIMETRES)
    assert found.unit.metres == 0.001
    distance = np.hypot(*between(only_line(found)).T)
    off = np.abs(distance - 12_000.0).max() * found.unit.metres
    assert off < MM
    assert len(only_line(found)) < 1000  # not to a millimetre of paper


def test_a_bulge_of_one_is_half_a_disc() -> None:
    # bulge = tan(angle / 4); four by four metres with a half disc of radius 2 on one side
    corners = [(0, 0, 0), (4, 0, 1), (4, 4, 0), (0, 4, 0)]

    def draw(_: Document, space: Any) -> None:
        space.add_lwpolyline(corners, format="xyb", close=True)

    line = only_line(read(draw))
    assert area(line) == pytest.approx(16 + 2 * pi, abs=2 * pi * MM)
    assert line[:, 0].max() == pytest.approx(6.0, abs=MM)


def test_a_negative_bulge_turns_the_other_way() -> None:
    def draw(_: Document, space: Any) -> None:
        space.add_lwpolyline([(0, 0, -1), (4, 0, 0)], format="xyb")

    line = only_line(read(draw))
    assert line[:, 1].max() == pytest.approx(2.0, abs=MM)
    assert line[:, 1].min() == pytest.approx(0.0, abs=1e-9)


def test_an_ellipse_meets_its_equation() -> None:
    def draw(_: Document, space: Any) -> None:
        space.add_ellipse((3, 4), major_axis=(10, 0), ratio=0.4)

    line = only_line(read(draw))
    x, y = ((between(line) - (3, 4)) / (10.0, 4.0)).T
    # within a millimetre across its shorter half-axis, the steeper way to be off
    assert np.abs(np.hypot(x, y) - 1).max() * 10 < 2.5 * MM
    assert np.allclose(line[0], (13, 4))


def test_a_part_of_an_ellipse_begins_and_ends_where_it_says() -> None:
    def draw(_: Document, space: Any) -> None:
        space.add_ellipse((0, 0), (0, 6), 0.5, start_param=pi, end_param=1.5 * pi)

    line = only_line(read(draw))
    assert np.allclose(line[0], (0, -6), atol=1e-9)
    assert np.allclose(line[-1], (3, 0), atol=1e-9)


def test_a_spline_is_the_parabola_that_its_control_points_make() -> None:
    # a spline of degree 2 on three control points is a Bézier curve: x = 10 t, y = 10 t (1 - t)
    def draw(_: Document, space: Any) -> None:
        spline = space.add_spline(degree=2)
        spline.control_points = [(0, 0, 0), (5, 5, 0), (10, 0, 0)]
        spline.knots = [0, 0, 0, 1, 1, 1]

    x, y = between(only_line(read(draw))).T
    assert np.abs(y - x * (10 - x) / 10).max() < 1.5 * MM
    assert (x.min(), x.max()) == (0.0, 10.0)


def test_a_rational_spline_is_a_quarter_of_a_circle() -> None:
    # the weights 1, cos 45°, 1 make a true circle of a parabola (any book on NURBS)
    def draw(_: Document, space: Any) -> None:
        spline = space.add_spline(degree=2)
        spline.set_open_rational([(8, 0), (8, 8), (0, 8)], [1, sqrt(0.5), 1], degree=2)

    distance = np.hypot(*between(only_line(read(draw))).T)
    assert np.abs(distance - 8.0).max() < MM


def test_a_spline_through_fit_points_passes_through_them() -> None:
    fit = [(0, 0), (3, 2), (7, -1), (10, 0)]
    line = only_line(read(lambda _, space: space.add_spline(fit)))
    for point in fit:
        assert np.hypot(*(between(line, 20) - point).T).min() < 0.01


def test_an_old_polyline_keeps_bulges_and_closing() -> None:
    def draw(_: Document, space: Any) -> None:
        points = [(0, 0, 0), (4, 0, 1), (4, 4, 0), (0, 4, 0)]
        space.add_polyline2d(points, format="xyb", close=True)
        space.add_polyline3d([(0, 0, 1), (5, 0, 2), (5, 5, 3)])

    flat, raised = lines_of(read(draw, version="R12"))
    assert area(flat) == pytest.approx(16 + 2 * pi, abs=2 * pi * MM)
    assert raised.tolist() == [[0, 0], [5, 0], [5, 5]]


def test_an_old_smoothed_polyline_leaves_its_frame_out() -> None:
    def draw(_: Document, space: Any) -> None:
        line = space.add_polyline2d([(0, 0), (1, 1), (2, 0)])
        line.vertices[1].dxf.flags = 16  # a control point of the frame

    assert only_line(read(draw)).tolist() == [[0, 0], [2, 0]]


def test_faces_and_meshes_come_as_their_edges() -> None:
    def draw(_: Document, space: Any) -> None:
        space.add_solid([(0, 0), (1, 0), (0, 1), (1, 1)])  # the odd order of a SOLID
        space.add_3dface([(5, 0), (6, 0), (6, 1)])
        mesh = space.add_polymesh((2, 2))
        for i, j in ((0, 0), (0, 1), (1, 0), (1, 1)):
            mesh.set_mesh_vertex((i, j), (10 + i, j, 0))

    solid, face, mesh = lines_of(read(draw))
    assert area(solid) == pytest.approx(1.0)
    assert area(face) == pytest.approx(0.5)
    assert area(mesh) == pytest.approx(1.0)


def test_a_hatch_comes_as_its_outlines() -> None:
    def draw(_: Document, space: Any) -> None:
        hatch = space.add_hatch()
        hatch.paths.add_polyline_path([(0, 0), (10, 0), (10, 10), (0, 10)], is_closed=True)
        hatch.paths.add_polyline_path([(4, 4, 1), (6, 4, 1)], is_closed=True)  # a disc

    outer, disc = lines_of(read(draw))
    assert area(outer) == pytest.approx(100.0)
    assert area(disc) == pytest.approx(pi, abs=2 * pi * MM)


def test_a_hatch_bounded_by_edges_follows_each_of_them() -> None:
    def draw(_: Document, space: Any) -> None:
        edges = space.add_hatch().paths.add_edge_path()
        edges.add_line((0, 0), (10, 0))
        edges.add_arc((10, 3), 3.0, -90, 90)
        edges.add_arc((0, 3), 3.0, 90, 270, ccw=False)
        edges.add_ellipse((20, 0), (2, 0), 0.5, 0, 360)
        edges.add_spline(
            control_points=[(0, 6), (5, 8), (10, 6)], degree=2, knot_values=[0, 0, 0, 1, 1, 1]
        )

    straight, arc, other, ellipse, spline = lines_of(read(draw))
    assert straight.tolist() == [[0, 0], [10, 0]]
    assert np.abs(np.hypot(*(between(arc) - (10, 3)).T) - 3).max() < MM
    assert np.abs(np.hypot(*(between(other) - (0, 3)).T) - 3).max() < MM
    assert other[:, 0].max() <= 1e-9  # the half disc to the left
    assert area(ellipse) == pytest.approx(2 * pi, abs=0.01)
    assert spline[:, 1].max() == pytest.approx(7.0, abs=MM)


def _with_block(document: Document) -> Any:
    block = document.blocks.new("THING", base_point=(1, 1))
    block.add_line((1, 1), (3, 1))
    block.add_circle((1, 1), 1.0)
    return block


def test_a_block_is_scaled_turned_and_put_in_its_place() -> None:
    def draw(document: Document, space: Any) -> None:
        _with_block(document)
        at = {"xscale": 3, "yscale": 3, "rotation": 90}
        space.add_blockref("THING", FAR, dxfattribs=at)

    straight, round_ = lines_of(read(draw))
    assert np.allclose(straight, [FAR, (FAR[0], FAR[1] + 6)])
    assert np.abs(np.hypot(*(between(round_) - FAR).T) - 3).max() < MM


def test_an_unevenly_scaled_circle_is_an_ellipse_and_a_mirrored_line_is_mirrored() -> None:
    def draw(document: Document, space: Any) -> None:
        _with_block(document)
        space.add_blockref("THING", (0, 0), dxfattribs={"xscale": -5, "yscale": 2})

    straight, round_ = lines_of(read(draw))
    assert np.allclose(straight, [(0, 0), (-10, 0)])
    x, y = (between(round_) / (5, 2)).T
    assert np.abs(np.hypot(x, y) - 1).max() * 5 < 2.5 * MM


def test_a_block_in_a_turned_and_unevenly_scaled_block_is_sheared() -> None:
    # a square turned by 45° in a block stretched to twice its width is a rhombus 2√2 by √2
    def draw(document: Document, space: Any) -> None:
        inner = document.blocks.new("INNER")
        inner.add_lwpolyline([(0, 0), (1, 0), (1, 1), (0, 1)], close=True)
        outer = document.blocks.new("OUTER")
        outer.add_blockref("INNER", (0, 0), dxfattribs={"rotation": 45})
        space.add_blockref("OUTER", (0, 0), dxfattribs={"xscale": 2})

    line = only_line(read(draw))
    h = sqrt(0.5)
    assert np.allclose(line, [(0, 0), (2 * h, h), (0, 2 * h), (-2 * h, h), (0, 0)])


def test_a_block_in_a_grid_is_put_at_each_place_of_it() -> None:
    def draw(document: Document, space: Any) -> None:
        document.blocks.new("DOT").add_line((0, 0), (0.5, 0))
        put = space.add_blockref("DOT", (100, 0), dxfattribs={"rotation": 90})
        put.grid((2, 3), (10, 1))  # rows of 10, columns of 1, before turning

    starts = {tuple(np.round(line[0], 9)) for line in lines_of(read(draw))}
    assert starts == {(100 - 10 * r, c) for r in (0, 1) for c in (0, 1, 2)}


def test_what_is_drawn_in_a_mirrored_plane_is_mirrored() -> None:
    # extrusion (0, 0, -1): x runs to the left (DXF reference, arbitrary axis algorithm)
    down = {"extrusion": (0, 0, -1)}

    def draw(document: Document, space: Any) -> None:
        space.add_lwpolyline([(0, 0), (10, 0), (10, 5)], dxfattribs=down)
        space.add_arc((20, 0), 5, 0, 90, dxfattribs=down)
        document.blocks.new("ONE").add_line((0, 0), (1, 2))
        space.add_blockref("ONE", (30, 0), dxfattribs=down)

    straight, arc, put = lines_of(read(draw))
    assert straight.tolist() == [[0, 0], [-10, 0], [-10, 5]]
    assert np.allclose(arc[0], (-25, 0))
    assert np.allclose(arc[-1], (-20, 5))
    assert np.allclose(put, [(-30, 0), (-31, 2)])


def test_a_point_is_a_cross_a_hand_wide_on_the_ground() -> None:
    found = read(lambda _, space: space.add_point((5000, 7000)), units=MILLIMETRES)
    across, up = lines_of(found)
    assert across.tolist() == [[4900, 7000], [5100, 7000]]
    assert up.tolist() == [[5000, 6900], [5000, 7100]]
    assert found.report.done[2] == "1 point, drawn as a cross 0.2 m wide"


def test_texts_keep_place_height_and_turn() -> None:
    def draw(_: Document, space: Any) -> None:
        text = space.add_text("Yew ŵ", height=0.5, rotation=30)
        text.set_placement((10, 20))
        space.add_text("%%c 5", height=1).set_placement(
            (0, 0), (10, 10), align=TextEntityAlignment.FIT
        )

    found = read(draw)
    assert found.texts == ("Yew ŵ", "Ø 5")
    assert np.allclose(found.frames, [(10, 20, 0.5, 30), (0, 0, 1, 45)])


def test_a_centred_text_begins_left_of_its_place_and_a_raised_one_below() -> None:
    def draw(_: Document, space: Any) -> None:
        text = space.add_text("CHURCH", height=2.0)
        text.set_placement((50, 50), align=TextEntityAlignment.MIDDLE_CENTER)

    x, y, height, turn = read(draw).frames[0]
    assert 44 < x < 47
    assert (y, height, turn) == (49, 2, 0)


def test_a_paragraph_is_broken_to_its_width_line_under_line() -> None:
    def draw(_: Document, space: Any) -> None:
        attributes = {"char_height": 1.0, "width": 9.0, "insert": (0, 100)}
        space.add_mtext("{\\fSans;North} wall\\Prebuilt after the storm", dxfattribs=attributes)

    found = read(draw)
    assert found.texts == ("North wall", "rebuilt after", "the storm")
    assert np.allclose(found.frames[:, 1], 99 - np.arange(3) * 5 / 3)
    assert np.allclose(found.frames[:, (0, 2, 3)], [(0, 1, 0)] * 3)


def test_attributes_are_read_and_hidden_ones_are_not() -> None:
    def draw(document: Document, space: Any) -> None:
        block = document.blocks.new("TREE")
        block.add_circle((0, 0), 1)
        block.add_attdef("SPECIES", (0, 0), "a template")
        put = space.add_blockref("TREE", (5, 5))
        put.add_attrib("SPECIES", "Taxus baccata", (6, 5)).dxf.height = 0.4
        put.add_attrib("SECRET", "not seen", (6, 4)).is_invisible = True

    found = read(draw)
    assert found.texts == ("Taxus baccata",)
    assert np.allclose(found.frames, [(6, 5, 0.4, 0)])


def test_texts_in_a_mirrored_block_keep_their_height() -> None:
    def draw(document: Document, space: Any) -> None:
        text = document.blocks.new("SIGN").add_text("Porch", height=0.5)
        text.set_placement((2, 0))
        space.add_blockref("SIGN", (0, 0), dxfattribs={"xscale": -2, "yscale": 2})

    x, y, height, turn = read(draw).frames[0]
    assert (x, y, height) == pytest.approx((-4, 0, 1))
    assert abs(turn) == pytest.approx(180)


def test_dimensions_and_leaders_come_as_they_are_drawn() -> None:
    def draw(_: Document, space: Any) -> None:
        space.add_linear_dim(base=(0, 2), p1=(0, 0), p2=(10, 0)).render()
        space.add_leader([(0, 0), (3, 3), (6, 3)])

    found = read(draw)
    assert "10" in found.texts
    assert any(line.tolist() == [[0, 0], [3, 3], [6, 3]] for line in lines_of(found))


def test_hidden_things_are_left_out_and_counted() -> None:
    def draw(document: Document, space: Any) -> None:
        document.layers.add("GONE").off()
        document.layers.add("ICE").freeze()
        space.add_line((0, 0), (1, 0))
        space.add_line((0, 0), (2, 0), dxfattribs={"layer": "gone"})
        space.add_line((0, 0), (3, 0), dxfattribs={"layer": "ICE"})
        space.add_line((0, 0), (4, 0), dxfattribs={"invisible": 1})

    found = read(draw)
    assert only_line(found).tolist() == [[0, 0], [1, 0]]
    assert found.report.passed_over == (
        "things that are hidden or on layers switched off or frozen (3)",
    )


def test_a_block_on_a_layer_switched_off_shows_what_has_a_layer_of_its_own() -> None:
    def draw(document: Document, space: Any) -> None:
        document.layers.add("GONE").off()
        document.layers.add("ICE").freeze()
        block = document.blocks.new("TWO")
        block.add_line((0, 0), (1, 0))  # on layer 0: goes with the block
        block.add_line((0, 0), (2, 0), dxfattribs={"layer": "WALL"})
        space.add_blockref("TWO", (0, 0), dxfattribs={"layer": "GONE"})
        space.add_blockref("TWO", (0, 0), dxfattribs={"layer": "ICE"})

    assert only_line(read(draw)).tolist() == [[0, 0], [2, 0]]


def test_what_cannot_be_drawn_is_counted_by_its_sort() -> None:
    def draw(document: Document, space: Any) -> None:
        space.add_line((0, 0), (1, 0))
        space.add_ray((0, 0), (1, 1))
        space.add_xline((0, 0), (1, 1))
        space.add_3dsolid().sat = ["400 0 1 0"]
        image = document.add_image_def("scan.png", (100, 100))
        space.add_image(image, (0, 0), (10, 10))
        document.add_xref_def("neighbour.dxf", "NEIGHBOUR")
        space.add_blockref("NEIGHBOUR", (0, 0))
        space.add_blockref("NOWHERE", (0, 0))
        space.add_circle((0, 0), 1e12)

    assert set(read(draw).report.passed_over) == {
        "lines without end (2)",
        "solid bodies (1)",
        "pictures (1)",
        "references to other drawings or to blocks that are not there (2)",
        "curves too large to be drawn within a millimetre (1)",
    }


def test_what_is_no_number_is_dropped_and_counted() -> None:
    def draw(_: Document, space: Any) -> None:
        space.add_line((0, 0), (1, 1))
        space.add_line((0, 0), (float("nan"), 1))
        space.add_lwpolyline([(0, 0), (float("inf"), 0), (3, 3)])
        space.add_circle((float("nan"), 0), 5)
        space.add_text("lost", height=1).set_placement((float("inf"), 0))

    found = read(draw)
    assert only_line(found).tolist() == [[0, 0], [1, 1]]
    assert found.texts == ()
    assert found.report.passed_over == (
        "lines or texts with a coordinate that is no number (4)",
    )


def test_a_drawing_far_from_its_origin_keeps_its_digits() -> None:
    far = 4.0e9
    found = read(lambda _, space: space.add_circle((far, -far), 2.0))
    distance = np.hypot(*(only_line(found) - (far, -far)).T)
    assert np.abs(distance - 2.0).max() < MM


@pytest.mark.parametrize(
    ("units", "metres"),
    [(1, 0.0254), (2, 0.3048), (4, 0.001), (5, 0.01), (6, 1.0), (10, 0.9144), (14, 0.1)],
)
def test_the_unit_that_a_drawing_states_is_taken(units: int, metres: float) -> None:
    # international inch, foot and yard of 1959; the numbers are of $INSUNITS, DXF reference
    found = read(lambda _, space: space.add_line((0, 0), (100, 0)), units=units)
    assert found.unit.metres == pytest.approx(metres, rel=1e-12)
    assert found.report.guessed == ()


@pytest.mark.parametrize(("across", "metres"), [(84.2, 1.0), (84_200.0, 0.001)])
def test_a_unit_that_is_not_stated_is_guessed_and_said(across: float, metres: float) -> None:
    found = read(lambda _, space: space.add_circle((0, 0), across / 2), units=0)
    assert found.unit.metres == metres
    (said,) = found.report.guessed
    assert "84.20 m across" in said
    off = np.hypot(*between(only_line(found)).T) - across / 2
    assert np.abs(off).max() * metres < MM


def test_a_drawing_with_nothing_to_see_is_refused() -> None:
    with pytest.raises(CannotRead, match=r"holds no lines or texts .* only lines without end"):
        read(lambda _, space: space.add_ray((0, 0), (1, 1)))


def test_characters_that_an_old_drawing_cannot_hold_come_back() -> None:
    def draw(_: Document, space: Any) -> None:
        space.add_text("Tŷ’r ŵyl", height=1)

    assert read(draw, version="R2000").texts == ("Tŷ’r ŵyl",)


def test_things_of_several_parts_are_taken_apart() -> None:
    def draw(_: Document, space: Any) -> None:
        space.add_mline([(0, 0), (10, 0)])

    found = read(draw, units=METRES)
    assert len(found.lengths) >= 2
    assert {tuple(line[:, 0]) for line in lines_of(found)} >= {(0.0, 10.0)}


def test_a_polyline_of_a_single_corner_is_no_line() -> None:
    def draw(_: Document, space: Any) -> None:
        space.add_lwpolyline([(5, 5)])
        space.add_line((0, 0), (1, 0))

    assert only_line(read(draw)).tolist() == [[0, 0], [1, 0]]


def test_a_spline_that_would_take_too_many_points_is_left_out() -> None:
    def draw(_: Document, space: Any) -> None:
        space.add_line((0, 0), (1, 0))
        space.add_spline([(0, 0), (1e13, 1e13), (3e13, -1e13), (5e13, 0)])

    assert read(draw).report.passed_over == (
        "curves too large to be drawn within a millimetre (1)",
    )


def test_an_attribute_of_several_lines_is_read_line_by_line() -> None:
    def draw(document: Document, space: Any) -> None:
        document.blocks.new("STONE").add_point((0, 0))
        put = space.add_blockref("STONE", (5, 5))
        attribute = put.add_attrib("WORDS", "", (6, 5))
        attribute.set_mtext(_paragraph(document))

    found = read(draw, version="R2018")
    assert found.texts == ("In memory", "of nobody")


def _paragraph(document: Document) -> Any:
    attributes = {"char_height": 0.5, "insert": (6, 5)}
    return document.blocks.new("ASIDE").add_mtext(
        "In memory\\Pof nobody", dxfattribs=attributes
    )


def test_a_tilted_circle_is_seen_from_above() -> None:
    # a circle in a plane tilted by 60° about the x axis is half as high in plan
    def draw(_: Document, space: Any) -> None:
        circle = space.add_circle((0, 0), 4.0)
        circle.transform(Matrix44.x_rotate(radians(60)))

    x, y = only_line(read(draw)).T
    assert max(hypot(a / 4, b / 2) for a, b in zip(x, y, strict=True)) == pytest.approx(1)
    assert y.max() == pytest.approx(2.0, abs=MM)


def test_a_mesh_comes_as_its_faces() -> None:
    def draw(_: Document, space: Any) -> None:
        with space.add_mesh().edit_data() as mesh:
            mesh.vertices = [(0, 0, 0), (2, 0, 0), (2, 2, 1), (0, 2, 1)]
            mesh.faces = [[0, 1, 2, 3]]

    assert np.allclose(only_line(read(draw)), rows([(0, 0), (2, 0), (2, 2), (0, 2), (0, 0)]))
