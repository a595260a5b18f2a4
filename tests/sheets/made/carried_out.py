"""The table of a sheet of the cut guide, carried out on the rectangles of the plan, line by line as a person would."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import Any

from tests.sheets.made.facts import Facts, leaves, ticks_of

__all__ = ["carry_out"]

type Tree = dict[str, Any]

_ROUND = ["left", "below", "right", "above"]
_TURNS = ["", "once", "twice"]
_NAMES = {"x": ("left", "right"), "y": ("lower", "upper")}
_SIDES = {"x": ("x", "width"), "y": ("y", "height")}


@dataclass
class _Part:
    """Something in hand: what of the plan lies in it, and where it reaches (by axis, from and to)."""

    leaves: list[Tree]
    reach: dict[str, tuple[int, int]]

    @property
    def is_finished(self) -> bool:
        return len(self.leaves) == 1 and all(
            self.reach[axis] == (self.leaves[0][low], self.leaves[0][low] + self.leaves[0][span])
            for axis, (low, span) in _SIDES.items()
        )


def carry_out(rows: list[list[str]], tree: Tree, facts: Facts) -> None:
    """Make every cut: it divides what is in hand between two things of the plan; in the end all lie apart.

    What is left over narrower than the sheet's figures can tell is not cut off: it stays at the edge of what it is at.
    """
    slack = ticks_of(facts.document.get("cutting", {}).get("slack", "0"), facts.document["unit"])
    step = facts.step(facts.unit)
    needed = [one for one in leaves(tree) if "offcut" not in one or min(one["width"], one["height"]) + slack >= step]
    whole = _part(needed, {axis: (tree[low], tree[low] + tree[span]) for axis, (low, span) in _SIDES.items()}, step)
    parts = {"the sheet": whole, "the cut-out": whole}
    taken = [row[1] for row in rows]
    last_edge = last_setting = ""
    for number, (row, take, *turn, setting, edge, gives) in enumerate(rows, start=1):
        assert row == str(number)
        part = parts.pop(take)
        assert not part.is_finished
        # Only a trimmer is turned and left as it is set.
        apart = (_ROUND.index(edge) - _ROUND.index(last_edge)) % 4 if last_edge else 0
        assert turn in ([], [_TURNS[min(apart, 4 - apart)]])
        assert setting != "same" or (turn and number > 1)
        told, last_edge = (last_setting if setting == "same" else setting), edge
        assert not turn or setting == "same" or told != last_setting
        last_setting = told
        axis = "x" if edge in ("left", "right") else "y"
        finished, kept = [], []
        for name, side in zip(_NAMES[axis], _divided(part, axis, edge, told, facts, slack, step), strict=True):
            if side is None:
                continue
            parts[f"{name} of {number}"] = side
            if side.is_finished:
                finished.append(side.leaves[0])
            elif (cut := taken.index(f"{name} of {number}") + 1) > number + 1:
                kept.append(f"{name} for {cut}")
        off = Counter(facts.letter(one["piece"]) for one in finished if "piece" in one)
        said = gives.replace("\N{NO-BREAK SPACE}", " ").split("; ")
        assert [one for one in said if " for " in one] == kept
        assert _given(said[0]) == (off, any("offcut" in one for one in finished))
    # The whole sheet has two names; all that is left is finished.
    assert all(part.is_finished for part in parts.values() if part is not whole)


def _divided(
    part: _Part, axis: str, edge: str, setting: str, facts: Facts, slack: int, step: int
) -> tuple[_Part | None, _Part | None]:
    """Cut a part so far from an edge of it: nothing that is needed may be cut in two."""
    low, span = _SIDES[axis]
    start, end = part.reach[axis]
    ends = sorted({at for one in part.leaves for at in (one[low], one[low] + one[span])} - {start, end})
    found = {}
    for at in ends:
        if setting == facts.figure(at - start if edge in ("left", "below") else end - at):
            below = [one for one in part.leaves if one[low] + one[span] <= at]
            above = [one for one in part.leaves if one[low] >= at]
            if len(below) + len(above) == len(part.leaves):
                found[tuple(map(id, below))] = (below, above, at)
    [(below, above, at)] = found.values()
    beneath = max([at - slack, *(one[low] + one[span] for one in below)])
    return (
        _part(below, part.reach | {axis: (start, beneath)}, step) if below else None,
        _part(above, part.reach | {axis: (min(one[low] for one in above), end)}, step) if above else None,
    )


def _part(leaves: list[Tree], reach: dict[str, tuple[int, int]], step: int) -> _Part:
    """What lies in hand, reaching as far as its things do where less than a step is left beside them."""
    told = {}
    for axis, (low, span) in _SIDES.items():
        first, last = min(one[low] for one in leaves), max(one[low] + one[span] for one in leaves)
        start, end = reach[axis]
        told[axis] = (first if first - start < step else start, last if end - last < step else end)
    return _Part(leaves, told)


def _given(text: str) -> tuple[Counter[str], bool]:
    said = [] if text == "–" or " for " in text else text.split(", ")
    many: Counter[str] = Counter()
    for one in said:
        if one != "offcut":
            times, _, letter = one.rpartition(" × ")
            many[letter] += int(times or 1)
    return many, "offcut" in said
