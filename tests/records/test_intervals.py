"""When things are looked at again."""

import re

import pytest

from plan_editor.errors import CannotUse
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import inspection, interval, light, memorial, parish, tree
from plan_editor.kinds.inspection import InspectionDetails, Result
from plan_editor.kinds.interval import After, IntervalDetails
from plan_editor.kinds.parish import ParishDetails
from plan_editor.plan.item import new_item
from plan_editor.plan.plan import plan_of
from plan_editor.records.due import dues
from plan_editor.records.intervals import next_looks, read_intervals, shipped_intervals

STONE = new_item(memorial.KIND, Rectangle(east=0, north=0, width=0.8, length=0.2), number="A 1")
YEW = new_item(tree.KIND, number="T 1")
ON = "2026-06-30"

GOOD = """
[[interval]]
of = "tree"
after = "any"
months = 24
source = "s"
"""


def look(of, date="", result=None, **told):
    details = InspectionDetails(target=of.id, date=date, result=result, **told)
    return new_item(inspection.KIND, details=details)


def own(of, months, after=After.ANY, source=""):
    details = IntervalDetails(of=of, after=after, months=months, source=source)
    return new_item(interval.KIND, details=details)


def due(*items):
    """Return the day on which the first of some things is due; None where it never is."""
    found = next_looks(plan_of(items), ON)
    return found[0].date if found else None


@pytest.mark.parametrize(
    ("date", "result", "day"),
    [
        # common practice of councils: five years, and twelve months after a minor fault
        ("2024-03-14", Result.SOUND, "2029-03-14"),
        ("2024-03-14", Result.MINOR, "2025-03-14"),
        ("2026-01-31", Result.MADE_SAFE, "2026-02-28"),
        ("2026-03-14", Result.IMMEDIATE, "2026-03-14"),
        # what a date leaves open is reckoned from its first day
        ("2024", Result.SOUND, "2029-01-01"),
        ("2024-03", Result.SOUND, "2029-03-01"),
        ("", Result.SOUND, ""),
        ("", Result.IMMEDIATE, ""),
        ("2024-03-14", None, ""),
    ],
)
def test_a_memorial_is_looked_at_again(date, result, day):
    assert due(STONE, look(STONE, date, result)) == day


def test_what_was_never_inspected_is_due_and_a_thing_without_an_interval_never():
    assert due(STONE) == ""
    lamp = new_item(light.KIND)
    assert due(lamp) is None
    assert due(lamp, look(lamp, "2020", Result.SOUND)) is None


def test_the_day_that_the_inspector_named_goes_before_any_interval():
    named = look(STONE, "2024-03-14", Result.SOUND, next_due="2026-09")
    assert due(STONE, named, own("memorial", 6)) == "2026-09-01"


def test_a_day_named_for_an_unsafe_stone_does_not_put_it_off():
    named = look(STONE, "2026-03-14", Result.IMMEDIATE, next_due="2027-01-01")
    assert due(STONE, named) == "2026-03-14"


def test_the_parishs_own_figures_go_before_the_shipped_ones():
    figures = ParishDetails(inspection_years=1.5, minor_fault_months=3)
    here = new_item(parish.KIND, details=figures)
    assert due(STONE, here, look(STONE, "2024-03-14", Result.SOUND)) == "2025-09-14"
    assert due(STONE, here, look(STONE, "2026-03-14", Result.MINOR)) == "2026-06-14"
    assert due(YEW, here, look(YEW, "2024-03-14", Result.SOUND)) == "2026-03-14"


@pytest.mark.parametrize(
    ("own_intervals", "result", "day"),
    [
        ([own("Tree", 36)], Result.SOUND, "2027-01-10"),
        ([own("tree", 36, After.SOUND), own("tree", 6)], Result.SOUND, "2027-01-10"),
        # the shipped year after a fault stays where the parish looks less often
        ([own("tree", 36)], Result.MINOR, "2025-01-10"),
        ([own("tree", 6)], Result.MINOR, "2024-07-10"),
        # but what the parish says of just this result holds
        ([own("tree", 18, After.MINOR)], Result.MINOR, "2025-07-10"),
        # one without a figure says nothing
        ([own("tree", None)], Result.SOUND, "2026-01-10"),
    ],
)
def test_the_plans_own_intervals_go_before_all(own_intervals, result, day):
    assert due(YEW, look(YEW, "2024-01-10", result), *own_intervals) == day


def test_why_it_is_due_is_told_with_the_source():
    plan = plan_of([YEW, look(YEW, "2024-01-10", Result.SOUND), own("tree", 12)])
    (found,) = next_looks(plan, ON)
    assert found.says == "Sound, 2024-01-10. Again after a year. The parish's own interval."


def test_what_is_due_names_the_thing_and_what_to_do():
    bad = look(STONE, "2026-03-14", Result.IMMEDIATE)
    plan = plan_of([STONE, YEW, bad, look(YEW, "2024-01-10", Result.SOUND)])
    found = [d for d in dues(plan, ON) if d.sort == "inspections"]
    assert [(d.date, d.title, d.item) for d in found] == [
        ("2026-01-10", "Inspect tree T 1", YEW.id),
        ("2026-03-14", "Make safe memorial A 1", STONE.id),
    ]
    assert all(d.overdue(ON) for d in found)


def test_every_shipped_interval_tells_its_source():
    assert all(i.source for i in shipped_intervals())
    # EJCCM 2018, section 45: the church and what goes with it, every five years
    fabric = [i for i in shipped_intervals() if i.of in ("building", "wall")]
    assert {i.months for i in fabric} == {60}


@pytest.mark.parametrize(
    ("table", "says"),
    [
        ("", r"holds no \[\[interval\]\]"),
        ("interval = 3", r"holds no \[\[interval\]\]"),
        ("interval = [3]", "interval 1"),
        ("a = ", "cannot be read"),
        (GOOD.replace('source = "s"\n', ""), "interval 1: it has no 'source'"),
        (GOOD.replace('"any"', '"rain"'), "rain"),
        (GOOD.replace('"tree"', '"burial"'), "“burial” are not inspected"),
        (GOOD.replace("24", "-1"), re.escape("-1 months is no interval")),
    ],
)
def test_a_table_that_cannot_be_used_is_refused_with_its_place(tmp_path, table, says):
    path = tmp_path / "intervals.toml"
    path.write_text(table, "utf-8")
    with pytest.raises(CannotUse, match=says):
        read_intervals(path)


def test_a_good_table_is_read(tmp_path):
    path = tmp_path / "intervals.toml"
    path.write_text(GOOD, "utf-8")
    (found,) = read_intervals(path)
    assert (found.of, found.after, found.months) == ("tree", After.ANY, 24)
