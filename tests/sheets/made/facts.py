"""What a document and its proof say, worked out from their JSON alone: the other side of every number on a sheet.

Figures come from the `printed` list of the proof. What is not in it is worked out here, in fractions: the cut size of
a piece whose size is the finished one, and the distances between the edges and cuts of the plan that the proof has for
sheets in this system.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

__all__ = ["Facts", "figure_of", "leaves", "numbers_in"]

type Tree = dict[str, Any]

# One tick is 1/320 mm and 1/8128 in.
_TICKS = {"in": 8128, "mm": 320, "cm": 3200}
_SLASH = "⁄"
# What is a number to a reader: with a fraction, with a point, or plain; not the digits of a name like A4.
_NUMBER = re.compile(r"(?<![\w⁄.])\d+ \d+⁄\d+(?!\w)|(?<![\w⁄.])\d+⁄\d+(?!\w)|(?<![\w⁄.])\d+(?:\.\d+)?(?![\w⁄])")


def numbers_in(text: str) -> list[str]:
    return _NUMBER.findall(text)


def ticks_of(text: str, unit: str) -> int:
    """A length as the examples write it: `6 3/4`, `5/8`, `15 cm`, `0.5 mm`, `12`."""
    number, unit_of = re.fullmatch(r"(.*?)\s*(in|mm|cm)?", text).groups()  # type: ignore[union-attr]
    value = sum(Fraction(part) for part in number.split())
    ticks = value * _TICKS[unit_of or unit]
    assert ticks.denominator == 1, text
    return int(ticks)


def figure_of(ticks: int, system: str, step: int) -> str:
    """As a sheet shows it: the nearest printed step, a tie to the even one (NIST PS 20-20 App. B1)."""
    value = Fraction(round(Fraction(ticks, step)) * step, _TICKS[system])
    if system == "mm":
        return str(value.numerator) if value.denominator == 1 else str(float(value))
    whole, rest = divmod(value.numerator, value.denominator)
    fraction = f"{rest}{_SLASH}{value.denominator}"
    return str(whole) if not rest else f"{whole} {fraction}" if whole else fraction


def leaves(node: Tree) -> Iterator[Tree]:
    for part in node.get("parts", ()):
        yield from leaves(part)
    if "parts" not in node:
        yield node


@dataclass(frozen=True)
class Facts:
    """The facts of one document; `unit` is the system that its sheets are set in."""

    document: Tree
    proof: Tree
    unit: str

    @property
    def other(self) -> str:
        return "mm" if self.unit == "in" else "in"

    def step(self, system: str) -> int:
        said = self.document.get("printed", {}).get(system, {"in": "1/16 in", "mm": "1 mm"}[system])
        return ticks_of(said, system)

    def printed(self, place: str, system: str = "") -> str:
        """The figure of a place, from the proof."""
        found = [one for one in self.proof["printed"] if one["at"] == place]
        assert len(found) == 1, place
        return str(found[0][system or self.unit]).replace("/", _SLASH)

    def shown(self, place: str, system: str = "") -> int:
        """The figure of a place, in ticks."""
        system = system or self.unit
        return ticks_of(self.printed(place, system).replace(_SLASH, "/"), system)

    def plans(self) -> dict[str, list[Tree]]:
        """The sheets of every paper as they are cut by the sizes that are shown."""
        exact = {one["paper"]: one["plan"] for one in self.proof["papers"]}
        return exact | {one["paper"]: one["plan"] for one in self.proof["as_printed"][self.unit]}

    def figure(self, ticks: int, system: str = "") -> str:
        return figure_of(ticks, system or self.unit, self.step(system or self.unit))

    def under(self, place: str) -> list[str]:
        """The figures of all places below a place."""
        found = [one for one in self.proof["printed"] if one["at"].startswith(f"{place}/")]
        return [str(one[self.unit]).replace("/", _SLASH) for one in found]

    def projects(self) -> list[Tree]:
        return list(self.document["projects"])

    def cut_rows(self, project: Tree) -> Counter[tuple[str, ...]]:
        """The lines of a cutting list: letter, name, count, and both sizes, each as it must be read."""
        rows: Counter[tuple[str, ...]] = Counter()
        for piece in project.get("pieces", ()):
            count = piece.get("count", 1) * (1 if isinstance(piece.get("paper"), dict) else project.get("makes", 1))
            rows[(piece["id"], piece["name"], str(count), *self._cut_size(project, piece))] += 1
        for form in project.get("forms", ()):
            count = form.get("count", 1) * (1 if isinstance(form.get("paper"), dict) else project.get("makes", 1))
            place = f"project:{project['id']}/form:{form['id']}"
            for letter, name, at in self.parts(form, place):
                sizes = (
                    " × ".join(self.printed(f"{at}/{side}", system) for side in ("width", "height"))
                    for system in (self.unit, self.other)
                )
                rows[(letter, name, str(count), *sizes)] += 1
        return rows

    def _cut_size(self, project: Tree, piece: Tree) -> list[str]:
        """What is cut in both systems, and what is left of it where an edge takes something."""
        found = []
        for system in (self.unit, self.other):
            cut, finished = (
                " × ".join(self.figure(ticks, system) for ticks in self.piece_size(project, piece, which, system))
                for which in ("cut", "finished")
            )
            found.append(cut if cut == finished else f"{cut} finished {finished}")
        return found

    def piece_size(self, project: Tree, piece: Tree, which: str, system: str = "") -> tuple[int, int]:
        """Width and height of a piece as it is cut, or finished, as shown, in ticks."""
        place = f"project:{project['id']}/piece:{piece['id']}"
        sign = {"cut": 1, "finished": -1}[which] * (which != piece.get("size_is", "cut"))
        width, height = (
            self.shown(f"{place}/size/{side}", system) + sign * self._bite(piece, edges, system)
            for side, edges in (("width", ("left", "right")), ("height", ("top", "bottom")))
        )
        return width, height

    def _bite(self, piece: Tree, edges: tuple[str, ...], system: str) -> int:
        """What edges on these sides take."""
        tools = {tool["id"]: tool for tool in self.document["tools"]}
        taken = [piece["edges"][edge] for edge in edges if edge in piece.get("edges", {})]
        return sum(self.shown(f"tool:{tool}/bite", system) for tool in taken if "bite" in tools[tool])

    def parts(self, form: Tree, place: str) -> Iterator[tuple[str, str, str]]:
        """Letter, name and place of every flat part; a scored sheet and a tag are as large as they say."""
        if form["as"] in ("scored", "tag"):
            yield form["id"], form["name"], f"{place}/size"
            return
        numbers = {match[1] for one in self.proof["printed"] if (match := re.match(rf"{place}/part:(\d+)/", one["at"]))}
        if not numbers:
            yield form["id"], form["name"], f"{place}/flat"
        for number in sorted(numbers, key=int):
            yield f"{form['id']} {number}", f"{form['name']}, part {number}", f"{place}/part:{number}/flat"

    def letter(self, place: str) -> str:
        """The letter of something that is cut; in the examples no two projects use the same."""
        made, _, part = place.partition("/part:")
        return f"{made.rpartition(':')[2]} {part}" if part else made.rpartition(":")[2]

    def names(self) -> list[str]:
        """All names and titles of the document, the longest first: digits in them are no figures."""
        return sorted(_names(self.document), key=lambda name: (-len(name), name))


def _names(value: Any) -> set[str]:
    if isinstance(value, dict):
        own = {value[key] for key in ("name", "title", "code") if isinstance(value.get(key), str)}
        return own.union(*map(_names, value.values()))
    return set().union(*map(_names, value)) if isinstance(value, list) else set()
