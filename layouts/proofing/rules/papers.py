"""Rules about paper: whether everything fits the sheets in the box, and comes out of the cut-outs it is asked of."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from fractions import Fraction
from math import ceil
from typing import Any

from layouts.document import Kit, Paper, form_place, paper_place, piece_place
from layouts.document.forms import FormBase
from layouts.document.pieces import Piece
from layouts.lengths import Length, System
from layouts.proofing.families import CutOutAnswer, lies_within
from layouts.proofing.findings import Finding, Rule
from layouts.proofing.plans import PrintAnswer
from layouts.proofing.prints import Want, host_of, papers_of
from layouts.shapes import AskedSide, missing_side

__all__ = ["MENDED", "PAPER_UNDECIDED", "RULES", "findings"]

_WHOLE = {"type": "integer"}
_TICKS = {
    "type": "array",
    "items": _WHOLE,
    "minItems": 2,
    "maxItems": 2,
    "description": "width and height in ticks of 1/320 mm",
}
_PIECES = {
    "type": "array",
    "items": {
        "type": "object",
        "properties": {"at": {"type": "string"}, "width": _WHOLE, "height": _WHOLE, "copies": _WHOLE},
        "required": ["at", "width", "height", "copies"],
        "additionalProperties": False,
    },
    "description": "what is cut, sizes in ticks of 1/320 mm",
}
_SLACK = _WHOLE | {"description": "ticks of 1/320 mm that every cut loses"}
# Each piece that is refused has a finding of its own: were all of them told in all, a long list would fill gigabytes.
_MOST_TOLD = 20

PAPER_SHORT = Rule(
    "paper-short",
    "stop",
    "No cut plan for the sheets in the box yields everything that is cut from this print.",
    {
        "sheets": _WHOLE,
        "at_least": _WHOLE,
        "usable": _TICKS,
        "slack": _SLACK,
        "pieces": _PIECES,
        "culprits": {
            "type": "array",
            "items": {
                "type": "object",
                "properties": {"at": {"type": "string"}, "copies": _WHOLE},
                "required": ["at", "copies"],
                "additionalProperties": False,
            },
            "description": "some of these pieces, as few as possible, that are short by themselves; empty if not found",
        },
        "because": {
            "enum": ["area", "apart", "cuts", None],
            "description": "together they are more than the sheets; no two share a sheet; no way of cutting gives them",
        },
    },
)
PIECE_TOO_BIG = Rule(
    "piece-too-big",
    "stop",
    "The piece is larger than what can be used of a sheet, however it is turned.",
    {"size": _TICKS, "usable": _TICKS},
)
TURN_IMPOSSIBLE = Rule(
    "turn-impossible",
    "stop",
    "The piece fits a sheet only in a turn in which its print would not read as asked, or no turn reads right at all.",
    {"size": _TICKS, "usable": _TICKS, "turns": {"type": "array", "items": _WHOLE}},
)
SIDE_MISSING = Rule(
    "side-missing",
    "stop",
    "The piece shows the back of a paper that has no back.",
    {"side": {"enum": ["back"]}, "paper": {"type": "string"}},
)
CUT_OUT_TOO_SMALL = Rule(
    "cut-out-too-small",
    "stop",
    "The piece does not fit the cut-out that it is to come from, or that cut-out is not there.",
    {"problem": {"enum": ["size", "turn", "waste", "no-host", "side"]}, "size": _TICKS, "cut_out": _TICKS},
)
CUT_OUT_OVERDRAWN = Rule(
    "cut-out-overdrawn",
    "stop",
    "Singly these pieces fit the cut-outs that they are to come from, together they do not.",
    {
        "cut_outs": _WHOLE,
        "cut_out": _TICKS,
        "size": _TICKS,
        "copies": _WHOLE,
        "pieces": _PIECES | {"description": f"the first {_MOST_TOLD} pieces that are to come out of these cut-outs"},
    },
)
PAPER_MISSING = Rule("paper-missing", "fix", "The piece names neither a paper nor a cut-out to be cut from.", {})
PAPER_UNDECIDED = Rule(
    "paper-undecided",
    "note",
    "Neither a plan nor a proof that there is none was found within the budget.",
    {"cause": {"enum": ["budget", "not-built", "as-printed"]}, "sheets": _WHOLE, "at_least": _WHOLE, "pieces": _PIECES},
)
DEAD_FIT = Rule(
    "dead-fit",
    "note",
    "Everything fits, but is proven short once every cut loses one printed step more.",
    {"slack": _SLACK, "step": _WHOLE, "sheets": _WHOLE, "usable": _TICKS, "pieces": _PIECES},
)
NOTHING_TO_SPARE = Rule(
    "nothing-to-spare",
    "note",
    "Everything fits, but not one of the pieces could be cut once more, however the sheets are cut.",
    {"sheets": _WHOLE, "pieces": {"type": "integer", "description": "pieces and flat parts that are asked for"}},
)
RULES = (
    PAPER_SHORT,
    PIECE_TOO_BIG,
    TURN_IMPOSSIBLE,
    SIDE_MISSING,
    CUT_OUT_TOO_SMALL,
    CUT_OUT_OVERDRAWN,
    PAPER_MISSING,
    PAPER_UNDECIDED,
    DEAD_FIT,
    NOTHING_TO_SPARE,
)

# The rules whose findings say what would mend them.
MENDED = frozenset({PAPER_SHORT.name, CUT_OUT_TOO_SMALL.name, CUT_OUT_OVERDRAWN.name})


def beyond_any_sheet(found: Iterable[Mapping[str, Any]]) -> frozenset[str]:
    """Return the ids of the papers of which no number of sheets would do, by the findings of a proof as plain JSON."""
    never = {PIECE_TOO_BIG.name, TURN_IMPOSSIBLE.name, SIDE_MISSING.name}
    places = (at for one in found if one["rule"] in never for at in one["at"])
    return frozenset(at.removeprefix("paper:") for at in places if at.startswith("paper:"))


def findings(kit: Kit, answers: Sequence[PrintAnswer]) -> Iterator[Finding]:
    """Yield what the paper in the box does not yield, and what the document does not say about it."""
    papers = {paper.id: paper for paper in kit.papers}
    names = _names(kit)
    yield from _paperless(kit)
    sideless = _sideless(kit, papers, answers)
    wasted = {
        (piece_place(project.id, piece.id), window.id)
        for project in kit.projects
        for piece in project.pieces
        for window in piece.windows
        if window.cut_out == "waste"
    }
    for answer in answers:
        words = _Words(papers[answer.part.paper], names, kit.unit)
        lacking = sideless.get(answer.part.paper, {})
        for place in lacking:
            yield _side_missing(place, words)
        yield from _of_paper(answer, words, lacking)
        wants = {want.place: want for want in answer.part.wants}
        for refused in answer.refused:
            yield from _of_cut_out(refused, wants, words, wasted, lacking)


class _Words:
    """The words of one paper's findings."""

    def __init__(self, paper: Paper, names: dict[str, str], unit: System) -> None:
        self.paper = paper
        self.unit = unit
        self._names = names

    def name(self, place: str) -> str:
        return self._names.get(_whole(place), place)

    def size(self, width: int, height: int) -> str:
        return f"{self.length(width)} × {self.length(height)} {self.unit}"

    def length(self, ticks: int) -> str:
        return Length(ticks, self.unit).text(self.unit)


