"""Bytes that the plan keeps: base plans, photographs, papers."""

from typing import Protocol


class Kept(Protocol):
    """Bytes by their digest, to be read."""

    def read(self, digest: str) -> bytes:
        """Return the bytes with that SHA-256 digest, in hexadecimal.

        Raises:
            DamagedPlan: they are not there, or not what they were.
        """
        ...


class Media(Kept, Protocol):
    """Bytes by their digest. The open file of a plan implements it."""

    def add(self, content: bytes, *, content_type: str, name: str) -> str:
        """Keep bytes and return their digest; the same bytes are kept once.

        Raises:
            NoRoom, NotAllowed: they were not kept.
        """
        ...
