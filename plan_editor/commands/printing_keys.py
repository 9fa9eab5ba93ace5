"""The key sheet as a PDF."""

from pathlib import Path

from plan_editor.commands.keys import AT_WORK, key_groups
from plan_editor.commands.making import Made
from plan_editor.errors import CannotUse
from plan_editor.printing.key_pages import key_pages
from plan_editor.printing.pdf import write

TITLE = "Keys of the Churchyard Plan Editor"
NAMED = "keys.pdf"


def make_key_sheet(out: Path) -> Made:
    """Print every key there is to a PDF.

    Raises:
        CannotUse: the name is none, or that of a device.
        CannotPrint, FileProblem: it cannot be written there.
    """
    if not out.name or (out.exists() and not out.is_file()):
        raise CannotUse(f"{out} is no file. Nothing was written. Choose another name.")
    groups = tuple((group.title, group.keys) for group in key_groups())
    printed = key_pages(TITLE, groups, AT_WORK)
    write(printed, out)
    return Made(path=out, revision=0, paper=printed.paper.name, pages=len(printed.pages))
