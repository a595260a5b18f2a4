"""Every figure a kit holds: places, order, exact values and how sheets show them."""

from __future__ import annotations

from typing import Any

import pytest

from layouts.document import canonical_bytes, read_kit, read_kit_tree
from layouts.printed import figures

PAPER = {"id": "q", "name": "", "size": ["8", "8"], "sheets": 1, "front": {"name": ""}}


def kit_of(unit: str = "in", printed: Any = None, cutting: Any = None, **project: Any):
    return read_kit_tree(
        {
            "format": "kitproof/1",
            "code": "c",
            "title": "t",
            "unit": unit,
            "printed": printed,
            "cutting": cutting,
            "papers": [PAPER],
            "projects": [{"id": "p", "title": "", **project}],
        }
    )


def shown(kit: Any) -> list[tuple[str, str, str, str]]:
    """Without the paper's own size, which stands first in every kit here."""
    return [(one.at, one.inches, one.mm, one.exact_mm) for one in figures(kit) if not one.at.startswith("paper:")]


def piece(**fields: Any) -> dict[str, Any]:
    return {"id": "A", "name": "", "size": ["2 7/8", "1 5/16"], **fields}


def test_given_measures_stand_in_document_order_with_both_systems_and_the_exact_value():
    """2 7/8 in = 73.025 mm, 1 5/16 in = 33.3375 mm, 1/4 in = 6.35 mm, 24 in = 609.6 mm (identity)."""
    kit = kit_of(
        cutting={"slack": "1/64"},
        pieces=[piece(windows=[{"id": "w", "left": "1/4", "width": "1", "top": "1/4", "height": "12.7 mm"}])],
        placements=[{"id": "l", "put": {"piece": "A"}, "on": {"piece": "A"}, "border": "1/8", "left": "0"}],
        steps=[{"id": "s", "text": "", "use": [{"piece": "A"}, {"piece": "A", "length": "24"}]}],
    )
    assert shown(kit) == [
        # 1/64 in is a quarter of the printed step: shown as nothing.
        ("cutting/slack", "0", "0", "0.396875"),
        ("project:p/piece:A/size/width", "2 7/8", "73", "73.025"),
        ("project:p/piece:A/size/height", "1 5/16", "33", "33.3375"),
        ("project:p/piece:A/window:w/left", "1/4", "6", "6.35"),
        ("project:p/piece:A/window:w/top", "1/4", "6", "6.35"),
        ("project:p/piece:A/window:w/width", "1", "25", "25.4"),
        ("project:p/piece:A/window:w/height", "1/2", "13", "12.7"),
        ("project:p/placement:l/left", "0", "0", "0"),
        ("project:p/placement:l/border", "1/8", "3", "3.175"),
        ("project:p/step:s/use/2/length", "24", "610", "609.6"),
    ]


def test_the_size_of_a_paper_comes_first():
    assert [(one.at, one.inches, one.mm) for one in figures(kit_of())] == [
        ("paper:q/size/width", "8", "203"),
        ("paper:q/size/height", "8", "203"),
    ]


@pytest.mark.parametrize(
    ("printed", "size", "inches", "mm"),
    [
        pytest.param(None, "2 1/2", "2 1/2", "64", id="63.5 mm goes to the even 64"),
        pytest.param(None, "7 1/2", "7 1/2", "190", id="190.5 mm goes to the even 190"),
        pytest.param({"mm": "0.1 mm"}, "1/4", "1/4", "6.4", id="6.35 mm on tenths goes to 6.4"),
        pytest.param({"mm": "0.1 mm"}, "3/4", "3/4", "19", id="19.05 mm on tenths goes to 19.0, shown as 19"),
        pytest.param({"mm": "0.5 mm"}, "2 7/8", "2 7/8", "73", id="73.025 mm on halves"),
        pytest.param({"in": "1/8"}, "2 5/16", "2 1/4", "59", id="18.5 eighths go to the even 18"),
        pytest.param({"in": "1/32"}, "73 mm", "2 7/8", "73", id="73 mm on thirty-seconds: 91.97 of them"),
        pytest.param(None, "10 mm", "3/8", "10", id="10 mm is 6.3 sixteenths"),
        pytest.param(None, "25 mm", "1", "25", id="16/16 is printed as 1"),
        pytest.param(None, "297 mm", "11 11/16", "297", id="A4"),
    ],
)
def test_each_figure_is_rounded_to_the_printed_step_of_its_system(printed, size, inches, mm):
    kit = kit_of(printed=printed, pieces=[piece(size=[size, "1"])])
    assert [one[1:3] for one in shown(kit) if one[0].endswith("A/size/width")] == [(inches, mm)]


