"""Tables of inspections as councils and masons write them."""

import pytest

from plan_editor.errors import CannotRead
from plan_editor.exchange.inspections import inspections_of
from plan_editor.exchange.tables import Table, TableRow
from plan_editor.kinds.inspection import Result
from plan_editor.kinds.inspection import Test as How

TODAY = "2026-06-30"
HEADS = (
    "Grave No.",
    "Kind",
    "Tested on",
    "Method",
    "Outcome",
    "By",
    "Notes",
    "Load (N)",
    "Review",
)


def table(*rows):
    lines = [HEADS, *rows]
    return Table(name="t.csv", rows=tuple(TableRow(n, c) for n, c in enumerate(lines, 1)))


def of(date="14/3/2026", method="hand", result="sound", force="", review="", **more):
    told = ("A 1", "", date, method, result, "A mason", more.get("notes", ""), force, review)
    return inspections_of(table(told), TODAY)


@pytest.mark.parametrize(
    ("written", "result"),
    [
        ("Immediate action", Result.IMMEDIATE),
        ("FAIL", Result.IMMEDIATE),
        ("Laid flat", Result.MADE_SAFE),
        ("minor fault", Result.MINOR),
        ("Monitor.", Result.MINOR),
        ("Pass", Result.SOUND),
        # Great Yarmouth and Fenland: 1 immediate, 2 within twelve months, 3 four to five years
        ("1", Result.IMMEDIATE),
        ("2", Result.MINOR),
        ("3", Result.SOUND),
    ],
)
def test_results_are_read_as_they_are_written(written, result):
    found = of(result=written)
    assert [i.result for i in found.found] == [result]
    assert bool(found.doubtful) is written.isdecimal()


@pytest.mark.parametrize(
    ("written", "result"),
    [
        ("low risk", Result.SOUND),
        ("No action.", Result.SOUND),
        ("3", Result.SOUND),
        ("medium", Result.MINOR),
        ("supported", Result.MADE_SAFE),
        ("red", Result.IMMEDIATE),
    ],
)
def test_what_only_follows_from_a_word_is_doubtful(written, result):
    found = of(result=written)
    assert [(i.result, i.taken_as) for i in found.found] == [(result, True)]
    assert f"is taken as “{result}”" in found.doubtful[0].why
    assert not of(result="sound").found[0].taken_as


@pytest.mark.parametrize(
    ("written", "how"),
    [
        ("Push test", How.HAND),
        ("", How.VISUAL),
        ("gauge", How.FORCE),
        ("engineer", How.ENGINEER),
    ],
)
def test_methods_are_read_as_they_are_written(written, how):
    found = of(method=written)
    assert [i.test for i in found.found] == [how]
    assert not found.doubtful


@pytest.mark.parametrize(
    ("told", "why"),
    [
        ({"date": ""}, "no date stands here"),
        ({"date": "soon"}, "no date: "),
        ({"result": ""}, "no result stands here"),
        ({"result": "not too bad"}, "is no result that is known"),
        ({"method": "x" * 1001}, "too long"),
        ({"notes": "x" * 20_001}, "too long"),
    ],
)
def test_a_row_without_date_or_result_is_not_taken(told, why):
    found = of(**told)
    assert not found.found
    assert why in found.rejected[0].why


def test_a_row_without_a_number_is_not_taken():
    found = inspections_of(table(("", "", "2026", "", "sound")), TODAY)
    assert "no number" in found.rejected[0].why


@pytest.mark.parametrize(
    ("told", "column"),
    [
        ({"date": "c. 2024"}, "date"),
        ({"date": "1 July 2026"}, "date"),
        ({"method": "witchcraft"}, "method"),
        ({"force": "much"}, "force"),
        ({"force": "9999"}, "force"),
        ({"review": "some time"}, "next due"),
    ],
)
def test_doubtful_cells_are_told(told, column):
    found = of(**told)
    assert len(found.found) == 1
    assert [(d.row, d.column) for d in found.doubtful] == [(2, column)]


def test_everything_in_a_row_is_taken():
    (one,) = of(force="250 N", review="2031-03", notes="'=Firm").found
    assert (one.number, one.date, one.force_n) == ("A 1", "2026-03-14", 250.0)
    assert (one.inspector, one.action, one.next_due) == ("A mason", "=Firm", "2031-03")


def test_a_table_without_heads_is_refused():
    rows = (TableRow(1, ("A 1", "2026", "sound")),)
    with pytest.raises(CannotRead, match="no row names the columns"):
        inspections_of(Table(name="t.csv", rows=rows), TODAY)


def test_an_item_of_a_report_keeps_its_number():
    heads = ("kind", "number", "date", "result", "Item no.")
    rows = (heads, ("wall", "South", "2024-06-18", "minor fault", " 4.2 "))
    told = Table(name="t.csv", rows=tuple(TableRow(n, c) for n, c in enumerate(rows, 1)))
    (one,) = inspections_of(told, TODAY).found
    assert (one.number, one.item_no) == ("South", "4.2")
