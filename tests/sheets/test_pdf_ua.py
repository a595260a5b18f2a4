"""What the renderer writes has no fault that a program can see; and each fault, put in on purpose, is seen."""

from __future__ import annotations

from collections.abc import Callable
from io import BytesIO
from typing import Any

import pikepdf
import pytest
from pikepdf import Array, Dictionary, Name, Pdf

from tests.sheets.pdf_ua import elements, faults, kids, kind, opened
from tests.sheets.specimen import page

type Change = Callable[[Pdf], object]


def _first(document: Pdf, name: str) -> Any:
    return next(element for element in elements(document) if kind(element) == name)


def _rewritten(pdf: bytes, change: Change) -> bytes:
    written = BytesIO()
    with opened(pdf) as document:
        change(document)
        document.save(written)
    return written.getvalue()


def test_a_page_with_one_of_everything_has_no_fault(specimen):
    assert faults(specimen) == []


def test_what_is_only_rewritten_has_no_fault_either(specimen):
    assert faults(_rewritten(specimen, lambda document: None)) == []


def _set(path: str, value: object) -> Change:
    *way, last = path.split("/")

    def change(document: Pdf) -> None:
        holder: Any = document.Root
        for step in way:
            holder = holder[f"/{step}"]
        if value is None:
            del holder[f"/{last}"]
        else:
            holder[f"/{last}"] = value

    return change


def _metadata(old: bytes, new: bytes) -> Change:
    def change(document: Pdf) -> None:
        metadata = document.Root.Metadata
        assert old in metadata.read_bytes()
        metadata.write(metadata.read_bytes().replace(old, new))

    return change


def _element(name: str, change_of: Callable[[Any], object]) -> Change:
    return lambda document: change_of(_first(document, name))


def _put(key: str, value: object) -> Callable[[Any], None]:
    return lambda holder: holder.__setitem__(key, value)


def _drop(key: str) -> Callable[[Any], None]:
    return lambda holder: holder.__delitem__(key)


def _content(old: bytes, new: bytes) -> Change:
    def change(document: Pdf) -> None:
        content = document.pages[0].Contents
        assert old in content.read_bytes()
        content.write(content.read_bytes().replace(old, new, 1))

    return change


def _fonts(document: Pdf) -> list[Any]:
    return [one for one in document.objects if isinstance(one, Dictionary) and one.get("/Subtype") == Name.Type0]


def _font(change_of: Callable[[Any], object]) -> Change:
    return lambda document: [change_of(font) for font in _fonts(document)]


def _link(change_of: Callable[[Any], object]) -> Change:
    return lambda document: [change_of(note) for one in document.pages for note in one.get("/Annots", ())]


def _outside_of_the_page(figure: Any) -> None:
    figure.A.BBox = Array([0, -90, 60, -30])


def _one_cell_less(row: Any) -> None:
    row.K = Array(list(row.K)[:-1])


def _twice(element: Any) -> None:
    element.K = Array([*element.K, *element.K[:1]])


def _in_a_row(element: Any) -> None:
    element.S = Name.TR


def _wider(font: Any) -> None:
    widths = font.DescendantFonts[0].W
    widths[1] = Array([width + 40 for width in widths[1]])


def _out_of_the_tree(document: Pdf) -> None:
    parent = _first(document, "P").P
    parent.K = Array([kid for kid in parent.K if kind(kid) != "P"])


def _other_way_back(document: Pdf) -> None:
    listed = document.Root.StructTreeRoot.ParentTree.Nums[1]
    listed[0] = listed[1]


def _all_annotations_loose(document: Pdf) -> None:
    for element in elements(document):
        if kind(element) == "Link":
            element.K = Array([kid for kid in kids(element) if isinstance(kid, int)])


def _no_order_of_links(document: Pdf) -> None:
    for one in document.pages:
        del one.Tabs


def _text_in_a_form(document: Pdf) -> None:
    content = document.pages[0].Contents.read_bytes()
    form = document.make_stream(content, Type=Name.XObject, Subtype=Name.Form, BBox=[0, 0, 612, 792])
    form.Resources = document.pages[0].Resources
    document.pages[0].Resources.XObject["/Twice"] = form


def _heads_nameless(document: Pdf) -> None:
    for head in (element for element in elements(document) if kind(element) == "TH"):
        del head.ID


