"""What is asked of each print: sizes, copies over the whole kit, turns, windows, and the key of it all.

Expected values are worked by hand from the sentences of the contract beside them; 1 mm is 320 ticks.
"""

from __future__ import annotations

import pytest

from layouts.document import Kit
from layouts.document.values import Each, ReadingContext
from layouts.proofing.prints import CutOutLoop, KeptWindow, papers_of, print_parts
from layouts.shapes import MOST_PARTS
from tests.unit.proofing.small_prints import MM, ONE_WAY, kit_of, paper, part_of, piece, project, wants_of, window


@pytest.mark.parametrize(
    ("reference", "makes", "count", "expected"),
    [
        pytest.param(None, 2, 3, {}, id="no paper yet"),
        pytest.param("oak", 1, 1, {"oak": [1]}, id="one"),
        pytest.param("oak", 2, 3, {"oak": [1, 2, 3, 4, 5, 6]}, id="3 for each of 2 alike copies of the project"),
        pytest.param(
            Each(each=("oak", "ash", "elm")),
            3,
            2,
            {"oak": [1, 2], "ash": [3, 4], "elm": [5, 6]},
            id="each: one copy of the project from each print",
        ),
    ],
)
def test_copies_count_from_1_over_the_whole_kit(reference, makes, count, expected):
    assert {paper: list(copies) for paper, copies in papers_of(reference, makes, count).items()} == expected


def test_a_hundred_million_copies_take_no_room():
    kit = kit_of(project(piece("A", "10", "10", count=10_000), makes=10_000))

    (want,) = part_of(kit).wants

    assert want.copies == range(1, 100_000_001)


HOST = {"windows": [window("w", "20", "10")]}


@pytest.mark.parametrize(
    ("host_makes", "host_count", "guest_makes", "guest_count", "oak", "ash"),
    [
        # In one project every copy takes its picture from its own print.
        pytest.param(2, 1, None, 1, [1], [2], id="one project, one each"),
        pytest.param(2, 2, None, 1, [1], [2], id="one project, two cut-outs for one picture"),
        pytest.param(2, 1, None, 3, [1, 2, 3], [4, 5, 6], id="one project, three pictures from each cut-out"),
        # Another project has no copy of its own in a print: in order and in proportion to the cut-outs.
        pytest.param(2, 1, 1, 1, [1], [], id="another project, one picture: the first print"),
        pytest.param(2, 1, 1, 3, [1, 2], [3], id="another project, three pictures"),
        pytest.param(2, 1, 2, 1, [1], [2], id="another project, two copies"),
    ],
)
def test_pieces_from_cut_outs_are_shared_out_among_the_prints_of_their_hosts(
    host_makes, host_count, guest_makes, guest_count, oak, ash
):
    host = {**piece("H", "40", "30", count=host_count, **HOST), "paper": {"each": ["oak", "ash"]}}
    guest = piece("G", "10", "10", count=guest_count, **{"from": "p/H/w"})
    if guest_makes is None:
        projects = [project(host, guest, makes=host_makes)]
    else:
        projects = [project(host, makes=host_makes), project(guest, id_="q", makes=guest_makes)]
    kit = kit_of(*projects, papers=[paper("oak"), paper("ash")])

    def copies(paper_id: str) -> list[int]:
        wants = part_of(kit, paper_id).wants
        return [copy for want in wants if want.place.endswith("piece:G") for copy in want.copies]

    assert (copies("oak"), copies("ash")) == (oak, ash)


def test_a_piece_is_asked_of_the_print_that_its_outermost_piece_is_cut_from():
    inner = piece("I", "10", "5", **{"from": "q/G/v"})
    guest = piece("G", "20", "10", windows=[window("v", "12", "6")], **{"from": "p/H/w"})
    host = piece("H", "40", "30", **HOST)
    # The innermost stands first in the document and last in what is asked: hosts come before what comes out of them.
    kit = kit_of(project(inner, guest, id_="q"), project(host), papers=[paper("oak"), paper("ash")])

    assert [(want.place, want.host) for want in part_of(kit).wants] == [
        ("project:p/piece:H", None),
        ("project:q/piece:G", ("project:p/piece:H", "w")),
        ("project:q/piece:I", ("project:q/piece:G", "v")),
    ]
    assert [want.place for want in part_of(kit).direct] == ["project:p/piece:H"]
    assert part_of(kit, "ash").wants == ()


