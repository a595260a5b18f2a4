"""The second pass over a document: ids that differ, references that lead somewhere, cut-outs that form no loop.

It works on raw values, so that one wrong length does not hide a wrong reference; what the first pass refused is
skipped, and a reference into a list whose ids cannot all be read is not judged. Everything is judged where it stands,
also inside a thing whose own id is wrong.
"""

from __future__ import annotations

import contextlib
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from layouts.document.refusal import MOST_ERRORS, DocumentError, pointer_of

__all__ = ["RESERVED_PROJECTS", "reference_errors"]

# The names of the sheets that stand beside the projects' own.
RESERVED_PROJECTS = ("cut-guide", "templates")

# The kinds of things that can be put or used.
_THINGS = ("piece", "element", "form", "blank", "supply")

Path = tuple[str | int, ...]


@dataclass(slots=True)
class _List:
    """The ids of one list, each with the path of the first member that has it.

    `whole` is False where some could not be read, and then nothing is judged against the list. `alike` leads from an
    id in lower case to the id.
    """

    ids: dict[str, Path] = field(default_factory=dict)
    alike: dict[str, str] = field(default_factory=dict)
    whole: bool = True

    def lacks(self, name: Any) -> bool:
        return self.whole and isinstance(name, str) and name not in self.ids


@dataclass(frozen=True, slots=True)
class _Project:
    """The lists of one project; `windows` are those of each piece, by its path."""

    path: Path
    value: dict[str, Any]
    makes: int | None
    pieces: _List
    forms: _List
    steps: _List
    windows: dict[Path, _List]


def reference_errors(tree: Any, refused: set[str]) -> list[DocumentError]:
    """Return the errors of the second pass. `refused` are the pointers that the first pass refused."""
    if not isinstance(tree, dict):
        return []
    judge = _Pass(tree, refused)
    with contextlib.suppress(_Enough):
        judge.run()
    return judge.errors


class _Enough(Exception):
    """More errors are found than are told."""


