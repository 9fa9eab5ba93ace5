"""The log and other days in words; times are those of a clock with a known zone."""

import time
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

import pytest
import shapely
from shapely import Point, Polygon
from strategies import plain

from plan_editor.commands.change_sketch import change_sketch, place_of
from plan_editor.commands.history import (
    Log,
    by_the_clock,
    day_in_words,
    found,
    line_words,
    longer,
    made_words,
    numbers_of,
    take_back,
)
from plan_editor.commands.past import (
    at_the_end_of,
    end_of,
    known_on,
    last_day_of,
    open_known,
    open_stood,
    read_day,
    stood_on,
)
from plan_editor.commands.today import today
from plan_editor.drawing.sketch import Tone
from plan_editor.edits.basic import Add, Describe, Remove, Renumber
from plan_editor.edits.frame import MoveToGrid
from plan_editor.edits.framing import KnownMark
from plan_editor.edits.places import Move
from plan_editor.errors import CannotUse
from plan_editor.kinds import grave, mark, memorial, owner_contact, tree
from plan_editor.plan.document import Document
from plan_editor.plan.item import Item
from plan_editor.plan.plan import plan_of
from plan_editor.storage.loading import read_plan
from plan_editor.storage.plan_file import PlanFile
from plan_editor.survey.grids.grid import Grid

GRAVE = plain(grave.KIND, 1)
OAK = plain(tree.KIND, 2)


