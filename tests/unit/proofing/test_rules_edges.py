"""The rules about what is left of a piece: for each one where it fires and one where it just does not, by hand.

Pieces are given in millimetres; 1 mm is 320 ticks, and a rim of less than 3 mm is thin (common practice, no source).
"""

from __future__ import annotations

from typing import Any

import pytest

from layouts.document import Kit
from layouts.proofing.findings import Finding
from layouts.proofing.rules import edges
from layouts.shapes.faces import lying_in
from tests.unit.proofing.small_prints import MM, kit_of, piece, project

_A = "project:p/piece:A"
_TOOLS = [
    {"id": "wave", "kind": "decorative", "bite": "2", "pitch": "7"},
    {"id": "lace", "kind": "punch", "bite": "4", "pitch": "5", "least_depth": "12"},
    {"id": "plain", "kind": "trimmer"},
]


def _kit(*pieces: Any, **more: Any) -> Kit:
    return kit_of(project(*pieces, **more), tools=_TOOLS)


def _found(kit: Kit) -> list[Finding]:
    return list(edges.findings(kit, lying_in(kit)))


def _rules(kit: Kit) -> list[str]:
    return [one.rule for one in _found(kit)]


def _window(id_: str = "w", **measures: Any) -> dict[str, Any]:
    return {"id": id_, "left": "10", "right": "10", "top": "10", "bottom": "10", **measures}


