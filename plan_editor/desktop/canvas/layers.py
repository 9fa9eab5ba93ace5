"""Everything that is painted on the ground, from the base plans up to what is in hand."""

from collections.abc import Iterable, Iterator, Sequence

from PySide6.QtWidgets import QGraphicsItem, QGraphicsScene

from plan_editor.desktop.canvas.base_plan_item import DrawingItem, ScanItem, Under
from plan_editor.desktop.canvas.kind_item import KindItem
from plan_editor.desktop.canvas.labels import Labels
from plan_editor.desktop.canvas.labels_item import LabelsItem
from plan_editor.desktop.canvas.pointing import Axis, Beneath
from plan_editor.desktop.canvas.preview import Preview
from plan_editor.desktop.canvas.sight import Sight
from plan_editor.desktop.canvas.sketch_item import SketchItem
from plan_editor.desktop.canvas.sketch_patches import SketchPatches
from plan_editor.desktop.canvas.zones_item import Shown, ZonesItem
from plan_editor.drawing.backdrop import LineWork
from plan_editor.drawing.showing import Showing
from plan_editor.drawing.sketch import Sketch
from plan_editor.geometry.nearby import Box
from plan_editor.plan.change import Change
from plan_editor.plan.item import ItemId
from plan_editor.plan.kind import kinds
from plan_editor.plan.plan import Plan


class Layers:
    """One item to paint for each kind, and those above and below them."""

    def __init__(self, scene: QGraphicsScene, sight: Sight) -> None:
        self._scene = scene
        self._sight = sight
        self._kinds = {k.name: KindItem(k, sight) for k in kinds() if k.drawn}
        self._by_wish = sorted(self._kinds.values(), key=lambda i: -i.kind.order)
        self._under: tuple[ScanItem | DrawingItem, ...] = ()
        self.preview = Preview(sight)
        self.zones = ZonesItem(sight)
        self._patches = SketchPatches(sight)
        self._sketch = SketchItem(sight)
        # kept here too: the scene does not keep what is made in Python
        self._tops: tuple[QGraphicsItem, ...] = (
            *self._kinds.values(),
            self.zones,
            LabelsItem(self._labels, sight),
            self._patches,
            self._sketch,
            self.preview,
        )
        for item in self._tops:
            scene.addItem(item)

    @property
    def shown(self) -> frozenset[str]:
        """The names of the kinds that are shown."""
        return frozenset(n for n, item in self._kinds.items() if item.isVisible())

    def take_in(self, plan: Plan) -> None:
        """Take in a plan that has just been opened."""
        for item in self._kinds.values():
            item.take_in(plan.of(item.kind))

    def follow(self, changes: Sequence[Change]) -> list[Box]:
        """Take in changes; return the boxes in metres that must be painted again."""
        by_kind: dict[str, list[Change]] = {}
        for change in changes:
            item = change.after or change.before
            if item is not None and item.kind.name in self._kinds:
                by_kind.setdefault(item.kind.name, []).append(change)
        return [box for name, mine in by_kind.items() for box in self._kinds[name].follow(mine)]

    def choose(self, ids: Iterable[ItemId]) -> list[Box]:
        """Paint these as chosen; return the boxes in metres that must be painted again."""
        before, self._sight.chosen = self._sight.chosen, frozenset(ids)
        for item in self._kinds.values():
            item.choose()
        # what is chosen still looks as it did
        there = map(self._sight.plan.items.get, before ^ self._sight.chosen)
        found = (
            self._kinds[i.kind.name].box(i) for i in there if i is not None and i.kind.drawn
        )
        return [box for box in found if box is not None]

    def show_kinds(self, names: frozenset[str] | None) -> None:
        """Show the kinds of these names only; all of them for None."""
        for name, item in self._kinds.items():
            item.setVisible(names is None or name in names)

    def show(self, showing: Showing) -> None:
        """Show of the plan what is told and nothing else."""
        self._sight.showing = showing
        for item in self._kinds.values():
            item.look_anew()

    def set_backdrops(self, unders: Iterable[Under]) -> None:
        """Lay these base plans under the ground, the first the lowest, in place of the last."""
        for item in self._under:
            self._scene.removeItem(item)
        self._under = tuple(self._laid(u) for u in unders if u.laid.shown)
        self._sight.over_base_plan = bool(self._under)
        for place, item in enumerate(self._under):
            item.setZValue(place - 1_000.0)
            self._scene.addItem(item)

    def set_zones(self, zones: Iterable[Shown]) -> None:
        """Show these computed zones in place of the last."""
        self.zones.show_zones(tuple(zones))

    def set_sketch(self, sketch: Sketch) -> None:
        """Show a sketch in place of the last."""
        self._patches.show_patches(sketch.patches)
        self._sketch.show_sketch(sketch)

    def beneath(self, place: tuple[float, float], reach: float, *, inked: bool) -> Beneath:
        """Return what base plans show near a place, all in metres.

        Args:
            place: east and north.
            reach: how near.
            inked: whether to look for lines on scans, too: the topmost scan first.
        """
        drawn = [
            line
            for i in self._under
            if isinstance(i, DrawingItem)
            for line in i.near(*place, reach)
        ]
        scans = (i for i in reversed(self._under) if isinstance(i, ScanItem) and inked)
        axes = [
            Axis(line=line, on="on", name=f"an inked line of {scan.called}")
            for scan in scans
            for line in scan.strokes_near(*place, reach)
        ]
        return Beneath(drawn=drawn, inked=axes)

    def label_reach(self) -> float:
        """Return how far from an edit labels may come and go, in logical pixels."""
        return 2 * max(item.label_px() for item in self._kinds.values())

    def _labels(self) -> Iterator[Labels]:
        for item in self._by_wish:
            yield from item.labels()

    def _laid(self, under: Under) -> ScanItem | DrawingItem:
        if isinstance(under.content, LineWork):
            return DrawingItem(under, under.content, self._sight)
        return ScanItem(under, under.content, self._sight)
