"""Files for cutting machines of random forms: every line at its exact place, and nothing beside."""

from __future__ import annotations

import io
from fractions import Fraction
from typing import Any

import pytest
from ezdxf import recover
from hypothesis import given, settings
from hypothesis import strategies as st

from layouts.drawing.machine import flat_sheet_part, part_as_dxf
from layouts.lengths import TICKS_PER_MM
from layouts.shapes import NotBuilt
from tests.properties.folding import FORMS, folded, kits

type End = tuple[float, float]


def _mm(spot: Any) -> End:
    """The binary number nearest to a length in millimetres, which is what the format can hold."""
    x, y = (Fraction(side) / TICKS_PER_MM for side in spot)
    return x.numerator / x.denominator, y.numerator / y.denominator


def _line(ends: Any) -> frozenset[End]:
    return frozenset(map(_mm, ends))


@pytest.mark.parametrize("kind", FORMS)
@settings(max_examples=15, deadline=None)
@given(st.data())
def test_cuts_and_scores_of_random_forms_lie_where_they_are_computed(kind, data):
    try:
        found = folded(data.draw(kits(kind)))
    except NotBuilt:
        return
    for sheet in found.sheets[:2]:
        drawing, audit = recover.read(io.BytesIO(part_as_dxf(flat_sheet_part(sheet, "t"))))
        assert not audit.errors
        entities: list[Any] = list(drawing.modelspace())
        lines = [
            (one.dxf.layer, frozenset(((one.dxf.start.x, one.dxf.start.y), (one.dxf.end.x, one.dxf.end.y))))
            for one in entities
            if one.dxftype() == "LINE"
        ]
        scores = [(f"SCORE-{crease.fold.upper()}", _line((crease.start, crease.end))) for crease in sheet.creases]
        slits = [("CUT", _line(cut)) for cut in sheet.cuts[1:]]
        assert sorted(lines, key=repr) == sorted([*scores, *slits], key=repr)
        (outline,) = [one for one in entities if one.dxftype() == "LWPOLYLINE"]
        assert outline.closed
        corners = [(float(x), float(y)) for x, y in outline.get_points("xy")]
        assert corners == [_mm(spot) for spot in sheet.cuts[0][:-1]]
        circles = [one.dxf.radius for one in entities if one.dxftype() == "CIRCLE"]
        assert circles == [_mm((hole.diameter / 2, 0))[0] for hole in sheet.holes]
