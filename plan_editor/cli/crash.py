"""What is kept when the program itself is at fault."""

import traceback
from datetime import UTC, datetime
from pathlib import Path

from platformdirs import user_log_path


def kept_report(fault: Exception) -> str:
    """Write what happened to a file and return the sentence that tells the user so."""
    folder = user_log_path("churchyard-plan-editor", appauthor=False)
    name = f"{datetime.now(UTC):%Y%m%d-%H%M%S-%f}.txt"
    try:
        folder.mkdir(parents=True, exist_ok=True)
        path = Path(folder, name)
        path.write_text("".join(traceback.format_exception(fault)), "utf-8")
    except OSError:
        return "Something went wrong in this program itself, and it could not be written down."
    return (
        "Something went wrong in this program itself; your plan is as it was."
        f" Please send the file {path} to whoever looks after the program."
    )
