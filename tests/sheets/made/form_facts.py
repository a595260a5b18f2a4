"""Where the constructions of the examples are cut and scored, and how large they are folded, by the contract's table.

Worked out from the document and the figures that the proof prints, in ticks as shown.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from tests.sheets.made.facts import Facts, Tree

__all__ = ["FlatFacts", "drawn_parts", "flat_facts", "folded_sides"]


@dataclass(frozen=True)
class FlatFacts:
    """One flat part: its size, and where lines lie between its edges, from the left and from below."""

    size: tuple[int, int]
    lines: tuple[list[int], list[int]]
    is_scored: bool

    def spans(self, axis: int) -> list[int]:
        """From line to line; nothing where there is no line."""
        spots = [0, *sorted(set(self.lines[axis])), self.size[axis]]
        return [after - before for before, after in pairwise(spots)] if len(spots) > 2 else []


def flat_facts(facts: Facts, project: Tree, form: Tree) -> list[FlatFacts]:
    """The flat parts of a form, in their order."""
    place = f"project:{project['id']}/form:{form['id']}"
    found = []
    for number, (_, _, at) in enumerate(facts.parts(form, place), start=1):
        width, height = (facts.shown(f"{at}/{side}") for side in ("width", "height"))
        lines = _lines(facts, form, place, number, width, height)
        found.append(FlatFacts((width, height), lines, form["as"] not in ("frame", "tag")))
    return found


def _lines(facts: Facts, form: Tree, place: str, number: int, width: int, height: int) -> tuple[list[int], list[int]]:
    def shown(name: str) -> int:
        return facts.shown(f"{place}/{name}")

    kind = form["as"]
    if kind == "scored":
        at = [(one["from"], shown(f"scores/{index}/at")) for index, one in enumerate(form["scores"], start=1)]
        across = [deep if side == "left" else width - deep for side, deep in at if side in ("left", "right")]
        up = [deep if side == "bottom" else height - deep for side, deep in at if side in ("bottom", "top")]
        return across, up
    if kind == "tray":
        depth = shown("depth")
        return [depth, width - depth], [depth, height - depth]
    if kind == "concertina":
        panel = shown("panel/width")
        return list(range(panel, width, panel)), []
    if kind == "pocket":
        flap = shown("flap")
        return [flap, width - flap], [flap]
    if kind == "frame":
        rim = shown("width")
        return ([rim, width - rim], []) if number < 3 else ([], [rim, height - rim])
    if kind == "envelope":
        side = shown("side_flap")
        return [side, width - side], [shown("bottom_flap"), height - shown("top_flap")]
    corner = shown("corner")
    return [corner, width - corner], [corner, height - corner]


def drawn_parts(facts: Facts, project: Tree, form: Tree) -> list[FlatFacts]:
    """The flat parts that have a drawing: of those that are alike the first; strips of a frame are mirror images."""
    parts = flat_facts(facts, project, form)
    return [part for at, part in enumerate(parts) if form["as"] == "frame" or part not in parts[:at]]


def folded_sides(facts: Facts, project: Tree, form: Tree) -> list[int]:
    """Width, depth and height of the folded thing, in ticks that no step has rounded; empty where nothing is folded.

    A wall stands half a thickness above the score that it is measured from; what is folded flat has no height here.
    """
    place = f"project:{project['id']}/form:{form['id']}"
    [part, *_] = flat_facts(facts, project, form)
    spans = [part.spans(axis) or [part.size[axis]] for axis in (0, 1)]
    kind = form["as"]
    thick = _thickness(facts, form)
    if kind == "tray":
        inside = [facts.shown(f"{place}/inside/{side}") + 2 * thick for side in ("width", "height")]
        return [*map(round, inside), round(facts.shown(f"{place}/depth") + thick / 2)]
    if kind == "scored" and form.get("corners") == "tab":
        middles = [one[len(one) // 2] for one in spans]
        return [*(round(middle + thick) for middle in middles), round(spans[0][1] + thick / 2)]
    if kind == "scored":
        return [max(one) for one in spans]
    if kind == "concertina":
        # Panels lie on each other, and so do the tabs that join the strips.
        layers = form["panels"] + len(flat_facts(facts, project, form)) - 1
        return [facts.shown(f"{place}/panel/{side}") for side in ("width", "height")] + [round(layers * thick)]
    if kind == "pocket":
        return [facts.shown(f"{place}/panel/{side}") for side in ("width", "height")]
    if kind == "envelope":
        return [spans[0][1], spans[1][1]]
    return []


def _thickness(facts: Facts, form: Tree) -> Fraction:
    name = form["paper"] if isinstance(form["paper"], str) else form["paper"]["each"][0]
    paper = next(one for one in facts.document["papers"] if one["id"] == name)
    return Fraction(320 * paper.get("caliper_um", 0), 1000)