def _names(kit: Kit) -> dict[str, str]:
    """What people call the pieces and forms: letter and name."""
    made: dict[str, str] = {}
    for project in kit.projects:
        things: tuple[Piece | FormBase, ...] = (*project.pieces, *project.forms)
        for thing in things:
            kind = "piece" if isinstance(thing, Piece) else "form"
            name = f"{thing.id}, {thing.name}," if thing.id.casefold() != thing.name.casefold() else thing.name
            made[f"project:{project.id}/{kind}:{thing.id}"] = name
    return made


def _sideless(kit: Kit, papers: dict[str, Paper], answers: Sequence[PrintAnswer]) -> dict[str, dict[str, None]]:
    """The pieces and forms that show a side which their paper lacks, by the paper's id, each once."""
    sides: dict[str, AskedSide] = {}
    asked = [(answer.part.paper, _whole(want.place)) for answer in answers for want in answer.part.wants]
    for project in kit.projects:
        sides |= {piece_place(project.id, piece.id): piece.side for piece in project.pieces}
        for form in project.forms:
            place = form_place(project.id, form.id)
            sides[place] = form.side
            # Not only those whose flat parts could be worked out.
            asked += [(paper, place) for paper in papers_of(form.paper, project.makes, form.count)]
    found: dict[str, dict[str, None]] = {}
    for paper, place in asked:
        if missing_side(papers[paper], sides[place]) is not None:
            found.setdefault(paper, {})[place] = None
    return found


