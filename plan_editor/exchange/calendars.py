"""What is due as a calendar for other programs: iCalendar, RFC 5545.

Events last all day and leave their day free. Nobody living is named in one, because nobody
living is named in a due. An event is known by the key of its due, and one that tells many by
their sort and their day: a calendar that reads the file again moves what has moved.
"""

import re
from collections.abc import Iterable, Sequence
from dataclasses import replace
from itertools import groupby
from pathlib import Path
from uuid import UUID, uuid5

from plan_editor.exchange.whole import written_whole
from plan_editor.plan.plan import Plan
from plan_editor.records.days import days_after, first_day
from plan_editor.records.due import Due, SortOfDue, dues, sorts_of_due

MOST_A_DAY = 5
"""More of one sort on one day are told in one event."""

LONGEST_LINE = 75
"""Octets of a line without its end. Source: RFC 5545, section 3.1."""

_LISTED = 40
_OURS = UUID("6f0b8a0e-53f4-4c0c-9a3e-3d7c5b1e9f42")
_NO_TEXT = re.compile("[\x00-\x08\x0b-\x1f\x7f\ud800-\udfff]")
_END = "\r\n"


def write_calendar(plan: Plan, on: str, path: Path) -> int:
    """Write what is due as a calendar; return how many events it has.

    Raises:
        NoRoom, NotAllowed: it cannot be written; what was there before stays.
    """
    found = events(plan, on)
    with written_whole(path) as beside:
        beside.write_bytes(calendar(plan.name, found, on))
    return len(found)


def events(plan: Plan, on: str) -> tuple[Due, ...]:
    """Return what is to be done, overdue or to come, and the days to know of that are to come.

    What was to be done on no day in particular stands on the day in question; of more than
    ``MOST_A_DAY`` of one sort on one day there is one that counts and lists them.
    """
    sorts = {s.name: s for s in sorts_of_due()}
    kept = (d for d in dues(plan, on) if sorts[d.sort].task or not d.overdue(on))
    made: list[Due] = []
    for (day, sort), group in groupby(kept, key=lambda d: (d.date, d.sort)):
        made.extend(_together(tuple(group), sorts[sort], day, day or on))
    return tuple(made)


def calendar(name: str, events: Sequence[Due], on: str) -> bytes:
    """Return events as an iCalendar stream, in UTF-8.

    The same events make the same bytes, whoever makes them and when.

    Args:
        name: of the calendar.
        events: what is due, each with a day.
        on: ISO date on which that is known.
    """
    titles = {s.name: s.title for s in sorts_of_due()}
    stamp = f"{on.replace('-', '')}T000000Z"
    lines = [
        "BEGIN:VCALENDAR",
        "VERSION:2.0",
        "PRODID:-//Churchyard Plan Editor//What is due//EN",
        "METHOD:PUBLISH",
        # RFC 7986, section 5.1
        f"NAME:{_escaped(name or 'Churchyard')}",
    ]
    for due in events:
        uid = uuid5(_OURS, f"{due.sort}|{due.key}")
        lines += _event(due, uid, stamp, titles[due.sort])
    return _END.join(_folded((*lines, "END:VCALENDAR"))).encode() + _END.encode()


def _together(group: tuple[Due, ...], sort: SortOfDue, day: str, on: str) -> Iterable[Due]:
    """Return the dues of a sort on a day, which may be none, as events on another."""
    if len(group) <= MOST_A_DAY:
        return (replace(d, date=on) for d in group)
    listed = [d.title for d in group[:_LISTED]]
    if len(group) > _LISTED:
        listed.append(f"and {len(group) - _LISTED} more")
    title = f"{sort.title}: {len(group)} together"
    # no id is a key like this
    key = f"together {day or 'without a day'}"
    return (Due(sort=sort.name, key=key, date=on, title=title, says="\n".join(listed)),)


def _event(due: Due, uid: UUID, stamp: str, group: str) -> tuple[str, ...]:
    first = first_day(due.date)
    after = days_after(first, 1)
    # nothing comes after the last day of all
    end = (f"DTEND;VALUE=DATE:{_basic(after)}",) if after > first else ()
    return (
        "BEGIN:VEVENT",
        f"UID:{uid}",
        f"DTSTAMP:{stamp}",
        f"DTSTART;VALUE=DATE:{_basic(first)}",
        *end,
        f"SUMMARY:{_escaped(due.title)}",
        *((f"DESCRIPTION:{_escaped(due.says)}",) if due.says else ()),
        f"CATEGORIES:{_escaped(group)}",
        "TRANSP:TRANSPARENT",
        "END:VEVENT",
    )


def _basic(day: str) -> str:
    return day.replace("-", "")


def _escaped(text: str) -> str:
    """Return a text as a value. Source: RFC 5545, section 3.3.11."""
    plain = _NO_TEXT.sub(" ", text.replace("\r\n", "\n").replace("\r", "\n"))
    for sign in ("\\", ";", ","):
        plain = plain.replace(sign, f"\\{sign}")
    return plain.replace("\n", "\\n")


def _folded(lines: Iterable[str]) -> Iterable[str]:
    """Return lines none of which is too long; no character is cut in two."""
    for line in lines:
        begun = ""
        room = LONGEST_LINE
        for sign in line:
            broad = len(sign.encode())
            if broad > room:
                yield begun
                begun, room = " ", LONGEST_LINE - 1
            begun += sign
            room -= broad
        yield begun
