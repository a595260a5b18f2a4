"""Counts in the text of steps: which the plan contradicts, and which may be right or count something else.

Every text is common prose of instructions, written for these tests; what is silent was chosen by common practice, no
source.
"""

from __future__ import annotations

from typing import Any

import pytest

from layouts.assembly import steps_of
from layouts.document import Kit
from layouts.proofing.findings import Finding
from layouts.proofing.rules import counts
from layouts.proofing.runner import faults_without_plans
from tests.unit.assembly.small_kits import CARD, kit_of, project, step, tag

# The plan: one front panel A, two pickets E, four long strips F, two short strips G, four ovals and four bun feet.
_PIECES = {"A": ("front panel", 1), "E": ("picket", 2), "F": ("long strip", 4), "G": ("short strip", 2)}
_LISTS: dict[str, Any] = {
    "papers": [CARD],
    "blanks": [{"id": "feet", "name": "bun feet", "count": 4}],
    "embellishments": [{"id": "foil", "name": "foil", "elements": [{"id": "oval", "name": "gold oval", "count": 4}]}],
    "supplies": [{"id": "lamp", "name": "lamp", "kind": "light", "count": 1}],
}


def _kit(
    text: str, *, makes: int = 1, earlier: tuple[str, ...] = (), forms: tuple[Any, ...] = (), **of_step: Any
) -> Kit:
    pieces = [{"id": id_, "name": name, "size": ["4", "3"], "count": n} for id_, (name, n) in _PIECES.items()]
    steps = [step("first", "", cut=list(earlier)), step("s", text, **of_step)]
    tray = project("tray", pieces=[{"id": "E", "name": "picket", "size": ["4", "3"]}])
    return kit_of(project("shelf", pieces=pieces, forms=list(forms), steps=steps, makes=makes), tray, **_LISTS)


def _findings(kit: Kit) -> list[Finding]:
    return list(counts.findings(kit, steps_of(kit)))


def _uses(piece: str, count: int) -> dict[str, Any]:
    return {"use": [{"piece": piece, "count": count}]}


@pytest.mark.parametrize(
    ("text", "of_step", "said", "number", "planned"),
    [
        pytest.param("Glue four strips {F} to it.", _uses("F", 2), "four strips", 4, 2, id="more than the step uses"),
        pytest.param("Glue four pickets on.", _uses("E", 2), "four pickets", 4, 2, id="no reference: what it uses"),
        pytest.param("Glue 4 pickets on.", _uses("E", 2), "4 pickets", 4, 2, id="in digits"),
        pytest.param("Glue three pickets {E} on.", {}, "three pickets", 3, 2, id="more than there are"),
        pytest.param("Lay out {E}: three pickets.", {}, "three pickets", 3, 2, id="named in the same sentence"),
        pytest.param("Cut three pickets.", {"cut": ["E"]}, "three pickets", 3, 2, id="more than are cut"),
        pytest.param("Cut two strips {F}.", {"cut": ["F"]}, "two strips", 2, 4, id="fewer than are cut"),
        pytest.param("Glue three strips {F} on.", _uses("F", 4), "three strips", 3, 4, id="fewer than the step uses"),
        pytest.param("Glue six long strips on.", _uses("F", 4), "six long strips", 6, 4, id="with its own adjective"),
        pytest.param("Glue the five pickets on.", _uses("E", 2), "the", 5, 2, id="with an article"),
        pytest.param("Glue both front panels {A} on.", {}, "both front panels", 2, 1, id="both of one"),
        pytest.param("Glue a pair of panels {A} on.", {}, "a pair of panels", 2, 1, id="a pair of one"),
        pytest.param("Glue three ovals.", {"use": [{"element": "foil/oval"}]}, "three ovals", 3, 1, id="elements"),
        pytest.param("Peel off six ovals {foil/oval}.", {}, "six ovals", 6, 4, id="more elements than the kit holds"),
        pytest.param(
            "Glue six bun feet on.", {"use": [{"blank": "feet", "count": 4}]}, "six bun feet", 6, 4, id="blanks"
        ),
        pytest.param("Cut four {E}.", {}, "four {E}", 4, 2, id="before a reference"),
        pytest.param("Cut 4 of {E}.", {"cut": ["E"]}, "4 of {E}", 4, 2, id="so many of a reference"),
        pytest.param("Glue the four {E} on.", _uses("E", 2), "the four {E}", 4, 2, id="those, before a reference"),
        pytest.param("Glue six of the {F} strips on.", _uses("F", 4), "six of the {F}", 6, 4, id="its noun after it"),
        pytest.param("Glue three pickets ({E}) on.", {}, "three pickets", 3, 2, id="the reference in brackets"),
        pytest.param("Glue eleven pickets, {E}, on.", {}, "eleven pickets", 11, 2, id="the reference after a comma"),
    ],
)
def test_a_count_that_the_plan_contradicts_is_told(text, of_step, said, number, planned):
    (found,) = _findings(_kit(text, **of_step))

    assert (found.why["number"], found.why["planned"]) == (number, planned)
    assert said in f"the {found.why['said']}"


