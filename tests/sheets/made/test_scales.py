"""Drawings are as large as they say, measured from what a printer would draw: templates at true size, others to scale.

Units of a PDF: 1 in is 72, so 50 mm are 141.73 and one tick (1/8128 in) is 72/8128.
"""

from __future__ import annotations

import re
from collections import Counter
from decimal import Decimal
from typing import Any

from tests.sheets.drawn import Line
from tests.sheets.made.facts import Facts, leaves
from tests.sheets.made.form_facts import drawn_parts
from tests.sheets.made.sets import SheetSet

type Tree = dict[str, Any]

TICK = Decimal(72) / 8128
# The drawing is stretched to a size rounded to a tick; the library writes six decimals.
NEAR = Decimal("0.02")


def _sizes(lines: list[Line]) -> list[tuple[Decimal, Decimal]]:
    return [(line.width, line.height) for line in lines]


def _is_near(one: tuple[Decimal, Decimal], other: tuple[Decimal, Decimal]) -> bool:
    return all(abs(mine - theirs) < NEAR for mine, theirs in zip(one, other, strict=True))


def _facts(sheets: SheetSet) -> Facts:
    return Facts(sheets.document, sheets.proof, sheets.options.unit)


def _in_points(place: str, sheets: SheetSet) -> tuple[Decimal, Decimal]:
    """As large as the sheets say, which is the document's size within one printed step."""
    facts = _facts(sheets)
    return facts.shown(f"{place}/size/width") * TICK, facts.shown(f"{place}/size/height") * TICK


def test_squares_and_bars_measure_what_they_say(sheets: SheetSet) -> None:
    bars = _sizes(sheets.files["templates"].figures[0])
    squares = [size for size in bars if _is_near(size, (size[0], size[0]))]
    inch, fifty = sorted(squares)
    assert _is_near(inch, (Decimal(72), Decimal(72)))
    assert _is_near(fifty, (Decimal("141.732"), Decimal("141.732")))
    long = sorted(width for width, height in bars if height == 0)
    assert [round(width, 3) for width in long] == [Decimal("425.197"), Decimal("432.000")]


def test_templates_are_as_large_as_pieces_and_windows(sheets: SheetSet) -> None:
    expected = [
        (
            _place(project, piece),
            [window for window in piece["windows"] if not _is_outside(project, piece, window, sheets)],
        )
        for project in sheets.document["projects"]
        for piece in project.get("pieces", ())
        if "windows" in piece
    ]
    expected = [(place, windows) for place, windows in expected if windows]
    figures = [figure for alt, figure in _templates(sheets) if "flat part at true size" not in alt]
    for (place, [window]), figure in zip(expected, figures, strict=True):
        drawn = _sizes(figure)
        assert _is_near(drawn[0], _in_points(place, sheets))
        assert _is_near(drawn[1], _window(place, window, sheets))


def _templates(sheets: SheetSet) -> list[tuple[str, list[Line]]]:
    """What each template says that it shows, and its lines."""
    file = sheets.files["templates"]
    _, *elements = file.tree.all("Figure")
    return list(zip([one.alt for one in elements], file.figures[1:], strict=True))


def test_flat_parts_have_templates_of_their_true_size(sheets: SheetSet) -> None:
    """The outline, within a printed step of the size that its template tells."""
    facts = _facts(sheets)
    step = facts.step(sheets.options.unit)
    parts = [
        part
        for project in facts.projects()
        for form in project.get("forms", ())
        for part in drawn_parts(facts, project, form)
    ]
    for alt, figure in _templates(sheets):
        if "flat part at true size" in alt:
            told = alt.split(", its outside up")[0].replace("/", "⁄")
            # “…, 6 1/2 by 5 in, its outside up”
            meant = [one for one in parts if told.endswith(" by ".join(map(facts.figure, one.size)) + f" {facts.unit}")]
            assert meant, alt
            assert any(
                all(
                    abs(mine - side * TICK) < step * TICK + NEAR for mine, side in zip(size, meant[0].size, strict=True)
                )
                for size in _sizes(figure)
            ), alt


def _place(project: Tree, piece: Tree) -> str:
    return f"project:{project['id']}/piece:{piece['id']}"


def _is_outside(project: Tree, piece: Tree, window: Tree, sheets: SheetSet) -> bool:
    place = f"{_place(project, piece)}/window:{window['id']}"
    return any(one["rule"] == "window-outside" and place in one["at"] for one in sheets.proof["findings"])


