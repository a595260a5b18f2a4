"""What is asked of each print: everything cut from its sheets, and from the cut-outs that come out of these pieces.

A `PrintPart` is plain data that names no kit: two kits that ask the same of the same sheet share one answer, and a
change elsewhere in a kit leaves its key as it was.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import asdict, dataclass

from layouts.document import Each, Kit, Paper, Piece, Project, Size, Window, form_place, piece_place
from layouts.errors import KitproofError
from layouts.lengths import Length
from layouts.shapes import (
    MOST_PARTS,
    FlatSizes,
    NotBuilt,
    Showing,
    UsableSheet,
    cut_out,
    cut_size,
    turns_on_sheet,
    usable_sheet,
)

__all__ = ["KeptWindow", "PrintPart", "Want", "host_of", "kept_window", "papers_of", "print_parts", "printed_step"]


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
    copies: range
    turns: tuple[tuple[int, Showing], ...]
    host: tuple[str, str] | None = None
    windows: tuple[KeptWindow, ...] = ()


@dataclass(frozen=True, slots=True)
class PrintPart:
    """All that decides the answer for one print. Lengths in ticks.

    `sheet` is what can be used of a sheet with the stated slack, `tighter` with the slack raised by one printed step,
    or the same where nobody asks whether the list just fits.
    In `wants` every piece stands behind the one whose cut-out it comes from. `not_built` is why something on this
    print cannot be computed yet, or nothing. `is_quick`: a short search will do, as for what is only tried;
    `is_glance`: no search at all, but bounds and our own quick plans.
    """

    paper: str
    sheets: int
    sheet: UsableSheet
    slack: int
    tighter: UsableSheet
    tighter_slack: int
    wants: tuple[Want, ...]
    not_built: tuple[str, ...] = ()
    is_quick: bool = False
    is_glance: bool = False

    @property
    def key(self) -> str:
        """The SHA-256 of the part: equal parts have equal answers. Its paper's name is no part of it."""
        facts = asdict(self)
        del facts["paper"]
        for want in facts["wants"]:
            want["copies"] = [want["copies"].start, want["copies"].stop]
        return hashlib.sha256(json.dumps(facts, sort_keys=True, separators=(",", ":")).encode()).hexdigest()

    @property
    def is_verdict_enough(self) -> bool:
        """Whether nobody asks for more than the verdict: neither why it is short nor how dead a fit it is."""
        return self.tighter_slack == self.slack

    @property
    def direct(self) -> tuple[Want, ...]:
        """What is cut from the sheets themselves."""
        return tuple(want for want in self.wants if want.host is None)


class CutOutLoop(KitproofError):
    """Pieces that come out of their own cut-outs: no document that was read holds any."""

    code = "own-cut-out"


@dataclass(frozen=True, slots=True)
class _Made:
    """A piece in its project, with the copies of it that lie on each paper."""

    project: Project
    piece: Piece
    on_paper: Mapping[str, range]


@dataclass(slots=True)
class _Asked:
    """What has been gathered so far for one paper."""

    paper: Paper
    wants: list[Want]
    not_built: list[str]


def print_parts(kit: Kit) -> tuple[PrintPart, ...]:
    """Return one part for every paper of the kit, in document order."""
    asked = {paper.id: _Asked(paper, [], []) for paper in kit.papers}
    _ask_for_pieces(kit, asked)
    _ask_for_flat_parts(kit, asked)
    pads = {pad.id: pad for pad in kit.pads}
    slack = kit.cutting.slack
    tighter = slack + printed_step(kit)
    return tuple(
        PrintPart(
            paper=one.paper.id,
            sheets=one.paper.sheets,
            sheet=usable_sheet(one.paper, pads, slack),
            slack=slack.ticks,
            tighter=usable_sheet(one.paper, pads, tighter),
            tighter_slack=tighter.ticks,
            wants=tuple(one.wants),
            not_built=tuple(one.not_built),
        )
        for one in asked.values()
    )


def printed_step(kit: Kit) -> Length:
    """Return the printed step of the document's own unit."""
    return kit.printed.in_ if kit.unit == "in" else kit.printed.mm


def papers_of(reference: str | Each | None, makes: int, count: int) -> dict[str, range]:
    """Return which copies of a thing are cut from which paper; copies count from 1 over the whole kit.

    >>> papers_of(Each(each=("oak", "ash")), makes=2, count=3)
    {'oak': range(1, 4), 'ash': range(4, 7)}
    """
    # Ranges, not lists of numbers: a document of one line may ask for a hundred million copies.
    if reference is None:
        return {}
    if isinstance(reference, Each):
        return {paper: range(at * count + 1, (at + 1) * count + 1) for at, paper in enumerate(reference.each)}
    return {reference: range(1, makes * count + 1)}


