"""Traverses on the command line, against published ones."""

import json

import pytest

HEAD = "type,from,to,distance,bearing,angle,back\n"

# scribd.com/doc/279716815, Sample Traverse Computations: lengths in feet, taken as they are
SIX = [
    "leg,A,B,495.85,N 5°30' E,,",
    "leg,B,C,850.62,N 46°02' E,,",
    "leg,C,D,855.45,S 67°38' E,,",
    "leg,D,E,1020.87,S 12°25' E,,",
    "leg,E,F,1117.26,S 83°44' W,,",
    "leg,F,A,660.08,N 55°09' W,,",
]
ADJUSTED_NORTH = [491.8995, 587.6733, -328.4036, -1000.4252, -125.7134, 374.9694]
ADJUSTED_EAST = [45.7328, 609.1538, 788.0003, 215.8168, -1114.6225, -544.0812]
ADJUSTED_LENGTHS = [494.0208, 846.4208, 853.694, 1023.439, 1121.6894, 660.7771]


@pytest.fixture
def traverse(tmp_path, said):
    """Work out a book of these lines; return exit code, answer and complaint."""

    def call(*lines: str, words: tuple[str, ...] = ("--json",), over: str = ""):
        path = tmp_path / "book.csv"
        path.write_text(over + HEAD + "\n".join(lines) + "\n", "utf-8")
        code, out, err = said("traverse", path, *words)
        return code, json.loads(out) if "--json" in words and code < 2 else out, err

    return call


def test_the_published_traverse_of_six_sides(traverse):
    code, facts, err = traverse(*SIX, over="mark A 0 0\n")
    # 1 in 203, where tapes and bearings explain a tenth of it
    assert (code, err) == (1, "")
    assert facts["misses_too_much"] is True
    assert "Nobody digs" in facts["caution"]
    assert facts["misclosure"] == pytest.approx(24.6876, abs=1e-4)
    assert (facts["misclosure_N"], facts["misclosure_E"]) == pytest.approx(
        (16.8171, 18.0737), abs=1e-4
    )
    assert facts["length"] == pytest.approx(5000.13, abs=1e-6)
    # printed as 1:200, rounded down to the hundred
    assert 200 < facts["ratio"] < 210
    assert facts["area"] == pytest.approx(1715250.0494, abs=2.0)
    east = north = 0.0
    points = {p["name"]: (p["E"], p["N"]) for p in facts["points"]}
    for name, de, dn in zip("BCDEF", ADJUSTED_EAST, ADJUSTED_NORTH, strict=False):
        east, north = east + de, north + dn
        assert points[name] == pytest.approx((east, north), abs=5e-4)
    lengths = [leg["adjusted_distance"] for leg in facts["legs"]]
    assert lengths == pytest.approx(ADJUSTED_LENGTHS, abs=1e-4)


def test_the_same_for_a_person(traverse):
    code, text, _ = traverse(*SIX, words=())
    assert code == 1
    assert "It misses by more than its tapes and its bearings or angles explain." in text
    assert "Nobody digs by a point of a traverse" in text
    assert "it missed by 24.688 m" in text
    assert "ratio 1:203" in text
    assert "It encloses 1715250.0 m² (171.5250 ha)." in text
    assert "The book gives no place of A: it was put at E 1000, N 1000." in text


def test_by_least_squares_the_blunders_of_it_are_suspected(traverse):
    code, facts, _ = traverse(*SIX, words=("--adjust", "least-squares", "--json"))
    assert (code, facts["dof"]) == (1, 2)
    assert facts["s0"] > 5.0
    assert facts["area"] == pytest.approx(1715250.0, rel=0.01)
    assert [p["name"] for p in facts["points"]] == list("ABCDEF")
    _, text, _ = traverse(*SIX, words=("--adjust", "least-squares"))
    assert "2 measurements more than needed; s0" in text


# a square of 10 m, walked clockwise with its corners to the right
SQUARE = [
    "leg,A,B,10,0,,",
    "leg,B,C,10,,270,",
    "leg,C,D,10,,270,",
    "leg,D,A,10,,270,",
]


def test_a_square_by_angles_closes(traverse):
    code, facts, _ = traverse(*SQUARE)
    assert code == 0
    assert facts["misclosure"] == pytest.approx(0.0, abs=1e-9)
    assert (facts["ratio"], facts["area"]) == (None, pytest.approx(100.0))
    assert facts["misses_too_much"] is False
    _, text, _ = traverse(*SQUARE, words=())
    assert "ratio none" in text
    code, facts, _ = traverse(*SQUARE, words=("--adjust", "least-squares", "--json"))
    assert (code, facts["area"]) == (0, pytest.approx(100.0))


