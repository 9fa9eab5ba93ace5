"""``plan-editor`` from outside: a verb without Qt, and computers that lack something."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from plan_editor.resources import sample

MAIN = "from plan_editor.__main__ import main, window; import sys;"


def _python(code: str, *words: str, **environment: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-c", code, *words],
        capture_output=True,
        text=True,
        check=False,
        env=os.environ | environment,
    )


def test_a_verb_is_done_without_importing_qt() -> None:
    loaded = "[m for m in sys.modules if 'PySide' in m]"
    code = f"{MAIN} code = main(); print({loaded}); sys.exit(code)"
    done = _python(code, "show", str(sample("harrowmere.gpkg")))
    assert done.returncode == 0, done.stderr
    assert done.stdout.strip().endswith("[]")


@pytest.mark.parametrize("word", ["shwo", "9" * 300])
def test_a_verb_misspelt_is_a_sentence(word: str) -> None:
    done = _python(f"{MAIN} sys.exit(main())", word)
    assert done.returncode == 2
    assert word in done.stderr
    assert "Traceback" not in done.stderr


@pytest.mark.skipif(sys.platform != "linux", reason="screens are looked for on Linux")
def test_without_a_screen_the_window_is_refused_in_a_sentence() -> None:
    nowhere = {"DISPLAY": "", "WAYLAND_DISPLAY": "", "QT_QPA_PLATFORM": ""}
    done = _python(f"{MAIN} sys.exit(window())", **nowhere)
    assert done.returncode == 2
    assert done.stderr.startswith("There is no screen here")
    assert len(done.stderr.splitlines()) == 1


def test_a_missing_library_of_the_system_is_named_with_what_installs_it(
    tmp_path: Path,
) -> None:
    # a stand-in for PySide6 that fails as the real one does on a bare Debian 12
    package = tmp_path / "PySide6"
    package.mkdir()
    said = "libEGL.so.1: cannot open shared object file: No such file or directory"
    (package / "__init__.py").touch()
    (package / "QtCore.py").write_text(f"raise ImportError({said!r})\n", encoding="utf-8")
    code = f"import sys; sys.path.insert(0, {str(tmp_path)!r}); {MAIN} sys.exit(main())"
    done = _python(code)
    assert done.returncode == 2
    assert "lacks a system library" in done.stderr
    assert "libEGL.so.1" in done.stderr
    assert "apt-get install libgl1 libegl1" in done.stderr
    assert "Traceback" not in done.stderr
