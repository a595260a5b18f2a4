"""The papers of a report: for each its verdict, and each sheet as a picture with its pieces below or beside it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from layouts.document import Kit, form_place, piece_place
from layouts.lengths import Length
from layouts.proofing.report.lines import WIDTH, counted, shown, wrapped
from layouts.proofing.report.mends import idea_lines
from layouts.proofing.report.picture import leaves_of, sheet_picture
from layouts.proofing.report.spare import spare_lines, weakest_lines
from layouts.proofing.rules.papers import beyond_any_sheet

__all__ = ["papers"]

_PICTURE = 36
# A longer one has a line of its own.
_LETTERS = 9
_INDENT = "  "
_GAP = "  "
# Two of them beside each other.
_COLUMN = (WIDTH - len(_INDENT) - len(_GAP)) // 2


@dataclass(frozen=True, slots=True)
class _Row:
    """What is cut alike from one sheet: its letter, its size as it is seen, and in words what else there is to know."""

    letter: str
    size: str
    words: str


def papers(kit: Kit, proof: Mapping[str, Any]) -> Iterator[str]:
    """Yield the lines about all papers, in document order."""
    names = {paper.id: paper.name for paper in kit.papers}
    called = _Names(kit)
    never = beyond_any_sheet(proof["findings"])
    for number, paper in enumerate(proof["papers"]):
        if number:
            yield ""
        yield from wrapped(f"{names[paper['paper']]}: {_verdict(paper, paper['paper'] in never)}")
        yield from _beside_each_other([_block(kit, alike, called) for alike in _alike(paper["plan"])])
        yield from spare_lines(paper, called.letter)
        yield from idea_lines(paper)
    if not proof["papers"]:
        yield "This kit has no paper yet."
    yield from weakest_lines(kit, proof, called.letter, called.name)


def _verdict(paper: Mapping[str, Any], is_never: bool) -> str:
    """The verdict of a paper in words; `is_never`: some piece can be cut from none of its sheets."""
    box, needed = counted(paper["sheets"], "sheet"), paper["needed"]
    least, most = needed["at_least"], needed["at_most"]
    if paper["verdict"] == "fits":
        if not paper["plan"]:
            return f"nothing is cut from it ({box} in the box)."
        return f"fits. {len(paper['plan'])} of {box} touched, {_percent(paper['yield'])} of the paper used."
    if paper["verdict"] == "short" and is_never:
        return f"SHORT. {box} in the box, and no number would do: something lies on none of its sheets."
    if paper["verdict"] == "short":
        would = f", {most} would do" if most is not None else ""
        return f"SHORT. {box} in the box, {least} or more needed{would} (proof: {paper['reason']['kind']})."
    if most is not None and most <= paper["sheets"]:
        return f"UNKNOWN. Its {counted(most, 'sheet')} suffice, but not everything is known to come out of cut-outs."
    if paper["reason"]["kind"] == "not-built":
        return f"UNKNOWN. {box} in the box; not everything that is cut from it can be worked out yet."
    best = f"the best plan found takes {most}, below" if most is not None else "no plan was found"
    return f"UNKNOWN. {box} in the box, {least} or more needed; {best}."


def _percent(share: str) -> str:
    """“0.853” as “85.3 %”; the text is exact, so no arithmetic is."""
    digits = share.replace(".", "").lstrip("0").rjust(2, "0")
    return f"{digits[:-1]}.{digits[-1]} %"


def _alike(plan: Sequence[Mapping[str, Any]]) -> Iterator[tuple[str, Mapping[str, Any]]]:
    """Yield the trees of a plan, those that follow each other and differ only in the numbers of copies once."""
    first: Mapping[str, Any] | None = None
    last = 0
    for planned in plan:
        if first is not None and not _is_alike(first["tree"], planned["tree"]):
            yield _named(first["sheet"], last), first["tree"]
            first = None
        first = first or planned
        last = planned["sheet"]
    if first is not None:
        yield _named(first["sheet"], last), first["tree"]


def _named(first: int, last: int) -> str:
    return f"Sheet {first}" if first == last else f"Sheets {first} to {last}, all alike"


def _is_alike(one: Any, other: Any) -> bool:
    if isinstance(one, dict) and isinstance(other, dict):
        return one.keys() == other.keys() and all(key == "copy" or _is_alike(one[key], other[key]) for key in one)
    if isinstance(one, list) and isinstance(other, list):
        return len(one) == len(other) and all(map(_is_alike, one, other))
    return bool(one == other)


type _Block = tuple[list[str], list[str]]


def _block(kit: Kit, alike: tuple[str, Mapping[str, Any]], called: _Names) -> _Block:
    """The picture of a sheet, and its name with one entry for each size of piece on it."""
    name, tree = alike
    picture = sheet_picture(tree, called.letter, _PICTURE)
    rows = Counter(_rows(kit, tree, called, ""))
    letters = max((len(row.letter) for row in rows if len(row.letter) <= _LETTERS), default=0)
    sizes = max((len(row.size) for row in rows), default=0)
    counts = max((len(_times(count)) for count in rows.values()), default=0)
    lines = [name]
    for row, count in rows.items():
        start = f"  {row.letter:<{letters}}  {_times(count):>{counts}}{row.size:<{sizes}}  "
        if len(row.letter) <= _LETTERS and len(start) <= _COLUMN * 2 // 3:
            lines += _in_column(row.words, start, " " * len(start)) or [start.rstrip()]
        else:
            lines += [f"  {row.letter}", *_in_column(f"{_times(count)}{row.size} {row.words}", " " * 4, " " * 4)]
    return picture, lines


def _in_column(text: str, first: str, later: str) -> list[str]:
    return wrapped(text, first, later, width=_COLUMN, break_words=True)


def _times(count: int) -> str:
    return f"{count} of " if count > 1 else ""


def _rows(kit: Kit, tree: Mapping[str, Any], called: _Names, source: str) -> Iterator[_Row]:
    for leaf in leaves_of(tree):
        if "piece" not in leaf:
            continue
        letter = called.letter(leaf["piece"])
        name = shown(called.name(leaf["piece"]))
        words = [name] if name.casefold() != letter.casefold() else []
        if leaf.get("side") == "back":
            words.append("back up")
        if leaf["turn"] and not source:
            words.append(f"turned {leaf['turn']}°")
        yield _Row(letter, _size(kit, leaf), (", ".join(words) + source).removeprefix(", "))
        for window, inner in leaf.get("cut_outs", {}).items():
            yield from _rows(kit, inner, called, f", from {letter}’s cut-out {window}: KEEP it")


def _size(kit: Kit, leaf: Mapping[str, Any]) -> str:
    width, height = leaf["width"], leaf["height"]
    if leaf["turn"] in (90, 270):
        width, height = height, width
    return f"{Length(width, kit.unit).text(kit.unit)} × {Length(height, kit.unit).text(kit.unit)}"


def _beside_each_other(blocks: Sequence[_Block]) -> Iterator[str]:
    """Two sheets stand beside each other with their pieces below; a single one has its pieces beside it."""
    for at in range(0, len(blocks), 2):
        if at:
            yield ""
        columns = [[*picture, *lines] for picture, lines in blocks[at : at + 2]]
        if len(columns) == 1:
            columns = list(blocks[at])
        for line in range(max(map(len, columns))):
            cells = [(column[line] if line < len(column) else "").ljust(_COLUMN) for column in columns]
            yield f"{_INDENT}{_GAP.join(cells)}".rstrip()


class _Names:
    """What people call the things that are cut, by their places; a flat part by its form and its number."""

    def __init__(self, kit: Kit) -> None:
        self._things: dict[str, tuple[str, str]] = {}
        for project in kit.projects:
            self._things |= {piece_place(project.id, one.id): (one.id, one.name) for one in project.pieces}
            self._things |= {form_place(project.id, one.id): (one.id, one.name) for one in project.forms}

    def letter(self, place: str) -> str:
        whole, part, number = place.partition("/part:")
        return f"{self._things[whole][0]} {number}" if part else self._things[whole][0]

    def name(self, place: str) -> str:
        whole, part, number = place.partition("/part:")
        return f"{self._things[whole][1]}, part {number}" if part else self._things[whole][1]