def _paperless(kit: Kit) -> Iterator[Finding]:
    """Yield the pieces without a paper, and what would come out of them: no print answers for these."""
    sources = {
        piece_place(project.id, piece.id): (piece, host_of(piece))
        for project in kit.projects
        for piece in project.pieces
    }
    lost = [place for place, (piece, host) in sources.items() if piece.paper is None and host is None]
    for place in lost:
        piece, _ = sources[place]
        message = f"{piece.id}, {piece.name}, has no paper. Name the print or the cut-out it is cut from."
        yield PAPER_MISSING.finding(place, message=message)
    guests: dict[str, list[str]] = {}
    for place, (_, host) in sources.items():
        if host is not None:
            guests.setdefault(host[0], []).append(place)
    for gone in lost:  # which grows meanwhile by what comes out of its members
        for place in guests.get(gone, ()):
            lost.append(place)
            piece, host = sources[place]
            assert host is not None
            message = (
                f"{piece.id}, {piece.name}, does not come out of {sources[host[0]][0].id}, "
                "since that is not cut itself: mend that first."
            )
            size = [piece.size.width.ticks, piece.size.height.ticks]
            at = (place, f"{host[0]}/window:{host[1]}")
            yield CUT_OUT_TOO_SMALL.finding(*at, message=message, problem="no-host", size=size, cut_out=[0, 0])


def _whole(place: str) -> str:
    """The place of a form for that of one of its flat parts."""
    return place.partition("/part:")[0]


def _side_missing(place: str, words: _Words) -> Finding:
    message = (
        f"{words.name(place)} shows the back of {words.paper.name}, which has none. "
        "Show its front, choose another print, or give this one a back."
    )
    at = (place, paper_place(words.paper.id))
    return SIDE_MISSING.finding(*at, message=message, side="back", paper=words.paper.id)


