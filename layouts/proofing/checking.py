"""Every plan before anyone sees it: held against what was asked, by a checker that shares no code with the search."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from layouts.cutting import CutOut, Sheet, Wanted, verify_plan
from layouts.errors import KitproofError
from layouts.proofing.plans import PrintAnswer
from layouts.proofing.prints import PrintPart, Want

__all__ = ["PlanFails", "check_plan"]

_EVERY_TURN = frozenset({0, 90, 180, 270})


class PlanFails(KitproofError):
    """A plan that cannot be cut as it stands: a defect of this program, never an answer."""

    code = "plan-fails"


def check_plan(answer: PrintAnswer) -> None:
    """Let a plan pass, or raise. Raises: PlanFails with every fault."""
    if not answer.plan:
        return
    part = answer.part
    asked = _Asked(answer)
    # The best plan of an undecided print may take more sheets than there are: it shows how many would do.
    supply = part.sheets if answer.verdict == "fits" else len(answer.plan)
    area = part.sheet
    sheet = Sheet(area.width, area.height, area.left, area.bottom, area.right, area.top, part.slack, supply)
    faults = [*verify_plan(answer.plan, sheet, asked.of_sheets()), *_wrong_turns(answer)]
    if faults:
        raise PlanFails(f"the plan for {part.paper} fails: {'; '.join(faults)}")


class _Asked:
    """What a plan must yield: everything but what was refused with a reason."""

    def __init__(self, answer: PrintAnswer) -> None:
        refused = {place for one in answer.refused for place in one.pieces}
        self._wants = [want for want in answer.part.wants if want.place not in refused]
        self._guests: dict[tuple[str, str], list[Want]] = {}
        for want in self._wants:
            if want.host is not None:
                self._guests.setdefault(want.host, []).append(want)

    def of_sheets(self) -> dict[str, Wanted]:
        turns = {want.place: frozenset(turn for turn, _ in want.turns) for want in self._wants}
        return {want.place: self._wanted(want, turns[want.place]) for want in self._wants if want.host is None}

    def _wanted(self, want: Want, turns: frozenset[int]) -> Wanted:
        cut_outs = {}
        for window in want.windows:
            # In a cut-out the turn allowed depends on how its host lies: that is looked at below, copy by copy.
            guests = {
                guest.place: self._wanted(guest, _EVERY_TURN) for guest in self._guests.get((want.place, window.id), ())
            }
            if guests:
                cut_outs[window.id] = CutOut(window.width, window.height, guests)
        return Wanted(want.width, want.height, frozenset(want.copies), turns, cut_outs)


def _wrong_turns(answer: PrintAnswer) -> Iterator[str]:
    """Yield the pieces whose print would not read as asked, those in cut-outs by the turns of all they lie in."""
    turns = _reading_right(answer.part)
    for planned in answer.plan:
        waiting: list[tuple[Mapping[str, Any], str, int]] = [(planned["tree"], "front", 0)]
        while waiting:
            node, side_below, up = waiting.pop()
            waiting.extend((part, side_below, up) for part in node.get("parts", ()))
            if "piece" not in node:
                continue
            side = node.get("side", "front")
            # On the sheet every side has its own up; in a cut-out, up turns with the host, and the other way round
            # where the piece shows the other side of the leaf.
            turn = (node["turn"] + (up if side == side_below else -up)) % 360
            if (turn, side) not in turns[node["piece"]]:
                yield f"{node['piece']} copy {node['copy']} lies turned by {turn} with its {side} up"
            waiting.extend((tree, side, turn) for tree in node.get("cut_outs", {}).values())


def _reading_right(part: PrintPart) -> dict[str, set[tuple[int, str]]]:
    return {want.place: set(want.turns) for want in part.wants}
