"""Parts that the team keeps: what comes with a thing, and what becomes of its names in another kit."""

from __future__ import annotations

import json
from typing import Any

import pytest

from kits.members.models import Role
from kits.planning.documents import build, build_bytes
from kits.planning.errors import NameTaken, NoName, NotAllowed, RevisionMoved
from kits.planning.models import Draft, Part
from kits.planning.services import draft_undo, kit_create, part_forget, part_keep, part_use, thing_remove
from layouts.document import UnknownPlace, plain_at
from tests.services.planning_cast import A, drafted, ines, person

pytestmark = pytest.mark.django_db

LID = "project:box/form:lid"


@pytest.fixture
def by():
    return ines()


@pytest.fixture
def new(by) -> Draft:
    """A kit in millimetres in which A and K are taken, with two prints."""
    month: dict[str, Any] = {
        "format": "kitproof/1",
        "code": "2027-08",
        "title": "The Reed Bed",
        "unit": "mm",
        "papers": [
            {"id": "reed", "name": "Reed", "size": ["200", "200"], "sheets": 2, "front": {"name": "Reed"}},
            {"id": "kelp", "name": "Rush", "size": ["200", "200"], "sheets": 2, "front": {"name": "Rush"}},
        ],
        "tools": [{"id": "zigzag", "kind": "decorative"}],
        "projects": [
            {
                "id": "nest",
                "title": "Nest",
                "pieces": [
                    {"id": "A", "name": "base", "paper": "reed", "size": ["50", "50"]},
                    {"id": "K", "name": "wall", "paper": "reed", "size": ["50", "50"]},
                ],
            }
        ],
    }
    return kit_create(document=json.dumps(month).encode(), by=by)


def kept(draft: Draft, place: str, by, name: str = "the lid of May") -> Part:
    return part_keep(draft=draft, place=place, name=name, note=" It closed well. ", by=by)


def ids(part: Part) -> dict[str, list[str]]:
    """What a part holds, by its lists."""
    kit = part.fragment.kit
    (project,) = kit.projects
    holds: dict[str, Any] = {
        "papers": kit.papers,
        "embellishments": kit.embellishments,
        "blanks": kit.blanks,
        "tools": kit.tools,
        "pieces": project.pieces,
        "forms": project.forms,
        "placements": project.placements,
    }
    return {name: [one.id for one in things] for name, things in holds.items() if things}


@pytest.mark.parametrize(
    ("place", "holds"),
    [
        pytest.param(
            A,
            {
                "papers": ["kelp"],
                "embellishments": ["box"],
                "tools": ["wave"],
                "pieces": ["A"],
                "placements": ["shell"],
            },
            id="a piece with its edge and what lies on it, not what mirrors it",
        ),
        pytest.param(
            LID,
            {"papers": ["slate"], "blanks": ["lid"], "pieces": ["B"], "forms": ["lid"], "placements": ["rear"]},
            id="a folded part with what it fits over, not what lies on that",
        ),
        pytest.param(
            "blank:lid",
            {
                "papers": ["kelp"],
                "embellishments": ["box"],
                "blanks": ["lid"],
                "tools": ["wave"],
                "pieces": ["A"],
                "placements": ["A", "shell"],
            },
            id="a blank with what lies on it, and on that",
        ),
        pytest.param(
            "project:tag/piece:H",
            {"pieces": ["H"]},
            id="a piece from another project's window needs paper of its own",
        ),
    ],
)
def test_a_part_holds_a_thing_and_what_that_needs(by, place, holds):
    assert ids(kept(drafted(by), place, by)) == holds


def test_a_part_knows_where_it_came_from_and_writes_every_unit(by):
    draft = drafted(by)
    part = kept(draft, LID, by)
    assert (part.name, part.note, part.kind) == ("the lid of May", "It closed well.", "form")
    assert (part.kit, part.revision, part.by, part.place) == (draft.kit, 1, by, "project:part/form:lid")
    assert part.document["projects"][0]["forms"][0]["depth"] == "1 in"
    assert part.document["projects"][0]["pieces"][0]["size"] == ["6 in", "4 in"]
    assert "mirror_of" not in part.document["projects"][0]["pieces"][0]


def test_a_kept_part_does_not_change_with_its_kit(by):
    draft = drafted(by)
    part = kept(draft, A, by)
    thing_remove(draft=draft, place=A, with_mentions=True, revision=1, by=by)
    part.refresh_from_db()
    assert ids(part)["pieces"] == ["A"]


