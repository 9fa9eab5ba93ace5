import json
import os
import subprocess
import sys

import pytest

from plan_editor.cli.line import run
from plan_editor.cli.verb import verbs

HEAVY = ("shapely", "ezdxf", "reportlab", "openpyxl", "PySide6", "numpy", "pyproj", "PIL")
NO_QT = """
import json, sys
class NoQt:
    def find_spec(self, name, path=None, target=None):
        if name.split(".")[0] in ("PySide6", "shiboken6"):
            raise ImportError("there is no Qt on this machine")
sys.meta_path.insert(0, NoQt())
from plan_editor.__main__ import main
for words in json.loads(sys.argv[1]):
    sys.argv = ["plan-editor", *words]
    print(main())
"""


def python(code, *words):
    return subprocess.run(
        [sys.executable, "-c", code, *map(str, words)],
        capture_output=True,
        text=True,
        check=False,
        timeout=120,
    )


def test_help_imports_nothing_heavy():
    done = python(
        "import sys\n"
        "from plan_editor.cli.line import run\n"
        "try:\n    run(['--help'])\nexcept SystemExit:\n    pass\n"
        "sys.stderr.write(' '.join(sorted({m.split('.')[0] for m in sys.modules})))"
    )
    assert "sheet" in done.stdout
    assert not set(HEAVY) & set(done.stderr.split())


def test_every_verb_works_on_a_machine_without_qt(plan, tmp_path):
    lines = (
        ["show", plan],
        ["clearance", plan],
        ["sheet", "mowing", plan, "-o", tmp_path / "m.pdf"],
        ["dxf", "write", plan, tmp_path / "p.dxf"],
        ["history", plan],
        ["verify", plan],
        ["new", tmp_path / "n.gpkg", "--name", "x"],
        ["base", "list", plan],
    )
    done = python(NO_QT, json.dumps([[str(word) for word in line] for line in lines]))
    assert (done.returncode, done.stderr) == (0, "")
    codes = [line for line in done.stdout.splitlines() if line in {"0", "1", "2"}]
    assert codes == ["0"] * len(lines)


def test_every_verb_answers_in_json_and_has_help(capsys):
    for verb in verbs():
        with pytest.raises(SystemExit) as stopped:
            run([*verb.name.split(), "--help"])
        assert stopped.value.code == 0
        assert "--json" in capsys.readouterr().out


@pytest.mark.parametrize(
    "words",
    [
        [],
        ["shwo"],
        ["show"],
        ["sheet", "nonsense", "x", "-o", "y"],
        ["clearance", "x", "--purpose", "cows"],
    ],
)
def test_words_that_make_no_sense_get_one_sentence(said, words):
    code, out, err = said(*words)
    assert (code, out) == (2, "")
    assert err.startswith("plan-editor: ")
    assert err.count("\n") == 1


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["shwo"], "There is no verb “shwo”, only sample"),
        (["it's"], "There is no verb “it's”"),
        (
            ["sheet", "moving", "x", "-o", "y"],
            "There is no sheet “moving”, only ",
        ),
        (["clearance", "x", "--purpose", "cows"], "There is no purpose “cows”, only people"),
    ],
)
def test_a_word_that_is_not_known_is_named_with_those_that_are(said, words, says):
    _, _, err = said(*words)
    assert says in err
    assert "invalid" not in err


def test_names_that_are_no_text_are_still_told(tmp_path):
    # a folder from another computer may hold names in another encoding
    words = [sys.executable, "-m", "plan_editor", "show", tmp_path / "n\udcff.gpkg"]
    done = subprocess.run(words, capture_output=True, check=False, timeout=60)
    assert done.returncode == 2
    assert b"There is no file" in done.stderr
    assert b"Traceback" not in done.stderr


def test_a_reader_who_has_seen_enough_ends_it_without_a_word(plan):
    reading, writing = os.pipe()
    os.close(reading)
    words = [sys.executable, "-m", "plan_editor", "show", plan]
    done = subprocess.run(
        words, stdout=writing, stderr=subprocess.PIPE, check=False, timeout=60
    )
    os.close(writing)
    assert done.stderr == b""


def test_what_is_stopped_by_the_keyboard_is_said(monkeypatch, said, plan):
    def stopped(path):
        raise KeyboardInterrupt

    monkeypatch.setattr("plan_editor.cli.looking.read", stopped)
    code, _, err = said("show", plan)
    assert code == 2
    assert "stopped" in err


def test_a_missing_plan_is_a_sentence_for_programs_too(tmp_path, said):
    code, out, err = said("show", tmp_path / "none.gpkg", "--json")
    assert code == 2
    assert "none.gpkg" in json.loads(out)["error"]
    assert "none.gpkg" in err


def test_our_own_fault_is_written_down_and_no_traceback_is_shown(monkeypatch, said, plan):
    def broken(path):
        raise ZeroDivisionError("oh")

    monkeypatch.setattr("plan_editor.cli.looking.read", broken)
    code, _, err = said("show", plan)
    assert code == 2
    assert "Traceback" not in err
    report = err.split("the file ")[1].split(" to whoever")[0]
    with open(report, encoding="utf-8") as kept:  # noqa: PTH123
        assert "ZeroDivisionError: oh" in kept.read()


def test_a_name_that_no_disk_can_hold_is_refused_by_every_verb(plan, said):
    # the disk refuses even to look, as it does with a folder that may not be entered
    name = f"{'x' * 300}"
    lines = (
        ["show", f"{name}.gpkg"],
        ["new", f"{name}/n.gpkg", "--name", "x"],
        ["restore", f"{name}.gpkg"],
        ["base", "add", plan, f"{name}.png", "--name", "x"],
        ["sheet", "mowing", plan, "-o", f"{name}.pdf"],
        ["dxf", "write", plan, f"{name}.dxf"],
        ["sample", name],
    )
    for words in lines:
        code, _, err = said(*words)
        assert code == 2
        assert "went wrong" not in err
