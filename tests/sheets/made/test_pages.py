"""How the pages look, as far as it can be measured: nothing leaves the page, collides, stands alone or is too small.

What can only be seen, people have looked at.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import combinations, pairwise

import pytest

from tests.sheets.made.sets import MadeFile, SheetSet
from tests.sheets.reading import Element, Page, Written

MM = 72 / 25.4
# Inside of the margins: 15 mm at the sides, 14 above, 17 below; letters may stand out by a hair.
HAIR = 1.0
# Ink of two runs may touch where letters are set close; more is a collision.
TOUCH = 1.2
# Points: 11.5 for words, large print 18 (clear print asks for 12, large print for 16 at least: UKAAF G003); in drawings
# numbers of cuts are the smallest.
LEAST = {"normal": 7.6, "large": 12.0}
FIGURE = r"(?:\d+ )?[\d.]+(?:⁄\d+)?"
WORDS = {"normal": 11.5, "large": 18}


@pytest.fixture
def files(sheets: SheetSet) -> list[MadeFile]:
    return list(sheets.files.values())


def _body(page: Page) -> list[Written]:
    return [run for run in page.written if run.mark != -1 and run.text.strip()]


def test_nothing_stands_outside_the_margins(files):
    for file in files:
        for page in file.pages:
            for run in _body(page):
                assert run.left > 15 * MM - HAIR, (file.name, page.number, run)
                assert run.right < page.width - 15 * MM + HAIR, (file.name, page.number, run)
                assert run.bottom > 17 * MM - HAIR, (file.name, page.number, run)
                assert run.top < page.height - 14 * MM + HAIR, (file.name, page.number, run)


def test_no_drawing_leaves_the_margins(files):
    for file in files:
        width, height = file.pages[0].width, file.pages[0].height
        for line in (line for figure in file.figures for line in figure):
            assert line.left > 15 * MM - HAIR
            assert line.right < width - 15 * MM + HAIR
            assert line.bottom > 17 * MM - HAIR
            assert line.top < height - 14 * MM + HAIR


def test_no_words_run_into_others(files):
    for file in files:
        for page in file.pages:
            clashes = list(_clashes(page.written))
            assert not clashes, (file.name, page.number, clashes)


def _clashes(written: list[Written]) -> Iterator[tuple[str, str]]:
    runs = sorted((run for run in written if run.text.strip()), key=lambda run: run.left)
    for at, one in enumerate(runs):
        for other in runs[at + 1 :]:
            if other.left > one.right - TOUCH:
                break
            if min(one.top, other.top) - max(one.bottom, other.bottom) > TOUCH:
                yield one.text, other.text


def test_numbers_of_cuts_do_not_hide_each_other(sheets):
    """Circles are ten lines wide: 145 ticks of 1/8128 in each, 229 in large print; they may touch."""
    guide = sheets.files["cut-guide"]
    wide = 10 * {"normal": 145, "large": 229}[sheets.options.print] * 72 / 8128
    tables = iter(guide.tables())
    *figures, _ = guide.tree.all("Figure")  # the last one shows what to make when
    for figure in figures:
        runs = [run for run in figure.runs if run.in_drawing]
        count = len(next(tables))
        middles = [((run.left + run.right) / 2, (run.bottom + run.top) / 2) for run in runs[len(runs) - count :]]
        for (x, y), (other_x, other_y) in combinations(middles, 2):
            # Digits differ in their ink: half a point either way.
            assert (x - other_x) ** 2 + (y - other_y) ** 2 > (wide - 1) ** 2, figure.alt


def test_no_page_is_empty(files):
    for file in files:
        for page in file.pages:
            assert _body(page), (file.name, page.number)


def test_no_heading_stands_alone_at_the_foot_of_a_page(files):
    for file in files:
        for heading, following in pairwise(file.blocks):
            if heading.kind in ("H1", "H2", "H3") and heading.runs:
                assert _page(heading, file) == _page(following, file), (file.name, heading.text)


def test_what_introduces_something_stands_on_the_page_of_it(files):
    """The heads of a table with its first row, the print with the first piece, a term with what is said of it."""
    for file in files:
        for table in file.tree.all("Table"):
            bodies = [row for body in table.all("TBody") for row in body.all("TR")]
            [head] = list(table.all("THead"))
            assert _pages(head, file) == _pages(bodies[0], file)
            for row, following in pairwise(bodies):
                if len(list(row.all("TH", "TD"))) == 1:
                    assert _pages(row, file) == _pages(following, file), row.text
        for term, following in pairwise(file.blocks):
            if term.text in ("From the box and the drawer", "Tools"):
                assert _page(term, file) == _page(following, file), file.name


def test_steps_and_rows_are_not_torn(files):
    for file in files:
        for element in file.tree.all("LI", "TR"):
            assert len(_pages(element, file)) == 1, (file.name, element.text)


def test_nobody_turns_a_page_for_one_step_or_for_what_to_keep(files, sheets):
    for project in sheets.document["projects"]:
        file = sheets.files[project["id"]]
        steps = [item for item in file.tree.all("LI") if re.match(r"\d+\.", item.text)]
        for step, last in list(pairwise(steps))[-1:]:
            assert _pages(step, file) == _pages(last, file), (file.name, last.text)
        for heading in file.tree.all("H2"):
            if heading.text == "Keep":
                assert _pages(heading, file) == _pages(steps[-1], file), file.name


def test_a_sheet_and_its_table_share_a_page_or_in_large_print_the_table_has_the_next_one(files, sheets):
    """The tables of the examples are short enough for a page. In large print a drawing above a long one would be too
    small for its letters: it has a page for itself then, and its table follows whole, with the name of the sheet."""
    guide = sheets.files["cut-guide"]
    figure: Element | None = None
    apart = 0
    for element in guide.tree.all("Figure", "Table", "H2"):
        if element.text == "What to make when":
            break
        if element.kind == "Figure":
            figure = element
        elif element.kind == "Table" and figure is not None:
            [drawn], [told] = _pages(figure, guide), _pages(element, guide)
            assert told - drawn in (0, 1)
            apart += told - drawn
    named = [text for text in guide.texts if text.startswith("The cuts of ")]
    assert len(named) == apart
    assert not apart or sheets.options.print == "large"


def test_drawings_of_sheets_are_large_enough_for_their_letters(sheets):
    """At least 90 mm high in large print, but of what comes out of windows, where the sheet itself is not wider."""
    if sheets.options.print == "large":
        guide = sheets.files["cut-guide"]
        headings = [element.text for element in guide.tree.all("H2")][1:]
        for heading, lines in zip(headings, guide.figures, strict=False):
            if "sheet" in heading and "Out of" not in heading:
                assert max(line.top for line in lines) - min(line.bottom for line in lines) > 90 * MM, heading


def test_what_is_laid_aside_is_told_in_one_line(sheets):
    """“lower for 13” by itself: the last column is wide enough for it beside a drawing, on the narrower page too."""
    guide = sheets.files["cut-guide"]
    cells = [cell for cell in guide.tree.all("TD") if re.fullmatch(r"(left|right|lower|upper) for\s\d+", cell.text)]
    assert cells or "winter" in sheets.document["title"].casefold()
    for cell in cells:
        runs = [run for run in cell.runs if run.text.strip()]
        assert max(run.bottom for run in runs) - min(run.bottom for run in runs) < runs[0].size / 2, cell.text


def test_two_faces_of_a_usual_height_share_a_page(sheets):
    """The panels of the calendar: three pages in large print, not six."""
    if "sowing-calendar" in sheets.files:
        file = sheets.files["sowing-calendar"]
        captions = [block for block in file.blocks if re.match(r"panel \d of the folded strip\. Figures", block.text)]
        assert len(captions) == 6
        assert len({_page(caption, file) for caption in captions}) <= 3


def test_no_page_holds_the_last_row_of_a_table_alone(files):
    for file in files:
        for table in file.tree.all("Table"):
            rows = [row for body in table.all("TBody") for row in body.all("TR")]
            if len({page for row in rows for page in _pages(row, file)}) > 1:
                assert _pages(rows[-1], file) == _pages(rows[-2], file), (file.name, rows[-1].text)


def test_lines_go_on_to_the_margin(files):
    """A line ends where its next word has no room: a word left alone looks like a new paragraph."""
    for file in files:
        for block in file.blocks:
            if block.kind not in ("P", "LBody", "NonStruct"):
                continue
            lines = _lines(block.runs)
            if len(lines) < 2:
                continue
            margin = max(line[-1].right for line in lines)
            for line, following in pairwise(lines):
                words = " ".join(run.text.strip() for run in following)
                room = margin - line[-1].right
                width = following[-1].right - following[0].left
                # A size stays in one line, a figure with the word before it: “each 5 1⁄4”, and a count with what is
                # counted: “2 × oval”.
                beginning = re.match(rf"{FIGURE} × {FIGURE}|(\S+ )?\d+ \d+⁄\S*|\d+\s×\s\S+|\S+", words)
                first = width * (len(beginning[0]) + 1) / len(words) if beginning else 0
                assert room < 1.7 * first + 2, (file.name, block.text)


def _lines(runs: list[Written]) -> list[list[Written]]:
    lines: list[list[Written]] = []
    for run in runs:
        if not run.text.strip():
            continue
        if lines and run.left >= lines[-1][-1].right - 1:
            lines[-1].append(run)
        else:
            lines.append([run])
    return lines


def test_type_is_large_enough_to_read(files, sheets):
    least = LEAST[sheets.options.print]
    for file in files:
        for page in file.pages:
            small = [(run.text, run.size) for run in page.written if run.text.strip() and run.size < least]
            assert not small, (file.name, page.number)


def test_words_are_set_in_the_size_of_the_print(files, sheets):
    for file in files:
        for block in file.blocks:
            if block.kind in ("P", "LBody", "TD"):
                sizes = {round(run.size, 1) for run in block.runs if "⁄" not in run.text and run.text.strip()}
                assert sizes <= {WORDS[sheets.options.print]}, (file.name, block.text)


def _page(block: Element, file: MadeFile) -> int:
    return max(_pages(block, file))


def _pages(element: Element, file: MadeFile) -> set[int]:
    runs = set(map(id, element.runs))
    return {page.number for page in file.pages if any(id(run) in runs for run in page.written)}
