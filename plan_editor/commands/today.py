"""The day on which something is done, where it is done."""

from datetime import UTC, datetime


def today() -> str:
    """Return today's date by this computer's clock and time zone, as ISO 8601 writes it."""
    return datetime.now(UTC).astimezone().date().isoformat()
