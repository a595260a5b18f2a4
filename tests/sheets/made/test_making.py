"""Folded parts, layers and what to make when: every number about them belongs to the document or to its proof."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from itertools import pairwise
from typing import Any

import pytest

from tests.sheets.made.facts import Facts, numbers_in
from tests.sheets.made.form_facts import FlatFacts, drawn_parts, flat_facts, folded_sides
from tests.sheets.made.sets import MadeFile, SheetSet
from tests.sheets.reading import Element

type Tree = dict[str, Any]

SIDES = ("left", "right", "top", "bottom")
SECONDS = {"s": 1, "min": 60, "h": 3600}


@pytest.fixture
def facts(sheets: SheetSet) -> Facts:
    return Facts(sheets.document, sheets.proof, sheets.options.unit)


def _section(file: MadeFile, heading: str) -> list[Element]:
    """The blocks below a heading."""
    blocks = file.blocks
    starts = [at for at, one in enumerate(blocks) if one.kind == "H2" and one.text == heading]
    if not starts:
        return []
    ends = [at for at, one in enumerate(blocks) if one.kind == "H2" and at > starts[0]]
    return blocks[starts[0] + 1 : ends[0] if ends else len(blocks)]


def _drawn(figure: Element) -> list[str]:
    """The figures in a drawing, without what folds are called by, and counts of what lies there."""
    runs = [run.text.strip() for run in figure.runs if run.in_drawing and run.text.strip()]
    return [text for text in runs if re.fullmatch(r"[\d ⁄.]+", text)]


# Folded parts ------------------------------------------------------------------------------------------------------


def test_flat_parts_are_dimensioned_by_the_lines_of_their_construction(sheets, facts):
    for project in facts.projects():
        section = _section(sheets.files[project["id"]], "Folded parts")
        figures = [one for one in section if one.kind == "Figure" and "as it stands" not in one.alt][1:]
        captions = [one.text for one in section if "utside up, figures in" in one.text]
        parts = [part for form in project.get("forms", ()) for part in drawn_parts(facts, project, form)]
        assert len(figures) == len(captions) == len(parts)
        for figure, caption, part in zip(figures, captions, parts, strict=True):
            spans = [span for axis in (0, 1) for span in part.spans(axis)]
            expected = Counter(map(facts.figure, [*part.size, *spans]))
            assert Counter(_drawn(figure)) == expected, caption
            assert set(numbers_in(_scored(caption))) == _scores(part, facts), caption


def _scored(caption: str) -> str:
    """What a caption says of scores."""
    return " ".join(re.findall(r"Score from the \w+ at ([^.]+)\.", caption))


def _scores(part: FlatFacts, facts: Facts) -> set[str]:
    return {facts.figure(line) for lines in part.lines for line in lines} if part.is_scored else set()


def test_holes_are_told_by_the_diameter_and_by_one_and_a_half_of_it(sheets, facts):
    """The middle of a hole lies one and a half diameters below the top of a tag."""
    for project in facts.projects():
        holes = [
            facts.shown(f"project:{project['id']}/form:{form['id']}/hole")
            for form in project.get("forms", ())
            if "hole" in form
        ]
        texts = " ".join(one.text for one in _section(sheets.files[project["id"]], "Folded parts"))
        told = [numbers_in(one) for one in re.findall(r"The hole is [^.]*\.", texts)]
        assert told == [[facts.figure(hole), facts.figure(hole * 3 // 2)] for hole in holes]


def test_panels_lie_between_the_lines_of_their_construction(sheets, facts):
    for project in facts.projects():
        section = _section(sheets.files[project["id"]], "Folded parts")
        sizes = set()
        for form in project.get("forms", ()):
            for part in flat_facts(facts, project, form):
                across, up = ([facts.figure(one) for one in part.spans(axis) or [part.size[axis]]] for axis in (0, 1))
                # The outline of a strip that is cut aslant is that of its part.
                across, up = [*across, facts.figure(part.size[0])], [*up, facts.figure(part.size[1])]
                sizes |= {f"{width} × {height}" for width in across for height in up}
        for text in (one.text for one in section if one.text.startswith("Panels: ")):
            figure = r"\d+(?: \d+⁄\d+|\.\d+)?|\d+⁄\d+"
            told = re.findall(rf"(?:(?<=[a-z] )|(?<=\d ))((?:{figure}) × (?:{figure}))(?=[;.])", text)
            # A number before a size may be that of the panel: “panel 6 5 1⁄4 × 3 1⁄4”.
            assert told
            for size in told:
                assert size in sizes or size.partition(" ")[2] in sizes, text


def test_folded_things_are_as_large_as_their_construction_says(sheets, facts):
    for project in facts.projects():
        section = _section(sheets.files[project["id"]], "Folded parts")
        told = [numbers_in(one.text) for one in section if one.text.startswith("Folded ")]
        sides = [folded_sides(facts, project, form) for form in project.get("forms", ())]
        assert told == [list(map(facts.figure, one)) for one in sides if one]
        # Inside it is as large as the document says.
        inside = [numbers_in(one.text) for one in section if one.text.startswith("Inside ")]
        stated = [f"project:{project['id']}/form:{form['id']}/inside" for form in project.get("forms", ())]
        assert all(one in [facts.under(place) for place in stated] for one in inside)
        # Boxes are drawn with the same three measures.
        drawn = [_drawn(one) for one in section if one.kind == "Figure" and "as it stands" in one.alt]
        assert all(sorted(one) in map(sorted, told) for one in drawn)


# Layers --------------------------------------------------------------------------------------------------------------


def test_borders_are_those_that_the_document_states_or_that_the_middle_leaves(sheets, facts):
    for project in facts.projects():
        file = sheets.files[project["id"]]
        rows = [row for table in file.tables() for row in table if len(row) == 2]
        supports = _supports(project)
        assert len(rows) == len(supports)
        for (_, lies), placements in zip(rows, supports, strict=True):
            told = set(numbers_in(re.sub(r"\d+ ×", "", lies)))
            stated = {figure for one in placements for figure in _stated(one, project, facts)}
            halves = {figure for one in placements for figure in _halves(one, project, facts)}
            assert stated <= told <= stated | halves, lies


def _supports(project: Tree) -> list[list[Tree]]:
    """Placements by what they are put on, in the order of the document; copies that differ are apart."""
    found: dict[str, list[Tree]] = {}
    counts = {one["id"]: one.get("count", 1) for one in project.get("pieces", ())}
    for placement in project.get("placements", ()):
        copies = {one["on_copy"] for one in placement.get("copies", ())} if "copies" in placement else {0}
        for copy in sorted(copies):
            several = counts.get(placement["on"].get("piece"), 1) > 1
            found.setdefault(f"{placement['on']}{copy if several else 0}", []).append(placement)
    return list(found.values())


def _stated(placement: Tree, project: Tree, facts: Facts) -> set[str]:
    """The figures of positions and claimed borders; nothing is told of what is flush."""
    place = f"project:{project['id']}/placement:{placement['id']}"
    return {one for one in facts.under(place) if one != "0"}


def _halves(placement: Tree, project: Tree, facts: Facts) -> set[str]:
    """What is left on both sides of a thing in the middle, turned or not."""
    support, thing = _size_of(placement["on"], project, facts), _size_of(placement["put"], project, facts)
    turned = any(one.get("turn") in (90, 270) for one in [placement, *placement.get("copies", ())])
    if support is None or thing is None:
        return set()
    thing = thing[::-1] if turned else thing
    return {facts.figure((whole - part) // 2) for whole, part in zip(support, thing, strict=True)}


def _size_of(named: Tree, project: Tree, facts: Facts) -> tuple[int, ...] | None:
    if "blank" in named and "face" in named:
        place = f"blank:{named['blank']}/face:{named['face']}/size"
        return tuple(facts.shown(f"{place}/{side}") for side in ("width", "height"))
    if "element" in named:
        sheet, _, element = named["element"].partition("/")
        return tuple(
            facts.shown(f"embellishment:{sheet}/element:{element}/size/{side}") for side in ("width", "height")
        )
    if "piece" in named:
        piece = next(one for one in project["pieces"] if one["id"] == named["piece"])
        return facts.piece_size(project, piece, "finished")
    if "form" in named:
        form = next(one for one in project["forms"] if one["id"] == named["form"])
        if form["as"] == "frame":
            outside = flat_facts(facts, project, form)
            return outside[0].size[0], outside[2].size[1]
        return tuple(folded_sides(facts, project, form)[:2])
    return None


def test_drawings_of_faces_show_the_figures_of_the_table_and_the_sizes_of_faces(sheets, facts):
    for project in facts.projects():
        file = sheets.files[project["id"]]
        section = _section(file, "What goes where")
        allowed = {
            number
            for table in file.tables()
            for row in table
            if len(row) == 2
            for number in numbers_in(re.sub(r"\d+ ×", "", row[1]))
        }
        placements = project.get("placements", ())
        sizes = [_size_of(one["on"], project, facts) for one in placements]
        sizes += [part.size for form in project.get("forms", ()) for part in flat_facts(facts, project, form)]
        spans = [
            tuple(part.spans(axis))
            for form in project.get("forms", ())
            for part in flat_facts(facts, project, form)
            for axis in (0, 1)
        ]
        # The floor of a tray is as large as its inside.
        sizes += [
            tuple(
                facts.shown(f"project:{project['id']}/form:{form['id']}/inside/{side}") for side in ("width", "height")
            )
            for form in project.get("forms", ())
            if "inside" in form
        ]
        allowed |= {facts.figure(side) for size in [*sizes, *spans] for side in size or ()}
        for figure in (one for one in section if one.kind == "Figure"):
            assert set(_drawn(figure)) <= allowed, figure.alt


# What to make when -----------------------------------------------------------------------------------------------


def test_the_plan_of_one_person_keeps_two_hands_busy_once_and_lets_glue_dry(sheets, facts):
    """The table is carried out: nothing overlaps, what follows comes after, and drying ends when it says."""
    file = sheets.files["cut-guide"]
    rows = file.tables()[-2]  # the last one tells what could be cut again
    steps = {
        f"{project['title']} {number}": (project, step)
        for project in facts.projects()
        for number, step in enumerate(project["steps"], start=1)
    }
    assert sorted(row[1] for row in rows) == sorted(steps)
    ends: dict[str, int] = {}
    free = 0
    for begins, name, takes, then in rows:
        project, step = steps[name]
        hands = (_seconds(step.get("work")) + _held(step, clamped=False)) * project.get("makes", 1)
        assert _spoken(takes) == hands
        assert _clock(begins) >= free
        free = _clock(begins) + hands
        released = free + _held(step, clamped=True)
        ends[f"{project['id']}/{step['id']}"] = released
        assert all(_clock(begins) >= ends[before] for before in _before(project, step)), name
        dry = released + _seconds(step.get("dry"))
        assert [_clock(one) for one in re.findall(r"until (\S+?)(?:,|$)", then)] == ([dry] if dry > free else [])
    said = next(text for text in file.texts if text.startswith("One person has everything"))
    last = max([free, *(_clock(one) for row in rows for one in re.findall(r"until (\S+?)(?:,|$)", row[3]))])
    assert _spoken(re.findall(r"dry in ([^.]*)\.", said)[0]) == last


def test_what_waits_for_steps_of_another_project_does_so_in_the_timetable_and_for_a_reason(sheets, facts):
    """“Do step 2 of the Chest before step 6”: the document says so, or a piece comes out of a window; and it is so."""
    titles = {project["title"]: project for project in facts.projects()}
    order = [row[1] for row in sheets.files["cut-guide"].tables()[-2]]
    told = 0
    for here in facts.projects():
        for text in sheets.files[here["id"]].texts:
            found = re.match(
                r"(Do steps? ([\d, and]+)|Finish (?:this|the .*?))(?: of the (.*?))? before step (.*)\.$", text
            )
            if found is None:
                continue
            told += 1
            late = re.match(r"(\d+)(?: of the ([^:]*))?(?:: (.*) comes out of a window of (.*))?$", found[4])
            assert late is not None
            then = titles[late[2] or here["title"]]
            first_title = found[3] or (found[1].removeprefix("Finish the ") if "the " in found[1] else here["title"])
            first = titles[first_title]
            waiting = then["steps"][int(late[1]) - 1]
            numbers = re.findall(r"\d+", found[2]) if found[2] else range(1, len(first["steps"]) + 1)
            musts = [first["steps"][int(number) - 1] for number in numbers]
            if late[3] is not None:
                guest = next(one for one in then["pieces"] if one["id"] == late[3].removeprefix("its "))
                assert guest["from"].split("/")[:2] == [first["id"], late[4]]
                assert guest["id"] in waiting["cut"]
                assert [late[4] in one["cut"] for one in musts] == [True]
            else:
                assert f"{first['id']}/" in "".join(waiting["after"])
                assert not found[2] or {f"{first['id']}/{one['id']}" for one in musts} <= set(waiting["after"])
            at = order.index(f"{then['title']} {late[1]}")
            assert all(order.index(f"{first['title']} {number}") < at for number in numbers), text
    # Each is told on two sheets; what the proof calls lost is not told at all.
    lost = [
        one["at"][0] for one in facts.proof["findings"] if one["rule"] in ("cut-out-too-small", "cut-out-overdrawn")
    ]
    reasons = [one for one in facts.proof["order"]["because"] if one["reason"] != "drying" and one["at"] not in lost]
    assert told == 2 * len(reasons)


def _before(project: Tree, step: Tree) -> list[str]:
    if "after" in step:
        return [one if "/" in one else f"{project['id']}/{one}" for one in step["after"]]
    at = project["steps"].index(step)
    return [f"{project['id']}/{project['steps'][at - 1]['id']}"] if at else []


def _held(step: Tree, *, clamped: bool) -> int:
    return _seconds(step.get("hold")) if (step.get("held") == "clamped") == clamped else 0


def _seconds(duration: str | None) -> int:
    amount, unit = (duration or "0 s").split()
    return int(amount) * SECONDS[unit]


def _spoken(words: str) -> int:
    return sum(int(number) * SECONDS[unit] for number, unit in re.findall(r"(\d+) (h|min|s)\b", words))


def _clock(text: str) -> int:
    hours, minutes = text.split(":")
    return int(hours) * 3600 + int(minutes) * 60


def test_what_can_be_done_while_something_dries_takes_no_longer_than_that(sheets, facts):
    numbers = {project["title"]: project for project in facts.projects()}
    for project in facts.projects():
        items = [one for one in sheets.files[project["id"]].tree.all("LI") if re.match(r"\d+\.", one.text)]
        for item, step in zip(items, project["steps"], strict=True):
            for doing in re.findall(r"While this dries, you can (.*)\.$", item.text):
                done, _, begun = doing.partition("begin ")
                hands = sum(
                    _seconds(one.get("work")) * other.get("makes", 1) for other, one in _named(done, project, numbers)
                )
                assert hands <= _seconds(step["dry"]), doing
                for other, one in _named(begun, project, numbers):
                    assert hands + _seconds(one["work"]) * other.get("makes", 1) > _seconds(step["dry"]), doing


def _named(words: str, project: Tree, titles: dict[str, Tree]) -> Iterator[tuple[Tree, Tree]]:
    """The steps that a few words name."""
    for phrase in re.findall(r"steps? .*?(?=, then steps?|$)", words.removesuffix(" and ").removeprefix("do ")):
        other = next((one for title, one in titles.items() if phrase.endswith(f" of the {title}")), project)
        listed = phrase.partition(" of the ")[0]
        for first, last in re.findall(r"(\d+)(?: to (\d+))?", listed):
            for number in range(int(first), int(last or first) + 1):
                yield other, other["steps"][number - 1]


def test_sums_of_dimensions_hold_as_drawn(sheets, facts):
    """The measures along each side of a flat part add up to the whole, as a reader with a pencil would check."""
    for project in facts.projects():
        for form in project.get("forms", ()):
            for part in flat_facts(facts, project, form):
                for axis in (0, 1):
                    spans = part.spans(axis)
                    assert not spans or sum(spans) == part.size[axis]
                    assert all(after > 0 for _, after in pairwise([1, *spans]))
