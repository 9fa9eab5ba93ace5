"""What comes of an application for a memorial, in a sentence, and what to mind."""

from collections.abc import Sequence

from plan_editor.records.memorial_answers import Answer, Verdict, gravest

CAUTIONS = (
    "The regulations of the diocese's chancellor bind. The figures here are those on the"
    " parish's plan; where they differ from the regulations, the regulations hold.",
    "This is no permission. Within the regulations the incumbent may allow a memorial; outside"
    " them only a faculty of the consistory court does. Ask the diocesan registry.",
    "Inscription, lettering and design are for the incumbent to judge: no figure here does.",
    "A memorial is fixed by a qualified mason to the code of practice in force (BS 8415), and"
    " services and graves beside it are found before anybody digs for its foundation.",
)

_HEADS = {
    Verdict.FACULTY: "It takes a faculty",
    Verdict.WAIT: "It is too early",
    Verdict.NOT_TOLD: "It complies as far as it is told; not told",
    Verdict.JUDGE: "It complies with the figures on the plan; for the incumbent to judge",
    Verdict.COMPLIES: "It complies with the figures on the plan",
}


def comes_of(found: Sequence[Answer]) -> str:
    """Return what comes of an application, and by what."""
    verdict = gravest(found)
    head = _HEADS[verdict]
    if verdict is Verdict.COMPLIES:
        return f"{head}."
    by = ", ".join(a.title.lower() for a in found if a.verdict is verdict)
    return f"{head}: {by or 'everything'}."


def by_verdict(found: Sequence[Answer]) -> tuple[str, ...]:
    """Return a line for each rule in the way, then one line for each verdict left."""
    return tuple(line for verdict in Verdict for line in _lines(found, verdict))


def _lines(found: Sequence[Answer], verdict: Verdict) -> tuple[str, ...]:
    such = [a for a in found if a.verdict is verdict]
    if verdict in (Verdict.FACULTY, Verdict.WAIT):
        return tuple(f"{a.title}: {a.told}; allowed: {_ended(a.bound)}" for a in such)
    if verdict is Verdict.JUDGE:
        lines = (f"{a.title}: {a.told}; {verdict} by: {_ended(a.bound)}" for a in such)
        return tuple(lines)
    titles = ", ".join(a.title.lower() for a in such)
    return (f"{str(verdict).capitalize()}: {titles}.",) if such else ()


def _ended(text: str) -> str:
    return text if text.endswith(".") else f"{text}."
