"""Every number that can be read in a PDF belongs to the document: each is led back to its place.

Cells are compared with the figures of the proof's `printed` list, settings with distances in its plan, counts, times
and numbers of steps with the document. A number that no test of a block explains fails.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from typing import Any

import pytest

from kits.sheets.content.cautions import CAUTIONS
from tests.sheets.made.carried_out import carry_out
from tests.sheets.made.facts import Facts, leaves, numbers_in, ticks_of
from tests.sheets.made.form_facts import drawn_parts
from tests.sheets.made.sets import MadeFile, SheetSet

type Tree = dict[str, Any]

UNITS = {"s": "second", "min": "minute", "h": "hour"}
SIDES = ("left", "right", "top", "bottom", "width", "height")


@pytest.fixture
def facts(sheets: SheetSet) -> Facts:
    return Facts(sheets.document, sheets.proof, sheets.options.unit)


def _projects(sheets: SheetSet, facts: Facts) -> list[tuple[Tree, MadeFile]]:
    return [(project, sheets.files[project["id"]]) for project in facts.projects()]


def _without_names(text: str, facts: Facts) -> str:
    for name in facts.names():
        if re.search(r"\d", name):
            text = text.replace(name, "")
    return text


# Project sheets ----------------------------------------------------------------------------------------------------


def test_cutting_lists_show_what_the_proof_prints(sheets, facts):
    for project, file in _projects(sheets, facts):
        rows = [row for table in file.tables() for row in table if len(row) == 5]
        expected = facts.cut_rows(project)
        # Behind the name stand notes, which hold no number but in names.
        read = Counter(
            (letter, next((one[1] for one in expected if one[0] == letter), name), count, own, other)
            for letter, name, count, own, other in rows
        )
        assert read == expected
        named = {(letter, name) for letter, name, *_ in expected}
        assert all(any(said.startswith(name) for one, name in named if one == letter) for letter, said, *_ in rows)
        assert not [note for _, note, *_ in rows if numbers_in(_without_names(_after_part(note), facts))]


def _after_part(name: str) -> str:
    return re.sub(r", part \d+", "", name, count=1)


def test_steps_say_the_figures_that_they_refer_to(sheets, facts):
    for project, file in _projects(sheets, facts):
        items = [item for item in file.tree.all("LI") if re.match(r"\d+\.", item.text)]
        assert len(items) == len(project.get("steps", ()))
        for number, (item, step) in enumerate(zip(items, project["steps"], strict=True), start=1):
            label, *paragraphs = [block.text for block in item.blocks()]
            assert label == f"{number}."
            needed = {*step.get("cautions", ()), *_forgotten(f"project:{project['id']}/step:{step['id']}", facts)}
            cautions = [CAUTIONS[name] for name in CAUTIONS if name in needed]
            assert paragraphs[: len(cautions)] == [f"{one.signal} {one.text}" for one in cautions]
            text, *after = paragraphs[len(cautions) :]
            assert numbers_in(text) == _numbers_of_step(step["text"], project, facts)
            # What can be done meanwhile is held against the document elsewhere.
            assert [re.sub(r" While this .* you can .*\.$", "", one) for one in after] == _waits(step)


def _forgotten(step: str, facts: Facts) -> list[str]:
    """The cautions that the proof misses in a step."""
    found = [one for one in facts.proof["findings"] if one["rule"] == "caution-needed" and step in one["at"]]
    return [one["why"]["caution"] for one in found]


def _numbers_of_step(text: str, project: Tree, facts: Facts) -> list[str]:
    """What is typed, and the figures of the measures that are referred to, in the order of reading."""
    told = re.sub(r"\{([^{}]+)\}", lambda found: f" {_referred(found[1], project, facts)} ", text)
    return numbers_in(re.sub(r"(?<=\d)/(?=\d)", "⁄", told))


def _referred(reference: str, project: Tree, facts: Facts) -> str:
    name, *path = reference.split(".")
    if not path or ":" in name:
        return "thing"
    owner = f"project:{project['id']}"
    way = "/".join(path)
    places = {
        f"{owner}/{kind}:{name}/{middle}{way}"
        for kind in ("piece", "form", "placement")
        for middle in ("", "size/", *(f"window:{window}/" for window in _windows(project, name)))
    }
    places |= {re.sub(r"(window:[^/]+)/\w+/(?=\w+$)", r"\1/", place) for place in places}
    places |= {f"{owner}/piece:{name}/window:{path[0]}/{path[-1]}"}
    found = [one["at"] for one in facts.proof["printed"] if one["at"] in places]
    if found:
        assert len(found) == 1, reference
        return facts.printed(found[0])
    things = [*project.get("pieces", ()), *project.get("forms", ())]
    value = next((thing[way] for thing in things if thing["id"] == name and way in thing), "thing")
    # A length that is said but no more than the default: the proof's list leaves it out.
    is_length = isinstance(value, str) and value[0].isdigit()
    return facts.figure(ticks_of(value, facts.document["unit"])) if is_length else str(value)


def _windows(project: Tree, piece: str) -> list[str]:
    found = [one for one in project.get("pieces", ()) if one["id"] == piece]
    return [window["id"] for one in found for window in one.get("windows", ())]


def _waits(step: Tree) -> list[str]:
    said = []
    if "hold" in step:
        how = "Leave clamped for" if step.get("held") == "clamped" else "Hold for"
        said.append(f"{how} {_duration(step['hold'])}.")
    if "dry" in step:
        said.append(f"Leave to dry for {_duration(step['dry'])}.")
    return said


def _duration(text: str) -> str:
    amount, unit = text.split()
    return f"{amount} {UNITS[unit]}{'' if amount == '1' else 's'}"


def test_times_of_all_sheets_add_up_to_the_proof(sheets, facts):
    """Working time is told in minutes, each sheet's rounded up."""
    at_work = waiting = 0
    for _, file in _projects(sheets, facts):
        sentence = next(text for text in file.texts if "at work" in text)
        work, _, wait = sentence.partition(" at work")
        at_work += _seconds(work)
        waiting += _seconds(wait)
    time = facts.proof["time"]
    assert waiting == time["waiting_s"]
    assert time["hands_on_s"] <= at_work < time["hands_on_s"] + 60 * len(facts.projects())


