import json
from math import pi

import pytest
import shapely


def test_show_counts_and_measures_by_kind(plan, said):
    code, out, err = said("show", plan, "--json")
    found = json.loads(out)
    assert (code, err) == (0, "")
    assert (found["name"], found["crs"]) == ("St Ŵyn", "EPSG:27700")
    assert found["kinds"]["path"] == {"count": 1, "area_m2": 45.0, "length_m": 30.0}
    assert found["kinds"]["wall"]["length_m"] == 40.0
    assert found["kinds"]["grave"]["area_m2"] == pytest.approx(3.0)
    assert found["extent"][0] == pytest.approx(553099.25)
    assert found["items"] == 5


def test_show_tells_a_person_the_same(plan, said):
    code, out, _ = said("show", plan)
    assert code == 0
    assert "St Ŵyn" in out
    assert "Paths" in out
    assert "45.0" in out


def test_clearance_gives_zones_in_true_coordinates(plan, said):
    code, out, _ = said("clearance", plan, "--purpose", "people", "--json")
    (zone,) = json.loads(out)["zones"]
    assert code == 0
    assert zone["rule"] == "unsafe-memorial-people"
    assert [i["number"] for i in zone["items"]] == ["A 1"]
    # height 1.2 m and 1.0 m more; Steiner: A + P r + pi r^2
    assert zone["distance_m"] == 2.2
    assert zone["area_m2"] == pytest.approx(0.16 + 2.0 * 2.2 + pi * 2.2**2, abs=0.02)
    shape = shapely.from_wkt(zone["wkt"])
    assert shape.contains(shapely.Point(553110.1, 421020.4))
    assert shape.area == pytest.approx(zone["area_m2"], abs=0.01)
    assert zone["local_rule"] is True


def test_clearance_without_a_purpose_speaks_of_people_and_machines(plan, said):
    _, out, _ = said("clearance", plan, "--json")
    assert {z["purpose"] for z in json.loads(out)["zones"]} == {"people", "machine"}


def test_clearance_tells_a_person_the_source_and_the_caution(plan, said):
    _, out, _ = said("clearance", plan)
    assert "Local rule" in out
    assert "may fall without warning" in out
    assert "A 1" in out


def test_before_the_inspection_nothing_was_known_to_be_unsafe(plan, said):
    code, out, _ = said("clearance", plan, "--date", "2026-01-01")
    assert code == 0
    assert "nothing with a zone is known to be unsafe" in out
    # and that is not to say that it was safe
    assert "without an inspection that came to a result: 1 of 1" in out
    facts = json.loads(said("clearance", plan, "--date", "2026-01-01", "--json")[1])
    assert (facts["memorials"], facts["without_result"]) == (1, 1)
    assert "without an inspection" not in said("clearance", plan)[1]


def test_history_says_who_changed_what(plan, said):
    code, out, _ = said("history", plan, "--json")
    (entry,) = json.loads(out)["entries"]
    assert code == 0
    assert (entry["number"], entry["author"]) == (1, "a test")
    assert "a test" in said("history", plan)[1]


def test_verify_finds_nothing_wrong_with_a_good_plan(plan, said):
    code, out, _ = said("verify", plan, "--json")
    assert code == 0
    assert json.loads(out)["findings"] == []


def test_verify_says_no_where_a_byte_was_lost(plan, said):
    content = bytearray(plan.read_bytes())
    where = content.index(b"a test")
    content[where] ^= 1
    plan.write_bytes(content)
    code, out, _ = said("verify", plan, "--json")
    assert code == 1
    assert json.loads(out)["findings"]


def test_there_is_no_base_plan_yet(plan, said):
    assert json.loads(said("base", "list", plan, "--json")[1])["base_plans"] == []
    assert "no base plan" in said("base", "list", plan)[1]
