"""Rules about step text: references that lead nowhere, and measures that were typed."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Any

import pytest

from layouts.assembly import steps_of
from layouts.document import Kit, read_kit
from layouts.printed import Figure, Printing, figures
from layouts.proofing.findings import Finding
from layouts.proofing.rules import text
from tests.unit.assembly.small_kits import kit_of, piece, project, step

_A = "project:shelf/piece:A"
_AT = ("project:shelf/step:s",)

# A measures 6 3/4 by 4 3/4 in; its window leaves 1 in left and right, so that it is 4 3/4 in wide: derived.
_PANE = {"id": "pane", "left": "1", "right": "1", "top": "1/2", "height": "2 1/8"}
_WIDTH = Figure(f"{_A}/size/width", 54_864, "6 3/4", "171")  # 171.45 mm


def _kit(words: str, **members: Any) -> Kit:
    pieces = [piece("A", size=["6 3/4", "4 3/4"], windows=[_PANE])]
    return kit_of(project("shelf", pieces=pieces, steps=[step("s", words)]), **members)


def _findings(kit: Kit, known: Sequence[Figure] = ()) -> list[Finding]:
    printing = Printing(kit)
    derived = printing.derived_sides(printing.shown("in"), printing.shown("mm"))
    return list(text.findings(kit, steps_of(kit), [*known, *derived]))


@pytest.mark.parametrize(
    ("words", "unknown"),
    [
        pytest.param("Cut {A}, {A.width} wide, and open {A.pane}.", [], id="all known"),
        pytest.param("Cut {Z}.", ["Z"], id="no such piece"),
        pytest.param("Cut {A.depth}.", ["A.depth"], id="no such measure"),
        pytest.param("Cut {Z}, then {Y}, then {Z}.", ["Z", "Y"], id="each once"),
        pytest.param("Cut {front panel}.", ["front panel"], id="no name at all"),
        pytest.param("Cut {}.", [""], id="nothing between"),
        pytest.param("Write {{Z}}.", [], id="doubled braces are words"),
        pytest.param("Cut {A.", ["{"], id="a brace that is never closed"),
        pytest.param("Cut A}.", ["}"], id="a brace that is never opened"),
    ],
)
def test_a_reference_must_lead_somewhere(words, unknown):
    found = _findings(_kit(words))

    assert [(one.rule, one.weight, one.at, one.why) for one in found] == [
        ("unknown-reference", "fix", _AT, {"text": name}) for name in unknown
    ]


def test_a_reference_is_read_in_its_own_project():
    kit = kit_of(
        project("shelf", pieces=[piece("A")], steps=[step("s", "{A} {tray/B}")]),
        project("tray", pieces=[piece("B")], steps=[step("s", "{A} {shelf/A}")]),
    )

    assert [(one.at, one.why["text"]) for one in _findings(kit)] == [(("project:tray/step:s",), "A")]


@pytest.mark.parametrize(
    ("words", "rule", "equals"),
    [
        pytest.param("Trim to 6 3/4.", "typed-number", _WIDTH.at, id="a figure of the plan"),
        pytest.param("Trim to 6 3/4 in.", "typed-number", _WIDTH.at, id="with its unit"),
        pytest.param("Trim to 171.45 mm.", "typed-number", _WIDTH.at, id="exactly, in the other unit"),
        pytest.param("Trim to 171 mm.", "typed-number", _WIDTH.at, id="as printed in the other unit"),
        pytest.param("Trim to 17.1 cm.", "typed-number", _WIDTH.at, id="as printed, in centimetres"),
        pytest.param("Trim to 171.5 mm.", "number-not-in-plan", None, id="as nobody prints it"),
        pytest.param("Trim to 6 13/16.", "number-not-in-plan", None, id="one printed step off"),
        pytest.param("Trim to 3/4.", "number-not-in-plan", None, id="the whole number lost"),
        pytest.param("Trim to 6 1/3 in.", "number-not-in-plan", None, id="between two ticks"),
        pytest.param("Trim to 1/0 in.", "number-not-in-plan", None, id="no number"),
        # 4 3/4 − 1/2 − 2 1/8 = 2 1/8 up from the bottom, 54 mm as printed (53.975).
        pytest.param("Leave 4 3/4.", "typed-number", f"{_A}/window:pane/width", id="a derived width of a window"),
        pytest.param("Leave 54 mm.", "typed-number", f"{_A}/window:pane/bottom", id="a derived margin, as printed"),
        pytest.param("Hold 60 seconds, glue 2 in each corner.", None, None, id="no measure"),
        pytest.param("Trim to {A.width}.", None, None, id="a reference"),
        pytest.param("Fold it about 3/4 of the way down.", None, None, id="a share"),
        pytest.param("Leave 3/4 of an inch.", None, None, id="a share of a unit"),
    ],
)
def test_a_typed_measure_is_compared_with_the_plan(words, rule, equals):
    found = _findings(_kit(words), [_WIDTH])

    assert [(one.rule, one.at) for one in found] == ([] if rule is None else [(rule, _AT)])
    if found:
        assert found[0].weight == ("note" if equals else "fix")
        assert found[0].why.get("equals") == equals
        assert str(found[0].why["typed"]) in words


def test_a_figure_counts_as_printed_in_the_unit_that_was_typed_only():
    # 3 in is 76.2 mm, printed 76; but it is not printed 76 in inches.
    figure = Figure(f"{_A}/size/height", 24_384, "3", "76")

    assert [one.rule for one in _findings(_kit("76 mm"), [figure])] == ["typed-number"]
    assert [one.rule for one in _findings(_kit("76 in"), [figure])] == ["number-not-in-plan"]


def test_a_printed_step_of_its_own_decides_how_derived_sides_are_printed():
    # The window is 4 3/4 in wide: 120.65 mm, 121 at whole millimetres and 120.5 at halves.
    assert [one.rule for one in _findings(_kit("121 mm, 120.5 mm"))] == ["typed-number", "number-not-in-plan"]
    halves = _kit("121 mm, 120.5 mm", printed={"mm": "0.5 mm"})
    assert [one.rule for one in _findings(halves)] == ["number-not-in-plan", "typed-number"]


def test_a_figure_of_the_same_project_is_named_first():
    other = Figure("project:tray/piece:A/size/width", _WIDTH.ticks, _WIDTH.inches, _WIDTH.mm)

    assert [one.why["equals"] for one in _findings(_kit("6 3/4"), [other, _WIDTH])] == [_WIDTH.at]
    assert [one.why["equals"] for one in _findings(_kit("6 3/4"), [other])] == [other.at]


def test_the_length_that_the_step_itself_uses_is_named_before_any_other():
    """2 in of ribbon are meant, not the piece that is as wide by chance."""
    wide = Figure(f"{_A}/size/width", 16_256, "2", "51")
    used = step("s", "Cut 2 in of it.", use=[{"piece": "A"}, {"supply": "twine", "length": "2"}])
    twine = {"id": "twine", "name": "twine", "kind": "ribbon", "length": "24"}
    kit = kit_of(project("shelf", pieces=[piece("A")], steps=[used]), supplies=[twine])
    assert [one.why["equals"] for one in _findings(kit, [wide])] == [f"{_AT[0]}/use/2/length"]
    assert [one.why["equals"] for one in _findings(_kit("Cut 2 in of it."), [wide])] == [wide.at]


def test_a_tool_is_meant_last_and_never_by_a_rounded_figure():
    # A trimmer that steps by 1/16 in: 1.5875 mm, which a sheet would show as 2 mm.
    step_of = Figure("tool:trim/step", 508, "1/16", "2")
    border = Figure("project:tray/placement:b/border", 508, "1/16", "2")
    assert [one.rule for one in _findings(_kit("Leave 2 mm."), [step_of])] == ["number-not-in-plan"]
    assert [one.why["equals"] for one in _findings(_kit("Leave 1/16."), [step_of, border])] == [border.at]
    assert [one.why["equals"] for one in _findings(_kit("Leave 1/16."), [step_of])] == [step_of.at]


def test_a_measure_typed_twice_is_said_once_in_each_step():
    kit = kit_of(project("shelf", steps=[step("s", "1/2 and 1/2 and 1/4"), step("t", "1/2")]))

    assert [(one.at[0][-1], one.why["typed"]) for one in _findings(kit)] == [("s", "1/2"), ("s", "1/4"), ("t", "1/2")]


def test_the_message_says_what_to_write_instead():
    (finding,) = _findings(_kit("Trim to 6 3/4."), [_WIDTH])

    assert finding.message == (
        "Step s of “Shelf” says “6 3/4”, which is a figure of the plan. "
        "Write “{A.width}” instead, so that the text follows the plan."
    )


def test_every_rule_of_this_family_has_its_weight():
    assert {rule.name: rule.weight for rule in text.RULES} == {
        "unknown-reference": "fix",
        "typed-number": "note",
        "number-not-in-plan": "fix",
    }


def test_the_text_of_the_first_kit_refers_to_everything():
    first_kit = read_kit((Path(__file__).parents[2] / "reference" / "first-kit.json").read_bytes())

    assert _findings(first_kit, figures(first_kit)) == []