def _seconds(words: str) -> int:
    many = re.findall(r"(\d+) (h|min|s)\b", words)
    return sum(int(number) * {"h": 3600, "min": 60, "s": 1}[unit] for number, unit in many)


def test_supplies_are_told_as_the_steps_use_them(sheets, facts):
    for project, file in _projects(sheets, facts):
        makes = project.get("makes", 1)
        used: Counter[str] = Counter()
        lengths = []
        for step in project["steps"]:
            for at, use in enumerate(step.get("use", ()), start=1):
                kind = next(kind for kind in ("piece", "form", "element", "blank", "supply") if kind in use)
                many = use.get("count", 1) * makes
                if "length" in use:
                    told = f"{facts.printed(f'project:{project["id"]}/step:{step["id"]}/use/{at}/length')} {facts.unit}"
                    lengths.append(told if many == 1 else f"{many} lengths of {told}")
                elif kind not in ("piece", "form"):
                    used[_name_of(kind, use[kind], facts)] += many
        listed = _ready(file)
        counted = {name: int(many) for many, name in re.findall(r"(\d+) × ([^·(]+?)(?= [(·]|$)", listed)}
        assert counted == {name: many for name, many in used.items() if many > 1}
        assert re.findall(r"(?<=, )(?:\d+ lengths of )?\d[\d ⁄]* (?:in|mm)\b", listed) == lengths
        told_numbers = Counter(numbers_in(_without_names(listed, facts)))
        assert told_numbers == Counter(map(str, counted.values())) + Counter(numbers_in(" ".join(lengths)))


def _name_of(kind: str, name: str, facts: Facts) -> str:
    if kind == "element":
        sheet, _, element = name.partition("/")
        elements = next(one["elements"] for one in facts.document["embellishments"] if one["id"] == sheet)
        return str(next(one["name"] for one in elements if one["id"] == element))
    listed = facts.document["blanks" if kind == "blank" else "supplies"]
    return str(next(one["name"] for one in listed if one["id"] == name))


def _ready(file: MadeFile) -> str:
    """What stands under “From the box and the drawer”."""
    texts = file.texts
    heading = "From the box and the drawer"
    return texts[texts.index(heading) + 1] if heading in texts else ""


