"""What becomes of a point file on a plan, before anything is changed."""

import pytest
import shapely

from plan_editor.commands.point_files import look, source_of, usual_crs
from plan_editor.commands.point_words import accuracy, by_code, in_words
from plan_editor.commands.points import codes_of, ready
from plan_editor.edits.basic import Add
from plan_editor.errors import CannotRead, CannotUse
from plan_editor.exchange.point_columns import Role, layout_of
from plan_editor.kinds import mark, tree
from plan_editor.plan.document import Document
from plan_editor.plan.item import Basis, Method, new_item
from plan_editor.plan.plan import Plan
from plan_editor.survey.grids.grid import Grid

GRID = Grid(crs="EPSG:27700", east=562180.0, north=319784.0)

# TP14 of the test points that the Ordnance Survey publishes with OSTN15: ETRS89 latitude and
# longitude, and easting and northing
LAT, LON = 52.75136687170, 0.40153547065
EAST, NORTH = 562180.547, 319784.995


def plan_with(*items, grid=GRID):
    document = Document(Plan(grid=grid))
    if items:
        document.apply(Add(items))
    return document.plan


@pytest.fixture
def told(tmp_path):
    def call(text, plan=None, crs="", name="points.csv", **more):
        path = tmp_path / name
        path.write_text(text, "utf-8")
        return ready(plan or plan_with(), look(path), crs=crs, codes=codes_of(None), **more)

    return call


def placed(number, east, north, sd_m=None):
    basis = Basis(sd_m=sd_m)
    return new_item(mark.KIND, shapely.Point(east, north), number=number, basis=basis)


def test_latitude_and_longitude_come_to_the_published_place(told):
    found = told(f"name,lat,lon,sd,code\nTP14,{LAT},{LON},0.015,MARK pillar\n", crs="EPSG:4258")
    (point,) = found.points
    assert (point.east, point.north) == pytest.approx((EAST, NORTH), abs=0.0015)
    assert (found.by, found.accuracy_m, found.warnings) == ("OSTN15", 0.0, ())
    assert accuracy(found) == "From EPSG:4258 by OSTN15: nothing is lost on the way."
    assert in_words(found, dry=True) == "1 mark would come on the plan."
    (item,) = found.edit.items
    assert item.shape.distance(shapely.Point(0.547, 0.995)) < 0.0015
    assert item.basis == Basis(method=Method.GNSS, source="points.csv", sd_m=0.015)


def test_the_accuracy_of_the_way_is_carried_on_the_points(told):
    found = told(f"name,lat,lon,sd\n1,{LAT},{LON},0.75\n2,{LAT},{LON + 0.001},\n", crs="4326")
    # √(0.75² + 1²) = 1.25: the register calls the way from WGS 84 good to 1 m
    assert [p.point.sd_m for p in found.points] == [1.25, 1.0]
    assert any("good to 1 m" in w for w in found.warnings)
    assert any("RTK" in w for w in found.warnings)
    assert "known to 1 m at the worst" in accuracy(found)


def test_points_of_the_plans_own_grid_are_measured_with_an_instrument(told):
    found = told(f"pt,E,N,code\n1,{EAST},{NORTH},TREE\n")
    assert found.edit.items[0].basis == Basis(method=Method.INSTRUMENT, source="points.csv")
    assert accuracy(found) == "The file is in EPSG:27700, as the plan is."
    assert any("does not say how well" in w for w in found.warnings)


def test_a_system_in_degrees_takes_x_as_longitude(told):
    found = told(f"id,X,Y\n1,{LON},{LAT}\n", crs="EPSG:4258")
    assert found.points[0].east == pytest.approx(EAST, abs=0.0015)


@pytest.mark.parametrize("pair", [(LAT, LON), (LON, LAT)])
def test_degrees_without_a_header_are_taken_in_the_order_that_lies_near(told, pair):
    found = told("P1,{},{}\nP2,{},{}\n".format(*pair, *pair), crs="EPSG:4258")
    assert found.points[0].north == pytest.approx(NORTH, abs=0.0015)


