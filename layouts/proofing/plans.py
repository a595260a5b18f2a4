"""From what is asked of a print to its answer: verdict, bounds, and the cut plan as nodes of the proof."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any, Literal

from layouts.cutting import Answer, Culprits, Cut, Item, Problem, Region, Taken, taken
from layouts.proofing.families import CutOutAnswer, Family, Lies, Solve, free_lies, item_of, lies_within
from layouts.proofing.prints import PrintPart, Want
from layouts.shapes import Showing

__all__ = ["Node", "PrintAnswer", "one_more", "plan_print"]

Node = dict[str, Any]
Explain = Callable[[Problem], Culprits | None]
Gather = Callable[[Problem, Answer], Answer]
Verdict = Literal["fits", "short", "unknown"]


@dataclass(frozen=True, slots=True)
class PrintAnswer:
    """The answer for one print.

    `impossible` are the wants that no sheet of it can yield, `refused` the kept windows that do not yield all that is
    asked of them, `dead_fit` whether the list is proven short once every cut loses one printed step more, `culprits` a
    smallest set of places that is short by itself, `is_spent` whether not one piece could be cut once more, whatever
    the plan.
    """

    part: PrintPart
    verdict: Verdict
    reason: str
    at_least: int
    at_most: int | None
    plan: tuple[Node, ...] = ()
    impossible: tuple[tuple[Want, Literal["too-big", "turn"]], ...] = ()
    refused: tuple[CutOutAnswer, ...] = ()
    dead_fit: bool = False
    culprits: Culprits | None = None
    is_spent: bool = False


def _unexplained(problem: Problem) -> None:
    return None


def _as_it_is(problem: Problem, answer: Answer) -> Answer:
    return answer


def plan_print(
    part: PrintPart, solve: Solve, explain: Explain = _unexplained, gather: Gather = _as_it_is
) -> PrintAnswer:
    """Answer for one print; `solve` answers cutting problems, `explain` says of one that is short why it is.

    `gather` makes the plan of one that fits leave more use; it does not change what any sheet is judged by.

    A piece that is too big, or right in no turn, makes the print short whatever the number of sheets; a flat part that
    cannot be computed yet, or a cut-out that nobody could decide, makes it unknown.
    """
    family = Family(part, solve)
    impossible = tuple(_impossible(part))
    if impossible:
        return PrintAnswer(part, "short", "bound", part.sheets + 1, None, impossible=impossible, refused=family.refused)
    asked = _problem(part, family.possible)
    answer = solve(asked)
    if answer.verdict == "short":
        return PrintAnswer(
            part,
            "short",
            answer.reason,
            answer.at_least,
            # What is known is too much already. How many sheets all of it takes is another question.
            None if part.not_built else answer.at_most,
            refused=family.refused,
            culprits=None if part.is_verdict_enough else explain(asked),
        )
    if part.not_built:
        return PrintAnswer(part, "unknown", "not-built", answer.at_least, None, refused=family.refused)
    proven = answer.at_least
    plan, mixed = _written(part, family, answer.sheets)
    if (mixed or answer.verdict == "unknown") and family.lies != family.possible:
        # The sheets are judged whatever comes out of cut-outs; a plan that gives all of that as well is preferred.
        wished = solve(_problem(part, family.lies))
        if wished.verdict == "fits":
            answer = wished
            plan, mixed = _written(part, family, answer.sheets)
    while mixed:
        family.give_up(mixed)
        plan, mixed = _written(part, family, answer.sheets)
    if answer.verdict == "unknown" or any(one.state == "undecided" for one in family.refused):
        return PrintAnswer(part, "unknown", "budget", proven, answer.at_most, plan, refused=family.refused)
    # As far as they do so already, hosts stay as their windows need them.
    gathered = gather(_problem(part, family.lies) if _lie_within(answer.sheets, family.lies) else asked, answer)
    if gathered is not answer:
        # Where windows would not yield all that they did, the first plan stands.
        better, mixed = _written(part, family, gathered.sheets)
        plan = plan if mixed else better
    return PrintAnswer(
        part,
        "fits",
        answer.reason,
        proven,
        answer.at_most,
        plan,
        refused=family.refused,
        dead_fit=_is_dead_fit(part, family.possible, solve),
    )


def _impossible(part: PrintPart) -> Iterator[tuple[Want, Literal["too-big", "turn"]]]:
    width, height = part.sheet.usable_width, part.sheet.usable_height
    for want in part.direct:
        if not lies_within(want, width, height, (False, True)):
            yield want, "too-big"
        elif not lies_within(want, width, height, free_lies(want)):
            yield want, "turn"


def one_more(part: PrintPart, want: Want) -> Problem:
    """Return the question whether the sheets would give one more of a piece besides all that is cut from them."""
    asked = _problem(part, {one.place: free_lies(one) for one in part.direct})
    again = Item(f"{want.place} again", want.width, want.height, 1, *(lie in free_lies(want) for lie in (False, True)))
    return replace(asked, items=(*asked.items, again))


def _problem(part: PrintPart, lies: Mapping[str, Lies]) -> Problem:
    items = tuple(item_of(want, lies[want.place]) for want in part.direct)
    return Problem(part.sheet.usable_width, part.sheet.usable_height, part.sheets, items, part.slack)


def _lie_within(sheets: Sequence[Region], lies: Mapping[str, Lies]) -> bool:
    return all(what.sideways in lies[what.key] for sheet in sheets for _, what in taken(sheet))


def _is_dead_fit(part: PrintPart, lies: Mapping[str, Lies], solve: Solve) -> bool:
    if part.tighter_slack == part.slack:
        return False
    tighter = replace(part, sheet=part.tighter, slack=part.tighter_slack)
    return solve(_problem(tighter, lies)).verdict == "short"


def _written(
    part: PrintPart, family: Family, sheets: Sequence[Region]
) -> tuple[tuple[Node, ...], Collection[tuple[str, str]]]:
    """Return the plan as nodes, and the windows (host and id) whose hosts lie in a way that they have no trees for.

    What is to come out of such a window is not in the plan, or not whole.
    """
    writing = _Writing(part, family)
    return tuple(writing.sheet(number, region) for number, region in enumerate(sheets, start=1)), writing.mixed


@dataclass(frozen=True, slots=True)
class _Laid:
    """One copy as it lies: `on_sheet` is its turn as on a sheet, `turn` its turn in the tree it stands in."""

    want: Want
    side: Showing
    on_sheet: int
    turn: int


class _Writing:
    """Writes regions as nodes, handing out copies and cut-outs in the order of the plan.

    `mixed` are the windows, by host and id, whose hosts lie in a way that they have no trees for.
    """

    def __init__(self, part: PrintPart, family: Family) -> None:
        self.mixed: set[tuple[str, str]] = set()
        self._part = part
        self._family = family
        self._copies = {want.place: iter(want.copies) for want in part.wants}
        self._lain: dict[str, list[bool]] = {want.place: [] for want in part.wants}

    def sheet(self, number: int, region: Region) -> Node:
        """Write a whole sheet: its spoilt margins are cut off first, left, right, bottom, top."""
        sheet, slack = self._part.sheet, self._part.slack
        node = self._node(region, sheet.left, sheet.bottom, self._lay_on_sheet)
        inner = sheet.right - sheet.left
        node = _with_end_cut(
            "y", (sheet.left, sheet.bottom, inner, sheet.height - sheet.bottom), sheet.top, slack, node
        )
        node = _with_first_cut("y", (sheet.left, 0, inner, sheet.height), sheet.bottom, slack, node)
        node = _with_end_cut("x", (sheet.left, 0, sheet.width - sheet.left, sheet.height), sheet.right, slack, node)
        node = _with_first_cut("x", (0, 0, sheet.width, sheet.height), sheet.left, slack, node)
        return {"sheet": number, "tree": node}

    def _node(self, region: Region, dx: int, dy: int, lay: Callable[[Taken], _Laid]) -> Node:
        node = _area(region.x + dx, region.y + dy, region.width, region.height)
        what = region.what
        if isinstance(what, Cut):
            node["cut"] = {"along": what.along, "at": what.at + (dx if what.along == "x" else dy)}
            node["parts"] = [self._node(one, dx, dy, lay) for one in what.parts]
        elif isinstance(what, Taken):
            laid = lay(what)
            node |= {"piece": laid.want.place, "copy": next(self._copies[laid.want.place]), "turn": laid.turn}
            if laid.side == "back":
                node["side"] = "back"
            cut_outs = dict(self._cut_outs(laid))
            if cut_outs:
                node["cut_outs"] = cut_outs
        else:
            node["offcut"] = True
        return node

    def _lay_on_sheet(self, taken: Taken) -> _Laid:
        want = self._family.wants[taken.key]
        turn, side = _turn_in(want, taken.sideways)
        return _Laid(want, side, turn, turn)

    def _lay_in(self, host: _Laid) -> Callable[[Taken], _Laid]:
        """Lay a piece in a cut-out of `host`: its own turn and the host's together are a turn right on the sheet."""

        def lay(taken: Taken) -> _Laid:
            want = self._family.wants[taken.key]
            on_sheet, side = _turn_in(want, taken.sideways != _is_sideways(host.on_sheet))
            # Seen from the other side, the host's up points to minus its turn.
            up = host.on_sheet if side == host.side else -host.on_sheet
            return _Laid(want, side, on_sheet, (on_sheet - up) % 360)

        return lay

    def _cut_outs(self, host: _Laid) -> Iterator[tuple[str, Node]]:
        place = host.want.place
        lain = self._lain[place]
        lain.append(_is_sideways(host.on_sheet))
        number = len(lain) - 1
        for window in host.want.windows:
            try:
                tree = self._family.tree(place, window.id, number, lain)
            except LookupError:
                self.mixed.add((place, window.id))
                continue
            if tree is not None:
                yield window.id, self._node(tree, 0, 0, self._lay_in(host))


