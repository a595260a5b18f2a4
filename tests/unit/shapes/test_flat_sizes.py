"""What each form is cut as. Expected sizes are worked by hand from the forms table of the kit document.

254 µm of thickness are 0.01 in and 2540 µm are 0.1 in (1 in = 25.4 mm exactly, 24 FR 5348).
"""

from __future__ import annotations

import pytest

from layouts.document.forms import Form
from layouts.lengths import Length
from layouts.shapes import NotBuilt
from layouts.shapes.forms import CONSTRUCTIONS
from tests.unit.shapes.making import kit_of, parts_of, texts

TRAY = {"as": "tray", "inside": ["4", "3"], "depth": "1"}
OUTSIDE = {"as": "tray", "outside": ["4", "3"], "depth": "1"}
FITS = {"as": "lid", "fits": ["4", "3"], "depth": "1"}
METRIC = {"as": "tray", "inside": ["100", "80"], "depth": "20"}
SLEEVE = {"as": "sleeve", "around": ["3", "1"], "length": "5", "overlap": "1/2"}
POCKET = {"as": "pocket", "panel": ["4", "6"], "flap": "1/2"}
FRAME = {"as": "frame", "opening": ["5", "7"], "width": "1"}
ENVELOPE = {"as": "envelope", "holds": ["5", "7"], "side_flap": "3/4", "bottom_flap": "4", "top_flap": "3"}


@pytest.mark.parametrize(
    ("form", "caliper", "expected"),
    [
        pytest.param(TRAY, None, ("6", "5"), id="tray, thickness not stated"),
        pytest.param(TRAY, 2540, ("6 1/8", "5 1/8"), id="tray from inside: 4.1 + 2 = 6.1"),
        pytest.param(TRAY, 1, ("6 1/16", "5 1/16"), id="a third of a tick over goes up a whole step"),
        pytest.param(OUTSIDE, 2540, ("5 15/16", "4 15/16"), id="tray from outside: 3.9 + 2 = 5.9"),
        pytest.param(TRAY | {"walls": "double"}, None, ("8", "7"), id="double wall turns in by its depth"),
        pytest.param(TRAY | {"walls": "double"}, 2540, ("8 5/16", "7 5/16"), id="double wall, inside: 4.3 + 4 = 8.3"),
        pytest.param(OUTSIDE | {"walls": "double"}, 2540, ("7 15/16", "6 15/16"), id="double wall, outside: 3.9 + 4"),
        pytest.param(TRAY | {"walls": "double", "turn_in": "3/4"}, None, ("7 1/2", "6 1/2"), id="turns in as stated"),
        pytest.param(TRAY | {"walls": "double", "turn_in": "0"}, None, ("6", "5"), id="turns in nothing, as stated"),
        pytest.param(TRAY | {"turn_in": "1/4"}, None, ("6 1/2", "5 1/2"), id="single wall with a hem"),
        pytest.param(TRAY | {"flange": "1/4"}, None, ("6 1/2", "5 1/2"), id="flange"),
        pytest.param(TRAY | {"as": "lid"}, 2540, ("6 1/8", "5 1/8"), id="lid given by its inside"),
        pytest.param(OUTSIDE | {"as": "lid"}, 2540, ("5 15/16", "4 15/16"), id="lid given by its outside"),
        pytest.param(FITS, None, ("6 1/16", "5 1/16"), id="lid: 2 × 1/32 more"),
        pytest.param(
            FITS | {"clearance": "1/8", "walls": "double"},
            2540,
            ("8 9/16", "7 9/16"),
            id="lid: 4 + 0.25 + 0.3 + 4 = 8.55",
        ),
        pytest.param(SLEEVE, None, ("8 5/8", "5"), id="sleeve: 8 + 4/32 + 1/2"),
        pytest.param(SLEEVE, 2540, ("9 1/16", "5"), id="sleeve with thickness: 8.625 + 0.4 = 9.025"),
        pytest.param(POCKET, None, ("5", "6 1/2"), id="pocket open at the top"),
        pytest.param(POCKET | {"open": "bottom"}, None, ("5", "6 1/2"), id="pocket open at the bottom"),
        pytest.param(POCKET | {"open": "left"}, None, ("4 1/2", "7"), id="pocket open at the left"),
        pytest.param(POCKET | {"open": "right"}, None, ("4 1/2", "7"), id="pocket open at the right"),
        pytest.param(ENVELOPE, 2540, ("6 5/8", "14 1/8"), id="envelope: 5 + 1/8 + 1 1/2 by 7 + 1/8 + 7, no thickness"),
        pytest.param({"as": "tag", "size": ["2 1/32", "4"], "corner": "1/2"}, 2540, ("2 1/32", "4"), id="tag as given"),
        pytest.param({"as": "scored", "size": ["5 1/64", "4"]}, 2540, ("5 1/64", "4"), id="scored as given"),
    ],
)
def test_forms_of_one_part_are_cut_as_the_table_says(form, caliper, expected):
    parts = parts_of(kit_of(form, caliper_um=caliper))
    assert texts(parts) == [expected]
    assert parts[0].number is None


