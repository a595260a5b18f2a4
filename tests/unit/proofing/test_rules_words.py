"""Letters and names of prints in the text of steps: which name nothing in the kit, and which are only words.

Every text is common prose of instructions, written for these tests; what is silent was chosen by common practice, no
source.
"""

from __future__ import annotations

from typing import Any

import pytest

from layouts.assembly import steps_of
from layouts.document import Kit
from layouts.proofing.findings import Finding
from layouts.proofing.rules import words
from layouts.proofing.runner import faults_without_plans
from tests.unit.assembly.small_kits import kit_of, project, step

_PAPERS = [
    {
        "id": "trellis",
        "name": "Trellis",
        "size": ["12", "12"],
        "sheets": 1,
        "front": {"name": "Trellis"},
        "back": {"name": "Bean rows"},
    },
]
_PADS = [{"id": "shed", "name": "Shed pad", "size": ["12", "12"]}]
_BLANKS = [{"id": "chest", "name": "open chest"}]
_PIECES = {"A": "front panel", "B": "rear panel", "F": "long strip", "T": "half rail"}


def _piece(id_: str, name: str) -> dict[str, Any]:
    return {"id": id_, "name": name, "size": ["4", "3"]}


def _kit(*texts: str, pieces: dict[str, str] | None = None, **members: Any) -> Kit:
    made = [_piece(*one) for one in (_PIECES if pieces is None else pieces).items()]
    shelf = project("shelf", pieces=made, steps=[step(f"s{at}", text) for at, text in enumerate(texts, start=1)])
    lists: dict[str, Any] = {"papers": _PAPERS, "pads": _PADS, "blanks": _BLANKS, **members}
    return kit_of(shelf, project("tray", pieces=[_piece("M", "lining")]), **lists)


def _findings(kit: Kit) -> list[Finding]:
    return list(words.findings(kit, steps_of(kit)))


def _names(*texts: str, **members: Any) -> list[str]:
    return [str(one.why["name"]) for one in _findings(_kit(*texts, **members))]


@pytest.mark.parametrize(
    ("text", "names"),
    [
        pytest.param("Cut Q.", ["Q"], id="an order and a letter"),
        pytest.param("Cut Q and glue it to {A}.", ["Q"], id="the sentence goes on"),
        pytest.param("Now carefully trim Q to the line.", ["Q"], id="an adverb before the order"),
        pytest.param("Fold it over, then glue Q to the wall.", ["Q"], id="the second order of a sentence"),
        pytest.param("Cut A, B and Q.", ["Q"], id="the last of a list"),
        pytest.param("Cut P, A and Q.", ["P", "Q"], id="two of a list"),
        pytest.param("Cut {A}, {B} and Q.", ["Q"], id="the last of a list of references"),
        pytest.param("Stand {A} and Q on the table.", ["Q"], id="beside a reference, whatever the order"),
        pytest.param("Glue {A} to Q.", ["Q"], id="what a piece is glued to"),
        pytest.param("Glue A onto Q, flush with the foot.", ["Q"], id="what a letter is glued to"),
        pytest.param("Trim the lid and glue it to Q.", ["Q"], id="what it is glued to"),
        pytest.param("Glue the rest of Q on.", ["Q"], id="the rest of it"),
        pytest.param("Cut Q and draw a circle, or write on it.", ["Q"], id="drawing comes after it"),
        pytest.param("Put a bead in the middle of Q.", ["Q"], id="a part of it"),
        pytest.param("Lay piece Q aside.", ["Q"], id="a piece by its letter"),
        pytest.param("The strips Q and A meet at the foot.", ["Q"], id="the noun of the pieces, and a letter"),
        pytest.param("The long strip (Q) goes on last.", ["Q"], id="a letter in brackets after the noun"),
        pytest.param("Cut Q. Glue Q to {A}.", ["Q"], id="told once a step"),
    ],
)
def test_a_letter_that_stands_like_a_piece_must_be_one(text, names):
    assert _names(text) == names


