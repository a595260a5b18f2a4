"""A plan once more for pieces of slightly other sizes. Plans by hand, in plain units."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import pytest

from layouts.proofing.plans import PrintAnswer
from layouts.proofing.prints import KeptWindow, PrintPart, Want
from layouts.proofing.resized import resized
from layouts.shapes import Showing, UsableSheet

EVERY_TURN: tuple[tuple[int, Showing], ...] = ((0, "front"), (90, "front"), (180, "front"), (270, "front"))


def part_of(
    sizes: dict[str, tuple[int, int]], *, slack: int = 0, left: int = 0, windows: Any = (), host: Any = None
) -> PrintPart:
    wants = tuple(
        Want(
            place,
            width,
            height,
            range(1, 2),
            EVERY_TURN,
            host=host if place == "guest" else None,
            windows=windows if place == "A" else (),
        )
        for place, (width, height) in sizes.items()
    )
    sheet = UsableSheet(100, 60, left, 0, 100, 60)
    return PrintPart("q", 1, sheet, slack, sheet, slack, wants)


def node(x: int, y: int, width: int, height: int, **more: Any) -> dict[str, Any]:
    return {"x": x, "y": y, "width": width, "height": height, **more}


def leaf(place: str, x: int, y: int, width: int, height: int, turn: int = 0, **more: Any) -> dict[str, Any]:
    return node(x, y, width, height, piece=place, copy=1, turn=turn, **more)


def cut(x: int, y: int, width: int, height: int, along: str, at: int, *parts: Any) -> dict[str, Any]:
    return node(x, y, width, height, cut={"along": along, "at": at}, parts=list(parts))


def answer(part: PrintPart, tree: Any) -> PrintAnswer:
    return PrintAnswer(part, "fits", "plan", 1, 1, ({"sheet": 1, "tree": tree},))


def tree_of(made: PrintAnswer | None) -> Any:
    assert made is not None
    return made.plan[0]["tree"]


# A 40 x 60 beside B 60 x 60 fills the sheet of 100 x 60.
FULL = cut(0, 0, 100, 60, "x", 40, leaf("A", 0, 0, 40, 60), leaf("B", 40, 0, 60, 60))
EXACT = part_of({"A": (40, 60), "B": (60, 60)})


@pytest.mark.parametrize(
    ("sizes", "expected"),
    [
        pytest.param(
            {"A": (39, 60), "B": (61, 60)},
            cut(0, 0, 100, 60, "x", 39, leaf("A", 0, 0, 39, 60), leaf("B", 39, 0, 61, 60)),
            id="the cut moves",
        ),
        pytest.param(
            {"A": (39, 60), "B": (60, 60)},
            cut(
                *(0, 0, 100, 60, "x", 39),
                leaf("A", 0, 0, 39, 60),
                cut(39, 0, 61, 60, "x", 99, leaf("B", 39, 0, 60, 60), node(99, 0, 1, 60, offcut=True)),
            ),
            id="what is left over is cut off",
        ),
        pytest.param({"A": (41, 60), "B": (60, 60)}, None, id="both together are too wide"),
        pytest.param({"A": (40, 61), "B": (60, 60)}, None, id="one is too high"),
    ],
)
def test_cuts_move_by_as_much_as_the_pieces_ask(sizes: dict[str, tuple[int, int]], expected: Any):
    made = resized(answer(EXACT, FULL), part_of(sizes))
    assert (None if made is None else tree_of(made)) == expected


def test_an_offcut_shrinks_and_vanishes():
    tree = cut(0, 0, 100, 60, "x", 99, leaf("A", 0, 0, 99, 60), node(99, 0, 1, 60, offcut=True))
    exact = answer(part_of({"A": (99, 60)}), tree)
    assert tree_of(resized(exact, part_of({"A": (100, 60)}))) == leaf("A", 0, 0, 100, 60)
    grown = tree_of(resized(exact, part_of({"A": (98, 60)})))
    assert grown["parts"][1] == node(98, 0, 2, 60, offcut=True)


def test_what_the_slack_takes_is_no_offcut():
    tree = cut(0, 0, 100, 60, "x", 48, leaf("A", 0, 0, 48, 60), leaf("B", 52, 0, 48, 60))
    exact = answer(part_of({"A": (48, 60), "B": (48, 60)}, slack=4), tree)
    made = tree_of(resized(exact, part_of({"A": (47, 60), "B": (48, 60)}, slack=4)))
    # One is left beyond B: less than a cut loses, so that the cut has one part.
    assert made["parts"][1] == cut(51, 0, 49, 60, "x", 99, leaf("B", 51, 0, 48, 60))


def test_a_spoilt_margin_stays_where_it_is():
    tree = cut(0, 0, 100, 60, "x", 10, node(0, 0, 10, 60, offcut=True), leaf("A", 10, 0, 90, 60))
    exact = answer(part_of({"A": (90, 60)}, left=10), tree)
    made = tree_of(resized(exact, part_of({"A": (89, 60)}, left=10)))
    assert made["parts"][0] == node(0, 0, 10, 60, offcut=True)
    assert made["parts"][1]["parts"][0] == leaf("A", 10, 0, 89, 60)
    assert resized(exact, part_of({"A": (91, 60)}, left=10)) is None


def test_a_turned_piece_is_as_wide_as_it_is_high():
    tree = cut(0, 0, 100, 60, "x", 40, leaf("A", 0, 0, 40, 60, 90), leaf("B", 40, 0, 60, 60))
    exact = answer(part_of({"A": (60, 40), "B": (60, 60)}), tree)
    made = tree_of(resized(exact, part_of({"A": (60, 39), "B": (61, 60)})))
    assert made["parts"][0] == leaf("A", 0, 0, 39, 60, 90)


def test_what_comes_out_of_a_window_is_resized_with_it():
    def sized(pane: int, guest: int) -> PrintPart:
        sizes = {"A": (100, 60), "guest": (guest, 20)}
        return part_of(sizes, windows=(KeptWindow("w", pane, 20),), host=("A", "w"))

    tree = leaf("A", 0, 0, 100, 60, cut_outs={"w": leaf("guest", 0, 0, 50, 20)})
    exact = answer(sized(50, 50), tree)
    assert tree_of(resized(exact, sized(49, 49)))["cut_outs"] == {"w": leaf("guest", 0, 0, 49, 20)}
    assert resized(exact, sized(49, 50)) is None


def test_only_a_plan_that_suffices_is_used_again():
    short = PrintAnswer(EXACT, "unknown", "budget", 1, 2, ({"sheet": 1, "tree": FULL},))
    assert resized(short, EXACT) is None


def test_a_plan_as_deep_as_no_one_cuts_is_left_to_the_search():
    deep: Any = node(0, 0, 100, 1, offcut=True)
    parts: Sequence[Any] = [leaf("A", 0, 0, 100, 1)]
    tree = cut(0, 0, 100, 60, "y", 1, parts[0], deep)
    for _ in range(300):
        tree = {**tree, "parts": [parts[0], tree]}
    assert resized(answer(part_of({"A": (100, 1)}), tree), part_of({"A": (99, 1)})) is None
