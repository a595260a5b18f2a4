"""What lies on what, by hand: borders that are stated, that the middle leaves, and that stick out."""

from __future__ import annotations

from typing import Any

import pytest

from kits.sheets.content.faces import drawn_faces
from kits.sheets.content.layers import layers_of, lying_pairs
from kits.sheets.content.measures import Measures
from kits.sheets.content.room import room_of
from tests.unit.assembly.small_kits import CARD, kit_of, piece, project
from tests.unit.sheets.proofs import INCHES, MILLIMETRES, printed_of

BOARD = {
    "id": "board",
    "name": "grey board",
    "faces": [{"id": "front", "size": ["6", "5"]}, {"id": "rear-low", "size": ["6", "5"], "inside": True}],
}
A = piece("A", paper="card")  # 4 by 3, called “panel A”
B = piece("B", paper="card", size=["2", "1"])
ON_FRONT = {"on": {"blank": "board", "face": "front"}}
MIDDLE = {"centred": True, "middle": True}


def _put(name: str, letter: str, **members: Any) -> dict[str, Any]:
    return {"id": name, "put": {"piece": letter}, **ON_FRONT, **members}


def _measures(*placements: Any, options=INCHES, pieces=(A, B), blanks=(BOARD,), **more: Any) -> Measures:
    kit = kit_of(
        project("shelf", pieces=list(pieces), placements=list(placements), **more), papers=[CARD], blanks=list(blanks)
    )
    return Measures(kit, options, printed_of(kit))


def _told(*placements: Any, **more: Any) -> list[tuple[str, list[tuple[str, tuple[str, ...]]]]]:
    measures = _measures(*placements, **more)
    found = layers_of(measures, measures.as_shown.projects[0], lying_pairs(measures))
    return [
        (
            f"{one.letter} {one.name}".strip(),
            [(laid.letter, tuple(how.replace("\N{NO-BREAK SPACE}", " ") for how in laid.how)) for laid in one.laid],
        )
        for one in found
    ]


HOW = [
    pytest.param(MIDDLE, "1 in all round", id="the middle of 6 by 5 for 4 by 3"),
    pytest.param({**MIDDLE, "border": "1"}, "1 in all round", id="a claim that is true"),
    pytest.param({"left": "1/4", "top": "1/4"}, "1/4 in from the left and the top", id="a corner"),
    pytest.param({"left": "0", "bottom": "0"}, "flush with the left and the bottom", id="flush"),
    pytest.param({"left": "1", "middle": True}, "1 in from the left, the right, the top and the bottom", id="as told"),
    pytest.param({"centred": True}, "1 in from the left and the right", id="nothing said of one axis"),
    pytest.param({}, "", id="nothing said"),
    pytest.param({**MIDDLE, "layer": "behind"}, "behind it, 1 in all round", id="behind"),
    pytest.param(
        {**MIDDLE, "turn": 90},
        "turned a quarter anticlockwise, 1 1/2 in from the left and the right, 1/2 in from the top and the bottom",
        id="turned: 3 by 4",
    ),
    pytest.param(
        {"left": "1/2", "top": "1/2", "wraps": ["left"]},
        "1/2 in from the left and the top, turned over the left",
        id="wrapped",
    ),
]


@pytest.mark.parametrize(("members", "how"), HOW)
def test_borders_are_told_in_words(members, how):
    [(name, [(letter, told)])] = _told(_put("a", "A", **members))
    assert (name, letter) == ("front of the grey board", "A")
    # All four sides alike are “all round”, however they came about.
    assert told in ((how,), (how.replace("from the left, the right, the top and the bottom", "all round"),))


def test_what_sticks_out_is_told_as_such():
    wide = piece("A", paper="card", size=["7", "3"])
    [(_, [(_, how)])] = _told(_put("a", "A", **MIDDLE), pieces=[wide])
    assert how == ("sticking out 1/2 in at the left and the right, 1 in from the top and the bottom",)


