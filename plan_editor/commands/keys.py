"""Every key there is, by what it belongs to: for the page in Help and the printed sheet."""

from dataclasses import dataclass

from plan_editor.commands.command import Menu, menus

ON_THE_GROUND = (
    ("Esc", "Stop; a second time, put the tool down"),
    ("Enter, two clicks", "Finish a line or an area"),
    ("Backspace", "Take back the last corner"),
    ("Digits", "Give a length, then Tab and a bearing, then Enter"),
    ("Arrows, + and -", "Move the ground, nearer, farther"),
    ("Home", "The whole ground"),
    ("Space and drag", "Move the ground"),
    ("Shift+Arrows", "Move a pointer over the ground by keys"),
    ("Ctrl+Shift+Arrows", "The same, a pixel at a time and without snapping"),
    ("Space", "Click with that pointer"),
    ("Menu, right button", "What can be done at the pointer"),
    ("Ctrl held", "Do not snap"),
    ("Alt held", "Keep to right angles"),
    ("Shift held", "Add to what is chosen"),
)

BY_TOUCH = (
    ("One finger, pen", "Points as the mouse does"),
    ("Held still", "What can be done there"),
    ("Two fingers", "Move the ground, nearer, farther"),
    ("Other end of a pen", "Take back the last corner"),
)

AT_WORK = "While a tool is in hand, further keys of it stand on the buttons above the ground."


@dataclass(frozen=True, slots=True, kw_only=True)
class KeyGroup:
    """Keys that belong together: each with what it does."""

    title: str
    keys: tuple[tuple[str, str], ...]


def key_groups() -> tuple[KeyGroup, ...]:
    """Return every key of menus, among them the tools, and of the ground."""
    return (
        *(group for menu in menus() if (group := _of_menu(menu)).keys),
        KeyGroup(title="On the ground", keys=ON_THE_GROUND),
        KeyGroup(title="By touch and pen", keys=BY_TOUCH),
    )


def _of_menu(menu: Menu) -> KeyGroup:
    keyed = ((c.keys, c.title.rstrip("…")) for _, c in menu.all_commands() if c.keys)
    return KeyGroup(title=menu.title, keys=tuple(keyed))
