"""Flat parts of forms: what is drawn, told apart without colour, and how it is said."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from decimal import Decimal
from typing import Any

import pytest

from layouts.drawing import (
    FlatDrawing,
    ScaledDrawing,
    flat_drawings,
    flat_key,
    flat_key_words,
    fold_words,
    folded_drawing,
)
from layouts.printed import shown
from layouts.shapes.forms import FlatSizes, Folded
from tests.unit.drawing.reading import SVG, read, texts
from tests.unit.shapes.making import kit_of

MM = 320
ROOM = (120 * MM, 120 * MM)


_SETTING: dict[str, Any] = {"name": "n", "title": "Part", "unit": "mm", "room": ROOM, "line": 145, "step": MM}


def _folded(caliper_um: int | None = None, **form: Any) -> Folded:
    kit = kit_of(form, unit="mm", size=["300", "300"], caliper_um=caliper_um)
    return FlatSizes.of(kit).fold(kit.projects[0].forms[0], "p", kit.papers[0])


def _figure(ticks: int) -> str:
    return shown(ticks, "mm", MM)


def _drawn(caliper_um: int | None = None, **form: Any) -> tuple[FlatDrawing, ...]:
    return flat_drawings(_folded(caliper_um, **form), _figure, **_SETTING)


def _folding(**form: Any) -> tuple[str, ...]:
    return fold_words(_folded(**form))


def _box(**form: Any) -> ScaledDrawing | None:
    return folded_drawing(_folded(**form), _figure, **_SETTING)


TRAY: dict[str, Any] = {"as": "tray", "inside": ["60", "40"], "depth": "20"}
STRIP: dict[str, Any] = {"as": "concertina", "panel": ["50", "60"], "panels": 9}


def test_measures_along_each_edge_add_up_to_the_whole():
    """60 + 2 × 20 and 40 + 2 × 20, without a thickness."""
    (one,) = _drawn(**TRAY)
    told = [text for text in texts(one.drawing.svg) if text.isdigit()]
    assert sorted(told) == sorted(["100", "80", "20", "60", "20", "20", "40", "20"])


def test_what_is_rounded_up_belongs_to_the_base():
    """0.4 mm thick: from score to score 60.4 and 40.4, flat 100.4 and 80.4, cut 101 and 81; walls are 20 as stated."""
    (one,) = _drawn(caliper_um=400, **TRAY)
    told = [text for text in texts(one.drawing.svg) if text.isdigit()]
    assert sorted(told) == sorted(["101", "81", "20", "61", "20", "20", "41", "20"])
    assert one.beside[:2] == ("Score from the left at 20, 81.", "Score from the bottom at 20, 61.")


def test_cuts_mountains_and_valleys_differ_without_colour():
    """A concertina of 9 panels of 50 on paper of 300: its folds in turn, the first a mountain."""
    first = _drawn(**STRIP)[0].drawing.svg
    creases = [line for line in read(first, "line") if "stroke-dasharray" in line]
    dashes = {line["stroke-dasharray"] for line in creases}
    assert sorted(len(one.split()) for one in dashes) == [2, 4]
    assert {text for text in texts(first) if text in ("m", "v")} == {"m", "v"}
    assert len({line["stroke"] for line in creases}) == 1


def test_strips_that_are_alike_are_drawn_once():
    """(300 − 12.7) // 50 = 5 panels a strip, an odd number: every other strip begins with the other fold. 26 panels are
    four strips of 5 with a join tab, and a last one of 6, which is just 300 long."""
    parts = _drawn(**{**STRIP, "panels": 26})
    assert [one.numbers for one in parts] == [(1, 3), (2, 4), (5,)]


def test_waste_and_tabs_are_marked_and_panels_named():
    (one,) = _drawn(**{**TRAY, "turn_in": "10"})
    root = ET.fromstring(one.drawing.svg)
    assert {pattern.attrib["id"] for pattern in root.iter(f"{SVG}pattern")} == {"n-tabs", "n-waste"}
    told = texts(one.drawing.svg)
    assert told.count("tab") == 4
    assert {"base", "wall left", "wall top"} <= set(told)


def test_the_order_of_folding_stands_in_the_creases():
    """Walls and tabs first, then what turns in."""
    (one,) = _drawn(**{**TRAY, "turn_in": "10"})
    assert {text for text in texts(one.drawing.svg) if text.endswith("m") and len(text) == 2} == {"1m", "2m"}


def test_a_hole_is_said():
    tag: dict[str, Any] = {"as": "tag", "size": ["40", "80"], "hole": "6"}
    (one,) = _drawn(**tag)
    assert one.beside == ("The hole is 6 across; its middle lies in the middle of the width, 9 below the top.",)
    (hole,) = read(one.drawing.svg, "circle")
    assert (hole.cx, hole.cy, hole.r) == (200, 90, 30)


def test_the_drawing_is_said_to_those_who_cannot_see_it():
    (one,) = _drawn(**TRAY)
    root = ET.fromstring(one.drawing.svg)
    assert root.attrib["role"] == "img"
    title, description = root.find(f"{SVG}title"), root.find(f"{SVG}desc")
    assert title is not None
    assert description is not None
    assert (root.attrib["aria-labelledby"], root.attrib["aria-describedby"]) == (
        title.attrib["id"],
        description.attrib["id"],
    )
    assert title.text == "Part, flat, 100 by 80 mm, its outside up."
    assert description.text == one.words
    assert "Fold away from you (mountain): wall bottom, wall top" in one.words


def test_a_box_is_shown_folded_with_its_outside_sizes():
    """60 by 40 inside, walls of 20, paper of no stated thickness: outside the same."""
    box = _box(**TRAY)
    assert box is not None
    assert sorted(texts(box.svg)) == sorted(["60", "40", "20", "base", "wall bottom"])
    assert "Part, folded, its base up: 60 wide, 40 deep, 20 high, mm." in box.svg


@pytest.mark.parametrize(
    "form",
    [STRIP, {**TRAY, "depth": "45"}, {"as": "tag", "size": ["40", "80"]}],
    ids=["concertina", "tray whose tabs meet", "tag"],
)
def test_what_is_no_box_is_not_shown_as_one(form):
    assert _box(**form) is None


def test_a_key_is_two_columns_where_the_page_has_room_for_them():
    """Both keep within the page; two columns are three rows high where one is five."""
    wide, narrow = (flat_key(name="k", line=145, room=room) for room in (60_000, 30_000))
    assert (Decimal(wide.width_mm) * 320 <= 60_000, Decimal(narrow.width_mm) * 320 <= 30_000) == (True, True)
    assert Decimal(wide.height_mm) < Decimal(narrow.height_mm)
    assert sorted(texts(wide.svg)) == sorted(texts(narrow.svg))


KEYS = [
    pytest.param({"cut"}, 1, "Solid lines are cut.", id="cut alone"),
    pytest.param(
        {"cut", "valley", "waste"},
        3,
        "Solid lines are cut. Dashes alone are scored and folded towards you, valley, v. Hatched areas are waste. "
        "A number before m or v is the step of folding.",
        id="some",
    ),
]


@pytest.mark.parametrize("room", [60_000, 0], ids=["two columns", "one column"])
@pytest.mark.parametrize(("kinds", "rows", "words"), KEYS)
def test_a_key_explains_nothing_that_does_not_occur(kinds, rows, words, room):
    svg = flat_key(name="k", line=145, room=room, kinds=kinds).svg
    said = [text for text in texts(svg) if len(text) > 1]
    assert len(said) == rows
    assert flat_key_words(kinds) == words
    assert words in svg


def test_no_style_stands_in_a_drawing():
    """A strict content policy blocks it, and a PDF's style sheet does not reach it."""
    for svg in (_drawn(**TRAY)[0].drawing.svg, flat_key(name="k", line=145).svg):
        assert "style" not in svg.replace("Commissioner", "")


