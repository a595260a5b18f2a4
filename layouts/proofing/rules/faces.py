"""Rules about things on faces, pieces and panels: what overhangs, which borders are not true, what overlaps."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from fractions import Fraction
from itertools import islice
from typing import Any

from layouts.document import Element, Kit, Piece
from layouts.lengths import System
from layouts.proofing.findings import Finding, Rule
from layouts.proofing.measures import shortened, told, whole_ticks
from layouts.shapes.faces import (
    Lying,
    Overlap,
    Rim,
    Unsupported,
    WrongBorder,
    overhang,
    overlaps_in,
    seen_over_openings,
    uneven_borders,
    wrong_borders,
)

__all__ = [
    "BORDER_DIFFERS",
    "BORDER_UNEVEN",
    "BOTH_SIDES_USED",
    "PLACEMENTS_OVERLAP",
    "PLACEMENT_OVERHANGS",
    "RULES",
    "findings",
]

_WHOLE = {"type": "integer", "description": "ticks of 1/320 mm"}
_SIDES = ("left", "right", "top", "bottom")

PLACEMENT_OVERHANGS = Rule(
    "placement-overhangs",
    "stop",
    "What is placed reaches beyond its support, or lies over an opening with nothing below it.",
    {"beyond": {"enum": ["edge", "opening"]}, **dict.fromkeys((*_SIDES, "across", "up"), _WHOLE)},
)
BORDER_DIFFERS = Rule(
    "border-differs",
    "fix",
    "A border that is claimed is not the one that is left.",
    {
        "sides": {
            "type": "array",
            "items": {
                "type": "object",
                "properties": {
                    "side": {"enum": [*_SIDES, "across", "up"]},
                    "claimed": _WHOLE,
                    "true": _WHOLE,
                },
                "required": ["side", "claimed", "true"],
                "additionalProperties": False,
            },
        }
    },
)
BORDER_UNEVEN = Rule(
    "border-uneven",
    "note",
    "What looks like an even border is not even, around a thing or around an opening.",
    {"around": {"enum": ["thing", "opening"]}, **dict.fromkeys(_SIDES, _WHOLE)},
)
PLACEMENTS_OVERLAP = Rule(
    "placements-overlap",
    "fix",
    "Two placements of one layer lie over each other on the same support.",
    {"width": _WHOLE, "height": _WHOLE, "times": {"type": "integer"}},
)
BOTH_SIDES_USED = Rule(
    "both-sides-used",
    "note",
    "Both sides of a thing show where it hangs over, although only one side of it is planned.",
    {"planned": {"enum": ["front", "back", "either", "one"]}, "over": {"enum": ["edge", "opening"]}, "by": _WHOLE},
)
RULES = (PLACEMENT_OVERHANGS, BORDER_DIFFERS, BORDER_UNEVEN, PLACEMENTS_OVERLAP, BOTH_SIDES_USED)

# Places of a finding: copies of one placement that are wrong by the same numbers are told together.
_MOST_TOLD = 20
# Findings of one rule: where there are more, something is wrong with all of them, and these are enough to begin with.
_MOST_FINDINGS = 1_000


def findings(kit: Kit, lying: Sequence[Lying]) -> Iterator[Finding]:
    """Yield what is wrong with the placements of a kit; `lying` are all their copies.

    Of each rule the first thousand findings are told.
    """
    by_numbers = _Alike()
    for one in lying:
        _over_edges(one, kit.unit, by_numbers)
        _borders(one, kit, by_numbers)
    for seen in seen_over_openings(lying):
        if isinstance(seen, Unsupported):
            _over_opening(seen, kit.unit, by_numbers)
        else:
            _rim(seen, kit, by_numbers)
    yield from by_numbers.findings()
    yield from _overlaps(overlaps_in(lying), kit.unit)


class _Alike:
    """Findings of which several copies of a placement have the same: told once, with the places of all of them."""

    def __init__(self) -> None:
        self._found: dict[tuple[object, ...], tuple[Rule, list[str], str, dict[str, Any], str]] = {}
        self._told: Counter[str] = Counter()

    def add(self, rule: Rule, one: Lying, why: dict[str, Any], words: Callable[[], str], at: str = "") -> None:
        """Note a finding; `words` are asked for once, and `at` is the place of another thing that it is about."""
        key = (rule.name, one.project.id, one.placement.id, at, one.thing.width, repr(why))
        if key not in self._found:
            self._told[rule.name] += 1
            if self._told[rule.name] > _MOST_FINDINGS:
                return
            self._found[key] = rule, [], words(), why, at
        self._found[key][1].append(one.place)

    def findings(self) -> Iterator[Finding]:
        for rule, places, words, why, at in self._found.values():
            more = len(places) - 1
            also = "" if not more else " One copy more does so." if more == 1 else f" {more} copies more do so."
            yield rule.finding(*places[:_MOST_TOLD], *((at,) if at else ()), message=words + also, **why)


def _over_edges(one: Lying, unit: System, found: _Alike) -> None:
    more: dict[Any, Fraction] = {**overhang(one)}
    if not more:
        return
    if "overhang" in one.placement.intends:
        _both_sides(one, "edge", max(more.values()), unit, found)
        return

    def words() -> str:
        how = {"across": "it is wider by", "up": "it is higher by"}
        parts = [f"{how.get(side, f'{side} by')} {told(beyond, unit)}" for side, beyond in more.items()]
        return (
            f"{_words(one)} reaches beyond the edge: {', '.join(parts)}. "
            "Make it smaller, move it, or say that it is meant to overhang or to wrap."
        )

    why = {side: whole_ticks(more.get(side, 0)) for side in (*_SIDES, "across", "up")}
    found.add(PLACEMENT_OVERHANGS, one, {"beyond": "edge", **why}, words)


def _over_opening(over: Unsupported, unit: System, found: _Alike) -> None:
    one = over.lying
    if "overhang" in one.placement.intends:
        farthest = max(over.reach.values()) or min(over.over.width, over.over.height)
        _both_sides(one, "opening", farthest, unit, found)
        return

    def words() -> str:
        size = f"{told(over.over.width, unit)} × {told(over.over.height, unit)}"
        if one.placement.layer == "behind":
            what = f"lies with its {size} wholly within {shortened(over.opening.name)}: nothing holds it there"
        else:
            reach = [f"{told(by, unit)} from the {side}" for side, by in over.reach.items() if by > 0]
            opening = shortened(over.opening.name)
            how = f"covers {size} of {opening} with nothing below"
            if over.window is not None:
                how = f"stands out around its window {'over' if reach else 'into the corners of'} {opening}, {size}"
            what = ", ".join([how, *reach])
        return (
            f"{_words(one)} {what}. Give it a window as large as the opening, move it, or say that it is meant to "
            "overhang."
        )

    why = {"across": whole_ticks(over.over.width), "up": whole_ticks(over.over.height), **_ticks(over.reach)}
    found.add(PLACEMENT_OVERHANGS, one, {"beyond": "opening", **why}, words, over.opening.place)


def _borders(one: Lying, kit: Kit, found: _Alike) -> None:
    wrong = wrong_borders(one)
    if wrong:
        sides = [
            {"side": border.side, "claimed": whole_ticks(border.claimed), "true": whole_ticks(border.true)}
            for border in wrong
        ]
        found.add(BORDER_DIFFERS, one, {"sides": sides}, lambda: _wrong(one, wrong, kit.unit))
        return
    uneven = None if "uneven" in one.placement.intends else uneven_borders(one, _step(kit))
    if uneven is not None:
        found.add(
            BORDER_UNEVEN,
            one,
            {"around": "thing", **_ticks(uneven)},
            lambda: (
                f"The border that {_words(one)} leaves is not even: {_by_side(uneven, kit.unit)}. "
                "Correct the size or the position, or say that it is meant to be uneven."
            ),
        )


def _wrong(one: Lying, wrong: Sequence[WrongBorder], unit: System) -> str:
    together = {"across": "left and right together at most", "up": "top and bottom together at most"}
    parts = [
        f"{together.get(border.side, border.side)} {told(border.true, unit)}, not {told(border.claimed, unit)}"
        for border in wrong
    ]
    if len(wrong) == len(_SIDES) and len({(border.true, border.claimed) for border in wrong}) == 1:
        parts = [f"all round {told(wrong[0].true, unit)}, not {told(wrong[0].claimed, unit)}"]
    return (
        f"{_words(one)} leaves other borders than it claims: {'; '.join(parts)}. "
        "Correct the claim, the size or the position."
    )


def _rim(rim: Rim, kit: Kit, found: _Alike) -> None:
    """An opening that fills at least half of the window it is seen through was meant to be framed by it."""
    shows = rim.shows
    off = max(abs(shows["left"] - shows["right"]), abs(shows["top"] - shows["bottom"]))
    fills = 2 * rim.opening.around.area >= rim.window.around.area
    if "uneven" in rim.lying.placement.intends or off < _step(kit) or not fills:
        return
    found.add(
        BORDER_UNEVEN,
        rim.lying,
        {"around": "opening", **_ticks(shows)},
        lambda: (
            f"Through {rim.window.name} {shortened(rim.opening.name)} shows an uneven rim: "
            f"{_by_side(shows, kit.unit)}. Move the window or the placement, or say that it is meant to be uneven."
        ),
        rim.opening.place,
    )


def _both_sides(one: Lying, over: str, by: Fraction, unit: System, found: _Alike) -> None:
    """A thing that is meant to hang over shows its other side there too."""
    made = one.thing.made
    if isinstance(made, Element) and not made.two_sided:
        planned, what = "one", "is printed on one side only"
    elif isinstance(made, Piece) and made.side != "both":
        planned, what = made.side, "has only one side planned"
    else:
        return
    found.add(
        BOTH_SIDES_USED,
        one,
        {"planned": planned, "over": over, "by": whole_ticks(by)},
        lambda: (
            f"{_words(one)} hangs over an {over} by {told(by, unit)}: both its sides show there, and it {what}. "
            "See that its other side may be seen, or say that both sides are used."
        ),
    )


def _overlaps(overlaps: Iterable[Overlap], unit: System) -> Iterator[Finding]:
    """Two placements are told once, by the largest area that copies of them have in common."""
    pairs: dict[tuple[str, str], list[Overlap]] = {}
    for overlap in overlaps:
        pairs.setdefault((_placement(overlap.first), _placement(overlap.second)), []).append(overlap)
    for places, several in islice(pairs.items(), _MOST_FINDINGS):
        worst = max(several, key=lambda overlap: overlap.common.area)
        width, height = worst.common.width, worst.common.height
        how = "within" if worst.is_within else "by"
        message = (
            f"{_words(worst.first)} and {_words(worst.second)} lie over each other {how} "
            f"{told(width, unit)} × {told(height, unit)}. Move one of them, or say that they are meant to overlap."
        )
        yield PLACEMENTS_OVERLAP.finding(
            *dict.fromkeys(places),
            message=message,
            width=whole_ticks(width),
            height=whole_ticks(height),
            times=len(several),
        )


def _placement(one: Lying) -> str:
    return f"project:{one.project.id}/placement:{one.placement.id}"


def _words(one: Lying) -> str:
    return f"“{one.placement.id}”, {shortened(one.thing.name)} on {shortened(one.surface.name)},"


def _by_side(sides: Mapping[Any, Fraction], unit: System) -> str:
    return ", ".join(f"{side} {told(length, unit)}" for side, length in sides.items())


def _ticks(sides: Mapping[Any, Fraction]) -> dict[str, int]:
    return {side: whole_ticks(length) for side, length in sides.items()}


def _step(kit: Kit) -> int:
    """The printed step of the kit's unit: what is less cannot be measured."""
    return (kit.printed.in_ if kit.unit == "in" else kit.printed.mm).ticks
