"""Random kits as shown: every sum that can be checked holds or is marked, and no figure is a step off."""

from __future__ import annotations

from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from layouts.document import Kit, lengths_of, read_kit_tree
from layouts.printed import Printing, grid_of, kit_as_shown
from layouts.shapes import resolve

SIDES = ("left", "right", "top", "bottom")
sixty_fourths = st.integers(1, 40)
large = st.integers(200, 600)


def _written(sixtyfourths: int) -> str:
    whole, rest = divmod(sixtyfourths, 64)
    return f"{whole} {rest}/64 in" if whole and rest else f"{rest}/64 in" if rest else f"{whole} in"


@st.composite
def kits(draw: st.DrawFn) -> Kit:
    """Pieces with a window each, put on each other with true borders, and a few forms."""
    pieces: list[dict[str, Any]] = []
    placements: list[dict[str, Any]] = []
    for number in range(draw(st.integers(1, 4))):
        width, height = draw(large), draw(large)
        margins = {side: _written(draw(sixty_fourths)) for side in SIDES}
        window = {"id": "w", **margins}
        pieces.append(
            {"id": f"A{number}", "name": "", "size": [_written(width), _written(height)], "windows": [window]}
        )
        border = draw(sixty_fourths)
        larger = [_written(width + 2 * border), _written(height + 2 * border)]
        pieces.append({"id": f"B{number}", "name": "", "size": larger})
        put = {"put": {"piece": f"A{number}"}, "on": {"piece": f"B{number}"}, "border": _written(border)}
        placements.append({"id": f"l{number}", **put})
    forms: list[dict[str, Any]] = []
    for number in range(draw(st.integers(0, 2))):
        at = sorted(draw(st.sets(st.integers(1, 190), min_size=1, max_size=4)))
        scores = [{"from": draw(st.sampled_from(["left", "bottom"])), "at": _written(one)} for one in at]
        form = {"id": f"f{number}", "name": "", "paper": "q", "as": "scored", "scores": scores}
        forms.append(form | {"size": [_written(draw(large)), _written(draw(large))]})
    panel = [_written(draw(large)), "3 in"]
    forms.append({"id": "c", "name": "", "paper": "q", "as": "concertina", "panel": panel, "panels": 3})
    return read_kit_tree(
        {
            "format": "kitproof/1",
            "code": "c",
            "title": "t",
            "unit": draw(st.sampled_from(["in", "mm"])),
            "printed": {
                "in": draw(st.sampled_from(["1/8 in", "1/16 in"])),
                "mm": draw(st.sampled_from(["1 mm", "0.5 mm"])),
            },
            "papers": [{"id": "q", "name": "", "size": ["40 in", "40 in"], "sheets": 9, "front": {"name": ""}}],
            "projects": [{"id": "p", "title": "", "pieces": pieces, "placements": placements, "forms": forms}],
        }
    )


@given(kits())
@settings(max_examples=60, deadline=None)
def test_every_sum_holds_or_is_told_and_no_figure_is_a_step_off(kit):
    printing = Printing(kit)
    for system in ("in", "mm"):
        shown, step = printing.shown(system), grid_of(kit, system)
        for place, ticks in printing.exact.items():
            assert shown.by_place[place] % step == 0
            assert abs(shown.by_place[place] - ticks) < step
            assert ticks % step or shown.by_place[place] == ticks
        for one in printing.sums:
            comes_to = sum(times * shown.by_place[place] for times, place in one.parts)
            assert (comes_to == shown.by_place[one.total]) == (one not in shown.broken)


@given(kits())
@settings(max_examples=40, deadline=None)
def test_the_kit_as_shown_holds_the_shown_lengths_and_the_sides_that_follow_from_them(kit):
    printing = Printing(kit)
    shown = printing.shown("mm")
    as_shown = kit_as_shown(kit, shown.by_place, "mm")
    for place, length in lengths_of(as_shown):
        if place.startswith("project:"):
            assert length.ticks == shown.by_place[place]
    paper = [length for place, length in lengths_of(kit) if place.startswith("paper:")]
    assert [length for place, length in lengths_of(as_shown) if place.startswith("paper:")] == paper
    if shown.broken:
        return
    for piece in as_shown.projects[0].pieces:
        for window in piece.windows:
            place = f"project:p/piece:{piece.id}/window:{window.id}"
            assert resolve(window, piece.size).width.ticks == shown.by_place[f"{place}/width"]
