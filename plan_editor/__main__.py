"""Start the window, or the command line where a verb is given."""

import multiprocessing
import os
import sys
from collections.abc import Sequence
from pathlib import Path

from plan_editor.declared import late

# read when numpy is loaded: our matrices are small, and threads would wait for one another
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

NO_LIBRARY = """\
The window cannot be opened: this computer lacks a system library that Qt needs ({missing}).
On Debian or Ubuntu: apt-get install libgl1 libegl1 libxkbcommon0 libfontconfig1 libglib2.0-0 \
libdbus-1-3 libxcb-cursor0 libxcb-icccm4 libxcb-image0 libxcb-keysyms1 libxcb-render-util0 \
libxcb-shape0 libxcb-xkb1 libxcb-randr0 libxkbcommon-x11-0"""


def _run(words: Sequence[str]) -> int:
    """Stand for what runs words, where only its type is wanted."""
    return len(words)


def _no_names() -> frozenset[str]:
    """Stand for what names verbs, where only its type is wanted."""
    return frozenset()


# a verb never reaches Qt
_cli = late("plan_editor.cli.line", "run", _run)
_verbs = late("plan_editor.cli.line", "names", _no_names)
_desktop = late("plan_editor.desktop.app", "run", _run)


def main() -> int:
    """Run ``plan-editor``: a verb, or the window with the plans that are named."""
    multiprocessing.freeze_support()
    words = sys.argv[1:]
    return _cli(words) if _begin_a_verb(words) else _window(words)


def window() -> int:
    """Run ``plan-editor-window``: the window, whatever is named."""
    multiprocessing.freeze_support()
    return _window(sys.argv[1:])


def _begin_a_verb(words: Sequence[str]) -> bool:
    if not words:
        return False
    first = words[0]
    # what is neither a file nor named like one is a verb misspelt, and told so by the verbs
    looks_like_a_plan = bool(Path(first).suffix) or os.path.exists(first)  # noqa: PTH110  # does not mind names that no disk can hold
    return first.startswith("-") or first in _verbs() or not looks_like_a_plan


def _window(plans: Sequence[str]) -> int:
    try:
        return _desktop(plans)
    except ImportError as error:
        missing = str(error).split(":")[0]
        if ".so" not in missing and "PySide6" not in str(error):
            raise
        sys.stderr.write(f"{NO_LIBRARY.format(missing=missing)}\n")
        return 2


if __name__ == "__main__":
    sys.exit(main())
