"""The ashes area south of the chancel, and the reservations and probes of the whole ground."""

from typing import Any

from graves import spaces
from story import AS_DUG, HEAD_LINE_DEG, TAPED, area, dice, id_of, made, numbered, place

from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import ashes_plot, grave, probe, reservation, zone
from plan_editor.kinds.ashes_plot import AshesPlotDetails, Laid, State
from plan_editor.kinds.grave import State as GraveState
from plan_editor.kinds.probe import Means, Met, ProbeDetails
from plan_editor.kinds.reservation import ReservationDetails, Stage
from plan_editor.kinds.zone import ZoneDetails, ZoneSort
from plan_editor.plan.item import Item

_COLUMNS, _ROWS = 6, 4
_SIDE_M, _PITCH_M = 0.6, 0.85
_CORNER = (6.6, -8.6)
_USED, _KEPT = 15, (18, 19)


def ashes() -> tuple[Item[Any], ...]:
    """Return the zone and its 24 plots, numbered row by row from the south-west."""
    plots = (_plot(n) for n in range(_COLUMNS * _ROWS))
    return (_zone(), *plots)


def reservations() -> tuple[Item[Any], ...]:
    """Return the reservations of the four spaces that are kept; nobody is named."""
    kept = [s for s in spaces() if s.state is GraveState.RESERVED]
    return tuple(
        made(
            reservation.KIND,
            space.number,
            details=ReservationDetails(
                grave=id_of(grave.KIND, space.number),
                stage=Stage.GRANTED,
                faculty=f"Harrowmere {year}/{n}",
                granted=f"{year}-0{n + 2}-14",
                expires=f"{year + 25}-0{n + 2}-14",
                papers="Parish chest, folder 7",
            ),
        )
        for n, (space, year) in enumerate(zip(kept, (2011, 2015, 2019, 2022), strict=True), 1)
    )


def probes() -> tuple[Item[Any], ...]:
    """Return what the rod met in the spaces that cannot be used and in the next ones."""
    told = {
        "Z 10": (Met.ROOTS, 0.4),
        "Z 18": (Met.WATER, 1.1),
        "Z 3": (Met.NOTHING, 1.8),
        "Z 4": (Met.NOTHING, 1.8),
    }
    return tuple(
        made(
            probe.KIND,
            number,
            details=ProbeDetails(
                grave=id_of(grave.KIND, number),
                date="2024-11-02",
                means=Means.ROD,
                met=met,
                depth_m=depth,
                spot="middle and both ends",
                prober="The sexton",
            ),
        )
        for number, (met, depth) in told.items()
    )


def _zone() -> Item[Any]:
    (along, aside), edge = _CORNER, 0.7
    east = along + (_COLUMNS - 1) * _PITCH_M + _SIDE_M + edge
    north = aside + (_ROWS - 1) * _PITCH_M + _SIDE_M + edge
    west, south = along - edge, aside - edge
    return made(
        zone.KIND,
        "ashes",
        area((west, south), (east, south), (east, north), (west, north)),
        details=ZoneDetails(
            sort=ZoneSort.ASHES,
            name="Ashes area",
            set_by="Faculty of 1998",
            since="1998-10",
        ),
        basis=TAPED,
    )


def _plot(n: int) -> Item[Any]:
    row, column = divmod(n, _COLUMNS)
    chance = dice(f"ashes {n}")
    east, north = place(
        _CORNER[0] + column * _PITCH_M + chance.uniform(-0.02, 0.02),
        _CORNER[1] + row * _PITCH_M + chance.uniform(-0.02, 0.02),
    )
    used = n < _USED
    state = State.OCCUPIED if used else State.RESERVED if n in _KEPT else State.FREE
    return numbered(
        str(n + 1),
        made(
            ashes_plot.KIND,
            str(n + 1),
            Rectangle(
                east=east, north=north, width=_SIDE_M, length=_SIDE_M, bearing_deg=HEAD_LINE_DEG
            ),
            details=AshesPlotDetails(
                state=state,
                interments=2,
                laid=chance.choice((Laid.LOOSE, Laid.CONTAINER)) if used else Laid.UNKNOWN,
                depth_m=0.6 if used else None,
                dug=str(1999 + n * 27 // _USED) if used else "",
            ),
            basis=AS_DUG if used else TAPED,
        ),
    )
