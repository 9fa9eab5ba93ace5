"""The plan check: what its rules find, less what was let stand; and findings set right."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from plan_editor.checking.fingerprints import fingerprint
from plan_editor.checking.rule import Finding, Rule, Severity, rule_named, rules
from plan_editor.commands.today import today
from plan_editor.edits.mending import Mend
from plan_editor.edits.settling import SettleFindings, TellAgain, settled_item
from plan_editor.errors import EditRefused
from plan_editor.plan.edit import Edit
from plan_editor.plan.item import ItemId
from plan_editor.plan.numbers import natural
from plan_editor.plan.plan import Plan
from plan_editor.records.settled import settled_fingerprints
from plan_editor.session import Session

MOST_ROUNDS = 20
"""What is mended may lie beside what is mended next: so often the rule looks again."""

NOTHING_FOUND = (
    "Nothing is found. The check looks for slips of drawing; whether the plan is true, only the"
    " ground can tell."
)
CAUTION = (
    "A finding is worth a look, no more: old ground has graves over graves, and rows that bend."
    " What was measured stands until somebody has measured again."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """A finding as a list has it.

    Args:
        finding: what was found.
        rule: by which rule.
        key: what tells it again in the next list, and once it was let stand.
    """

    finding: Finding
    rule: Rule
    key: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Checked:
    """What the rules found on a plan.

    Args:
        told: the findings, the gravest first, then rule by rule.
        stand: how many more were let stand.
        rules: those that looked.
    """

    told: tuple[Told, ...]
    stand: int
    rules: tuple[Rule, ...]


def check(
    plan: Plan, only: str = "", cancelled: Callable[[], bool] = lambda: False
) -> Checked | None:
    """Return what the rules find on a plan; None where it was cancelled.

    Args:
        plan: as it is now.
        only: the name of the one rule that looks; empty for all.
        cancelled: asked between one rule and the next.

    Raises:
        PlanEditorError: there is no rule of that name.
    """
    asked = (rule_named(only),) if only else rules()
    told: list[Told] = []
    for rule in asked:
        if cancelled():
            return None
        told += (_told(plan, rule, finding) for finding in rule.find(plan))
    stand = settled_fingerprints(plan)
    heard = sorted((t for t in told if t.key not in stand), key=_place_in_list)
    return Checked(told=tuple(heard), stand=len(told) - len(heard), rules=asked)


def counts(checked: Checked) -> tuple[tuple[Rule, int], ...]:
    """Return how much each rule found, those that found nothing left out."""
    found = ((r, sum(t.rule == r for t in checked.told)) for r in checked.rules)
    return tuple((rule, count) for rule, count in found if count)


def counted(checked: Checked) -> str:
    """Return in words how much was found: ``2 faults, 1 doubt``."""
    found = ((s, sum(t.finding.severity is s for t in checked.told)) for s in Severity)
    return ", ".join(f"{n} {s if n == 1 else f'{s}s'}" for s, n in found if n)


def mend(session: Session, told: Told) -> str:
    """Set one finding right, in one step; return what was done, as a sentence.

    Raises:
        PlanEditorError: it cannot be done; nothing was changed.
    """
    if told.finding.mend is None:
        raise EditRefused("Nobody can say how that is set right. Nothing was changed.")
    _refuse_if_changed(session.document.plan, told)
    session.apply(told.finding.mend)
    return f"Done: {_within(told.finding.mend.title)}. It can be undone."


def mend_all(session: Session, sort: Iterable[Told]) -> str:
    """Set right all of these that can be, in one step; return what was done, as a sentence.

    Args:
        session: the open plan.
        sort: findings of one rule.

    Raises:
        PlanEditorError: it cannot be done; nothing was changed.
    """
    wanted = tuple(t for t in sort if t.finding.mend is not None)
    edits = tuple(_mends(session.document.plan, wanted))
    if not edits:
        raise EditRefused("None of these can be set right at once. Nothing was changed.")
    if len(edits) == 1:
        session.apply(edits[0])
        return f"Done: {_within(edits[0].title)}. It can be undone."
    title = f"Mend {len(edits)} findings: {_within(wanted[0].rule.title)}"
    session.apply(Mend(title=title, edits=edits))
    return f"{len(edits)} findings are mended, in one step. It can be undone."


def let_stand(session: Session, told: Iterable[Told]) -> None:
    """Keep in the plan that these were looked at and are right as they are.

    Raises:
        PlanEditorError: it cannot be kept.
    """
    told, day = tuple(told), today()
    for one in told:
        _refuse_if_changed(session.document.plan, one)
    items = (settled_item(t.rule.name, t.finding.text, t.key, day) for t in told)
    session.apply(SettleFindings(tuple(items)))


def tell_again(session: Session) -> None:
    """Have every finding told again that was let stand.

    Raises:
        PlanEditorError: it cannot be kept.
    """
    session.apply(TellAgain())


def _refuse_if_changed(plan: Plan, told: Told) -> None:
    """See that the things of a finding are as the rule saw them."""
    there = all(i in plan.items for i in told.finding.items)
    if not there or fingerprint(plan, told.finding) != told.key:
        raise EditRefused(
            "That has changed since it was found. Nothing was changed. Look at the list again."
        )


def _told(plan: Plan, rule: Rule, finding: Finding) -> Told:
    return Told(finding=finding, rule=rule, key=fingerprint(plan, finding))


def _place_in_list(told: Told) -> tuple[int, int, list[tuple[str, int]]]:
    grade = list(Severity).index(told.finding.severity)
    return grade, told.rule.order, natural(told.finding.text)


def _mends(plan: Plan, wanted: tuple[Told, ...]) -> tuple[Edit, ...]:
    """Return the mends of some findings of one rule, each as it is after those before it.

    A mend was thought out for the plan as it was; where one before it changed the same thing,
    the rule is asked again. What it finds only then is left, and so is what is refused.
    """
    edits: list[Edit] = []
    concerned = {i for t in wanted for i in t.finding.items}
    for _ in range(MOST_ROUNDS if wanted else 0):
        done: set[ItemId] = set()
        for finding in tuple(wanted[0].rule.find(plan)):
            if finding.mend is None or not concerned.issuperset(finding.items):
                continue
            if done.isdisjoint(finding.items):
                try:
                    plan = plan.after(finding.mend.changes(plan))
                except EditRefused:
                    concerned.difference_update(finding.items)
                    continue
                done.update(finding.items)
                edits.append(finding.mend)
        if not done:
            break
    return tuple(edits)


def _within(title: str) -> str:
    return title[:1].lower() + title[1:]