@pytest.mark.parametrize(
    ("text", "crs", "says"),
    [
        (f"n,lat,lon\n1,{LAT},{LON}\n", "", "--crs EPSG:4258 or --crs EPSG:4326"),
        (f"1,{LAT},{LON}\n", "", "look like latitude and longitude in degrees"),
        (f"n,lat,lon\n1,{LAT},{LON}\n", "27700", "holds latitude and longitude"),
        (f"n,lat,lon\n1,{LON},{LAT}\n", "EPSG:4258", "seem to be exchanged"),
        (f"n,E,N\n1,{NORTH},{EAST}\n", "", "East and north seem to be exchanged"),
        (f"n,E,N\n1,{EAST},{NORTH}\n", "EPSG:4258", "look like metres of a grid"),
        ("P1,2.1,90.0\n", "EPSG:4258", "lies"),
        (f"n,E,N\n1,{EAST},{NORTH}\n", "EPSG:99999", "has no coordinate system EPSG:99999"),
        (f"n,E,N\n1,{EAST},{NORTH}\n", "somewhere", "names no coordinate system"),
        (f"n,E,N\n1,{EAST},{NORTH}\n", "local", "The file has a grid of its own"),
        (f"n,E,N\n1,{EAST},{NORTH}\n", "EPSG:2229", "US survey foot"),
    ],
)
def test_a_file_that_makes_no_sense_so_is_refused_whole(told, text, crs, says):
    with pytest.raises(CannotUse) as refused:
        told(text, crs=crs)
    assert says in str(refused.value)
    assert "othing was changed" in str(refused.value)


def test_a_plan_of_a_grid_of_its_own_takes_only_points_of_that(told):
    own = plan_with(grid=Grid())
    found = told("n,E,N,code\n1,12.3,45.6,TREE\n", plan=own)
    assert (found.points[0].east, found.crs) == (12.3, "local")
    with pytest.raises(CannotUse, match=r"its marks first"):
        told(f"n,lat,lon\n1,{LAT},{LON}\n", plan=own, crs="EPSG:4258")


def test_other_columns_may_be_chosen(told, tmp_path):
    text = f"a,b,c\n{NORTH},{EAST},TREE\n"
    with pytest.raises(CannotUse, match="exchanged"):
        told(text)
    layout = layout_of(look(tmp_path / "points.csv").table)
    assert layout.guessed
    found = told(text, layout=layout.exchanged)
    assert found.points[0].east == EAST
    assert layout.exchanged.roles == (Role.NORTH, Role.EAST, Role.CODE)


def test_a_mark_that_is_on_the_plan_is_compared_and_left_as_it_is(told):
    plan = plan_with(
        placed("M1", 0.547, 0.995),
        placed("M2", 10.547, 0.995),
        placed("M3", 20.547, 0.995, 0.5),
    )
    found = told(
        f"n,E,N,code\nm1,{EAST + 0.03},{NORTH},MARK\nM2,{EAST + 10},{NORTH + 0.12},MARK\n"
        f"M3,{EAST + 20},{NORTH + 0.9},MARK\nM4,{EAST + 30},{NORTH},MARK\n",
        plan=plan,
    )
    assert found.differs == (
        "M2 differs by 0.12 m from the mark on the plan, which stays as it is.",
    )
    assert found.agrees == 2  # M3 is known to half a metre only
    assert [i.number for i in found.edit.items] == ["M4"]
    assert [p.became for p in found.points] == ["", "", "", "Mark"]
    assert "2 things lie where the plan has them" in in_words(found, dry=False)


def test_where_nothing_is_new_there_is_no_edit(told):
    found = told(
        f"n,E,N,code\nM1,{EAST},{NORTH},MARK\n", plan=plan_with(placed("M1", 0.547, 0.995))
    )
    assert found.edit is None
    assert in_words(found, dry=False).startswith("Nothing new came on the plan. 1 thing lies")


def test_points_far_from_the_others_are_left_out_and_said(told):
    lines = [f"{n},{EAST + n},{NORTH},TREE" for n in range(5)]
    lines += [f"far,{EAST + 100_000},{NORTH},TREE", f"x,{NORTH},{EAST},TREE"]
    lines += [f",{EAST},{NORTH + 482_000},TREE"]
    found = told("n,E,N,code\n" + "\n".join(lines))
    assert found.left_out == (
        "far (line 7) was left out: it lies 100 km from the others.",
        "x (line 8) was left out: it lies 343 km from the others; its coordinates seem to be"
        " exchanged.",
        "Line 9 was left out: it lies 482 km from the others.",
    )
    assert found.added == {"tree": 5}


