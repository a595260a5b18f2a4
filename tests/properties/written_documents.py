"""Documents as somebody might write them: each member there, absent or null, each value in one of several spellings."""

from __future__ import annotations

import json
from typing import Any

from hypothesis import strategies as st

from layouts.document import Kit, read_kit

__all__ = ["written_documents"]

# 0.79375 mm is 1/32 in and 1.5875 mm 1/16 in: defaults, written in the other system.
LENGTHS = {
    "in": [
        *("1", "2 7/8", "2⅞", "1-1/4", "12/16", "0.5", '3"'),
        *("1/2 in", "1/32", "1/16", "25.4 mm", "3,5 cm", "0.79375 mm", "1.5875 mm"),
    ],
    "mm": [
        *("1", "25.4", "10,5", "73.025", "0.79375", "1.5875", "1 in"),
        *("1/16 in", "1/32 in", "2.54cm", "0.5 mm", "⅞ in", "1/2 in"),
    ],
}
ZEROS = ["0", "0 mm", "0 in", "0.0"]
TEXTS = st.sampled_from(["", "front panel", "cafe\u0301", "¾ of a line\nand\ttab", "null", "{A.width} \u2028 𝛼", " "])
CARRIED = st.dictionaries(
    st.sampled_from(["x_", "x_note", "x_é", "x_id"]),
    st.recursive(
        st.none() | st.booleans() | st.integers(-(2**53), 2**53) | TEXTS,
        lambda inner: st.lists(inner, max_size=2) | st.dictionaries(st.sampled_from(["id", "x_a", "e\u0301"]), inner),
        max_leaves=4,
    ),
    max_size=2,
)
COUNTS = st.sampled_from([1, 2, 10_000])
DURATIONS = st.sampled_from(["60 s", "030 min", "2 h", "10000 min"])
SIDES = st.sampled_from(["left", "right", "top", "bottom"])
READS = st.sampled_from(["up", "down", "left", "right"])
ABSENT = object()