def _turn_in(want: Want, sideways: bool) -> tuple[int, Showing]:
    """The first turn that lies this way, and the side that shows in it."""
    return next((turn, side) for turn, side in want.turns if _is_sideways(turn) == sideways)


def _is_sideways(turn: int) -> bool:
    return turn in (90, 270)


def _area(x: int, y: int, width: int, height: int) -> Node:
    return {"x": x, "y": y, "width": width, "height": height}


def _with_first_cut(along: str, area: tuple[int, int, int, int], start: int, slack: int, rest: Node) -> Node:
    """Cut off what lies before `start`; the cut itself takes the slack before it."""
    x, y, width, height = area
    if start == (x if along == "x" else y):
        return rest
    at = start - slack
    lost = _area(x, y, at - x, height) if along == "x" else _area(x, y, width, at - y)
    return {**_area(*area), "cut": {"along": along, "at": at}, "parts": [{**lost, "offcut": True}, rest]}


def _with_end_cut(along: str, area: tuple[int, int, int, int], end: int, slack: int, rest: Node) -> Node:
    """Cut off what lies beyond `end`; a rest of no more than the slack is lost with the cut."""
    x, y, width, height = area
    beyond = (x + width if along == "x" else y + height) - end
    if not beyond:
        return rest
    parts = [rest]
    if beyond > slack:
        left = beyond - slack
        lost = _area(end + slack, y, left, height) if along == "x" else _area(x, end + slack, width, left)
        parts.append({**lost, "offcut": True})
    return {**_area(*area), "cut": {"along": along, "at": end}, "parts": parts}
