"""What is read out of a sheet is what was set, and what no face has is known before."""

from __future__ import annotations

import re
import unicodedata
from io import BytesIO

import pypdfium2
import pytest
from fontTools.ttLib import TTFont

from kits.sheets import coverage
from kits.sheets.coverage import covered, uncovered
from kits.sheets.render.faces import cut_down
from kits.sheets.rendering import Renderer
from tests.sheets.pdf_ua import faults
from tests.sheets.specimen import page

FRACTIONS = ("1⁄2", "3⁄4", "3⁄8", "5⁄8", "15⁄16", "1⁄64", "63⁄64")


def _text(pdf: bytes) -> str:
    document = pypdfium2.PdfDocument(pdf)
    return "\n".join(one.get_textpage().get_text_range() for one in document)


@pytest.mark.parametrize("fraction", FRACTIONS)
def test_a_fraction_is_read_as_it_was_typed(renderer, fraction):
    style = ".fr { font-feature-settings: 'frac'; font-size: 1.15em }"
    for weight in (400, 600, 700):
        html = page(f'<p style="font-weight: {weight}">6 <span class="fr">{fraction}</span> in</p>', style)
        assert _text(renderer.pdf(html, {}, title="T")) == f"6 {fraction} in"


def _width(renderer: Renderer, words: str) -> float:
    """From the left of the first figure to the right of the last, in points."""
    text = pypdfium2.PdfDocument(renderer.pdf(page(f"<p>{words}</p>"), {}, title="T"))[0].get_textpage()
    first, last = text.get_charbox(0), text.get_charbox(text.count_chars() - 1)
    return float(last[2]) - float(first[0])


def test_figures_around_a_fraction_slash_are_set_as_a_fraction(renderer):
    """The face has no sixteenths of its own: it makes them of smaller figures."""
    assert _width(renderer, "15⁄16") < 0.8 * _width(renderer, "15/16")


def test_a_fraction_leaves_the_whole_number_in_front_of_it_alone(renderer):
    """Seen: a feature on the whole of "6 3/4" made a superscript of the six, a misprint made by a style sheet."""
    before = _width(renderer, "6") + _width(renderer, "3⁄4")
    for words in ("6 3⁄4", "6\u00a03⁄4", "6\u20093⁄4", "<span style=\"font-feature-settings: 'frac'\">6 3⁄4</span>"):
        assert before < _width(renderer, words) < before + 8


@pytest.mark.parametrize("weight", [400, 600, 700])
def test_figures_of_one_width_stand_under_each_other(renderer, weight):
    html = page(
        "".join(f"<p>{figure * 6}|</p>" for figure in "0123456789"),
        f"p {{ font-feature-settings: 'tnum'; font-weight: {weight}; margin: 0 }}",
    )
    text = pypdfium2.PdfDocument(renderer.pdf(html, {}, title="T"))[0].get_textpage()
    words = text.get_text_range()
    ends = {round(text.get_charbox(at)[0], 1) for at, letter in enumerate(words) if letter == "|"}
    assert words.count("|") == 10
    assert len(ends) == 1


@pytest.mark.parametrize(
    ("text", "lacking"),
    [
        pytest.param("6 3⁄4 × 15⁄16 in, “A” — ½ ¼ ¾ 12″ −", set(), id="measures"),
        pytest.param("⅛ ⅜ ⅝ ⅞ ≤ → ☐ ✓ ✂ ①", set(), id="signs"),
        pytest.param("Ďábelský Łódź Straße İstanbul Việt Nam Ωμέγα Жёлтый", set(), id="letters"),
        pytest.param("\t\n\u00a0\u2009\u202f\u2011", set(), id="white"),
        pytest.param("\N{REPLACEMENT CHARACTER}", set(), id="the sign for what is lacking"),
        pytest.param("紙 𝔸 🌱", {"紙", "𝔸", "🌱"}, id="no face has them"),
        pytest.param("6\u202e4/3\u202c\u2066\u200f", {"\u202e", "\u202c", "\u2066", "\u200f"}, id="turned about"),
        pytest.param("a\u2028b\x00\x07", {"\u2028", "\x00", "\x07"}, id="controls"),
    ],
)
def test_what_no_face_has_is_known(text, lacking):
    assert uncovered(text) == lacking
    assert covered(text) == "".join("\N{REPLACEMENT CHARACTER}" if letter in lacking else letter for letter in text)


@pytest.mark.parametrize("weight", [400, 600, 700])
def test_every_character_that_is_covered_can_be_set_and_read(renderer, weight):
    everything = [chr(point) for point in range(0x20, 0x2FFFF) if not uncovered(chr(point))]
    assert len(everything) > 2500
    # A mark needs a letter to stand on.
    words = [f"o{one}" if unicodedata.combining(one) else one for one in everything if not one.isspace()]
    escaped = " ".join(words).replace("&", "&amp;").replace("<", "&lt;")
    pdf = renderer.pdf(page(f'<p style="font-weight: {weight}">{escaped}</p>'), {}, title="T")
    assert [fault for fault in faults(pdf) if "7.21" in fault] == []
    read = unicodedata.normalize("NFD", re.sub(r"\s", "", _text(pdf)))
    # The reader takes a hyphen at the end of a line for a broken word.
    lacking = set(unicodedata.normalize("NFD", "".join(words))) - set(read) - {"\u00ad", "\u200b"}
    assert lacking == set()


def test_a_face_keeps_what_its_letters_are_made_of():
    whole = (coverage.FONTS / "Commissioner-Regular.ttf").read_bytes()
    face = TTFont(BytesIO(whole))
    composed = face.getGlyphID(face.getBestCmap()[ord("Ẫ")])
    cut = TTFont(BytesIO(cut_down(whole, {composed})))
    drawn = {name for name in cut.getGlyphOrder() if cut["glyf"][name].numberOfContours}
    assert len(drawn) >= 3  # .notdef, the letter and what it is made of
    assert cut["hmtx"][cut.getGlyphOrder()[composed]] == face["hmtx"][face.getGlyphOrder()[composed]]
    assert len(cut_down(whole, {composed})) < len(whole) / 5
