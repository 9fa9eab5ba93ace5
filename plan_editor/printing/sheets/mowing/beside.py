"""What stands beside the mowing map: scale, key with areas, cautions."""

from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from typing import Any

from plan_editor.drawing.compose import Dress, as_declared, grouped
from plan_editor.drawing.dates import in_words
from plan_editor.drawing.key_panel import key_panel
from plan_editor.drawing.legend import Entry, entries
from plan_editor.drawing.page import Sizes
from plan_editor.drawing.panel import Panel, paragraphs
from plan_editor.drawing.zones import zone_entries
from plan_editor.ground.clearance import Zone
from plan_editor.ground.rules import Rule
from plan_editor.kinds import grass
from plan_editor.plan.item import Item
from plan_editor.printing.pale_map import quiet
from plan_editor.printing.sheets.mowing.samples import fresh_entry, rest_entry
from plan_editor.printing.sheets.mowing.told import Told
from plan_editor.printing.usual import acknowledgements, north_and_bar

Piece = Item[grass.GrassDetails]

_MOST = 8
"""So many things whose height is not recorded are named."""

_CAUTIONS = (
    "Keep out of the hatched zones, also on foot: what is unsafe may fall without warning. "
    "Only trained people test memorials.",
    "Machines throw stones: keep everybody else 15\u00a0m away (makers’ manuals), or stop.",
    "Trim by hand within 0.3\u00a0m of every stone; no string trimmer against stone or bark.",
    "A stone looks worse than this map says? Keep away and tell the churchwarden.",
)


_DEFER = (
    "The rules of the diocese, the council, the insurer and the machine’s maker go before "
    "this map."
)


def panels(
    told: Told, middle: tuple[float, float], scale: float, width: float, sizes: Sizes
) -> tuple[Panel, ...]:
    """Return what stands beside the map, in the order of reading; its middle is given."""
    cautions = (
        *_CAUTIONS,
        *_untold(told),
        *_by_rule(told),
        _DEFER,
        *acknowledgements(told.backdrops),
    )
    return (
        north_and_bar(told.plan, middle, scale, width, sizes),
        key_panel(_key(told), width, size=sizes.body, head=sizes.head),
        paragraphs("Mind", cautions, width, size=sizes.body, head=sizes.head),
    )


def _key(told: Told) -> tuple[Entry, ...]:
    fresh = (fresh_entry(),) if told.fresh else ()
    return (
        *_zones(told),
        *entries(grouped(told.barriers)),
        *fresh,
        *_grass(told.resting, _until),
        *_grass(told.other, lambda i: f"{_name(i)}: no date recorded, ask first"),
        *_grass(told.by_hand, lambda _: "Trim by hand only"),
        *_grass(told.mown, lambda i: _mown(i, told.date), quiet),
        *rest_entry(told.items),
    )


def _zones(told: Told) -> tuple[Entry, ...]:
    if not told.zones:
        return ()
    zone, stone = zone_entries()
    kinds = [k.item.kind.name for z in told.zones for k in z.kept_from]
    return (
        replace(
            zone,
            text=f"Keep out: round {_unsafe(kinds)}",
            figure=_square_metres(sum(z.area_m2 for z in told.zones)),
        ),
        replace(stone, text=_boxed(kinds)),
    )


def _boxed(kinds: list[str]) -> str:
    what = "Unsafe stone" if set(kinds) == {"memorial"} else "Unsafe"
    return f"{what}, its number in a box"


def _word(kind: str) -> str:
    return "stone" if kind == "memorial" else kind


def _unsafe(names: list[str]) -> str:
    """Return what is kept from: ``2 unsafe stones, an unsafe tree and an unsafe wall``."""
    counted = sorted(Counter(map(_word, names)).items())
    told = [f"an unsafe {w}" if n == 1 else f"{n} unsafe {w}s" for w, n in counted]
    return " and ".join(filter(None, (", ".join(told[:-1]), told[-1])))


def _grass(
    pieces: Iterable[Piece], words: Callable[[Piece], str], dress: Dress = as_declared
) -> tuple[Entry, ...]:
    """Return a line for each thing that is said of pieces of grass, with their whole area."""
    found: dict[str, list[Piece]] = {}
    for piece in pieces:
        found.setdefault(words(piece), []).append(piece)
    return tuple(
        replace(
            entries(grouped(some[:1]), dress)[0],
            text=text,
            figure=_square_metres(sum(i.shape.area for i in some if i.shape is not None)),
        )
        for text, some in found.items()
    )


def _square_metres(area: float) -> str:
    return f"{area:.0f}\u00a0m²"


def _name(item: Piece) -> str:
    when = grass.KIND.when(item.details)
    return item.details.name or (when.legend if when else grass.KIND.legend)


def _until(item: Piece) -> str:
    return f"{_name(item)}: uncut until {in_words(item.details.uncut_until)}"


def _mown(item: Piece, date: str) -> str:
    told = item.details
    if told.uncut_from > date:
        return f"{_name(item)}: mow; rests from {in_words(told.uncut_from)}"
    if told.uncut_until:
        return f"{_name(item)}: to be cut since {in_words(told.uncut_until)}"
    return "Mow short"


def _untold(told: Told) -> tuple[str, ...]:
    """Return of how many stones nothing is known."""
    if not told.untold:
        return ()
    return (
        f"{told.untold} of {told.stones} stones have no recorded inspection: no zone does not "
        "mean safe.",
    )


def _by_rule(told: Told) -> tuple[str, ...]:
    """Return on whose word the zones rest, and what was assumed."""
    rules = {z.rule.name: z.rule for z in told.zones}.values()
    short = [r for r in rules if r.local_rule and r.short]
    sources = (r.source for r in rules if r not in short)
    return (*sources, *_local(short), *_assumed(told.zones))


def _local(rules: Sequence[Rule]) -> tuple[str, ...]:
    """Return local rules in short; ``clearance`` and the safety map tell their sources."""
    if not rules:
        return ()
    alike: dict[str, list[str]] = {}
    for rule in rules:
        alike.setdefault(rule.short, []).append(_word(rule.applies_to))
    told = "; ".join(f"{' and '.join(names)} {short}" for short, names in alike.items())
    told = told.replace(" m", "\u00a0m")  # no line ends within a measure
    return (f"Zones by local rule, no distance is published: {told}.",)


def _assumed(zones: Iterable[Zone]) -> tuple[str, ...]:
    """Return whose height was not recorded, and as what it was taken."""
    taken: dict[float, list[str]] = {}
    for zone in zones:
        height = dict(zone.rule.assume).get("height_m", 0.0)
        taken.setdefault(height, []).extend(
            _name_of(k.item) for k in zone.kept_from if k.assumed
        )
    told = [f"{tall:g} m: {_few(names)}" for tall, names in taken.items() if names]
    return (f"Height not recorded, taken as {'; '.join(told)}.",) if told else ()


def _few(names: Sequence[str]) -> str:
    more = f" and {len(names) - _MOST} more" if len(names) > _MOST else ""
    return f"{', '.join(names[:_MOST])}{more}"


def _name_of(item: Item[Any]) -> str:
    # no line ends within a number
    name = item.number or ("no number" if item.kind.name == "memorial" else item.called())
    return name.replace(" ", "\u00a0")
