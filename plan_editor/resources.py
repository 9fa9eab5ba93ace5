"""The path of a resource, from a checkout and from a wheel."""

from pathlib import Path

_PACKAGE = Path(__file__).parent


def resource(name: str) -> Path:
    """Return the path of a file or folder of ``resources/``, such as ``"fonts"``.

    Raises:
        FileNotFoundError: there is none of that name.
    """
    return _shipped("resources", name)


def sample(name: str) -> Path:
    """Return the path of a file of ``sample_plans/``.

    Raises:
        FileNotFoundError: there is none of that name.
    """
    return _shipped("sample_plans", name)


def _shipped(folder: str, name: str) -> Path:
    # in a wheel the folder lies in the package; in a checkout beside it
    for root in (_PACKAGE / f"_{folder}", _PACKAGE.parent / folder):
        if (path := root / name).exists():
            return path
    raise FileNotFoundError(f"{folder} holds no {name}")
