"""The View menu: which piece of the ground, which job, which colours."""

from collections.abc import Callable

from plan_editor.commands.command import Ask, Command, Menu, Part, View
from plan_editor.commands.kept_places import keep_place
from plan_editor.session import Session

Run = Callable[[Session, Ask], None]


def _showing(view: View) -> Run:
    def run(session: Session, ask: Ask) -> None:
        del session
        ask.view(view)

    return run


def _going(job: str) -> Run:
    def run(session: Session, ask: Ask) -> None:
        del session
        ask.go(job)

    return run


def _reaching(part: Part) -> Run:
    def run(session: Session, ask: Ask) -> None:
        del session
        ask.reach(part)

    return run


def _unfolding(section: str) -> Run:
    def run(session: Session, ask: Ask) -> None:
        del session
        ask.unfold(section)

    return run


def _dressing(colours: str) -> Run:
    def run(session: Session, ask: Ask) -> None:
        del session
        ask.dress(colours)

    return run


def _is_open(session: Session) -> bool:
    return session.is_open


def _may_edit(session: Session) -> bool:
    return session.may_edit


def _something_chosen(session: Session) -> bool:
    return bool(session.chosen)


_JOBS = ("survey", "trace", "records", "safety", "space", "sheets")

MENU = Menu(
    title="View",
    order=30,
    commands=(
        Command(
            name="whole",
            title="The whole ground",
            keys="Ctrl+0",
            icon="whole",
            run=_showing(View.WHOLE),
            enabled=_is_open,
        ),
        Command(
            name="view_chosen",
            title="What is chosen",
            keys="Ctrl+9",
            run=_showing(View.CHOSEN),
            enabled=_something_chosen,
        ),
        Command(
            name="nearer",
            title="Nearer",
            keys="Ctrl++",
            run=_showing(View.NEARER),
            enabled=_is_open,
        ),
        Command(
            name="key_plan",
            title="Key plan, or none",
            run=_showing(View.KEY_PLAN),
            enabled=_is_open,
        ),
        Command(
            name="farther",
            title="Farther",
            keys="Ctrl+-",
            run=_showing(View.FARTHER),
            enabled=_is_open,
        ),
        None,
        *(
            Command(
                name=f"job_{job}",
                title=job.capitalize(),
                keys=f"Alt+{number}",
                icon=job,
                run=_going(job),
                enabled=_is_open,
            )
            for number, job in enumerate(_JOBS, 1)
        ),
        None,
        *(
            Command(
                name=f"to_{part.value}",
                title=f"Keys to the {part.value}",
                keys=keys,
                run=_reaching(part),
                enabled=_is_open,
            )
            for part, keys in ((Part.GROUND, "F6"), (Part.CARD, "F7"), (Part.PANEL, "F8"))
        ),
        None,
        Command(
            name="keep_place",
            title="Keep what is seen as a place",
            keys="Ctrl+B",
            run=keep_place,
            enabled=_may_edit,
        ),
        Command(
            name="shown",
            title="What is shown…",
            keys="F9",
            run=_reaching(Part.SHOWN),
            enabled=_is_open,
        ),
        None,
        Command(
            name="plan_as_known",
            title="The plan as it knew on another day…",
            run=_unfolding("another_day"),
            enabled=_is_open,
        ),
        Command(
            name="ground_as_it_was",
            title="The ground as it was on another day…",
            run=_unfolding("another_day"),
            enabled=_is_open,
        ),
        Command(
            name="compare",
            title="Compare with another plan…",
            run=_unfolding("compared"),
            enabled=_is_open,
        ),
        None,
        Command(name="light", title="Light colours", run=_dressing("light")),
        Command(name="dark", title="Dark colours", run=_dressing("dark")),
        Command(name="contrast", title="High contrast", run=_dressing("contrast")),
        Command(name="system", title="Colours of the system", run=_dressing("system")),
    ),
)