def test_a_link_between_known_points_with_sights_at_both_ends(traverse):
    # east along the axis in three legs of 100 m, 0.3 m short and 3 minutes too much in all
    over = "mark Z 0 -100\nmark A 0 0\nmark D 300.3 0\nmark Y 300.3 100\n"
    lines = [
        "leg,A,B,100,,270.0125,Z",
        "leg,B,C,100,,180.0125,",
        "leg,C,D,100,,180.0125,",
        "leg,D,Y,,,90.0125,C",
    ]
    code, facts, _ = traverse(*lines, over=over)
    assert (code, facts["closed"], facts["area"]) == (0, False, None)
    assert facts["angular_misclosure_deg"] == pytest.approx(0.05, abs=1e-9)
    assert facts["misclosure"] == pytest.approx(0.3, abs=1e-6)
    assert facts["ratio"] == pytest.approx(1000.0, abs=0.1)
    points = {p["name"]: (p["E"], p["N"]) for p in facts["points"]}
    assert points["C"] == pytest.approx((200.2, 0.0), abs=1e-6)
    _, text, _ = traverse(*lines, over=over, words=())
    assert "from A to D" in text
    assert "The angles missed by +3.0 minutes." in text
    code, facts, _ = traverse(*lines, over=over, words=("--adjust", "least-squares", "--json"))
    found = {p["name"]: p["E"] for p in facts["points"]}
    assert found["B"] == pytest.approx(100.1, abs=0.005)
    _, text, _ = traverse(*lines, over=over, words=("--adjust", "least-squares"))
    assert "Traverse of 3 legs, from A to D" in text


def test_what_is_no_leg_counts_by_least_squares_only(traverse):
    lines = [*SQUARE, "check,A,C,14.142,,,", "check,Q,C,5,,,"]
    code, facts, _ = traverse(*lines)
    assert "2 lines are no legs" in " ".join(facts["notes"])
    code, facts, _ = traverse(*lines, words=("--adjust", "least-squares", "--json"))
    assert code == 1
    assert {p["name"]: p["status"] for p in facts["points"]}["Q"] == "undetermined"
    _, text, _ = traverse(*lines, words=("--adjust", "least-squares"))
    assert "undetermined" in text


def test_what_a_compass_is_off_by_is_found_between_known_points(traverse):
    # the needle points 5° east of the grid's north
    over = "bearings compass\nmark A 0 0\nmark C 20 0\n"
    lines = ["leg,A,B,10,85,,", "leg,B,C,10,85,,"]
    words = ("--adjust", "least-squares", "--json")
    _, facts, _ = traverse(*lines, over=over, words=words)
    (found,) = (p for p in facts["points"] if p["name"] == "B")
    assert (found["E"], found["N"]) == pytest.approx((10.0, 0.0), abs=0.001)
    closed = [*lines, "leg,C,A,20,265,,"]
    code, facts, _ = traverse(*closed, over="bearings compass\n", words=words)
    assert code == 0
    # 10 m at a bearing of 85°: 9.962 east, 0.872 north of 1000, 1000
    assert facts["points"][1]["E"] == pytest.approx(1009.962, abs=0.001)


def test_a_traverse_whose_points_hang_on_nothing_by_least_squares_has_no_area(traverse):
    loose = ["leg,A,B,1900,0,,", "leg,B,C,1900,120,,", "leg,C,A,1900,240,,"]
    over = "bearing sd 9\ntape sd 9\n"
    code, facts, _ = traverse(*loose, over=over, words=("--adjust", "least-squares", "--json"))
    assert (code, facts["area"]) == (1, None)


@pytest.mark.parametrize(
    ("lines", "wanted"),
    [
        (["tie,M1,P1,5,,,"], "The book holds no legs of a traverse"),
        (["leg,A,B,10,0,,", "leg,C,A,10,180,,"], "Line 3: the leg starts at C, and the one"),
        (["leg,A,B,10,0,,", "leg,B,C,10,90,,"], "The traverse ends at C, which is neither"),
        (["leg,A,B,,0,,", "leg,B,A,10,180,,"], "Line 2: the leg to B has no distance"),
        (["leg,A,B,10,,,", "leg,B,A,10,180,,"], "neither a bearing nor an angle"),
        (["leg,A,B,10,0,,"], "neither its start nor a mark"),
    ],
)
def test_a_traverse_that_cannot_be_walked_is_told(traverse, lines, wanted):
    code, _, err = traverse(*lines)
    assert code == 2
    assert wanted in err
    assert err.count("\n") == 1