def _of_paper(answer: PrintAnswer, words: _Words, sideless: Collection[str]) -> Iterator[Finding]:
    part, paper = answer.part, paper_place(answer.part.paper)
    usable = [part.sheet.usable_width, part.sheet.usable_height]
    sheets = _counted(part.sheets, "sheet")
    for want, problem in answer.impossible:
        at, size = (want.place, paper), [want.width, want.height]
        piece = f"{words.name(want.place)} {words.size(want.width, want.height)}"
        room = f"a sheet of {words.paper.name} ({words.size(part.sheet.usable_width, part.sheet.usable_height)} usable)"
        if problem == "too-big":
            message = f"{piece}, is larger than {room}. Make it smaller, or cut it from a larger paper."
            yield PIECE_TOO_BIG.finding(*at, message=message, size=size, usable=usable)
        elif _whole(want.place) not in sideless:
            turns = [turn for turn, _ in want.turns]
            message = (
                f"{piece}, fits {room} only in a turn in which its print does not read as asked. "
                "Let it read another way, make it smaller, or choose another print."
                if turns
                else f"{piece}, is to show both sides of {words.paper.name}, and no turn lets both read as asked. "
                "Let it read any way, or show one side only."
            )
            yield TURN_IMPOSSIBLE.finding(*at, message=message, size=size, usable=usable, turns=turns)
    pieces = [_asked(want) for want in part.direct]
    places = [want.place for want in part.direct]
    facts = {"sheets": part.sheets, "usable": usable, "slack": part.slack, "pieces": pieces}
    if answer.verdict == "short" and not answer.impossible:
        enough = (
            f"{_counted(answer.at_most, 'sheet')} would do" if answer.at_most else "no number of sheets is known to do"
        )
        message = (
            f"{words.paper.name} is short: the box holds {sheets}, and it takes at least {answer.at_least}; {enough}. "
            f"{_explained(answer, words)}"
            "Make something smaller, cut it from another print, or put more sheets into the box."
        )
        found = answer.culprits
        told = [{"at": place, "copies": copies} for place, copies in found.copies] if found else []
        because = found.because if found else None
        why = facts | {"at_least": answer.at_least, "culprits": told, "because": because}
        yield PAPER_SHORT.finding(paper, *places, message=message, **why)
    elif answer.verdict == "unknown" and not _suffices(answer):
        message = f"Whether {words.paper.name} suffices is not decided. {_undecided(answer)}"
        why = {"cause": answer.reason, "sheets": part.sheets, "at_least": answer.at_least, "pieces": pieces}
        yield PAPER_UNDECIDED.finding(paper, *places, message=message, **why)
    elif answer.dead_fit:
        step = part.tighter_slack - part.slack
        message = (
            f"{words.paper.name} just fits: were {words.length(step)} {words.unit} more lost to each cut, it would be "
            "short. Leave a little more room, or say so on the sheet."
        )
        yield DEAD_FIT.finding(paper, message=message, step=step, **facts)
    if answer.is_spent:
        message = (
            f"{words.paper.name} leaves nothing to spare: not one of its pieces could be cut "
            "again if a cut goes wrong, however the sheets are cut. Say so on the sheet, or put one more sheet into "
            "the box."
        )
        yield NOTHING_TO_SPARE.finding(paper, message=message, sheets=part.sheets, pieces=len(part.wants))


def _explained(answer: PrintAnswer, words: _Words) -> str:
    """Which pieces already do not fit, and why, as a sentence; nothing where that is not known."""
    found, part = answer.culprits, answer.part
    if found is None or found.because == "too-big":
        return ""
    wants = {want.place: want for want in part.direct}
    told = [
        f"{f'{copies} of ' if copies > 1 else ''}{words.name(place).rstrip(',')} "
        f"({words.size(wants[place].width, wants[place].height)})"
        for place, copies in found.copies[:_MOST_TOLD]
    ]
    if len(found.copies) > _MOST_TOLD:
        told.append(f"{len(found.copies) - _MOST_TOLD} more")
    pieces = told[0] if len(told) == 1 else f"{', '.join(told[:-1])} and {told[-1]}"
    sheets = _counted(part.sheets, "sheet")
    if found.because == "apart":
        return f"Already {pieces} are too many: no two of them come out of one sheet, and the box holds {sheets}. "
    if found.because == "area":
        area = sum(wants[place].width * wants[place].height * copies for place, copies in found.copies)
        share = Fraction(area, max(1, part.sheet.usable_width * part.sheet.usable_height * part.sheets))
        lost = ", and every cut loses some more" if part.slack else ""
        return f"Already {pieces} need {_share(share)} of what can be used of {sheets}{lost}. "
    return f"Already {pieces} do not come out of {sheets}, however they are cut from edge to edge. "


