"""Templates: what fits a page at true size. Letter holds 180.9 by 218.4 mm, A4 175 by 236."""

from __future__ import annotations

from typing import Any

import pytest

from layouts.proofing.rules import templates
from tests.unit.proofing.small_prints import MM, Tree, kit_of, piece, project

_OVAL: Tree = {"shape": {"kind": "ellipse"}}


def _pane(width: str, height: str, **members: Any) -> Tree:
    return {"windows": [{"id": "w", "left": "5", "bottom": "5", "width": width, "height": height, **members}]}


@pytest.mark.parametrize(
    ("size", "members", "fired"),
    [
        pytest.param(("180.9", "218.4"), _OVAL, [], id="an oval that just fits Letter"),
        pytest.param(("175", "236"), _OVAL, [], id="an oval that just fits A4"),
        pytest.param(("181", "218"), _OVAL, ["A"], id="too wide"),
        pytest.param(("180", "219"), _OVAL, ["A"], id="too wide for A4, too high for Letter"),
        pytest.param(("236", "175"), _OVAL, ["A"], id="a template is not turned"),
        pytest.param(("400", "400"), {}, [], id="a rectangle needs none"),
        pytest.param(("400", "400"), _pane("180", "210"), [], id="a window of its own"),
        pytest.param(("400", "400"), _pane("190", "210"), ["A/window:w"], id="a window that is too large"),
        pytest.param(("170", "210"), _pane("160", "200"), [], id="a window shown with its piece"),
        pytest.param(("400", "400"), _pane("395", "210"), [], id="one that lies outside is told elsewhere"),
    ],
)
def test_templates_fit_a_page(size, members, fired):
    kit = kit_of(project(piece("A", *size, **members)))
    found = list(templates.findings(kit))
    assert [finding.at for finding in found] == [(f"project:p/piece:{name}",) for name in fired]


def test_the_message_says_how_much_a_page_holds():
    (finding,) = templates.findings(kit_of(project(piece("A", "200", "250", **_OVAL))))
    assert finding.why == {"size": [200 * MM, 250 * MM]}
    assert finding.message == (
        "The outline of A (piece A), 200 × 250 mm, has no template: a page holds 180.9 mm × 218.4 mm (Letter) or "
        "175 mm × 236 mm (A4). Say in the step how to draw it by its measures, or make it smaller."
    )
