"""What is written down when the program itself is at fault."""

from datetime import UTC, datetime
from pathlib import Path

from platformdirs import user_log_path


def written_down(trace: str, led_there: tuple[str, ...]) -> Path | None:
    """Write a traceback, and what was done before, to a file of the log; return it.

    None where nothing can be written.
    """
    folder = user_log_path("churchyard-plan-editor", appauthor=False)
    path = folder / f"{datetime.now(UTC):%Y%m%d-%H%M%S-%f}.txt"
    try:
        folder.mkdir(parents=True, exist_ok=True)
        path.write_text(
            "\n".join((*led_there, "", trace)), encoding="utf-8", errors="backslashreplace"
        )
    except OSError:
        return None
    return path