def test_a_part_comes_with_free_ids_and_its_names_follow(by, new):
    part = kept(drafted(by), A, by)
    called = part_use(part=part, draft=new, project="nest", prints={"kelp": "reed"}, revision=1, by=by)
    assert called["project:part/piece:A"] == "project:nest/piece:B"
    kit = build(new)
    piece = kit.projects[0].pieces[-1]
    assert (piece.id, piece.paper, piece.size.width.text("mm"), piece.edges.top) == ("B", "reed", "6 in", "zigzag")
    assert [(one.id, one.put.element, one.on.piece) for one in kit.projects[0].placements] == [
        ("shell", "box/limpet", "B")
    ]
    assert [one.id for one in kit.papers] == ["reed", "kelp"]
    assert [one.id for one in kit.embellishments] == ["box"]


def test_a_print_that_no_other_stands_for_comes_along(by, new):
    part = kept(drafted(by), A, by)
    part_use(part=part, draft=new, project="nest", prints={}, revision=1, by=by)
    kit = build(new)
    assert [(one.id, one.name, one.pad) for one in kit.papers[2:]] == [("kelp-2", "Kelp", "shore")]
    assert kit.projects[0].pieces[-1].paper == "kelp-2"


def test_a_lid_fits_over_the_blank_that_the_kit_has_already(by, new):
    part = kept(drafted(by), LID, by)
    part_use(part=part, draft=new, project="nest", prints={"slate": "reed"}, revision=1, by=by)
    called = part_use(part=part, draft=new, project="nest", prints={"slate": "kelp"}, revision=2, by=by)
    kit = build(new)
    assert [one.id for one in kit.blanks] == ["lid"]
    forms = [plain_at(kit, f"project:nest/form:{one.id}") for one in kit.projects[0].forms]
    assert [(one["id"], one["paper"], one["fits"]) for one in forms] == [
        ("lid", "reed", {"blank": "lid"}),
        ("lid-2", "kelp", {"blank": "lid"}),
    ]
    assert [(one.id, one.put.piece, one.on.form) for one in kit.projects[0].placements] == [
        ("rear", "B", "lid"),
        ("rear-2", "C", "lid-2"),
    ]
    assert called["project:part/placement:rear"] == "project:nest/placement:rear-2"


def test_a_part_is_one_change_that_can_be_taken_back(by, new):
    before = build_bytes(new)
    part_use(part=kept(drafted(by), A, by), draft=new, project="nest", prints={}, revision=1, by=by)
    assert draft_undo(draft=new, revision=2, by=by).revision == 3
    assert build_bytes(new) == before


def test_one_copy_from_each_print_needs_as_many_prints_as_copies(by, new):
    part = kept(drafted(by), "project:tag/piece:A", by)
    part_use(part=part, draft=new, project="nest", prints={"slate": "reed", "kelp": "kelp"}, revision=1, by=by)
    assert build(new).projects[0].pieces[-1].paper == "kelp"


def test_a_part_is_not_used_where_somebody_was_quicker_or_in_no_project(by, new):
    part = kept(drafted(by), A, by)
    with pytest.raises(UnknownPlace):
        part_use(part=part, draft=new, project="box", prints={}, revision=1, by=by)
    part_use(part=part, draft=new, project="nest", prints={}, revision=1, by=by)
    with pytest.raises(RevisionMoved):
        part_use(part=part, draft=new, project="nest", prints={}, revision=1, by=by)


@pytest.mark.parametrize("place", ["paper:kelp", "project:box", "project:box/step:cut", f"{A}/window:pane", "blank:x"])
def test_nothing_else_is_kept(by, place):
    with pytest.raises(UnknownPlace):
        kept(drafted(by), place, by)


def test_a_part_has_a_name_of_its_own(by):
    draft = drafted(by)
    kept(draft, LID, by, "Lid")
    with pytest.raises(NameTaken):
        kept(draft, A, by, " LID ")
    with pytest.raises(NoName):
        kept(draft, A, by, "  ")
    assert Part.objects.count() == 1


def test_only_planners_keep_use_and_forget_parts(by, new):
    editor = person("Runa Holm", Role.EDITOR)
    part = kept(drafted(by), A, by)
    with pytest.raises(NotAllowed):
        kept(new, "project:nest/piece:A", editor, "base")
    with pytest.raises(NotAllowed):
        part_use(part=part, draft=new, project="nest", prints={}, revision=1, by=editor)
    with pytest.raises(NotAllowed):
        part_forget(part=part, by=editor)
    part_forget(part=part, by=by)
    assert not Part.objects.exists()
