"""One digest over all items, kept up to date edit by edit.

It is the sum, over all items, of the SHA-256 of each item's record, modulo 2^256. So an edit
costs two hashes for each item that it changes, whatever the size of the plan; every log entry
carries the digest after it; and a working copy left by a crash can be checked like a saved
file. It finds accidents. It is no signature: who can write the file can write the digest.
"""

from collections.abc import Iterable
from hashlib import sha256
from typing import Any

from plan_editor.plan.item import Item
from plan_editor.storage.records import Records, records_of

_MODULUS = 1 << 256


def digest_of(items: Iterable[Item[Any]]) -> str:
    """Return the digest over all items of a plan, in 64 hexadecimal digits."""
    return digest_of_records(records_of(items))


def digest_of_records(records: Iterable[str]) -> str:
    """Return the digest over items that stand as records."""
    return _spelled(sum(map(_hash, records)))


def after(digest: str, written: Iterable[Records]) -> str:
    """Return the digest after changes, from the one before them."""
    total = int(digest, 16)
    for change in written:
        if change.after is not None:
            total += _hash(change.after)
        if change.before is not None:
            total -= _hash(change.before)
    return _spelled(total)


def _hash(record: str) -> int:
    return int.from_bytes(sha256(record.encode()).digest())


def _spelled(total: int) -> str:
    return f"{total % _MODULUS:064x}"
