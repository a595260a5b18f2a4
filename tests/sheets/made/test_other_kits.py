"""Kits that are not as tame as the examples: hostile words, nothing at all, very much, and what has no plan."""

from __future__ import annotations

import json
import re
from itertools import pairwise
from typing import Any
from unicodedata import normalize

import pytest

from kits.sheets.coverage import MISSING, covered
from kits.sheets.options import SheetOptions
from kits.sheets.rendering import Renderer
from kits.sheets.setting import sheet_files
from layouts.document import read_kit
from layouts.proofing import prove_at_once
from tests.sheets.made.sets import MadeFile
from tests.sheets.pdf_ua import faults

type Tree = dict[str, Any]

LETTER = SheetOptions("letter", "in")
ZERO_WIDTH = "\N{ZERO WIDTH SPACE}"
MM = 72 / 25.4


def _made(tree: Tree, renderer: Renderer, options: SheetOptions = LETTER) -> dict[str, MadeFile]:
    kit = read_kit(json.dumps(tree).encode())
    made = {}
    for file in sheet_files(kit, prove_at_once(kit), options):
        pdf = renderer.pdf(file.html, file.assets, title=file.title, true_size=file.true_size)
        made[file.name] = MadeFile(file.name, pdf)
    return made


def _check(files: dict[str, MadeFile]) -> None:
    """What holds for every file: no fault that a program sees, nothing beyond the margins, no empty page."""
    for file in files.values():
        assert faults(file.pdf) == []
        for page in file.pages:
            body = [run for run in page.written if run.mark != -1 and run.text.strip()]
            assert body, (file.name, page.number)
            for run in body:
                assert run.left > 15 * MM - 1, run
                assert run.right < page.width - 15 * MM + 1, run
                assert run.bottom > 17 * MM - 1, run


def _kit(*projects: Tree, **more: Any) -> Tree:
    card = {"id": "card", "name": "Card", "size": ["12", "12"], "sheets": 3, "front": {"name": "Plain"}}
    return {
        "format": "kitproof/1",
        "code": "k",
        "title": "Kit",
        "unit": "in",
        "papers": [card],
        "projects": list(projects),
    } | more


# Words ---------------------------------------------------------------------------------------------------------------

# What is written, and what must be read: a letter that no face has is U+FFFD, a line break in a name a blank.
WORDS = [
    pytest.param("<script>alert(1)</script> & \"q\" 'a' </style> <!-- ]]>", None, id="markup"),
    pytest.param("{{ kit.title }} {% now 'Y' %} {# x #} %s %(a)d {0}", None, id="templates"),
    pytest.param("url(http://example.invalid/x) asset:sheet.css @import 'y'", None, id="addresses"),
    pytest.param("שלום \u202eabc\u202c Ω Ж", "���� �abc� Ω Ж", id="right to left"),
    pytest.param("a 🙂 ☂ ½ ⅞ … 👩\u200d🌾", None, id="emoji"),
    pytest.param("one\ntwo\tthree   four", "one two three four", id="lines"),
    pytest.param("x" * 300, None, id="300 letters without a blank"),
    # The document composes the letter with the first mark (NFC); four more are let through.
    pytest.param("a" + "\u0301" * 300 + "z", "á" + "\u0301" * 4 + "�" * 295 + "z", id="300 marks on a letter"),
    pytest.param("W" * 13 + " " + "W" * 16, None, id="wide letters"),
    pytest.param("漢字かな 한국어 العربية", "���� ��� �������", id="other scripts"),
    pytest.param("1/2 3/4 6 3/4 2027/04", "1⁄2 3⁄4 6 3⁄4 2027/04", id="numbers in names"),
]


def _everywhere(words: str) -> Tree:
    """A kit in which these words stand wherever words may stand."""
    window = {"id": "w", "left": "1", "right": "1", "top": "1", "bottom": "1", "cut_out": "kept"}
    piece = {"id": "A", "name": words, "paper": "card", "size": ["4", "3"], "windows": [window], "side": "back"}
    text = words.replace("{", "{{").replace("}", "}}")
    use = [{"supply": "s", "count": 2}, {"blank": "b"}, {"element": "e/n"}]
    step = {
        "id": "1",
        "text": f"{text} {{A}} {{supply:s}}",
        "cut": ["A"],
        "use": use,
        "tools": ["knife"],
        "cautions": ["blade"],
    }
    out = {"id": "N", "name": words, "from": "p/A/w", "size": ["1", "1"]}
    paper = {
        "id": "card",
        "name": words,
        "size": ["12", "12"],
        "sheets": 1,
        "front": {"name": words},
        "back": {"name": words},
    }
    return _kit(
        {"id": "p", "title": words, "pieces": [piece], "steps": [step], "makes": 2},
        {"id": "q", "title": words, "pieces": [out], "steps": [{"id": "1", "text": text, "after": ["p/1"]}]},
        title=words,
        papers=[paper],
        tools=[{"id": "knife", "name": words, "kind": "knife"}],
        supplies=[{"id": "s", "name": words, "kind": "other"}],
        blanks=[{"id": "b", "name": words}],
        embellishments=[{"id": "e", "name": words, "elements": [{"id": "n", "name": words, "count": 2}]}],
    )


