"""What stands on the stones: names and years, as far as the weather has left them."""

from graves import Space
from people import Person, by_grave
from story import dice

_READABLE_BEFORE_1900 = 0.55
"""Part of the old stones that can still be read."""


def inscription(space: Space) -> str:
    """Return what can be read on the stone of a grave; empty where nothing can."""
    chance = dice(f"inscription {space.number}")
    old = space.year < 1900
    there = by_grave().get(space.number, ())
    if not there or (old and chance.random() > _READABLE_BEFORE_1900):
        return ""
    first, *others = there
    words = [
        f"{'In memory of' if old else 'In loving memory of'} {first.forenames}"
        f" {first.surname}, who died {first.buried[:4]}, {_aged(first)}"
    ]
    words += [f"also of {p.forenames} {p.surname}, {p.buried[:4]}, {_aged(p)}" for p in others]
    return "; ".join(words) + "."


def _aged(person: Person) -> str:
    return "an infant" if person.age == 0 else f"aged {person.age}"
