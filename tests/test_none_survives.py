"""Qt's binding keeps the interpreter whole over many calls that return nothing.

PySide6 6.12.0 on Python 3.11 gave away a reference to ``None`` at every such call, so that the
program died after some thousands of them. It is checked in a process of its own, which may die.
"""

import subprocess
import sys

MANY_CALLS = """
import sys
from PySide6.QtCore import QObject

thing = QObject()
before = sys.getrefcount(None)
for _ in range(200_000):
    thing.setObjectName("a")
    thing.blockSignals(False)
assert abs(sys.getrefcount(None) - before) < 1000
print("whole")
"""


def test_none_survives_many_calls_that_return_nothing() -> None:
    run = subprocess.run(
        [sys.executable, "-c", MANY_CALLS],
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )
    assert (run.returncode, run.stdout, run.stderr) == (0, "whole\n", "")
