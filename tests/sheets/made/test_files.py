"""What every file must have: PDF/UA-1 as far as a program sees, a title, bookmarks, words for its figures."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from pikepdf import Array, Dictionary, Name, Object, Pdf, Stream

from tests.sheets.made.sets import SheetSet
from tests.sheets.pdf_ua import faults, opened

# Points: US letter, and A4 to the nearest point (CHECK-VALUES section 2.1: 210 by 297 mm).
PAGES = {"letter": (612, 792), "a4": (595, 842)}


def test_no_file_has_a_fault_that_a_program_can_see(sheets: SheetSet) -> None:
    assert {name: faults(file.pdf) for name, file in sheets.files.items() if faults(file.pdf)} == {}


def test_there_is_one_file_a_project_and_the_guide_and_the_templates(sheets: SheetSet) -> None:
    projects = {project["id"] for project in sheets.document["projects"]}
    assert set(sheets.files) == projects | {"cut-guide", "templates"}


# ISO 32000-1: 7.7.2 (catalogue), 7.7.4 (names), 12.6.4 (actions), 12.5.6.15 (attachments). PDF/UA-1 7.11 and 7.15 are
# about attachments and dynamic forms: what is not there has none of their faults.
ACTS = {
    "/AcroForm",
    "/AA",
    "/OpenAction",
    "/JavaScript",
    "/JS",
    "/EmbeddedFiles",
    "/EF",
    "/Launch",
    "/URI",
    "/Filespec",
}


def test_files_hold_nothing_that_acts_asks_or_is_attached(sheets: SheetSet) -> None:
    for name, file in sheets.files.items():
        with opened(file.pdf) as document:
            held = {said for one in document.objects for said in _names(one)}
        assert not held & ACTS, name


def _names(value: object) -> Iterator[str]:
    """All keys and names in an object, but not in what it refers to: that is among the objects by itself."""
    if isinstance(value, Stream | Dictionary):
        for key, member in value.items():
            yield key
            yield from _names_beside(member)
    elif isinstance(value, Array):
        for member in value:
            yield from _names_beside(member)
    elif isinstance(value, Name):
        yield str(value)


def _names_beside(member: object) -> Iterator[str]:
    if not (isinstance(member, Object) and member.is_indirect):
        yield from _names(member)


def test_files_are_titled_and_say_their_language(sheets: SheetSet) -> None:
    titles = {project["id"]: project["title"] for project in sheets.document["projects"]}
    titles |= {"cut-guide": "Cut guide", "templates": "Templates"}
    for name, file in sheets.files.items():
        with opened(file.pdf) as document:
            assert str(document.docinfo.Title) == f"{titles[name]} · {sheets.document['title']}"
            assert str(document.Root.Lang) == "en"


def test_templates_alone_ask_the_printer_not_to_scale(sheets: SheetSet) -> None:
    for name, file in sheets.files.items():
        with opened(file.pdf) as document:
            scaling = document.Root.ViewerPreferences.get("/PrintScaling")
        assert (str(scaling) == "/None") == (name == "templates")


def test_pages_have_the_size_that_was_chosen(sheets: SheetSet) -> None:
    sizes = {(round(page.width), round(page.height)) for file in sheets.files.values() for page in file.pages}
    assert sizes == {PAGES[sheets.options.page]}


def test_bookmarks_are_the_headings(sheets: SheetSet) -> None:
    for file in sheets.files.values():
        headings = [element.text for element in file.tree.all("H1", "H2")]
        with opened(file.pdf) as document:
            assert [" ".join(title.split()) for title in _bookmarks(document)] == headings


def _bookmarks(document: Pdf) -> list[str]:
    def under(item: Object) -> list[str]:
        found: list[str] = []
        child: Any = item.get("/First")
        while child is not None:
            found += [str(child.Title), *under(child)]
            child = child.get("/Next")
        return found

    return under(document.Root.Outlines)


def test_every_figure_says_in_words_what_it_shows(sheets: SheetSet) -> None:
    for file in sheets.files.values():
        words = [figure.alt for figure in file.tree.all("Figure")]
        assert all(len(alt) > 5 and alt.endswith(".") for alt in words), words
        assert len(set(words)) == len(words)


def test_tables_have_heads_and_rows_begin_with_one(sheets: SheetSet) -> None:
    for file in sheets.files.values():
        for table in file.tree.all("Table"):
            [head] = list(table.all("THead"))
            assert {cell.kind for cell in head.all("TH", "TD")} == {"TH"}
            columns = len(list(head.all("TH")))
            assert all(
                len(list(row.all("TH", "TD"))) in (1, columns) for body in table.all("TBody") for row in body.all("TR")
            )
            for body in table.all("TBody"):
                for row in body.all("TR"):
                    kinds = [cell.kind for cell in row.all("TH", "TD")]
                    assert kinds[0] == "TH"
                    assert set(kinds[1:]) <= {"TD"}


def test_short_prints_say_that_they_have_no_plan(sheets: SheetSet) -> None:
    names = {paper["id"]: paper["name"] for paper in sheets.document["papers"]}
    short = [names[answer["paper"]] for answer in sheets.proof["papers"] if answer["verdict"] == "short"]
    guide = [text for text in sheets.files["cut-guide"].texts if "no cut plan" in text]
    assert guide == [f"{name}: no cut plan, the paper in the box does not suffice" for name in short]
    lists = [text for file in sheets.files.values() for text in file.texts if "There is no cut plan" in text]
    assert len(lists) == len(short)
    assert all(text.startswith(tuple(short)) for text in lists)
