"""Photographs and papers that belong to a thing; their bytes are kept in the plan once."""

from dataclasses import dataclass, field
from enum import StrEnum

from plan_editor.plan.detail import EVERYTHING, about
from plan_editor.plan.item import ItemId
from plan_editor.plan.kind import Form, Kind


class Sort(StrEnum):
    """What it is."""

    PHOTOGRAPH = "photograph"
    LETTER = "letter"
    FACULTY = "faculty or consent"
    CERTIFICATE = "certificate"
    REPORT = "report"
    OTHER = "other paper"


@dataclass(frozen=True, slots=True, kw_only=True)
class PaperDetails:
    """What is recorded of a photograph or a paper."""

    target: ItemId | None = field(
        default=None, metadata=about("Of what", refers_to=EVERYTHING, schedule=True)
    )
    sort: Sort = field(default=Sort.PHOTOGRAPH, metadata=about("Sort", schedule=True))
    says: str = field(default="", metadata=about("What it shows or says", schedule=True))
    date: str = field(default="", metadata=about("Taken or dated", date=True, schedule=True))
    by: str = field(default="", metadata=about("By", private=True))
    personal: bool = field(
        default=False,
        metadata=about(
            "Concerns somebody living", help="Then it stays out of prints unless asked for."
        ),
    )
    place: tuple[float, ...] = field(
        default=(),
        metadata=about(
            "Taken at",
            unit="m",
            most=2,
            made=True,
            help="East and north in metres about the plan's origin, as the camera noted it.",
        ),
    )
    digest: str = field(default="", metadata=about("Digest of the file", made=True))
    content_type: str = field(default="", metadata=about("Sort of file", made=True))
    file: str = field(default="", metadata=about("Name of the file", made=True))


KIND = Kind(
    name="paper",
    title="Photograph or paper",
    plural="Photographs and papers",
    forms=(Form.NONE,),
    details=PaperDetails,
    element="PAPERS",
    help="A photograph, letter or certificate that belongs to a thing on the plan.",
    label="says",
    names_people=True,
    since="date",
)