def _heads_unnamed(document: Pdf) -> None:
    for cell in (element for element in elements(document) if kind(element) in ("TH", "TD")):
        for key in ("/Headers", "/Scope"):
            if key in cell.A:
                del cell.A[key]


FAULTS: list[tuple[str, str, Change]] = [
    ("no metadata", "5: no metadata", _set("Metadata", None)),
    ("another part", "5: not said to be PDF/UA-1", _metadata(b'part="1"', b'part="2"')),
    ("no title", "7.1: no title", _metadata(b"The Potting Shed: the chest", b" ")),
    ("title not shown", "7.1: the title is not what is shown", _set("ViewerPreferences/DisplayDocTitle", False)),
    ("not marked", "6.2: not marked", _set("MarkInfo/Marked", False)),
    ("doubtful", "7.1: tags are said to be doubtful", _set("MarkInfo/Suspects", True)),
    ("no tree", "7.1: no structure tree", _set("StructTreeRoot", None)),
    ("no language", "7.2: no language", _set("Lang", None)),
    ("no language's name", "7.2: no language", _set("Lang", pikepdf.String("in English"))),
    ("type of our own", "7.1: elements of the type Panel", _element("P", _put("/S", Name.Panel))),
    (
        "standard type mapped",
        "7.1: the standard type P is mapped",
        _set("StructTreeRoot/RoleMap", Dictionary(P=Name.Span)),
    ),
    ("types mapped in a circle", "7.1: elements of the type A,", lambda document: _in_a_circle(document)),
    ("paragraph in a table", "7.2: P directly in Table", _element("THead", _put("/S", Name.P))),
    ("row outside a table", "7.2: TR directly in Document", _element("P", _in_a_row)),
    ("item outside a list", "7.2: LI directly in Document", _element("P", _put("/S", Name.LI))),
    ("bare content in a list", "7.2: P directly in L", _element("LI", _put("/S", Name.P))),
    ("row too short", "7.2: row 1 of a table has not as many cells", _element("TR", _one_cell_less)),
    ("cells in one place", "7.2: two cells of a table in one place", lambda document: _on_top(document)),
    ("unknown head", "7.5: a cell refers to a head that is not there", _heads_nameless),
    ("no heads", "7.5: a cell of a table has no head", _heads_unnamed),
    ("figure without words", "7.3: a figure without a text", _element("Figure", _drop("/Alt"))),
    ("figure with empty words", "7.3: a figure without a text", _element("Figure", _put("/Alt", pikepdf.String(" ")))),
    ("figure elsewhere", "7.3: a figure said to stand outside", _element("Figure", _outside_of_the_page)),
    ("heading skipped", "7.4.2: a heading of level 3 after one of level 1", _element("H2", _put("/S", Name.H3))),
    ("no first heading", "7.4.2: a heading of level 2 after one of level 0", _element("H1", _put("/S", Name.P))),
    ("heading without level", "7.4.4: headings without a level", _element("H1", _put("/S", Name.H))),
    ("nameless note", "7.9: a note without an identifier", _element("P", _put("/S", Name.Note))),
    ("one name for two", "7.9: two elements with one identifier", lambda document: _same_name(document)),
    ("names not listed", "14.7.2: the list of identifiers", _set("StructTreeRoot/IDTree", None)),
    ("no order of links", "7.18.3: page", _no_order_of_links),
    ("wordless link", "7.18.5: a link on page", _link(_drop("/Contents"))),
    ("loose link", "7.18.5: a link on page", _all_annotations_loose),
    ("link outside structure", "7.18.1: an annotation on page", _link(_drop("/StructParent"))),
    ("paint outside", "7.1: something is painted on page 1", _content(b"EMC", b"EMC 0 0 9 9 re f")),
    ("text outside", "7.1: something is painted on page 1", _out_of_the_tree),
    ("text in adornment", "7.1: text and adornment within each other", _content(b"BT", b"/Artifact BMC BT")),
    ("no way back", "7.1: content 0 of page 1 does not lead back", _other_way_back),
    (
        "content gone",
        "7.1: an element /Span of page 1 whose content is not there",
        _content(b"/MCID 0>>", b"/MCID 999>>"),
    ),
    ("text drawn twice", "7.20: text of the page within a picture", _text_in_a_form),
    ("face outside", "7.21.4.1: FFTDXU+Commissioner-Bold is not in the file", lambda document: _face_outside(document)),
    ("other numbers", "7.21.3.2: ", _font(_put("/Encoding", Name("/Identity-V")))),
    ("other widths", "7.21.5: glyph", _font(_wider)),
    ("unreadable", "7.21.7: glyph", _font(_drop("/ToUnicode"))),
    ("empty face", "7.21.4.1: glyph", lambda document: _emptied(document)),
    ("glyph lacking", "7.21.8: ", lambda document: _glyph_lacking(document)),
    ("simple font", "7.21.4.1: ", _font(_put("/Subtype", Name.TrueType))),
]