FOLDING = [
    pytest.param(
        {"as": "sleeve", "around": ["60", "20"], "length": "50", "overlap": "10"},
        ("Fold away from you (mountain): panel 2, panel 3, panel 4 and tab. Glue tab to the inside of panel 1.",),
        id="sleeve",
    ),
    pytest.param(
        {"as": "pocket", "panel": ["60", "40"], "flap": "10"},
        ("Fold flat, away from you (mountain): flap bottom, flap left and flap right.",),
        id="pocket",
    ),
    pytest.param(
        {"as": "concertina", "panel": ["50", "60"], "panels": 5, "first_fold": "valley"},
        ("Fold to and fro, 4 folds; the first is a valley, towards you.",),
        id="concertina",
    ),
    pytest.param({"as": "tag", "size": ["40", "80"]}, (), id="tag: nothing to fold"),
]


@pytest.mark.parametrize(("form", "words"), FOLDING)
def test_folding_is_said_in_order(form, words):
    assert _folding(**form) == words


def test_ten_thousand_panels_are_drawn_within_bounds():
    """Of a strip of 5,000 panels a few hundred folds are drawn at most, and the rest is counted."""
    kit = kit_of({"as": "concertina", "panel": ["0.5", "60"], "panels": 5000}, unit="mm", size=["9000", "300"])
    folded = FlatSizes.of(kit).fold(kit.projects[0].forms[0], "p", kit.papers[0])
    (one,) = flat_drawings(
        folded, lambda ticks: shown(ticks, "mm", MM), name="n", title="P", unit="mm", room=ROOM, line=145, step=MM
    )
    assert len(one.drawing.svg) < 100_000
    drawn = {(line["x1"]) for line in read(one.drawing.svg, "line") if "stroke-dasharray" in line}
    assert f"… and {4999 - len(drawn):,} more folds, not drawn." in one.beside
    assert len(one.words) < 2_000
