"""Wordings: the parish's own words for letters and notices."""

from dataclasses import dataclass, field

from plan_editor.plan.detail import about
from plan_editor.plan.kind import Form, Kind


@dataclass(frozen=True, slots=True, kw_only=True)
class WordingDetails:
    """What is recorded of a wording; it takes the place of the shipped one of that name."""

    name: str = field(
        default="",
        metadata=about(
            "For what",
            help="Notice on a stone, notice in public, or letter to a family.",
            schedule=True,
        ),
    )
    words: str = field(
        default="",
        metadata=about(
            "Words",
            long=True,
            help="The first paragraph is the heading. Filled in are {stone} {date} {until}"
            " {days} {parish} {diocese} {contact} {name} {found}.",
        ),
    )
    source: str = field(default="", metadata=about("Whose words", schedule=True))


KIND = Kind(
    name="wording",
    title="Wording",
    plural="Wordings",
    forms=(Form.NONE,),
    details=WordingDetails,
    element="WORDNG",
    help="The parish's own words for a letter or a notice.",
    label="name",
)