def test_a_name_that_comes_twice_is_taken_once_or_not_at_all(told):
    found = told(
        f"n,E,N,code\nA,{EAST},{NORTH},PEG\na,{EAST + 0.02},{NORTH},PEG\n"
        f"B,{EAST + 5},{NORTH},PEG\nB,{EAST + 9},{NORTH},PEG\nC,{EAST + 20},{NORTH},PEG\n"
    )
    assert [p.point.name for p in found.points] == ["A", "C"]
    assert found.left_out == (
        "A comes 2 times (lines 2, 3), up to 0.02 m apart: the first was taken.",
        "B comes 2 times (lines 4, 5), up to 4.00 m apart: none was taken, for nobody can tell"
        " which is right.",
    )


def test_points_at_one_place_under_several_names_are_said(told):
    lines = [f"{n},{EAST + n // 2},{NORTH},PEG" for n in range(14)]
    found = told("n,E,N,code\n" + "\n".join(lines))
    (said,) = [w for w in found.warnings if "At one place" in w]
    assert "0 and 1; 2 and 3; 4 and 5; 6 and 7; 8 and 9, and 2 more pairs" in said


def test_heights_above_nobody_knows_what_are_said(told):
    head = "n,lat,lon,height\n"
    found = told(f"{head}1,{LAT},{LON},66.4\n", crs="EPSG:4258")
    assert any("above the ellipsoid" in w and "remarks" in w for w in found.warnings)
    stated = told(
        f"n,E,N,level above Ordnance Datum Newlyn,code\n1,{EAST},{NORTH},20.912,LEVEL\n"
    )
    assert stated.edit.items[0].details.level_m == 20.912
    assert not any("heights" in w for w in stated.warnings)


def test_points_outside_the_area_of_their_system_are_said(told):
    # UTM zone 32 begins at 6° E: near enough to be converted, but not what it is made for
    grid = Grid(crs="EPSG:25832", east=280000.0, north=5850000.0)
    found = told("n,E,N,code\n1,280010.0,5850010.0,TREE\n", plan=plan_with(grid=grid))
    assert "1 of the points lie outside the area that EPSG:25832 is made for." in found.warnings


def test_a_gpx_file_is_plain_gps(told):
    text = f'<gpx><wpt lat="{LAT}" lon="{LON}"><name>1</name><type>TREE</type></wpt></gpx>'
    found = told(text, name="walk.gpx")
    assert (found.crs, found.edit.items[0].kind) == ("EPSG:4326", tree.KIND)
    assert found.points[0].point.sd_m == pytest.approx(26**0.5, abs=1e-4)  # √(5² + 1²)
    with pytest.raises(CannotUse, match="is a GPX file"):
        told(text, name="walk.gpx", crs="EPSG:27700")


def test_the_usual_system_is_the_plans_own_unless_it_is_degrees(tmp_path):
    path = tmp_path / "a.csv"
    for text, usual in (("E,N\n1,2\n", "EPSG:27700"), ("lat,lon\n1,2\n", "")):
        path.write_text(text, "utf-8")
        assert usual_crs(look(path), GRID) == usual


def test_a_number_alone_names_a_system():
    assert [source_of(c) for c in ("4258", " epsg: 04326 ", "27700", "local")] == [
        "EPSG:4258",
        "EPSG:4326",
        "EPSG:27700",
        "local",
    ]
    for bad in ("EPSG:٤٢٥٨", "EPSG:9" + "9" * 30, "EPSG:"):
        with pytest.raises(CannotUse):
            source_of(bad)


def test_a_file_that_is_not_there_is_said(tmp_path):
    with pytest.raises(CannotRead, match="There is no file"):
        look(tmp_path / "none.csv")


def test_a_table_of_codes_of_ones_own_is_read(tmp_path):
    path = tmp_path / "mine.toml"
    path.write_text('[[code]]\ncode = "YEW"\nkind = "tree"\n', "utf-8")
    assert set(codes_of(path)) == {"YEW"}


def test_what_becomes_of_each_code_is_told(told):
    plan = plan_with(placed("M1", 0.547, 0.995))
    found = told(
        f"pt,E,N,code\nM1,{EAST},{NORTH},MARK\nM2,{EAST + 5},{NORTH},MARK\n"
        f"1,{EAST},{NORTH + 1},WALL1\n2,{EAST},{NORTH + 2},WALL1\n3,{EAST},{NORTH + 3},\n",
        plan=plan,
    )
    assert by_code(found) == (
        "MARK: 1 × there already, 1 × mark; WALL: 2 × wall; without a code: 1 × mark"
    )