@pytest.fixture(autouse=True)
def clock_of_london(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    monkeypatch.setenv("TZ", "Europe/London")
    time.tzset()
    yield
    monkeypatch.undo()
    time.tzset()


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """A plan with entries just before and after midnight of 3 May, by the clock of London."""
    where = tmp_path / "plan.gpkg"
    times = iter(
        (
            datetime(2026, 5, 3, 22, 59, tzinfo=UTC),  # 23:59 in London, where it is summer
            datetime(2026, 5, 3, 23, 1, tzinfo=UTC),
            datetime(2026, 5, 5, 12, 0, tzinfo=UTC),
        )
    )
    with PlanFile.create(where, name="St Elfric", grid=Grid()) as file:
        work = Document(file.plan, journal=file, author="Warden", clock=lambda: next(times))
        work.apply(Add((GRAVE,)))
        work.apply(Add((OAK,)))
        work.apply(Renumber(id=GRAVE.id, number="C 14", called="a grave"))
        file.save()
    return where


# days


@pytest.mark.parametrize(
    ("typed", "day"),
    [
        ("3.5.2026", "2026-05-03"),
        (" 2026-05 ", "2026-05"),
        ("1911", "1911"),
        ("3/5/1911", "1911-05-03"),
    ],
)
def test_a_day_is_read_as_people_write_it(typed: str, day: str) -> None:
    assert read_day(typed) == day


def test_today_has_begun_and_tomorrow_is_still_to_come() -> None:
    for there in (today(), today()[:7], today()[:4]):
        assert read_day(there) == there
    for to_come in ("9999-12-31", "9999", "9999-12"):
        with pytest.raises(CannotUse, match="still to come"):
            read_day(to_come)


@pytest.mark.parametrize(
    ("day", "instant"),
    [
        ("2026-05-03", "2026-05-03T23:00:00+00:00"),  # midnight of British Summer Time
        ("2026-01-31", "2026-02-01T00:00:00+00:00"),
        ("2026-02", "2026-03-01T00:00:00+00:00"),
        ("2024-12", "2025-01-01T00:00:00+00:00"),
        ("2025", "2026-01-01T00:00:00+00:00"),
    ],
)
def test_a_day_ends_at_midnight_by_the_clock_here(day: str, instant: str) -> None:
    assert end_of(day).isoformat() == instant


def test_a_day_month_or_year_has_a_last_day_that_has_passed() -> None:
    assert last_day_of("2024-02") == "2024-02-29"
    assert last_day_of("1950") == "1950-12-31"
    assert last_day_of(today()[:4]) == today()
    assert at_the_end_of("1950") == "at the end of 1950"
    assert at_the_end_of("1950-05") == "at the end of May 1950"
    assert at_the_end_of("1950-05-03") == "on 3 May 1950"


def test_what_was_known_on_a_day_goes_to_midnight(path: Path) -> None:
    now = read_plan(path)
    known = known_on(path, now, "2026-05-03")
    assert (known.number, set(known.plan.items), known.remarks) == (1, {GRAVE.id}, ())
    assert known.told == "as the plan knew it on 3 May 2026"
    assert known_on(path, now, "2026-05").plan == now
    with pytest.raises(CannotUse, match="begins on 3 May 2026"):
        known_on(path, now, "2026-05-02")


def test_a_clock_that_went_back_is_told_with_the_day(tmp_path: Path) -> None:
    times = iter((datetime(2026, 5, 3, tzinfo=UTC), datetime(1970, 1, 1, tzinfo=UTC)))
    where = tmp_path / "plan.gpkg"
    with PlanFile.create(where, name="", grid=Grid()) as file:
        work = Document(file.plan, journal=file, clock=lambda: next(times))
        work.apply(Add((GRAVE,)))
        work.apply(Add((OAK,)))
        file.save()
    (remark,) = known_on(where, read_plan(where), "2026-05-03").remarks
    assert "a clock was wrong" in remark


def test_copies_of_another_day_say_what_they_are(path: Path) -> None:
    with open_known(path, path, "2026-05-03") as known:
        assert known.of_day.startswith("As the plan knew it on 3 May 2026")
        assert known.plan.name == "As known on 3 May 2026: St Elfric"
        assert known.doubtful == ()
    with open_stood(path, path, "1911") as stood:
        assert stood.of_day.startswith("The ground as it was at the end of 1911")
        assert stood.plan.name == "As it was at the end of 1911: St Elfric"
        assert set(stood.doubtful) == {GRAVE.id, OAK.id}
        assert stood.remarks == (
            "0 of the things shown were there. Of 2 no date tells, and they are shown too:"
            " 1 grave, 1 tree.",
        )
        assert read_plan(stood.working_copy).name == stood.plan.name


def test_ground_of_which_everything_is_known_has_no_doubt() -> None:
    details = memorial.MemorialDetails(erected="1900")
    stone: Item[memorial.MemorialDetails] = plain(memorial.KIND)
    known = Item(id=stone.id, kind=stone.kind, details=details, shape=stone.shape)
    assert stood_on(plan_of([known]), "1950").doubt.startswith("All 1 things shown were there")


# the log


def test_times_are_told_by_the_clock_here() -> None:
    assert by_the_clock("2026-05-03T23:01:00+00:00") == "4 May 2026, 00:01"
    assert day_in_words("2026-01-03T23:01:00+00:00") == "3 January 2026"
    for nonsense in ("", "yesterday", "0001-01-01T00:00:00+23:59"):
        assert by_the_clock(nonsense)


def test_the_log_grows_by_what_is_new(path: Path) -> None:
    log = longer(path, Log())
    with PlanFile.open(path) as file:
        work = Document(file.plan, journal=file)
        work.apply(Remove(ids=(OAK.id,), called="a tree"))
        work.undo()
        more = longer(file.working_copy, log)
        assert more == longer(file.working_copy, Log())
        work.redo()
        work.undo()
        most = longer(file.working_copy, more)
    assert [n.title for n in log.lines] == [
        "Add a grave",
        "Add a tree",
        "Number a grave as C 14",
    ]
    assert more.taken_back == {4}
    assert [more.told(n) for n in more.lines[3:]] == [
        "Remove a tree",
        "Taken back: Remove a tree",
    ]
    assert most.taken_back == {4, 6}
    assert log.line(2) == log.lines[1]
    assert log.line(0) is log.line(9) is None


def test_what_is_taken_back_and_done_again_is_not_struck_out(path: Path) -> None:
    with PlanFile.open(path) as file:
        work = Document(file.plan, journal=file)
        work.apply(take_back(file.working_copy, 3))
        assert longer(file.working_copy, Log()).taken_back == {3}
        work.undo()
        log = longer(file.working_copy, Log())
    assert log.taken_back == {4}
    assert log.told(log.lines[3]) == "Take back “Number a grave as C 14” of 5 May 2026"


@pytest.mark.parametrize(
    ("typed", "numbers"),
    [
        ("", [3, 2, 1]),
        ("GRAVE", [3, 1]),
        ("warden 4 may", [2]),
        ("2026-05-0", [3, 2, 1]),
        ("5", [3]),
        ("c 14", [3]),
        ("c 1", []),
    ],
)
def test_lines_are_found_by_words_names_and_days(
    path: Path, typed: str, numbers: list[int]
) -> None:
    log = longer(path, Log())
    assert [n.number for n in found(log, typed)] == numbers
    among = [n for n in numbers if n in (1, 2)]
    assert [n.number for n in found(log, typed, only=(1, 2))] == among


def test_a_line_is_told_with_its_time_its_maker_and_how_much(path: Path) -> None:
    log = longer(path, Log())
    assert line_words(log, log.lines[1]) == "No. 2, 4 May 2026, 00:01, by Warden: 1 thing."


def test_a_line_that_moved_the_grid_says_so(tmp_path: Path) -> None:
    where = tmp_path / "plan.gpkg"
    with PlanFile.create(where, name="", grid=Grid()) as file:
        work = Document(file.plan, journal=file)
        marks = [plain(mark.KIND, n) for n in (1, 4)]
        work.apply(Add(tuple(marks)))
        known = (KnownMark(mark=m.id, east=500.0 + m.shape.x, north=500.0) for m in marks)
        work.apply(MoveToGrid(crs="local", marks=tuple(known)))
        log = longer(file.working_copy, Log())
        edit = take_back(file.working_copy, 2)
    words = line_words(log, log.lines[1])
    assert "by somebody who gave no name: the whole plan. From here on the plan lies" in words
    assert made_words(edit.entry, work.plan) == ("Everything was placed in the other grid.",)


def test_what_an_entry_did_is_told_field_by_field_and_nobody_living_is_named(
    path: Path,
) -> None:
    contact = plain(owner_contact.KIND, 5)
    private = next(d for d in contact.kind.entries() if d.about.private and not d.about.date)
    with PlanFile.open(path) as file:
        work = Document(file.plan, journal=file)
        work.apply(Add((contact,)))
        work.apply(Describe(ids=(contact.id,), details=((private.name, "Quixworthy"),)))
        last = take_back(file.working_copy, 5).entry
        first = take_back(file.working_copy, 1)
        third = take_back(file.working_copy, 3).entry
    (told,) = made_words(last, work.plan)
    assert "Quixworthy" not in told
    assert "concerns a living person and is not shown" in told
    assert made_words(third, work.plan) == ("Grave C 14\n    Number: nothing → C 14",)
    assert made_words(first.entry, work.plan) == ("A grave: added",)
    assert first.since == ((GRAVE.id, "by “Number a grave as C 14” on 5 May 2026"),)


def test_of_many_things_the_first_are_told(path: Path) -> None:
    many = tuple(plain(tree.KIND, n) for n in range(100, 150))
    with PlanFile.open(path) as file:
        work = Document(file.plan, journal=file)
        work.apply(Add(many))
        entry = take_back(file.working_copy, 4).entry
        assert numbers_of(file.working_copy, many[7].id) == (4,)
    told = made_words(entry, work.plan)
    assert len(told) == 41
    assert told[-1] == "… and 10 more"


# sketches


def test_a_move_is_sketched_dotted_before_whole_after_with_an_arrow_between() -> None:
    (change,) = Move(ids=(GRAVE.id,), east=3.0, north=4.0).changes(plan_of([GRAVE]))
    sketch = change_sketch([(change.before, change.after)])
    assert [line.tone for line in sketch.lines] == [Tone.SOFT, Tone.MEASURED, Tone.MEASURED]
    before, after, arrow = (line.points for line in sketch.lines)
    assert (after - before == (3.0, 4.0)).all()
    assert sketch.lines[2].arrow
    assert (arrow[1] - arrow[0]).round(6).tolist() == [3.0, 4.0]
    assert [dot.text for dot in sketch.dots] == ["Grave"]
    assert place_of([(change.before, change.after)]) is not None


def test_points_holes_and_what_lies_nowhere_are_sketched_too() -> None:
    holed = GRAVE.at(
        Polygon([(0, 0), (9, 0), (9, 9), (0, 9)], [[(1, 1), (2, 1), (2, 2), (1, 2)]])
    )
    nowhere = plain(owner_contact.KIND, 5)
    sketch = change_sketch([(None, holed), (OAK, None), (nowhere, nowhere)])
    assert [len(line.points) for line in sketch.lines] == [5, 5]
    assert [dot.tone for dot in sketch.dots] == [Tone.MEASURED, Tone.SOFT]
    assert place_of([(nowhere, None)]) is None
    many = [(None, OAK.at(Point(n, 0))) for n in range(70)]
    assert {dot.text for dot in change_sketch(many).dots} == {""}
    assert not change_sketch([(None, holed)] * 61).dots
    assert shapely.box(*place_of(many) or ()).area > 0
