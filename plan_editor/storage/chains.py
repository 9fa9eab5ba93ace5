"""The chain of the log worked out again, and the entries that concern one thing."""

import json
from collections.abc import Collection
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from plan_editor.plan.item import ItemId
from plan_editor.storage import forgetting, history, leaves
from plan_editor.storage.history import Link
from plan_editor.storage.log import reading_log


@dataclass(frozen=True, slots=True, kw_only=True)
class ChainEntry:
    """An entry of the log with the digest of the log up to it; see ``log.Line``."""

    number: int
    when: str
    author: str
    title: str
    takes_back: int | None
    link: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Chain:
    """What working out the chain of a log again came to.

    Args:
        entries: those that changed the things asked for, oldest first.
        head: digest of the whole log; empty of an empty one.
        count: how many entries the log has.
        whole: whether every link agrees and no number is lacking.
        forgotten: of how many changes to those things only the leaf is left.
    """

    entries: tuple[ChainEntry, ...] = ()
    head: str = ""
    count: int = 0
    whole: bool = True
    forgotten: int = 0


def read_chain(path: Path, thing: ItemId, others: Collection[ItemId] = ()) -> Chain:
    """Return the chain of the log of a plan's file, and what concerns a thing.

    That is every entry that changed the thing, anything that points or once pointed to it, or
    one of the others.

    Args:
        path: a plan's file, or a working copy.
        thing: what it is about.
        others: ids of more things whose entries are wanted.

    Raises:
        FileProblem: it cannot be read, or is not to be trusted.
    """
    with reading_log(path) as con:
        wanted = {thing, *others, *forgetting.once_pointing(con, thing)}
        before, last, whole, forgotten = history.START, 0, True, 0
        found = []
        for link in history.links(con):
            entry = _entry(link)
            whole = whole and entry.number == last + 1 and link.agrees(before)
            salts = _salts_of(link, wanted)
            if salts:
                found.append(entry)
                forgotten += sum(map(leaves.is_forgotten, salts))
            before, last = link.digest, entry.number
    return Chain(
        entries=tuple(found),
        head=before if last else "",
        count=last,
        whole=whole,
        forgotten=forgotten,
    )


def _entry(link: Link) -> ChainEntry:
    number, when, author, title, takes_back, _ = link.plain
    return ChainEntry(
        number=number,
        when=when,
        author=author,
        title=title,
        takes_back=takes_back,
        link=link.digest,
    )


def _salts_of(link: Link, wanted: Collection[str]) -> list[str]:
    pairs: list[list[dict[str, Any] | None]] = json.loads(link.changes)
    salts = json.loads(link.salts)
    return [
        str(salt)
        for (before, after), salt in zip(pairs, salts, strict=False)
        if (after or before or {})["columns"]["id"] in wanted
    ]
