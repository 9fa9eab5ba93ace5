"""Corrections: what an entry of the register said before it was put right."""

from dataclasses import dataclass, field

from plan_editor.plan.detail import about
from plan_editor.plan.item import ItemId
from plan_editor.plan.kind import Form, Kind


@dataclass(frozen=True, slots=True, kw_only=True)
class CorrectionDetails:
    """What is recorded of a correction; the old reading stays to be read."""

    burial: ItemId | None = field(
        default=None, metadata=about("Entry", refers_to=("burial",), schedule=True)
    )
    column: str = field(default="", metadata=about("Column", schedule=True))
    was: str = field(default="", metadata=about("Old reading", schedule=True))
    now: str = field(default="", metadata=about("New reading", schedule=True))
    date: str = field(default="", metadata=about("Corrected on", date=True, schedule=True))
    by: str = field(default="", metadata=about("Corrected by"))
    why: str = field(default="", metadata=about("Why", long=True))


KIND = Kind(
    name="correction",
    title="Correction",
    plural="Corrections",
    forms=(Form.NONE,),
    details=CorrectionDetails,
    element="CORREC",
    help="An entry that was put right. The old reading stays, as in the book itself.",
    label="column",
    since="date",
)
