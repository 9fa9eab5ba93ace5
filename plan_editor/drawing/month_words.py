"""What is due this month in words, for the window and for paper."""

from plan_editor.drawing.dates import in_words
from plan_editor.records.due import Due
from plan_editor.records.month import Ahead, Count, Group, Part

NOTHING = "Nothing is due, and nothing is overdue."

KEY = "Hatched: overdue. Full: to be done. Outlined: a day to know of."

CAUTION = (
    "Days are reckoned from what is recorded, and are no more complete than that. The law, the"
    " diocese, the insurer and each faculty go before them."
)


def headline(found: Ahead) -> str:
    """Return how much is overdue and how much is due this month."""
    first = found.counts[0]
    undated = found.undated()
    told = (
        _many(first.overdue, "is overdue", "are overdue"),
        _many(first.tasks, "is due this month", "are due this month"),
        _many(undated, "has no day", "have no day"),
    )
    said = "; ".join(filter(None, told))
    return f"{capital(said)}." if said else NOTHING


def spoken(count: Count) -> str:
    """Return what a month holds: ``November 2026: 3 overdue, 4 due, 1 day to know of``."""
    told = (
        f"{count.overdue} overdue" if count.overdue else "",
        f"{count.tasks} due" if count.tasks else "",
        f"{count.days} {'day' if count.days == 1 else 'days'} to know of" if count.days else "",
    )
    return f"{in_words(count.month)}: {', '.join(filter(None, told)) or 'nothing'}"


def group_title(group: Group) -> str:
    """Return what stands over a group: ``Overdue: inspections (12)``."""
    title = group.sort.title
    plain = f"{title[:1].lower()}{title[1:]}"
    part = "Days to know of" if _known(group) else capital(group.part.value)
    return f"{part}: {plain} ({len(group.dues)})"


def day_told(due: Due) -> str:
    """Return the day of a due in words; nothing of what has none."""
    return in_words(due.date) if due.date else ""


def _known(group: Group) -> bool:
    return group.part is Part.IN_MONTH and not group.sort.task


def capital(text: str) -> str:
    """Return a text that begins with a capital."""
    return text[:1].upper() + text[1:]


def _many(count: int, one: str, more: str) -> str:
    if not count:
        return ""
    return f"{count} {'thing ' if count == 1 else 'things '}{one if count == 1 else more}"
