"""The verb calendar."""

import json

import pytest
from icalendar import Calendar

from plan_editor.resources import sample


def test_the_calendar_of_the_sample_is_read_by_another_library(tmp_path, said):
    out = tmp_path / "due.ics"
    plan = sample("harrowmere.gpkg")
    code, told, _ = said("calendar", plan, "-o", out, "--on", "2026-11-25", "--json")
    assert code == 0
    found = Calendar.from_ical(out.read_bytes()).walk("VEVENT")
    assert len(found) == json.loads(told)["events"] > 0
    assert len({e["UID"] for e in found}) == len(found)
    before = out.read_bytes()
    said("calendar", plan, "-o", out, "--on", "2026-11-25")
    assert out.read_bytes() == before


def test_events_are_counted_in_words(plan, tmp_path, said):
    _, out, _ = said("calendar", plan, "-o", tmp_path / "x.ics", "--on", "2026-11-25")
    assert "event" in out


@pytest.mark.parametrize(
    ("out", "says"),
    [("x.txt", "ends in .ics"), ("none/x.ics", "x.ics cannot be written")],
)
def test_a_calendar_that_cannot_be_written_is_refused(out, says, plan, tmp_path, said):
    code, _, err = said("calendar", plan, "-o", tmp_path / out)
    assert code == 2
    assert says in err