@pytest.mark.parametrize(
    ("form", "expected"),
    [
        pytest.param(FRAME, [("7", "1"), ("7", "1"), ("1", "9"), ("1", "9")], id="mitred"),
        pytest.param(FRAME | {"corner": "butt"}, [("7", "1"), ("7", "1"), ("1", "7"), ("1", "7")], id="butted"),
    ],
)
def test_a_frame_is_four_strips(form, expected):
    parts = parts_of(kit_of(form))
    assert texts(parts) == expected
    assert [part.number for part in parts] == [1, 2, 3, 4]


def concertina(panels: int, panel: str = "3", join: str = "1/2") -> dict[str, object]:
    return {"as": "concertina", "panel": [panel, "4"], "panels": panels, "join": join}


@pytest.mark.parametrize(
    ("form", "lengths"),
    [
        pytest.param(concertina(4), ["12"], id="just fits: no join"),
        pytest.param(concertina(5), ["9 1/2", "6"], id="two strips"),
        pytest.param(concertina(7), ["9 1/2", "12"], id="the last strip has no tab, so it carries four"),
        pytest.param(concertina(8), ["9 1/2", "9 1/2", "6"], id="three strips"),
        pytest.param(concertina(2, "11 1/2"), ["12", "11 1/2"], id="one panel and its tab just fit"),
        pytest.param(concertina(2, "11 9/16"), ["23 1/8"], id="one panel and its tab do not fit: left as one"),
        pytest.param(concertina(10_000, "13"), ["130000"], id="no panel fits: left as one"),
        pytest.param(concertina(1, "12"), ["12"], id="a single panel needs no tab"),
    ],
)
def test_a_concertina_longer_than_its_paper_is_cut_in_strips_that_end_at_folds(form, lengths):
    """Sheet 12 × 10 in. Source: accordion folds, joined strips (identity): S = 12, p = 3, g = 1/2."""
    parts = parts_of(kit_of(form, size=["10", "12"]))
    assert texts(parts) == [(length, "4") for length in lengths]
    assert [part.number for part in parts] == ([None] if len(lengths) == 1 else list(range(1, len(lengths) + 1)))


@pytest.mark.parametrize(
    ("taken", "lengths"),
    [
        pytest.param({}, ["12"], id="the whole sheet"),
        pytest.param({"undersize": "1/16"}, ["9 1/2", "3"], id="sheets may be smaller"),
        pytest.param({"spoilt": {"left": "1/16"}}, ["9 1/2", "3"], id="spoilt at the left"),
        pytest.param({"spoilt": {"top": "6", "bottom": "1"}}, ["12"], id="spoilt across the shorter side"),
    ],
)
def test_a_concertina_is_judged_by_what_is_usable_of_its_paper(taken, lengths):
    paper = {"id": "card", "name": "Card", "size": ["12", "10"], "sheets": 1, "front": {"name": "C"}} | taken
    assert texts(parts_of(kit_of(concertina(4), papers=[paper]))) == [(length, "4") for length in lengths]


@pytest.mark.parametrize(
    ("unit", "form", "more", "expected"),
    [
        pytest.param(
            "in",
            {"as": "pocket", "panel": ["4 1/32", "6"], "flap": "1/32"},
            {},
            ("4 1/8", "6 1/16"),
            id="once: 4 1/32 + 2/32 = 4 3/32 goes up, its parts do not",
        ),
        pytest.param("in", FRAME | {"width": "1/32"}, {}, ("5 1/16", "1/16"), id="strips too"),
        pytest.param("mm", METRIC, {}, ("141", "121"), id="mm: 100.35 + 40 goes up"),
        pytest.param("mm", METRIC, {"printed": {"mm": "0.5"}}, ("140.5", "120.5"), id="to the printed step of the kit"),
    ],
)
def test_only_final_sizes_are_rounded_up_to_the_printed_step(unit, form, more, expected):
    assert texts(parts_of(kit_of(form, unit=unit, caliper_um=350, **more)), unit)[0] == expected


def test_a_box_no_larger_outside_than_its_paper_is_thick_has_no_flat_size():
    with pytest.raises(NotBuilt, match="nothing can be folded"):
        parts_of(kit_of({"as": "tray", "outside": ["2.5 mm", "3"], "depth": "1"}, caliper_um=2540))


def test_every_construction_of_the_document_is_in_the_table():
    names = {branch.__metadata__[0].tag.strip("\0") for branch in Form.__args__[0].__args__}
    assert set(CONSTRUCTIONS) == names


def test_a_flat_part_is_written_in_the_unit_of_the_kit():
    (part,) = parts_of(kit_of({"as": "tray", "inside": ["101.6 mm", "3"], "depth": "1"}))
    assert part.width.written_like(Length.of("6 in"))
