"""Layers by ISO 13567: one a kind for what is there, one for its numbers, one for hatches."""

from enum import Enum
from typing import Any

from ezdxf.document import Drawing as Document

from plan_editor.exchange.formats.dxf.pens import dressed
from plan_editor.plan.kind import Kind
from plan_editor.plan.look import Pen


class Presentation(Enum):
    """What a layer shows: the presentation field of its name, and the words for it."""

    ELEMENT = ("E-", "")
    TEXT = ("T-", ", numbers and names")
    HATCHING = ("H-", ", hatching and signs")
    BORDER = ("B-", ", frame and title block")


def layer_of(document: Document, kind: Kind, presentation: Presentation) -> str:
    """Return the name of a kind's layer, which is added to the drawing if it must be."""
    return layer(document, kind.layer, presentation, kind.plural, kind.look.pen or Pen())


def layer(
    document: Document, name: str, presentation: Presentation, words: str, pen: Pen
) -> str:
    """Return the name of a layer, which is added to the drawing if it must be.

    Args:
        document: the drawing.
        name: of its layer of elements: agent, element and presentation, ``Z-GRAVE-E-``.
        presentation: which of its layers.
        words: what is on it.
        pen: what is on it is drawn with it unless it says otherwise.
    """
    code, more = presentation.value
    full = name[:-2] + code
    if full not in document.layers:
        plain = pen if presentation is Presentation.ELEMENT else Pen(colour=pen.colour)
        attributes: dict[str, Any] = dressed(document, plain).attributes()
        added = document.layers.add(
            full,
            color=attributes["color"],
            true_color=attributes.get("true_color"),
            linetype=attributes["linetype"],
            lineweight=attributes["lineweight"],
        )
        added.description = f"{words}{more}"
    return full
