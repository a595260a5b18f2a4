"""Kit documents made by chance from a seed: what a designer might write, sensible or not, and always readable.

Everything that cutting knows turns up: pieces and forms, both sides, print directions, margins, undersize, slack,
windows whose cut-outs are used again (also out of each other), sets cut from several prints, bites, copies.
"""

from __future__ import annotations

from random import Random
from typing import Any

__all__ = ["made_kit"]

type Tree = dict[str, Any]

_READS = ("up", "down", "left", "right")
_REPEATS = ("one-way", "two-way", "any")


def made_kit(seed: int) -> Tree:
    """Return the document with this number: equal numbers, equal documents."""
    return _Maker(Random(seed)).kit(seed)


class _Maker:
    """Lengths are whole sixteenths of an inch or millimetres; `unit` says which."""

    def __init__(self, chance: Random) -> None:
        self.chance = chance
        self.unit = chance.choice(("in", "mm"))
        self.papers: list[Tree] = []
        self.sizes: dict[str, tuple[int, int]] = {}
        self.hosts: list[tuple[str, int, int]] = []  # a kept window as PROJECT/PIECE/WINDOW, and what it offers
        self.letters = iter(f"{letter}{n}" for n in range(1, 99) for letter in "ABCDEFGH")

    def kit(self, seed: int) -> Tree:
        for number in range(self.chance.randint(1, 4)):
            self.papers.append(self.paper(f"print-{number}"))
        projects = [self.project(f"project-{n}") for n in range(self.chance.randint(1, 3))]
        return {
            "format": "kitproof/1",
            "code": f"made-{seed}",
            "title": f"Made by chance, number {seed}",
            "unit": self.unit,
            "cutting": {"slack": self.seldom("0", "1/64" if self.unit == "in" else "0.5", "1/8 in")},
            "papers": self.papers,
            "tools": [
                {"id": "trimmer", "kind": "trimmer"},
                {"id": "wave", "kind": "decorative", "bite": "1/8 in"},
            ],
            "projects": projects,
        }

    def seldom(self, usual: Any, *others: Any) -> Any:
        return self.chance.choice(others) if self.chance.random() < 0.25 else usual

    def length(self, sixteenths: int) -> str:
        if self.unit == "mm":
            return str(sixteenths)
        return f"{sixteenths // 16} {sixteenths % 16}/16" if sixteenths >= 16 else f"{sixteenths}/16"

    def pair(self, width: int, height: int) -> list[str]:
        return [self.length(width), self.length(height)]

    def some(self, low: int, high: int) -> int:
        """A length between two others, a multiple of a quarter of an inch (or of 4 mm) where there is one."""
        length = self.chance.randint(low, max(low, high))
        return length - length % 4 if length - length % 4 >= low else length

    def paper(self, id_: str) -> Tree:
        width, height = self.chance.choice(((128, 128), (96, 96), (136, 176), (192, 192), (150, 100)))
        self.sizes[id_] = (width, height)
        paper: Tree = {
            "id": id_,
            "name": id_.capitalize(),
            "size": self.pair(width, height),
            "sheets": self.chance.randint(1, 4),
            "front": self.side(),
        }
        if self.chance.random() < 0.8:
            paper["back"] = self.side()
        if self.chance.random() < 0.2:
            paper["undersize"] = "1/32 in"
        if self.chance.random() < 0.3:
            sides = self.chance.sample(("left", "right", "top", "bottom"), self.chance.randint(1, 4))
            paper["spoilt"] = {side: self.length(self.chance.randint(1, 8)) for side in sides}
        return paper

    def side(self) -> Tree:
        return {"name": "A side", "reads": self.chance.choice(_READS), "repeat": self.chance.choice(_REPEATS)}

    def step(self, pieces: list[Tree], forms: list[Tree]) -> Tree:
        """One step that cuts and uses everything."""
        use = [{"piece": one["id"], "count": one["count"]} for one in pieces]
        use += [{"form": one["id"], "count": one["count"]} for one in forms]
        return {"id": "all", "text": "Cut and glue.", "cut": [one["id"] for one in (*pieces, *forms)], "use": use}

    def project(self, id_: str) -> Tree:
        makes = self.seldom(1, 2, 3)
        pieces = [self.piece(id_, makes) for _ in range(self.chance.randint(1, 6))]
        pieces += [self.guest(id_) for _ in range(self.chance.randint(0, 2)) if self.hosts]
        forms = [self.form() for _ in range(self.seldom(0, 1, 2))]
        self.chance.shuffle(pieces)
        whole = {"id": id_, "title": id_.capitalize(), "makes": makes, "pieces": pieces, "forms": forms}
        return whole | {"steps": [self.step(pieces, forms)]}

    def piece(self, project: str, makes: int) -> Tree:
        paper: Any = self.chance.choice(list(self.sizes))
        width, height = self.sizes[paper]
        if 1 < makes <= len(self.sizes) and self.chance.random() < 0.5:
            paper = {"each": self.chance.sample(list(self.sizes), makes)}
        wide, high = self.some(8, width * 5 // 8), self.some(8, height * 5 // 8)
        has_back = all("back" in one for one in self.papers)
        piece = self.common(wide, high, has_back=has_back) | {"paper": paper}
        if self.chance.random() < 0.15:
            piece |= {"size_is": "finished", "edges": {self.chance.choice(("top", "left")): "wave"}}
        self.open(project, piece, wide, high)
        return piece

    def guest(self, project: str) -> Tree:
        source, width, height = self.chance.choice(self.hosts)
        if self.chance.random() < 0.3:
            width, height = height, width
        wide = self.seldom(self.some(4, width), width, width + 1)
        high = self.seldom(self.some(4, height), height)
        piece = self.common(wide, high, has_back=False) | {"from": source}
        self.open(project, piece, wide, high)
        return piece

    def common(self, wide: int, high: int, *, has_back: bool) -> Tree:
        piece: Tree = {"id": next(self.letters), "name": "a piece", "size": self.pair(wide, high)}
        sides = ("front", "front", "back", "either", "both") if has_back else ("front",) * 9 + ("either", "back")
        return piece | {
            "count": self.seldom(1, 2, 3, 4),
            "side": self.chance.choice(sides),
            "print_reads": self.chance.choice(("up", *_READS, "any", "any", "any", "any")),
        }

    def open(self, project: str, piece: Tree, wide: int, high: int) -> None:
        """Now and then, cut windows into a piece and keep most of what comes out."""
        for number in range(self.seldom(0, 1, 1, 2) if min(wide, high) >= 16 else 0):
            width, height = self.some(8, wide - 4), self.some(8, high - 4)
            window: Tree = {"id": f"w{number}", "left": self.length(1), "bottom": self.length(1)}
            window |= dict(zip(("width", "height"), self.pair(width, height), strict=True))
            window["cut_out"] = self.seldom("kept", "waste")
            if self.chance.random() < 0.2:
                window["shape"] = {"kind": "ellipse"}
                width, height = width * 2 // 3, height * 2 // 3
            piece.setdefault("windows", []).append(window)
            self.hosts.append((f"{project}/{piece['id']}/w{number}", width, height))

    def form(self) -> Tree:
        paper = self.chance.choice(list(self.sizes))
        width, height = self.sizes[paper]
        form: Tree = {"id": next(self.letters), "name": "a form", "paper": paper, "count": self.seldom(1, 2)}
        form["print_reads"] = self.seldom("any", "up")
        inner = self.pair(self.some(16, width // 3), self.some(16, height // 3))
        return form | self.chance.choice(
            (
                {"as": "tag", "size": inner},
                {"as": "scored", "size": inner, "scores": [{"from": "left", "at": self.length(4)}]},
                {"as": "tray", "inside": inner, "depth": self.length(12)},
                {
                    "as": "frame",
                    "opening": inner,
                    "width": self.length(8),
                    "corner": self.chance.choice(("mitre", "butt")),
                },
                {"as": "concertina", "panel": inner, "panels": self.chance.randint(2, 6)},
            )
        )
