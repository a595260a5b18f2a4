"""Step text: words, references in braces, doubled braces, and braces that belong to nothing."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from layouts.assembly import Reference, StrayBrace, Words, parse_text


def _shown(text: str) -> list[str]:
    marks = {Words: "w", Reference: "r", StrayBrace: "s"}
    return [f"{marks[type(part)]}:{part.text}" for part in parse_text(text)]


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        pytest.param("", [], id="nothing"),
        pytest.param("Fold it.", ["w:Fold it."], id="words"),
        pytest.param("Cut {A}.", ["w:Cut ", "r:A", "w:."], id="one reference"),
        pytest.param("{A}{B}", ["r:A", "r:B"], id="side by side"),
        pytest.param("Write {{A}}.", ["w:Write {A}."], id="doubled braces are words"),
        pytest.param("{{{A}}}", ["w:{", "r:A", "w:}"], id="a reference in braces"),
        pytest.param("Cut {A", ["w:Cut ", "s:{", "w:A"], id="never closed"),
        pytest.param("Cut A}", ["w:Cut A", "s:}"], id="never opened"),
        pytest.param("{A {B}", ["s:{", "w:A ", "r:B"], id="opened twice"),
        pytest.param("{A}}", ["r:A", "s:}"], id="closed twice"),
        pytest.param("{}", ["r:"], id="nothing between"),
        pytest.param("{front border}", ["r:front border"], id="no name, but meant as one"),
    ],
)
def test_text_falls_into_parts(text, parts):
    assert _shown(text) == parts


@pytest.mark.parametrize(
    ("text", "kind", "within", "names"),
    [
        pytest.param("A", None, None, ("A",), id="a thing"),
        pytest.param("A.pane.top", None, None, ("A", "pane", "top"), id="a side of a window"),
        pytest.param("rail-low.left", None, None, ("rail-low", "left"), id="a placement"),
        pytest.param("lid.turn_in", None, None, ("lid", "turn_in"), id="a field of two words"),
        pytest.param("calendar/H", None, "calendar", ("H",), id="another project"),
        pytest.param("calendar/H.width", None, "calendar", ("H", "width"), id="a figure of another project"),
        pytest.param("blank:chest.front", "blank", None, ("chest", "front"), id="a face of a blank"),
        pytest.param("paper:trellis", "paper", None, ("trellis",), id="a paper"),
        pytest.param("supply:twine.length", "supply", None, ("twine", "length"), id="a figure of a supply"),
        pytest.param("tool:knife", None, None, (), id="a kind that text does not name"),
        pytest.param("calendar/H/pane", None, None, (), id="too many slashes"),
        pytest.param("blank:calendar/H", None, None, (), id="a kind and a project"),
        pytest.param(" A", None, None, (), id="a blank before"),
        pytest.param("A.", None, None, (), id="a point at the end"),
        pytest.param("A..top", None, None, (), id="two points"),
        pytest.param("", None, None, (), id="nothing"),
    ],
)
def test_a_reference_is_read(text, kind, within, names):
    read = Reference.read(text)

    assert (read.kind, read.within, read.names) == (kind, within, names)


@given(st.text(alphabet="{}Aab.:/ \n", max_size=30))
def test_parts_cover_the_text_without_gaps_and_give_it_back(text):
    parts = parse_text(text)

    assert [part.start for part in parts] == [0, *(part.end for part in parts)][: len(parts)]
    assert (parts[-1].end if parts else 0) == len(text)
    for part in parts:
        written = text[part.start : part.end]
        if isinstance(part, Reference):
            assert written == "{" + part.text + "}"
        elif isinstance(part, Words):
            assert written.replace("{{", "{").replace("}}", "}") == part.text
        else:
            assert written == part.text
