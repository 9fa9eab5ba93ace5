"""The north point. The grid's north is up on every sheet."""

import numpy as np

from plan_editor.drawing.ink import Anchor, Fill, Stroke, Text
from plan_editor.drawing.panel import Panel
from plan_editor.plan.look import Pen


def north_point(height: float) -> Panel:
    """Return an arrow to the top of the page, with N over it."""
    size = height * 0.28
    foot, tip, half = -height, -size * 1.0, height * 0.17
    middle = half
    notch = foot + (tip - foot) * 0.22
    left = np.array([(middle, tip), (0.0, foot), (middle, notch)])
    right = np.array([(middle, tip), (2 * half, foot), (middle, notch)])
    return Panel(
        width=2 * half,
        height=height,
        ink=(
            Fill(rings=(left,)),
            Stroke(lines=(right,), pen=Pen(width=0.25), closed=True),
            Text(
                text="N", x=middle, y=-size * 0.72, size=size, bold=True, anchor=Anchor.MIDDLE
            ),
        ),
    )
