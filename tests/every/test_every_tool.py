"""What holds for every tool: random pointers do no harm, cancel leaves nothing behind."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from strategies import one_of_each

from plan_editor.drafting.tool import Act, Answer, Pointer, Setting, ToolButton, tools
from plan_editor.errors import EditRefused
from plan_editor.geometry.outlines import Rectangle
from plan_editor.ground.base_plans import laid
from plan_editor.ground.proposals import Proposal
from plan_editor.plan.document import Document
from plan_editor.plan.kind import Form, kinds
from plan_editor.plan.plan import Plan, plan_of
from plan_editor.resources import resource
from plan_editor.session import Session

JOBS = {"survey", "trace", "records", "safety", "space", "sheets"}

PLAN = one_of_each()
IDS = tuple(PLAN.items)
PLACED = tuple(i.id for i in PLAN.items.values() if i.shape is not None)

metres = st.one_of(st.integers(-20, 20).map(float), st.floats(-200, 200))
pointers = st.builds(
    Pointer,
    act=st.sampled_from(Act),
    east=metres,
    north=metres,
    hits=st.lists(st.sampled_from(PLACED), max_size=3, unique=True).map(tuple),
    add=st.booleans(),
    reach=st.floats(0.01, 5.0),
    typed=st.booleans(),
    straight=st.booleans(),
    chosen=st.lists(st.sampled_from(IDS), max_size=2, unique=True).map(tuple),
)
BASE_PLANS = tuple(b.item for b in laid(PLAN))
proposals = st.builds(
    Proposal,
    rectangle=st.builds(
        Rectangle,
        east=st.integers(-20, 20).map(float),
        north=st.integers(-20, 20).map(float),
        width=st.floats(0.5, 2.0),
        length=st.floats(1.0, 3.0),
        bearing_deg=st.sampled_from([0.0, 3.0, 90.0]),
    ),
    score=st.floats(0.0, 1.0),
    base_plan=st.sampled_from(BASE_PLANS),
)
settings = st.builds(
    Setting,
    chosen=st.lists(st.sampled_from(IDS), max_size=2, unique=True).map(tuple),
    kind=st.one_of(st.none(), st.sampled_from([k for k in kinds() if k.drawn])),
    plan=st.sampled_from([PLAN, Plan()]),
    proposals=st.lists(proposals, max_size=4, unique=True).map(tuple),
    left_out=st.frozensets(proposals, max_size=2),
)


texts = st.sampled_from(["", "2.5", "9' 4½\"", "M1", "No. 5", "A 7", "3", "-1", "1e9", "north"])


@st.composite
def answering(draw: st.DrawFn, pointer: Pointer, answer: Answer) -> Pointer:
    """Return a pointer that takes up what is offered and fills in what is asked."""
    offers = [o.name for o in answer.offers if o.possible]
    filled = tuple(
        (b.name, draw(st.sampled_from(b.choices) if b.choices else texts))
        for b in answer.blanks
    )
    offer = draw(st.sampled_from(["", *offers, *offers]))
    return replace(pointer, offer=offer, filled=filled)


def forms_of(setting: Setting) -> st.SearchStrategy[Form | None]:
    forms = () if setting.kind is None else setting.kind.forms
    return st.sampled_from([None, *(f for f in forms if f is not Form.NONE)])


@pytest.mark.parametrize("button", tools(), ids=lambda b: b.name)
@given(drawn=st.data())
def test_random_pointers_do_no_harm_and_cancel_leaves_nothing(
    button: ToolButton, drawn: st.DataObject
) -> None:
    setting = drawn.draw(settings)
    setting = replace(setting, form=drawn.draw(forms_of(setting)))
    answer = button.start(setting)
    hash(answer.tool)  # a state can be kept and compared
    # now and then the plan is another one: somebody took something away
    plans = (PLAN, PLAN, plan_of(i for i in PLAN.items.values() if i.id not in PLACED[::2]))
    for bare in drawn.draw(st.lists(pointers, max_size=12)):
        pointer = drawn.draw(answering(bare, answer))
        plan = drawn.draw(st.sampled_from(plans))
        before = dict(plan.items)
        answer = answer.tool.take(pointer, plan)
        assert dict(plan.items) == before
        assert answer.prompt
        assert answer.tool.take(pointer, plan).tool == answer.tool.take(pointer, plan).tool
        if answer.edit is not None:
            _tried(answer)
        _cancelled(answer, button)


def _tried(answer: Answer) -> None:
    assert answer.edit is not None
    assert answer.edit.title
    try:
        Document(PLAN).apply(answer.edit)
    except EditRefused as refused:
        assert "othing was changed" in str(refused)  # noqa: PT017  # being refused is no failure


def _cancelled(answer: Answer, button: ToolButton) -> None:
    """Cancel, once or twice, brings back a state with nothing begun; it never edits."""
    cancel = Pointer(act=Act.CANCEL)
    first = answer.tool.take(cancel, PLAN)
    again = first.tool.take(cancel, PLAN)
    for after in (first, again):
        assert after.edit is None
        assert after.chosen is None
        assert after.origin is None
        assert after.preview == ()
        assert after.lightly == ()
    assert again.tool == first.tool, f"{button.name} is not at rest after two cancels"


@pytest.mark.parametrize("button", tools(), ids=lambda b: b.name)
def test_a_tool_can_be_found_and_taken_up(button: ToolButton) -> None:
    assert resource(f"icons/{button.icon}.svg").exists()
    assert button.title
    assert button.jobs
    assert button.jobs <= JOBS
    assert len(button.key) <= 1
    assert button.start(Setting()).prompt


def test_no_two_tools_share_a_name_or_a_key() -> None:
    names = [b.name for b in tools()]
    keys = [b.key for b in tools() if b.key]
    assert len(set(names)) == len(names)
    assert len(set(keys)) == len(keys)


@pytest.mark.parametrize("button", tools(), ids=lambda b: b.name)
def test_escape_puts_a_tool_down_when_nothing_is_begun(button: ToolButton) -> None:
    select = next(b for b in tools() if b.name == "select")
    session = Session(Document(PLAN), first=select)
    session.take_up(button)
    session.point(Pointer(act=Act.CANCEL))
    assert session.button is select
