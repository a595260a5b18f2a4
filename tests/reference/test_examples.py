"""The example kits: their verdicts, their plans before the independent checker, and sums worked by hand.

Sources: lengths and areas are worked by hand from the documents; a panel that covers a face is the face less twice the
border, and a doubled wall takes four times the spacing of its scores from the blank (common practice, no source).
"""

from __future__ import annotations

import json
import subprocess
import sys
from collections.abc import Callable, Iterator
from copy import deepcopy
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

import pytest

import kits
from layouts.document import read_kit, read_kit_tree
from layouts.proofing import prove_at_once

EXAMPLES = Path(kits.__path__[0]) / "examples"
CHECKER = Path(__file__).parent / "verify_plan.py"

SHED, HARBOUR, BROKEN = "potting-shed", "harbour-office", "winter-stall-broken"
# The document says of each in `x_broken` what it does wrong.
FAULTS = {
    "caution-needed",
    "cut-out-too-small",
    "number-not-in-plan",
    "paper-short",
    "used-before-cut",
    "window-outside",
}
TICKS_PER_MM = 320


def document(name: str) -> dict[str, Any]:
    tree: dict[str, Any] = json.loads((EXAMPLES / f"{name}.json").read_text("utf-8"))
    return tree


@cache
def proof(name: str) -> dict[str, Any]:
    return prove_at_once(read_kit((EXAMPLES / f"{name}.json").read_bytes()))


def must_be_mended(proved: dict[str, Any]) -> list[str]:
    return sorted(finding["rule"] for finding in proved["findings"] if finding["weight"] != "note")


def named(members: list[dict[str, Any]], id_: str) -> dict[str, Any]:
    return next(member for member in members if member["id"] == id_)


def measure(text: str) -> Fraction:
    """Read the lengths that the examples use, `2 7/8` or `118`, by other means than the software's own."""
    return sum((Fraction(part) for part in text.split()), Fraction(0))


def size(pair: list[str]) -> tuple[Fraction, Fraction]:
    return measure(pair[0]), measure(pair[1])


# verdicts -------------------------------------------------------------------------------------------------------------


def test_these_and_no_other_examples_are_there():
    assert sorted(path.stem for path in EXAMPLES.iterdir()) == sorted([SHED, HARBOUR, BROKEN])


@pytest.mark.parametrize("name", [SHED, HARBOUR])
def test_a_good_example_is_ready_and_types_no_measure(name: str):
    assert proof(name)["verdict"] == "ready"
    assert must_be_mended(proof(name)) == []
    assert "typed-number" not in {finding["rule"] for finding in proof(name)["findings"]}


def test_the_broken_example_shows_its_six_faults_once_each():
    assert proof(BROKEN)["verdict"] == "not-ready"
    assert must_be_mended(proof(BROKEN)) == sorted(FAULTS)
    assert set(document(BROKEN)["x_broken"]) == FAULTS


def _warn(stall: dict[str, Any]) -> None:
    named(stall["steps"], "walls")["cautions"] = ["blade"]


def _widen_the_hatch(stall: dict[str, Any]) -> None:
    named(stall["pieces"], "A")["windows"][0] |= {"left": "3/4", "right": "3/4"}  # 5 1/2 - 1 1/2 = 4, wanted 3 3/4


def _leave_out_the_gap(stall: dict[str, Any]) -> None:
    step = named(stall["steps"], "counters")
    step["text"] = step["text"].replace(", with a gap of 7/16 in behind them", "")


def _drop_a_counter(stall: dict[str, Any]) -> None:
    named(stall["pieces"], "C")["count"] = 2
    named(stall["steps"], "counters")["use"][0]["count"] = 2


def _hang_what_is_cut(stall: dict[str, Any]) -> None:
    named(stall["steps"], "hang")["after"] = ["stand", "awning"]


def _narrow_the_vent(stall: dict[str, Any]) -> None:
    named(stall["pieces"], "B")["windows"][0]["width"] = "3"  # 2 + 3 leaves 1/2 of 5 1/2 on the right