def test_drawings_show_the_measures_of_their_pieces(sheets, facts):
    for project, file in _projects(sheets, facts):
        pieces = [piece for piece in project.get("pieces", ()) if "windows" in piece or "shape" in piece]
        figures = list(file.tree.all("Figure"))
        for piece, figure in zip(pieces, figures[: len(pieces)], strict=True):
            place = f"project:{project['id']}/piece:{piece['id']}"
            expected = [facts.printed(f"{place}/size/{side}") for side in ("width", "height")]
            for window in piece.get("windows", ()):
                if not _is_outside(f"{place}/window:{window['id']}", facts):
                    expected += [
                        facts.printed(f"{place}/window:{window['id']}/{side}") for side in SIDES if side in window
                    ]
            drawn = [run.text.strip() for run in figure.runs if run.in_drawing and run.text.strip()[0].isdigit()]
            assert sorted(drawn) == sorted(expected)
            assert sorted(numbers_in(figure.alt.replace("/", "⁄"))) == sorted(expected)


def _is_outside(place: str, facts: Facts) -> bool:
    return any(one["rule"] == "window-outside" and place in one["at"] for one in facts.proof["findings"])


# The cut guide -----------------------------------------------------------------------------------------------------


def _planned(facts: Facts) -> dict[str, Tree]:
    """The trees of all sheets by the headings that they must have."""
    return {
        f"{_paper(facts, paper)}, sheet {sheet['sheet']} of {len(plan)}": sheet["tree"]
        for paper, plan in facts.plans().items()
        for sheet in plan
    }


def _kept(facts: Facts) -> dict[str, Tree]:
    """The trees of all cut-outs that others come from."""
    return {
        f"Out of the window of {facts.letter(leaf['piece'])}": tree
        for whole in _planned(facts).values()
        for leaf in leaves(whole)
        for tree in leaf.get("cut_outs", {}).values()
    }


def _headings(file: MadeFile) -> list[str]:
    first, *headings, when, last = [element.text for element in file.tree.all("H2")]
    assert (first, when, last) == ("What comes from which sheet", "What to make when", "If a cut goes wrong")
    return headings


def test_every_cut_of_the_plan_is_made_once_from_a_part_that_is_there(sheets, facts):
    """Each row is carried out on the plan's rectangles: its part exists, and its cut runs between them."""
    file = sheets.files["cut-guide"]
    trees = _planned(facts) | _kept(facts)
    assert sorted(_headings(file)) == sorted(trees)
    tables = iter(file.tables())
    for heading in _headings(file):
        if "cut" in trees[heading]:
            carry_out(next(tables), trees[heading], facts)
    # What is left are the tables of what to make when, and of what could be cut again.
    assert len(list(tables)) == 2


def _paper(facts: Facts, paper: str) -> str:
    return str(next(one["name"] for one in facts.document["papers"] if one["id"] == paper))


def test_the_drawings_of_sheets_number_their_cuts_and_tell_sizes_of_pieces(sheets, facts):
    file = sheets.files["cut-guide"]
    tables = iter(file.tables())
    trees = _planned(facts) | _kept(facts)
    for heading, figure in zip(_headings(file), file.tree.all("Figure"), strict=False):
        drawn = [run.text.strip() for run in figure.runs if run.in_drawing]
        rows = next(tables)
        count = len(rows)
        assert drawn[len(drawn) - count :] == [row[0] for row in rows]
        pieces = [leaf for leaf in leaves(trees[heading]) if "piece" in leaf]
        allowed = {f"{facts.figure(leaf['width'])} × {facts.figure(leaf['height'])}" for leaf in pieces}
        sizes = [f"{drawn[at - 1]} × {drawn[at + 1]}" for at, text in enumerate(drawn) if text == "×"]
        assert set(sizes) <= allowed
        assert not [text for text in drawn[: len(drawn) - count] if text[0].isdigit()][2 * len(sizes) :]


def test_every_piece_that_lies_back_up_says_so(sheets, facts):
    """In words, in the examples; where a piece had no room for them, the guide would explain another sign."""
    file = sheets.files["cut-guide"]
    assert not any("black corner" in text for text in file.texts)
    told = 0
    for heading, figure in zip(_headings(file), file.tree.all("Figure"), strict=False):
        pieces = [leaf for leaf in leaves((_planned(facts) | _kept(facts))[heading]) if "piece" in leaf]
        backs = [leaf for leaf in pieces if leaf.get("side") == "back"]
        # A sheet of backs alone is turned over.
        drawn = "".join(run.text for run in figure.runs).replace(" ", "").count("backup")
        assert drawn == (0 if len(backs) == len(pieces) else len(backs)), heading
        told += drawn
    assert told


