"""What is said where the program itself is at fault; the traceback goes to a file."""

import traceback

from plan_editor.commands.crash import written_down


def kept_report(fault: Exception) -> str:
    """Write what happened to a file and return the sentence that tells the user so."""
    path = written_down("".join(traceback.format_exception(fault)), ())
    if path is None:
        return "Something went wrong in this program itself, and it could not be written down."
    return (
        "Something went wrong in this program itself; your plan is as it was."
        f" Please send the file {path} to whoever looks after the program."
    )
