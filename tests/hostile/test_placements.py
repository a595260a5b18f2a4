"""Kits of very many placements, windows and words: judged to the end, by rules that would take the square of it.

Time is not judged here, since machines differ. What took time that grows with the square of a document's size would
take minutes where these take a second.
"""

from __future__ import annotations

from typing import Any

import pytest

from layouts.assembly import steps_of
from layouts.document import Kit
from layouts.proofing.findings import Finding
from layouts.proofing.rules import claims, edges, faces
from layouts.shapes.faces import lying_in
from tests.unit.proofing.small_prints import kit_of, piece, project

_FACE = {"size": ["5000", "5000"]}
_ON = {"blank": "b", "face": "f"}


def _kit(made: Any, positions: Any, face: Any = None, **more: Any) -> Kit:
    copies = [{"on_copy": 1, **position} for position in positions]
    placement = {"id": "x", "put": {"piece": "A"}, "on": _ON, "copies": copies}
    blanks = [{"id": "b", "name": "b", "faces": [{"id": "f", **_FACE, **(face or {})}]}]
    return kit_of(project(made, placements=[placement], **more), blanks=blanks)


def _stacked() -> Kit:
    """Strips, each a quarter of a millimetre above the last: a moving line crosses all of them at once."""
    heights = (f"{at // 4}.{at % 4 * 25:02d}" for at in range(20_000))
    return _kit(piece("A", "10", "0.2"), ({"left": "5", "bottom": height} for height in heights))


def _heaped() -> Kit:
    """All in one place: every pair overlaps."""
    return _kit(piece("A", "10", "10"), [{"left": "5", "bottom": "5"}] * 20_000)


def _pierced() -> Kit:
    """A piece of ten thousand equal round windows, over a round opening ten thousand times."""
    window = {"left": "1", "width": "50", "bottom": "1", "height": "50", "shape": {"kind": "ellipse"}}
    windows = [{"id": f"w{at}", **window} for at in range(10_000)]
    positions = [{"left": str(at % 4000), "bottom": "5"} for at in range(10_000)]
    return _kit(piece("A", "300", "300", windows=windows), positions, {"opening": window})


def _named() -> Kit:
    """A name of a million letters, on copies none of which overhangs by the same."""
    positions = [{"left": str(4991 + at % 9), "bottom": f"{at // 320}.{at % 320 * 3125:06d}"} for at in range(2_000)]
    return _kit({**piece("A", "10", "10"), "name": "x" * 1_000_000}, positions)


def _claiming() -> Kit:
    """A sentence of thousands of claims and references."""
    window = {"id": "w", "left": "4", "right": "5", "top": "4", "bottom": "4"}
    text = "Leave {A.w.left} on each side " * 3000
    steps = [{"id": f"s{at}", "text": text} for at in range(20)]
    return _kit(piece("A", "30", "30", windows=[window]), [{}], steps=steps)


def _found(kit: Kit) -> list[Finding]:
    lying = lying_in(kit)
    return [
        *faces.findings(kit, lying),
        *edges.findings(kit, lying),
        *claims.findings(kit, steps_of(kit), lying),
    ]


@pytest.mark.parametrize(
    ("kit", "rules"),
    [
        pytest.param(_stacked, set(), id="stacked"),
        pytest.param(_heaped, {"placements-overlap"}, id="in one heap"),
        # The opening cannot be seen through within what is looked at: then nothing is said of it.
        pytest.param(_pierced, {"placements-overlap", "window-rim", "windows-meet"}, id="pierced"),
        pytest.param(_named, {"placement-overhangs", "placements-overlap"}, id="with a long name"),
        pytest.param(_claiming, {"claim-each-side"}, id="claiming much"),
    ],
)
def test_very_many_are_judged_and_told_in_bounds(kit, rules):
    found = _found(kit())

    assert {one.rule for one in found} == rules
    assert len(found) < 30_000
    assert sum(len(one.message) for one in found) < 10_000_000
