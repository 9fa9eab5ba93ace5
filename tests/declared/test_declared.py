"""Finding the constant that each file of a folder declares."""

import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from plan_editor.declared import declared, late


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    """Give a package ``birds`` whose files a test may write."""
    package = tmp_path / "birds"
    package.mkdir()
    (package / "__init__.py").touch()
    monkeypatch.syspath_prepend(tmp_path)
    yield package
    declared.cache_clear()
    for name in [n for n in sys.modules if n.split(".")[0] == "birds"]:
        del sys.modules[name]


def test_each_file_gives_its_constant_in_order_of_name(folder: Path) -> None:
    (folder / "wren.py").write_text("BIRD = 'wren'")
    (folder / "finch.py").write_text("BIRD = 'finch'")
    (folder / "owl").mkdir()
    (folder / "owl" / "__init__.py").write_text("BIRD = 'owl'")
    assert declared("birds", "BIRD", str) == ("finch", "owl", "wren")


def test_private_files_and_heavy_halves_declare_nothing(folder: Path) -> None:
    (folder / "wren.py").write_text("BIRD = 'wren'")
    (folder / "_nest.py").write_text("raise RuntimeError('imported')")
    (folder / "wren_made.py").write_text("raise RuntimeError('imported')")
    assert declared("birds", "BIRD", str) == ("wren",)


@pytest.mark.parametrize("text", ["", "BIRD = 7"])
def test_a_file_that_declares_nothing_of_the_kind_is_named(folder: Path, text: str) -> None:
    (folder / "wren.py").write_text(text)
    with pytest.raises(TypeError, match=r"birds\.wren must declare BIRD as a str"):
        declared("birds", "BIRD", str)


def test_what_was_found_is_kept(folder: Path) -> None:
    (folder / "wren.py").write_text("BIRD = 'wren'")
    found = declared("birds", "BIRD", str)
    (folder / "finch.py").write_text("BIRD = 'finch'")
    assert declared("birds", "BIRD", str) is found


def test_a_late_function_is_loaded_when_it_is_first_called(folder: Path) -> None:
    (folder / "wren_made.py").write_text("def sing(times, *, loud):\n    return times, loud\n")

    def like(times: int, *, loud: bool) -> tuple[int, bool]:
        raise NotImplementedError

    sing = late("birds.wren_made", "sing", like)
    assert "birds.wren_made" not in sys.modules
    assert sing(3, loud=True) == (3, True)
    assert "birds.wren_made" in sys.modules