def test_what_could_be_cut_again_comes_out_of_the_offcut_that_is_named(sheets, facts):
    """Each row is held against the plan: the offcut is there, as large as it says, and large enough for its pieces."""
    file = sheets.files["cut-guide"]
    papers = {one["name"]: one for one in facts.document["papers"]}
    lettered = []
    for letter, of, size, gives in file.tables()[-1]:
        paper, _, which = of.rpartition(", ")
        number = which.removeprefix("sheet ") if which.startswith("sheet ") else None
        plan = facts.plans()[papers[paper]["id"]]
        pieces = {facts.letter(leaf["piece"]): leaf for sheet in plan for leaf in all_leaves(sheet["tree"])}
        if number is None:
            assert (letter, len(plan) < papers[paper]["sheets"]) == ("–", True)
            continue
        lettered.append((f"{paper}, sheet {number} of {len(plan)}", letter))
        found = [
            one
            for one in leaves(plan[int(number) - 1]["tree"])
            if "offcut" in one and size == f"{facts.figure(one['width'])} × {facts.figure(one['height'])}"
        ]
        assert found, (of, size)
        for name in re.split(r", | or ", gives):
            sides = sorted([pieces[name]["width"], pieces[name]["height"]])
            assert any(sides[0] <= min(one["width"], one["height"]) for one in found), (name, of)
            assert any(sides[1] <= max(one["width"], one["height"]) for one in found), (name, of)
    # Each letter stands once, and in the picture of the sheet that it is said to be on.
    figures = dict(zip(_headings(file), file.tree.all("Figure"), strict=False))
    assert len({letter for _, letter in lettered}) == len(lettered)
    for heading, letter in lettered:
        assert [run.text.strip() for run in figures[heading].runs if run.in_drawing].count(letter) == 1


def all_leaves(tree: Tree) -> Iterator[Tree]:
    """Everything that is cut from a sheet, also what comes out of its cut-outs."""
    for leaf in leaves(tree):
        if "piece" in leaf:
            yield leaf
        for inner in leaf.get("cut_outs", {}).values():
            yield from all_leaves(inner)


def test_every_piece_can_be_cut_again_or_is_named_among_those_that_cannot(sheets, facts):
    file = sheets.files["cut-guide"]
    names = {one["id"]: one["name"] for one in facts.document["papers"]}
    again = [(row[1].partition(",")[0], name) for row in file.tables()[-1] for name in re.split(r", | or ", row[3])]
    texts = file.texts
    listed = texts[texts.index("If a cut goes wrong") :]
    lost = [
        (paper, name)
        for paper, colon, letters in (text.partition(": ") for text in listed)
        if colon and paper in names.values()
        for name in letters.split(", ")
    ]
    cut = {
        (names[paper], facts.letter(leaf["piece"]))
        for paper, plan in facts.plans().items()
        for sheet in plan
        for leaf in all_leaves(sheet["tree"])
    }
    assert sorted([*again, *lost]) == sorted(cut)
    careful = re.search(r"Take most care with (.+?) of ([^:]+): there", listed[1])
    assert careful is not None
    assert (careful[2], careful[1]) in lost


def test_the_list_of_sheets_counts_what_the_plan_cuts(sheets, facts):
    file = sheets.files["cut-guide"]
    read = {
        heading: Counter(dict(_counted(one) for one in gives.split(", ")))
        for heading, _, gives in (text.partition(": ") for text in file.texts if re.search(r"sheet \d+ of \d+: ", text))
    }
    assert read == {
        heading: Counter(facts.letter(leaf["piece"]) for leaf in leaves(tree) if "piece" in leaf)
        for heading, tree in _planned(facts).items()
    }


def _counted(text: str) -> tuple[str, int]:
    times, _, letter = text.rpartition(" × ")
    return letter, int(times or 1)


# Templates, and all that is left ------------------------------------------------------------------------------------


