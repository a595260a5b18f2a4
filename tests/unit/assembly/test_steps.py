"""After which steps each step comes, and how long it takes."""

from __future__ import annotations

import pytest

from layouts.assembly import steps_of
from tests.unit.assembly.small_kits import kit_of, project, step


@pytest.mark.parametrize(
    ("after", "comes_after"),
    [
        pytest.param({}, ("project:shelf/step:fold",), id="not said: after the one before it"),
        pytest.param({"after": []}, (), id="at once"),
        pytest.param({"after": ["cut"]}, ("project:shelf/step:cut",), id="a step of the same project"),
        pytest.param({"after": ["shelf/cut"]}, ("project:shelf/step:cut",), id="the same by the project's name"),
        pytest.param({"after": ["tray/dry"]}, ("project:tray/step:dry",), id="a step of another project"),
        pytest.param(
            {"after": ["fold", "cut", "fold"]},
            ("project:shelf/step:fold", "project:shelf/step:cut"),
            id="several, one of them said twice",
        ),
    ],
)
def test_a_step_comes_after_what_it_says(after, comes_after):
    kit = kit_of(
        project("shelf", steps=[step("cut"), step("fold"), step("glue", **after)]), project("tray", steps=[step("dry")])
    )

    assert steps_of(kit).by_project["shelf"][2].after == comes_after


def test_the_first_step_of_each_project_begins_at_once():
    kit = kit_of(project("shelf", steps=[step("cut")]), project("tray", steps=[step("cut")]))

    assert [planned.after for planned in steps_of(kit)] == [(), ()]


def test_what_comes_after_in_another_project_is_reached_by_way_of_it():
    kit = kit_of(
        project("shelf", steps=[step("cut"), step("glue", after=["tray/dry"])]),
        project("tray", steps=[step("dry", after=["shelf/cut"])]),
    )

    assert steps_of(kit).precedence.precedes("project:shelf/step:cut", "project:shelf/step:glue")


@pytest.mark.parametrize(
    ("members", "makes", "hands_on", "waiting"),
    [
        pytest.param({"work": "4 min", "hold": "60 s"}, 1, 300, 0, id="holding by hand is work"),
        pytest.param({"work": "4 min", "hold": "60 s", "held": "clamped"}, 1, 240, 60, id="in clamps it is waiting"),
        pytest.param({"work": "4 min", "dry": "30 min"}, 1, 240, 1800, id="drying is waiting"),
        pytest.param({"work": "4 min", "hold": "60 s", "dry": "1 h"}, 3, 900, 3600, id="hands count for every copy"),
        pytest.param({"work": "1 min", "hold": "60 s", "held": "clamped"}, 3, 180, 60, id="copies share the wait"),
        pytest.param({"dry": "30 min"}, 1, 0, 1800, id="work not stated"),
    ],
)
def test_hands_and_waiting_are_told_apart(members, makes, hands_on, waiting):
    (planned,) = steps_of(kit_of(project("shelf", makes=makes, steps=[step("glue", **members)])))

    assert (planned.hands_on_s, planned.waiting_s) == (hands_on, waiting)


@pytest.mark.parametrize(
    ("shelf", "circles"),
    [
        pytest.param([step("cut"), step("glue")], (), id="none"),
        pytest.param(
            [step("cut", after=["glue"]), step("glue", after=["cut"])],
            (("project:shelf/step:cut", "project:shelf/step:glue"),),
            id="A before B before A",
        ),
        pytest.param([step("cut", after=["cut"])], (("project:shelf/step:cut",),), id="a step after itself"),
        # The way round leads through the other project, so that the projects are in a circle, not these steps.
        pytest.param([step("cut", after=["tray/dry"]), step("glue")], (), id="one that crosses projects"),
    ],
)
def test_circles_within_a_project_are_named_and_never_raised(shelf, circles):
    kit = kit_of(project("shelf", steps=shelf), project("tray", steps=[step("dry", after=["shelf/cut"])]))

    assert steps_of(kit).circles_within("shelf") == circles
