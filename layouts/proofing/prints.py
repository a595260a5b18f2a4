"""What is asked of each print: everything cut from its sheets, and from the cut-outs that come out of these pieces.

A `PrintPart` is plain data that names no kit: two kits that ask the same of the same sheet share one answer, and a
change elsewhere in a kit leaves its key as it was.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterator, Mapping
from dataclasses import asdict, dataclass

from layouts.document import Each, Kit, Paper, Piece, Project, Size, Tool, Window, form_place, piece_place
from layouts.errors import KitproofError
from layouts.lengths import Length
from layouts.shapes import (
    FlatSizes,
    NotBuilt,
    Showing,
    UsableSheet,
    cut_out,
    cut_size,
    turns_on_sheet,
    usable_sheet,
)

__all__ = ["KeptWindow", "PrintPart", "Want", "papers_of", "print_parts", "printed_step"]


@dataclass(frozen=True, slots=True)
class KeptWindow:
    """A window that pieces come from, and the rectangle its cut-out offers, in ticks (0 by 0 where it is not kept)."""

    id: str
    width: int
    height: int


@dataclass(frozen=True, slots=True)
class Want:
    """One piece or flat part to be cut, in ticks, the right way up; `copies` are its numbers over the whole kit.

    `turns` are the turns in which it may lie as seen on a sheet, each with the side that shows: also for a piece that
    comes out of a cut-out, since that was on the sheet as well. `host` is the place of the piece and the window that
    it comes out of. `windows` are those that others come out of.
    """

    place: str
    width: int
    height: int
    copies: tuple[int, ...]
    turns: tuple[tuple[int, Showing], ...]
    host: tuple[str, str] | None = None
    windows: tuple[KeptWindow, ...] = ()


@dataclass(frozen=True, slots=True)
class PrintPart:
    """All that decides the answer for one print. Lengths in ticks.

    `sheet` is what can be used of a sheet with the stated slack, `tighter` with the slack raised by one printed step.
    `not_built` is why something on this print cannot be computed yet, or nothing.
    """

    paper: str
    sheets: int
    sheet: UsableSheet
    slack: int
    tighter: UsableSheet
    tighter_slack: int
    wants: tuple[Want, ...]
    not_built: tuple[str, ...] = ()

    @property
    def key(self) -> str:
        """The SHA-256 of the part: equal parts have equal answers. Its paper's name is no part of it."""
        facts = asdict(self)
        del facts["paper"]
        return hashlib.sha256(json.dumps(facts, sort_keys=True, separators=(",", ":")).encode()).hexdigest()

    @property
    def direct(self) -> tuple[Want, ...]:
        """What is cut from the sheets themselves."""
        return tuple(want for want in self.wants if want.host is None)


@dataclass(frozen=True, slots=True)
class _Made:
    """A piece in its project, with the copies of it that lie on each paper."""

    project: Project
    piece: Piece
    on_paper: Mapping[str, tuple[int, ...]]


def print_parts(kit: Kit) -> tuple[PrintPart, ...]:
    """Return one part for every paper of the kit, in document order."""
    made = dict(_pieces(kit))
    feeding = {piece.from_ for project in kit.projects for piece in project.pieces if piece.from_}
    tools = {tool.id: tool for tool in kit.tools}
    pads = {pad.id: pad for pad in kit.pads}
    flat = FlatSizes.of(kit)
    slack = kit.cutting.slack
    tighter = slack + printed_step(kit)
    parts = []
    for paper in kit.papers:
        not_built: list[str] = []
        wants = (
            *_piece_wants(made, paper, feeding, tools, not_built),
            *_flat_wants(kit, paper, flat, not_built),
        )
        parts.append(
            PrintPart(
                paper=paper.id,
                sheets=paper.sheets,
                sheet=usable_sheet(paper, pads, slack),
                slack=slack.ticks,
                tighter=usable_sheet(paper, pads, tighter),
                tighter_slack=tighter.ticks,
                wants=wants,
                not_built=tuple(not_built),
            )
        )
    return tuple(parts)


def printed_step(kit: Kit) -> Length:
    """Return the printed step of the document's own unit."""
    return kit.printed.in_ if kit.unit == "in" else kit.printed.mm


