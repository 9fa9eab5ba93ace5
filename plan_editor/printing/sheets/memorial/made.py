"""Make the answer to an application: tables on A4."""

from dataclasses import replace

from plan_editor.drawing.dates import in_words
from plan_editor.drawing.schedule import Column, Table
from plan_editor.kinds.application import ApplicationDetails
from plan_editor.plan.item import Item
from plan_editor.plan.plan import Plan
from plan_editor.printing.sheet import Asked, Page, Paper, Printed, Supplied
from plan_editor.printing.tables import table_page, table_panels
from plan_editor.printing.usual import block, remarks_on
from plan_editor.records.answer_words import CAUTIONS, comes_of
from plan_editor.records.memorial_answers import Answer, answers

_ANSWERS = (
    Column(title="What", share=2.3),
    Column(title="As asked for", share=1.9),
    Column(title="Allowed", share=2.0),
    Column(title="Answer", share=1.3),
    Column(title="Mind", share=2.5),
)
_SOURCES = (Column(title="Of", share=2.0), Column(title="On whose word", share=4.0))
_MIND = (Column(title="Before anything is ordered or fixed", share=1.0),)


def compose(plan: Plan, asked: Asked, supplied: Supplied) -> Printed:
    """Return the answer to the application that is asked for, or none of nothing."""
    del supplied
    wanted = None if asked.item is None else plan.items[asked.item]
    if wanted is None:
        return Printed(title="Answer to an application", paper=Paper.A4, scale=None, pages=())
    found = answers(plan, wanted, asked.date)
    title = f"Application for a memorial{_where(plan, wanted.details)}"
    made = block(plan, asked, title=title, document="Answer to an application", prefix="ANSWER")
    panels = table_panels(made, _tables(wanted, found, asked))
    numbered = replace(made, sheets=len(panels))
    headline = (title, plan.name)
    pages: tuple[Page, ...] = tuple(
        table_page(numbered, headline, panel, n) for n, panel in enumerate(panels, 1)
    )
    return Printed(
        title=f"{title} – {plan.name}" if plan.name else title,
        paper=Paper.A4,
        scale=None,
        pages=pages,
        remarks=remarks_on(pages),
    )


def _where(plan: Plan, details: ApplicationDetails) -> str:
    space = None if details.grave is None else plan.items[details.grave]
    if space is None:
        return ""
    return f": {space.kind.title.lower()} {space.number}".rstrip()


def _tables(
    wanted: Item[ApplicationDetails], found: tuple[Answer, ...], asked: Asked
) -> tuple[Table, ...]:
    rows = tuple((a.title, a.told, a.bound, str(a.verdict), a.note) for a in found)
    return (
        Table(
            heading=comes_of(found),
            columns=_ANSWERS,
            rows=rows,
            note=_told(wanted.details, asked),
        ),
        Table(heading="Sources", columns=_SOURCES, rows=_sources(found)),
        Table(heading="Mind", columns=_MIND, rows=tuple((c,) for c in CAUTIONS)),
    )


def _told(details: ApplicationDetails, asked: Asked) -> str:
    """Return what is asked for, in a paragraph; living people only where they are wanted."""
    parts = [
        f"Asked for: {details.asked_for}",
        f"received {in_words(details.received)}" if details.received else "",
        f"lettering: {details.lettering}" if details.lettering else "",
        f"inscription: {' / '.join(details.inscription.splitlines())}"
        if details.inscription
        else "",
        f"judged as known on {in_words(asked.date)}",
    ]
    if asked.contacts:
        parts += [
            f"{called}: {name}"
            for called, name in (("applicant", details.applicant), ("mason", details.mason))
            if name
        ]
    return "; ".join(filter(None, parts)) + "."


def _sources(found: tuple[Answer, ...]) -> tuple[tuple[str, str], ...]:
    """Return each source once, with what rests on it."""
    resting: dict[str, list[str]] = {}
    for answer in found:
        resting.setdefault(answer.source, []).append(answer.title)
    return tuple((", ".join(titles), source) for source, titles in resting.items())
