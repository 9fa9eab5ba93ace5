"""Field books on the command line."""

import json
from math import hypot

import pytest
from shapely import Point

from plan_editor.edits.basic import Add
from plan_editor.kinds import mark
from plan_editor.plan.document import Document
from plan_editor.plan.item import Basis, Method, new_item
from plan_editor.storage.loading import read_plan
from plan_editor.storage.plan_file import PlanFile

MARKS = {"M1": (0.0, 0.0), "M2": (20.0, 0.0), "M3": (10.0, 15.0), "M4": (0.0, 30.0)}
HEAD = "type,from,to,point,distance,offset,side,out\n"
SCALE = 0.99989
"""The scale factor of the British grid at the plan's origin, to the fifth place."""


@pytest.fixture
def marked(plan):
    basis = Basis(method=Method.GNSS, sd_m=0.005)
    items = [
        new_item(
            mark.KIND, Point(at), number=n, basis=None if n == "M4" else basis
        )
        for n, at in MARKS.items()
    ]  # fmt: skip
    with PlanFile.open(plan) as file:
        Document(file.plan, journal=file).apply(Add(tuple(items)))
        file.save()
    return plan


@pytest.fixture
def ties(tmp_path, said, marked):
    """Take in a book of these lines; return exit code, answer and complaint."""

    def call(*lines: str, words: tuple[str, ...] = ("--json",), head: str = HEAD):
        path = tmp_path / "book.csv"
        path.write_text(head + "\n".join(lines) + "\n", "utf-8")
        code, out, err = said("ties", marked, path, *words)
        return code, json.loads(out) if "--json" in words else out, err

    return call


def tape(start: str, at: tuple[float, float]) -> str:
    e, n = MARKS[start]
    return f"{hypot(at[0] - e, at[1] - n) / SCALE:.3f}"


def to(point: str, at: tuple[float, float], *marks: str) -> list[str]:
    return [f"tie,{m},,{point},{tape(m, at)},,," for m in marks]


P1 = to("P1", (8.0, 6.0), "M1", "M2", "M3")


def test_a_good_book_is_taken_in_in_the_coordinates_of_the_plan(ties, marked):
    code, facts, err = ties(*P1)
    assert (code, err) == (0, "")
    (point,) = facts["points"]
    # the plan's origin lies at 553100, 421000 of EPSG:27700
    assert (point["E"], point["N"]) == pytest.approx((553108.0, 421006.0), abs=0.003)
    assert point["status"] == "good"
    assert 0.0 < point["sd_E"] < 0.05
    assert point["ellipse"]["a"] >= point["ellipse"]["b"] > 0.0
    assert facts["dof"] == 1
    assert facts["scale_factor"] == pytest.approx(SCALE, abs=1e-5)
    assert [o["suspect"] for o in facts["observations"]] == [0, 0, 0]
    assert set(facts["observations"][0]) >= {"residual", "standardised", "redundancy"}
    plan = read_plan(marked)
    (found,) = (m for m in plan.of(mark.KIND) if m.number == "P1")
    assert shapely_at(found) == pytest.approx((8.0, 6.0), abs=0.003)


def shapely_at(item) -> tuple[float, float]:
    return item.shape.x, item.shape.y


def test_the_same_book_once_more_leaves_the_file_as_it_is(ties, marked):
    ties(*P1)
    before = marked.read_bytes()
    code, text, _ = ties(*P1, words=())
    assert code == 0
    assert "The plan has all of this book already. Nothing was changed." in text
    assert marked.read_bytes() == before


def test_a_dry_run_says_the_same_and_changes_nothing(ties, marked):
    before = marked.read_bytes()
    code, facts, _ = ties(*P1, words=("--dry-run", "--json"))
    assert (code, facts["dry_run"], len(facts["points"])) == (0, True, 1)
    assert marked.read_bytes() == before


def test_a_blunder_is_exit_1_and_the_line_is_named(ties):
    wrong = [*to("P1", (8.0, 6.0), "M1", "M2", "M3", "M4")]
    wrong[1] = wrong[1].replace(tape("M2", (8.0, 6.0)), "14.42")
    code, facts, _ = ties(*wrong)
    assert code == 1
    assert [o["line"] for o in facts["observations"] if o["suspect"] == 1] == [3]
    assert "Measure the tape from M2 to P1 again" in facts["advice"][0]
    assert any("held as exact: M4" in text for text in facts["sentences"])


def test_a_point_at_two_places_is_asked_about_and_a_side_settles_it(ties, marked):
    two = to("P1", (8.0, 6.0), "M1", "M2")
    code, facts, _ = ties(*two)
    (point,) = facts["points"]
    assert (code, point["E"], point["status"]) == (1, None, "ambiguous")
    assert sorted(n for _, n in point["choices"]) == pytest.approx(
        [420994.0, 421006.0], abs=0.01
    )
    assert "P1 may lie at 2 places" in " ".join(facts["sentences"])
    assert {m.number for m in read_plan(marked).of(mark.KIND)} == set(MARKS)
    code, facts, _ = ties(two[0], two[1].replace(",,,", ",,left,"), head=HEAD)
    assert facts["points"][0]["N"] == pytest.approx(421006.0, abs=0.01)
    assert code == 0


