"""Point files in any order of columns, with a header and without."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from plan_editor.errors import CannotRead
from plan_editor.exchange.point_columns import ELLIPSOID, Role, layout_of, missing
from plan_editor.exchange.points import FilePoint, points_of
from plan_editor.exchange.tables import Table, TableRow, read_table

E, N = Role.EAST, Role.NORTH


@pytest.fixture
def table(tmp_path):
    def call(text):
        path = tmp_path / "points.csv"
        path.write_text(text, "utf-8")
        return read_table(path)

    return call


@pytest.fixture
def read(table):
    def call(text):
        made = table(text)
        return points_of(made, layout_of(made))

    return call


@pytest.mark.parametrize(
    ("header", "roles"),
    [
        ("Point,Easting,Northing,Height,Code", (Role.NAME, E, N, Role.HEIGHT, Role.CODE)),
        ("code,N,E,name", (Role.CODE, N, E, Role.NAME)),
        ("ID,X [m],Y [m],Z (m)", (Role.NAME, E, N, Role.HEIGHT)),
        ("Pt. No,Lat,Long,Elev.", (Role.UNUSED, Role.LATITUDE, Role.LONGITUDE, Role.HEIGHT)),
        (
            "latitude (deg),longitude (deg),sd_E,sd_N",
            (Role.LATITUDE, Role.LONGITUDE, *[Role.SD] * 2),
        ),
        ("n,E,N", (Role.NAME, E, N)),
        ("n,lat,lon", (Role.NAME, Role.LATITUDE, Role.LONGITUDE)),
        ("n,e", (N, E)),
        ("X_coord,Y_coord,desc,remarks", (E, N, Role.WORDS, Role.WORDS)),
        ("e_m,n_m,date,datum,colour", (E, N, Role.DATE, Role.DATUM, Role.UNUSED)),
    ],
)
def test_columns_are_known_by_their_names(table, header, roles):
    cells = ",".join(str(n) for n in range(1, header.count(",") + 2))
    found = layout_of(table(f"Survey of April\n{header}\n{cells}\n"))
    assert found.roles == roles
    assert (found.first, found.guessed) == (2, False)


@pytest.mark.parametrize(
    ("line", "roles"),
    [
        ("P{n},553112.4,421010.2,12.3,TREE", (Role.NAME, E, N, Role.HEIGHT, Role.CODE)),
        ("{n},553112.4,421010.2", (Role.NAME, E, N)),
        ("553112.{n},421010.2", (E, N)),
        ("17,553112.4,421010.2", (E, N, Role.HEIGHT)),  # no running number: it does not run
        (
            "{n},553112.4,421010.2,12.3,0.02,TREE,a yew",
            (Role.NAME, E, N, Role.HEIGHT, Role.SD, Role.CODE, Role.WORDS),
        ),
        ("P{n},553112.4,421010.2,12.3,145.0", (Role.NAME, E, N, Role.HEIGHT, Role.UNUSED)),
        ("P{n},52°39'27\"N,1°43'04\"E", (Role.NAME, Role.LATITUDE, Role.LONGITUDE)),
        ("P{n},1°43'04\"E,52°39'27\"N", (Role.NAME, Role.LONGITUDE, Role.LATITUDE)),
        ("P{n},52 39 27.5,-1 43 04.2", (Role.NAME, Role.LATITUDE, Role.LONGITUDE)),
    ],
)
def test_columns_without_names_are_guessed_from_the_values(table, line, roles):
    found = layout_of(table("".join(line.format(n=n) + "\n" for n in (17, 18, 19))))
    assert found.guessed
    assert found.roles == roles


def test_a_column_of_nothing_is_not_used(table):
    assert layout_of(table("P1,,553112.4,421010.2\n")).roles == (Role.NAME, Role.UNUSED, E, N)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("Dear Vicar,hello\nhow,are you\n", "no two columns of numbers"),
        ("7\n8\n", "no two columns of numbers"),
        ("E (ft),N (ft)\n1,2\n", "“E (ft)” is in a unit that is not taken here"),
        ("E,Easting,N\n1,2,3\n", "Two columns are called east"),
        ("E,N,lat\n1,2,3\n", "Wanted are two columns"),
        ("E (deg),N (deg)\n1,2\n", "“E (deg)” says degrees"),
        ("E,N,height (US survey feet)\n1,2,3\n", "is in a unit that is not taken"),
    ],
)
def test_what_holds_no_points_is_refused_in_a_sentence(table, text, says):
    with pytest.raises(CannotRead) as refused:
        layout_of(table(text))
    assert says in str(refused.value)
    assert "Nothing was read" in str(refused.value)


def test_a_file_may_have_both_sorts_of_coordinates(table):
    found = layout_of(table("E,N,lat,lon\n1,2,3,4\n"))
    assert found.roles == (E, N, Role.UNUSED, Role.UNUSED)
    assert found.in_degrees.roles == (Role.UNUSED, Role.UNUSED, Role.LATITUDE, Role.LONGITUDE)


def test_two_columns_for_one_thing_are_told():
    assert missing((E, E, N)) == "Two columns are called east."
    assert missing((E, N, Role.SD, Role.SD)) == ""
    assert missing((E, N, Role.LATITUDE)).startswith("Wanted are two columns")


def test_a_point_has_all_that_its_line_tells(read):
    file = read(
        "name,lat,lon,level above Ordnance Datum Newlyn,sd_E (mm),sd_N (mm),code,desc,time\n"
        "M1,52.5,-1.25,12.345,11,14,MARK,NE buttress,2026-04-18T10:22:05Z\n"
    )
    assert file.points == (
        FilePoint(
            line=2,
            name="M1",
            x=-1.25,
            y=52.5,
            height=12.345,
            datum="Ordnance Datum Newlyn",
            sd_m=0.014,
            code="MARK",
            words="NE buttress",
            date="2026-04-18",
        ),
    )
    assert file.degrees


@pytest.mark.parametrize(
    ("head", "datum"),
    [
        ("height", ""),
        ("height (m)", ""),
        ("ellipsoidal height", ELLIPSOID),
        ("HAE", ELLIPSOID),
        ("H_ODN", "Ordnance Datum Newlyn"),
        ("level (m) above the porch sill", "the porch sill"),
        ("level (Malin Head)", "Malin Head"),
    ],
)
def test_what_heights_are_above_is_read_from_the_head_of_their_column(read, head, datum):
    assert read(f"E,N,{head}\n1,2,3\n").points[0].datum == datum


def test_a_column_may_say_what_each_height_is_above(read):
    file = read("E,N,height,datum\n1,2,3,sill\n1,2,,sill\n1,2,3,\n")
    assert [p.datum for p in file.points] == ["sill", "", ""]


def test_a_line_that_cannot_be_read_is_left_out_and_said(read):
    file = read(
        "E,N,sd,h\n1,2,,\nx,2,,\n3,,,\n4,5,-1,\n4,5,,9999\n6,7,,\n8,9,,\n1,1,,\n2,2,,\n"
    )
    assert [p.x for p in file.points] == [1.0, 6.0, 8.0, 1.0, 2.0]
    assert file.left_out == (
        "Line 3 was left out: “x” is no number.",
        "Line 4 was left out: it has no north.",
        "Line 5 was left out: a standard deviation of -1 m is none.",
        "Line 6 was left out: a height of 9999 m is none on the earth.",
    )


def test_letters_under_the_wrong_column_are_told(read):
    file = read("lat,lon\n52N,1E\n1E,52N\n52N,1W\n")
    assert file.left_out == ("Line 3 was left out: “52N” stands under longitude.",)


def test_kilometres_and_days_that_are_none(read):
    (point,) = read("E (km),N (km),date\n553.1124,421.0102,31 June\n").points
    assert (point.x, point.y) == (pytest.approx(553112.4), pytest.approx(421010.2))
    assert point.date == ""


def test_a_file_most_of_whose_lines_make_no_sense_is_refused(read):
    with pytest.raises(CannotRead, match=r"most lines cannot be read.*Line 3 was left out"):
        read("E,N\n1,2\na,b\nc,d\n")
    with pytest.raises(CannotRead, match="no points under its header"):
        read("E,N\n")


def test_a_file_of_a_town_is_refused():
    rows = tuple(TableRow(n, ("1", "2")) for n in range(1, 100_003))
    town = Table(name="town.csv", rows=(TableRow(0, ("E", "N")), *rows))
    with pytest.raises(CannotRead, match="points are the most"):
        points_of(town, layout_of(town))


cells = st.text(st.characters(exclude_categories=["Cs", "Cc"]), max_size=8)
rows = st.lists(
    st.lists(cells | st.sampled_from(["E", "N", "1.5", "P1"]), min_size=1), min_size=1
)


@given(rows)
def test_no_table_breaks_them(rows):
    table = Table(name="x", rows=tuple(TableRow(n, tuple(r)) for n, r in enumerate(rows, 1)))
    try:
        points_of(table, layout_of(table))
    except CannotRead as refused:
        assert "Nothing was read" in str(refused)  # noqa: PT017  # the sentence counts
