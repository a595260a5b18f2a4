"""Rules about what is left of a piece: rims around windows, decorative edges, and pieces that mirror each other."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence

from layouts.document import Kit, Piece, Project, Tool, piece_place
from layouts.lengths import System
from layouts.proofing.findings import Finding, Rule
from layouts.proofing.measures import shortened, told, whole_ticks
from layouts.shapes.edges import BittenAway, bitten_away, broken_patterns
from layouts.shapes.faces import Lying
from layouts.shapes.handed import Pair, handed_pairs
from layouts.shapes.mirrors import mirror_differences
from layouts.shapes.rims import LEAST_RIM, Looks, edge_rims, rims_between

__all__ = [
    "EDGE_BITES_AWAY",
    "HANDED_PAIR",
    "MIRROR_DIFFERS",
    "PATTERN_BROKEN",
    "RULES",
    "WINDOWS_MEET",
    "WINDOW_RIM",
    "findings",
]

_WHOLE = {"type": "integer", "description": "ticks of 1/320 mm"}
_PAIR = {"type": "array", "items": _WHOLE, "minItems": 2, "maxItems": 2}
_SIDES = ["left", "right", "top", "bottom"]

EDGE_BITES_AWAY = Rule(
    "edge-bites-away",
    "stop",
    "A decorative edge takes all of the piece, reaches into a window, or leaves its punch nothing to grip.",
    {
        "problem": {"enum": ["nothing-left", "no-grip", "window"]},
        "where": {"enum": [*_SIDES, "width", "height"]},
        "needed": _WHOLE,
        "there": _WHOLE,
    },
)
WINDOWS_MEET = Rule(
    "windows-meet",
    "stop",
    "Two windows of one piece touch or cross, so that what comes out of them is not what is planned.",
    {"width": _WHOLE, "height": _WHOLE},
)
WINDOW_RIM = Rule(
    "window-rim",
    "note",
    "The rim that a window leaves to an edge or to another window is so narrow that it may tear.",
    {"side": {"enum": [*_SIDES, "window"]}, "rim": _WHOLE, "least": _WHOLE},
)
PATTERN_BROKEN = Rule(
    "pattern-broken",
    "note",
    "A punched edge is no whole number of the punch's pitches, so that its pattern breaks off.",
    {"side": {"enum": _SIDES}, "length": _WHOLE, "pitch": _WHOLE},
)
HANDED_PAIR = Rule(
    "handed-pair",
    "note",
    "Copies of a piece that differs from its mirror image are used left and right.",
    {"count": {"type": "integer"}},
)
MIRROR_DIFFERS = Rule(
    "mirror-differs",
    "fix",
    "A piece is said to mirror another and is not its mirror image.",
    {
        "what": {"type": "array", "items": {"enum": ["size", "shape", "windows", "edges"]}},
        "size": _PAIR,
        "other": _PAIR,
    },
)
RULES = (EDGE_BITES_AWAY, WINDOWS_MEET, WINDOW_RIM, PATTERN_BROKEN, HANDED_PAIR, MIRROR_DIFFERS)


# Findings of one rule: where there are more, these are enough to begin with.
_MOST_FINDINGS = 1_000


def findings(kit: Kit, lying: Sequence[Lying]) -> Iterator[Finding]:
    """Yield what is wrong with edges, rims and mirrored pieces; `lying` are all copies of all placements.

    Of each rule the first thousand findings are told.
    """
    told_so_far: Counter[str] = Counter()
    for found in _all(kit, lying):
        told_so_far[found.rule] += 1
        if told_so_far[found.rule] <= _MOST_FINDINGS:
            yield found


def _all(kit: Kit, lying: Sequence[Lying]) -> Iterator[Finding]:
    tools: Mapping[str, Tool] = {tool.id: tool for tool in kit.tools}
    looks = Looks()
    for project in kit.projects:
        pieces = {piece.id: piece for piece in project.pieces}
        for piece in project.pieces:
            place = piece_place(project.id, piece.id)
            for found in bitten_away(piece, tools):
                yield _bitten(piece, place, found, kit.unit)
            if piece.windows:
                yield from _rims(piece, place, tools, looks, kit.unit)
            yield from _patterns(piece, place, tools, kit.unit)
            if piece.mirror_of is not None:
                yield from _mirrored(project, piece, pieces[piece.mirror_of])
    for pair in handed_pairs(kit, lying):
        yield _handed(pair)


def _bitten(piece: Piece, place: str, found: BittenAway, unit: System) -> Finding:
    needed, there = told(found.needed.ticks, unit), told(found.there.ticks, unit)
    words = {
        "nothing-left": f"The edges of {_called(piece)} take {needed} of its {found.where}, which is {there}.",
        "no-grip": f"The punch for the {found.where} edge of {_called(piece)} needs {needed} of paper to bite and to "
        f"grip, and there is {there}.",
        "window": f"The {found.where} edge of {_called(piece)} loses {needed} to its tool, and the window "
        f"{found.window} begins {there} from it.",
    }
    where = place if found.window is None else f"{place}/window:{found.window}"
    return EDGE_BITES_AWAY.finding(
        where,
        message=f"{words[found.problem]} Cut the piece larger, or finish that edge with another tool.",
        problem=found.problem,
        where=found.where,
        needed=found.needed.ticks,
        there=found.there.ticks,
    )


def _rims(piece: Piece, place: str, tools: Mapping[str, Tool], looks: Looks, unit: System) -> Iterator[Finding]:
    least = told(LEAST_RIM, unit)
    for one in edge_rims(piece, place, tools):
        if 0 < one.rim < LEAST_RIM:
            message = (
                f"Between {one.window.name} and the {one.side} edge {told(one.rim, unit)} of paper is left: less than "
                f"{least} tears easily. Make the window smaller, move it, or cut the piece larger."
            )
            yield WINDOW_RIM.finding(
                one.window.place, message=message, side=one.side, rim=whole_ticks(one.rim), least=LEAST_RIM
            )
    for between in rims_between(piece, place, tools, looks):
        names = f"{between.first.name} and {between.second.name}"
        places = between.first.place, between.second.place
        if between.meet:
            common = between.common
            width, height = (common.width, common.height) if common is not None else (0, 0)
            shared = (
                f"cross by {told(width, unit)} × {told(height, unit)}" if common is not None else "touch, 0 mm apart"
            )
            message = f"{_upper(names)} {shared}: one hole comes of both. Make one smaller, move it, or join them."
            yield WINDOWS_MEET.finding(*places, message=message, width=whole_ticks(width), height=whole_ticks(height))
        else:
            message = (
                f"Between {names} {told(between.rim, unit)} of paper is left: less than {least} tears easily. "
                "Make one of them smaller, or move it."
            )
            yield WINDOW_RIM.finding(*places, message=message, side="window", rim=between.rim, least=LEAST_RIM)


def _patterns(piece: Piece, place: str, tools: Mapping[str, Tool], unit: System) -> Iterator[Finding]:
    for broken in broken_patterns(piece, tools):
        pitch, length = told(broken.pitch.ticks, unit), told(broken.length.ticks, unit)
        whole = [told(one.ticks, unit) for one in (broken.shorter, broken.longer) if one is not None]
        punch = shortened(broken.tool.name or broken.tool.id)
        message = (
            f"The {broken.side} edge of {_called(piece)} is {length} long, no whole number of the {pitch} after which "
            f"the pattern of “{punch}” begins again. {' or '.join(whole)} would be."
        )
        yield PATTERN_BROKEN.finding(
            place, message=message, side=broken.side, length=broken.length.ticks, pitch=broken.pitch.ticks
        )


def _mirrored(project: Project, piece: Piece, original: Piece) -> Iterator[Finding]:
    differs = mirror_differences(piece, original)
    if not differs:
        return
    sizes = f"{piece.size.width} × {piece.size.height}, {original.size.width} × {original.size.height}"
    message = (
        f"{_called(piece)} is said to mirror {_called(original)} and differs from its mirror image in "
        f"{', '.join(differs)} ({sizes}). Correct one of them, or do not call it a mirror image."
    )
    yield MIRROR_DIFFERS.finding(
        piece_place(project.id, piece.id),
        piece_place(project.id, original.id),
        message=message,
        what=list(differs),
        size=[piece.size.width.ticks, piece.size.height.ticks],
        other=[original.size.width.ticks, original.size.height.ticks],
    )


def _handed(pair: Pair) -> Finding:
    piece = pair.piece
    message = (
        f"{_called(piece)} differs from its mirror image, and its {piece.count} copies, all alike, are used left and "
        "right. Make two pieces of it, one with `mirror_of`, if they should mirror each other."
    )
    return HANDED_PAIR.finding(
        piece_place(pair.project.id, piece.id), pair.left, pair.right, message=message, count=piece.count
    )


def _called(piece: Piece) -> str:
    return f"{piece.id} ({shortened(piece.name)})"


def _upper(words: str) -> str:
    return words[:1].upper() + words[1:]
