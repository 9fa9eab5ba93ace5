"""The table of clearance rules: how far to keep from what, for whom, on whose word."""

import tomllib
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from math import isfinite
from pathlib import Path
from typing import Any

from plan_editor.errors import CannotUse
from plan_editor.ground.formula import Formula, read_formula
from plan_editor.plan.detail import Value
from plan_editor.plan.kind import kind_named
from plan_editor.resources import resource


class Purpose(StrEnum):
    """For whom the distance is kept."""

    PEOPLE = "people"
    MACHINE = "machine"


class When(StrEnum):
    """Which items of the kind a rule applies to."""

    UNSAFE = "unsafe"


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """How far to keep from what.

    Args:
        name: never changes.
        title: as people read it.
        applies_to: name of a kind.
        when: which of them.
        purpose: for whom.
        distance: metres from the outline.
        assume: names of details, and what is taken where one is not recorded.
        local_rule: no published figure is known; the parish decides.
        source, caution: printed with whatever rests on it.
        short: the distance in a few words, where there is no room for the source; empty
            where it cannot be said so.
    """

    name: str
    title: str
    applies_to: str
    when: When
    purpose: Purpose
    distance: Formula
    assume: tuple[tuple[str, float], ...]
    local_rule: bool
    source: str
    caution: str
    short: str = ""


@cache
def shipped_rules() -> tuple[Rule, ...]:
    """Return the rules that come with the program."""
    return read_rules(resource("clearance_rules.toml"))


def read_rules(path: Path) -> tuple[Rule, ...]:
    """Return the rules of a table.

    Raises:
        CannotUse: the table cannot be read, or a rule lacks something; the text names the rule.
    """
    try:
        table = tomllib.loads(path.read_text("utf-8"))
    except (OSError, UnicodeDecodeError, tomllib.TOMLDecodeError) as fault:
        raise CannotUse(f"{path.name} cannot be read as a table of rules: {fault}.") from fault
    rows = table.get("rule", [])
    if not isinstance(rows, list) or not rows:
        raise CannotUse(f"{path.name} holds no [[rule]].")
    rules = tuple(_rule(row, f"{path.name}, rule {n}") for n, row in enumerate(rows, 1))
    if len({rule.name for rule in rules}) < len(rules):
        raise CannotUse(f"{path.name}: two rules bear one name.")
    return rules


def _rule(row: Any, place: str) -> Rule:
    rule = _read(row, place)
    if fault := _fault_of(rule):
        raise CannotUse(f"{place}: {fault}.")
    return rule


def _fault_of(rule: Rule) -> str:
    """Return what would keep a rule from ever applying, or make it lie, or ""."""
    kind = kind_named(rule.applies_to)
    if kind is None:
        return f"there is no kind “{rule.applies_to}”"
    recorded = {d.name for d in kind.entries() if d.value in (Value.NUMBER, Value.WHOLE)}
    if unknown := sorted(rule.distance.names - recorded):
        return f"no number “{unknown[0]}” is recorded of {kind.one}"
    for name, value in rule.assume:
        if name not in rule.distance.names or not (isfinite(value) and value >= 0.0):
            return f"“{name}” cannot be taken as {value:g}"
    return ""


def _read(row: Any, place: str) -> Rule:
    try:
        return Rule(
            name=str(row["name"]),
            title=str(row["title"]),
            applies_to=str(row["applies_to"]),
            when=When(row["when"]),
            purpose=Purpose(row["purpose"]),
            distance=read_formula(str(row["distance"])),
            assume=tuple((str(k), float(v)) for k, v in row.get("assume", {}).items()),
            local_rule=bool(row["local_rule"]),
            source=str(row["source"]),
            caution=str(row["caution"]),
            short=str(row.get("short", "")),
        )
    except KeyError as missing:
        raise CannotUse(f"{place}: it has no {missing}.") from missing
    except (TypeError, ValueError, AttributeError) as fault:
        raise CannotUse(f"{place}: {fault}.") from fault