def _share(share: Fraction) -> str:
    """In percent, rounded up so that more than all of it never reads as all of it.

    >>> _share(Fraction(1001, 1000))
    '101 %'
    """
    return f"{ceil(share * 100)} %"


def _suffices(answer: PrintAnswer) -> bool:
    """Whether there is a plan for the sheets: then it is some cut-out that nobody could decide."""
    return answer.at_most is not None and answer.at_most <= answer.part.sheets


def _undecided(answer: PrintAnswer) -> str:
    if answer.reason == "not-built":
        more = len(answer.part.not_built) - _MOST_TOLD
        told = [f"{reason}." for reason in answer.part.not_built[:_MOST_TOLD]]
        return " ".join([*told, f"And {more} more."] if more > 0 else told)
    best = f"the best plan found takes {answer.at_most}" if answer.at_most else "no plan was found"
    return (
        f"It takes at least {_counted(answer.at_least, 'sheet')}, and {best}; the box holds {answer.part.sheets}. "
        "Fewer or smaller pieces make it easier to decide, or put one more sheet into the box."
    )


def _of_cut_out(
    refused: CutOutAnswer,
    wants: dict[str, Want],
    words: _Words,
    wasted: set[tuple[str, str]],
    sideless: Collection[str],
) -> Iterator[Finding]:
    window, host = f"{refused.host}/window:{refused.window.id}", wants[refused.host]
    offered = [refused.window.width, refused.window.height]
    copies = len(host.copies)
    pieces = [_asked(wants[place]) for place in refused.pieces[:_MOST_TOLD]]
    from_host = words.name(refused.host)
    if refused.state == "undecided":
        message = (
            f"Whether the cut-outs of {from_host} yield everything that is to come out of them is not decided. "
            "Cut some of it from the paper instead."
        )
        why = {"cause": "budget", "sheets": copies, "at_least": 1, "pieces": pieces}
        yield PAPER_UNDECIDED.finding(paper_place(words.paper.id), window, *refused.pieces, message=message, **why)
        return
    for place in refused.pieces:
        want, name = wants[place], words.name(place)
        size, sizes = [want.width, want.height], words.size(want.width, want.height)
        if refused.state == "overdrawn":
            message = (
                f"{name} {sizes}, does not come out of {_counted(copies, 'cut-out')} of {words.size(*offered)} from "
                f"{from_host} with everything else that is to. Cut some of it from the paper instead."
            )
            why = {"cut_outs": copies, "cut_out": offered, "size": size, "copies": len(want.copies), "pieces": pieces}
            yield CUT_OUT_OVERDRAWN.finding(place, window, message=message, **why)
        else:
            wasted_here = (refused.host, refused.window.id) in wasted
            problem, reason = _no_room(want, refused, words, wasted=wasted_here, sideless=place in sideless)
            message = f"{name} {sizes}, does not come out of {from_host} {reason}"
            yield CUT_OUT_TOO_SMALL.finding(place, window, message=message, problem=problem, size=size, cut_out=offered)


def _no_room(want: Want, refused: CutOutAnswer, words: _Words, *, wasted: bool, sideless: bool) -> tuple[str, str]:
    if sideless:
        return "side", "since the side that it shows is not there: mend that first."
    if refused.state == "no-host":
        return "no-host", "since that is not cut itself: mend that first."
    if wasted:
        return "waste", "since what comes out of that window is waste: keep it, or cut the piece from a paper."
    width, height = refused.window.width, refused.window.height
    offers = words.size(width, height)
    if lies_within(want, width, height, (False, True)):
        return "turn", f"whose window offers {offers}: its print would not read as asked. Let it read another way."
    return "size", f"whose window offers {offers}: make the window larger, or cut the piece from a paper."


def _asked(want: Want) -> dict[str, object]:
    return {"at": want.place, "width": want.width, "height": want.height, "copies": len(want.copies)}


def _counted(number: int | None, thing: str) -> str:
    return f"{number} {thing}" if number == 1 else f"{number} {thing}s"
