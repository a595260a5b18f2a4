"""The rules about placements: for each one where it fires and one where it just does not, worked by hand.

The board is 70 × 50 mm; in it, where it is asked for, an opening 20 mm in and 10 mm up, 30 × 20 mm. 1 mm is 320 ticks.
"""

from __future__ import annotations

from typing import Any

import pytest

from layouts.document import Kit
from layouts.proofing.findings import Finding
from layouts.proofing.rules import faces
from layouts.shapes.faces import lying_in
from tests.unit.proofing.small_prints import MM, piece
from tests.unit.shapes.faces.on_a_board import BOARD, put, put_on_board

_MIDDLE = {"centred": True, "middle": True}
_OPENING = {"opening": {"left": "20", "width": "30", "bottom": "10", "height": "20"}}
_IT = "project:p/placement:it"


def _found(kit: Kit) -> list[Finding]:
    return list(faces.findings(kit, lying_in(kit)))


def _kit(size: tuple[str, str], *, face: Any = None, of_piece: Any = None, **placement: Any) -> Kit:
    return put_on_board(put("it", "A", **placement), pieces=[piece("A", *size, **(of_piece or {}))], face=face)


def _why(**sides: int) -> dict[str, int]:
    """Numbers of the overhang rule in ticks, of what is given in millimetres."""
    return {side: sides.get(side, 0) * MM for side in ("left", "right", "top", "bottom", "across", "up")}


@pytest.mark.parametrize(
    ("kit", "why"),
    [
        pytest.param(_kit(("70", "50"), **_MIDDLE), None, id="as large as the face"),
        pytest.param(_kit(("72", "50"), **_MIDDLE), {"beyond": "edge", **_why(left=1, right=1)}, id="wider"),
        pytest.param(_kit(("72", "50"), **_MIDDLE, intends=["overhang"]), None, id="wider, and meant to be"),
        pytest.param(_kit(("72", "50"), **_MIDDLE, wraps=["left", "right"]), None, id="wider, and turned over"),
        pytest.param(_kit(("72", "20")), {"beyond": "edge", **_why(across=2)}, id="wider, wherever it lies"),
        pytest.param(_kit(("20", "50"), face=_OPENING, left="0", top="0"), None, id="up to an opening"),
        pytest.param(
            _kit(("21", "50"), face=_OPENING, left="0", top="0"),
            {"beyond": "opening", **_why(left=1, across=1, up=20)},
            id="over an opening",
        ),
        pytest.param(
            _kit(("21", "50"), face=_OPENING, left="0", top="0", intends=["overhang"]),
            None,
            id="over it, and meant to be",
        ),
    ],
)
def test_what_overhangs(kit, why):
    found = [(one.weight, one.at[0], dict(one.why)) for one in _found(kit) if one.rule == "placement-overhangs"]

    assert found == ([] if why is None else [("stop", _IT, why)])


def test_overhang_over_an_opening_is_told_at_both():
    (found,) = _found(_kit(("70", "50"), face=_OPENING, left="0", top="0"))

    assert found.at == (_IT, "blank:board/face:front/opening")
    assert "30 mm × 20 mm" in found.message


@pytest.mark.parametrize(
    ("size", "placement", "sides"),
    [
        pytest.param(("64", "44"), {**_MIDDLE, "border": "3"}, [], id="true"),
        pytest.param(("64", "42"), {**_MIDDLE, "border": "3"}, [("top", 3, 4), ("bottom", 3, 4)], id="wrong up"),
        pytest.param(("64", "42"), {**_MIDDLE, "border": {"left": "3"}}, [], id="only one side is claimed"),
        pytest.param(("64", "44"), {"border": "4"}, [("across", 8, 6), ("up", 8, 6)], id="cannot be, wherever it lies"),
    ],
)
def test_a_claimed_border_is_the_true_one(size, placement, sides):
    found = [one for one in _found(_kit(size, **placement)) if one.rule == "border-differs"]

    expected = [{"side": side, "claimed": claimed * MM, "true": true * MM} for side, claimed, true in sides]
    assert [(one.weight, one.at) for one in found] == ([("fix", (_IT,))] if sides else [])
    told = [one for finding in found for one in finding.why["sides"]]
    assert sorted(told, key=str) == sorted(expected, key=str)


@pytest.mark.parametrize(
    ("kit", "rules"),
    [
        pytest.param(_kit(("64", "44"), **_MIDDLE), [], id="even"),
        pytest.param(_kit(("64", "42"), **_MIDDLE), ["border-uneven"], id="3 mm across and 4 mm up"),
        pytest.param(_kit(("64", "42"), **_MIDDLE, intends=["uneven"]), [], id="meant to be uneven"),
        pytest.param(_kit(("64", "42"), **_MIDDLE, border="3"), ["border-differs"], id="a claim says it already"),
    ],
)
def test_an_uneven_border_is_noted(kit, rules):
    assert [one.rule for one in _found(kit)] == rules


