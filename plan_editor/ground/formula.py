"""Distances as formulas that people may change: sums of numbers and details, and nothing else.

``height_m * 1.5 + 1.0``, ``min(12 * stem_m, 15)``. A formula is read into a tree of allowed
parts and worked out by walking it; nothing of it is ever run as a program.
"""

import ast
import operator
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from math import isfinite

from plan_editor.errors import CannotUse

_SUMS: dict[type[ast.operator], Callable[[float, float], float]] = {
    ast.Add: operator.add,
    ast.Sub: operator.sub,
    ast.Mult: operator.mul,
    ast.Div: operator.truediv,
}
_CHOICES: dict[str, Callable[..., float]] = {"min": min, "max": max}
_LONGEST = 200


@dataclass(frozen=True, slots=True)
class Formula:
    """A sum over named numbers.

    Args:
        text: as written in the table of rules.
        names: the numbers that it wants.
    """

    text: str
    names: frozenset[str]

    def worked_out(self, numbers: Mapping[str, float]) -> float:
        """Return the result.

        Raises:
            CannotUse: a number is missing, or the result is not a finite number from nought up.
        """
        if missing := sorted(self.names - numbers.keys()):
            raise CannotUse(f"The formula “{self.text}” needs {' and '.join(missing)}.")
        try:
            result = _value(_tree(self.text), numbers)
        except ZeroDivisionError:
            raise CannotUse(f"The formula “{self.text}” divides by nought.") from None
        if not (isfinite(result) and result >= 0):
            raise CannotUse(
                f"The formula “{self.text}” gives {result:g}, which is no distance."
            )
        return result


def read_formula(text: str) -> Formula:
    """Return a formula.

    Raises:
        CannotUse: it holds anything but numbers, names, + - * /, brackets, min and max.
    """
    tree = _tree(text)
    return Formula(text, frozenset(_names(tree)))


def _tree(text: str) -> ast.expr:
    if len(text) > _LONGEST:
        raise CannotUse(f"The formula “{text[:30]}…” is longer than {_LONGEST} characters.")
    try:
        tree = ast.parse(text, mode="eval").body
    except (SyntaxError, ValueError):
        raise CannotUse(f"“{text}” cannot be read as a formula.") from None
    _check(tree, text)
    return tree


def _check(node: ast.AST, text: str) -> None:
    match node:
        case ast.Constant(value=int() | float()) if not isinstance(node.value, bool):
            return
        case ast.Name(id=name) if name not in _CHOICES:
            return
        case ast.BinOp(left=left, op=op, right=right) if type(op) in _SUMS:
            _check(left, text)
            _check(right, text)
        case ast.Call(func=ast.Name(id="min" | "max"), args=[_, *_] as args, keywords=[]):
            for part in args:
                _check(part, text)
        case _:
            raise CannotUse(
                f"“{text}” cannot be used as a formula: only numbers, names, + - * /,"
                " brackets, min and max are understood."
            )


def _names(tree: ast.expr) -> set[str]:
    found = {n.id for n in ast.walk(tree) if isinstance(n, ast.Name)}
    return found - _CHOICES.keys()


def _value(node: ast.AST, numbers: Mapping[str, float]) -> float:
    match node:
        case ast.BinOp(left=left, op=op, right=right):
            return _SUMS[type(op)](_value(left, numbers), _value(right, numbers))
        case ast.Call(func=ast.Name(id=name), args=args):
            return _CHOICES[name](_value(a, numbers) for a in args)
        case ast.Name(id=name):
            return numbers[name]
        case ast.Constant(value=int() | float() as value):
            return float(value)
        case _:  # pragma: no cover  # nothing else gets past ``_check``
            raise AssertionError(ast.dump(node))
