"""The report: what a person reads on a terminal, for good, short, unknown and hostile documents."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest

import kits
from layouts.cutting import Answer
from layouts.document import DocumentError, Kit, read_kit
from layouts.proofing import prove, prove_at_once, refusal_report, report
from layouts.proofing.plans import plan_print
from layouts.proofing.prints import print_parts
from layouts.proofing.report.picture import leaves_of, sheet_picture
from tests.reference.kit_maker import made_kit
from tests.unit.proofing.small_prints import Tree, decided, kit_of, paper, piece, project, window

EXAMPLES = sorted((Path(kits.__path__[0]) / "examples").glob("*.json"))


def _told(kit: Kit, solve=decided) -> str:
    return report(kit, prove(kit, [plan_print(part, solve) for part in print_parts(kit)]))


def _used(*pieces: Tree, **more: Any) -> Tree:
    """A project with a step that cuts and uses all its pieces."""
    letters = [one["id"] for one in pieces]
    use = [{"piece": letter} for letter in letters]
    return project(*pieces, steps=[{"id": "s", "text": "", "cut": letters, "use": use, "work": "5 min"}], **more)


def _badly_set(text: str) -> list[str]:
    """Lines that are too long, unless they are one word, or end in spaces."""
    return [
        line
        for line in text.splitlines()
        if line != line.rstrip() or (len(line) > 88 and len(line.split()) > 1) or not line.isprintable()
    ]


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda path: path.stem)
def test_the_reports_of_the_examples_are_set_within_their_width(example):
    kit = read_kit(example.read_bytes())
    proof = prove_at_once(kit)

    text = report(kit, proof)

    assert _badly_set(text) == []
    assert f"document {proof['document'][:8]}" in text
    assert all(finding["rule"] in text for finding in proof["findings"])


@pytest.mark.parametrize("seeds", [range(n, n + 20) for n in (0, 20, 40)], ids=lambda seeds: f"from {seeds.start}")
def test_the_reports_of_made_kits_are_set_within_their_width(seeds):
    made = [read_kit(json.dumps(made_kit(seed)).encode()) for seed in seeds]

    assert [_badly_set(report(kit, prove_at_once(kit))) for kit in made] == [[]] * len(made)


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda path: path.stem)
def test_every_piece_of_a_plan_has_its_letter_in_the_picture(example):
    proof = prove_at_once(read_kit(example.read_bytes()))
    for sheet in (sheet for one in proof["papers"] for sheet in one["plan"]):
        places = [leaf["piece"] for leaf in leaves_of(sheet["tree"]) if "piece" in leaf]
        # One sign for each place that does not turn up in a frame, so that each can be counted.
        signs = dict(zip(dict.fromkeys(places), "abcdefghijklmnopqrstuvwxyz", strict=False))

        picture = "".join(sheet_picture(sheet["tree"], signs.__getitem__, 36))

        assert {sign: picture.count(sign) for sign in signs.values()} == {
            sign: places.count(place) for place, sign in signs.items()
        }


def _part(x: int, y: int, width: int, height: int, **what: Any) -> dict[str, Any]:
    return {"x": x, "y": y, "width": width, "height": height, **what}


def _piece(x: int, y: int, width: int, height: int, letter: str) -> dict[str, Any]:
    return _part(x, y, width, height, piece=letter, copy=1, turn=0)


def test_a_sheet_as_a_picture():
    # 40 x 40: A stands in the lower left, C above it in a strip, B lies on the right; the rest is left over.
    left = _part(
        0,
        0,
        20,
        40,
        cut={"along": "y", "at": 30},
        parts=[_piece(0, 0, 20, 30, "A"), _piece(0, 30, 20, 10, "C")],
    )
    right = _part(
        20,
        0,
        20,
        40,
        cut={"along": "y", "at": 20},
        parts=[_piece(20, 0, 20, 20, "long name"), _part(20, 20, 20, 20, offcut=True)],
    )
    tree = _part(0, 0, 40, 40, cut={"along": "x", "at": 20}, parts=[left, right])

    assert sheet_picture(tree, str, 21) == [
        "┌─────────┬─────────┐",
        "│ C       │ · · · · │",
        "├─────────┤ · · · · │",
        "│ A       │ · · · · │",
        "│         │ · · · · │",
        "│         ├─────────┤",
        "│         │long name│",
        "│         │         │",
        "│         │         │",
        "│         │         │",
        "└─────────┴─────────┘",
    ]


def test_strips_are_drawn_as_wide_as_their_letters_and_slack_as_one_line():
    # Two strips of 1 x 40 with 1 lost to each cut, and an offcut of 1: all narrower than a column of 2.
    rest = _part(
        36,
        0,
        4,
        40,
        cut={"along": "x", "at": 37},
        parts=[_piece(36, 0, 1, 40, "long"), _part(38, 0, 2, 40, offcut=True)],
    )
    tree = _part(0, 0, 40, 40, cut={"along": "x", "at": 35}, parts=[_piece(0, 0, 35, 40, "A"), rest])

    assert sheet_picture(tree, str, 21) == [
        "┌─────────────────┬─┐",
        "│ A               │l│",
        "│                 │o│",
        "│                 │n│",
        "│                 │g│",
        *["│                 │ │"] * 5,
        "└─────────────────┴─┘",
    ]


def test_strips_beside_each_other_each_have_room_for_a_letter():
    strips = _part(
        38, 0, 2, 40, cut={"along": "x", "at": 39}, parts=[_piece(38, 0, 1, 40, "b"), _piece(39, 0, 1, 40, "c")]
    )
    tree = _part(0, 0, 40, 40, cut={"along": "x", "at": 38}, parts=[_piece(0, 0, 38, 40, "a"), strips])

    assert sheet_picture(tree, str, 21)[:3] == [
        "┌───────────────┬─┬─┐",
        "│ a             │b│c│",
        "│               │ │ │",
    ]


@pytest.mark.parametrize(
    ("kit", "sentences"),
    [
        pytest.param(
            kit_of(_used(piece("A", "30", "20"))),
            ["█ READY. Every piece fits the paper in the box. Nothing to mend."],
            id="ready",
        ),
        pytest.param(
            kit_of(_used(piece("A", "60", "70", count=2))),
            [
                "▒ NOT READY. 1 of 1 paper is short. 1 thing to mend before it can go to print.",
                "Oak: SHORT. 1 sheet in the box, 2 or more needed, 2 would do (proof: area).",
            ],
            id="short",
        ),
        pytest.param(
            kit_of(
                _used(
                    piece("H", "60", "50", windows=[window("w", "20", "10")]),
                    piece("A", "21", "10", **{"from": "p/H/w"}),
                )
            ),
            [
                "▒ NOT READY. The sheets suffice, but not every piece comes out of something. 1 thing to",
                "mend before it can go to print.",
                "Oak: fits. 1 of 1 sheet touched, 37.5 % of the paper used.",
            ],
            id="a cut-out is too small",
        ),
        pytest.param(
            kit_of(_used(piece("A", "1", "1", count=10_000), piece("B", "1", "1")), papers=[paper(sheets=9)]),
            [
                "░ UNKNOWN. 1 of 1 paper is undecided. Nothing else to mend.",
                "Oak: UNKNOWN. 9 sheets in the box, 2 or more needed; no plan was found.",
            ],
            id="unknown",
        ),
        pytest.param(
            kit_of(_used(piece("A", "101", "20"))),
            ["Oak: SHORT. 1 sheet in the box, and no number would do: something lies"],
            id="too big",
        ),
        pytest.param(
            kit_of(project(), papers=[paper(sheets=3)]),
            ["Oak: nothing is cut from it (3 sheets in the box)."],
            id="unused",
        ),
        pytest.param(
            kit_of(project(), papers=[paper(sheets=3)]),
            ["Findings", "None.", "At work: none. Waiting: none."],
            id="empty",
        ),
    ],
)
def test_what_is_said(kit, sentences):
    text = _told(kit)

    assert [sentence for sentence in sentences if sentence not in text] == []
    assert _badly_set(text) == []


def test_an_undecided_print_shows_the_best_plan_there_is():
    def undecided(problem):
        two = decided(problem.__class__(problem.width, problem.height, 2, problem.items, problem.slack))
        return Answer("unknown", "budget", 1, 2, two.sheets)

    text = _told(kit_of(_used(piece("A", "50", "80", count=4))), undecided)

    assert "Oak: UNKNOWN. 1 sheet in the box, 1 or more needed; the best plan found takes 2, below." in text
    assert "Sheets 1 to 2, all alike" in text


def test_the_pieces_of_a_sheet_are_listed_as_they_are_seen():
    host = piece("H", "60", "50", windows=[window("w", "40", "20")])
    guest = piece("G", "20", "10", **{"from": "p/H/w"})
    strip = piece("S", "5", "70", side="back", count=2)
    kit = kit_of(_used(host, guest, strip), papers=[paper(back={"name": "B"})])

    text = _told(kit)

    # A single sheet has its pieces beside it: what is left when the picture is taken away.
    start = text.splitlines().index("Oak: fits. 1 of 1 sheet touched, 46.2 % of the paper used.") + 1
    listed = [line[46:] for line in text.splitlines()[start:] if line[46:]]
    assert listed[:6] == [
        "Sheet 1",
        "  H       60 × 50  piece H",
        "  G       20 × 10  piece G, from H’s",
        "                   cut-out w: KEEP it",
        "  S  2 of 5 × 70   piece S, back up,",
        "                   turned 90°",
    ]


def test_equal_sheets_are_shown_once():
    kit = kit_of(_used(piece("A", "60", "80", count=5), piece("B", "30", "30")), papers=[paper(sheets=9)])

    text = _told(kit)

    assert len(re.findall("^ *Sheets? ", text, re.MULTILINE)) <= 2
    assert re.search("Sheets [12] to [45], all alike", text)


def test_an_accepted_finding_is_marked_and_counted():
    kit = kit_of(_used(piece("A", "60", "70", count=2)))
    proof = prove(kit, [plan_print(part, decided) for part in print_parts(kit)])
    proof["verdict"] = "ready"
    proof["findings"][0]["accepted"] = True

    text = report(kit, proof)

    assert "Nothing to mend, 1 finding accepted." in text
    assert "paper-short (accepted) · paper:oak, project:p/piece:A" in text


def test_ideas_stand_below_their_paper():
    kit = kit_of(_used(piece("A", "60", "70")))
    proof = prove(kit, [plan_print(part, decided) for part in print_parts(kit)])
    proof["papers"][0]["ideas"] = [{"message": "Cut it out of a window."}, {"message": "Let it read any way."}]

    lines = report(kit, proof).splitlines()

    at = lines.index("  Idea: Cut it out of a window.")
    assert lines[at + 1] == "  Idea: Let it read any way."
    assert at < next(number for number, line in enumerate(lines) if line.startswith("Findings"))


def test_a_finding_names_three_places_at_most():
    text = _told(kit_of(_used(*[piece(letter, "60", "70") for letter in "ABCD"])))

    assert "paper-short · paper:oak, project:p/piece:A, project:p/piece:B …" in text


def test_the_order_says_why():
    host = piece("H", "60", "50", windows=[window("w", "40", "20")])
    picture = project(piece("A", "20", "10", **{"from": "chest/H/w"}), id_="picture")
    drying = {"id": "s", "text": "", "dry": "1 h", "after": []}
    kit = kit_of(picture, project(host, id_="chest", steps=[drying]), project(id_="board"))

    text = _told(kit)

    assert text[text.index("Order and time") :].splitlines()[1:] == [
        "  1  CHEST",
        "  2  PICTURE",
        "     after CHEST: A comes out of a window of it",
        "  3  BOARD",
        "At work: unknown (a step states no work). Waiting: 1 h.",
    ]


def test_projects_in_a_circle_have_no_order():
    first = project(id_="a", steps=[{"id": "s", "text": "", "after": ["b/s"]}])
    second = project(id_="b", steps=[{"id": "s", "text": "", "after": ["a/s"]}])

    assert "there is no order to make them in" in _told(kit_of(first, second))


HOSTILE = "one\ntwo\tthree \u202eknahc\u2028end \u00a0x"


def test_the_words_of_a_document_cannot_command_a_terminal():
    letters = "L" * 32
    pieces = [piece(letters, "60", "50") | {"name": HOSTILE}, piece("B", "30", "20") | {"name": "w" * 100}]
    oak = paper() | {"name": HOSTILE}
    kit = kit_of(_used(*pieces, id_="p") | {"title": "  "}, papers=[oak], title=HOSTILE * 4)

    text = _told(kit)

    assert _badly_set(text) == []
    assert "one two three \\u202eknahc end" in text
    assert "  1  p" in text


def test_a_refusal_names_every_error_by_its_pointer():
    errors = [
        DocumentError("", "more-errors", "there are more errors"),
        DocumentError("/papers/0/x\x1b[31m", "unknown-field", "there is no field of this name here"),
        DocumentError(
            "/title", "bad-text", "the text holds a control character, U+0007: remove it " + "and so on " * 9
        ),
    ]

    text = refusal_report(errors)

    assert text.splitlines() == [
        "The document is refused: 2 errors.",
        "  the whole document",
        "      more-errors: there are more errors",
        "  /papers/0/x\\x1b[31m",
        "      unknown-field: there is no field of this name here",
        "  /title",
        "      bad-text: the text holds a control character, U+0007: remove it and so on and so",
        "      on and so on and so on and so on and so on and so on and so on and so on",
    ]
