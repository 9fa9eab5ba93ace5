"""Points of a fit read from a file."""

import pytest

from plan_editor.commands.fitting import MOST_POINTS, read_control
from plan_editor.errors import CannotRead
from plan_editor.survey.fits.models import Control
from plan_editor.survey.grids.grid import Grid

GRID = Grid(crs="EPSG:27700", east=553000.0, north=421000.0)


def test_points_are_read_with_and_without_a_standard_deviation(tmp_path):
    file = tmp_path / "marks.csv"
    file.write_text(
        "mark,px,py,E,N,sd\nM1,1050.5,1206,553030.264,421036.459,0.03\n,10,20,553001,421002,\n"
    )
    assert read_control(file, GRID) == (
        Control(
            x=1050.5,
            y=1206,
            east=pytest.approx(30.264),
            north=pytest.approx(36.459),
            sd=0.03,
            name="M1",
        ),
        Control(x=10, y=20, east=1, north=2),
    )


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("mark,px,E,N\nM1,1,2,3\n", "there is no column py"),
        ("mark,px,py,E,N\n", "no point under the header"),
        ("mark,px,py,E,N\nM1,ten,2,3,4\n", "line 2: “ten” is not a number"),
        ("mark,px,py,E,N\nM1,1,2,3,\n", "line 2: "),
        ("mark,px,py,E,N,sd\nM1,1,2,3,4,0\n", "more than nothing"),
        ("mark,px,py,E,N\n" + "M,1,2,3,4\n" * (MOST_POINTS + 1), "more than 2,000"),
    ],
)
def test_what_is_no_table_of_points_is_refused_in_a_sentence(tmp_path, text, said):
    file = tmp_path / "marks.csv"
    file.write_text(text)
    with pytest.raises(CannotRead, match=said):
        read_control(file, GRID)
