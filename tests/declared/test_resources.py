"""The path of a resource, from a checkout and from a wheel."""

from pathlib import Path

import pytest

from plan_editor import resources
from plan_editor.resources import resource, sample


def test_a_resource_of_the_checkout_is_found() -> None:
    assert resource("fonts").is_dir()
    assert resource("fonts/SourceSans3-OFL.txt").is_file()


def test_what_is_not_there_is_named() -> None:
    with pytest.raises(FileNotFoundError, match=r"resources holds no fonts/none\.ttf"):
        resource("fonts/none.ttf")
    with pytest.raises(FileNotFoundError, match="sample_plans holds no other"):
        sample("other")


def test_what_a_wheel_carries_comes_first(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    package = tmp_path / "plan_editor"
    for folder in ("plan_editor/_resources", "resources", "plan_editor/_sample_plans"):
        (tmp_path / folder).mkdir(parents=True, exist_ok=True)
        (tmp_path / folder / "a.txt").touch()
    (tmp_path / "resources" / "b.txt").touch()
    monkeypatch.setattr(resources, "_PACKAGE", package)
    assert resource("a.txt") == package / "_resources" / "a.txt"
    assert resource("b.txt") == tmp_path / "resources" / "b.txt"
    assert sample("a.txt") == package / "_sample_plans" / "a.txt"