def test_a_closed_traverse_between_marks_is_adjusted_with_its_bearings_and_angles(ties):
    head = "type,from,to,distance,bearing,angle\n"
    # from M1 at 0, 0 by A at 6, 8 and B at 14, 8 to M2 at 20, 0
    lines = ["leg,M1,A,10.001,36.87,", "leg,A,B,8.001,,233.13", "leg,B,M2,10.001,143.13,"]
    code, facts, _ = ties(*lines, head=head)
    assert code == 0
    places = {p["name"]: (p["E"] - 553100.0, p["N"] - 421000.0) for p in facts["points"]}
    assert places["A"] == pytest.approx((6.0, 8.0), abs=0.01)
    assert places["B"] == pytest.approx((14.0, 8.0), abs=0.01)
    measured = [(o["what"], o["measured"]) for o in facts["observations"]]
    assert ("bearing", 36.87) in measured
    assert ("angle", 233.13) in measured
    assert facts["dof"] == 2


def test_of_many_sentences_of_one_sort_the_first_are_said(ties):
    _, facts, _ = ties(*(f"tie,M1,,Q{n},5,,," for n in range(20)))
    assert "And 5 more of that sort." in facts["sentences"]
    assert len(facts["advice"]) == 20


def test_how_far_off_a_suspected_tape_seems_is_told(ties):
    there = (8.0, 6.0)
    long = f"tie,M3,,P1,{float(tape('M3', there)) + 1.0:.3f},,,"
    code, facts, _ = ties(*to("P1", there, "M1", "M2", "M4"), long)
    assert code == 1
    assert "too long." in next(s for s in facts["sentences"] if s.startswith("Line 5, tie M3"))


@pytest.mark.parametrize(("a", "b"), [("5", "14.5"), ("30", "9.5")])
def test_tapes_that_do_not_meet_are_told(ties, a, b):
    code, facts, _ = ties(f"tie,M1,,P1,{a},,,", f"tie,M2,,P1,{b},,,")
    assert (code, facts["points"][0]["status"]) == (1, "undetermined")
    assert "Lines 2 and 3: the tapes to P1 do not meet by 0.5" in " ".join(facts["sentences"])


def test_a_mark_that_is_not_on_the_plan_is_told(ties):
    code, _, _ = ties("tie,M9,,P1,5,,,", *P1[:1])
    assert code == 1
    _, text, _ = ties("tie,M9,,P1,5,,,", *P1[:1], words=("--dry-run",))
    assert "M9 is neither a mark on the plan nor fixed by the book" in text


def test_the_answer_for_a_person_is_a_table_and_sentences(ties):
    lines = [
        *P1,
        *to("Q", (9.0, 9.0), "M1"),
        *(f"offset,M1,M2,O{n},{4 * n},{2 + n % 2},left," for n in range(1, 6)),
        f"tie,M2,,P1,{tape('M2', (8.0, 6.0))},,,yes",
        "check,M1,,M2,21.0,,,",
    ]
    code, text, _ = ties(*lines, words=())
    assert code == 1
    assert "553108.0" in text
    assert "Q is not determined: it was not put on the plan." in text
    assert "m² straight between offsets" in text
    assert "The suspected line counts in them" in text
    _, text, _ = ties(*lines[:3], words=("--dry-run",))
    assert text.endswith("Nothing was changed: this was a dry run.\n")


def test_what_moves_on_the_plan_is_told_before_and_after(ties):
    assert ties(*P1)[1]["moved"] == []
    east = to("P1", (8.3, 6.0), "M1", "M2", "M3")
    _, facts, _ = ties(*east, words=("--dry-run", "--json"))
    assert [m["what"] for m in facts["moved"]] == ["Mark P1"]
    assert facts["moved"][0]["metres"] == pytest.approx(0.3, abs=0.003)
    assert (
        "1 thing would move, by up to 0.30 m: Mark P1." in ties(*east, words=("--dry-run",))[1]
    )
    assert "1 thing has moved, by up to 0.30 m: Mark P1." in ties(*east, words=())[1]
    assert "moved" not in ties(*east, words=())[1]


def test_what_is_measured_has_its_unit_and_nought_no_minus(ties):
    lines = [*to("Q", (9.0, 9.0), "M1", "M2"), "offset,M1,M2,O1,4,2,left,"]
    _, text, _ = ties(*lines, words=("--dry-run",))
    assert "along 4.000 m +0.000" in " ".join(text.split())
    assert "-0.000" not in text


def test_what_another_book_measured_is_told_where_it_is_suspected(ties, tmp_path, said, marked):
    assert ties(*P1, *to("P2", (12.0, 4.0), "M1", "M2", "M3"))[0] == 0
    other = tmp_path / "other.csv"
    other.write_text(f"{HEAD}check,P1,,P2,4.47,,,\n", "utf-8")
    code, out, _ = said("ties", marked, other)
    assert (code, "Field book other" in out) == (0, True)
    wrong = [line.replace(tape("M3", (8.0, 6.0)), "10.2") for line in P1]
    assert ties(*wrong, *to("P2", (12.0, 4.0), "M1", "M2", "M3"))[0] == 1
    code, out, _ = said("ties", marked, other, "--dry-run")
    assert code == 1
    assert "of book" in out


@pytest.mark.parametrize(
    ("lines", "wanted"),
    [
        (["tie,M1,,P1,-5,,,"], "line 2, distance: “-5” is not a length"),
        (["tie,M1,,P1,501,,,"], "501 m is not over 0 and up to 500 m"),
        ([], "there is no line below the header"),
    ],
)
def test_bad_input_is_exit_2_and_one_sentence(ties, marked, lines, wanted):
    before = marked.read_bytes()
    code, _, err = ties(*lines)
    assert code == 2
    assert wanted in err
    assert err.count("\n") == 1
    assert marked.read_bytes() == before
