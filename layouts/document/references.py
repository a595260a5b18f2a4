"""The second pass over a document: ids that differ, references that lead somewhere, cut-outs that form no loop.

It works on raw values, so that one wrong length does not hide a wrong reference; what the first pass refused is
skipped, and a reference into a list whose ids cannot all be read is not judged.
"""

from __future__ import annotations

import contextlib
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from typing import Any

from layouts.document.refusal import MOST_ERRORS, DocumentError, pointer_of

__all__ = ["RESERVED_PROJECTS", "reference_errors"]

# The names of the sheets that stand beside the projects' own.
RESERVED_PROJECTS = ("cut-guide", "templates")

Path = tuple[str | int, ...]


@dataclass(slots=True)
class _List:
    """The ids of one list: `whole` is False where some could not be read, and then nothing is judged against it."""

    ids: set[str] = field(default_factory=set)
    whole: bool = True
    members: dict[str, tuple[Any, Path]] = field(default_factory=dict)

    def lacks(self, name: Any) -> bool:
        return self.whole and isinstance(name, str) and name not in self.ids


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
        top = {
            name: self.read_list((name,))
            for name in ("pads", "papers", "embellishments", "blanks", "supplies", "tools", "projects")
        }
        self.pads, self.papers, self.tools, self.projects = top["pads"], top["papers"], top["tools"], top["projects"]
        self.embellishments, self.blanks, self.supplies = top["embellishments"], top["blanks"], top["supplies"]
        self.elements = self.inner(self.embellishments, "elements")
        self.faces = self.inner(self.blanks, "faces")
        self.made = {
            id_: self.read_list((*path, "pieces"), (*path, "forms")) for id_, (_, path) in self.projects.members.items()
        }
        self.steps = self.inner(self.projects, "steps")
        self.windows = {
            (project, piece): self.read_list((*path, "windows"))
            for project, made in self.made.items()
            for piece, (_, path) in made.members.items()
            if "pieces" in path
        }
        self.judge_project_names()
        self.judge_papers()
        for name, (value, path) in self.projects.members.items():
            self.judge_project(name, value, path)
        self.judge_loops()

    # reading the raw tree ---------------------------------------------------------------------------------------

    def value(self, path: Path) -> Any:
        here: Any = self.tree
        for part in path:
            if isinstance(part, str) and not isinstance(here, dict):
                return None
            here = here.get(part) if isinstance(part, str) else here[part]
        return here

    def is_open(self, path: Path) -> bool:
        """Whether the first pass refused neither this value nor anything around it that it needs."""
        return pointer_of(path) not in self.refused

    def objects(self, path: Path) -> Iterator[tuple[Path, dict[str, Any]]]:
        members = self.value(path)
        for at, member in enumerate(members if isinstance(members, list) else []):
            if isinstance(member, dict):
                yield (*path, at), member

    def texts(self, path: Path) -> Iterator[tuple[Path, str]]:
        members = self.value(path)
        for at, member in enumerate(members if isinstance(members, list) else []):
            if isinstance(member, str) and self.is_open((*path, at)):
                yield (*path, at), member

    def read_list(self, *paths: Path) -> _List:
        """Collect the ids of one list, or of lists that share their ids; the later of two alike is refused."""
        found = _List()
        seen: set[str] = set()
        for path in paths:
            members = self.value(path)
            if members is None:
                continue
            if not isinstance(members, list) or not self.is_open(path):
                found.whole = False
                continue
            for at, member in enumerate(members):
                name = member.get("id") if isinstance(member, dict) else None
                if not isinstance(name, str) or not self.is_open((*path, at, "id")):
                    found.whole = False
                    continue
                if name.casefold() in seen:
                    self.refuse(
                        (*path, at, "id"),
                        "duplicate-id",
                        f"“{name}” is taken in this list (upper and lower case count as the same)",
                    )
                    continue
                seen.add(name.casefold())
                found.ids.add(name)
                found.members[name] = (member, (*path, at))
        return found

    def inner(self, outer: _List, name: str) -> dict[str, _List]:
        return {id_: self.read_list((*path, name)) for id_, (_, path) in outer.members.items()}

    # judging ----------------------------------------------------------------------------------------------------

    def refuse(self, path: Path, code: str, message: str) -> None:
        self.errors.append(DocumentError(pointer_of(path), code, message))
        if len(self.errors) > MOST_ERRORS:
            raise _Enough

    def judge(self, path: Path, known: _List, what: str) -> None:
        """Refuse the reference at `path` if no member of `known` has that id."""
        name = self.value(path)
        if self.is_open(path) and known.lacks(name):
            self.refuse(path, "unknown-id", f"there is no {what} “{name}”{_nearest(name, known.ids)}")

    def judge_project_names(self) -> None:
        for path, project in self.objects(("projects",)):
            name = project.get("id")
            if isinstance(name, str) and name.casefold() in RESERVED_PROJECTS and self.is_open((*path, "id")):
                self.projects.whole = False  # what refers to it is not judged as well
                self.refuse((*path, "id"), "bad-id", f"“{name}” is the name of a sheet of every kit: choose another id")

    def judge_papers(self) -> None:
        for path, _ in self.objects(("papers",)):
            self.judge((*path, "pad"), self.pads, "pad")

    def judge_paper(self, path: Path, makes: Any) -> None:
        value = self.value(path)
        if not isinstance(value, dict):
            self.judge(path, self.papers, "paper")
            return
        papers = value.get("each")
        if not isinstance(papers, list):
            return
        if isinstance(makes, int) and len(papers) != makes:
            self.refuse(
                (*path, "each"),
                "out-of-range",
                f"{len(papers)} papers for {makes} copies of the project: name exactly one for each",
            )
        seen: set[str] = set()
        for at, name in self.texts((*path, "each")):
            self.judge(at, self.papers, "paper")
            if name in seen:
                self.refuse(
                    at, "duplicate-id", f"“{name}” is named twice: each copy of the project is cut from another paper"
                )
            seen.add(name)

    def judge_project(self, project: str, value: dict[str, Any], path: Path) -> None:
        makes = value.get("makes", 1)
        makes = 1 if makes is None else makes if isinstance(makes, int) and self.is_open((*path, "makes")) else None
        made = self.made[project]
        pieces = self.of_kind(made, "pieces")
        forms = self.of_kind(made, "forms")
        for at, piece in self.objects((*path, "pieces")):
            self.judge_paper((*at, "paper"), makes)
            if isinstance(piece.get("edges"), dict):
                for side in ("left", "right", "top", "bottom"):
                    self.judge((*at, "edges", side), self.tools, "tool")
            self.judge((*at, "mirror_of"), pieces, "piece in this project")
            self.judge_from((*at, "from"))
        for at, form in self.objects((*path, "forms")):
            self.judge_paper((*at, "paper"), makes)
            if isinstance(form.get("fits"), dict):
                self.judge((*at, "fits", "blank"), self.blanks, "blank")
                self.judge((*at, "fits", "form"), forms, "form in this project")
        for at, placement in self.objects((*path, "placements")):
            self.judge_thing((*at, "put"), pieces, forms)
            self.judge_support(at, placement, pieces, forms)
        for at, _ in self.objects((*path, "steps")):
            self.judge_step(at, project, made, pieces, forms)

    def of_kind(self, made: _List, kind: str) -> _List:
        members = {name: member for name, member in made.members.items() if member[1][-2] == kind}
        return _List(set(members), made.whole, members)

    def judge_thing(self, path: Path, pieces: _List, forms: _List) -> None:
        self.judge((*path, "piece"), pieces, "piece in this project")
        self.judge((*path, "form"), forms, "form in this project")
        self.judge((*path, "blank"), self.blanks, "blank")
        self.judge((*path, "supply"), self.supplies, "supply")
        self.judge_element((*path, "element"))

    def judge_support(self, path: Path, placement: dict[str, Any], pieces: _List, forms: _List) -> None:
        on = placement.get("on")
        if not isinstance(on, dict):
            return
        self.judge((*path, "on", "piece"), pieces, "piece in this project")
        self.judge((*path, "on", "form"), forms, "form in this project")
        self.judge((*path, "on", "blank"), self.blanks, "blank")
        blank = on.get("blank")
        if isinstance(blank, str) and blank in self.faces:
            self.judge((*path, "on", "face"), self.faces[blank], f"face of the blank “{blank}”")

    def judge_element(self, path: Path) -> None:
        name = self.value(path)
        if not isinstance(name, str) or not self.is_open(path):
            return
        sheet, _, element = name.partition("/")
        if self.embellishments.lacks(sheet) or (sheet in self.elements and self.elements[sheet].lacks(element)):
            self.refuse(
                path, "unknown-id", f"there is no element “{name}”: write SHEET/ELEMENT with ids of this document"
            )

    def judge_from(self, path: Path) -> None:
        name = self.value(path)
        if not isinstance(name, str) or not self.is_open(path):
            return
        parts = name.split("/")
        if len(parts) != 3:
            self.refuse(path, "unknown-id", f"“{name}” is no cut-out: write PROJECT/PIECE/WINDOW")
            return
        project, piece, window = parts
        unknown = self.projects.lacks(project)
        unknown = unknown or (project in self.made and self.of_kind(self.made[project], "pieces").lacks(piece))
        unknown = unknown or ((project, piece) in self.windows and self.windows[project, piece].lacks(window))
        if unknown:
            self.unknown_sources.add(path)
            self.refuse(
                path,
                "unknown-id",
                f"there is no cut-out “{name}”: write PROJECT/PIECE/WINDOW with ids of this document",
            )

    def judge_step(self, path: Path, project: str, made: _List, pieces: _List, forms: _List) -> None:
        for at, _ in self.texts((*path, "cut")):
            self.judge(at, made, "piece or form in this project")
        for at, _ in self.objects((*path, "use")):
            self.judge_thing(at, pieces, forms)
        for at, _ in self.texts((*path, "tools")):
            self.judge(at, self.tools, "tool")
        closable = _List(forms.ids | self.blanks.ids, forms.whole and self.blanks.whole)
        for at, _ in self.texts((*path, "closes")):
            self.judge(at, closable, "form in this project, or blank,")
        for at, name in self.texts((*path, "after")):
            self.judge_after(at, name, project)

    def judge_after(self, path: Path, name: str, project: str) -> None:
        other, slash, step = name.rpartition("/")
        where = other if slash else project
        if self.projects.lacks(where) or (where in self.steps and self.steps[where].lacks(step)):
            self.refuse(
                path, "unknown-id", f"there is no step “{name}”: write STEP, or PROJECT/STEP for another project"
            )

    def judge_loops(self) -> None:
        """Refuse every piece that comes out of its own cut-out, directly or by way of others."""
        comes_from: dict[tuple[str, str], tuple[str, str]] = {}
        paths: dict[tuple[str, str], Path] = {}
        for project, made in self.made.items():
            for piece, (value, path) in made.members.items():
                source = value.get("from")
                known = (*path, "from") not in self.unknown_sources
                if "pieces" in path and known and isinstance(source, str) and source.count("/") == 2:
                    host = source.split("/")
                    comes_from[project, piece] = (host[0], host[1])
                    paths[project, piece] = (*path, "from")
        for start, path in paths.items():
            if start in _chain(start, comes_from) and self.is_open(path):
                self.refuse(
                    path,
                    "own-cut-out",
                    f"{start[0]}/{start[1]} comes out of its own cut-out: it cannot be cut from itself",
                )


def _chain(start: tuple[str, str], comes_from: dict[tuple[str, str], tuple[str, str]]) -> Sequence[tuple[str, str]]:
    """The pieces that `start` is cut from, outwards, until the sheet or the first repetition."""
    chain: list[tuple[str, str]] = []
    seen: set[tuple[str, str]] = set()
    here = comes_from.get(start)
    while here is not None and here not in seen:
        seen.add(here)
        chain.append(here)
        here = comes_from.get(here)
    return chain


def _nearest(name: Any, ids: Iterable[str]) -> str:
    """Offer the id that differs in case only, the commonest slip."""
    alike = sorted(id_ for id_ in ids if isinstance(name, str) and id_.casefold() == name.casefold())
    return f": did you mean “{alike[0]}”?" if alike else ""
