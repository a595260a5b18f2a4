"""Flat parts of random forms: every figure can be read, and all that is drawn keeps its bounds."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from layouts.drawing import flat_drawings, folded_drawing
from layouts.printed import shown
from layouts.shapes import NotBuilt
from tests.properties.folding import FORMS, folded, kits
from tests.unit.drawing.meetings import collisions, outside

MM = 320
EACH_CONSTRUCTION = pytest.mark.parametrize("kind", FORMS)


@EACH_CONSTRUCTION
@settings(max_examples=60, deadline=None)
@given(st.data())
def test_figures_and_names_meet_neither_each_other_nor_a_line(kind, data):
    kit = data.draw(kits(kind))
    try:
        found = folded(kit)
    except NotBuilt:
        return
    drawn = flat_drawings(
        found,
        lambda ticks: shown(ticks, "in", 127),
        name="n",
        title="Form",
        unit="in",
        room=(data.draw(st.integers(30, 120)) * MM,) * 2,
        line=data.draw(st.sampled_from([145, 229])),
        step=127,
    )
    assert drawn
    box = folded_drawing(
        found,
        lambda ticks: shown(ticks, "in", 127),
        name="n",
        title="Form",
        unit="in",
        room=(40 * MM, 40 * MM),
        line=145,
        step=127,
    )
    assert box is None or collisions(box.svg) == outside(box.svg) == []
    for one in drawn:
        assert collisions(one.drawing.svg) == []
        assert outside(one.drawing.svg) == []
        assert len(one.drawing.svg) < 200_000
