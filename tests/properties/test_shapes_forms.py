"""Flat sizes for any measures."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from layouts.lengths import TICKS_PER_INCH
from tests.unit.shapes.making import kit_of, parts_of

SIXTEENTHS = st.integers(1, 160)

# Every length of every construction of one part, each written as NAME or NAME:INDEX.
MEASURES = {
    "tray": ("inside:0", "inside:1", "depth", "flange"),
    "lid": ("fits:0", "fits:1", "depth", "flange", "clearance"),
    "sleeve": ("around:0", "around:1", "length", "overlap", "clearance"),
    "pocket": ("panel:0", "panel:1", "flap"),
    "envelope": ("holds:0", "holds:1", "clearance", "side_flap", "bottom_flap", "top_flap"),
    "tag": ("size:0", "size:1"),
    "scored": ("size:0", "size:1"),
}


def form_of(kind: str, sizes: dict[str, int]) -> dict[str, Any]:
    form: dict[str, Any] = {"as": kind}
    for measure, size in sizes.items():
        name, _, index = measure.partition(":")
        if index:
            form.setdefault(name, ["", ""])[int(index)] = f"{size}/16"
        else:
            form[name] = f"{size}/16"
    return form


@pytest.mark.parametrize("kind", MEASURES)
@given(st.data())
def test_a_larger_measure_or_a_thicker_paper_never_gives_a_smaller_part(kind, data):
    sizes = {measure: data.draw(SIXTEENTHS) for measure in MEASURES[kind]}
    grown = sizes | {(name := data.draw(st.sampled_from(MEASURES[kind]))): sizes[name] + 1}
    caliper = data.draw(st.integers(1, 2000))
    (part,) = parts_of(kit_of(form_of(kind, sizes), caliper_um=caliper))
    (larger,) = parts_of(kit_of(form_of(kind, grown), caliper_um=caliper))
    (thicker,) = parts_of(kit_of(form_of(kind, sizes), caliper_um=caliper + 1))
    assert larger.width >= part.width
    assert larger.height >= part.height
    assert (larger.width, larger.height) != (part.width, part.height)
    assert thicker.width >= part.width
    assert thicker.height >= part.height
    assert part.width.ticks % (TICKS_PER_INCH // 16) == part.height.ticks % (TICKS_PER_INCH // 16) == 0


@given(SIXTEENTHS, st.integers(1, 60), st.integers(1, 16), st.integers(16, 320))
def test_strips_of_a_concertina_hold_every_panel_and_fit_the_sheet(panel, panels, join, side):
    """Sixteenths of an inch. The strips are counted apart: all but the last take what fits beside their tab."""
    form = {"as": "concertina", "panel": [f"{panel}/16", "1"], "panels": panels, "join": f"{join}/16"}
    parts = parts_of(kit_of(form, size=["1", f"{side}/16"]))
    lengths = [part.width.ticks * 16 // TICKS_PER_INCH for part in parts]
    assert sum(lengths) == panels * panel + (len(parts) - 1) * join
    if panel + join <= side:
        assert all(length <= side for length in lengths)
        assert all((length - join) % panel == 0 for length in lengths[:-1])
        assert lengths[-1] % panel == 0
        left, count = panels, 1
        while left * panel > side:
            left -= (side - join) // panel
            count += 1
        assert len(parts) == count
    else:
        assert len(parts) == 1