@pytest.mark.parametrize(
    ("window", "shows"),
    [
        pytest.param({"left": "20", "width": "30", "bottom": "10", "height": "20"}, None, id="they are one"),
        pytest.param({"left": "19", "width": "32", "bottom": "9", "height": "22"}, None, id="a rim of 1 mm all round"),
        pytest.param({"left": "18", "width": "33", "bottom": "9", "height": "22"}, (2, 1, 1, 1), id="2 mm on the left"),
        pytest.param({"left": "5", "width": "50", "bottom": "5", "height": "35"}, None, id="much larger is meant"),
    ],
)
def test_an_uneven_rim_of_an_opening_is_noted(window, shows):
    kit = _kit(("70", "50"), face=_OPENING, of_piece={"windows": [{"id": "w", **window}]}, left="0", top="0")
    found = [
        (one.rule, one.why["around"], *(one.why[side] // MM for side in ("left", "right", "top", "bottom")))
        for one in _found(kit)
    ]

    assert found == ([] if shows is None else [("border-uneven", "opening", *shows)])


def _two(second: Any, **more: Any) -> Kit:
    return put_on_board(put("it", "A", left="0", bottom="0", **more), put("too", "A", **second))


@pytest.mark.parametrize(
    ("kit", "why"),
    [
        pytest.param(_two({"left": "30", "bottom": "0"}), None, id="side by side"),
        pytest.param(_two({"left": "28", "bottom": "15"}), (2, 5, 1), id="over a corner"),
        pytest.param(_two({"left": "28", "bottom": "15"}, intends=["overlap"]), None, id="the first means it"),
        pytest.param(_two({"left": "28", "bottom": "15", "intends": ["overlap"]}), None, id="the second means it"),
        pytest.param(
            _two(
                {"copies": [{"on_copy": 1, "left": "29", "bottom": "15"}, {"on_copy": 2, "left": "28", "bottom": "15"}]}
            ),
            (2, 5, 2),
            id="twice: the larger is told",
        ),
    ],
)
def test_placements_of_one_layer_lie_beside_each_other(kit, why):
    found = [(one.rule, one.at, tuple(one.why.values())) for one in _found(kit)]
    width, height, times = why or (0, 0, 0)

    told = ("placements-overlap", (_IT, "project:p/placement:too"), (width * MM, height * MM, times))
    assert found == ([] if why is None else [told])


def _leaf(two_sided: bool, **placement: Any) -> Kit:
    leaf = {"id": "e", "name": "leaf", "count": 9, "size": ["20", "20"], "two_sided": two_sided}
    sheet = {"id": "s", "name": "sheet", "elements": [leaf]}
    it = {"id": "it", "put": {"element": "s/e"}, "on": BOARD, "top": "0", **placement}
    return put_on_board(it, embellishments=[sheet])


@pytest.mark.parametrize(
    ("kit", "planned"),
    [
        pytest.param(_leaf(False, left="55", intends=["overhang"]), "one", id="an element printed on one side"),
        pytest.param(_leaf(True, left="55", intends=["overhang"]), None, id="an element printed on both"),
        pytest.param(_leaf(False, left="50", intends=["overhang"]), None, id="it does not hang over"),
        pytest.param(
            _kit(("30", "20"), left="45", top="0", intends=["overhang"]), "front", id="a piece planned for one"
        ),
        pytest.param(
            _kit(("30", "20"), of_piece={"side": "both"}, left="45", top="0", intends=["overhang"]),
            None,
            id="planned for both",
        ),
    ],
)
def test_what_hangs_over_shows_both_its_sides(kit, planned):
    found = [(one.rule, one.weight, one.why["planned"], one.why["by"]) for one in _found(kit)]

    assert found == ([] if planned is None else [("both-sides-used", "note", planned, 5 * MM)])


def test_copies_that_are_wrong_alike_are_told_once():
    copies = [{"on_copy": number, "left": "45", "bottom": "0"} for number in range(1, 31)]
    copies.append({"on_copy": 1, "left": "46", "bottom": "30"})
    first, second = _found(put_on_board(put("it", "A", copies=copies)))

    assert (first.why["right"], second.why["right"]) == (5 * MM, 6 * MM)
    assert first.at == tuple(f"{_IT}/copies/{number}" for number in range(1, 21))
    assert "29 copies more" in first.message


def test_every_finding_has_the_facts_of_its_rule_and_a_number_in_its_words():
    kits = [
        _kit(("72", "52"), **_MIDDLE, border="3"),
        _kit(("64", "42"), **_MIDDLE),
        _two({"left": "28", "bottom": "15"}),
    ]
    for one in (one for kit in kits for one in _found(kit)):
        assert any(letter.isdigit() for letter in one.message)
