"""Bytes that the plan keeps: base plans, photographs, papers."""

from typing import Protocol


class Media(Protocol):
    """Bytes by their digest. The plan's file implements it."""

    def read(self, digest: str) -> bytes:
        """Return the bytes with that SHA-256 digest, in hexadecimal.

        Raises:
            DamagedPlan: they are not there, or not what they were.
        """
        ...

    def add(self, content: bytes, *, content_type: str, name: str) -> str:
        """Keep bytes and return their digest; the same bytes are kept once."""
        ...