@pytest.mark.parametrize(
    "text",
    [
        pytest.param("Cut A, B and F, then glue A to B.", id="letters of pieces"),
        pytest.param("Keep what comes out: cut M from it.", id="a letter of another project"),
        pytest.param("I cut mine by hand. So did I.", id="the person"),
        pytest.param("A strip hides the join.", id="an article at the start"),
        pytest.param("Cut A4 paper, mind D4236 on the label.", id="letters with digits"),
        pytest.param("Cut T-shirt card and glue U-shaped strips.", id="letters with a hyphen"),
        pytest.param("Fold Z-fashion, then V–wise.", id="a manner of folding"),
        pytest.param("Cut V notches along the edge.", id="a shape"),
        pytest.param("Cut V, C and U notches along the edge.", id="shapes in a list"),
        pytest.param("Follow plan Q. Plan Q is slower.", id="a plan"),
        pytest.param("Glue vitamin C and E to the label.", id="vitamins"),
        pytest.param("Cut out C and D cells from their packing.", id="sizes of cells"),
        pytest.param("Tape two C batteries inside.", id="sizes of batteries"),
        pytest.param("Written by J. K. Quill, of Q. and sons.", id="initials"),
        pytest.param("Glue part V behind part X.", id="Roman numerals"),
        pytest.param("Cut chapters V and X.", id="Roman numerals of chapters"),
        pytest.param("Sing it in the key of C.", id="a key"),
        pytest.param("An X on the back shows the top.", id="a letter with its article"),
        pytest.param("Mark the middle Q, and glue Q to the foot.", id="a mark of one's own"),
        pytest.param("Draw a point two thirds up the left edge (Q). Glue Q down.", id="a point of one's own"),
        pytest.param("Q marks the middle. Glue Q down.", id="what it marks"),
        pytest.param("Fold P to Q and crease.", id="points of a folding"),
        pytest.param("Fold tab P into slot Q. Glue P to Q.", id="tabs and slots"),
        pytest.param("Fold along the line Q. The middle of Q is the top.", id="a line"),
        pytest.param("Glue the letters from N to Z on the lid.", id="the alphabet"),
        pytest.param("Glue “Q” to the lid.", id="in quotation marks"),
        pytest.param("Cut {{Q}}.", id="braces that are printed"),
        pytest.param("CUT Q. GLUE Q TO THE LID.", id="a line in capitals"),
        pytest.param("The cut Q makes is clean.", id="no order"),
        pytest.param("Trim Q's corners.", id="the possessive of what may be a person"),
        pytest.param("Cut R&D notes away, and Q/P as well.", id="letters with signs"),
        pytest.param("Paint the lid, see Q below.", id="no order and no noun"),
        pytest.param("{A.width} and Q", id="beside a measure"),
    ],
)
def test_a_letter_that_may_be_a_word_is_no_piece(text):
    assert _names(text) == []


def test_a_label_stays_one_in_later_steps():
    assert _names("Call the middle Q.", "Glue Q to {A}.") == []
    assert _names("Find the middle.", "Glue Q to {A}.") == ["Q"]


def test_letters_are_pieces_only_where_pieces_have_letters():
    assert _names("Cut Q.", pieces={"front": "front panel", "a": "rear panel"}) == []
    assert _names("Cut Q.", pieces={"front": "front panel", "B": "rear panel"}) == ["Q"]


@pytest.mark.parametrize(
    "members",
    [
        pytest.param({"blanks": [{"id": "Q", "name": "block"}]}, id="the id of a blank"),
        pytest.param({"blanks": [{"id": "block", "name": "block Q"}]}, id="a word of its name"),
        pytest.param({"tools": [{"id": "q", "kind": "knife"}]}, id="an id in lower case"),
    ],
)
def test_whatever_in_the_kit_has_a_letter_may_be_meant(members):
    assert _names("Cut Q.", **members) == []


