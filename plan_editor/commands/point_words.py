"""What becomes of a point file, in words."""

from collections import Counter

from plan_editor.commands.points import Ready
from plan_editor.edits.codes import written
from plan_editor.plan.kind import kind_named


def in_words(found: Ready, *, dry: bool) -> str:
    """Return in a sentence what comes on the plan, or would."""
    counts = [_count(name, count) for name, count in found.added.items()]
    what = ", ".join(counts) if counts else "Nothing new"
    verb = "would come" if dry else "came"
    agrees = ""
    if found.agrees:
        things = "1 thing lies" if found.agrees == 1 else f"{found.agrees} things lie"
        agrees = (
            f" {things} where the plan has {'it' if found.agrees == 1 else 'them'} already."
        )
    return f"{what} {verb} on the plan.{agrees}"


def accuracy(found: Ready) -> str:
    """Return in a sentence how well the way to the plan's coordinate system is known."""
    if not found.by:
        return f"The file is in {found.crs}, as the plan is."
    if not found.accuracy_m:
        return f"From {found.crs} by {found.by}: nothing is lost on the way."
    return f"From {found.crs} by {found.by}: known to {found.accuracy_m:g} m at the worst."


def by_code(found: Ready) -> str:
    """Return in a line how many points of each code become what: ``HEDGE: 3 × hedge``."""
    counts = Counter(
        (written(t.point.code).word or "without a code", t.became.lower() or "there already")
        for t in found.points
    )
    told: dict[str, list[str]] = {}
    for (word, became), count in counts.items():
        told.setdefault(word, []).append(f"{count} × {became}")
    return "; ".join(f"{word}: {', '.join(parts)}" for word, parts in told.items())


def _count(name: str, count: int) -> str:
    kind = kind_named(name)
    title = name if kind is None else kind.title if count == 1 else kind.plural
    return f"{count} {title.lower()}"
