"""The ground as one section sees it: what it sketches is seen while it is open."""

from plan_editor.desktop.desk import Ground
from plan_editor.drawing.sketch import Sketch
from plan_editor.ground.base_plans import Laid
from plan_editor.ground.clearance import Zone
from plan_editor.plan.item import ItemId


class SectionGround:
    """Hands everything on, but keeps a sketch back until its section is open.

    So a section need not know whether it is seen: work that ends after it was closed sketches
    nothing over another's.
    """

    def __init__(self, ground: Ground) -> None:
        self._ground = ground
        self._sketch: Sketch | None = None
        self._open = False

    def show_sketch(self, sketch: Sketch | None) -> None:
        """Show a sketch, now or when the section is opened."""
        self._sketch = sketch
        if self._open:
            self._ground.show_sketch(sketch)

    def open(self) -> None:
        """Show what the section has sketched."""
        self._open = True
        self._ground.show_sketch(self._sketch)

    def close(self) -> None:
        """Show it no longer."""
        if self._open:
            self._open = False
            self._ground.show_sketch(None)

    def show_zones(self, zones: tuple[Zone, ...]) -> None:
        """Hand on."""
        self._ground.show_zones(zones)

    def show_unplaced(self, laid: Laid | None) -> None:
        """Hand on."""
        self._ground.show_unplaced(laid)

    def show_things(self, shown: bool) -> None:  # noqa: FBT001  # as Qt's own setters
        """Hand on."""
        self._ground.show_things(shown)

    def lying(self, item: ItemId) -> Laid | None:
        """Hand on."""
        return self._ground.lying(item)

    def look_at(self, box: tuple[float, float, float, float]) -> None:
        """Hand on."""
        self._ground.look_at(box)

    def in_view(self) -> tuple[float, float, float, float]:
        """Hand on."""
        return self._ground.in_view()