@pytest.mark.parametrize(
    ("text", "names"),
    [
        pytest.param("Cut {A} from the Meadow paper.", ["Meadow"], id="the paper of that name"),
        pytest.param("The Meadow print goes on the lid.", ["Meadow"], id="at the start of a sentence"),
        pytest.param("Cut {A} from Meadow paper, upright.", ["Meadow"], id="without an article"),
        pytest.param("Cut {A} from the Blue Meadow paper.", [], id="a colour: it may be any paper"),
        pytest.param("Cut {A} from the Hay Meadow paper.", ["Hay Meadow"], id="two words"),
        pytest.param("Cut it from the print Meadow.", ["Meadow"], id="the name after the noun"),
        pytest.param("Cut it from the Meadow pad.", ["Meadow"], id="a pad, as this kit calls one"),
        pytest.param("The Meadow paper, then more of the Meadow paper.", ["Meadow"], id="told once a step"),
    ],
)
def test_a_name_said_to_be_of_a_print_must_be_in_the_kit(text, names):
    found = _findings(_kit(text))

    assert [(one.why["name"], one.why["of"]) for one in found] == [(name, "print") for name in names]


@pytest.mark.parametrize(
    "text",
    [
        pytest.param("Cut it from the Trellis paper.", id="a paper"),
        pytest.param("Use the Bean paper and the Rows print.", id="words of a side"),
        pytest.param("Use the Beanrows paper.", id="a side written as one word"),
        pytest.param("Cut it from the Shed pad.", id="a pad"),
        pytest.param("Keep the Chest paper for later.", id="a blank"),
        pytest.param("Back it with the Kraft paper.", id="a kind of paper"),
        pytest.param("Back it with Japanese paper, or with the Florentine paper.", id="where it is from"),
        pytest.param("Wrap it in the Christmas paper.", id="a time of the year"),
        pytest.param("Meadow paper is thin.", id="a word that has its capital from the sentence"),
        pytest.param("Use the Meadow paper trimmer.", id="a tool"),
        pytest.param("Use the Meadow sheet.", id="a sheet, which may be of rubber"),
        pytest.param("Print the A4 paper twice, and the PVC print.", id="no name"),
        pytest.param("Wrap it in Grandma's paper.", id="whose it is"),
        pytest.param("Use the paper Grandma chose.", id="a person after the noun"),
        pytest.param("Use the paper. Grandma, too.", id="another sentence"),
        pytest.param("USE THE MEADOW PAPER.", id="a line in capitals"),
    ],
)
def test_a_capital_beside_paper_may_be_no_print(text):
    assert _names(text) == []


def test_prints_without_capitals_cannot_be_told_from_words():
    papers = [{**_PAPERS[0], "front": {"name": "trellis"}, "back": {"name": "rows"}}]

    assert _names("Cut it from the Meadow paper.", papers=papers) == []


def test_the_message_says_where_what_and_what_to_do():
    letter, name = _findings(_kit("Glue {A} to Q. Cut {B} from the Meadow paper."))

    assert (letter.rule, letter.weight, letter.at) == ("name-in-text-unknown", "fix", ("project:shelf/step:s1",))
    assert letter.why == {"name": "Q", "said": "Glue {A} to Q", "of": "piece"}
    assert "Step s1 of “Shelf” says “Glue {A} to Q”" in letter.message
    assert "in braces" in letter.message
    assert name.why == {"name": "Meadow", "said": "Meadow paper", "of": "print"}
    assert "no paper, side or pad of this kit is called Meadow" in name.message


def test_a_kit_with_such_a_letter_is_not_ready_before_any_plan_is_known():
    assert ("name-in-text-unknown", ("project:shelf/step:s1",)) in faults_without_plans(_kit("Cut Q."))


def test_of_very_many_only_the_first_are_told():
    assert len(_names(*["Cut Q, from the Meadow paper."] * 500)) == 200