def papers_of(reference: str | Each | None, makes: int, count: int) -> dict[str, tuple[int, ...]]:
    """Return which copies of a thing are cut from which paper; copies count from 1 over the whole kit.

    >>> papers_of(Each(each=("oak", "ash")), makes=2, count=3)
    {'oak': (1, 2, 3), 'ash': (4, 5, 6)}
    """
    if reference is None:
        return {}
    if isinstance(reference, Each):
        return {paper: tuple(range(at * count + 1, (at + 1) * count + 1)) for at, paper in enumerate(reference.each)}
    return {reference: tuple(range(1, makes * count + 1))}


def _pieces(kit: Kit) -> Iterator[tuple[str, _Made]]:
    """Every piece by its place, those out of cut-outs after the pieces they come out of."""
    found: dict[str, _Made] = {}
    waiting = [(project, piece) for project in kit.projects for piece in project.pieces]
    while waiting:
        later = []
        for project, piece in waiting:
            host = _host(piece)
            if host is None:
                on_paper = papers_of(piece.paper, project.makes, piece.count)
            elif host[0] in found:
                on_paper = _shared_out(project.makes * piece.count, found[host[0]].on_paper)
            else:
                later.append((project, piece))
                continue
            found[piece_place(project.id, piece.id)] = _Made(project, piece, on_paper)
        if len(later) == len(waiting):
            # The reader refuses such loops; going on here would never end.
            raise CutOutLoop(f"{later[0][0].id}/{later[0][1].id} comes out of its own cut-out")
        waiting = later
    yield from found.items()


class CutOutLoop(KitproofError):
    """Pieces that come out of their own cut-outs: no document that was read holds any."""

    code = "own-cut-out"


def _host(piece: Piece) -> tuple[str, str] | None:
    """The place of the piece, and the window, that a piece comes out of."""
    if piece.from_ is None:
        return None
    project, host, window = piece.from_.split("/")
    return piece_place(project, host), window


def _shared_out(copies: int, hosts: Mapping[str, tuple[int, ...]]) -> dict[str, tuple[int, ...]]:
    """Share the copies of a piece out among the papers of its hosts, in order and in proportion.

    A project that is cut from several prints, one copy from each, so takes each copy's picture from its own print.
    """
    papers = [paper for paper, numbers in hosts.items() for _ in numbers]
    shares: dict[str, list[int]] = {paper: [] for paper in hosts}
    for copy in range(copies) if papers else ():
        shares[papers[copy * len(papers) // copies]].append(copy + 1)
    return {paper: tuple(numbers) for paper, numbers in shares.items() if numbers}


def _piece_wants(
    made: Mapping[str, _Made], paper: Paper, feeding: set[str], tools: Mapping[str, Tool], not_built: list[str]
) -> Iterator[Want]:
    for place, one in made.items():
        copies = one.on_paper.get(paper.id)
        if not copies:
            continue
        size = cut_size(one.piece, tools)
        windows = []
        for window in one.piece.windows:
            if f"{one.project.id}/{one.piece.id}/{window.id}" not in feeding:
                continue
            try:
                windows.append(_kept_window(window, one.piece.size))
            except NotBuilt as reason:
                not_built.append(f"{place}/window:{window.id}: {reason}")
        yield Want(
            place=place,
            width=size.width.ticks,
            height=size.height.ticks,
            copies=copies,
            turns=tuple(turns_on_sheet(paper, one.piece.side, one.piece.print_reads).items()),
            host=_host(one.piece),
            windows=tuple(windows),
        )


def _kept_window(window: Window, whole: Size) -> KeptWindow:
    """What a window offers that others come out of: nothing where its cut-out is waste, since nobody keeps it."""
    offered = cut_out(window, whole) if window.cut_out == "kept" else None
    width, height = (offered.width.ticks, offered.height.ticks) if offered is not None else (0, 0)
    return KeptWindow(window.id, max(width, 0), max(height, 0))


def _flat_wants(kit: Kit, paper: Paper, flat: FlatSizes, not_built: list[str]) -> Iterator[Want]:
    """The flat parts that are cut from a paper."""
    for project in kit.projects:
        for form in project.forms:
            copies = papers_of(form.paper, project.makes, form.count).get(paper.id)
            if not copies:
                continue
            place = form_place(project.id, form.id)
            try:
                parts = flat.parts(form, project.id, paper)
            except NotBuilt as reason:
                not_built.append(f"{place}: {reason}")
                continue
            turns = tuple(turns_on_sheet(paper, form.side, form.print_reads).items())
            for part in parts:
                name = place if part.number is None else f"{place}/part:{part.number}"
                yield Want(name, part.width.ticks, part.height.ticks, copies, turns)