@pytest.mark.parametrize(
    ("rule", "mend"),
    [
        ("caution-needed", _warn),
        ("cut-out-too-small", _widen_the_hatch),
        ("number-not-in-plan", _leave_out_the_gap),
        ("paper-short", _drop_a_counter),
        ("used-before-cut", _hang_what_is_cut),
        ("window-outside", _narrow_the_vent),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)
def test_mending_one_fault_of_the_broken_example_leaves_the_others(rule: str, mend: Callable[[dict[str, Any]], None]):
    tree = deepcopy(document(BROKEN))
    mend(named(tree["projects"], "stall"))
    assert must_be_mended(prove_at_once(read_kit_tree(tree))) == sorted(FAULTS - {rule})


# plans ----------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", [SHED, HARBOUR, BROKEN])
def test_the_plan_checker_accepts_every_plan(name: str, tmp_path: Path):
    answer = tmp_path / "proof.json"
    answer.write_text(json.dumps(proof(name)), "utf-8")
    command = [sys.executable, str(CHECKER), str(EXAMPLES / f"{name}.json"), str(answer)]
    checked = subprocess.run(command, capture_output=True, text=True, timeout=60)
    assert (checked.returncode, checked.stderr) == (0, ""), checked.stdout
    assert checked.stdout.startswith("0 faults")


def yields(name: str) -> dict[str, str]:
    return {paper["paper"]: paper["yield"] for paper in proof(name)["papers"]}


def test_the_tightest_print_of_the_potting_shed_is_well_used():
    assert max(Fraction(used) for used in yields(SHED).values()) >= Fraction("0.850")


def test_yields_are_those_worked_by_hand():
    # Glasshouse, square inches: A and B 2 × 6 3/4 × 4 3/4 = 64 1/8, L 2 × 5 × 3 = 30, F 4 × 7 × 1/2 = 14,
    # G 2 × 1/2 × 3 = 3, together 111 1/8, of two sheets of 8 × 8 = 128: 889/1024 = 0.86816…
    assert Fraction(yields(SHED)["glasshouse"]) == round(Fraction(889, 1024), 3)
    # Signal flags, square millimetres: envelope 118 × 134 = 15812, tag 28 × 70 = 1960, stamp 22 + 2 × 2 by 28 + 2 × 2
    # = 832, together 18604, of one sheet of 150 mm less 1 mm of undersize, 149 × 149 = 22201: 0.83798…
    assert Fraction(yields(HARBOUR)["flags"]) == round(Fraction(18604, 22201), 3)


def leaves(node: Any) -> Iterator[dict[str, Any]]:
    """Every piece in a tree, those that come out of its cut-outs among them."""
    if isinstance(node, list):
        for one in node:
            yield from leaves(one)
    elif isinstance(node, dict):
        if "piece" in node:
            yield node
        for key in ("tree", "parts"):
            yield from leaves(node.get(key))
        yield from leaves(list(node.get("cut_outs", {}).values()))


@pytest.mark.parametrize(
    ("name", "source", "place"),
    [
        pytest.param(SHED, "project:garden-chest/piece:A", "project:sowing-calendar/piece:M", id="calendar cover"),
        pytest.param(HARBOUR, "project:porthole/piece:B", "project:shell-tray/piece:G", id="tray label"),
    ],
)
def test_a_later_project_takes_a_piece_from_a_cut_out(name: str, source: str, place: str):
    every = [leaf for paper in proof(name)["papers"] for leaf in leaves(paper["plan"])]
    (host,) = (leaf for leaf in every if leaf["piece"] == source)
    assert [leaf["piece"] for leaf in leaves(list(host["cut_outs"].values()))] == [place]


def test_a_finished_size_is_cut_larger_by_what_the_punch_bites():
    # Long surf is 18 mm high when its top edge has lost 4 mm to the punch: cut 110 × 22.
    cut = {
        tuple(sorted((leaf["width"], leaf["height"])))
        for paper in proof(HARBOUR)["papers"]
        for leaf in leaves(paper["plan"])
        if leaf["piece"] == "project:shell-tray/piece:E"
    }
    assert cut == {(22 * TICKS_PER_MM, 110 * TICKS_PER_MM)}


# sums -----------------------------------------------------------------------------------------------------------------


def support(tree: dict[str, Any], project: dict[str, Any], on: dict[str, str]) -> tuple[Fraction, Fraction]:
    """The size of what something is put on."""
    if "piece" in on:
        return size(named(project["pieces"], on["piece"])["size"])
    if "blank" in on:
        return size(named(named(tree["blanks"], on["blank"])["faces"], on["face"])["size"])
    form = named(project["forms"], on["form"])
    return size(form["panel"])


@pytest.mark.parametrize(
    ("name", "project", "placement", "panel"),
    [
        # The face or the layer below, less twice the border: the difference is worked by hand.
        pytest.param(SHED, "garden-chest", "front", "6 3/4 × 4 3/4", id="7 × 5 less 2 × 1/8"),
        pytest.param(SHED, "garden-chest", "rear", "6 3/4 × 4 3/4", id="7 × 5 less 2 × 1/8, rear"),
        pytest.param(SHED, "garden-chest", "end-mats", "3 3/4 × 4 3/4", id="4 × 5 less 2 × 1/8"),
        pytest.param(SHED, "garden-chest", "end-pictures", "3 1/2 × 4 1/2", id="3 3/4 × 4 3/4 less 2 × 1/8"),
        pytest.param(SHED, "garden-chest", "lid-picture", "5 3/4 × 2 3/4", id="6 × 3 less 2 × 1/8"),
        pytest.param(SHED, "garden-chest", "lining", "6 5/8 × 3 5/8", id="6 7/8 × 3 7/8 less 2 × 1/8"),
        pytest.param(SHED, "sowing-calendar", "cover", "5 × 3", id="5 1/4 × 3 1/4 less 2 × 1/8"),
        pytest.param(SHED, "sowing-calendar", "autumn", "5 × 3", id="5 1/4 × 3 1/4 less 2 × 1/8, autumn"),
        pytest.param(SHED, "sowing-calendar", "cover-picture", "4 3/4 × 2 3/4", id="5 × 3 less 2 × 1/8"),
        pytest.param(SHED, "bench-board", "panel", "7 1/2 × 5 1/2", id="10 × 8 less 2 × 1 1/4"),
        pytest.param(HARBOUR, "porthole", "view", "90 × 70", id="130 × 110 less 2 × 20"),
        pytest.param(HARBOUR, "porthole", "mat", "110 × 90", id="130 × 110 less 2 × 10"),
        pytest.param(BROKEN, "menu", "menu", "3 3/4 × 1 3/4", id="4 × 2 less 2 × 1/8"),
    ],
)
def test_a_layer_leaves_the_border_it_claims(name: str, project: str, placement: str, panel: str):
    tree = document(name)
    made = named(tree["projects"], project)
    layer = named(made["placements"], placement)
    below, border = support(tree, made, layer["on"]), measure(layer["border"])
    stated = size(named(made["pieces"], layer["put"]["piece"])["size"])
    assert stated == size(panel.split(" × "))
    assert stated == (below[0] - 2 * border, below[1] - 2 * border)


def test_the_lid_and_the_strips_that_frame_it_add_up():
    chest = named(document(SHED)["projects"], "garden-chest")
    lid, pieces = named(chest["forms"], "lid"), chest["pieces"]
    across, upright = size(lid["size"])
    spacing = measure(lid["scores"][0]["at"])
    base = across - 4 * spacing, upright - 4 * spacing
    assert base == size(["7 1/4", "4 1/4"])
    border = Fraction(1, 8)
    long_strip, short_strip, mat = (size(named(pieces, id_)["size"]) for id_ in "FGH")
    assert long_strip[0] == base[0] - 2 * border == 7
    assert short_strip[1] == base[1] - 2 * border - 2 * long_strip[1] == 3
    assert mat == (long_strip[0] - 2 * short_strip[0], short_strip[1]) == size(["6", "3"])
    # On a wall between its scores the same strip leaves the same border.
    assert spacing - 2 * border == long_strip[1]


def test_the_lid_goes_over_the_chest_with_its_panels():
    # Inside of doubled walls: 7 1/4 × 4 1/4 in less 3 × 0.35 mm, 183.1 × 106.9 mm. The chest is 177.8 × 101.6 mm; its
    # ends carry two layers, its front and rear two where the pickets are, 0.22 mm each: 4 × 0.22 = 0.88 mm more.
    inside = [Fraction("25.4") * side - 3 * Fraction("0.35") for side in size(["7 1/4", "4 1/4"])]
    covered = [Fraction("25.4") * side + 4 * Fraction("0.22") for side in (7, 4)]
    assert all(inner > outer for inner, outer in zip(inside, covered, strict=True))


def test_the_window_is_the_opening_of_the_chest():
    tree = document(SHED)
    face = named(named(tree["blanks"], "chest")["faces"], "front")
    panel = named(named(tree["projects"], "garden-chest")["pieces"], "A")
    pane, opening = panel["windows"][0], face["opening"]
    border = Fraction(1, 8)
    width, height = size(panel["size"])
    cut_out = (
        width - measure(pane["left"]) - measure(pane["right"]),
        height - measure(pane["top"]) - measure(pane["bottom"]),
    )
    assert cut_out == (measure(opening["width"]), measure(opening["height"])) == size(["5", "3 1/4"])
    assert border + measure(pane["left"]) == measure(opening["left"])
    assert border + measure(pane["bottom"]) == measure(opening["bottom"])


def test_the_pieced_rails_of_the_board_run_from_border_to_border():
    tree = document(SHED)
    pieces = named(tree["projects"], "bench-board")["pieces"]
    board = size(named(named(tree["blanks"], "board")["faces"], "front")["size"])
    half, side = size(named(pieces, "T")["size"]), size(named(pieces, "U")["size"])
    border = Fraction(1, 8)
    assert 2 * half[0] + 2 * border == board[0] == 10
    assert side[1] + 2 * half[1] + 2 * border == board[1] == 8


@pytest.mark.parametrize(
    ("name", "at", "shown"),
    [
        # Two panels of 5 1/4 and the join tab, twice; the last two carry none.
        pytest.param(SHED, "project:sowing-calendar/form:strip/part:1/flat", ("11", "3 1/4"), id="2 × 5 1/4 + 1/2"),
        pytest.param(SHED, "project:sowing-calendar/form:strip/part:3/flat", ("10 1/2", "3 1/4"), id="2 × 5 1/4"),
        # 6 + 2 × 1/2 by 2 + 1/2.
        pytest.param(SHED, "project:bench-board/form:pocket/flat", ("7", "2 1/2"), id="a flap on three sides"),
        # 90 + 2 × 2 + 2 × 12 by 60 + 2 × 2 + 45 + 25.
        pytest.param(HARBOUR, "project:letters/form:envelope/flat", ("118", "134"), id="contents and flaps"),
        # 114 + 0.32 + 2 × 25 = 164.32 by 84 + 0.32 + 2 × 25 = 134.32, both up to whole millimetres.
        pytest.param(HARBOUR, "project:shell-tray/form:tray/flat", ("165", "135"), id="inside, a thickness, two walls"),
        # 100 + 2 × 15 and 80 + 2 × 15.
        pytest.param(HARBOUR, "project:porthole/form:frame/part:1/flat", ("130", "15"), id="mitred, across"),
        pytest.param(HARBOUR, "project:porthole/form:frame/part:3/flat", ("15", "110"), id="mitred, upright"),
    ],
)
def test_flat_sizes_are_those_worked_by_hand(name: str, at: str, shown: tuple[str, str]):
    unit = document(name)["unit"]
    figures = {figure["at"]: figure[unit] for figure in proof(name)["printed"]}
    assert (figures[f"{at}/width"], figures[f"{at}/height"]) == shown


@pytest.mark.parametrize(
    ("name", "projects", "at_work", "waiting"),
    [
        # Minutes of work: 4+6+6+8+6+5+15+10+3+4+1 and a minute of holding, 12+4+10+8+5+5, 10+4+8+4+4+3.
        # Drying: feet 30, lid 10, strip 10, pocket 10.
        pytest.param(SHED, ["garden-chest", "sowing-calendar", "bench-board"], 69 + 44 + 33, 60, id="potting shed"),
        # 5+8+4+10+2+5, 10+6+12+5, and 8+4+6+4 for each of three letters; drying: 5, 10, 15, 10.
        pytest.param(HARBOUR, ["porthole", "shell-tray", "letters"], 34 + 33 + 3 * 22, 40, id="harbour office"),
    ],
)
def test_order_and_time_are_those_worked_by_hand(name: str, projects: list[str], at_work: int, waiting: int):
    assert proof(name)["order"]["projects"] == projects
    assert proof(name)["time"]["hands_on_s"] == at_work * 60
    assert proof(name)["time"]["waiting_s"] == waiting * 60
