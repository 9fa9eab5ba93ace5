"""Dimensions: a length that is written on the plan."""

from dataclasses import dataclass, field

from plan_editor.geometry.lengths import as_feet_and_inches, as_metres
from plan_editor.plan.detail import about
from plan_editor.plan.kind import Form, Kind
from plan_editor.plan.look import Look, Pen


@dataclass(frozen=True, slots=True, kw_only=True)
class DimensionDetails:
    """What is recorded of a dimension; its figure is always the length as drawn."""

    aside_m: float = field(
        default=0.0,
        metadata=about(
            "Set aside by",
            unit="m",
            low=-50.0,
            high=50.0,
            help="How far to the right of what is measured the figure is drawn.",
        ),
    )
    feet: bool = field(
        default=False, metadata=about("Feet and inches too", help="Beside the metres.")
    )
    words: str = field(
        default="", metadata=about("Words after the figure", help="Such as between kerbs.")
    )

    def figure(self, length_m: float) -> str:
        """Return what is written on a dimension of that length, in metres."""
        imperial = f"({as_feet_and_inches(length_m)})" if self.feet else ""
        return " ".join(filter(None, (as_metres(length_m), imperial, self.words)))


KIND = Kind(
    name="dimension",
    title="Dimension",
    plural="Dimensions",
    forms=(Form.LINE,),
    details=DimensionDetails,
    look=Look(pen=Pen(width=0.18, colour="#2F5D7C")),
    element="DIMENS",
    legend="Dimension, in metres",
    order=95,
    help="A length written on the plan, from one end to the other.",
    label="words",
    figure="figure",
    aside="aside_m",
)