class Writer:
    """Draws a document piece by piece; what is drawn refers only to what is there."""

    def __init__(self, draw: Any) -> None:
        self.draw = draw
        self.unit = draw(st.sampled_from(["in", "mm"]))
        self.length = st.sampled_from(LENGTHS[self.unit])
        self.or_zero = st.sampled_from([*LENGTHS[self.unit], *ZEROS])
        self.size = st.lists(self.length, min_size=2, max_size=2)

    def one(self, needed: dict[str, Any], **optional: Any) -> dict[str, Any]:
        """An object: of its optional members each is there, absent or null, and x_… members go along."""
        members = dict(needed)
        for name, values in optional.items():
            name = name.rstrip("_")
            value = self.draw(st.just(ABSENT) | st.none() | values)
            if value is not ABSENT:
                members[name] = value
        return {**members, **self.draw(CARRIED)}

    def named(self, names: list[str]) -> list[str]:
        drawn: list[str] = self.draw(st.lists(st.sampled_from(names), unique=True, max_size=2))
        return drawn

    def some(self, of: list[str]) -> Any:
        return st.sampled_from(of) if of else st.none()

    def document(self) -> dict[str, Any]:
        pads = [
            self.one({"id": id_, "name": self.draw(TEXTS), "size": self.draw(self.size)})
            for id_ in self.named(["p", "P-2"])
        ]
        self.pads = [pad["id"] for pad in pads]
        papers = [self.paper(id_) for id_ in self.named(["trellis", "1", "Kraft"])]
        self.papers = [paper["id"] for paper in papers]
        embellishments = [self.embellishment(id_) for id_ in self.named(["labels", "stars"])]
        self.elements = [
            f"{sheet['id']}/{one['id']}" for sheet in embellishments for one in sheet.get("elements") or []
        ]
        blanks = [self.blank(id_) for id_ in self.named(["chest", "box"])]
        self.faces = [(blank["id"], face["id"]) for blank in blanks for face in blank.get("faces") or []]
        self.blanks = [blank["id"] for blank in blanks]
        supplies = [self.supply(id_) for id_ in self.named(["twine", "lamp"])]
        self.supplies = [supply["id"] for supply in supplies]
        tools = [self.tool(id_) for id_ in self.named(["knife", "wave"])]
        self.tools = [tool["id"] for tool in tools]
        self.windows: list[str] = []
        self.earlier: list[str] = []
        projects = [self.project(id_) for id_ in self.named(["lid", "calendar"])]
        text = {name: self.draw(TEXTS) for name in ("rule", "why", "because", "by")}
        accepted = [self.one({**text, "at": ["paper:p"]}) for _ in range(self.draw(st.integers(0, 2)))]
        lists = {
            "pads": pads,
            "papers": papers,
            "embellishments": embellishments,
            "blanks": blanks,
            "supplies": supplies,
            "tools": tools,
            "projects": projects,
            "accepted": accepted,
        }
        whole = {"format": "kitproof/1", "code": "2027-04", "title": self.draw(TEXTS), "unit": self.unit}
        printed = self.one({}, in_=st.sampled_from(["1/16 in", "1/8 in"]), mm=st.sampled_from(["1 mm", "0.5 mm"]))
        return self.one(
            {**whole, **{name: members for name, members in lists.items() if members or self.draw(st.booleans())}},
            printed=st.just(printed),
            cutting=st.just(self.one({}, slack=self.or_zero)),
        )

    def side(self) -> dict[str, Any]:
        return self.one({"name": self.draw(TEXTS)}, reads=READS, repeat=st.sampled_from(["one-way", "two-way", "any"]))

    def paper(self, id_: str) -> dict[str, Any]:
        source = {"size": self.draw(self.size)}
        if self.pads and self.draw(st.booleans()):
            source = {"pad": self.draw(st.sampled_from(self.pads))}
        needed = {"id": id_, "name": self.draw(TEXTS), "sheets": self.draw(st.sampled_from([0, 2])), **source}
        return self.one(
            {**needed, "front": self.side()},
            back=st.just(self.side()),
            grammage=COUNTS,
            caliper_um=st.sampled_from([1, 10_000_000]),
            grain=st.sampled_from(["up", "sideways"]),
            undersize=self.or_zero,
            spoilt=st.just(self.one({}, left=self.or_zero, right=self.or_zero, top=self.or_zero, bottom=self.or_zero)),
        )

    def embellishment(self, id_: str) -> dict[str, Any]:
        elements = [
            self.one({"id": one, "name": self.draw(TEXTS), "count": 3}, size=self.size, two_sided=st.booleans())
            for one in self.named(["oval", "trowel"])
        ]
        return self.one(
            {"id": id_, "name": self.draw(TEXTS)}, sheets=st.sampled_from([0, 1, 2]), elements=st.just(elements)
        )

    def opening(self) -> dict[str, Any]:
        """Two or three of three measures each way."""
        stated = [
            self.draw(st.lists(st.sampled_from(names), min_size=2, max_size=3, unique=True))
            for names in (["left", "right", "width"], ["top", "bottom", "height"])
        ]
        needed = {name: self.draw(self.length) for names in stated for name in names}
        return self.one(needed, shape=st.just(self.shape()), cut_out=st.sampled_from(["waste", "kept"]))

    def shape(self) -> dict[str, Any]:
        kind = self.draw(st.sampled_from([None, "rect", "ellipse", "arch", "rounded", "polygon"]))
        points = st.lists(st.lists(self.or_zero, min_size=2, max_size=2), min_size=3, max_size=4)
        own = {"arch": ("rise", self.length), "rounded": ("radius", self.length), "polygon": ("points", points)}
        needed = {} if kind is None else {"kind": kind}
        if kind in own:
            name, values = own[kind]
            needed[name] = self.draw(values)
        return self.one(needed)

    def blank(self, id_: str) -> dict[str, Any]:
        faces = [
            self.one(
                {"id": face, "size": self.draw(self.size)},
                count=COUNTS,
                inside=st.booleans(),
                opening=st.just(self.opening()),
            )
            for face in self.named(["front", "rear"])
        ]
        return self.one(
            {"id": id_, "name": self.draw(TEXTS)},
            count=COUNTS,
            thickness_um=COUNTS,
            outside=st.lists(self.length, min_size=3, max_size=3),
            faces=st.just(faces),
        )

    def supply(self, id_: str) -> dict[str, Any]:
        return self.one(
            {
                "id": id_,
                "name": self.draw(TEXTS),
                "kind": self.draw(st.sampled_from(["ribbon", "button-cell", "other"])),
            },
            count=COUNTS,
            length=self.length,
            thickness_um=COUNTS,
            from_=st.sampled_from(["kit", "member"]),
        )

    def tool(self, id_: str) -> dict[str, Any]:
        return self.one(
            {"id": id_, "kind": self.draw(st.sampled_from(["knife", "decorative", "solvent-glue"]))},
            name=TEXTS,
            step=self.length,
            longest=self.length,
            narrowest=self.length,
            bite=self.or_zero,
            pitch=self.length,
            least_depth=self.or_zero,
        )

    def project(self, id_: str) -> dict[str, Any]:
        makes = self.draw(st.sampled_from([1, 2]))
        each = self.papers[:makes] if len(self.papers) >= makes else []
        paper = self.some(self.papers)
        if each:
            paper = paper | st.just(self.one({"each": each}))
        self.pieces: list[str] = []
        pieces = [self.piece(one, id_, paper) for one in self.named(["A", "B"])]
        names = self.named(["tray", "lid", "strip", "tag"]) if self.papers else []
        forms = [self.form(one, paper, names[:at]) for at, one in enumerate(names)]
        # One has the id of a piece: placements have a list of their own.
        supports: list[dict[str, Any]] = [{"piece": one} for one in self.pieces]
        supports += [{"blank": blank, "face": face} for blank, face in self.faces]
        supports += [{"form": one, "panel": "base", "skin": "inside"} for one in names]
        placements = [self.placement(one, names, supports) for one in self.named(["A", "middle"]) if supports]
        earlier: list[str] = []
        steps = []
        for one in self.named(["cut", "glue"]):
            steps.append(self.step(one, names, earlier))
            earlier.append(one)
        self.earlier += [f"{id_}/{one}" for one in earlier]
        lists = {"pieces": pieces, "forms": forms, "placements": placements, "steps": steps}
        return self.one({"id": id_, "title": self.draw(TEXTS), "makes": makes, **lists})

    def piece(self, id_: str, project: str, paper: Any) -> dict[str, Any]:
        source: dict[str, Any] = {}
        if self.windows and self.draw(st.booleans()):
            source = {"from": self.draw(st.sampled_from(self.windows))}
        elif self.draw(st.booleans()):
            source = {"paper": self.draw(paper)}
        windows = [{**self.opening(), "id": one} for one in self.named(["pane", "vent"])]
        piece = self.one(
            {"id": id_, "name": self.draw(TEXTS), "size": self.draw(self.size), **source},
            side=st.sampled_from(["front", "back", "either", "both"]),
            size_is=st.sampled_from(["cut", "finished"]),
            count=COUNTS,
            print_reads=READS | st.just("any"),
            shape=st.just(self.shape()),
            edges=st.just(self.one({}, left=self.some(self.tools), top=self.some(self.tools))),
            windows=st.just(windows),
            mirror_of=self.some(self.pieces),
        )
        self.pieces.append(id_)
        self.windows += [f"{project}/{id_}/{one['id']}" for one in piece.get("windows") or []]
        return piece

    def form(self, id_: str, paper: Any, earlier: list[str]) -> dict[str, Any]:
        common = {"id": id_, "name": self.draw(TEXTS), "paper": self.draw(paper.filter(lambda one: one is not None))}
        base = {"side": st.sampled_from(["front", "back"]), "count": COUNTS, "print_reads": READS | st.just("any")}
        size, length = self.draw(self.size), self.draw(self.length)
        walls = {
            "walls": st.sampled_from(["single", "double"]),
            "turn_in": self.or_zero | st.just(length),
            "flange": self.or_zero,
            "corner": st.sampled_from(["tab", "cut"]),
        }
        tray = {"depth": length, self.draw(st.sampled_from(["inside", "outside"])): size}
        fits: Any = st.just(size)
        if self.blanks:
            fits = fits | st.just(self.one({"blank": self.blanks[0]}))
        if earlier:
            fits = fits | st.just(self.one({"form": earlier[0]}))
        scores = st.lists(
            st.just(self.one({"from": "left", "at": length}, fold=st.sampled_from(["mountain", "valley"])))
        )
        kinds: list[tuple[str, dict[str, Any], dict[str, Any]]] = [
            ("tray", tray, walls),
            ("lid", {"depth": length, "fits": self.draw(fits)}, {**walls, "clearance": self.length}),
            ("sleeve", {"around": size, "length": length, "overlap": length}, {"clearance": self.length}),
            ("concertina", {"panel": size, "panels": 4}, {"join": self.length, "first_fold": st.just("valley")}),
            ("pocket", {"panel": size, "flap": length}, {"open": SIDES}),
            ("frame", {"opening": size, "width": length}, {"corner": st.sampled_from(["mitre", "butt"])}),
            (
                "envelope",
                {"holds": size, "side_flap": length, "bottom_flap": length, "top_flap": length},
                {"clearance": self.length},
            ),
            ("tag", {"size": size}, {"corner": self.or_zero, "hole": self.length}),
            ("scored", {"size": size}, {"scores": scores, "corners": st.sampled_from(["keep", "tab", "cut"])}),
        ]
        name, needed, optional = self.draw(st.sampled_from(kinds))
        return self.one({**common, "as": name, **needed}, **base, **optional)

    def thing(self, forms: list[str]) -> dict[str, Any]:
        things = {
            "piece": self.pieces,
            "form": forms,
            "blank": self.blanks,
            "element": self.elements,
            "supply": self.supplies,
        }
        return dict([self.draw(st.sampled_from([(kind, id_) for kind, ids in things.items() for id_ in ids]))])

    def position(self) -> dict[str, Any]:
        across = self.draw(
            st.sampled_from([{}, {"left": self.draw(self.or_zero)}, {"right": "0 mm"}, {"centred": True}])
        )
        upwards = self.draw(
            st.sampled_from([{}, {"top": self.draw(self.or_zero)}, {"bottom": "0 in"}, {"middle": True}])
        )
        return {**across, **upwards, **self.draw(st.sampled_from([{}, {"turn": 0}, {"turn": 90}]))}

    def placement(self, id_: str, forms: list[str], supports: list[dict[str, Any]]) -> dict[str, Any]:
        copies = [self.one({"on_copy": at, **self.position()}) for at in range(1, self.draw(st.integers(2, 3)))]
        where = self.draw(st.sampled_from([{"copies": copies}, {**self.position(), "copies": "each"}, self.position()]))
        sides = self.one({}, left=self.or_zero, bottom=self.or_zero)
        return self.one(
            {
                "id": id_,
                "put": self.one(self.thing(forms)),
                "on": self.one(self.draw(st.sampled_from(supports))),
                **where,
            },
            layer=st.sampled_from(["over", "behind"]),
            border=self.or_zero | st.just(sides),
            wraps=st.lists(SIDES, max_size=2),
            intends=st.lists(st.sampled_from(["overhang", "uneven", "overlap"]), max_size=2),
        )

    def step(self, id_: str, forms: list[str], earlier: list[str]) -> dict[str, Any]:
        made = [*self.pieces, *forms]
        use = (
            [self.one(self.thing(forms), count=COUNTS, length=self.length)]
            if made or self.blanks or self.supplies
            else []
        )
        before = [*earlier, *self.earlier]
        after = st.just([]) if not before else st.lists(st.sampled_from(before), max_size=2)
        return self.one(
            {"id": id_, "text": self.draw(TEXTS)},
            cut=st.lists(self.some(made), max_size=2) if made else st.just([]),
            use=st.just(use),
            tools=st.just(self.tools),
            work=DURATIONS,
            hold=DURATIONS,
            held=st.sampled_from(["by-hand", "clamped"]),
            dry=DURATIONS,
            after=after,
            closes=st.just([*forms, *self.blanks]),
            cautions=st.lists(st.sampled_from(["blade", "small-parts"]), max_size=2),
        )


@st.composite
def written_documents(draw: Any) -> Kit:
    return read_kit(json.dumps(Writer(draw).document()).encode())
