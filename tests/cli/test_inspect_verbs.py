"""What is due is said, and tables of results are taken in."""

import json

import pytest

from plan_editor.kinds import inspection
from plan_editor.records.safety import unsafe
from plan_editor.storage.loading import read_plan

HEADS = "Memorial no.,Date inspected,Test,Category,Inspected by,Comments\n"


@pytest.fixture
def table(tmp_path):
    """Write a table of inspections; return its file."""

    def write(text, name="round.csv"):
        path = tmp_path / name
        path.write_text(text, "utf-8")
        return path

    return write


def test_what_is_due_is_said_with_an_exit_code_of_one(plan, said):
    code, out, err = said("inspect", "due", plan, "--on", "2026-06-01", "--json")
    found = json.loads(out)
    assert (code, err) == (1, "")
    assert (found["on"], found["unsafe"]) == ("2026-06-01", 1)
    told = {(d["kind"], d["number"]): d for d in found["due"]}
    stone = told["memorial", "A 1"]
    assert (stone["due"], stone["unsafe"], stone["overdue"]) == ("2026-03-14", True, True)
    # 1.2 m would be tested by hand, but what was found unsafe is never pushed
    assert stone["method"] == "visual"
    assert told["wall", ""]["due"] is None
    assert {d["kind"] for d in found["due"]} == {"memorial", "wall", "path"}


def test_a_person_reads_what_is_due_with_the_caution(plan, said):
    code, out, _ = said("inspect", "due", plan, "--on", "2026-06-01")
    assert code == 1
    assert out.splitlines()[1].startswith("Memorial A 1")
    assert "3 things are due by 2026-06-01." in out
    assert "Testing is for trained people" in out


def test_before_anything_is_due_nothing_is_said(plan, said, table):
    round_ = table(
        "kind,number,date,result\nmemorial,A 1,2026-04-01,sound\nwall,wall,2026-04-01,sound\n"
        "path,path,2026-04-01,sound\n"
    )
    assert said("inspect", "import", plan, round_)[0] == 0
    code, out, _ = said("inspect", "due", plan, "--on", "2026-06-01")
    assert (code, out) == (0, "Nothing is due to be inspected by 2026-06-01.\n")
    # paths after a year, the stone and the wall after five
    later = json.loads(said("inspect", "due", plan, "--on", "2027-04-01", "--json")[1])
    assert [d["kind"] for d in later["due"]] == ["path"]


def test_a_day_that_is_none_is_refused_in_a_sentence(plan, said):
    code, _, err = said("inspect", "due", plan, "--on", "yesterday")
    assert code == 2
    assert "is no date" in err


def test_a_table_is_taken_in_once_and_a_second_time_changes_nothing(plan, said, table):
    round_ = table(HEADS + "a1,14 Sept 2026,hand test,Sound,A mason,Firm\n")
    code, out, err = said("inspect", "import", plan, round_, "--json")
    assert (code, err) == (0, "")
    assert json.loads(out)["new"] == 1
    held = read_plan(plan)
    assert not unsafe(held)
    (_, made) = held.of(inspection.KIND)
    told = made.details
    assert (told.date, str(told.test), told.inspector) == ("2026-09-14", "hand", "A mason")
    assert told.action == "Firm"
    again = json.loads(said("inspect", "import", plan, round_, "--json")[1])
    assert (again["new"], again["known"]) == (0, 1)
    assert read_plan(plan).items == held.items


def test_doubts_and_what_is_not_taken_are_told_with_their_lines(plan, said, table):
    round_ = table(
        HEADS
        + "A 1,14 Sept 2025,hand,1,A mason,\n"  # a bare figure
        + "A 1,,hand,sound,,\n"  # no date
        + "Z 9,14 Sept 2025,hand,sound,,\n"  # no such thing
        + "A 1,15 Sept 2025,hand,wobbly,,\n"  # no result
        + "A 1,16 Sept 2025,with a stick,sound,,\n"
    )
    found = json.loads(said("inspect", "import", plan, round_, "--json")[1])
    assert (found["read"], found["new"]) == (5, 2)
    assert [(d["row"], d["column"]) for d in found["doubtful"]] == [
        (2, "result"),
        (6, "method"),
    ]
    assert [r["row"] for r in found["rejected"]] == [3, 4, 5]
    text = said("inspect", "import", plan, round_)[1]
    assert "Line 5 was not taken: “wobbly” is no result that is known" in text


def test_low_risk_does_not_end_a_danger_and_the_plain_word_is_asked_for(plan, said, table):
    before = unsafe(read_plan(plan))
    assert before
    round_ = table(HEADS + "A 1,14 Sept 2026,hand,low risk,A mason,Firm\n")
    code, out, _ = said("inspect", "import", plan, round_)
    assert "Line 2 was not taken: Memorial" in out
    assert "write the plain word “sound” in its place" in out
    assert "is taken as" not in out
    assert (code, unsafe(read_plan(plan))) == (0, before)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("nothing,here\n1,2\n", "no row names the columns"),
        ("number,date\nA 1,2026\n", "there is no column result"),
        ("", "is empty"),
    ],
)
def test_a_table_that_is_none_is_refused_and_the_plan_is_as_before(
    plan, said, table, text, says
):
    before = plan.read_bytes()
    code, _, err = said("inspect", "import", plan, table(text))
    assert code == 2
    assert says in err
    assert plan.read_bytes() == before


def test_an_unsafe_wall_has_its_clearance_and_an_unsafe_path_is_told_without(plan, said, table):
    round_ = table(
        "kind,number,date,result\nwall,wall,2026-04-01,unsafe\npath,path,2026-04-01,unsafe\n"
    )
    said("inspect", "import", plan, round_)
    words = ("clearance", plan, "--date", "2026-06-01", "--purpose", "people")
    found = json.loads(said(*words, "--json")[1])
    wall = next(z for z in found["zones"] if z["rule"] == "unsafe-wall-people")
    # 2 m assumed and 1 m more on both sides of 40 m: 2 · 3 · 40 + π · 3²
    assert wall["distance_m"] == 3.0
    assert wall["area_m2"] == pytest.approx(240 + 9 * 3.14159, abs=0.05)
    assert found["without_zone"] == ["Path"]
    text = said(*words)[1]
    assert "Keep out on both sides" in text
    assert "no rule says how far to keep off: Path" in text
