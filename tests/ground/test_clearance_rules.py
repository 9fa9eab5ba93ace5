import re

import pytest

from plan_editor.errors import CannotUse
from plan_editor.ground.rules import Purpose, read_rules, shipped_rules
from plan_editor.plan.kind import kind_named

GOOD = """
[[rule]]
name = "n"
title = "t"
applies_to = "memorial"
when = "unsafe"
purpose = "people"
distance = "height_m + 1"
local_rule = true
source = "s"
caution = "c"
"""


def test_every_shipped_rule_speaks_of_a_kind_and_tells_its_source():
    for rule in shipped_rules():
        assert kind_named(rule.applies_to) is not None
        assert rule.caution
        assert rule.source


def test_a_rule_without_a_published_figure_is_called_local_where_it_is_printed():
    for rule in shipped_rules():
        assert rule.local_rule == rule.source.startswith("Local rule:")


def test_every_shipped_rule_tells_its_distance_in_short():
    worked = {
        "height and 1 m": 3.0,
        "1½ heights and 1 m": 4.0,
        "½ height and 1 m": 2.0,
    }
    for rule in shipped_rules():
        assert rule.distance.worked_out({"height_m": 2.0}) == worked[rule.short]


def test_there_is_a_rule_for_people_and_one_for_machines():
    assert {rule.purpose for rule in shipped_rules()} == set(Purpose)


def test_a_good_table_is_read(tmp_path):
    path = tmp_path / "rules.toml"
    path.write_text(GOOD, "utf-8")
    (rule,) = read_rules(path)
    assert (rule.assume, rule.short) == ((), "")
    assert rule.distance.worked_out({"height_m": 2.0}) == 3.0


@pytest.mark.parametrize(
    ("table", "says"),
    [
        ("", r"holds no \[\[rule\]\]"),
        ("rule = 3", r"holds no \[\[rule\]\]"),
        ("rule = [3]", "rule 1"),
        ("a = ", "cannot be read"),
        (GOOD.replace('source = "s"\n', ""), "rule 1: it has no 'source'"),
        (GOOD.replace('"people"', '"cows"'), "cows"),
        (GOOD.replace("height_m + 1", "height_m ** 2"), re.escape("height_m ** 2")),
        (GOOD + 'assume = "x"', "rule 1"),
        # a slip of the pen must not leave a stone without its zone, or with a made-up height
        (GOOD.replace('"memorial"', '"memorials"'), "rule 1: there is no kind “memorials”"),
        (GOOD.replace("height_m + 1", "hight_m + 1"), "no number “hight_m” is recorded"),
        (GOOD.replace("height_m + 1", "material + 1"), "no number “material” is recorded"),
        (GOOD + "assume = { hight_m = 1.5 }", "“hight_m” cannot be taken as 1.5"),
        (GOOD + "assume = { height_m = nan }", "“height_m” cannot be taken as nan"),
        (GOOD + "assume = { height_m = -1 }", "“height_m” cannot be taken as -1"),
        (GOOD + GOOD, "two rules bear one name"),
    ],
)
def test_a_faulty_table_is_refused_with_the_place(tmp_path, table, says):
    path = tmp_path / "rules.toml"
    path.write_text(table, "utf-8")
    with pytest.raises(CannotUse, match=says):
        read_rules(path)


def test_a_missing_table_is_refused(tmp_path):
    with pytest.raises(CannotUse, match="cannot be read"):
        read_rules(tmp_path / "none.toml")