@pytest.mark.parametrize(("words", "read"), WORDS)
@pytest.mark.parametrize("size", ["normal", "large"])
def test_words_are_words_whatever_they_look_like(renderer, words, read, size):
    files = _made(_everywhere(words), renderer, SheetOptions("letter", "in", size))
    _check(files)
    expected = _squeezed("".join(map(covered, words)) if read is None else read)
    sheet = files["p"]
    title = "".join(block.text for block in sheet.blocks if block.kind == "H1")
    assert _squeezed(title) == f"{expected}make2"
    # A row higher than a page goes on overleaf.
    name = "".join(row[1] for table in sheet.tables() for row in table if len(row) == 5)
    assert _squeezed(name) == f"{expected}·show{expected}·window"
    said = {name: any("cannot print" in text for text in file.texts) for name, file in files.items()}
    assert said == dict.fromkeys(files, MISSING in expected)
    [step] = [item.text for item in sheet.tree.all("LI") if item.text.startswith("1.")]
    assert _squeezed(step).endswith(f"{expected}Athe{expected}")


def _squeezed(text: str) -> str:
    """Without blanks and where lines may end; fractions, which are set as such in some places, by a plain slash."""
    return re.sub(rf"[\s{ZERO_WIDTH}]", "", text).replace("⁄", "/")


LONG = [
    pytest.param("word " * 2000, "normal", id="words"),
    pytest.param("x" * 10_000, "normal", id="one word"),
    pytest.param("x" * 10_000, "large", id="one word in large print"),
    pytest.param("字" * 10_000, "normal", id="letters that no face has"),
    pytest.param("a" + "\u0301" * 9_999, "normal", id="marks on one letter"),
    pytest.param("<b>&" * 2_500, "normal", id="markup"),
    pytest.param("\u202e\u05d0" * 5_000, "normal", id="right to left"),
]


@pytest.mark.parametrize(("name", "size"), LONG)
def test_a_name_of_ten_thousand_letters_is_printed_whole(renderer, name, size):
    piece = {"id": "A", "name": name, "paper": "card", "size": ["4", "3"]}
    sheet = _made(_kit({"id": "p", "title": "Shelf", "pieces": [piece]}), renderer, SheetOptions("letter", "in", size))[
        "p"
    ]
    _check({"p": sheet})
    told = "".join(row[1] for table in sheet.tables() for row in table if len(row) == 5)
    assert _squeezed(told) == _squeezed(covered(normalize("NFC", name)))


def test_a_title_of_ten_thousand_letters_is_printed_whole_and_cut_short_at_the_foot(renderer):
    sheet = _made(_kit({"id": "p", "title": "x" * 10_000}, title="y" * 10_000), renderer)["p"]
    _check({"p": sheet})
    title = "".join(block.text for block in sheet.blocks if block.kind == "H1")
    assert _squeezed(title) == "x" * 10_000
    for page in sheet.pages:
        foot = [run for run in page.written if run.mark == -1 and "y" in run.text]
        assert foot
        assert all(run.right < page.width - 15 * MM for run in foot)


# Little, much, and no plan -------------------------------------------------------------------------------------------


def test_a_kit_without_projects_has_a_guide_and_templates_that_say_so(renderer):
    files = _made({"format": "kitproof/1", "code": "k", "title": "Kit", "unit": "mm"}, renderer)
    _check(files)
    assert sorted(files) == ["cut-guide", "templates"]
    assert "There is nothing to cut in this kit yet." in files["cut-guide"].texts
    assert "No piece of this kit needs a template: all are cut straight." in files["templates"].texts


def test_a_project_of_nothing_says_so(renderer):
    files = _made(_kit({"id": "p", "title": "Shelf"}), renderer)
    _check(files)
    assert files["p"].texts == [
        "Kit",
        "Shelf",
        "Cut",
        "Nothing is cut for this project yet.",
        "Make",
        "This project has no steps yet.",
    ]


def test_steps_without_texts_and_pieces_without_papers_are_told(renderer):
    pieces = [{"id": "A", "name": "panel", "size": ["4", "3"]}]
    files = _made(_kit({"id": "p", "title": "Shelf", "pieces": pieces, "steps": [{"id": "1", "text": ""}]}), renderer)
    _check(files)
    assert "From a paper not chosen yet" in files["p"].texts
    assert "1." in files["p"].texts