@pytest.mark.parametrize(
    ("form", "flat"),
    [
        # Flat sizes by the table of forms of the contract; no caliper is stated.
        pytest.param(
            {"as": "tray", "inside": ["4", "3"], "depth": "1"}, {"flat/width": "6", "flat/height": "5"}, id="tray"
        ),
        pytest.param(
            {"as": "pocket", "panel": ["4", "3"], "flap": "1/2"},
            {"flat/width": "5", "flat/height": "3 1/2"},
            id="pocket",
        ),
        pytest.param(
            {"as": "concertina", "panel": ["2", "3"], "panels": 3},
            {"flat/width": "6", "flat/height": "3"},
            id="concertina in one strip",
        ),
        pytest.param(
            {"as": "concertina", "panel": ["2 1/2", "3"], "panels": 4},
            # 10 in on a sheet of 8 in: 3 panels and a join of 1/2 in, then 1 panel.
            {
                "part:1/flat/width": "8",
                "part:1/flat/height": "3",
                "part:2/flat/width": "2 1/2",
                "part:2/flat/height": "3",
            },
            id="concertina in two strips",
        ),
        pytest.param({"as": "scored", "size": ["4", "3"]}, {}, id="a scored form states its size"),
        pytest.param({"as": "tag", "size": ["4", "3"]}, {}, id="a tag states its size"),
    ],
)
def test_computed_flat_sizes_stand_behind_the_measures_of_their_form(form, flat):
    forms = [
        {"id": "f", "name": "", "paper": "q", **form},
        {"id": "g", "name": "", "paper": "q", "as": "tag", "size": ["1", "1"]},
    ]
    found = [(at, inches) for at, inches, _, _ in shown(kit_of(forms=forms))]
    places = [at for at, _ in found]
    assert {at.removeprefix("project:p/form:f/"): inches for at, inches in found if "/flat/" in at} == flat
    own = [at for at in places if at.startswith("project:p/form:f/")]
    assert own == places[: len(own)]
    assert [at for at in own if "/flat/" in at] == own[len(own) - len(flat) :]


def test_the_strips_of_a_frame_have_a_flat_size_each():
    form = {"id": "f", "name": "", "paper": "q", "as": "frame", "opening": ["4", "3"], "width": "1"}
    found = [(at, inches) for at, inches, _, _ in shown(kit_of(forms=[form])) if "/part:" in at]
    strips = {tuple(sorted(inches for at, inches in found if f"/part:{number}/" in at)) for number in (1, 2, 3, 4)}
    assert len(found) == 8
    # Mitred: each opening side + 2 width.
    assert strips == {("1", "6"), ("1", "5")}


def test_flat_sizes_are_rounded_once_and_up_and_only_then_shown():
    form = {"id": "f", "name": "", "paper": "q", "as": "pocket", "panel": ["4 1/32", "3"], "flap": "1/32"}
    found = {at: inches for at, inches, _, _ in shown(kit_of(forms=[form]))}
    # 4 1/32 + 2/32 = 4 3/32, up to 4 1/8; the stated 4 1/32 is shown as the even 4.
    assert found["project:p/form:f/flat/width"] == "4 1/8"
    assert found["project:p/form:f/panel/width"] == "4"


def test_a_form_that_cannot_be_worked_out_shows_what_it_states():
    form = {"id": "f", "name": "", "paper": "q", "as": "tray", "outside": ["1", "1"], "depth": "1"}
    tree = {"papers": [{**PAPER, "caliper_um": 10_000_000}], "projects": [{"id": "p", "title": "", "forms": [form]}]}
    kit = read_kit_tree({"format": "kitproof/1", "code": "c", "title": "t", "unit": "in", **tree})
    assert not [one.at for one in figures(kit) if "/flat/" in one.at]
    assert "project:p/form:f/outside/width" in [one.at for one in figures(kit)]


def test_defaults_are_no_figures_whether_they_are_stated_or_not():
    stated = kit_of(
        printed={"in": "1/16", "mm": "1 mm"},
        cutting={"slack": "0"},
        forms=[
            {"id": "f", "name": "", "paper": "q", "as": "concertina", "panel": ["2", "3"], "panels": 3, "join": "1/2"}
        ],
    )
    assert figures(stated) == figures(read_kit(canonical_bytes(stated)))
    assert [one.at for one in figures(stated) if one.at.startswith(("printed", "cutting")) or "join" in one.at] == []


def test_each_place_stands_once():
    window = {"id": "w", "left": "1/4", "right": "1/4", "width": "1/2", "top": "1/4", "bottom": "1/4", "height": "1/2"}
    kit = kit_of(pieces=[piece(windows=[window]), piece(id="B")])
    places = [one.at for one in figures(kit)]
    assert len(set(places)) == len(places)
    assert sum("/window:w/" in place for place in places) == 6
