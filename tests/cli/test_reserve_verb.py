"""The verb that reserves a space by faculty."""

import json

import pytest

from plan_editor.edits.basic import Describe
from plan_editor.kinds import grave, reservation
from plan_editor.kinds.reservation import Stage
from plan_editor.plan.document import Document
from plan_editor.storage.plan_file import PlanFile

WORDS = ("--faculty", "F 7/2026", "--until", "2056-05-01")


@pytest.fixture
def free(plan):
    with PlanFile.open(plan) as file:
        (space,) = file.plan.of(grave.KIND)
        details = (("state", grave.State.FREE),)
        Document(file.plan, journal=file, author="a test").apply(
            Describe(ids=(space.id,), details=details)
        )
        file.save()
    return plan


def test_a_space_is_reserved_and_the_plan_saved(free, said):
    code, out, _ = said("reserve", free, "a1", *WORDS, "--json")
    facts = json.loads(out)
    assert (code, facts["called"], facts["until"]) == (0, "Grave A 1", "2056-05-01")
    with PlanFile.open(free) as file:
        (kept,) = file.plan.of(reservation.KIND)
        assert (kept.id, kept.details.grave) == (facts["reservation"], facts["space"])
        assert (kept.details.faculty, kept.details.expires, kept.details.stage) == (
            "F 7/2026",
            "2056-05-01",
            Stage.GRANTED,
        )
        assert file.plan.items[facts["space"]].details.state is grave.State.RESERVED


def test_it_is_told_in_a_sentence_with_its_caution(free, said):
    code, out, _ = said("reserve", free, "grave A 1", *WORDS)
    assert code == 0
    assert out.startswith("Grave A 1 is reserved under faculty F 7/2026 until 2056-05-01.")
    assert "Where plan and faculty differ the faculty holds." in out
    code, _, err = said("reserve", free, "A 1", *WORDS)
    assert code == 2
    assert "kept already under faculty F 7/2026" in err


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("A 1", "--faculty", " ", "--until", "2056-05-01"), "--faculty wants a name"),
        (("A 1", "--faculty", "F", "--until", "2019-05-01"), "2019-05-01 is over"),
        (("A 1", "--faculty", "F", "--until", "1 May"), "is no date"),
        (("A 9", *WORDS), "There is no grave or vault or ashes plot “A 9”"),
    ],
)
def test_what_makes_no_sense_is_refused_and_changes_nothing(free, said, words, says):
    before = free.read_bytes()
    code, out, err = said("reserve", free, *words)
    assert (code, out) == (2, "")
    assert says in err
    assert free.read_bytes() == before


def test_a_space_that_is_not_known_to_be_free_is_refused(plan, said):
    code, _, err = said("reserve", plan, "A 1", *WORDS)
    assert code == 2
    assert "It is not recorded whether Grave A 1 is free. Nothing was changed." in err
