"""Numbers as people write them."""


def signed(value: float, places: int) -> str:
    """Return a number with its sign: ``+0.004``; nought is ``+0.000``, never below."""
    return f"{round(value, places) + 0.0:+.{places}f}"
