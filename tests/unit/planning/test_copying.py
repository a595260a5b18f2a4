"""What comes along into a copy of a kit, and under which ids things come into another kit."""

from __future__ import annotations

from typing import Any

import pytest

from kits.planning.bringing import brought, brought_items
from kits.planning.copying import copied
from kits.planning.months import Month, listed_prints
from layouts.document import Kit, read_kit_tree
from tests.services.planning_cast import box

LISTS = ("papers", "embellishments", "blanks", "supplies", "tools")


def kit_of(**changes: object) -> Kit:
    return read_kit_tree(box(**changes))


def copy_of(kit: Kit, *, lists: tuple[str, ...] = (), projects: tuple[str, ...] = ()) -> Kit:
    return read_kit_tree(copied(kit, code="2027-09", title="The Reed Bed", lists=lists, projects=projects))


def held(kit: Kit) -> dict[str, list[str]]:
    names = ("pads", *LISTS, "projects")
    return {name: [one.id for one in getattr(kit, name)] for name in names if getattr(kit, name)}


@pytest.mark.parametrize(
    ("lists", "projects", "holds"),
    [
        pytest.param((), (), {}, id="nothing"),
        pytest.param(("tools",), (), {"tools": ["knife", "wave"]}, id="tools"),
        pytest.param(("papers",), (), {"pads": ["shore"], "papers": ["kelp", "slate"]}, id="papers with their pad"),
        pytest.param(
            (),
            ("box",),
            {
                "pads": ["shore"],
                "papers": ["kelp", "slate"],
                "embellishments": ["box"],
                "blanks": ["lid"],
                "supplies": ["twine"],
                "tools": ["knife", "wave"],
                "projects": ["box"],
            },
            id="a project with all that it names, its text included",
        ),
        pytest.param(
            (),
            ("tag",),
            {
                "pads": ["shore"],
                "papers": ["kelp", "slate"],
                "embellishments": ["box"],
                "blanks": ["lid"],
                "supplies": ["twine"],
                "tools": ["knife", "wave"],
                "projects": ["box", "tag"],
            },
            id="a project with the one whose cut-out it uses",
        ),
    ],
)
def test_what_is_chosen_comes_along_with_what_it_needs(lists, projects, holds):
    new = copy_of(kit_of(), lists=lists, projects=projects)
    assert held(new) == holds
    assert (new.code, new.title, new.unit, new.accepted) == ("2027-09", "The Reed Bed", "in", ())


def test_a_step_does_not_wait_for_a_project_that_stays_behind():
    tree = box()
    tree["projects"][1]["pieces"] = [{"id": "A", "name": "mat", "paper": "kelp", "size": ["3", "3"]}]
    tree["projects"][1]["steps"] = [
        {"id": "one", "text": "Cut {A}.", "cut": ["A"], "after": ["box/glue"]},
        {"id": "two", "text": "Look at it.", "after": ["one", "box/glue"]},
    ]
    new = copy_of(read_kit_tree(tree), projects=("tag",))
    assert [one.id for one in new.projects] == ["tag"]
    assert [step.after for step in new.projects[0].steps] == [None, ("one",)]


def test_what_is_said_of_the_whole_kit_stays_behind_and_what_is_said_of_its_things_comes_along():
    tree = box(x_story="A wet May.", printed={"in": "1/8"})
    tree["tools"][0]["x_maker"] = "unknown"
    new = copy_of(read_kit_tree(tree), lists=("tools",))
    assert new.carried == {}
    assert new.tools[0].carried == {"x_maker": "unknown"}
    assert new.printed.in_.text("in") == "1/8"


def test_a_pad_comes_with_the_first_of_its_papers_and_once_only():
    papers = [{"id": name, "name": name, "pad": "shore", "sheets": 1, "front": {"name": name}} for name in ("a", "b")]
    source = kit_of(papers=papers, projects=[], accepted=[])
    into = kit_of(pads=[], papers=[], projects=[], accepted=[])
    things = brought(into, source, ["paper:a", "paper:b", "pad:shore"])
    assert [place for place, _ in things] == ["pad:shore", "paper:a", "paper:b"]


@pytest.mark.parametrize(
    ("there", "becomes"),
    [
        pytest.param([], "knife", id="free"),
        pytest.param(["KNIFE"], "knife-2", id="taken, in other capitals"),
        pytest.param(["knife", "knife-2"], "knife-3", id="taken twice"),
    ],
)
def test_an_id_that_is_taken_becomes_a_free_one(there, becomes):
    into = kit_of(tools=[{"id": id_, "kind": "knife"} for id_ in there], projects=[], accepted=[])
    ((place, thing),) = brought(into, kit_of(), ["tool:knife"])
    assert (place, thing["id"], thing["kind"]) == (f"tool:{becomes}", becomes, "knife")


def test_items_of_the_catalogue_get_ids_from_their_names():
    items: list[tuple[str, str, dict[str, Any]]] = [
        ("paper", "Kraft card", {"size": ["12 in", "12 in"]}),
        ("tool", "knife", {"kind": "knife"}),
    ]
    things = brought_items(kit_of(), items)
    assert things == [
        ("paper:kraft-card", {"size": ["12 in", "12 in"], "id": "kraft-card", "name": "Kraft card", "sheets": 1}),
        ("tool:knife-2", {"kind": "knife", "id": "knife-2", "name": "knife"}),
    ]


@pytest.mark.parametrize(
    ("title", "id_"),
    [
        pytest.param("Cut guide", "cut-guide-2", id="a name that the sheets need"),
        pytest.param("Kästchen", "k-stchen", id="letters that no id has"),
        pytest.param("…", "thing", id="no letter at all"),
    ],
)
def test_every_name_of_a_project_makes_an_id(title, id_):
    month = Month("2027-09", "Reed", "mm", "200", "200", listed_prints("Reed\nReeds / Rush"), 2, title)
    kit = read_kit_tree(month.document())
    assert [one.id for one in kit.projects] == [id_]
    assert [(one.id, one.front.name) for one in kit.papers] == [("reed", "Reed"), ("reeds", "Reeds")]
    assert kit.tools[0].step is not None
    assert kit.tools[0].step.text("mm") == "1"