def test_a_border_that_the_step_cannot_show_is_told_as_the_middle():
    """152 by 127 mm less 102 by 76 leaves 50 and 51: 25 on both sides, and 25 1/2."""
    [(_, [(_, how)])] = _told(_put("a", "A", **MIDDLE), options=MILLIMETRES)
    assert how == ("25 mm from the left and the right, centred from top to bottom",)


def test_a_claim_that_is_not_true_is_not_repeated():
    [(_, [(_, how)])] = _told(_put("a", "A", **MIDDLE, border="3/4"))
    assert how == ("1 in all round",)


def test_copies_of_one_thing_are_told_together_and_things_in_the_order_of_the_document():
    corners = {"copies": [{"on_copy": 1, "left": "1/4", "top": "1/4"}, {"on_copy": 1, "right": "1/4", "top": "1/4"}]}
    told = _told(_put("a", "A", **MIDDLE), _put("b", "B", **corners))
    assert told == [
        (
            "front of the grey board",
            [
                ("A", ("1 in all round",)),
                ("B", ("1/4 in from the left and the top", "1/4 in from the right and the top")),
            ],
        )
    ]


def test_copies_of_a_support_that_differ_are_told_apart():
    two = piece("A", paper="card", count=2)
    on_first = {"id": "b", "put": {"piece": "B"}, "on": {"piece": "A"}, "copies": [{"on_copy": 2, **MIDDLE}]}
    each = {"id": "c", "put": {"piece": "B"}, "on": {"piece": "A"}, **MIDDLE}
    told = _told(on_first, each, pieces=[two, B])
    assert [name for name, _ in told] == ["A panel A, the second of 2", "A panel A, each"]


def test_insides_and_panels_are_named():
    tray = {"id": "T", "name": "box", "as": "tray", "paper": "card", "inside": ["4", "3"], "depth": "1"}
    inside = {"id": "a", "put": {"piece": "A"}, "on": {"form": "T", "panel": "wall-left", "skin": "inside"}}
    low = {"id": "b", "put": {"piece": "B"}, "on": {"blank": "board", "face": "rear-low"}}
    told = _told(inside, low, forms=[tray])
    assert [name for name, _ in told] == ["wall left of the box, inside", "rear low of the grey board, inside"]


def _faces(*placements: Any, **more: Any):
    measures = _measures(*placements, **more)
    return drawn_faces(measures, measures.as_shown.projects[0], lying_pairs(measures), 145)


def test_a_face_with_one_thing_on_it_is_not_drawn():
    assert _faces(_put("a", "A", **MIDDLE)) == ((), 0)


def test_layers_are_drawn_in_place_and_one_above_the_other():
    on_a = {"id": "b", "put": {"piece": "B"}, "on": {"piece": "A"}, **MIDDLE}
    [face], left_out = _faces(_put("a", "A", **MIDDLE), on_a)
    assert (face.name, len(face.drawings), left_out) == ("front of the grey board", 2, 0)
    assert face.words.startswith("front of the grey board, 6 by 5 in, seen from the front.")


def test_things_side_by_side_need_no_second_drawing():
    corners = {"copies": [{"on_copy": 1, "left": "1/4", "top": "1/4"}, {"on_copy": 1, "right": "1/4", "top": "1/4"}]}
    [face], _ = _faces(_put("b", "B", **corners))
    assert len(face.drawings) == 1


def test_a_pile_higher_than_a_page_is_drawn_in_place_alone():
    pile = [
        {
            "id": f"b{number}",
            "put": {"piece": "B"},
            "on": {"piece": "A"},
            "left": "1",
            "top": "1",
            "intends": ["overlap"],
        }
        for number in range(20)
    ]
    measures = _measures(_put("a", "A", **MIDDLE), *pile)
    lying = lying_pairs(measures)
    for options, many in ((INCHES, 1), (None, 2)):
        room = room_of(options) if options else None
        [face], _ = drawn_faces(measures, measures.as_shown.projects[0], lying, 145, room)
        assert len(face.drawings) == many
