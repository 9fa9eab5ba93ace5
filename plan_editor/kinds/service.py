"""Buried services: cables and pipes."""

from dataclasses import dataclass, field
from enum import StrEnum

from plan_editor.plan.detail import about
from plan_editor.plan.kind import Blocks, Form, Kind, LookWhen
from plan_editor.plan.look import Along, Look, Mark, Pen


class ServiceSort(StrEnum):
    """What it carries."""

    UNKNOWN = "unknown"
    ELECTRICITY = "electricity"
    GAS = "gas"
    WATER = "water"
    SEWER = "sewer"
    TELEPHONE = "telephone"


class FoundBy(StrEnum):
    """How its line is known."""

    SAID = "hearsay"
    RECORDS = "the owner's records"
    LOCATOR = "a locator"
    SEEN = "seen when dug"


@dataclass(frozen=True, slots=True, kw_only=True)
class ServiceDetails:
    """What is recorded of a buried service."""

    sort: ServiceSort = field(
        default=ServiceSort.UNKNOWN, metadata=about("Carries", schedule=True)
    )
    found_by: FoundBy = field(
        default=FoundBy.SAID,
        metadata=about(
            "Known from",
            help="A line on a plan is no proof: have services located before anybody digs.",
            schedule=True,
        ),
    )
    depth_m: float | None = field(
        default=None,
        metadata=about("Depth of its top", unit="m", low=0.0, high=10.0, schedule=True),
    )
    owner: str = field(default="", metadata=about("Belongs to", schedule=True))
    live: bool = field(
        default=True, metadata=about("In use", help="Take it to be in use unless proved dead.")
    )
    remarks: str = field(default="", metadata=about("Remarks", long=True))


def _lettered(letters: str) -> Look:
    return Look(
        pen=Pen(width=0.25, colour="#9A3B22"),
        along=Along(mark=Mark.LETTERS, every=25.0, size=2.0, text=letters),
        symbol="service",
    )


def _carrying(sort: ServiceSort, letters: str, legend: str) -> LookWhen:
    return LookWhen(detail="sort", value=sort, look=_lettered(letters), legend=legend)


KIND = Kind(
    name="service",
    title="Buried service",
    plural="Buried services",
    forms=(Form.LINE, Form.POINT),
    details=ServiceDetails,
    look=_lettered("?"),
    looks=(
        _carrying(ServiceSort.ELECTRICITY, "E", "Electricity cable"),
        _carrying(ServiceSort.GAS, "G", "Gas pipe"),
        _carrying(ServiceSort.WATER, "W", "Water pipe"),
        _carrying(ServiceSort.SEWER, "S", "Sewer"),
        _carrying(ServiceSort.TELEPHONE, "T", "Telephone cable"),
    ),
    element="SERVCE",
    legend="Buried service",
    order=28,
    help="A cable or pipe along its line; a manhole, valve or box as a point.",
    blocks=frozenset({Blocks.DIGGING}),
)
