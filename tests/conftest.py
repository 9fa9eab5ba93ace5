"""What every test gets: a folder of its own for a home, no screen, seeded examples."""

import gc
import locale
import os
from collections.abc import Iterator
from pathlib import Path

import pytest
from downloads import EZDXF_SOURCES, LIBPYSAL_WHEEL, NotDownloaded, Release, unpacked
from hypothesis import settings
from PySide6.QtCore import QCoreApplication, QEvent
from PySide6.QtGui import QFont, QFontDatabase
from PySide6.QtWidgets import QApplication, QWidget

from plan_editor.resources import resource

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")  # read when the application is made

settings.register_profile("quick", max_examples=50, derandomize=True, deadline=None)
settings.register_profile("thorough", max_examples=2000, deadline=None)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "quick"))

_HOMES = ("XDG_STATE_HOME", "XDG_CACHE_HOME", "XDG_CONFIG_HOME", "XDG_DATA_HOME")


@pytest.fixture(autouse=True)
def home(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    """Give the test folders of its own for what the program keeps on this machine."""
    folder = tmp_path_factory.mktemp("home")
    with pytest.MonkeyPatch.context() as patch:
        for name in _HOMES:
            patch.setenv(name, str(folder / name.removeprefix("XDG_").lower()))
        yield folder


@pytest.fixture(autouse=True)
def _nothing_changed_for_the_next_test(home: Path) -> Iterator[None]:
    before = _surroundings()
    yield
    after = _surroundings()
    os.chdir(before["folder"])
    changed = [name for name, value in before.items() if after[name] != value]
    assert not changed, f"The test left these changed for the tests after it: {changed}"


def _surroundings() -> dict[str, object]:
    environment = {k: v for k, v in os.environ.items() if k != "PYTEST_CURRENT_TEST"}
    return {
        "folder": Path.cwd(),
        "environment": environment,
        "locale": locale.setlocale(locale.LC_ALL),
    }


@pytest.fixture(scope="session")
def ezdxf_sources() -> Path:
    """Return the folder of the ezdxf source distribution, with its integration tests' files."""
    return _downloaded(EZDXF_SOURCES) / f"ezdxf-{EZDXF_SOURCES.version}"


@pytest.fixture(scope="session")
def libpysal_examples() -> Path:
    """Return the folder of open data with recorded areas: ``chicago/``, ``columbus/``, …."""
    return _downloaded(LIBPYSAL_WHEEL) / "libpysal" / "examples"


def _downloaded(release: Release) -> Path:
    try:
        return unpacked(release)
    except NotDownloaded as error:
        pytest.fail(str(error), pytrace=False)


@pytest.fixture(scope="session")
def qapp(qapp: QApplication) -> QApplication:
    """Return the application, looking the same on every machine."""
    # Qt takes the user's locale; GDAL puts the C one back for numbers when it is first used
    locale.setlocale(locale.LC_NUMERIC, "C")
    qapp.setStyle("Fusion")
    for file in sorted(resource("fonts").glob("*.ttf")):
        assert QFontDatabase.addApplicationFont(str(file)) >= 0, file.name
    qapp.setFont(QFont("Source Sans 3", 10))
    return qapp


@pytest.fixture(autouse=True)
def _no_window_stays_open(request: pytest.FixtureRequest) -> Iterator[None]:
    if "qapp" not in request.fixturenames:
        yield
        return
    request.getfixturevalue("qapp")
    before = _windows()
    yield
    left = _windows() - before
    if left:
        gc.collect()  # a window that only a ring of references holds is closing already
        left = _windows() - before
    assert not left, f"The test left windows behind: {sorted(map(repr, left))}"


def _windows() -> set[QWidget]:
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    return set(QApplication.topLevelWidgets())
