"""The cut guide: every sheet of the plan, drawn to scale, with its cuts as a numbered table."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from kits.sheets.content.cut_outs import can_be_cut, lost_pieces
from kits.sheets.content.cut_rows import CutRow, cut_rows, cuts_counted, lines_of
from kits.sheets.content.measures import Measures
from kits.sheets.content.room import Room, room_of
from kits.sheets.content.schedule import KitSchedule, kit_schedule
from kits.sheets.content.spare import GuideSpare, guide_spare
from kits.sheets.content.turns import are_in_turns
from kits.sheets.options import SheetOptions
from layouts.assembly import one_person, steps_of
from layouts.cutting.behind import seen_from_behind
from layouts.cutting.sequence import sequence_of, without_slivers
from layouts.document import Kit, Paper, piece_place
from layouts.drawing import GuideDrawing, Letters, Mark, ScaledDrawing, guide_drawing
from layouts.lengths import TICKS_PER_MM, System

__all__ = ["CutGuide", "GuideSheet", "cut_guide", "sheets_of_print"]

type Node = Mapping[str, Any]

# On paper, in millimetres. A drawing stands beside its table, in large print above it, both on one page. Where the
# table is longer than that, the drawing may take a page: many numbers need much room. In large print the table then
# follows on the next one, whole.
_BESIDE = (92, 104)
_LONG = 28  # rows that a page holds beside a drawing
_CUT_OUT = (150, 120)  # in lines
# Large print: heading and gaps, a line or a row, the gap after what to keep, the least height worth a drawing; and how
# many letters a line holds, of what to keep less, for that is bold.
_REST, _ROW, _AFTER, _LEAST = 20, 9, 2, 110
_SIDE, _KEEP = 66, 54
# How many letters the last column holds in a line: beside a drawing, and in large print below it.
_NARROW, _LARGE = 11, 26
_SCALE = " To scale, 1 : 2.5."


@dataclass(frozen=True, slots=True)
class GuideSheet:
    """One sheet, or what comes out of a window: how it lies, its drawing, its cuts, what it gives, what to keep.

    `whole` says what the first cut takes in hand, `is_above` that the drawing stands above its table, not beside it,
    `is_apart` that it has a page for itself.
    `counted` says how many cuts and settings there are and whether fewer would do, `windows` what is cut after them,
    `signs` what in the drawing needs a word.
    """

    heading: str
    side: str
    whole: str
    drawing: ScaledDrawing
    is_above: bool
    is_apart: bool
    words: str
    gives: str
    rows: tuple[CutRow, ...]
    keep: tuple[str, ...] = ()
    is_cut_out: bool = False
    counted: str = ""
    windows: tuple[str, ...] = ()
    signs: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class CutGuide:
    """All sheets in the order to cut them, what there is no plan of, with why, what to make when, and
    what can be cut again. `in_turns`: what to make when does not follow the order of projects."""

    order: tuple[str, ...]
    in_turns: bool
    sheets: tuple[GuideSheet, ...]
    missing: tuple[tuple[str, str], ...]
    trimmer: bool
    schedule: KitSchedule | None
    spare: GuideSpare

    @property
    def signs(self) -> tuple[str, ...]:
        """What in the drawings needs a word, each once."""
        return tuple(dict.fromkeys(sign for one in self.sheets for sign in one.signs))

    @property
    def all_drawings(self) -> tuple[ScaledDrawing, ...]:
        drawn = None if self.schedule is None else self.schedule.drawn
        bars = () if drawn is None else (drawn.drawing,)
        return (*(one.drawing for one in self.sheets), *bars)


def cut_guide(kit: Kit, proof: Mapping[str, Any], options: SheetOptions) -> CutGuide:
    """Return the cut guide.

    Each sheet is touched once. Those out of whose windows another project is cut are first; then by project in the
    order of making, so that nobody cuts for the second what the first may spoil. Of one project, sheets with a window
    from which others come are first, then in the order of the box.
    """
    measures = Measures(kit, options, proof)
    plans = _plans(proof, options.unit)
    spare = guide_spare(kit, proof, plans, measures)
    kit = measures.as_shown
    sheets = _Sheets(kit, options, measures, spare)
    room = room_of(options)
    papers = {paper.id: paper for paper in kit.papers}
    planned = [(papers[paper], sheet, len(plan)) for paper, plan in plans.items() for sheet in plan]
    made = proof["order"]["projects"] or [project.id for project in kit.projects]
    turns = {project: turn for turn, project in enumerate(made)}
    planned.sort(key=lambda one: _rank(one[1]["tree"], turns))
    titles = {project.id: project.title for project in kit.projects}
    steps = steps_of(kit)
    return CutGuide(
        order=tuple(titles[project] for project in proof["order"]["projects"] or ()),
        in_turns=are_in_turns(one_person(kit, steps), proof["order"]["projects"]),
        sheets=tuple(one for paper, sheet, of in planned for one in sheets.of_sheet(paper, sheet, of)),
        missing=(*_missing(papers, proof, options.unit), *_lost(kit, proof)),
        trimmer=options.cut == "trimmer",
        schedule=kit_schedule(
            kit, steps, proof.get("time", {}).get("critical", ()), width=room.width, line=room.line, room=room
        ),
        spare=spare,
    )


def sheets_of_print(
    kit: Kit, proof: Mapping[str, Any], options: SheetOptions, paper: str, *, name: str
) -> Iterator[GuideSheet]:
    """Yield the sheets of one print, and what comes out of their windows, as they stand in the cut guide.

    `name` starts the ids in their drawings: on a page where others stand as well.
    """
    measures = Measures(kit, options, proof)
    plans = _plans(proof, options.unit)
    sheets = _Sheets(measures.as_shown, options, measures, guide_spare(kit, proof, plans, measures))
    printed = next(one for one in kit.papers if one.id == paper)
    for planned in plans.get(paper, ()):
        yield from sheets.of_sheet(printed, planned, len(plans[paper]), name)


def _plans(proof: Mapping[str, Any], unit: System) -> dict[str, Sequence[Node]]:
    """The cut plans by paper, those of the sizes that sheets in this system show."""
    plans = {answer["paper"]: answer["plan"] for answer in proof["papers"]}
    plans |= {answer["paper"]: answer["plan"] for answer in proof.get("as_printed", {}).get(unit, ())}
    return {paper: plan for paper, plan in plans.items() if paper not in _short_as_printed(proof, unit)}


def _short_as_printed(proof: Mapping[str, Any], unit: System) -> set[str]:
    """The papers that suffice exactly, but not with the sizes that sheets in this system show."""
    found = [one for one in proof["findings"] if one["rule"] == "short-as-printed" and one["why"]["system"] == unit]
    return {one["at"][0].removeprefix("paper:") for one in found}


def _rank(tree: Node, turns: Mapping[str, int]) -> tuple[bool, int, bool]:
    pieces = [leaf for leaf in _leaves(tree) if "piece" in leaf]
    hosts = [
        (leaf, inner) for leaf in pieces for inside in leaf.get("cut_outs", {}).values() for inner in _out_of(inside)
    ]
    feeds_another = any(_project(leaf) != _project(inner) for leaf, inner in hosts)
    return not feeds_another, min((turns[_project(leaf)] for leaf in pieces), default=0), not hosts


def _out_of(tree: Node) -> Iterator[Node]:
    """The pieces from a cut-out, and from the cut-outs of these."""
    for leaf in _leaves(tree):
        if "piece" in leaf:
            yield leaf
            for inside in leaf.get("cut_outs", {}).values():
                yield from _out_of(inside)


def _project(leaf: Node) -> str:
    return str(leaf["piece"]).split("/")[0].removeprefix("project:")


def _narrowest(kit: Kit) -> int | None:
    """The narrowest strip that any of the trimmers holds, in ticks; None where none says."""
    stated = [tool.narrowest.ticks for tool in kit.tools if tool.kind == "trimmer" and tool.narrowest is not None]
    return min(stated, default=None)


class _Sheets:
    """Makes the sheets of one guide."""

    def __init__(self, kit: Kit, options: SheetOptions, measures: Measures, spare: GuideSpare) -> None:
        self._kit = kit
        self._spare = spare
        self._measures = measures
        self._room = room_of(options)
        self._trimmer = options.cut == "trimmer"
        self._narrowest = _narrowest(kit) if self._trimmer else None
        self._letters = Letters(kit)
        self._titles = {project.id: project.title for project in kit.projects}
        self._pieces = {
            piece_place(project.id, piece.id): piece for project in kit.projects for piece in project.pieces
        }

    def of_sheet(self, paper: Paper, planned: Node, of: int, named: str = "") -> Iterator[GuideSheet]:
        """Yield a sheet, and what comes out of its windows if others are cut from that."""
        pieces = [leaf for leaf in _leaves(planned["tree"]) if "piece" in leaf]
        # A sheet from which only back pieces come is cut with its back up: what is left lies right then.
        from_behind = bool(pieces) and all(leaf.get("side") == "back" for leaf in pieces)
        tree = seen_from_behind(planned["tree"]) if from_behind else planned["tree"]
        heading = f"{paper.name}, sheet {planned['sheet']} of {of}"
        side = self._side(paper, pieces, from_behind=from_behind)
        name = f"{named}{paper.id}-{planned['sheet']}"
        keep = tuple(self._keeps(pieces))
        marks = self._spare.marks(paper.id, planned, from_behind=from_behind)
        yield self._drawn(tree, heading, name=name, side=side, keep=keep, from_behind=from_behind, marks=marks)
        yield from self._of_cut_outs(pieces, name)

    def _side(self, paper: Paper, pieces: Sequence[Node], *, from_behind: bool) -> str:
        """Which side lies up, and which pieces show the other one."""
        if from_behind:
            return f"Turned over, {'the back' if paper.back is None else paper.back.name} up."
        letters = list(dict.fromkeys(self._letters.of(one["piece"]) for one in pieces if one.get("side") == "back"))
        if not letters:
            return f"{paper.front.name} up."
        listed = f"{', '.join(letters[:-1])} and {letters[-1]} show" if len(letters) > 1 else f"{letters[0]} shows"
        back = "" if paper.back is None else f", {paper.back.name}"
        return f"{paper.front.name} up; {listed} the back{back}."

    def _of_cut_outs(self, pieces: Sequence[Node], name: str) -> Iterator[GuideSheet]:
        for leaf in pieces:
            for window, tree in leaf.get("cut_outs", {}).items():
                heading = f"Out of the window of {self._letters.of(leaf['piece'])}"
                piece = self._pieces[leaf["piece"]]
                curved = next(one.shape.kind for one in piece.windows if one.id == window) != "rect"
                side = f"As in the finished piece{'; the drawing shows the largest rectangle in it' if curved else ''}."
                own = f"{name}-{leaf['copy']}-{piece.id}-{window}"
                inside = [one for one in _leaves(tree) if "piece" in one]
                keep = tuple(self._keeps(inside))
                yield self._drawn(tree, heading, name=own, side=side, keep=keep, is_cut_out=True)
                yield from self._of_cut_outs(inside, own)

    def _drawn(
        self,
        tree: Node,
        heading: str,
        *,
        name: str,
        side: str,
        keep: tuple[str, ...],
        from_behind: bool = False,
        is_cut_out: bool = False,
        marks: Sequence[Mark] = (),
    ) -> GuideSheet:
        # A strip narrower than the figures can tell stays where it is: 0.4 mm left beside 152 is no cut.
        told = without_slivers(tree, self._measures.step)
        cuts = sequence_of(told, from_behind=from_behind, narrowest=self._narrowest)
        pieces = [leaf for leaf in _leaves(tree) if "piece" in leaf]
        gives = self._listed(pieces)
        words = f"{heading}: {gives}."
        whole = "the cut-out" if is_cut_out else "the sheet"
        rows = cut_rows(cuts, whole, trimmer=self._trimmer, measures=self._measures, letters=self._letters)
        counted = cuts_counted(cuts, trimmer=self._trimmer)
        windows = tuple(self._windows(pieces))
        below = [*windows, *([counted] if counted else [])]
        room, is_above, is_apart = _room_for_drawing(self._room, rows, side, keep, below, is_cut_out=is_cut_out)
        drawn = guide_drawing(
            self._kit,
            tree,
            cuts.steps,
            name=name,
            title=words,
            figure=lambda ticks: self._measures.own(ticks).text,
            room=room,
            line=self._room.line,
            from_behind=from_behind,
            marks=marks,
        )
        return GuideSheet(
            heading,
            side,
            whole,
            drawn.drawing,
            is_above,
            is_apart,
            words,
            gives,
            rows,
            keep,
            is_cut_out,
            counted,
            windows,
            tuple(_signs(drawn)),
        )

    def _keeps(self, pieces: Sequence[Node]) -> Iterator[str]:
        for leaf in pieces:
            for tree in leaf.get("cut_outs", {}).values():
                inside = dict.fromkeys(inner["piece"] for inner in _leaves(tree) if "piece" in inner)
                becomes = ", ".join(self._named(place, leaf["piece"]) for place in inside)
                yield f"KEEP what comes out of the window of {self._letters.of(leaf['piece'])}: it becomes {becomes}."

    def _windows(self, pieces: Sequence[Node]) -> Iterator[str]:
        """What is cut with a knife once the pieces are cut: a piece whose window is open no longer lies firm."""
        found: dict[str, dict[str, int]] = {}
        outside: dict[str, None] = {}
        for leaf in pieces:
            piece = self._pieces.get(leaf["piece"])
            if piece is None or not piece.windows:
                continue
            letter, windows = self._letters.of(leaf["piece"]), can_be_cut(piece)
            if windows:
                found.setdefault(_project(leaf), {})[letter] = len(windows)
            outside |= dict.fromkeys(f"{one.id} of {letter}" for one in piece.windows if one not in windows)
        for project, many in found.items():
            window = "window" if list(many.values()) == [1] else "windows"
            yield f"Then cut the {window} of {_and(list(many))} (sheet of the {self._titles[project]})."
        for window in outside:
            yield f"Leave the window {window} uncut: it does not lie inside its piece."

    def _named(self, place: str, host: str) -> str:
        project = place.split("/")[0]
        letter = self._letters.of(place)
        if host.startswith(f"{project}/"):
            return letter
        return f"{letter} of the {self._titles[project.removeprefix('project:')]}"

    def _listed(self, pieces: Sequence[Node]) -> str:
        counted = Counter(self._letters.of(leaf["piece"]) for leaf in pieces)
        return ", ".join(letter if many == 1 else f"{many} × {letter}" for letter, many in counted.items())


def _signs(drawn: GuideDrawing) -> Iterator[str]:
    if drawn.has_leaders:
        yield "A dotted line leads from a cut to its number."
    if drawn.has_corners:
        yield "A black corner stands for “back up” where these words have no room."


def _and(names: Sequence[str]) -> str:
    return " and ".join([", ".join(names[:-1]), names[-1]] if len(names) > 1 else names)


def _room_for_drawing(
    room: Room, rows: Sequence[CutRow], side: str, keep: Sequence[str], below: Sequence[str], *, is_cut_out: bool
) -> tuple[tuple[int, int], bool, bool]:
    """How wide and high a drawing may be, whether its table is to stand below it, and that on the next page."""
    lines = sum(-(-len(words) // _KEEP) for words in keep)
    lines += sum(-(-len(words) // _SIDE) for words in (f"{side}{_SCALE}", *below))
    rest = room.height - (_REST + _ROW * lines + _AFTER * len([*keep, *below])) * TICKS_PER_MM
    left = rest - _ROW * (lines_of(rows, _LARGE) + 1) * TICKS_PER_MM
    if lines_of(rows, _NARROW) > _LONG or (room.large and left < _LEAST * TICKS_PER_MM):
        return (room.width, rest), True, room.large
    if is_cut_out:
        return (min(room.width, _CUT_OUT[0] * room.line), _CUT_OUT[1] * room.line), room.large, False
    if room.large:
        return (room.width, left), True, False
    return (_BESIDE[0] * TICKS_PER_MM, _BESIDE[1] * TICKS_PER_MM), False, False


def _missing(papers: Mapping[str, Paper], proof: Mapping[str, Any], unit: System) -> Iterator[tuple[str, str]]:
    for paper in _short_as_printed(proof, unit):
        yield papers[paper].name, f"no cut plan in {unit}: with rounded sizes the paper in the box does not suffice"
    for answer in proof["papers"]:
        if answer["verdict"] == "short":
            yield papers[answer["paper"]].name, "no cut plan, the paper in the box does not suffice"
        elif answer["verdict"] == "unknown":
            yield papers[answer["paper"]].name, "no proven cut plan yet"


def _lost(kit: Kit, proof: Mapping[str, Any]) -> Iterator[tuple[str, str]]:
    """The pieces that are on no sheet, for what they are to come out of does not yield them."""
    lost = lost_pieces(proof)
    for project in kit.projects:
        for piece in project.pieces:
            if piece.from_ is not None and piece_place(project.id, piece.id) in lost:
                host = piece.from_.split("/")[1]
                yield f"{piece.id} of the {project.title}", f"does not come out of the window of {host}"


def _leaves(node: Node) -> Iterator[Node]:
    if "parts" in node:
        for part in node["parts"]:
            yield from _leaves(part)
    else:
        yield node