def test_what_comes_out_of_a_piece_without_paper_is_asked_of_no_print():
    host = {"id": "H", "name": "H", "size": ["40", "30"], **HOST}

    assert part_of(kit_of(project(host, piece("G", "10", "10", **{"from": "p/H/w"})))).wants == ()


def test_a_loop_of_cut_outs_ends_in_an_error():
    # The reader refuses such a document, so it is put together here without it.
    first = piece("A", "40", "30", windows=[window("w", "20", "10")], **{"from": "p/B/w"})
    second = piece("B", "40", "30", windows=[window("w", "20", "10")], **{"from": "p/A/w"})
    head = {"format": "kitproof/1", "code": "k", "title": "Loop", "unit": "mm", "papers": [paper()]}
    kit = Kit.model_validate({**head, "projects": [project(first, second)]}, context=ReadingContext("mm", {}))

    with pytest.raises(CutOutLoop, match="piece:A"):
        print_parts(kit)


@pytest.mark.parametrize(
    ("more", "expected"),
    [
        pytest.param({}, KeptWindow("w", 20 * MM, 10 * MM), id="a rectangle offers itself"),
        pytest.param({"cut_out": "waste"}, KeptWindow("w", 0, 0), id="waste offers nothing"),
        # 20 mm / √2 = 4525.48… ticks, 10 mm / √2 = 2262.74… ticks, rounded down.
        pytest.param({"shape": {"kind": "ellipse"}}, KeptWindow("w", 4525, 2262), id="an ellipse offers less"),
    ],
)
def test_a_window_that_feeds_a_piece_offers_what_comes_out_of_it(more, expected):
    unasked = window("v", "5", "5", left="30")
    host = piece("H", "40", "30", windows=[window("w", "20", "10", **more), unasked])
    kit = kit_of(project(host, piece("G", "5", "5", **{"from": "p/H/w"})))

    assert wants_of(kit)["piece:H"].windows == (expected,)


def test_a_finished_size_is_cut_larger_by_what_the_tool_bites():
    wave = {"id": "wave", "kind": "decorative", "bite": "3"}
    kit = kit_of(
        project(piece("A", "40", "20", size_is="finished", edges={"top": "wave", "left": "wave"})), tools=[wave]
    )

    want = wants_of(kit)["piece:A"]

    assert (want.width, want.height) == (43 * MM, 23 * MM)


def test_turns_are_those_in_which_the_print_reads_as_asked():
    kit = kit_of(
        project(
            piece("A", "40", "20"), piece("B", "40", "20", print_reads="left"), piece("C", "40", "20", side="back")
        ),
        papers=[paper(front=ONE_WAY, back={"name": "B", "reads": "left", "repeat": "two-way"})],
    )

    turns = {place: want.turns for place, want in wants_of(kit).items()}

    assert turns == {
        "piece:A": ((0, "front"),),
        "piece:B": ((270, "front"),),  # up 0 less left 90 is -90
        "piece:C": ((90, "back"), (270, "back")),  # left 90 less up 0, and half a turn more
    }


FRAME = {"id": "f", "name": "frame", "as": "frame", "paper": "oak", "opening": ["30", "20"], "width": "5"}
TAG = {"id": "t", "name": "tag", "as": "tag", "paper": "oak", "size": ["30", "20"]}


