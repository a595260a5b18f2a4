"""Where versions of the rules for the ends of lines differ, the text says itself that a line does not end."""

from __future__ import annotations

import pypdfium2
import pytest

from kits.sheets.render.breaks import join
from tests.sheets.specimen import page

# Where Pango 1.50 (Unicode 14) and 1.56 (Unicode 16) were seen to differ; "|" is the joiner.
DIFFER = [
    'a "Fold" |(once) b',
    "a” |[b",
    "see A:|7",
    "about |.|5 of it",
    "the -|ward side",
    "so |” b",
    "( “ |b",
]
AGREE = [
    "6 3⁄4 × 15⁄16 in",
    "1,000.5",
    "“Fold” it, then wait.",
    "A: 7",
    "top-left",
    "see (b)",
    "don’t",
    "in ’98",
    "— 7",
]


@pytest.mark.parametrize("text", DIFFER)
def test_a_line_does_not_end_where_rules_differ(text):
    assert join(text.replace("|", "")) == text.replace("|", "\N{WORD JOINER}")


@pytest.mark.parametrize("text", AGREE)
def test_other_text_stays_as_it_is(text):
    assert join(text) == text


def test_what_stands_before_is_looked_at_and_not_repeated():
    assert join(" (once)", '"Fold"') == " \N{WORD JOINER}(once)"
    assert join("7", "A:") == "\N{WORD JOINER}7"


def _lines(pdf: bytes) -> list[str]:
    text: str = pypdfium2.PdfDocument(pdf)[0].get_textpage().get_text_range()
    return text.split("\r\n")


def test_lines_end_elsewhere_and_the_joiner_is_not_read(renderer):
    """In the narrow column each word would have its own line; joined ones share it, through elements too."""
    narrow = "div { width: 1px; font-size: 12pt }"
    body = '<div>see <b>"Fold"</b> (once) or A:7<p>-ward</p> b</div>'
    assert _lines(renderer.pdf(page(body, narrow), {}, title="T")) == [
        "see",
        '"Fold" (once)',
        "or",
        "A:7",
        "-ward",
        "b",
    ]