@pytest.mark.parametrize(
    ("text", "of_step"),
    [
        pytest.param("Glue two strips {F} on.", _uses("F", 2), id="what the step uses"),
        pytest.param("Glue both pickets on, and 2 pickets it is.", _uses("E", 2), id="both, and digits"),
        pytest.param("The four strips {F} now frame it.", _uses("F", 2), id="all there are, some glued before"),
        pytest.param("With all four strips {F} in place, look.", _uses("F", 2), id="all of them"),
        pytest.param("Cut four strips {F} and glue them.", {**_uses("F", 2), "cut": ["F"]}, id="cut all, use some"),
        pytest.param("Cut four strips {F}: use two here.", _uses("F", 2), id="all there are, and then some"),
        pytest.param("Glue two strips {F} above and two below.", _uses("F", 4), id="two and two"),
        pytest.param("Glue two strips {F} to each wall.", _uses("F", 4), id="two a wall"),
        pytest.param("Glue two strips {F}, then two more.", _uses("F", 4), id="two more"),
        pytest.param("Glue three strips {F}; the rest comes later.", _uses("F", 4), id="the rest"),
        pytest.param("Glue one of the two pickets on.", _uses("E", 1), id="one of two"),
        pytest.param("Glue the other two strips {F} on.", _uses("F", 4), id="the other two"),
        pytest.param("Glue {F} on, two at a time.", _uses("F", 4), id="two at a time"),
        pytest.param("Glue two or three pickets on.", _uses("E", 2), id="two or three"),
        pytest.param("Glue up to five pickets on.", _uses("E", 2), id="up to five"),
        pytest.param("Glue twenty-four pickets, or hundred and four pickets.", _uses("E", 2), id="larger numbers"),
        pytest.param("Glue 2 3/4 pickets, 0.5 pickets, 3-4 pickets.", _uses("E", 2), id="no whole numbers"),
        pytest.param("Glue four narrow pickets on.", _uses("E", 2), id="an adjective that is not of the name"),
        pytest.param("Glue four strips on.", _uses("F", 2), id="two things are strips"),
        pytest.param("Glue six strips {F} and {G} on.", {}, id="both kinds of strips at once"),
        pytest.param("Glue four short strips {F} on.", {}, id="the noun is of another piece"),
        pytest.param("Cut two strips of tape and fix {F}.", {}, id="strips of something"),
        pytest.param("Use four feet of twine for {blank:feet}.", {}, id="feet of something"),
        pytest.param("Fold it into four panels and glue {A} on.", {}, id="a fold makes panels"),
        pytest.param("Slide the two panels apart, {A} above.", {}, id="panels are anything"),
        pytest.param("Cut five pickets from scraps, not {E}.", {}, id="from scraps"),
        pytest.param("Never glue five pickets {E}.", {}, id="never"),
        pytest.param("Step 4 pickets are {E}.", {}, id="the number of a step"),
        pytest.param("Glue two {E} on.", {}, id="as many, before a reference"),
        pytest.param("Glue five {E.width} on.", {}, id="before a figure of it"),
        pytest.param("Cut five {E} and {G}.", {}, id="of two things together"),
        pytest.param("Cut one {E} left and one {E} right.", {}, id="one and one"),
        pytest.param("Never glue five {E} on.", {}, id="never so many of it"),
        pytest.param("Glue five {E} wide strips on.", {}, id="so many times as wide"),
        pytest.param("Glue five on the picket {E}.", {}, id="no plural"),
        pytest.param("Add five drops of glue to {E}.", {}, id="another noun"),
        pytest.param("Glue five lamps on.", {}, id="a supply is not counted"),
        pytest.param("Glue five pickets on.", {}, id="nothing names or uses them"),
        pytest.param("Lay {E} out. Glue five pickets on.", {}, id="named in another sentence"),
        pytest.param("Glue two ovals {foil/oval} on.", {}, id="fewer than the kit holds"),
        pytest.param("Glue three strips {F} on.", {}, id="fewer than there are, where nothing is stated"),
        pytest.param("Glue five pickets {nowhere} on.", {}, id="a reference that leads nowhere"),
        pytest.param("Lay out {A}, {E} and two foils {foil/oval}.", {}, id="the noun of its sheet"),
        pytest.param("Glue five foils on.", {"use": [{"element": "foil/oval"}]}, id="a sheet of many elements"),
        pytest.param("Glue five shelves to {E}.", {}, id="the noun of a project"),
        pytest.param("Glue five pickets to {E} beside {tray/E}.", {}, id="beside a thing of another project"),
        pytest.param("Bend two panels up beside {A}.", {}, id="panels, wherever they are"),
        pytest.param("Cut five pickets of tape and fix {E}.", {}, id="pickets of something"),
        pytest.param("Leave a gap five pickets wide beside {E}.", {}, id="as wide as five"),
        pytest.param("Cut {E} into five pickets.", {}, id="cut into some more"),
        pytest.param("Leave a gap two pickets wide beside {E}, or five pickets' width.", {}, id="as a measure"),
        pytest.param("Hold for 60 seconds, press twelve times on {E}.", {}, id="seconds and times"),
    ],
)
def test_a_count_that_may_be_right_or_of_something_else_is_silent(text, of_step):
    assert _findings(_kit(text, **of_step)) == []