def _in_a_circle(document: Pdf) -> None:
    document.Root.StructTreeRoot.RoleMap = Dictionary({"/A": Name.B, "/B": Name.A})
    _first(document, "P").S = Name.A


def _on_top(document: Pdf) -> None:
    rows = [element for element in elements(document) if kind(element) == "TR"]
    rows[0].K[1].A.RowSpan = 2
    rows[1].K[0].A.ColSpan = 2


def _same_name(document: Pdf) -> None:
    first, second = [element for element in elements(document) if "/ID" in element][:2]
    second.ID = first.ID


def _face_outside(document: Pdf) -> None:
    for font in _fonts(document):
        del font.DescendantFonts[0].FontDescriptor.FontFile2


def _emptied(document: Pdf) -> None:
    from kits.sheets.render.faces import cut_down

    for font in _fonts(document):
        file = font.DescendantFonts[0].FontDescriptor.FontFile2
        file.write(cut_down(file.read_bytes(), ()))


def _glyph_lacking(document: Pdf) -> None:
    content = document.pages[0].Contents
    before, show, after = content.read_bytes().partition(b"] TJ")
    content.write(before + b" <fff0>" + show + after)


@pytest.mark.parametrize(
    ("said", "change"),
    [pytest.param(said, change, id=name) for name, said, change in FAULTS],
)
def test_a_fault_that_is_put_in_is_seen(specimen, said, change):
    assert any(fault.startswith(said) for fault in faults(_rewritten(specimen, change)))


def test_an_encrypted_file_is_seen(specimen):
    written = BytesIO()
    with opened(specimen) as document:
        document.save(written, encryption=pikepdf.Encryption(owner="o", user=""))
    assert "7.16: the file is encrypted" in faults(written.getvalue())


def test_the_bare_library_has_the_faults_that_are_put_right_afterwards(renderer):
    """What `finish` is there for: without it these would stand."""
    from weasyprint import HTML

    html = page('<p><a href="#b">to <b id="b">it</b></a></p>', "@page { @top-left { content: 'head' } }")
    bare = HTML(string=html.replace("<style>", "<title>T</title><style>")).write_pdf(pdf_variant="pdf/ua-1")
    assert {fault.split(":")[0] for fault in faults(bare)} == {"7.1", "7.18.5"}
    assert faults(renderer.pdf(html, {}, title="T")) == []


def test_heads_in_the_margin_are_no_part_of_the_text(specimen):
    with opened(specimen) as document:
        for one in document.pages:
            assert one.Contents.read_bytes().count(b"/Type /Pagination") == 3  # the swatch, the words, the page number


def test_bookmarks_lead_to_the_headings(specimen):
    with opened(specimen) as document, document.open_outline() as outline:
        (chest,) = outline.root
        assert chest.title == "The chest"
        assert [one.title for one in chest.children] == ["Cutting", "Steps"]
        assert [one.title for one in chest.children[1].children] == ["Keep"]


def test_links_are_read_as_their_words(specimen):
    with opened(specimen) as document:
        words = [str(note.Contents) for one in document.pages for note in one.get("/Annots", ())]
    assert words == ["the steps", "corrections"]


def test_a_true_size_page_asks_not_to_be_scaled(renderer):
    with opened(renderer.pdf(page("<h1>Bars</h1>"), {}, title="T", true_size=True)) as document:
        assert str(document.Root.ViewerPreferences.PrintScaling) == "/None"
    with opened(renderer.pdf(page("<h1>Bars</h1>"), {}, title="T")) as document:
        assert "/PrintScaling" not in document.Root.ViewerPreferences
