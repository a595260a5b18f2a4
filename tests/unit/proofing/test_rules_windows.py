"""The rules about openings: for each one where it fires and one where it just does not, worked by hand.

The piece is 40 x 30 mm, the face as large; 1 mm is 320 ticks.
"""

from __future__ import annotations

from typing import Any

import pytest

from layouts.document import Kit
from layouts.proofing.rules import windows
from tests.unit.proofing.small_prints import MM, kit_of, piece, project

_WINDOW = "project:p/piece:A/window:w"
_OPENING = "blank:box/face:front/opening"


def _of_piece(**measures: Any) -> Kit:
    shape = measures.pop("in_shape", {})
    return kit_of(project(piece("A", "40", "30", shape=shape, windows=[{"id": "w", **measures}])))


def _of_face(**measures: Any) -> Kit:
    face = {"id": "front", "size": ["40", "30"], "opening": measures}
    return kit_of(project(), blanks=[{"id": "box", "name": "box", "faces": [face]}])


def _fired(kit: Kit) -> list[tuple[str, tuple[str, ...]]]:
    return [(finding.rule, finding.at) for finding in windows.findings(kit)]


_INSIDE = {"left": "1", "bottom": "1", "width": "20", "height": "10"}


@pytest.mark.parametrize(
    ("measures", "fired"),
    [
        pytest.param(_INSIDE, [], id="inside"),
        pytest.param({**_INSIDE, "width": "38.9"}, [], id="a rim of a tenth on the right"),
        pytest.param({**_INSIDE, "width": "39"}, ["window-outside"], id="up to the right edge"),
        pytest.param({**_INSIDE, "width": "50"}, ["window-outside"], id="over the right edge"),
        pytest.param({**_INSIDE, "height": "29"}, ["window-outside"], id="up to the top edge"),
        pytest.param(
            {"right": "1", "top": "1", "width": "39", "height": "10"}, ["window-outside"], id="up to the left edge"
        ),
        pytest.param({"left": "20", "right": "19.9", "top": "1", "bottom": "1"}, [], id="a tenth is left of it"),
        pytest.param(
            {"left": "20", "right": "20", "top": "1", "bottom": "1"}, ["window-outside"], id="nothing is left"
        ),
        pytest.param(
            {"left": "21", "right": "20", "top": "1", "bottom": "1"}, ["window-outside"], id="less than nothing"
        ),
        pytest.param({**_INSIDE, "right": "19"}, [], id="1 + 20 + 19 are 40"),
        pytest.param({**_INSIDE, "right": "18.9"}, ["window-sums"], id="a tenth is missing across"),
        pytest.param({**_INSIDE, "top": "19.1"}, ["window-sums"], id="a tenth too much upright"),
        pytest.param({**_INSIDE, "right": "9", "top": "9"}, ["window-sums", "window-sums"], id="both axes"),
        pytest.param({**_INSIDE, "width": "39", "right": "1"}, ["window-sums", "window-outside"], id="both rules"),
    ],
)
@pytest.mark.parametrize(
    ("kit", "place"), [pytest.param(_of_piece, _WINDOW, id="piece"), pytest.param(_of_face, _OPENING, id="face")]
)
def test_what_fires_and_what_just_does_not(kit, place, measures, fired):
    assert _fired(kit(**measures)) == [(rule, (place,)) for rule in fired]


@pytest.mark.parametrize(
    ("left", "fired"),
    [
        # An ellipse of 40 x 30 at 5 mm up: half the width there is 20 √(1 - (10/15)²) = 14.907…, 5.093 from the left.
        pytest.param("5", [("window-outside", (_WINDOW,))], id="its corner reaches over the curve"),
        pytest.param("5.1", [], id="its corner stays inside"),
    ],
)
def test_a_window_keeps_inside_the_outline_of_its_piece(left, fired):
    kit = _of_piece(left=left, right="6", bottom="5", height="5", in_shape={"kind": "ellipse"})

    assert _fired(kit) == fired


def test_the_facts_of_a_sum_are_the_axis_and_both_sides_of_it():
    (finding,) = windows.findings(_of_piece(**_INSIDE, right="18"))

    assert finding.why == {"axis": "width", "sum": 39 * MM, "whole": 40 * MM}
    assert "left 1 mm, width 20 mm, right 18 mm make 39 mm, and the width is 40 mm" in finding.message


def test_the_facts_of_a_window_outside_are_where_it_lies():
    (finding,) = windows.findings(_of_piece(left="5", bottom="4", width="40", height="3"))

    assert finding.why == {
        "left": 5 * MM,
        "right": -5 * MM,
        "width": 40 * MM,
        "bottom": 4 * MM,
        "top": 23 * MM,
        "height": 3 * MM,
    }


def test_every_window_and_face_is_judged():
    pieces = [
        piece(id_, "40", "30", windows=[{"id": "w", **_INSIDE, "width": "39"}, {"id": "v", **_INSIDE}]) for id_ in "AB"
    ]
    faces = [{"id": id_, "size": ["40", "30"], "opening": {**_INSIDE, "height": "29"}} for id_ in ("front", "rear")]
    kit = kit_of(
        project(*pieces), blanks=[{"id": "box", "name": "box", "faces": [*faces, {"id": "end", "size": ["9", "9"]}]}]
    )

    assert [at for _, at in _fired(kit)] == [
        ("project:p/piece:A/window:w",),
        ("project:p/piece:B/window:w",),
        ("blank:box/face:front/opening",),
        ("blank:box/face:rear/opening",),
    ]


@pytest.mark.parametrize(
    ("cut_out", "source", "fired"),
    [
        pytest.param("kept", "p/A/w", [], id="kept, and a piece comes from it"),
        pytest.param("kept", "p/A/v", [("kept-never-used", ("project:p/piece:A/window:w",))], id="kept for nothing"),
        pytest.param("waste", "p/A/v", [], id="waste"),
    ],
)
def test_a_cut_out_that_is_kept_becomes_something(cut_out, source, fired):
    small = {"left": "1", "bottom": "1", "width": "6", "height": "6"}
    fed = {**small, "id": "v", "left": "10", "cut_out": "kept"}
    host = piece("A", "40", "30", windows=[{**small, "id": "w", "cut_out": cut_out}, fed])
    guests = [piece("B", "5", "5", **{"from": "p/A/v"}), piece("C", "5", "5", **{"from": source})]

    assert _fired(kit_of(project(host, *guests))) == fired


def test_what_is_kept_for_nothing_is_counted_over_the_kit():
    kept = {"id": "w", **_INSIDE, "cut_out": "kept"}
    (finding,) = windows.findings(kit_of(project(piece("A", "40", "30", count=2, windows=[kept]), makes=3)))

    assert finding.why == {"count": 6}
    assert "window w of A (piece A) is kept, and no piece comes from it" in finding.message
