"""Leaves of the log's chain: each change committed to with a salt, so that it can be forgotten.

The chain hashes leaves and not the changes themselves. While the salt of a change is kept, its
leaf is worked out from both; when the change is forgotten, its leaf alone stands in the place
of the salt. Then the chain still agrees, and without the salt nobody can find out by trying
names and telephone numbers what the leaf was made of.

The scheme is that of salted digests in RFC 9901, Selective Disclosure for JSON Web Tokens.
"""

import json
from collections.abc import Callable
from hashlib import sha256
from secrets import token_hex
from typing import Any

from plan_editor.storage.records import encode

Pair = list[dict[str, Any] | None]
"""A change as the log keeps it: the record before, and the one after."""

Salts = Callable[[], str]
"""Gives a salt that was never given before, in hexadecimal."""

SALT_BYTES = 16
"""128 bits, as RFC 9901 recommends."""

_FORGOTTEN = "="


def random_salt() -> str:
    """Return a salt that nobody can guess."""
    return token_hex(SALT_BYTES)


def leaves(changes: str, salts: str) -> list[str]:
    """Return the leaf of each change of an entry.

    Args:
        changes: as the log keeps them.
        salts: as they stand beside them.

    Raises:
        ValueError: they cannot be read, or there are not as many of the ones as of the others.
    """
    try:
        pairs = zip(json.loads(changes), json.loads(salts), strict=True)
        return [_leaf(pair, salt) for pair, salt in pairs]
    except (TypeError, AttributeError, RecursionError) as error:
        raise ValueError("cannot be read") from error


def salted(count: int, salt: Salts) -> str:
    """Return new salts for so many changes, as the log keeps them."""
    return json.dumps([salt() for _ in range(count)])


def forgotten(pair: Pair, salt: str) -> str:
    """Return what stands in the place of a salt from now on: the leaf of what was there."""
    return f"{_FORGOTTEN}{_leaf(pair, salt)}"


def is_forgotten(salt: str) -> bool:
    """Return whether a change was forgotten, by what stands in the place of its salt."""
    return salt.startswith(_FORGOTTEN)


def _leaf(pair: Pair, salt: str) -> str:
    if is_forgotten(salt):
        return salt.removeprefix(_FORGOTTEN)
    return sha256(f"{salt}{encode(pair)}".encode()).hexdigest()
