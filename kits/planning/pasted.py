"""Read a cutting list that was pasted: rows of a spreadsheet, or one line of words for each piece.

A row is read by what its cells are, not by where they stand: two lengths are width and height, a whole number is the
count, the name of a print is the print, one or two capital letters at the beginning are the letter, and what is left is
the name. A line of words is read the same way, once its size (6 3/4 x 4 3/4) and its count (2 of, 2 x) are found in it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence, Set
from dataclasses import dataclass, replace
from typing import Any

from layouts.document import Kit, Paper, Project
from layouts.lengths import BadLength, System, parse_length

__all__ = ["MOST_LINES", "PastedPiece", "prints_in", "read_pasted"]

# A cutting list of more lines than this is none that somebody made by hand.
MOST_LINES = 300

_VULGAR = "¼½¾⅛⅜⅝⅞"
_NUMBER = rf"(?:\d+[ -]\d+/\d+|\d+/\d+|\d+[.,]\d+|\d+[{_VULGAR}]|[{_VULGAR}]|\d+)"
_LENGTH = rf"{_NUMBER}(?: ?(?:in\b|mm\b|cm\b|[\"″]))?"
_SIZE = re.compile(rf"(?<![\w/.,])(?P<width>{_LENGTH})\s*(?:[x×X]|by)\s*(?P<height>{_LENGTH})(?![\w/])")
_COUNT = re.compile(r"(?<![\w/.,])(?P<count>\d{1,5})\s*(?:of\b|[x×](?!\w)|pcs?\b|pieces?\b|times\b)", re.IGNORECASE)
_CUT = re.compile(r"\b(?:cut|make|count|quantity|qty)\s*:?\s*(?P<count>\d{1,5})\b", re.IGNORECASE)
_LETTER = re.compile(r"^\s*(?P<letter>[A-Z]{1,2}\d{0,2})(?=\s|[.:)\u2013-]|$)[.:)\u2013-]?\s*")
_FROM = re.compile(r"(?<!\w)(?:from|of|on|in|out of)\s+(?P<name>[A-Z][^\t,;]*)")
_HEADS = frozenset(
    {"letter", "id", "piece", "name", "part", "width", "wide", "height", "high", "size", "count", "cut", "quantity"}
    | {"qty", "number", "print", "paper", "w", "h", "in", "mm", "cm", "inches", "side", "reads"}
)


@dataclass(frozen=True, slots=True)
class PastedPiece:
    """One line that was pasted, by its number from 1, as a piece; or, in `wrong`, why it is none.

    Lengths are texts as they were written. Where no letter is given, `letter` is the next free one.
    """

    number: int
    text: str
    letter: str = ""
    name: str = ""
    width: str = ""
    height: str = ""
    count: int = 1
    paper: str = ""
    side: str = "front"
    wrong: str = ""

    def as_piece(self) -> dict[str, Any]:
        """The piece as plain JSON."""
        piece: dict[str, Any] = {"id": self.letter, "name": self.name, "size": [self.width, self.height]}
        piece |= {"count": self.count, "side": self.side}
        return {**piece, "paper": self.paper} if self.paper else piece


def read_pasted(text: str, kit: Kit, project: Project, letters: Iterator[str]) -> tuple[PastedPiece, ...]:
    """Return the pieces of a pasted list, line by line; empty lines and a line of headings are passed over.

    `letters` are those that are free in the project, for pieces without one of their own.
    """
    prints = _prints(kit.papers)
    taken = {made.id.casefold() for made in (*project.pieces, *project.forms)}
    found: list[PastedPiece] = []
    for number, line in enumerate(text.splitlines(), start=1):
        if not line.strip() or _is_heading(line):
            continue
        if len(found) == MOST_LINES:
            found.append(PastedPiece(number, line, wrong=f"this and what follows: more than {MOST_LINES} lines"))
            break
        found.append(_judged(_read(number, line, prints), kit.unit, taken))
        if found[-1].letter:
            taken.add(found[-1].letter.casefold())
    free = (letter for letter in letters if letter.casefold() not in taken)
    return tuple(one if one.letter or one.wrong else replace(one, letter=next(free)) for one in found)


def prints_in(text: str) -> tuple[str, ...]:
    """Return what may be names of prints in a list whose kit has none yet, each once, in the order of the list.

    In rows that is the column headed so, or else the last cell of words beside the name; in a line of words what
    comes after “from” or “of”, or in capitals at the end, behind the size.

    >>> prints_in("A front 6 x 4, 2 of Kelp\\nB rear 6 x 4 from Slate")
    ('Kelp', 'Slate')
    """
    found: dict[str, str] = {}
    column: int | None = None
    for line in text.splitlines()[:MOST_LINES]:
        cells = _cells(line)
        if _is_heading(line):
            heads = [cell.casefold() for cell in cells]
            column = next((heads.index(head) for head in ("print", "paper") if head in heads), None)
            continue
        name = _print_of_cells(cells, column) if len(cells) > 2 else _print_of_words(line)
        if name:
            found.setdefault(name.casefold(), name)
    return tuple(found.values())


def _print_of_cells(cells: Sequence[str], column: int | None) -> str:
    if column is not None:
        return cells[column] if column < len(cells) else ""
    words = [cell for cell in cells if re.search(r"[^\W\d]{3}", cell) and not _SIZE.fullmatch(cell)]
    return words[-1] if len(words) > 1 else ""


def _print_of_words(line: str) -> str:
    size = _SIZE.search(line)
    if size is None:
        return ""
    before, after = line[: size.start()], line[size.end() :]
    after = re.sub(r"^[\s,;:.]+", "", _CUT.sub("\t", _COUNT.sub("\t", after))).strip("\t ,;.")
    named = _FROM.search(before) or _FROM.search(after)
    last = named["name"] if named else re.split(r"[\t,;]", after)[-1]
    name = last.strip(" .")
    return name if name[:1].isupper() and re.search(r"[^\W\d]{3}", name) else ""


def _read(number: int, line: str, prints: Mapping[str, tuple[str, str]]) -> PastedPiece:
    cells = _cells(line)
    return _of_cells(number, line, cells, prints) if len(cells) > 2 else _of_words(number, line, prints)


def _cells(line: str) -> list[str]:
    """The cells of a row, parted by tabs, semicolons or strokes; a comma may belong to a number."""
    mark = next((mark for mark in ("\t", ";", "|") if mark in line), None)
    return [cell.strip() for cell in line.split(mark)] if mark else [line]


def _of_cells(number: int, line: str, cells: Sequence[str], prints: Mapping[str, tuple[str, str]]) -> PastedPiece:
    piece = PastedPiece(number, line)
    lengths: list[str] = []
    names: list[str] = []
    for at, cell in enumerate(cells):
        size = _SIZE.fullmatch(cell)
        if not cell:
            continue
        if cell.casefold() in prints:
            paper, side = prints[cell.casefold()]
            piece = replace(piece, paper=paper, side=side)
        elif size:
            lengths += [size["width"], size["height"]]
        elif re.fullmatch(_LENGTH, cell) and len(lengths) < 2:
            lengths.append(cell)
        elif re.fullmatch(r"\d{1,5}", cell):
            piece = replace(piece, count=int(cell))
        elif at == 0 and _LETTER.fullmatch(cell):
            piece = replace(piece, letter=cell.rstrip(".:)"))
        else:
            names.append(cell)
    return _sized(replace(piece, name=", ".join(names)), lengths)


def _of_words(number: int, line: str, prints: Mapping[str, tuple[str, str]]) -> PastedPiece:
    piece, rest = PastedPiece(number, line), line
    size = _SIZE.search(rest)
    if size is None:
        return replace(piece, wrong="no size is in it, such as 6 3/4 x 4 3/4")
    rest = f"{rest[: size.start()]}\t{rest[size.end() :]}"
    letter = _LETTER.match(rest)
    if letter:
        piece, rest = replace(piece, letter=letter["letter"]), rest[letter.end() :]
    count = _COUNT.search(rest) or _CUT.search(rest)
    if count:
        piece, rest = replace(piece, count=int(count["count"])), f"{rest[: count.start()]}\t{rest[count.end() :]}"
    for name in sorted(prints, key=len, reverse=True):
        here = re.search(rf"(?<!\w)(?:from |of |on |in )?{re.escape(name)}(?!\w)", rest, re.IGNORECASE)
        if here:
            paper, side = prints[name]
            piece, rest = replace(piece, paper=paper, side=side), f"{rest[: here.start()]}\t{rest[here.end() :]}"
            break
    rest = rest.lstrip(" \t,;:.")
    if not letter and (letter := _LETTER.match(rest)):  # the count stood before it
        piece, rest = replace(piece, letter=letter["letter"]), rest[letter.end() :]
    words = [part.strip(" ,;:.\u2013-()") for part in rest.split("\t")]
    return _sized(replace(piece, name=", ".join(filter(None, words))), [size["width"], size["height"]])


def _sized(piece: PastedPiece, lengths: Sequence[str]) -> PastedPiece:
    return replace(piece, width=lengths[0], height=lengths[1]) if len(lengths) == 2 else piece


def _judged(piece: PastedPiece, unit: System, taken: Set[str]) -> PastedPiece:
    """Say what keeps a line from being a piece, the first thing first."""
    if piece.wrong:
        return piece
    if not piece.width:
        return replace(piece, wrong="two lengths are needed, width and height")
    for length in (piece.width, piece.height):
        try:
            parsed = parse_length(length, unit)
        except BadLength as error:
            return replace(piece, wrong=str(error))
        if not parsed:
            return replace(piece, wrong="a side is nothing long")
    if not 1 <= piece.count <= 10_000:
        return replace(piece, wrong=f"a count is 1 to 10,000, not {piece.count:,}")
    if piece.letter.casefold() in taken:
        return replace(piece, wrong=f"{piece.letter} is there already")
    return piece if piece.name else replace(piece, name=piece.letter or "piece")


def _prints(papers: Sequence[Paper]) -> dict[str, tuple[str, str]]:
    """What prints are called, in small letters: by their paper, and by each side; the first of a name counts."""
    names: dict[str, tuple[str, str]] = {}
    for paper in papers:
        for called in (paper.name, paper.id, paper.front.name):
            names.setdefault(called.casefold(), (paper.id, "front"))
    for paper in papers:
        if paper.back is not None:
            names.setdefault(paper.back.name.casefold(), (paper.id, "back"))
    return {name: found for name, found in names.items() if name.strip()}


def _is_heading(line: str) -> bool:
    """Whether a line is one of headings: words, each of which names a column."""
    words = [word for word in re.split(r"[\s;|,×]+", line.casefold()) if word]
    return bool(words) and all(word in _HEADS for word in words)