def test_of_a_thing_that_is_cut_in_two_steps_a_part_may_be_cut():
    assert len(_findings(_kit("Cut three strips {F}.", cut=["F"]))) == 1
    assert _findings(_kit("Cut three strips {F}.", cut=["F"], earlier=("F",))) == []


def test_copies_of_the_project_may_be_counted_together():
    assert _findings(_kit("Glue six pickets {E} on.", makes=3)) == []
    assert [one.why["number"] for one in _findings(_kit("Glue seven pickets {E} on.", makes=3))] == [7]


def test_a_frame_is_made_of_strips_of_its_own():
    frame = {"id": "rim", "name": "rim", "as": "frame", "paper": "card", "opening": ["3", "3"], "width": "1/2"}
    text = "Glue four long strips around it."

    assert len(_findings(_kit(text, **_uses("F", 2)))) == 1
    assert _findings(_kit(text, forms=(frame,), **_uses("F", 2))) == []


def test_another_thing_of_that_noun_anywhere_in_the_project_may_be_meant():
    text = "Glue five pickets on."

    assert len(_findings(_kit(text, **_uses("E", 2)))) == 1
    assert _findings(_kit(text, forms=(tag("post", name="picket post"),), **_uses("E", 2))) == []


def test_a_kit_with_such_a_count_is_not_ready_before_any_plan_is_known():
    kit = _kit("Glue three pickets {E} on.")

    assert ("count-word-differs", ("project:shelf/step:s", "project:shelf/piece:E")) in faults_without_plans(kit)


def test_the_message_says_where_what_and_what_to_do():
    (found,) = _findings(_kit("Glue four strips {F} on, four strips {F} in all.", **_uses("F", 2)))

    assert (found.rule, found.weight) == ("count-word-differs", "fix")
    assert found.at == ("project:shelf/step:s", "project:shelf/piece:F")
    assert found.why == {"said": "four strips", "number": 4, "planned": 2, "thing": "project:shelf/piece:F"}
    assert "Step s of “Shelf” says “four strips”, but the step uses 2 of F (“long strip”)." in found.message
    assert "Correct the number" in found.message
