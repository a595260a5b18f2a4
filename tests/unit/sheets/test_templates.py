"""Which pieces and windows get a template, by hand: Letter holds 180.9 by 218.4 mm of one, large print less high."""

from __future__ import annotations

import pytest

from kits.sheets.content.templates import template_pages
from kits.sheets.options import SheetOptions
from tests.unit.assembly.small_kits import CARD, kit_of, piece, project
from tests.unit.drawing.reading import texts
from tests.unit.sheets.proofs import INCHES, MILLIMETRES

WINDOW = {"id": "pane", "left": "1", "bottom": "1", "width": "2", "height": "1"}


def _pages(*pieces, options=INCHES):
    return template_pages(kit_of(project("shelf", pieces=list(pieces)), papers=[CARD]), options)


def _told(pages):
    return [(one.heading, one.size) for one in pages.templates]


def test_a_straight_piece_without_windows_needs_none():
    pages = _pages(piece("A", paper="card"))
    assert (pages.templates, pages.too_big, pages.outside) == ((), (), ())


def test_windows_and_outlines_have_one_with_their_stated_size():
    pages = _pages(
        piece("A", paper="card", windows=[WINDOW]),
        piece("B", paper="card", size=["3", "3"], shape={"kind": "ellipse"}),
        piece("C", paper="card", windows=[WINDOW, {**WINDOW, "id": "vent", "bottom": "3/4", "height": "1/8"}]),
    )
    assert _told(pages) == [
        ("Shelf: A, panel A with its window", "4 × 3 in"),
        ("Shelf: B, panel B", "3 × 3 in"),
        ("Shelf: C, panel C with its windows", "4 × 3 in"),
    ]


def test_a_piece_larger_than_the_page_has_its_windows_alone():
    derived = {"id": "vent", "left": "3", "right": "3", "bottom": "3", "height": "1"}
    pages = _pages(piece("A", paper="card", size=["9", "6"], windows=[WINDOW, derived]))
    assert _told(pages) == [
        ("Shelf: window pane of A, panel A", "2 × 1 in"),
        ("Shelf: window vent of A, panel A", ""),  # its width stands in no document
    ]
    assert pages.too_big == ()


def test_what_no_page_holds_is_named():
    pages = _pages(
        piece("A", paper="card", size=["9", "6"], shape={"kind": "ellipse"}),
        piece("B", paper="card", size=["12", "12"], windows=[{**WINDOW, "width": "10", "left": "1"}]),
    )
    assert pages.templates == ()
    assert pages.too_big == ("A, panel A (Shelf)", "B, panel B (Shelf)")


@pytest.mark.parametrize(("page", "size", "held"), [
    ("letter", ["7", "4"], True),
    ("letter", ["7 1/8", "4"], False),
    ("a4", ["6 7/8", "4"], True),
    ("a4", ["7", "4"], False),
    ("letter", ["4", "8 1/2"], True),
    ("letter", ["4", "8 5/8"], False),
    ("a4", ["4", "9 1/4"], True),
    ("a4", ["4", "9 3/8"], False),
])  # fmt: skip
def test_pages_hold_what_fits_inside_their_margins(page, size, held):
    pages = _pages(piece("A", paper="card", size=size, shape={"kind": "ellipse"}), options=SheetOptions(page, "in"))
    assert bool(pages.templates) == held


@pytest.mark.parametrize(("height", "held"), [("7 3/4", True), ("8", False)])
def test_large_print_leaves_less_height_for_a_template(height, held):
    """248.4 mm without a heading of 42 and margins of 5 are 201.4 mm, 7.93 in."""
    oval = piece("A", paper="card", size=["4", height], shape={"kind": "ellipse"})
    assert bool(_pages(oval, options=SheetOptions("letter", "in", "large")).templates) == held


def test_sizes_are_told_in_the_unit_of_the_sheet_and_drawings_are_true_in_either():
    inches, millimetres = (
        _pages(piece("A", paper="card", windows=[WINDOW]), options=options) for options in (INCHES, MILLIMETRES)
    )
    assert [one.size for one in (*inches.templates, *millimetres.templates)] == ["4 × 3 in", "102 × 76 mm"]
    assert inches.templates[0].drawing == millimetres.templates[0].drawing
    assert inches.templates[0].drawing.scale.tenths == 10


def test_a_piece_of_its_own_outline_that_is_too_large_still_gives_its_windows_and_is_named():
    arch = {"kind": "arch", "rise": "1"}
    pages = _pages(piece("A", paper="card", size=["9", "6"], shape=arch, windows=[WINDOW]))
    assert _told(pages) == [("Shelf: window pane of A, panel A", "2 × 1 in")]
    assert pages.too_big == ("A, panel A (Shelf)",)


def test_a_template_says_in_words_what_it_is():
    [one] = _pages(piece("A", paper="card", windows=[WINDOW])).templates
    assert one.words == "Shelf: A, panel A with its window, outline at true size, 4 × 3 in."
    [window] = _pages(piece("A", paper="card", size=["9", "6"], windows=[WINDOW])).templates
    assert window.words == "Shelf: window pane of A, panel A, outline at true size, 2 × 1 in."


def test_every_page_has_the_bars_to_measure_by():
    assert sorted(texts(_pages().bars.svg)) == ["1 in", "150 mm", "50 mm", "6 in"]


def test_a_window_that_is_not_inside_its_piece_has_none_and_is_named():
    pages = _pages(piece("A", paper="card", windows=[{**WINDOW, "left": "3"}]))
    assert pages.templates == ()
    assert pages.outside == ("pane of A, panel A (Shelf)",)


def _form_pages(*forms, options=INCHES):
    return template_pages(kit_of(project("shelf", forms=list(forms)), papers=[CARD]), options)


def test_flat_parts_have_a_template_where_a_page_holds_them_with_their_measures():
    tray = {"id": "B", "name": "box", "as": "tray", "paper": "card", "inside": ["3", "2"], "depth": "1"}
    wide = {**tray, "id": "W", "name": "wide box", "inside": ["6", "2"]}
    pages = _form_pages(tray, wide)
    assert _told(pages) == [("Shelf: B, box", "5 × 4 in")]
    assert pages.templates[0].drawing.scale.tenths == 10
    assert (pages.too_big, pages.too_big_forms) == ((), ("W, wide box (Shelf)",))


def test_strips_have_a_template_each_those_that_are_alike_one_together():
    strip = {"id": "S", "name": "strip", "as": "concertina", "paper": "card", "panel": ["2", "3"], "panels": 6}
    pages = template_pages(kit_of(project("shelf", forms=[strip]), papers=[{**CARD, "size": ["5", "5"]}]), INCHES)
    assert _told(pages) == [("Shelf: S, strip, parts 1 and 2", "4 1/2 × 3 in"), ("Shelf: S, strip, part 3", "4 × 3 in")]
