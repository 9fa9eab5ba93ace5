"""Make the evidence of one thing: tables on A4, and its photographs."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from plan_editor.drawing.dates import in_words
from plan_editor.drawing.ink import Picture
from plan_editor.drawing.page import sizes_for
from plan_editor.drawing.panel import Panel, stacked, words
from plan_editor.drawing.schedule import Column, Table
from plan_editor.plan.item import Item
from plan_editor.plan.plan import Plan
from plan_editor.printing.sheet import Asked, Chronicle, Page, Paper, Printed, Step, Supplied
from plan_editor.printing.tables import UPRIGHT, table_page, table_panels
from plan_editor.printing.usual import block, remarks_on
from plan_editor.records.chronology import Event, chronology

_DAYS = (
    Column(title="Day", share=1.3),
    Column(title="Record", share=1.7),
    Column(title="What it says", share=4.2),
)
_STEPS = (
    Column(title="No.", share=0.5, figures=True),
    Column(title="Recorded (UTC)", share=1.3),
    Column(title="By", share=1.2),
    Column(title="What was done", share=2.8),
    Column(title="Link", share=1.4),
)
_MIND = (Column(title="Before this is relied on", share=1.0),)
_LINK = 16
_PICTURE_MM = 100.0
_PICTURES_EACH_PAGE = 2

CAUTIONS = (
    "The days are those that were typed in; the times of the history are those of the computer"
    " on which it was kept. Neither is proof of itself.",
    "The chain shows that the history was not changed in part after this head was printed or"
    " told to somebody. It is no signature: whoever holds the file could make a history anew,"
    " with another head. Keep this sheet, or the head, with somebody else.",
    "Whether a stone, tree or wall is safe is for people trained for it to judge. What this"
    " means in law is for the diocesan registry, the insurer or a solicitor to say.",
)


def compose(plan: Plan, asked: Asked, supplied: Supplied) -> Printed:
    """Return the evidence of the thing that is asked for, or none of nothing."""
    thing = None if asked.item is None else plan.items.get(asked.item)
    if thing is None:
        return Printed(title="Evidence", paper=Paper.A4, scale=None, pages=())
    events = chronology(plan, thing.id, contacts=asked.contacts)
    title = f"Evidence: {thing.called()}"
    made = block(plan, asked, title=title, document="Chronology", prefix="EVID")
    panels = (
        *table_panels(made, _tables(thing, events, supplied.chronicle, asked)),
        *_photographs(events, supplied.pictures),
    )
    numbered = replace(made, sheets=len(panels))
    pages: tuple[Page, ...] = tuple(
        table_page(numbered, (title, plan.name), panel, n) for n, panel in enumerate(panels, 1)
    )
    return Printed(
        title=f"{title} – {plan.name}" if plan.name else title,
        paper=Paper.A4,
        scale=None,
        pages=pages,
        remarks=remarks_on(pages),
    )


def _tables(
    thing: Item, events: Sequence[Event], chronicle: Chronicle, asked: Asked
) -> tuple[Table, ...]:
    return (
        Table(
            heading="Day by day",
            columns=_DAYS,
            rows=tuple((_day(e.date), e.what, e.words or "–") for e in events)
            or (("–", thing.kind.title, "Nothing is recorded of it."),),
            note=_as_known(asked),
        ),
        Table(
            heading="How the record was kept",
            columns=_STEPS,
            rows=tuple(map(_row, chronicle.steps)),
            note=" ".join(chain_words(chronicle)),
        ),
        Table(heading="Mind", columns=_MIND, rows=tuple((c,) for c in CAUTIONS)),
    )


def _as_known(asked: Asked) -> str:
    people = (
        "Living people are named, as was asked for: mind who reads it."
        if asked.contacts
        else "Living people, and papers that concern them, are left out."
    )
    return f"As recorded on {in_words(asked.date)}. {people}"


def chain_words(chronicle: Chronicle) -> tuple[str, ...]:
    """Return in sentences how the chain of the log was found."""
    if not chronicle.head:
        return ("There is no history to this plan.",)
    count = chronicle.entries
    links = f"{count:,} link{'s' if count != 1 else ''}"
    found = (
        f"All {links} of the whole history were worked out again and agree."
        if chronicle.whole
        else f"The history DOES NOT AGREE with its own links ({links}): it was changed after it"
        " was written, or is damaged. Look through the plan with “verify”."
    )
    gone = (
        f"Of {chronicle.forgotten} changes below the words were removed for good when somebody"
        " was forgotten; their digests are left."
        if chronicle.forgotten
        else ""
    )
    head = f"Head after entry {count}: {_grouped(chronicle.head)}"
    return tuple(filter(None, (found, gone, head)))


def _grouped(digest: str) -> str:
    return " ".join(digest[n : n + 8] for n in range(0, len(digest), 8))


def _row(step: Step) -> tuple[str, ...]:
    when = step.when[:16].replace("T", " ")
    return (str(step.number), when, step.author or "no name", step.title, step.link[:_LINK])


def _day(date: str) -> str:
    return in_words(date) if date else "no day told"


def _photographs(
    events: Sequence[Event], pictures: Mapping[str, NDArray[np.uint8]]
) -> tuple[Panel, ...]:
    shown = {e.digest: e for e in events if e.digest in pictures}
    panels = [_photograph(e, pictures[e.digest]) for e in shown.values()]
    each = _PICTURES_EACH_PAGE
    return tuple(stacked(panels[n : n + each], 5.0) for n in range(0, len(panels), each))


def _photograph(event: Event, pixels: NDArray[np.uint8]) -> Panel:
    """Return a photograph over its day and its words, as large as two to a page allow."""
    width = UPRIGHT.room
    high, wide = pixels.shape[:2]
    scale = min(width / wide, _PICTURE_MM / high)
    picture = Picture(
        pixels=pixels, left=0.0, bottom=-high * scale, right=wide * scale, top=0.0
    )
    size = sizes_for(*UPRIGHT.size).body
    told = " · ".join(filter(None, (_day(event.date), event.words, f"SHA-256 {event.digest}")))
    shown = Panel(width=width, height=high * scale, ink=(picture,))
    return stacked((shown, words(told, width, size=size)), 1.5)
