"""Tracing graves as a user would: a few by three clicks, the rest as the scan proposes."""

import time
from collections.abc import Callable, Iterable, Sequence
from typing import Any

import numpy as np
from counted_hand import CountedHand
from graves import Space
from old_paper import OldPaper
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication
from shapely import Polygon, STRtree

from plan_editor.desktop.window import PlanWindow
from plan_editor.drafting.proposed import Course
from plan_editor.drafting.tools.proposals import Through
from plan_editor.geometry.mappings import Mapping
from plan_editor.geometry.outlines import Rectangle
from plan_editor.ground.base_plans import laid
from plan_editor.ground.proposals import Proposal

SCALE = 60.0
"""Pixels on the screen to a metre while graves are traced: a pixel of the scan is 2.5 wide."""

OFF_PX = 5.0
"""A corner so far from where it is drawn, in pixels of the scan, is seen to be off: 0.2 m."""

SAME_GRAVE = 0.3
"""Share of their common ground by which a proposal is seen to mean a drawn grave."""

DRAWN_AT_MOST = 4
"""So often a proposal's corners are set right at most."""

INK_PX = 3.0
"""So far about a corner the ink is looked for."""

PATIENCE_S = 240.0

Numbers = dict[Proposal, Space | None]


class GraveTracer:
    """Traces the graves of the old plan, looking at the scan alone."""

    def __init__(self, window: PlanWindow, paper: OldPaper, graves: Iterable[Space]) -> None:
        body = window.body
        assert body is not None
        self.window = window
        self.session = window.session
        self.body = body
        self.hand = CountedHand(body.ground.canvas)
        self.paper = paper
        self.graves = tuple(graves)
        self.drawn = {s.number: paper.corners(s.rectangle) for s in self.graves}
        self.mapping: Mapping = laid(self.session.document.plan)[-1].mapping
        self.done: set[str] = set()
        self.told: list[str] = []

    @property
    def panel(self) -> Any:
        """The panel of the job."""
        return self.body.side.panels["trace"]

    def ground(self, at: Sequence[float]) -> tuple[float, float]:
        """Return where a pixel of the scan lies in the window."""
        east, north = self.mapping.to_ground(np.array([at], dtype=np.float64))[0].tolist()
        return east, north

    def choose_to_draw(self, title: str) -> None:
        """Choose what to draw, by the list in the panel."""
        if self.panel.opened != ("drawing",):
            self.hand.push(self.panel.folds["drawing"].title)
        listed = self.panel.sections["drawing"].kinds
        item = listed.findItems(title, Qt.MatchFlag.MatchExactly)[0]
        listed.scrollToItem(item)
        self.hand.push(listed.viewport(), listed.visualItemRect(item).center())

    def one_by_one(self, graves: Iterable[Space]) -> None:
        """Draw graves by three clicks each, a long side first, and write down their numbers."""
        self.choose_to_draw("Grave")
        self.hand.press(Qt.Key.Key_L)
        for space in graves:
            head, _, foot_across, foot = self.drawn[space.number]
            for corner in (head, foot, foot_across):
                self.click(corner)
            field = self.body.side.card.rows["number"].editor
            self.hand.push(field)
            self.hand.write(field, space.number)
            self.done.add(space.number)

    def click(self, pixel: Sequence[float], within: float = INK_PX) -> None:
        """Click the ink at a pixel of the scan, as well as a hand can."""
        at = self.ground(self.paper.clicked((pixel[0], pixel[1]), within))
        self.hand.look(*at, SCALE)
        self.hand.click(*at)

    # proposals

    def look_for_graves(self) -> None:
        """Let the window look for graves in the scan, and begin to go through them."""
        self.hand.press(Qt.Key.Key_Escape)
        self.hand.push(self.panel.folds["proposals"].title)
        section = self.panel.sections["proposals"]
        self.hand.push(section.look)
        wait_until(lambda: section.go.isEnabled())
        self.told.append(section.said.text())
        self.hand.push(section.go)

    def go_through(self) -> None:
        """Go through what was found, until nothing is left."""
        meant = self._meant(self.session.proposals)
        while self.course.at is not None:
            self._one_step(meant)
        self.hand.press(Qt.Key.Key_Escape)

    @property
    def course(self) -> Course:
        """What the window shows: which is in hand, which stand in its row, its number."""
        tool = self.session.answer.tool
        assert isinstance(tool, Through)
        return tool.course

    def _one_step(self, meant: Numbers) -> None:
        row = self.course.its_row()
        false = next((p for p in row if meant[p] is None), None)
        if false is not None:
            self._take_in_hand(false)
            self.hand.press(Qt.Key.Key_L)
            return
        self._take_in_hand(row[0])
        space = meant[row[0]]
        assert space is not None
        self._set_right(space)
        self._number(space)
        if self._goes_on(row, meant):
            self.hand.press(Qt.Key.Key_O)
            self.done |= {s.number for s in map(meant.get, row) if s is not None}
        else:
            self.hand.press(Qt.Key.Key_A)
            self.done.add(space.number)

    def _take_in_hand(self, proposal: Proposal) -> None:
        if self.course.at != proposal:
            middle = proposal.rectangle.centre
            self.hand.look(*middle, SCALE)
            self.hand.click(*middle)
        assert self.course.at == proposal, "another one was taken in hand"

    def _set_right(self, space: Space) -> None:
        """Draw the corners that are off to where they are inked, the worst first."""
        drawn = self.drawn[space.number]
        for _ in range(DRAWN_AT_MOST):
            shown = self.course.rectangle
            assert shown is not None
            off = self._off(shown, drawn)
            worst = int(off.argmax())
            if off[worst] <= OFF_PX:
                return
            there = self.ground(self.paper.clicked(tuple(drawn[worst]), INK_PX))
            self.hand.look(*there, SCALE)
            self.hand.drag(shown.corners()[worst], there)
            if not isinstance(self.session.answer.tool, Through):
                self.hand.click(*there)  # so short a way was taken for a click

    def _number(self, space: Space) -> None:
        if self.course.number == space.number:
            return
        field = self.body.ground.ways.blanks.fields["number"]
        self.hand.push(field)
        self.hand.write(field, space.number)

    def _goes_on(self, row: tuple[Proposal, ...], meant: Numbers) -> bool:
        """Return whether all of the row can be drawn as it is shown, numbered in turn."""
        step = self.course.step
        spaces = [meant[p] for p in row]
        first = spaces[0]
        assert first is not None
        counted = [f"{first.row.letter} {first.n + n * step}" for n in range(len(row))]
        numbered = counted == [s.number for s in spaces if s is not None]
        return len(row) > 1 and numbered and all(map(self._lies_well, row[1:], spaces[1:]))

    def _lies_well(self, proposal: Proposal, space: Space | None) -> bool:
        assert space is not None
        off = self._off(proposal.rectangle, self.drawn[space.number])
        return bool(off.max() <= OFF_PX)

    def _off(self, rectangle: Rectangle, drawn: Any) -> Any:
        return np.hypot(*(self.mapping.to_paper(np.array(rectangle.corners())) - drawn).T)

    def _meant(self, proposals: Sequence[Proposal]) -> Numbers:
        """Return which drawn grave each proposal means, as the eye sees at once; each once."""
        spaces = [s for s in self.graves if s.number not in self.done]
        drawn = [Polygon(self.drawn[s.number]) for s in spaces]
        tree = STRtree(drawn)
        meant: Numbers = dict.fromkeys(proposals)
        taken: set[int] = set()
        for proposal in sorted(proposals, key=lambda p: -p.score):
            mine = Polygon(self.mapping.to_paper(np.array(proposal.rectangle.corners())))
            shares = {
                int(n): mine.intersection(drawn[n]).area / mine.union(drawn[n]).area
                for n in tree.query(mine)
                if int(n) not in taken
            }
            best = max(shares, key=lambda n: shares[n], default=None)
            if best is not None and shares[best] > SAME_GRAVE:
                meant[proposal] = spaces[best]
                taken.add(best)
        return meant


def first_examples(graves: Sequence[Space]) -> list[Space]:
    """Return the graves to trace first: the first of some old rows, and two of a new one."""
    firsts = {s.row.letter: s for s in reversed(graves)}
    old = [s for s in firsts.values() if not s.row.lawn]
    spread = sorted(old, key=lambda s: s.rectangle.east)[:: max(1, len(old) // 4)][:4]
    lawn = [s for s in graves if s.row.lawn][:2]
    return [*spread, *lawn]


def wait_until(true: Callable[[], bool]) -> None:
    """Let the window work until something is true."""
    end = time.monotonic() + PATIENCE_S
    while not true():
        assert time.monotonic() < end, "it did not come about"
        QApplication.processEvents()
        time.sleep(0.005)
