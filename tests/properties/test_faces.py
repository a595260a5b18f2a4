"""Placements, windows and layers at random, against judges that try everything. Numbers are ticks."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st
from jsonschema import validate

from layouts.assembly import steps_of
from layouts.document import Kit, read_kit_tree
from layouts.proofing.rules import claims, edges, faces
from layouts.shapes.faces import Lying, layers_on, lying_in, overlaps_in, seen_over_openings
from layouts.shapes.faces.rectangles import Rectangle
from layouts.shapes.faces.sweep import Upright, meetings

SMALL = st.integers(1, 12)
SIDES = ("left", "right", "top", "bottom")


def length(ticks: int) -> str:
    """A whole number of ticks as millimetres: 1 tick is 0.003125 mm."""
    return f"{ticks // 320}.{ticks % 320 * 3125:06d}"


@st.composite
def positions(draw: Any) -> dict[str, Any]:
    """A position on each axis, or none."""
    found: dict[str, Any] = {}
    for low, high, middle in (("left", "right", "centred"), ("bottom", "top", "middle")):
        name = draw(st.sampled_from((low, high, middle, None)))
        if name is not None:
            found[name] = True if name == middle else length(draw(st.integers(0, 12)))
    return {**found, "turn": draw(st.sampled_from((0, 90, 180, 270)))}


@st.composite
def windows(draw: Any, id_: str) -> dict[str, Any]:
    """Any measures that are allowed to be written: a window may lie outside, or be nothing."""
    found: dict[str, Any] = {"id": id_, "shape": {"kind": draw(st.sampled_from(("rect", "ellipse")))}}
    for names in (("left", "right", "width"), ("top", "bottom", "height")):
        for name in draw(st.lists(st.sampled_from(names), min_size=2, max_size=3, unique=True)):
            found[name] = length(draw(SMALL))
    return found


@st.composite
def kits(draw: Any) -> Kit:
    """A face, perhaps with an opening, and a few pieces with windows and edges, put on it and on each other."""
    pieces = []
    for id_ in "ABC":
        sides = draw(st.lists(st.sampled_from(SIDES), unique=True))
        pieces.append(
            {
                "id": id_,
                "name": id_,
                "size": [length(draw(SMALL)), length(draw(SMALL))],
                "size_is": draw(st.sampled_from(("cut", "finished"))),
                "count": draw(st.integers(1, 2)),
                "windows": [draw(windows(f"w{at}")) for at in range(draw(st.integers(0, 2)))],
                "edges": {side: draw(st.sampled_from(("wave", "lace"))) for side in sides},
            }
        )
    if draw(st.booleans()):
        pieces[2]["mirror_of"] = "B"
    opening = draw(windows("o"))
    del opening["id"]
    face = {"id": "f", "size": [length(draw(SMALL)), length(draw(SMALL))]}
    if draw(st.booleans()):
        face["opening"] = opening
    placements = []
    for number in range(draw(st.integers(1, 5))):
        on = draw(st.sampled_from(({"blank": "b", "face": "f"}, {"piece": "A"})))
        one: dict[str, Any] = {"id": f"x{number}", "put": {"piece": draw(st.sampled_from("BC"))}, "on": on}
        one["layer"] = draw(st.sampled_from(("over", "behind")))
        one["wraps"] = draw(st.lists(st.sampled_from(SIDES), unique=True, max_size=2))
        one["intends"] = draw(st.lists(st.sampled_from(("overhang", "uneven", "overlap")), unique=True))
        if draw(st.booleans()):
            one["border"] = length(draw(SMALL))
        if draw(st.booleans()):
            one |= draw(positions())
        else:
            copies = [{"on_copy": draw(st.integers(1, 2)), **draw(positions())} for _ in range(draw(st.integers(1, 3)))]
            one["copies"] = copies
        placements.append(one)
    tools = [
        {"id": "wave", "kind": "decorative", "bite": length(1)},
        {"id": "lace", "kind": "punch", "bite": length(2), "pitch": length(3), "least_depth": length(4)},
    ]
    steps = [{"id": "s", "text": "Put {x0.left} in from each side. Open {A.w0.left} on both sides."}]
    return read_kit_tree(
        {
            "format": "kitproof/1",
            "code": "c",
            "title": "t",
            "unit": "mm",
            "printed": {"mm": length(1)},
            "blanks": [{"id": "b", "name": "b", "faces": [face]}],
            "tools": tools,
            "projects": [{"id": "p", "title": "p", "pieces": pieces, "placements": placements, "steps": steps}],
        }
    )


RULES = {rule.name: rule for rule in (*faces.RULES, *edges.RULES, *claims.RULES)}


@settings(max_examples=400)
@given(kits())
def test_every_kit_is_judged_and_every_finding_has_numbers(kit):
    lying = lying_in(kit)
    found = [
        *faces.findings(kit, lying),
        *edges.findings(kit, lying),
        *claims.findings(kit, steps_of(kit), lying),
    ]
    for one in found:
        assert any(letter.isdigit() for letter in one.message), one.message
        assert one.at
        rule = RULES[one.rule]
        assert one.weight == rule.weight
        validate(dict(one.why), {"type": "object", "properties": dict(rule.why), "additionalProperties": False})


@given(kits())
def test_borders_and_the_thing_add_up_to_the_support(kit):
    for one in lying_in(kit):
        borders: Any = one.borders
        axes: Any = (
            ("left", "right", one.across.span, one.surface.width),
            ("bottom", "top", one.up.span, one.surface.height),
        )
        for low, high, span, whole in axes:
            if span is None or whole is None:
                continue
            assert (borders[low] is None) == (borders[high] is None)
            if borders[low] is not None:
                assert sum((borders[low], span, borders[high])) == whole


def cells(area: Any) -> set[tuple[Fraction, Fraction]]:
    """The half ticks that an area covers, each by its lower left: centred things end at half ticks."""
    half = Fraction(1, 2)
    return {
        (area.left + half * x, area.bottom + half * y)
        for x in range(int(area.width / half))
        for y in range(int(area.height / half))
    }


def paper(one: Lying) -> set[tuple[Fraction, Fraction]]:
    """What a thing covers but for its windows, as rectangles."""
    assert one.rectangle is not None
    covered = cells(one.rectangle)
    for hole in one.windows:
        covered -= cells(hole.around)
    return covered


@given(kits())
def test_things_overlap_where_their_rectangles_do(kit):
    """A thing within a window of the other is framed; of two that overlap, one layer, one copy, neither meaning it."""
    lying = [one for one in lying_in(kit) if one.rectangle is not None]
    expected = set()
    for at, one in enumerate(lying):
        for other in lying[at + 1 :]:
            together = one.on_copy is None or other.on_copy is None or one.on_copy == other.on_copy
            alike = (one.surface.place, one.placement.layer) == (other.surface.place, other.placement.layer)
            meant = "overlap" in (*one.placement.intends, *other.placement.intends)
            if together and alike and not meant and cells(one.rectangle) & cells(other.rectangle):
                expected.add((one.place, other.place))
    found = {(overlap.first.place, overlap.second.place) for overlap in overlaps_in(lying)}
    assert found <= expected
    by_place = {one.place: one for one in lying}
    for first, second in expected - found:
        pair = by_place[first], by_place[second]
        assert any(
            hole.around.holds(thing.rectangle)
            for frame, thing in (pair, pair[::-1])
            for hole in frame.windows
            if thing.rectangle is not None
        )


@given(kits())
def test_the_areas_of_layers_add_up_and_are_those_that_are_seen_from_above(kit):
    lying = lying_in(kit)
    for surface in {one.surface.place: one.surface for one in lying}.values():
        if surface.width is None or surface.height is None:
            continue
        layers = layers_on(surface, lying)
        own = cells(Rectangle(Fraction(0), Fraction(0), surface.width, surface.height))
        for hole in surface.holes:
            own -= cells(hole.around)
        covered = [own if layer.lying is None else paper(layer.lying) for layer in layers]
        for at, layer in enumerate(layers):
            above = set().union(*covered[at + 1 :])
            assert layer.area == Fraction(len(covered[at]), 4)
            assert layer.showing == Fraction(len(covered[at] - above), 4)
            assert layer.hidden == sum(layer.hidden_by.values())
            shown = [cells(area) for area in layer.shows]
            assert set().union(*shown) == covered[at] - above
            assert sum(map(len, shown)) == len(covered[at] - above)


@given(kits())
def test_paper_over_a_straight_opening_is_told_where_there_is_some(kit):
    lying = lying_in(kit)
    told = {(one.lying.place, one.opening.place) for one in seen_over_openings(lying) if hasattr(one, "reach")}
    for one in lying:
        if one.rectangle is None or any(not hole.is_rectangle for hole in (*one.windows, *one.surface.holes)):
            continue
        for opening in one.surface.holes:
            bare = paper(one) & cells(opening.around)
            around, area = opening.around, one.rectangle
            inside = area.left < around.left and area.right > around.right
            if not one.surface.is_face and inside and area.bottom < around.bottom and area.top > around.top:
                bare = set()
            if one.placement.layer == "behind":
                bare = bare if opening.around.holds(one.rectangle) else set()
            assert ((one.place, opening.place) in told) == bool(bare)


AREAS = st.builds(
    lambda left, bottom, width, height: Rectangle(*map(Fraction, (left, bottom, left + width, bottom + height))),
    st.integers(0, 10),
    st.integers(0, 10),
    st.integers(1, 5),
    st.integers(1, 5),
)


@settings(max_examples=300)
@given(st.lists(st.tuples(AREAS, st.sampled_from((None, 1, 2))), max_size=40))
def test_the_moving_line_meets_what_trying_all_pairs_does(areas):
    uprights = [
        Upright(area, ("every",), ("every", "listed"))
        if group is None
        else Upright(area, ("listed", group), ("every", group))
        for area, group in areas
    ]
    tried = [
        (at, other)
        for other in range(len(areas))
        for at in range(other)
        if (None in (areas[at][1], areas[other][1]) or areas[at][1] == areas[other][1])
        and areas[at][0].common(areas[other][0]) is not None
    ]
    assert meetings(uprights, 10_000) == sorted(tried)
    assert len(meetings(uprights, 3)) == min(3, len(tried))