class _Pass:
    def __init__(self, tree: dict[str, Any], refused: set[str]) -> None:
        self.tree = tree
        self.refused = refused
        self.errors: list[DocumentError] = []
        self.unknown_sources: set[Path] = set()

    def run(self) -> None:
        tree = self.tree
        self.pads, self.papers, self.supplies, self.tools = (
            self.read_list((name,), tree.get(name)) for name in ("pads", "papers", "supplies", "tools")
        )
        self.embellishments, self.elements = self.read_lists("embellishments", "elements")
        self.blanks, self.faces = self.read_lists("blanks", "faces")
        self.project_ids = self.read_list(("projects",), tree.get("projects"))
        self.projects = {
            path: self.read_project(path, value) for path, value in _objects(("projects",), tree.get("projects"))
        }
        self.judge_project_names()
        for path, paper in _objects(("papers",), tree.get("papers")):
            self.judge((*path, "pad"), paper.get("pad"), "pad", self.pads)
        for project in self.projects.values():
            self.judge_project(project)
        self.judge_loops()

    # reading the raw tree ---------------------------------------------------------------------------------------

    def is_open(self, path: Path) -> bool:
        """Whether the first pass did not refuse this very value."""
        return not self.refused or pointer_of(path) not in self.refused

    def texts(self, path: Path, members: Any) -> Iterator[tuple[Path, str]]:
        for at, member in enumerate(members if isinstance(members, list) else []):
            if isinstance(member, str) and self.is_open((*path, at)):
                yield (*path, at), member

    def read_lists(self, outer: str, inner: str) -> tuple[_List, dict[Path, _List]]:
        """Read a list of the document, and the list inside each of its members, by the member's path."""
        members = self.tree.get(outer)
        inside = {path: self.read_list((*path, inner), one.get(inner)) for path, one in _objects((outer,), members)}
        return self.read_list((outer,), members), inside

    def read_list(self, path: Path, members: Any, beside: _List | None = None) -> _List:
        """Collect the ids of a list; the later of two alike is refused, also if the first stands in `beside`."""
        found = _List()
        if members is None:
            return found
        if not isinstance(members, list) or not self.is_open(path):
            found.whole = False
            return found
        taken = beside.alike if beside is not None else {}
        for at, member in enumerate(members):
            name = member.get("id") if isinstance(member, dict) else None
            if not isinstance(name, str) or not self.is_open((*path, at, "id")):
                found.whole = False
                continue
            folded = name.casefold()
            if folded in found.alike or folded in taken:
                sentence = f"“{name}” is taken in this list (upper and lower case count as the same)"
                self.refuse((*path, at, "id"), "duplicate-id", sentence)
            # Refused or not, what refers to it leads somewhere.
            found.ids.setdefault(name, (*path, at))
            found.alike.setdefault(folded, name)
        return found

    def read_project(self, path: Path, value: dict[str, Any]) -> _Project:
        makes = value.get("makes")
        makes = 1 if makes is None else makes if self.is_open((*path, "makes")) else None
        pieces = self.read_list((*path, "pieces"), value.get("pieces"))
        forms = self.read_list((*path, "forms"), value.get("forms"), beside=pieces)
        self.read_list((*path, "placements"), value.get("placements"))
        steps = self.read_list((*path, "steps"), value.get("steps"))
        windows = {
            at: self.read_list((*at, "windows"), piece.get("windows"))
            for at, piece in _objects((*path, "pieces"), value.get("pieces"))
        }
        return _Project(path, value, makes, pieces, forms, steps, windows)

    # judging ----------------------------------------------------------------------------------------------------

    def refuse(self, path: Path, code: str, message: str) -> None:
        self.errors.append(DocumentError(pointer_of(path), code, message))
        if len(self.errors) > MOST_ERRORS:
            raise _Enough

    def judge(self, path: Path, name: Any, what: str, *known: _List) -> None:
        """Refuse the reference `name`, which stands at `path`, if no member of any of the lists has that id."""
        if name is not None and all(one.lacks(name) for one in known) and self.is_open(path):
            # The commonest slip is an id that differs in case only.
            alike = next((one.alike[name.casefold()] for one in known if name.casefold() in one.alike), None)
            hint = f": did you mean “{alike}”?" if alike else ""
            self.refuse(path, "unknown-id", f"there is no {what} “{_shown(name)}”{hint}")

    def judge_project_names(self) -> None:
        for path, project in self.projects.items():
            name = project.value.get("id")
            if isinstance(name, str) and name.casefold() in RESERVED_PROJECTS and self.is_open((*path, "id")):
                self.project_ids.whole = False  # what refers to it is not judged as well
                self.refuse((*path, "id"), "bad-id", f"“{name}” is the name of a sheet of every kit: choose another id")

    def judge_paper(self, path: Path, value: Any, makes: int | None) -> None:
        if not isinstance(value, dict):
            self.judge(path, value, "paper", self.papers)
            return
        papers = value.get("each")
        if not isinstance(papers, list):
            return
        if makes is not None and len(papers) != makes:
            sentence = f"{len(papers)} papers for {makes} copies of the project: name exactly one for each"
            self.refuse((*path, "each"), "out-of-range", sentence)
        seen: set[str] = set()
        for at, name in self.texts((*path, "each"), papers):
            self.judge(at, name, "paper", self.papers)
            if name in seen:
                sentence = f"“{name}” is named twice: each copy of the project is cut from another paper"
                self.refuse(at, "duplicate-id", sentence)
            seen.add(name)

    def judge_project(self, project: _Project) -> None:
        path, value = project.path, project.value
        for at, piece in _objects((*path, "pieces"), value.get("pieces")):
            self.judge_paper((*at, "paper"), piece.get("paper"), project.makes)
            for side, tool in _members(piece.get("edges")):
                if side in ("left", "right", "top", "bottom"):
                    self.judge((*at, "edges", side), tool, "tool", self.tools)
            self.judge((*at, "mirror_of"), piece.get("mirror_of"), "piece in this project", project.pieces)
            self.judge_from((*at, "from"), piece.get("from"))
        for at, form in _objects((*path, "forms"), value.get("forms")):
            self.judge_paper((*at, "paper"), form.get("paper"), project.makes)
            self.judge_thing((*at, "fits"), form.get("fits"), project, ("blank", "form"))
        for at, placement in _objects((*path, "placements"), value.get("placements")):
            self.judge_thing((*at, "put"), placement.get("put"), project)
            self.judge_support((*at, "on"), placement.get("on"), project)
        for at, step in _objects((*path, "steps"), value.get("steps")):
            self.judge_step(at, step, project)

    def judge_thing(self, path: Path, thing: Any, project: _Project, kinds: Sequence[str] = _THINGS) -> None:
        """Judge what an object names by its kind, as `put`, `on`, `fits` and `use` do."""
        for kind, name in _members(thing):
            if kind not in kinds:
                continue
            if kind == "element":
                self.judge_element((*path, kind), name)
                continue
            what, known = self.things(kind, project)
            if known.lacks(name):
                self.judge((*path, kind), name, what, known)

    def things(self, kind: str, project: _Project) -> tuple[str, _List]:
        """What a kind of thing is called, and the list that a reference of this kind leads into."""
        if kind == "piece":
            return "piece in this project", project.pieces
        if kind == "form":
            return "form in this project", project.forms
        return ("blank", self.blanks) if kind == "blank" else ("supply", self.supplies)

    def judge_support(self, path: Path, support: Any, project: _Project) -> None:
        self.judge_thing(path, support, project, ("piece", "form", "blank"))
        if isinstance(support, dict):
            faces = self.inner(self.faces, self.blanks, support.get("blank"))
            if faces is not None:
                self.judge((*path, "face"), support.get("face"), f"face of the blank “{support['blank']}”", faces)

    def inner(self, lists: Mapping[Path, _List], outer: _List, name: Any) -> _List | None:
        """The list inside the member `name` of `outer`; None where there is no such member."""
        return lists[outer.ids[name]] if isinstance(name, str) and name in outer.ids else None

    def judge_element(self, path: Path, name: Any) -> None:
        if not isinstance(name, str) or not self.is_open(path):
            return
        sheet, _, element = name.partition("/")
        elements = self.inner(self.elements, self.embellishments, sheet)
        if self.embellishments.lacks(sheet) or (elements is not None and elements.lacks(element)):
            sentence = f"there is no element “{_shown(name)}”: write SHEET/ELEMENT with ids of this document"
            self.refuse(path, "unknown-id", sentence)

    def judge_from(self, path: Path, name: Any) -> None:
        if isinstance(name, str) and self.is_open(path) and not self.leads_to_window(name):
            self.unknown_sources.add(path)
            sentence = f"there is no cut-out “{_shown(name)}”: write PROJECT/PIECE/WINDOW with ids of this document"
            self.refuse(path, "unknown-id", sentence)

    def leads_to_window(self, name: str) -> bool:
        """Whether a cut-out is there, as far as its lists can be judged."""
        parts = name.split("/")
        if len(parts) != 3:
            return False
        project, piece, window = parts
        if project not in self.project_ids.ids:
            return not self.project_ids.whole
        there = self.projects[self.project_ids.ids[project]]
        if piece not in there.pieces.ids:
            return not there.pieces.whole
        return not there.windows[there.pieces.ids[piece]].lacks(window)

    def judge_step(self, path: Path, step: dict[str, Any], project: _Project) -> None:
        for at, name in self.texts((*path, "cut"), step.get("cut")):
            self.judge(at, name, "piece or form in this project", project.pieces, project.forms)
        for at, use in _objects((*path, "use"), step.get("use")):
            self.judge_thing(at, use, project)
        for at, name in self.texts((*path, "tools"), step.get("tools")):
            self.judge(at, name, "tool", self.tools)
        for at, name in self.texts((*path, "closes"), step.get("closes")):
            self.judge(at, name, "form in this project, or blank,", project.forms, self.blanks)
        for at, name in self.texts((*path, "after"), step.get("after")):
            self.judge_after(at, name, project)

    def judge_after(self, path: Path, name: str, project: _Project) -> None:
        other, slash, step = name.rpartition("/")
        steps: _List | None = project.steps
        if slash:
            there = self.project_ids.ids.get(other)
            steps = self.projects[there].steps if there is not None else None
        if self.project_ids.lacks(other) if steps is None else steps.lacks(step):
            sentence = f"there is no step “{_shown(name)}”: write STEP, or PROJECT/STEP for another project"
            self.refuse(path, "unknown-id", sentence)

    def judge_loops(self) -> None:
        """Refuse every piece that comes out of its own cut-out, directly or by way of others."""
        comes_from: dict[tuple[str, str], tuple[str, str]] = {}
        paths: dict[tuple[str, str], Path] = {}
        for project_id, at in self.project_ids.ids.items():
            project = self.projects[at]
            for piece_id, path in project.pieces.ids.items():
                source = project.value["pieces"][path[-1]].get("from")
                known = (*path, "from") not in self.unknown_sources
                if known and isinstance(source, str) and source.count("/") == 2:
                    host = source.split("/")
                    comes_from[project_id, piece_id] = (host[0], host[1])
                    paths[project_id, piece_id] = (*path, "from")
        on_loops = _on_loops(comes_from)
        for name, path in paths.items():
            if name in on_loops and self.is_open(path):
                sentence = f"{name[0]}/{name[1]} comes out of its own cut-out: it cannot be cut from itself"
                self.refuse(path, "own-cut-out", sentence)


def _members(value: Any) -> Iterable[tuple[str, Any]]:
    return value.items() if isinstance(value, dict) else ()


def _objects(path: Path, members: Any) -> Iterator[tuple[Path, dict[str, Any]]]:
    """The objects of a list with their paths; nothing where it is no list."""
    for at, member in enumerate(members if isinstance(members, list) else []):
        if isinstance(member, dict):
            yield (*path, at), member


def _on_loops[Name](follows: Mapping[Name, Name]) -> set[Name]:
    """The names from which following leads back to themselves. Each is followed once, however long the chains are."""
    done: set[Name] = set()
    found: set[Name] = set()
    for start in follows:
        trail: dict[Name, int] = {}
        here = start
        while here in follows and here not in done and here not in trail:
            trail[here] = len(trail)
            here = follows[here]
        if here in trail:
            found.update(list(trail)[trail[here] :])
        done.update(trail)
    return found


def _shown(name: str) -> str:
    return name if len(name) <= 80 else name[:80] + "…"