def test_prints_that_are_short_or_undecided_and_forms_not_worked_out_say_so(renderer):
    """No search takes on ten thousand copies; two pieces of 8 by 8 are too many for one sheet of 12 by 12."""
    pieces = [
        {"id": "A", "name": "tile", "paper": "card", "size": ["1/2", "1/2"], "count": 10_000},
        {"id": "C", "name": "tile", "paper": "card", "size": ["1/4", "1/4"]},
        {"id": "B", "name": "square", "paper": "few", "size": ["8", "8"], "count": 2},
    ]
    lid = {"id": "lid", "name": "lid", "as": "lid", "paper": "few", "depth": "1", "fits": {"blank": "box"}}
    papers = [
        {"id": name, "name": name.title(), "size": ["12", "12"], "sheets": sheets, "front": {"name": "Plain"}}
        for name, sheets in (("card", 20), ("few", 1))
    ]
    tree = _kit(
        {"id": "p", "title": "Shelf", "pieces": pieces, "forms": [lid]},
        papers=papers,
        blanks=[{"id": "box", "name": "box"}],
    )
    kit = read_kit(json.dumps(tree).encode())
    verdicts = {one["paper"]: one["verdict"] for one in prove_at_once(kit)["papers"]}
    files = _made(tree, renderer)
    _check(files)
    said = {
        "short": "no cut plan, the paper in the box does not suffice",
        "unknown": "no proven cut plan yet",
    }
    guide = [text for text in files["cut-guide"].texts if "plan" in text and ":" in text]
    assert guide == [f"{paper.title()}: {said[verdict]}" for paper, verdict in verdicts.items() if verdict in said]
    assert verdicts["card"] == "unknown"
    [row] = [row for table in files["p"].tables() for row in table if row[0] == "lid"]
    assert row[3:] == ["–", "–"]


def test_a_thousand_steps_are_all_told_and_none_is_torn(renderer):
    steps = [{"id": f"s{n}", "text": f"Turn the board over, for the time {n}."} for n in range(1, 1_001)]
    sheet = _made(_kit({"id": "p", "title": "Shelf", "steps": steps}), renderer)["p"]
    _check({"p": sheet})
    items = [item.text for item in sheet.tree.all("LI")]
    assert items == [f"{n}. Turn the board over, for the time {n}." for n in range(1, 1_001)]


SIXTY = [
    {
        "id": f"P{n}",
        "name": f"strip {n}",
        "paper": "card",
        "size": [f"{1 + n % 4}", f"{n % 7 + 1}/4"],
        "count": 1 + n % 2,
    }
    for n in range(60)
]


@pytest.mark.parametrize("size", ["normal", "large"])
def test_sixty_pieces_go_on_over_the_page(renderer, size):
    files = _made(_kit({"id": "p", "title": "Shelf", "pieces": SIXTY}), renderer, SheetOptions("letter", "in", size))
    _check(files)
    rows = [row for table in files["p"].tables() for row in table if len(row) == 5]
    assert [row[0] for row in rows] == [piece["id"] for piece in SIXTY]
    guide = files["cut-guide"]
    table = max(guide.tables(), key=len)
    assert len(table) > 30
    assert [row[0] for row in table] == [str(number) for number in range(1, len(table) + 1)]
    # Overleaf a table has its heads again.
    tables = list(guide.tree.all("Table"))
    assert [len(list(one.all("THead"))) for one in tables] == [1] * len(tables)
    assert len(tables) > len(guide.tables())
    numbers = [
        run for figure in guide.tree.all("Figure") for run in figure.runs if run.in_drawing and run.text.strip() == "1"
    ]
    assert numbers


def test_many_windows_and_outlines_of_every_kind_are_drawn_or_said(renderer):
    windows = [
        {"id": f"w{n}", "left": f"{1 + n} 1/16", "width": "1/2", "bottom": f"{n + 1}/8", "height": "1/2"}
        for n in range(8)
    ]
    shapes: list[Tree] = [
        {"kind": "ellipse"},
        {"kind": "arch", "rise": "1 1/2"},
        {"kind": "rounded", "radius": "3/8"},
        {"kind": "polygon", "points": [["0", "0"], ["4", "0"], ["2", "3"]]},
    ]
    pieces = [
        {"id": "A", "name": "screen", "paper": "card", "size": ["10", "4"], "windows": windows},
        *(
            {"id": f"S{n}", "name": "shape", "paper": "card", "size": ["4", "3"], "shape": shape}
            for n, shape in enumerate(shapes)
        ),
    ]
    files = _made(_kit({"id": "p", "title": "Shelf", "pieces": pieces}), renderer)
    _check(files)
    captions = [text for text in files["p"].texts if "to scale" in text]
    assert [len(re.findall(r"Window w\d:", text)) for text in captions] == [4, 0, 0, 0, 0]
    assert [text.rpartition("1 : ")[2].partition(". ")[2] for text in captions[1:]] == [
        "The piece is an oval.",
        "The piece is an arch with a rise of 1 1⁄2.",
        "The piece is rounded at its corners with a radius of 3⁄8.",
        "The piece is an outline with corners, across and up from the lower left, at 0, 0; 4, 0; 2, 3.",
    ]
    # Larger than the page, so each of its windows has a template of its own, and so has every outline.
    assert len(list(files["templates"].tree.all("Figure"))) == 1 + len(windows) + len(shapes)
    for one, following in pairwise(captions):
        assert one != following
