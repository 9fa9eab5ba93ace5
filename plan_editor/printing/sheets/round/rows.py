"""The table of the round: a row for each thing, with boxes to tick."""

from plan_editor.drawing.dates import in_words
from plan_editor.drawing.schedule import Column, Table
from plan_editor.kinds.inspection import Test
from plan_editor.records.inspection_round import Round, Stop
from plan_editor.records.told import figure

BOXES = "\u2610 immediate\u2003\u2610 made safe\u2003\u2610 minor\u2003\u2610 sound"

_HEADS = (
    ("No.", 0.5, True),
    ("Thing", 1.9, False),
    ("Height, m", 0.7, True),
    ("How", 1.4, False),
    ("Last time", 1.7, False),
    ("Result: tick one", 4.0, False),
    ("What was seen and done", 4.2, False),
)

_HOW = {
    Test.VISUAL: "by eye",
    Test.HAND: "by eye, by hand",
    Test.FORCE: "by eye, hand, gauge",
    Test.ENGINEER: "by eye; call an engineer",
}

_NOTE = (
    "Inspected on ________________  by ______________________________  weather and ground"
    " ____________________. “Immediate”: keep people away at once, and tell the churchwarden"
    " today. A height that is empty was never measured."
)


def tables(told: Round, on: str) -> tuple[Table, ...]:
    """Return the table; none where nothing is due."""
    if not told.stops:
        return ()
    rows = tuple(_row(n, stop) for n, stop in enumerate(told.stops, 1))
    heading = f"Due for inspection on {in_words(on)}, in walking order: {len(rows)}"
    columns = tuple(Column(title=t, share=s, figures=f) for t, s, f in _HEADS)
    return (Table(heading=heading, columns=columns, rows=rows, note=_NOTE),)


def _row(number: int, stop: Stop) -> tuple[str, ...]:
    return (
        str(number),
        stop.item.called(),
        figure(getattr(stop.item.details, "height_m", None), 2),
        _HOW[stop.method.test],
        _last(stop),
        BOXES,
        "",
    )


def _last(stop: Stop) -> str:
    if stop.latest is None or stop.latest.details.result is None:
        return "never"
    told = stop.latest.details
    return f"{str(told.result).split(',')[0]}, {told.date}".rstrip(", ")
