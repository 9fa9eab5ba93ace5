"""Names as they are given on the command line."""

from plan_editor.errors import CannotUse


def one_line(text: str, option: str) -> str:
    """Return a name without blanks round it.

    Args:
        text: as given.
        option: where it was given.

    Raises:
        CannotUse: it is empty, runs over several lines, or holds bytes that are no letters.
    """
    name = text.strip()
    if not name or not name.isprintable():
        raise CannotUse(f"{option} wants a name in letters, on one line. Nothing was done.")
    return name
