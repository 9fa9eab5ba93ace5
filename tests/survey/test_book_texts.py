"""Lines of a field book written out, and read again."""

from dataclasses import replace

import pytest

from plan_editor.survey.books.book_lines import read_line
from plan_editor.survey.books.book_settings import BookSettings
from plan_editor.survey.books.book_texts import texts_of
from plan_editor.survey.books.field_book import BookLine

LINES = (
    {"type": "tie", "from": "M1", "point": "P1", "distance": "23' 4½\"", "side": "left"},
    {
        "type": "tie",
        "from": "M1",
        "point": "P1",
        "distance": "7.24",
        "rise": "-0.8",
        "to": "M2",
    },
    {"type": "tie", "from": "M1", "point": "P1", "distance": "9", "sd": "0.05", "out": "yes"},
    {"from": "M1", "to": "M2", "point": "P2", "distance": "4.5", "offset": "1.25"},
    {"from": "M1", "to": "M2", "point": "P2", "distance": "4.5", "offset": "2", "side": "left"},
    {"type": "leg", "from": "A", "to": "B", "distance": "12.3", "bearing": "N 35°20' E"},
    {"type": "leg", "from": "A", "to": "B", "distance": "9", "angle": "75.5", "back": "C"},
    {"type": "leg", "from": "A", "to": "B", "distance": "9", "bearing": "75", "slope": "-3.5"},
    {"type": "check", "from": "P1", "to": "P2", "distance": "5", "remarks": "by the yew"},
)


@pytest.mark.parametrize("texts", LINES)
def test_a_line_written_out_reads_as_the_same_line(texts):
    first = read_line(3, texts, BookSettings())
    assert isinstance(first, BookLine)
    # how finely a bearing was read shows in how it was written: it is told with the book
    settings = BookSettings(bearing_sd=first.angle_sd, angle_sd=first.angle_sd)
    again = read_line(3, texts_of(first), settings)
    assert isinstance(again, BookLine)
    for name in ("distance", "sd", "bearing", "angle"):
        assert getattr(again, name) == pytest.approx(getattr(first, name), abs=1e-4)
    same = {n: getattr(first, n) for n in ("distance", "sd", "bearing", "angle")}
    assert replace(again, **same) == first


def test_a_line_reads_the_same_in_a_book_kept_in_feet():
    first = read_line(1, LINES[1], BookSettings())
    assert isinstance(first, BookLine)
    again = read_line(1, texts_of(first), BookSettings(unit_m=0.3048))
    assert isinstance(again, BookLine)
    assert again.distance == pytest.approx(7.24)