def test_flat_parts_are_cut_like_pieces_each_with_the_copies_of_its_form():
    kit = kit_of(project(makes=2, forms=[TAG, {**FRAME, "count": 3}]))

    wants = wants_of(kit)

    # Mitred: each opening side and twice the width.
    assert {place: (want.width // MM, want.height // MM) for place, want in wants.items()} == {
        "form:t": (30, 20),
        "form:f/part:1": (40, 5),
        "form:f/part:2": (40, 5),
        "form:f/part:3": (5, 30),
        "form:f/part:4": (5, 30),
    }
    assert wants["form:t"].copies == range(1, 3)
    assert all(wants[f"form:f/part:{part}"].copies == range(1, 7) for part in (1, 2, 3, 4))


def test_a_form_that_cannot_be_worked_out_is_told_and_the_rest_is_asked():
    box = {"id": "box", "name": "box", "count": 1, "faces": []}
    lid = {"id": "l", "name": "lid", "as": "lid", "paper": "oak", "fits": {"blank": "box"}, "depth": "10"}
    kit = kit_of(project(forms=[lid, TAG]), blanks=[box])

    part = part_of(kit)

    assert [want.place for want in part.wants] == ["project:p/form:t"]
    assert len(part.not_built) == 1
    assert part.not_built[0].startswith("project:p/form:l: ")


def test_more_flat_parts_than_anybody_cuts_are_not_worked_out():
    # 10 mm panels, and of 12 mm of paper 10 carry a panel: as many strips as panels.
    strip = {"as": "concertina", "name": "strip", "paper": "oak", "panel": ["10", "5"], "panels": 9_000, "join": "1"}
    forms = [{**strip, "id": f"s{n}"} for n in range(3)]
    kit = kit_of(project(forms=forms), papers=[paper("oak", "12", "12")])

    part = part_of(kit)

    assert len(part.wants) == 18_000 <= MOST_PARTS
    assert [reason.partition(": ")[0] for reason in part.not_built] == ["project:p/form:s2"]


def _key(paper_id: str = "oak", *, makes: int = 1, slack: str = "0", step: str = "1", **changed) -> str:
    """The key of a print from which one piece is cut, once each for two papers of different names."""
    one = {**piece("A", "40", "20"), "paper": paper_id}
    printed = {"mm": step}
    kit = kit_of(
        project(one | changed.pop("piece", {}), makes=makes),
        project({**piece("Z", "7", "7"), "paper": "other"} | changed.pop("elsewhere", {}), id_="q"),
        papers=[paper(paper_id) | changed.pop("paper", {}), paper("other")],
        cutting={"slack": slack},
        printed=printed,
        **changed,
    )
    return part_of(kit, paper_id).key


@pytest.mark.parametrize(
    "changed",
    [
        pytest.param({"paper_id": "ash"}, id="the paper's id"),
        pytest.param({"paper": {"name": "Other", "grammage": 120}}, id="its name and weight"),
        pytest.param({"piece": {"name": "other"}}, id="a piece's name"),
        pytest.param({"elsewhere": {"size": ["9", "9"]}}, id="a piece of another print"),
        pytest.param({"title": "Other"}, id="the kit's title"),
    ],
)
def test_a_key_stays_when_something_changes_that_decides_nothing(changed):
    assert _key(**changed) == _key()


@pytest.mark.parametrize(
    "changed",
    [
        pytest.param({"slack": "1"}, id="slack"),
        pytest.param({"step": "2"}, id="printed step, by which dead fits are judged"),
        pytest.param({"makes": 2}, id="copies"),
        pytest.param({"paper": {"sheets": 2}}, id="sheets"),
        pytest.param({"paper": {"undersize": "1"}}, id="undersize"),
        pytest.param({"paper": {"spoilt": {"left": "1"}}}, id="margin"),
        pytest.param({"paper": {"front": ONE_WAY}}, id="print direction"),
        pytest.param({"piece": {"size": ["40", "21"]}}, id="size"),
        pytest.param({"piece": {"id": "B"}}, id="place"),
    ],
)
def test_a_key_changes_with_whatever_decides_the_answer(changed):
    assert _key(**changed) != _key()