def host_of(piece: Piece) -> tuple[str, str] | None:
    """Return the place of the piece and the window that a piece comes out of, if it does."""
    if piece.from_ is None:
        return None
    project, host, window = piece.from_.split("/")
    return piece_place(project, host), window


def _ask_for_pieces(kit: Kit, asked: Mapping[str, _Asked]) -> None:
    feeding = {piece.from_ for project in kit.projects for piece in project.pieces if piece.from_}
    tools = {tool.id: tool for tool in kit.tools}
    for made in _pieces(kit):
        place = piece_place(made.project.id, made.piece.id)
        windows, not_built = _kept_windows(made, feeding)
        size = cut_size(made.piece, tools)
        for paper, copies in made.on_paper.items():
            one = asked[paper]
            one.not_built += [f"{place}/{reason}" for reason in not_built]
            one.wants.append(
                Want(
                    place=place,
                    width=size.width.ticks,
                    height=size.height.ticks,
                    copies=copies,
                    turns=tuple(turns_on_sheet(one.paper, made.piece.side, made.piece.print_reads).items()),
                    host=host_of(made.piece),
                    windows=windows,
                )
            )


def _pieces(kit: Kit) -> Iterator[_Made]:
    """Every piece, those out of cut-outs behind the pieces they come out of. Raises: CutOutLoop."""
    guests: dict[str, list[tuple[Project, Piece]]] = {}
    found: list[_Made] = []
    for project in kit.projects:
        for piece in project.pieces:
            host = host_of(piece)
            if host is None:
                found.append(_Made(project, piece, papers_of(piece.paper, project.makes, piece.count)))
            else:
                guests.setdefault(host[0], []).append((project, piece))
    for made in found:  # which grows meanwhile by what comes out of its members
        yield made
        for project, piece in guests.pop(piece_place(made.project.id, made.piece.id), ()):
            copies = project.makes * piece.count
            found.append(_Made(project, piece, _shared_out(copies, made.on_paper)))
    if guests:
        raise CutOutLoop(f"pieces come out of their own cut-outs: {', '.join(sorted(guests))}")


def _shared_out(copies: int, hosts: Mapping[str, range]) -> dict[str, range]:
    """Share the copies of a piece out among the papers of its hosts, in order and in proportion.

    A project that is cut from several prints, one copy from each, so takes each copy's picture from its own print.

    >>> _shared_out(3, {"oak": range(1, 2), "ash": range(2, 3)})
    {'oak': range(1, 3), 'ash': range(3, 4)}
    """
    cut_outs = sum(map(len, hosts.values()))
    shares: dict[str, range] = {}
    first = passed = 0
    for paper, numbers in hosts.items():
        passed += len(numbers)
        after = -(-copies * passed // cut_outs)
        if after > first:
            shares[paper] = range(first + 1, after + 1)
        first = after
    return shares


def _kept_windows(made: _Made, feeding: set[str]) -> tuple[tuple[KeptWindow, ...], Sequence[str]]:
    """The windows of a piece that others come out of, and why one of them cannot be computed."""
    windows, not_built = [], []
    for window in made.piece.windows:
        if f"{made.project.id}/{made.piece.id}/{window.id}" in feeding:
            try:
                windows.append(kept_window(window, made.piece.size))
            except NotBuilt as reason:
                not_built.append(f"window:{window.id}: {reason}")
    return tuple(windows), not_built


def kept_window(window: Window, whole: Size) -> KeptWindow:
    """Return what a window of a whole offers that others come out of: nothing where its cut-out is waste, since nobody
    keeps it. Raises: NotBuilt."""
    offered = cut_out(window, whole) if window.cut_out == "kept" else None
    width, height = (offered.width.ticks, offered.height.ticks) if offered is not None else (0, 0)
    return KeptWindow(window.id, width, height)


def _ask_for_flat_parts(kit: Kit, asked: Mapping[str, _Asked]) -> None:
    flat = FlatSizes.of(kit)
    parts_left = MOST_PARTS
    for project in kit.projects:
        for form in project.forms:
            place = form_place(project.id, form.id)
            for paper, copies in papers_of(form.paper, project.makes, form.count).items():
                one = asked[paper]
                try:
                    parts = flat.parts(form, project.id, one.paper)
                    parts_left -= len(parts)
                    if parts_left < 0:
                        raise NotBuilt(f"the forms of this kit are cut in more than {MOST_PARTS:,} parts")
                except NotBuilt as reason:
                    one.not_built.append(f"{place}: {reason}")
                    continue
                turns = tuple(turns_on_sheet(one.paper, form.side, form.print_reads).items())
                for part in parts:
                    name = place if part.number is None else f"{place}/part:{part.number}"
                    one.wants.append(Want(name, part.width.ticks, part.height.ticks, copies, turns))
