"""GPX files. Source of the format: GPX 1.1 Schema Documentation, topografix.com/GPX/1/1."""

import pytest

from plan_editor.errors import CannotRead
from plan_editor.exchange.gpx import gpx_points, is_gpx

HEAD = '<gpx version="1.1" creator="us" xmlns="http://www.topografix.com/GPX/1/1">'

WALK = f"""<?xml version="1.0" encoding="UTF-8"?>{HEAD}
<metadata><name>A walk</name></metadata>
<wpt lat="53.66" lon="0.31"><ele>52.5</ele><time>2026-04-18T09:00:00Z</time>
  <name>Old
  yew</name><desc>hollow</desc><type>TREE yew</type></wpt>
<wpt lat="53.67" lon="0.32"><cmt>by the gate</cmt></wpt>
<rte><name>FENCE2</name><rtept lat="53.1" lon="0.1"/><rtept lat="53.2" lon="0.1"/></rte>
<trk><name>Sunday</name><type>PATH gravel</type>
  <trkseg><trkpt lat="53.3" lon="0.1"/><trkpt lat="53.4" lon="0.1"/></trkseg>
  <trkseg><trkpt lat="53.5" lon="0.1"/></trkseg></trk>
<extensions><wpt xmlns="elsewhere" lat="1" lon="1"/></extensions>
</gpx>"""


@pytest.fixture
def read(tmp_path):
    def call(text):
        path = tmp_path / "walk.gpx"
        path.write_bytes(text if isinstance(text, bytes) else text.encode())
        return gpx_points(path)

    return call


def test_waypoints_have_what_the_standard_gives_them(read):
    file = read(WALK)
    first, second = file.points[:2]
    assert (first.name, first.y, first.x, first.height) == ("Old yew", 53.66, 0.31, 52.5)
    assert (first.code, first.words, first.date) == ("TREE yew", "hollow", "2026-04-18")
    assert (second.name, second.code, second.words) == ("", "", "by the gate")
    assert (file.degrees, file.crs) == (True, "EPSG:4326")


def test_how_good_it_is_is_taken_and_said(read):
    file = read(WALK)
    assert {p.sd_m for p in file.points} == {5.0}
    assert "5 m is taken" in file.taken[0]


def test_routes_and_tracks_are_lines_each_with_a_number_of_its_own(read):
    codes = [p.code for p in read(WALK).points if p.joined]
    assert codes == ["FENCE2", "FENCE2", "PATH02 gravel", "PATH02 gravel", "PATH03 gravel"]


def test_version_1_0_and_a_file_without_a_namespace_are_read_too(read):
    for space in ('xmlns="http://www.topografix.com/GPX/1/0"', ""):
        assert len(read(f'<gpx {space}><wpt lat="1" lon="2"/></gpx>').points) == 1


def test_points_that_lie_nowhere_are_left_out_and_said(read):
    file = read(
        f'{HEAD}<wpt lat="53" lon="0"/><wpt lat="91" lon="0"/><wpt lon="0"/>'
        '<wpt lat="nan" lon="0"/><wpt lat="x" lon="0"/></gpx>'
    )
    assert len(file.points) == 1
    assert file.left_out[0] == "Point 2 was left out: its lat is “91”."
    assert len(file.left_out) == 4


ENTITY = '<!DOCTYPE gpx [<!ENTITY a "aaaaaaaaaa">]>'
BILLION = (
    '<!DOCTYPE gpx [<!ENTITY a "lol"><!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;">'
    '<!ENTITY c "&b;&b;&b;&b;&b;&b;&b;&b;">]>'
    '<gpx><wpt lat="1" lon="1"><name>&c;</name></wpt></gpx>'
)
OUTSIDE = (
    '<!DOCTYPE gpx [<!ENTITY x SYSTEM "file:///etc/passwd">]>'
    '<gpx><wpt lat="1" lon="1"><name>&x;</name></wpt></gpx>'
)


@pytest.mark.parametrize("text", [f"{ENTITY}<gpx/>", BILLION, OUTSIDE])
def test_hostile_declarations_are_refused(read, text):
    with pytest.raises(CannotRead, match=r"can do harm\. Nothing was read"):
        read(text)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "is damaged or no GPX"),
        ("point,E,N", "is damaged or no GPX"),
        (WALK[:300], "is damaged or no GPX"),
        (b"\xff\xfe\x00\x00", "is damaged or no GPX"),
        ('<?xml version="1.0" encoding="nonsense"?><gpx/>', "is damaged or no GPX"),
        ("<kml/>", "is XML, but no GPX"),
        ("<gpx/>", "holds no points"),
        (f"{HEAD}<trk><trkseg/></trk></gpx>", "holds no points"),
    ],
)
def test_what_is_no_gpx_is_said(read, text, says):
    with pytest.raises(CannotRead, match=says):
        read(text)


def test_what_cannot_be_opened_is_said(tmp_path):
    with pytest.raises(CannotRead, match="cannot be read: No such file"):
        gpx_points(tmp_path / "none.gpx")
    with pytest.raises(CannotRead, match="is a folder"):
        gpx_points(tmp_path)


def test_a_huge_file_is_refused(tmp_path):
    path = tmp_path / "huge.gpx"
    with path.open("wb") as file:
        file.truncate(50_000_001)
    with pytest.raises(CannotRead, match="larger than 50 MB"):
        gpx_points(path)


def test_a_track_of_years_is_refused(read):
    many = '<trkpt lat="1" lon="1"/>' * 100_001
    with pytest.raises(CannotRead, match="more than 100,000 points"):
        read(f"{HEAD}<trk><trkseg>{many}</trkseg></trk></gpx>")


def test_its_name_says_that_it_is_gpx(tmp_path):
    assert is_gpx(tmp_path / "A.GPX")
    assert not is_gpx(tmp_path / "a.csv")