def _window(place: str, window: Tree, sheets: SheetSet) -> tuple[Decimal, Decimal]:
    facts = _facts(sheets)
    at = f"{place}/window:{window['id']}"
    sides = []
    for own, low, high in (("width", "left", "right"), ("height", "bottom", "top")):
        if own in window:
            sides.append(facts.shown(f"{at}/{own}"))
        else:
            sides.append(facts.shown(f"{place}/size/{own}") - facts.shown(f"{at}/{low}") - facts.shown(f"{at}/{high}"))
    return sides[0] * TICK, sides[1] * TICK


def test_sheets_of_the_guide_are_drawn_to_their_scale(sheets: SheetSet) -> None:
    """Every piece and offcut of the plan has its box, as large as the plan says by the scale that stands above it."""
    guide = sheets.files["cut-guide"]
    scales = [Decimal(found[1]) for text in guide.texts if (found := re.search(r"To scale, 1 : ([\d.]+)\.$", text))]
    headings = [element.text for element in guide.tree.all("H2")][1:-2]
    trees = {
        f"{_paper(sheets, paper)}, sheet {one['sheet']} of {len(plan)}": one["tree"]
        for paper, plan in _facts(sheets).plans().items()
        for one in plan
    }
    # The last one shows what to make when.
    figures = guide.figures[:-1]
    assert len(figures) == len(scales) == len(headings)
    for heading, scale, figure in zip(headings, scales, figures, strict=True):
        if heading in trees:
            boxes = [(line.width, line.height) for line in figure if line.is_box]
            nodes = [*leaves(trees[heading]), trees[heading]]
            for node in nodes:
                size = (node["width"] * TICK / scale, node["height"] * TICK / scale)
                assert any(_is_near(box, size) for box in boxes), (heading, node)


def _paper(sheets: SheetSet, paper: str) -> str:
    return str(next(one["name"] for one in sheets.document["papers"] if one["id"] == paper))


def test_pieces_with_windows_are_drawn_to_their_scale(sheets: SheetSet) -> None:
    for project in sheets.document["projects"]:
        file = sheets.files[project["id"]]
        scales = [Decimal(found[1]) for text in file.texts if (found := re.search(r"to scale, 1 : ([\d.]+)\.", text))]
        pieces = [piece for piece in project.get("pieces", ()) if "windows" in piece]
        for piece, scale, figure in zip(pieces, scales, file.figures[: len(pieces)], strict=False):
            width, height = _in_points(_place(project, piece), sheets)
            assert _is_near(_sizes(figure)[0], (width / scale, height / scale))


def test_flat_parts_are_drawn_to_their_scale(sheets: SheetSet) -> None:
    """The outline, within a printed step: the size to cut is a rounded figure, and so are those that it is made of."""
    facts = _facts(sheets)
    for project in sheets.document["projects"]:
        file = sheets.files[project["id"]]
        told = [text for text in file.texts if "utside up, figures in" in text]
        scales = [Decimal(found[1]) for text in told if (found := re.search(r"to scale, 1 : ([\d.]+)\.", text))]
        before = len([piece for piece in project.get("pieces", ()) if "windows" in piece or "shape" in piece])
        alts = [one.alt for one in file.tree.all("Figure")][before + 1 :]
        figures = [one for alt, one in zip(alts, file.figures[before + 1 :], strict=True) if "as it stands" not in alt]
        parts = [part for form in project.get("forms", ()) for part in drawn_parts(facts, project, form)]
        step = facts.step(sheets.options.unit)
        for part, scale, figure in zip(parts, scales, figures, strict=False):
            least, most = ([(side - more) * TICK / scale for side in part.size] for more in (step, -step))
            assert any(
                all(low - NEAR < side < high + NEAR for low, side, high in zip(least, size, most, strict=True))
                for size in _sizes(figure)
            ), (part, scale)


def test_one_thing_has_one_scale_in_all_its_drawings(sheets: SheetSet) -> None:
    """Sheets of one print lie side by side on the table: equal sheets with as many cuts are drawn equally large."""
    guide = sheets.files["cut-guide"]
    if sheets.options.print == "large":
        return  # there the drawing makes room for its table
    scales: dict[str, Counter[str]] = {}
    heading = ""
    for text in guide.texts:
        if re.fullmatch(r".*, sheet \d+ of \d+", text):
            heading = text.rpartition(", sheet")[0]
        elif heading and (found := re.search(r"To scale, 1 : ([\d.]+)\.$", text)):
            scales.setdefault(heading, Counter())[found[1]] += 1
            heading = ""
    assert all(len(found) == 1 for found in scales.values()), scales
