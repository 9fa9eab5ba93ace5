"""Figures beside the pointer."""

from plan_editor.drafting.figures import figures_of_area, figures_of_line, figures_of_way


def test_a_way_has_a_length_both_ways_and_a_bearing():
    # 9 ft × 4 ft is the usual plot; 9 ft = 2.7432 m
    assert figures_of_way(2.7432, 0.0) == ("2.74 m (9' 0\")", "bearing 90.0°")
    assert figures_of_way(0.0, 0.0) == ()


def test_a_line_of_several_sides_has_its_whole_length_too():
    assert figures_of_line([(0.0, 0.0)]) == ()
    # 3 m is 118.11 inches
    one = figures_of_line([(0.0, 0.0), (0.0, 3.0)])
    assert one == ("3.00 m (9' 10\")", "bearing 0.0°")
    assert figures_of_line([(0.0, 0.0), (0.0, 3.0), (4.0, 3.0)])[2].startswith("in all 7.00 m")


def test_an_area_is_given_where_there_is_one():
    assert figures_of_area([(0.0, 0.0), (1.0, 0.0)]) == ()
    area, round_it = figures_of_area([(0.0, 0.0), (4.0, 0.0), (4.0, 3.0)])
    assert area == "6.0 m²"  # the 3-4-5 triangle
    assert round_it.startswith("round it 12.00 m")
    bow = [(0.0, 0.0), (2.0, 2.0), (2.0, 0.0), (0.0, 2.0)]
    assert figures_of_area(bow) == ("the outline crosses itself",)
