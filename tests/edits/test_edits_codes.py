"""The table of codes: the one that is shipped, and tables that people write."""

import tomllib

import pytest

from plan_editor.edits.codes import Written, read_codes, shipped_codes, written
from plan_editor.errors import CannotUse
from plan_editor.kinds import gate, grave, mark, observation, tree, watercourse
from plan_editor.plan.kind import Form
from plan_editor.resources import resource


@pytest.fixture
def read(tmp_path):
    def call(text):
        path = tmp_path / "mine.toml"
        path.write_text(text, "utf-8")
        return read_codes(path)

    return call


def row(**more):
    told = {"code": '"YEW"', "kind": '"tree"'} | more
    return "[[code]]\n" + "\n".join(f"{k} = {v}" for k, v in told.items()) + "\n"


def test_the_shipped_table_knows_the_words_of_the_trade():
    codes = shipped_codes()
    assert codes["MARK"].kind == mark.KIND
    assert codes["MARK"].details == (("permanent", True),)
    assert codes["PEG"].details == (("permanent", False),)
    assert codes["SEAT"] is codes["BENCH"]
    assert (codes["GATE-POSTS"].kind, codes["GATE-POSTS"].form) == (gate.KIND, Form.LINE)
    assert (codes["GRAVE"].kind, codes["GRAVE"].form) == (grave.KIND, Form.AREA)


def test_every_word_of_the_shipped_table_is_read_as_it_stands_there():
    rows = tomllib.loads(resource("codes.toml").read_text("utf-8"))["code"]
    assert len(rows) >= 25
    for told in rows:
        for word in (told["code"], *told.get("also", ())):
            assert written(f"{word.lower()}7").word == word


@pytest.mark.parametrize(
    ("cell", "parts"),
    [
        ("TREE", Written(word="TREE")),
        ("tree common lime", Written(word="TREE", words="common lime")),
        ("WALL1", Written(word="WALL", run="1")),
        ("WALL 12 close", Written(word="WALL", run="12", closes=True)),
        ("WALL close of brick", Written(word="WALL", closes=True, words="of brick")),
        ("PATH-EDGE3 gravel", Written(word="PATH-EDGE", run="3", words="gravel")),
        ("WALL-2", Written(word="WALL", run="2")),
        ("417", Written(word="", words="417")),
        ("  ", Written(word="")),
    ],
)
def test_a_code_is_taken_apart(cell, parts):
    assert written(cell) == parts


def test_a_table_of_ones_own_takes_its_place(read):
    codes = read(
        row(
            also='["TAXUS"]',
            words='"remarks"',
            numbered="true",
            details="{ height_m = 9, stems_mm = [400, 380.5], veteran = true }",
        )
        + row(code='"pond"', kind='"watercourse"', form='"line"', details='{ sort = "pond" }')
    )
    assert set(codes) == {"YEW", "TAXUS", "POND"}
    assert codes["TAXUS"].kind == tree.KIND
    assert codes["YEW"].numbered
    details = tree.TreeDetails(**dict(codes["YEW"].details))
    assert (details.height_m, details.stems_mm) == (9.0, (400.0, 380.5))
    pond = watercourse.WatercourseDetails(**dict(codes["POND"].details))
    assert pond.sort is watercourse.WaterSort.POND


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", r"holds no \[\[code\]\]"),
        ("code = 3", r"holds no \[\[code\]\]"),
        ("code = [3]", "“3” is no row"),
        ("[[code]", "cannot be read as a table of codes"),
        ("a = " + "[" * 2000, "cannot be read as a table of codes"),
        ("[[code]]\nkind = 'tree'", "code 1: it has no 'code'"),
        ("[[code]]\ncode = 'TREE'", "code 1: it has no 'kind'"),
        (row(code="7"), "“7” is no code"),
        (row(code='"T1"'), "“T1” is no code"),
        (row(code='"close"'), "closes a line"),
        (row(colour='"red"'), "“colour” means nothing there"),
        (row(kind='"bush"'), "no kind “bush”"),
        (row(kind="1"), "no kind “1”"),
        (row(kind='"burial"'), "no kind “burial” that has a place"),
        (row(kind='"base_plan"'), "no kind “base_plan” that has a place"),
        (row(form='"round"'), "“round” is no form"),
        (row(form="1"), "“1” is no form"),
        (row(form='"area"'), "a tree is no area"),
        (row(numbered='"yes"'), "numbered is true or false"),
        (row(also='"TAXUS"'), "square brackets"),
        (row(also='["YEW"]'), "YEW stands there twice"),
        (row(words='"height_m"'), "no text “height_m” is recorded of a tree"),
        (row(details='"x"'), "curly brackets"),
        (row(details="{ colour = 1 }"), "nothing called “colour” is recorded of a tree"),
        (row(details="{ height_m = 900 }"), "the most is 80 m"),
        (row(details="{ height_m = true }"), "wanted is a number"),
        (row(details="{ stems_mm = ['x'] }"), "wanted is numbers"),
        (row(details="{ stems_mm = 4 }"), "wanted is numbers"),
    ],
)
def test_a_table_that_makes_no_sense_is_refused_in_a_sentence(read, text, says):
    with pytest.raises(CannotUse, match=says) as refused:
        read(text)
    assert str(refused.value).startswith("mine.toml")
    assert str(refused.value).endswith("Nothing was read.")


def test_a_table_that_is_not_there_is_said(tmp_path):
    with pytest.raises(CannotUse, match=r"mine\.toml cannot be read .*No such file"):
        read_codes(tmp_path / "mine.toml")


def test_a_huge_table_is_refused(tmp_path):
    path = tmp_path / "mine.toml"
    path.write_bytes(b"#" * 1_000_001)
    with pytest.raises(CannotUse, match="too large"):
        read_codes(path)


def test_letters_of_no_alphabet_are_said(tmp_path):
    path = tmp_path / "mine.toml"
    path.write_bytes(b"\xff\xfe\x00")
    with pytest.raises(CannotUse, match="cannot be read"):
        read_codes(path)


def test_whatever_a_code_makes_may_have_been_measured_by_a_field_book():
    detail = next(d for d in observation.KIND.references() if d.name == "target")
    made = {code.kind.name for code in shipped_codes().values()}
    assert made <= set(detail.about.refers_to)
