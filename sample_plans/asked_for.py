"""What families have asked for: burials and memorials, as they stand on the story's day."""

from typing import Any

from graves import spaces
from story import id_of, made

from plan_editor.kinds import application, grave, request
from plan_editor.kinds.application import ApplicationDetails, AskedFor, Decision, Shape
from plan_editor.kinds.grave import State
from plan_editor.kinds.request import Asked, Progress, RequestDetails, Right
from plan_editor.plan.item import Item


def requests() -> tuple[Item[Any], ...]:
    """Return the burials that are asked for: one agreed, one of which much is still lacking."""
    return (
        made(
            request.KIND,
            "agreed",
            details=RequestDetails(
                surname="Rainbird",
                forenames="Winifred",
                asked="2026-05-11",
                progress=Progress.AGREED,
                right=Right.PARISHIONER,
                abode="Church Lane",
                died="2026-05-08",
                age="88",
                length_mm=1930.0,
                width_mm=590.0,
                height_mm=400.0,
                coffins=2,
                wished="2026-05-22",
                hour="11.30",
                grave=id_of(grave.KIND, "Z 3"),
            ),
        ),
        made(
            request.KIND,
            "asked",
            details=RequestDetails(
                surname="Fossdyke",
                forenames="Kenneth",
                asked="2026-05-12",
                sort=Asked.ASHES,
                died="2026-05-02",
                age="91",
            ),
        ),
    )


def applications() -> tuple[Item[Any], ...]:
    """Return the memorials that are asked for: one within the usual sizes, one with a kerb."""
    newest = [s for s in spaces() if s.state is State.OCCUPIED and s.row.letter == "Y"][-2:]
    return (
        made(
            application.KIND,
            newest[0].number,
            details=ApplicationDetails(
                grave=id_of(grave.KIND, newest[0].number),
                asked_for=AskedFor.NEW,
                received="2026-05-06",
                form=Shape.HEADSTONE,
                base_width_mm=760.0,
                base_depth_mm=250.0,
                lettering="Incised, left as cut",
                height_mm=920.0,
                width_mm=610.0,
                thickness_mm=100.0,
                material="Welsh slate",
                inscription="In loving memory",
                decision=Decision.WAITING,
            ),
        ),
        made(
            application.KIND,
            newest[1].number,
            details=ApplicationDetails(
                grave=id_of(grave.KIND, newest[1].number),
                asked_for=AskedFor.NEW,
                received="2026-05-12",
                form=Shape.HEADSTONE,
                base_width_mm=910.0,
                base_depth_mm=300.0,
                kerbs=True,
                lettering="Gilded",
                height_mm=1380.0,
                width_mm=760.0,
                thickness_mm=75.0,
                material="polished black granite",
                inscription="Gone fishing",
                decision=Decision.WAITING,
            ),
        ),
    )
