"""A person taken out of the log and the media of a working copy; the chain stays whole."""

import json
from collections.abc import Collection
from typing import Any

from plan_editor.edits.forgetting import is_concerned, left_of, naming_words
from plan_editor.edits.person import Person
from plan_editor.plan.item import Item, ItemId
from plan_editor.storage import history, leaves, media
from plan_editor.storage.connection import Connection, DatabaseError, rebuild, transaction
from plan_editor.storage.digests import digest_of_records
from plan_editor.storage.records import encode, item_of, record_of

Record = dict[str, Any]

_PAPER, _TARGET, _PERSONAL = "paper", "target", "personal"


def once_pointing(con: Connection, person: ItemId) -> frozenset[ItemId]:
    """Return the ids of all things that pointed to a contact at some time, as the log has it.

    Raises:
        ValueError: the log cannot be read.
    """
    found = con.execute("SELECT changes FROM history WHERE instr(changes, ?)", (person,))
    return frozenset(
        _id(record)
        for (changes,) in found
        for pair in json.loads(changes)
        for record in pair
        if record is not None and _points(record, person)
    )


def earlier_naming(con: Connection, person: Person) -> tuple[Item[Any], ...]:
    """Return things as they once were, in whose words that stay in the log a person is named.

    Papers that go and the contact itself are passed over.

    Raises:
        ValueError: the log cannot be read.
    """
    left = _Left(person, (), history.last_records(con).keys())
    found: list[Item[Any]] = []
    for (changes,) in con.execute("SELECT changes FROM history ORDER BY number"):
        for _, record in json.loads(changes):
            if record is not None and not left.loses(record) and _has_words(record, person):
                found.append(item_of(record))
    return tuple(item for item in found if naming_words(item, person))


def is_known(con: Connection, person: ItemId) -> bool:
    """Return whether the log of a plan knows a contact."""
    found = con.execute("SELECT 1 FROM history WHERE instr(changes, ?) LIMIT 1", (person,))
    return found.fetchone() is not None


def clear(con: Connection, person: Person, gone: Collection[ItemId] = ()) -> bool:
    """Clear the log and the media of a person, who is on the plan no longer.

    Of each change that concerns the person only what is left of it is kept, and the leaf of
    what it was. Returns whether the file was written anew and nothing is left in the WAL
    either; where that fails, the log and the media are cleared all the same.

    Args:
        con: open for writing on a working copy.
        person: the person.
        gone: ids of what went with the person, such as papers.

    Raises:
        ValueError: the log cannot be read, or does not fit to the tables afterwards.
    """
    con.execute("PRAGMA secure_delete = ON")
    with transaction(con):
        there = history.last_records(con).keys()
        digests = _clear_log(con, _Left(person, gone, there))
        _clear_media(con, digests)
        _check(con)
    try:
        return rebuild(con)
    except DatabaseError:  # there is no room for it, say: the person is cleared by now
        return False


class _Left:
    """What is left of records once a person is forgotten."""

    def __init__(
        self, person: Person, gone: Collection[ItemId], there: Collection[str]
    ) -> None:
        self._person = person
        self._gone = frozenset((person.id, *gone))
        self._there = there
        self.digests: set[str] = set()

    def of(self, record: Record | None) -> Record | None:
        """Return what is left of a record."""
        if record is None:
            return None
        if self.loses(record):
            self.digests.add(str(record["columns"].get(media.DIGEST, "")))
            return {"kind": record["kind"], "shape": None, "columns": {"id": _id(record)}}
        known = self._person.once | self._person.corrected
        if not (_points(record, self._person.id) or _id(record) in known):
            return record
        item = item_of(record)
        if not is_concerned(item, self._person):
            return record
        left: Record = json.loads(record_of(left_of(item, self._person)))
        return left

    def loses(self, record: Record) -> bool:
        """Return whether nothing is left of a record but its id."""
        return _id(record) in self._gone or self._is_their_paper(record)

    def _is_their_paper(self, record: Record) -> bool:
        if record["kind"] != _PAPER:
            return False
        target = record["columns"].get(_TARGET)
        if target == self._person.id:
            return True
        # a paper that is on the plan has stayed; one that was removed before goes now
        personal = bool(record["columns"].get(_PERSONAL))
        return personal and target in self._person.once and _id(record) not in self._there


def _clear_log(con: Connection, left: _Left) -> set[str]:
    rows = con.execute("SELECT number, changes, salts FROM history ORDER BY number").fetchall()
    for number, changes, salts in rows:
        pairs, kept = json.loads(changes), json.loads(salts)
        after = [[left.of(before), left.of(then)] for before, then in pairs]
        if after != pairs:
            kept = [
                salt if now == was else leaves.forgotten(was, salt)
                for now, was, salt in zip(after, pairs, kept, strict=True)
            ]
            con.execute(
                "UPDATE history SET changes = ?, salts = ? WHERE number = ?",
                (encode(after), json.dumps(kept), number),
            )
    # digests of the items at earlier times have no salt: by them, guesses could be tried
    con.execute(
        "UPDATE history SET items_digest = '' WHERE number < (SELECT max(number) FROM history)"
    )
    return left.digests - {""}


def _clear_media(con: Connection, digests: set[str]) -> None:
    """Remove media that nothing in the log refers to any more."""
    for digest in sorted(digests):
        con.execute(
            "DELETE FROM media WHERE sha256 = ?1"
            " AND NOT EXISTS (SELECT 1 FROM history WHERE instr(changes, ?1))",
            (digest,),
        )
    media.note_mappings(con)


def _check(con: Connection) -> None:
    there = digest_of_records(history.last_records(con).values())
    if there != history.tail_of(con).items_digest:
        raise ValueError("its log would not fit to what it holds")


def _id(record: Record) -> ItemId:
    return ItemId(str(record["columns"]["id"]))


def _points(record: Record, person: ItemId) -> bool:
    return any(v == person for name, v in record["columns"].items() if name != "id")


def _has_words(record: Record, person: Person) -> bool:
    """Return whether a look at the item is worth while; most records name nobody."""
    words = "\n".join(v for v in record["columns"].values() if isinstance(v, str))
    return person.may_be_named_in(words)