def test_templates_tell_the_stated_size_of_what_they_show(sheets, facts):
    file = sheets.files["templates"]
    sizes = [
        f"{facts.printed(f'{place}/size/width')} × {facts.printed(f'{place}/size/height')} {facts.unit}, true size"
        for project in facts.projects()
        for piece in project.get("pieces", ())
        for place in [f"project:{project['id']}/piece:{piece['id']}"]
        if any(not _is_outside(f"{place}/window:{one['id']}", facts) for one in piece.get("windows", ()))
    ]
    told = [text for text in file.texts if text.endswith("true size")]
    assert [text for text in told if text in sizes] == sizes
    of_forms = [
        " × ".join(map(facts.figure, part.size)) + f" {facts.unit}, true size"
        for project in facts.projects()
        for form in project.get("forms", ())
        for part in drawn_parts(facts, project, form)
    ]
    # What has none for want of room is named in one sentence, its items apart by semicolons.
    without = [text.count(";") for text in file.texts if text.startswith("With their measures these flat parts")]
    assert Counter(told) - Counter(sizes) <= Counter(of_forms)
    assert len(told) - len(sizes) + sum(without) == len(of_forms)
    bars = next(file.tree.all("Figure"))
    assert sorted(run.text for run in bars.runs) == ["1 in", "150 mm", "50 mm", "6 in"]


EXPLAINED = {
    # Which blocks hold numbers that the tests above have compared, or that say nothing of the plan.
    "project": [
        r"\d+ × .*|.* · .*|[^,]*, \d[\d ⁄]* (in|mm)",  # supplies
        r".* make \d+",  # how many copies: below
        r"(\d+ (h|min|s) ?)+ at work.*|.*of drying and waiting\.",
        r"(Do|Finish) .* before step \d+.*",  # which steps wait: test_making
        r"(Hold|Leave).*",
        r"[^ ]+ .*[Ff]igures in \w+, to scale, 1 : [\d.]+\..*",
        r"\d+\.",
        # Those of forms: test_making.
        r"Panels: .*|Folded .*|Inside .*|\d Fold .*|Fold to and fro, \d+ folds.*|Glue .*",
    ],
    "cut-guide": [
        r".*sheet \d+ of \d+(: .*)?",
        r".*To scale, 1 : [\d.]+\.",
        r"\d+ cuts( at (one setting|\d+ settings); (no order of these cuts needs fewer|the fewest .*))?\.",
        r"Then cut the windows? of .*|Leave the window .* uncut: .*",  # names of parts
        r"One person has .*",
        r"[^:]+: ([\w-]+( \d+)?(, )?)+|Nothing that is left .*: check .*",  # parts of what cannot be cut again
    ],
    "templates": [r".*true size", r".*: .*, part \d", r"With their measures .*"],
}


def test_no_number_stands_anywhere_else(sheets, facts):
    cautions = [one.text for one in CAUTIONS.values()]
    for name, file in sheets.files.items():
        patterns = EXPLAINED.get(name, EXPLAINED["project"])
        in_steps = {id(run) for item in file.tree.all("LI") if re.match(r"\d+\.", item.text) for run in item.runs}
        for block in file.blocks:
            if block.kind in ("TD", "TH", "Figure") or any(id(run) in in_steps for run in block.runs):
                continue
            text = _without_names(block.text, facts)
            for caution in cautions:
                text = text.replace(caution, "")
            if numbers_in(text):
                assert any(re.fullmatch(pattern, text) for pattern in patterns), (name, text)


def test_copies_of_a_project_are_told_in_its_title(sheets, facts):
    for project, file in _projects(sheets, facts):
        makes = project.get("makes", 1)
        title = next(block.text for block in file.blocks if block.kind == "H1")
        assert title == project["title"] + (f" make {makes}" if makes > 1 else "")


def test_every_page_says_which_it_is_of_which_document(sheets, facts):
    foot = f"{facts.document['code']} · DRAFT {facts.proof['document'][:8]} · {facts.document['title']}"
    for file in sheets.files.values():
        for page in file.pages:
            running = " ".join("".join(run.text for run in page.written if run.mark == -1).split())
            assert running == f"{foot} page {page.number} of {len(file.pages)}"


def test_fractions_are_read_as_whole_number_and_fraction(sheets, facts):
    """`6 3⁄4`, never 63⁄4: the space stands in the text, not only on the page."""
    if sheets.options.unit != "in":
        return
    rows = [row for project, file in _projects(sheets, facts) for table in file.tables() for row in table]
    read = [cell for row in rows for cell in row if "⁄" in cell]
    assert read
    for cell in read:
        for fraction in re.findall(r"[\d ]*⁄\d+", cell):
            over, under = fraction.split()[-1].split("⁄")
            assert int(over) < int(under), cell
    assert ticks_of("6 3/4", "in") == 54864
