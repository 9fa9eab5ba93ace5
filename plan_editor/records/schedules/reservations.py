"""The schedule of reservations, the one that ends first at the head."""

from plan_editor.kinds import reservation
from plan_editor.kinds.reservation import ReservationDetails, Stage
from plan_editor.plan.plan import Plan
from plan_editor.records.days import last_day, months_after
from plan_editor.records.schedule import Asked, Heading, Line, Schedule
from plan_editor.records.told import called, figure

_STANDING = (Stage.ASKED, Stage.GRANTED)


def lines(plan: Plan, asked: Asked) -> tuple[Line, ...]:
    """Return a line for each reservation that is asked for or granted, by when it ends."""
    found = [
        (_ends(kept.details), kept)
        for kept in plan.of(reservation.KIND)
        if kept.details.stage in _STANDING
    ]
    return tuple(
        Line(
            cells=(
                kept.details.expires or ends or "not recorded",
                _state(ends, asked.on),
                called(plan, kept.details.grave),
                kept.details.faculty,
                kept.details.stage.value,
                kept.details.granted,
                figure(kept.details.term_years, 0),
                kept.details.held_for,
                called(plan, kept.details.contact, contacts=asked.contacts),
            ),
            item=kept.id,
        )
        for ends, kept in sorted(found, key=lambda f: (f[0] or "9999-99", f[1].called()))
    )


def _ends(told: ReservationDetails) -> str:
    """Return its last day: as the faculty says, or its term after it was granted."""
    if told.expires or not (told.granted and told.term_years):
        return last_day(told.expires)
    return months_after(last_day(told.granted), round(told.term_years * 12))


def _state(ends: str, on: str) -> str:
    if not ends:
        return ""
    if ends < on:
        return "has ended"
    return "ends within a year" if ends <= months_after(on, 12) else ""


SCHEDULE = Schedule(
    name="reservations",
    title="Reservations expiring",
    purpose="For the incumbent: which spaces are kept by faculty, and which of them end soon.",
    headings=(
        Heading(title="Ends", share=1.0),
        Heading(title="State", share=1.3),
        Heading(title="Space", share=1.5),
        Heading(title="Faculty", share=1.5),
        Heading(title="Stage", share=1.0),
        Heading(title="Granted", share=1.0),
        Heading(title="Term, years", share=0.7, figures=True),
        Heading(title="Kept for", share=1.7, private=True),
        Heading(title="Contact", share=1.7, private=True),
    ),
    lines=lines,
    note="Only a faculty keeps a particular space. Where it names no day, its term is reckoned"
    " from the day on which it was granted; its own words go before this schedule.",
)
