"""What this user likes on this machine: colours, recent plans, how the window lies."""

import base64
import json
from collections.abc import Iterable
from dataclasses import asdict, dataclass, fields, replace
from pathlib import Path
from typing import Any

from platformdirs import user_config_path

from plan_editor.drawing.showing import Showing, showing_of

APPLICATION = "churchyard-plan-editor"

MOST_RECENT = 8
"""So many plans are remembered."""


MOST_LOCKS = 300
"""So many locked kinds are remembered, over all plans."""


MOST_COLUMNS = 50
"""Of so many sorts of table it is remembered what their columns hold."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Preferences:
    """What is remembered from one start to the next. All of it may be lost without harm.

    Args:
        colours: ``light``, ``dark``, ``contrast`` or ``system``.
        recent: plans that were opened, the latest first.
        folder: where the last file dialog was left.
        maker: who makes sheets, as the title block says it.
        geometry: how the window lay, as Qt packs it, in base 64.
        hidden: what is not shown in a job: its name, a colon, and a kind or state in words.
        sections: the section of each job that was opened last, by its name.
        locked: the kinds that are locked in plans: the name of a kind, a colon, and the plan.
        columns: what the columns of tables hold: their heads, a tab, and the names of what each
            holds, with strokes between; the latest first.
    """

    colours: str = "system"
    recent: tuple[str, ...] = ()
    folder: str = ""
    maker: str = ""
    geometry: str = ""
    hidden: tuple[str, ...] = ()
    sections: tuple[str, ...] = ()
    locked: tuple[str, ...] = ()
    columns: tuple[str, ...] = ()

    def having_opened(self, path: Path) -> "Preferences":
        """Return them with a plan as the latest."""
        latest = str(path.absolute())
        others = tuple(r for r in self.recent if r != latest)
        return replace(self, recent=(latest, *others)[:MOST_RECENT], folder=str(path.parent))

    def having_unfolded(self, section: str, among: Iterable[str]) -> "Preferences":
        """Return them with a section as the one that was opened last among those of its job."""
        others = tuple(s for s in self.sections if s not in set(among))
        return replace(self, sections=(section, *others))

    def showing(self, job: str) -> Showing | None:
        """Return what is shown in a job; None where nobody has said so yet."""
        mine = [w.removeprefix(f"{job}:") for w in self.hidden if w.startswith(f"{job}:")]
        return showing_of(word for word in mine if word) if mine else None

    def having_shown(self, job: str, showing: Showing) -> "Preferences":
        """Return them with what is to be shown in a job."""
        others = tuple(w for w in self.hidden if not w.startswith(f"{job}:"))
        return replace(self, hidden=(*others, *(f"{job}:{w}" for w in ("", *showing.words()))))

    def locked_in(self, plan: Path) -> tuple[str, ...]:
        """Return the names of the kinds that are locked in a plan."""
        end = f":{plan.absolute()}"
        return tuple(w.removesuffix(end) for w in self.locked if w.endswith(end))

    def having_locked(self, plan: Path, names: Iterable[str]) -> "Preferences":
        """Return them with the kinds that are locked in a plan; the latest plans are kept."""
        end = f":{plan.absolute()}"
        others = [w for w in self.locked if not w.endswith(end)]
        mine = [f"{name}{end}" for name in sorted(names)]
        return replace(self, locked=tuple((mine + others)[:MOST_LOCKS]))

    def columns_of(self, heads: str) -> tuple[str, ...]:
        """Return what the columns of a table with such heads hold; empty if nobody said."""
        start = f"{heads}\t"
        mine = (w.removeprefix(start) for w in self.columns if w.startswith(start))
        return tuple(next(mine, "").split("|"))

    def having_columns(self, heads: str, names: Iterable[str]) -> "Preferences":
        """Return them with what the columns of a table with such heads hold."""
        start = f"{heads}\t"
        others = [w for w in self.columns if not w.startswith(start)]
        mine = f"{start}{'|'.join(names)}"
        return replace(self, columns=tuple([mine, *others][:MOST_COLUMNS]))

    def packed(self, geometry: bytes) -> "Preferences":
        """Return them with how the window lies."""
        return replace(self, geometry=base64.b64encode(geometry).decode())

    def unpacked(self) -> bytes:
        """Return how the window lay; empty where that is not known."""
        return base64.b64decode(self.geometry)


def load() -> Preferences:
    """Return what is remembered; where it cannot be read, what a newcomer has."""
    try:
        kept = json.loads(_file().read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return Preferences()
    return Preferences(**_known(kept)) if isinstance(kept, dict) else Preferences()


def keep(preferences: Preferences) -> None:
    """Remember; where the folder cannot be written, nothing is remembered and nothing lost."""
    file = _file()
    beside = file.with_suffix(".tmp")
    try:
        file.parent.mkdir(parents=True, exist_ok=True)
        beside.write_text(json.dumps(asdict(preferences), indent=1), encoding="utf-8")
        beside.replace(file)
    except OSError:
        return


def _known(kept: dict[str, Any]) -> dict[str, Any]:
    found: dict[str, Any] = {}
    for field in fields(Preferences):
        value = kept.get(field.name)
        if isinstance(value, list):
            found[field.name] = tuple(str(v) for v in value)
        elif isinstance(value, str):
            found[field.name] = value
    return found


def _file() -> Path:
    return user_config_path(APPLICATION, appauthor=False) / "preferences.json"
