"""The order of projects: musts first, then the longest waiting, then the document."""

from __future__ import annotations

import pytest

from layouts.assembly import Order, order_of, steps_of
from tests.unit.assembly.small_kits import Tree, kit_of, piece, project, step

_WINDOW = {"id": "pane", "left": "1/2", "width": "3", "bottom": "1/2", "height": "2", "cut_out": "kept"}


def _order(*projects: Tree) -> Order:
    kit = kit_of(*projects)
    return order_of(kit, steps_of(kit))


def _because(order: Order) -> list[tuple[str, str, str, str]]:
    return [(one.first, one.then, one.reason, one.at) for one in order.because]


def _feeder(id_: str = "shelf") -> Tree:
    return project(id_, pieces=[piece("A", windows=[_WINDOW])])


def test_a_kept_cut_out_must_be_cut_before_what_comes_from_it():
    order = _order(project("calendar", pieces=[piece("H", **{"from": "shelf/A/pane"}, size=["3", "2"])]), _feeder())

    assert order.projects == ("shelf", "calendar")
    assert _because(order) == [("shelf", "calendar", "cut-out", "project:calendar/piece:H")]


def test_a_step_must_come_after_a_step_of_another_project():
    order = _order(
        project("calendar", steps=[step("cut"), step("hang", after=["shelf/glue", "cut", "shelf/cut"])]),
        project("shelf", steps=[step("cut"), step("glue")]),
    )

    assert order.projects == ("shelf", "calendar")
    # One step waits for the same project twice: one reason.
    assert _because(order) == [("shelf", "calendar", "after", "project:calendar/step:hang")]


def test_reasons_stand_in_document_order_pieces_before_steps():
    order = _order(
        _feeder(),
        project(
            "calendar",
            pieces=[
                piece("H", **{"from": "shelf/A/pane"}, size=["3", "2"]),
                piece("J", **{"from": "tray/A/pane"}, size=["3", "2"]),
            ],
            steps=[step("cut", after=["tray/cut"])],
        ),
        _feeder("tray") | {"steps": [step("cut")]},
    )

    assert order.projects == ("shelf", "tray", "calendar")
    assert _because(order) == [
        ("shelf", "calendar", "cut-out", "project:calendar/piece:H"),
        ("tray", "calendar", "cut-out", "project:calendar/piece:J"),
        ("tray", "calendar", "after", "project:calendar/step:cut"),
    ]


def test_a_cut_out_used_in_the_same_project_says_nothing_about_projects():
    own = project("shelf", pieces=[piece("A", windows=[_WINDOW]), piece("B", **{"from": "shelf/A/pane"})])

    assert _because(_order(own, project("tray"))) == []


def test_where_nothing_must_the_document_decides():
    order = _order(project("b"), project("a"), project("c"))

    assert (order.projects, _because(order)) == (("b", "a", "c"), [])


def test_where_nothing_must_the_longest_waiting_comes_first_and_is_used_by_the_next():
    order = _order(
        project("quick", steps=[step("glue", dry="5 min")]),
        project("none", steps=[step("cut")]),
        # 10 + 20 min of waiting, more than any other although no single wait is the longest.
        project("slow", steps=[step("glue", dry="10 min"), step("clamp", hold="20 min", held="clamped")]),
        project("long", steps=[step("glue", dry="29 min")]),
    )

    assert order.projects == ("slow", "long", "quick", "none")
    assert _because(order) == [
        ("slow", "long", "drying", "project:slow/step:clamp"),
        ("long", "quick", "drying", "project:long/step:glue"),
        ("quick", "none", "drying", "project:quick/step:glue"),
    ]


def test_holding_by_hand_is_no_waiting():
    assert _order(project("a"), project("b", steps=[step("glue", hold="20 min")])).projects == ("a", "b")


def test_a_must_outweighs_the_longest_waiting():
    order = _order(
        project("lamp", steps=[step("glue", dry="2 h", after=["shelf/cut"])]),
        project("shelf", steps=[step("cut", dry="1 min")]),
        project("tray"),
    )

    # Shelf has more waiting than tray; once it is made, lamp may come and waits longest. Shelf's own minute is no
    # advice: lamp must come after it anyway.
    assert order.projects == ("shelf", "lamp", "tray")
    assert _because(order) == [
        ("shelf", "lamp", "after", "project:lamp/step:glue"),
        ("lamp", "tray", "drying", "project:lamp/step:glue"),
    ]


def test_projects_in_a_circle_have_no_order_and_are_named():
    order = _order(
        project("tray"),
        project("calendar", pieces=[piece("H", **{"from": "shelf/A/pane"}, size=["3", "2"])], steps=[step("cut")]),
        _feeder() | {"steps": [step("hang", after=["calendar/cut"], dry="1 h")]},
    )

    assert order.projects is None
    assert order.circles == (("calendar", "shelf"),)
    assert _because(order) == [
        ("shelf", "calendar", "cut-out", "project:calendar/piece:H"),
        ("calendar", "shelf", "after", "project:shelf/step:hang"),
    ]


def test_the_member_of_a_proof_is_plain_data():
    assert _order(project("a", steps=[step("glue", dry="1 h")]), project("b")).as_data() == {
        "projects": ["a", "b"],
        "because": [{"first": "a", "then": "b", "reason": "drying", "at": "project:a/step:glue"}],
    }


@pytest.mark.parametrize("circle", [True, False])
def test_a_kit_without_projects_or_a_circle_says_so(circle):
    projects = [project("a", steps=[step("s", after=["b/s"])]), project("b", steps=[step("s", after=["a/s"])])]

    assert _order(*(projects if circle else [])).as_data()["projects"] == (None if circle else [])
