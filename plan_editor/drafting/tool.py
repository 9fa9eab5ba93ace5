"""Pointer in, answer out: what a tool is, and the list of tools."""

from collections.abc import Callable
from dataclasses import dataclass, field
from enum import Enum
from typing import Protocol

from shapely.geometry.base import BaseGeometry

from plan_editor.declared import declared
from plan_editor.ground.proposals import Proposal
from plan_editor.plan.edit import Edit
from plan_editor.plan.item import Basis, ItemId
from plan_editor.plan.kind import Form, Kind
from plan_editor.plan.plan import Plan


class Act(Enum):
    """What was done with the pointer, or by key."""

    PRESS = "press"
    MOVE = "move"
    RELEASE = "release"
    FINISH = "finish"
    CANCEL = "cancel"
    BACK = "back"
    TAKE = "take an offer"
    FILL = "fill in the blanks"


@dataclass(frozen=True, slots=True, kw_only=True)
class Pointer:
    """Where on the ground, and what was done. The place is already snapped.

    Args:
        east, north: metres about the plan's origin.
        hits: what lies under it, the top one first.
        add: the key that adds to what is chosen is held.
        reach: metres on the ground that a finger's breadth on the screen stands for.
        typed: a place was typed, not pointed at: it is exact.
        chosen: what is chosen in the session at that moment.
        shown: names of the kinds that can be seen; None for all.
        straight: the key is held that keeps to right angles (Alt).
        offer: the name of the offer that is taken up, for ``Act.TAKE``.
        filled: the names of blanks, each with what was typed, for ``Act.FILL``.
        basis: how the place is known, where it was measured; None where it was pointed at.
    """

    act: Act
    east: float = 0.0
    north: float = 0.0
    hits: tuple[ItemId, ...] = ()
    add: bool = False
    reach: float = 0.5
    typed: bool = False
    chosen: tuple[ItemId, ...] = ()
    shown: frozenset[str] | None = None
    straight: bool = False
    offer: str = ""
    filled: tuple[tuple[str, str], ...] = ()
    basis: Basis | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """Something else that can be done in the state in which a tool is, by a key or a button.

    Args:
        name: what the pointer says when it is taken up.
        title: on its button, with the key beside it.
        key: one letter, digit or name of a key as Qt writes it; it goes before the keys of
            the menus while the offer stands. Empty for a button alone.
        on: whether it is in force now: its button is down.
        possible: whether it can be taken up now.
    """

    name: str
    title: str
    key: str = ""
    on: bool = False
    possible: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Blank:
    """Something that may be typed in the state in which a tool is, beside length and bearing.

    Args:
        name: what the pointer says when it is filled in.
        title: before its field.
        text: what stands in it to begin with.
        example: shown in the empty field.
        choices: texts of which one is taken; empty where anything may be typed.
    """

    name: str
    title: str
    text: str = ""
    example: str = ""
    choices: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Chosen:
    """What the session is to choose: these, or all that lies in a box.

    Args:
        box: least east and north, greatest east and north, in metres.
        add: to what is chosen already.
    """

    ids: tuple[ItemId, ...] = ()
    box: tuple[float, float, float, float] | None = None
    add: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting:
    """What a tool starts from.

    Args:
        chosen: what is chosen in the session.
        kind: what is drawn, for a tool that draws.
        form: its shape, where the kind has more than one; None for the usual one.
        plan: what is there, for a tool that starts from what is usual on it.
        proposals: what was found in a scan and is to be gone through.
        left_out: those of them that are not to come.
    """

    chosen: tuple[ItemId, ...] = ()
    kind: Kind | None = None
    form: Form | None = None
    plan: Plan = field(default_factory=Plan)
    proposals: tuple[Proposal, ...] = ()
    left_out: frozenset[Proposal] = frozenset()


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """What follows: the next state, a prompt, a preview, and perhaps one edit.

    Args:
        tool: the next state.
        prompt: what the next click does.
        preview: shapes in metres, drawn over the plan. A point is a handle: a corner that can
            be taken hold of; several points in one shape are places where there could be one.
        lightly: further shapes, drawn in thin dashes.
        look_at: least east and north, greatest east and north of what should be in sight; the
            view moves there once, where it is not.
        left_out: the proposals that are not to come; None where nothing was said of any.
        figures: lengths and areas that go with it, for the card.
        edit: to be made now.
        chosen: to be chosen now.
        origin: where a typed length and bearing are measured from; None where nothing can be
            typed.
        toward: the way that a typed length goes where no bearing is typed with it; None for
            that to the pointer.
        offers: what else can be done now.
        blanks: what else can be typed now; Enter in any of them hands over all.
    """

    tool: "Tool"
    prompt: str = ""
    preview: tuple[BaseGeometry, ...] = ()
    lightly: tuple[BaseGeometry, ...] = ()
    look_at: tuple[float, float, float, float] | None = None
    left_out: frozenset[Proposal] | None = None
    figures: tuple[str, ...] = ()
    edit: Edit | None = None
    chosen: Chosen | None = None
    origin: tuple[float, float] | None = None
    toward: tuple[float, float] | None = None
    offers: tuple[Offer, ...] = ()
    blanks: tuple[Blank, ...] = ()


class Tool(Protocol):
    """A frozen state. Cancel works in every one and leaves nothing behind."""

    def take(self, pointer: Pointer, plan: Plan) -> Answer:
        """Return what follows from the pointer. The plan is only looked at."""
        ...


@dataclass(frozen=True, slots=True, kw_only=True)
class ToolButton:
    """What a tool declares.

    Args:
        name: for keys and the command finder.
        title: on its button.
        icon: name of a drawing in ``resources/icons``.
        key: a single letter.
        order: on the tool bar.
        jobs: the jobs that bring it, by name.
        start: its first answer.
        draws: whether it wants a kind to draw.
        edits: whether the plan is changed by it; such a tool is off where it is only read.
    """

    name: str
    title: str
    icon: str
    key: str = ""
    order: int = 50
    jobs: frozenset[str] = field(default_factory=frozenset)
    start: Callable[[Setting], Answer]
    draws: bool = False
    edits: bool = True


def tools() -> tuple[ToolButton, ...]:
    """Return every tool there is, in the order of the tool bar."""
    found = declared("plan_editor.drafting.tools", "TOOL", ToolButton)
    return tuple(sorted(found, key=lambda t: t.order))
