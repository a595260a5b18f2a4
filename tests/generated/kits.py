"""Kit documents that are known to fit: made from a seed by cutting sheets up and asking for what came out.

Each sheet is cut edge to edge, with the slack lost at every cut, and what comes out becomes pieces, flat parts of forms
and, out of windows, further pieces. So a plan exists for every print and every kept cut-out, whatever else is said.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from random import Random
from typing import Any

__all__ = ["Generated", "generated", "generated_kit"]

type Tree = dict[str, Any]

# Sheets in printed steps: sixteenths of an inch, or millimetres.
_SHEETS = ((128, 128), (96, 96), (136, 176), (192, 192), (150, 100), (210, 148))
_ANGLES = {"up": 0, "left": 90, "down": 180, "right": 270}
_SIDES = ("left", "right", "top", "bottom")
# In ticks of 1/320 mm.
_STEPS = {"in": 508, "mm": 320}
_SLACKS = {"in": (("0", 0), ("1/64", 127), ("1/16", 508)), "mm": (("0", 0), ("0.5", 160), ("1", 320))}


@dataclass(frozen=True)
class _Part:
    """What comes out of a cut, `count` times: its size across and up as it lies, in ticks."""

    across: int
    up: int
    count: int


@dataclass(frozen=True)
class _Print:
    """One print, or several alike that a set is cut from."""

    ids: tuple[str, ...]
    front: Tree
    back: Tree | None

    @property
    def paper(self) -> Any:
        return self.ids[0] if len(self.ids) == 1 else {"each": list(self.ids)}

    def side(self, name: str) -> Tree:
        return self.front if name == "front" or self.back is None else self.back


@dataclass(frozen=True)
class Generated:
    """A document, and of how many sheets of each print everything was cut."""

    kit: Tree
    sheets: dict[str, int]


def generated(seed: int) -> Generated:
    """Return the document with this number, and what is known of it: equal numbers, equal documents."""
    maker = _Maker(Random(seed))
    return Generated(maker.kit(seed), maker.sheets)


def generated_kit(seed: int) -> Tree:
    """Return the document with this number alone."""
    return generated(seed).kit


class _Maker:
    def __init__(self, chance: Random) -> None:
        self.chance = chance
        self.unit = chance.choice(("in", "mm"))
        self.step = _STEPS[self.unit]
        self.slack_text, self.slack = chance.choice(_SLACKS[self.unit])
        # How much of what comes out is asked for, and by how much a piece may be smaller than its part.
        self.tight = chance.choice((0.6, 0.8, 0.95, 1.0))
        self.sheets: dict[str, int] = {}
        self.letters = iter(f"{letter}{number}" for number in range(1, 200) for letter in "ABCDEFGH")

    def kit(self, seed: int) -> Tree:
        papers: list[Tree] = []
        projects: list[Tree] = []
        for number in range(self.chance.choice((1, 1, 2, 3))):
            makes = self.chance.choice((1, 1, 1, 2, 3))
            # A set: every copy of the project from another print. Otherwise the copies share the sheets.
            each = makes > 1 and self.chance.random() < 0.6
            alike = makes if each else 1
            print_, some = self.papers(number, alike)
            papers += some
            projects.append(self.project(f"project-{number}", print_, some[0], 1 if each else makes, makes))
            spare = self.chance.choice((0, 0, 1))
            for paper in some:
                paper["sheets"] = self.sheets[paper["id"]] + spare
        return {
            "format": "kitproof/1",
            "code": f"generated-{seed}",
            "title": f"Cut up with seed {seed}",
            "unit": self.unit,
            "cutting": {"slack": self.slack_text},
            "papers": papers,
            "tools": [{"id": "trimmer", "kind": "trimmer"}, {"id": "knife", "kind": "knife"}],
            "projects": projects,
        }

    # lengths ----------------------------------------------------------------------------------------------------

    def text(self, ticks: int) -> str:
        """A whole number of printed steps as a length in the document's unit."""
        steps, rest = divmod(ticks, self.step)
        assert not rest
        if self.unit == "mm":
            return str(steps)
        whole, sixteenths = divmod(steps, 16)
        return f"{whole} {sixteenths}/16" if whole and sixteenths else str(whole) if whole else f"{sixteenths}/16"

    def pair(self, width: int, height: int) -> list[str]:
        return [self.text(width), self.text(height)]

    def down(self, ticks: int) -> int:
        return ticks - ticks % self.step

    def some(self, low: int, high: int) -> int:
        """A whole number of steps between two numbers of ticks."""
        return self.chance.randint(-(-low // self.step), max(-(-low // self.step), high // self.step)) * self.step

    # paper ------------------------------------------------------------------------------------------------------

    def papers(self, number: int, alike: int) -> tuple[_Print, list[Tree]]:
        width, height = self.chance.choice(_SHEETS)
        if self.chance.random() < 0.5:
            width, height = height, width
        front, back = self.side("Front"), self.side("Back") if self.chance.random() < 0.7 else None
        paper: Tree = {
            "name": f"Print {number}",
            "size": self.pair(width * self.step, height * self.step),
            "sheets": 0,
            "front": front,
        }
        if back is not None:
            paper["back"] = back
        if self.chance.random() < 0.25:
            paper["undersize"] = self.text(self.step)
        if self.chance.random() < 0.4:
            sides = self.chance.sample(_SIDES, self.chance.randint(1, 4))
            paper["spoilt"] = {side: self.text(self.some(self.step, 6 * self.step)) for side in sides}
        ids = tuple(f"print-{number}-{one}" for one in range(alike))
        return _Print(ids, front, back), [{"id": id_, **paper} for id_ in ids]

    def side(self, name: str) -> Tree:
        return {
            "name": name,
            "reads": self.chance.choice(tuple(_ANGLES)),
            "repeat": self.chance.choice(("one-way", "two-way", "any")),
        }

    def usable(self, paper: Tree) -> tuple[int, int]:
        """What is left of a sheet less its undersize and its margins; a margin on the left or below costs a cut."""
        under = self.step if "undersize" in paper else 0
        spoilt = {side: self.ticks(text) for side, text in paper.get("spoilt", {}).items()}
        for side in ("left", "bottom"):
            if side in spoilt:
                spoilt[side] = max(spoilt[side], self.slack + 1)
        width, height = (self.ticks(side) for side in paper["size"])
        return (
            width - under - spoilt.get("left", 0) - spoilt.get("right", 0),
            height - under - spoilt.get("top", 0) - spoilt.get("bottom", 0),
        )

    def ticks(self, text: str) -> int:
        """What `text` was made from."""
        if self.unit == "mm":
            return int(text) * self.step
        whole, _, fraction = text.rpartition(" ") if "/" in text else (text, "", "0/16")
        return (int(whole or 0) * 16 + int(fraction.split("/")[0])) * self.step

    # cutting up -------------------------------------------------------------------------------------------------

    def cut_up(self, across: int, up: int, deep: int, times: int = 1) -> Iterator[_Part]:
        """Cut a rectangle edge to edge, again and again; each cut loses the slack."""
        least = 6 * self.step
        along = "x" if (across > up) == (self.chance.random() < 0.8) else "y"
        whole, other = (across, up) if along == "x" else (up, across)
        if deep == 0 or whole < 2 * least + self.slack:
            yield from self.leaf(across, up, times)
        elif self.chance.random() < 0.3:
            count = self.chance.randint(2, 3)
            part = self.down((whole - (count - 1) * self.slack) // count)
            if part < least:
                yield from self.leaf(across, up, times)
            else:
                yield from self.cut_up(*self.laid(along, part, other), deep - 1, times * count)
        else:
            first = self.some(least, whole - self.slack - least)
            for part in (first, whole - first - self.slack):
                yield from self.cut_up(*self.laid(along, part, other), deep - 1, times)

    def laid(self, along: str, part: int, other: int) -> tuple[int, int]:
        return (part, other) if along == "x" else (other, part)

    def leaf(self, across: int, up: int, times: int) -> Iterator[_Part]:
        """Take what is left as a part, now and then a little smaller, or leave it."""
        if self.chance.random() > self.tight:
            return
        if self.chance.random() > self.tight:
            across, up = across - self.some(0, across // 4), up - self.some(0, up // 4)
        yield _Part(self.down(across), self.down(up), times)

    # what is asked for ------------------------------------------------------------------------------------------

    def project(self, id_: str, print_: _Print, paper: Tree, shared_by: int, makes: int) -> Tree:
        """A project from one print; where its copies share the sheets, what comes out as often is shared out."""
        pieces: list[Tree] = []
        forms: list[Tree] = []
        used, most = 0, self.chance.randint(1, 3)
        while used < most and len(pieces) + len(forms) <= 12:
            used += 1
            deep = self.chance.choice((1, 2, 3, 3, 4, 4))
            for part in self.cut_up(*self.usable(paper), deep):
                count = part.count // shared_by
                if count and self.chance.random() < 0.2:
                    forms.append(self.form(_Part(part.across, part.up, count), print_.paper))
                elif count:
                    pieces += self.piece(id_, _Part(part.across, part.up, count), print_)
        self.sheets |= dict.fromkeys(print_.ids, used)
        use = [{"piece": one["id"], "count": one["count"]} for one in pieces]
        use += [{"form": one["id"], "count": one["count"]} for one in forms]
        step = {"id": "all", "text": "Cut and glue.", "cut": [one["id"] for one in (*pieces, *forms)], "use": use}
        steps = [step] if use else []
        whole = {"id": id_, "title": "A project", "makes": makes, "pieces": pieces, "forms": forms, "steps": steps}
        self.chance.shuffle(pieces)
        return whole

    def piece(self, project: str, part: _Part, print_: _Print) -> list[Tree]:
        """A piece that lies as the part does, in a turn that its print allows; and what comes out of its windows."""
        turn = self.chance.choice((0, 90, 180, 270))
        side = self.chance.choice(("front", "back") if print_.back is not None else ("front",))
        piece = self.lying(part, turn, print_.side(side)) | {"paper": print_.paper, "side": side}
        if side == "front" and self.chance.random() < 0.1:
            piece["side"] = "either"
        return [piece, *self.guests(project, piece, turn, part.count, print_, deep=2)]

    def lying(self, part: _Part, turn: int, side: Tree) -> Tree:
        """The piece that fills a part when it lies in this turn on the sheet."""
        size = (part.across, part.up) if turn in (0, 180) else (part.up, part.across)
        angle = (_ANGLES[side["reads"]] - turn) % 360
        reads = next(name for name, of in _ANGLES.items() if of == angle)
        return {
            "id": next(self.letters),
            "name": "a piece",
            "size": self.pair(*size),
            "count": part.count,
            "print_reads": reads if self.chance.random() < 0.6 else "any",
        }

    def guests(self, project: str, host: Tree, turn: int, copies: int, print_: _Print, deep: int) -> Iterator[Tree]:
        """Open a window in a piece, keep what comes out and cut it up as well."""
        width, height = (self.ticks(side) for side in host["size"])
        rim = self.some(self.step, 3 * self.step)
        wide, high = width - 2 * rim, height - 2 * rim
        if min(wide, high) < 8 * self.step or self.chance.random() < 0.6:
            return
        window = {"id": "w", "left": self.text(rim), "bottom": self.text(rim), "cut_out": "kept"}
        host["windows"] = [window | {"width": self.text(wide), "height": self.text(high)}]
        source = f"{project}/{host['id']}/w"
        for part in self.cut_up(wide, high, self.chance.randint(0, 1)):
            # In the cut-out's own turn or in another; on the sheet the host's turn comes on top.
            own = self.chance.choice((0, 0, 90, 180))
            side = host["side"] if host["side"] != "either" else "front"
            count = part.count * copies
            size = _Part(*self.as_on_sheet(part.across, part.up, turn), count)
            guest = self.lying(size, (turn + own) % 360, print_.side(side)) | {"from": source, "side": side}
            yield guest
            if deep > 1:
                yield from self.guests(project, guest, (turn + own) % 360, count, print_, deep - 1)

    def as_on_sheet(self, across: int, up: int, turn: int) -> tuple[int, int]:
        return (across, up) if turn in (0, 180) else (up, across)

    # forms ------------------------------------------------------------------------------------------------------

    def form(self, part: _Part, paper: Any) -> Tree:
        """A form whose flat part is the part, or whose strips are cut from it."""
        form = {"id": next(self.letters), "name": "a form", "paper": paper, "count": part.count}
        return form | self.chance.choice(list(self.constructions(part.across, part.up)))

    def constructions(self, across: int, up: int) -> Iterator[Tree]:
        """Every construction with a flat part of this size (section “Forms” of the contract); no caliper is stated."""
        step = self.step
        size = self.pair(across, up)
        yield {"as": "tag", "size": size, "corner": self.text(step)}
        yield {"as": "scored", "size": size, "scores": [{"from": "left", "at": self.text(2 * step)}]}
        if min(across, up) > 4 * step:
            yield {"as": "tray", "inside": self.pair(across - 2 * step, up - 2 * step), "depth": self.text(step)}
            double = {"as": "tray", "walls": "double", "depth": self.text(step)}
            yield double | {"outside": self.pair(across - 4 * step, up - 4 * step)}
            yield {"as": "pocket", "panel": self.pair(across - 2 * step, up - step), "flap": self.text(step)}
            flaps = {name: self.text(step) for name in ("side_flap", "bottom_flap", "top_flap")}
            envelope = {"as": "envelope", "clearance": "0.5 mm" if self.unit == "mm" else "1/32", **flaps}
            yield envelope | {"holds": self.pair(across - 3 * step, up - 3 * step)}
        around = across - 6 * step - across % (2 * step)
        if around >= 4 * step:
            # 2 (w + d) + 4 clearance of half a step + overlap of four steps, or of five.
            sides = self.pair(around // 2 - step, step) if around // 2 % step == 0 else None
            if sides is not None:
                overlap = across - around - 2 * step
                clearance = "0.5 mm" if self.unit == "mm" else "1/32"
                sleeve = {"as": "sleeve", "around": sides, "length": self.text(up), "clearance": clearance}
                yield sleeve | {"overlap": self.text(overlap)}
        for panels in (2, 3, 4):
            if across % (panels * step) == 0:
                yield {"as": "concertina", "panel": self.pair(across // panels, up), "panels": panels}
        strip = self.down((up - 3 * self.slack) // 4)
        if strip >= step and across > 2 * strip:
            side = across - 2 * strip
            yield {"as": "frame", "opening": self.pair(side, side), "width": self.text(strip)}
