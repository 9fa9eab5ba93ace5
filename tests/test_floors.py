"""The shape of the project: who may import whom, and what lies at the top."""

import subprocess
from pathlib import Path

from importlinter.cli import lint_imports

ROOT = Path(__file__).parents[1]
AT_THE_TOP = {
    *("README.md", "DEVELOPERS.md", "LICENSE", "pyproject.toml", "uv.lock"),
    *("plan_editor", "resources", "sample_plans", "tests"),
    *(".ci", ".gitignore", ".pre-commit-config.yaml"),
}


def test_imports_go_down_the_floors_only() -> None:
    assert lint_imports(config_filename=str(ROOT / "pyproject.toml"), no_cache=True) == 0


def test_the_top_level_holds_what_it_should_and_nothing_else() -> None:
    listed = subprocess.run(
        ["git", "ls-files", "-z"],  # noqa: S607 - wherever git is
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=True,
    )
    kept = {name.split("/")[0] for name in listed.stdout.split("\0") if name}
    assert kept <= AT_THE_TOP
