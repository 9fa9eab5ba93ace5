"""Owner contacts: the living people who answer for a stone or a space. Private."""

from dataclasses import dataclass, field

from plan_editor.plan.detail import BURIAL_PLACES, about
from plan_editor.plan.item import ItemId
from plan_editor.plan.kind import Form, Kind


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnerContactDetails:
    """What is recorded of somebody who answers for a stone; kept out of prints and exports."""

    name: str = field(default="", metadata=about("Name", private=True))
    relation: str = field(
        default="",
        metadata=about("Relation", private=True, help="Such as daughter, or heir-at-law."),
    )
    address: str = field(default="", metadata=about("Address", long=True, private=True))
    telephone: str = field(default="", metadata=about("Telephone", private=True))
    email: str = field(default="", metadata=about("E-mail", private=True))
    memorial: ItemId | None = field(
        default=None,
        metadata=about("Answers for memorial", refers_to=("memorial",), private=True),
    )
    grave: ItemId | None = field(
        default=None,
        metadata=about("Answers for grave", refers_to=BURIAL_PLACES, private=True),
    )
    written: str = field(default="", metadata=about("Last written to", date=True, private=True))
    answered: str = field(default="", metadata=about("Last answered", date=True, private=True))
    agreed: str = field(
        default="",
        metadata=about(
            "May be kept since",
            date=True,
            private=True,
            help="The day on which they were told what is kept of them, and why.",
        ),
    )
    remarks: str = field(default="", metadata=about("Remarks", long=True, private=True))


KIND = Kind(
    name="owner_contact",
    title="Owner",
    plural="Owners",
    forms=(Form.NONE,),
    details=OwnerContactDetails,
    element="OWNER",
    help="Somebody living who answers for a stone. Kept out of prints unless asked for.",
    label="name",
)
