"""Find the constant that each file of a folder declares.

A folder with a plural name (kinds, sheets, formats, tools, rules, menus, verbs) holds
declarations and nothing else. Adding a file there is all it takes: nobody keeps a list.
"""

import importlib
import pkgutil
from collections.abc import Callable
from functools import cache
from typing import ParamSpec, TypeVar

T = TypeVar("T")
P = ParamSpec("P")
R = TypeVar("R")


@cache
def declared(package: str, constant: str, wanted: type[T]) -> tuple[T, ...]:
    """Return the constant of that name from every module of a package, in order of name.

    A folder counts as a module. One whose name begins with an underscore, or that ends in
    ``_made`` (the heavy half of a declaration), declares nothing.

    Raises:
        TypeError: a module lacks the constant, or has it with another type.
    """
    return tuple(_constant(f"{package}.{n}", constant, wanted) for n in names(package))


def names(package: str) -> tuple[str, ...]:
    """Return the names of the modules that declare something, without importing them."""
    folder = importlib.import_module(package)
    found = sorted(m.name for m in pkgutil.iter_modules(folder.__path__))
    return tuple(n for n in found if not n.startswith("_") and not n.endswith("_made"))


def late(module: str, function: str, like: Callable[P, R]) -> Callable[P, R]:
    """Return a function that lives in a heavy module and is loaded when it is first called.

    Args:
        module: full name of the module.
        function: its name there.
        like: any function with the same arguments and result, for the type checker only.
    """
    del like

    def call(*args: P.args, **kwargs: P.kwargs) -> R:
        made: Callable[P, R] = getattr(importlib.import_module(module), function)
        return made(*args, **kwargs)

    return call


def _constant(module: str, constant: str, wanted: type[T]) -> T:
    found = getattr(importlib.import_module(module), constant, None)
    if not isinstance(found, wanted):
        raise TypeError(f"{module} must declare {constant} as a {wanted.__name__}")
    return found