@pytest.mark.parametrize(
    ("size", "more", "why"),
    [
        pytest.param(("60", "30"), {"edges": {"top": "wave"}}, None, id="scissors take 2 of 30"),
        pytest.param(
            ("4", "30"),
            {"edges": {"left": "wave", "right": "wave"}},
            ("nothing-left", "width", 4, 4),
            id="2 and 2 of 4",
        ),
        pytest.param(("4.5", "30"), {"edges": {"left": "wave", "right": "wave"}}, None, id="a half is left"),
        pytest.param(("4", "30"), {"edges": {"left": "wave"}}, None, id="one edge only"),
        pytest.param(("60", "16"), {"edges": {"top": "lace"}}, None, id="a punch has its 4 and its grip of 12"),
        pytest.param(("60", "15"), {"edges": {"top": "lace"}}, ("no-grip", "top", 16, 15), id="a punch cannot grip"),
        pytest.param(
            ("60", "12"), {"edges": {"top": "lace"}, "size_is": "finished"}, None, id="finished: 4 more are cut"
        ),
        pytest.param(
            ("60", "11"),
            {"edges": {"top": "lace"}, "size_is": "finished"},
            ("no-grip", "top", 16, 15),
            id="finished, too low",
        ),
        pytest.param(("60", "20"), {"edges": {"top": "lace", "bottom": "lace"}}, None, id="the second finds 16"),
        pytest.param(
            ("60", "19"),
            {"edges": {"top": "lace", "bottom": "lace"}},
            ("no-grip", "bottom", 16, 15),
            id="the second finds 15",
        ),
        pytest.param(
            ("60", "16"), {"edges": {"top": "lace", "bottom": "wave"}}, None, id="punched first, then cut with scissors"
        ),
        pytest.param(("60", "30"), {"edges": {"top": "plain"}}, None, id="a tool that bites nothing"),
        pytest.param(
            ("60", "30"),
            {"edges": {"top": "wave"}, "windows": [_window(top="2")]},
            ("window", "top", 2, 2),
            id="up to a window",
        ),
        pytest.param(
            ("60", "30"),
            {"edges": {"top": "wave"}, "windows": [_window(top="2.5")]},
            None,
            id="half a millimetre before it",
        ),
        pytest.param(
            ("60", "30"),
            {"edges": {"top": "wave"}, "windows": [_window(top="2")], "size_is": "finished"},
            None,
            id="the margin of a finished piece is what the bite leaves",
        ),
    ],
)
def test_what_edges_bite_away(size, more, why):
    found = [one for one in _found(_kit(piece("A", *size, **more))) if one.rule == "edge-bites-away"]

    told = [(*list(one.why.values())[:2], one.why["needed"] // MM, one.why["there"] // MM) for one in found]
    assert told == ([] if why is None else [why])
    assert all(one.weight == "stop" and one.at[0].startswith(_A) for one in found)


@pytest.mark.parametrize(
    ("window", "more", "rims"),
    [
        pytest.param(_window(left="3"), {}, [], id="3 mm are left"),
        pytest.param(_window(left="2.5"), {}, [("left", 2.5)], id="less is left"),
        pytest.param(_window(left="2.5", top="1"), {}, [("left", 2.5), ("top", 1)], id="on two sides"),
        pytest.param(_window(top="4.5"), {"edges": {"top": "wave"}}, [("top", 2.5)], id="what the scissors leave"),
        pytest.param(_window(top="5"), {"edges": {"top": "wave"}}, [], id="the scissors leave enough"),
        pytest.param(
            _window(top="2.5"),
            {"edges": {"top": "wave"}, "size_is": "finished"},
            [("top", 2.5)],
            id="finished: as it is said",
        ),
        pytest.param(
            {"id": "w", "left": "0.5", "right": "60", "top": "9", "bottom": "9"}, {}, [], id="no window at all"
        ),
    ],
)
def test_thin_rims_to_an_edge(window, more, rims):
    found = [one for one in _found(_kit(piece("A", "60", "40", windows=[window], **more))) if one.rule == "window-rim"]

    assert [(one.why["side"], one.why["rim"] / MM) for one in found] == rims


def _two_windows(left: str, bottom: str, shape: Any = None, **more: Any) -> Kit:
    """A window from (10, 10) to (20, 20), and one of the same size from (left, bottom)."""
    square = {"width": "10", "height": "10", "shape": shape or {}}
    windows = [
        {"id": "w", "left": "10", "bottom": "10", **square},
        {"id": "v", "left": left, "bottom": bottom, **square},
    ]
    return _kit(piece("A", "60", "60", windows=windows, **more))


_ROUND = {"kind": "ellipse"}
# A square on its corner, and the half of a square below its diagonal.
_DIAMOND = {"kind": "polygon", "points": [["5", "0"], ["10", "5"], ["5", "10"], ["0", "5"]]}
_HALF = {"kind": "polygon", "points": [["0", "0"], ["10", "0"], ["0", "10"]]}


@pytest.mark.parametrize(
    ("kit", "rule", "numbers"),
    [
        pytest.param(_two_windows("23", "10"), None, None, id="3 mm between"),
        pytest.param(_two_windows("22.5", "10"), "window-rim", (2.5,), id="less between"),
        # 1.8 and 2.4 mm: 3.0 mm from corner to corner (3, 4, 5).
        pytest.param(_two_windows("21.8", "22.4"), None, None, id="aslant, 3 mm between"),
        # 1.5 and 2 mm: 2.5 mm.
        pytest.param(_two_windows("21.5", "22"), "window-rim", (2.5,), id="aslant, less between"),
        pytest.param(_two_windows("20", "10"), "windows-meet", (0, 0), id="they touch"),
        pytest.param(_two_windows("20", "20"), "windows-meet", (0, 0), id="they touch at a corner"),
        pytest.param(_two_windows("18", "15"), "windows-meet", (2, 5), id="they cross"),
        pytest.param(_two_windows("10", "10"), "windows-meet", (10, 10), id="they are one"),
        # Circles of 5 mm about (15, 15) and (23, 23): 8√2 = 11.3 mm apart.
        pytest.param(_two_windows("18", "18", _ROUND), None, None, id="circles whose squares cross, 11.3 mm apart"),
        # About (15, 15) and (22, 22): 7√2 = 9.9 mm apart.
        pytest.param(_two_windows("17", "17", _ROUND), "windows-meet", (3, 3), id="circles 9.9 mm apart"),
        pytest.param(_two_windows("10", "10", _ROUND), "windows-meet", (10, 10), id="equal circles"),
        pytest.param(_two_windows("10.5", "10", _ROUND), "windows-meet", (9.5, 10), id="nearly equal circles"),
        pytest.param(_two_windows("10", "10", _DIAMOND), "windows-meet", (10, 10), id="equal polygons"),
        pytest.param(_two_windows("16", "16", _HALF), None, None, id="below a diagonal, and above it"),
        pytest.param(_two_windows("14", "14", _HALF), "windows-meet", (6, 6), id="across a diagonal"),
    ],
)
def test_windows_keep_apart(kit, rule, numbers):
    found = _found(kit)

    assert [one.rule for one in found] == ([] if rule is None else [rule])
    for one in found:
        assert one.at == (f"{_A}/window:w", f"{_A}/window:v")
        told = (one.why["rim"],) if rule == "window-rim" else (one.why["width"], one.why["height"])
        assert tuple(number / MM for number in told) == numbers


def test_a_window_within_another_meets_it():
    inner = {"id": "v", "left": "18", "width": "4", "bottom": "18", "height": "4", "shape": _ROUND}
    outer = {"id": "w", "left": "10", "width": "20", "bottom": "10", "height": "20", "shape": _ROUND}

    assert _rules(_kit(piece("A", "60", "60", windows=[outer, inner]))) == ["windows-meet"]


@pytest.mark.parametrize(
    ("width", "more", "would_be"),
    [
        pytest.param("60", {"edges": {"top": "lace"}}, None, id="twelve pitches of 5"),
        pytest.param("62", {"edges": {"top": "lace"}}, "60 mm or 65 mm", id="twelve and a half"),
        pytest.param("3", {"edges": {"top": "lace"}}, "5 mm", id="less than one"),
        pytest.param("62", {"edges": {"top": "wave"}}, None, id="scissors follow their own line"),
        pytest.param("62", {"edges": {"top": "lace", "left": "wave"}}, None, id="60 when the scissors have been"),
        pytest.param("60", {"edges": {"left": "lace"}}, None, id="an upright edge of 40"),
    ],
)
def test_a_punched_edge_is_whole_pitches(width, more, would_be):
    found = [one for one in _found(_kit(piece("A", width, "40", **more))) if one.rule == "pattern-broken"]

    assert len(found) == (would_be is not None)
    assert all(one.weight == "note" and f" {would_be} would be." in one.message for one in found)


_HANDED = {"windows": [{"id": "w", "left": "5", "width": "10", "top": "10", "bottom": "10"}], "count": 2}
_EVEN = {"windows": [_window()], "count": 2}
_BOARD = {"id": "B", "name": "board", "paper": "oak", "size": ["99", "79"]}


def _doors(made: Any, *copies: Any, **more: Any) -> Kit:
    placements = [{"id": "doors", "put": {"piece": "A"}, "on": {"piece": "B"}, "copies": list(copies)}]
    return _kit(piece("A", "40", "30", **made), _BOARD, placements=more.get("placements", placements))


def _copy(**position: Any) -> dict[str, Any]:
    return {"on_copy": 1, "top": "5", **position}


_SIDES = [
    {"id": f"door-{side}", "put": {"piece": "A"}, "on": {"piece": "B"}, "top": "0", "copies": "each"}
    for side in ("left", "right")
]


@pytest.mark.parametrize(
    ("kit", "handed"),
    [
        pytest.param(_doors(_HANDED, _copy(left="5"), _copy(right="5")), True, id="left and right of one board"),
        pytest.param(_doors(_EVEN, _copy(left="5"), _copy(right="5")), False, id="it is its own mirror image"),
        pytest.param(_doors(_HANDED, _copy(left="5"), _copy(right="6")), False, id="not as far from both sides"),
        pytest.param(_doors(_HANDED, _copy(left="5"), _copy(right="5", turn=180)), False, id="one is turned"),
        pytest.param(
            _doors(_HANDED, _copy(left="5"), {**_copy(right="5"), "on_copy": 2}), False, id="on two copies of the board"
        ),
        pytest.param(_doors(_HANDED, placements=_SIDES), True, id="named left and right"),
        pytest.param(_doors({**_HANDED, "count": 1}, placements=_SIDES), False, id="there is one only"),
        pytest.param(
            _doors({**_HANDED, "edges": {"left": "wave"}, "windows": []}, placements=_SIDES), True, id="by its edges"
        ),
        pytest.param(_doors({**_HANDED, "windows": [], "shape": _HALF}, placements=_SIDES), True, id="by its outline"),
    ],
)
def test_equal_copies_of_a_handed_piece(kit, handed):
    found = [one for one in _found(kit) if one.rule == "handed-pair"]

    assert [(one.weight, one.at[0], one.why["count"]) for one in found] == ([("note", _A, 2)] if handed else [])


@pytest.mark.parametrize(
    ("other", "what"),
    [
        pytest.param(
            {"windows": [{"id": "v", "right": "5", "width": "10", "top": "10", "bottom": "10"}]}, None, id="it is one"
        ),
        pytest.param({}, ["windows"], id="without the window"),
        pytest.param(
            {"windows": [{"id": "v", "left": "5", "width": "10", "top": "10", "bottom": "10"}]},
            ["windows"],
            id="a mere copy",
        ),
        pytest.param(
            {
                "size": ["41", "30"],
                "windows": [{"id": "v", "right": "5", "width": "10", "top": "10", "bottom": "10"}],
                "edges": {"left": "wave"},
            },
            ["size", "windows", "edges"],
            id="wider, which moves the window from the left, and wavy",
        ),
    ],
)
def test_a_mirror_image_is_one(other, what):
    original = piece("A", "40", "30", windows=_HANDED["windows"])
    mirrored = {**piece("C", "40", "30"), "mirror_of": "A", **other}
    found = [one for one in _found(_kit(original, mirrored)) if one.rule == "mirror-differs"]

    assert [one.why["what"] for one in found] == ([] if what is None else [what])
    assert all(one.weight == "fix" and one.at == ("project:p/piece:C", _A) for one in found)


def test_the_mirror_image_of_a_polygon_may_be_listed_from_any_corner():
    other_half = {"kind": "polygon", "points": [["10", "10"], ["0", "0"], ["10", "0"]]}
    kit = _kit(piece("A", "10", "10", shape=_HALF), {**piece("C", "10", "10", shape=other_half), "mirror_of": "A"})

    assert _rules(kit) == []


def test_a_piece_of_which_there_is_a_mirror_image_is_no_handed_pair():
    mirrored = {**piece("C", "40", "30"), "mirror_of": "A"}
    kit = _kit(piece("A", "40", "30", **_HANDED), mirrored, _BOARD, placements=_SIDES)

    assert "handed-pair" not in _rules(kit)
