"""Texts: which letters are refused, and that composing them is NFC whatever they hold."""

from __future__ import annotations

import sys
import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from layouts.document.text import composed, refused_letter


def test_all_control_characters_but_tab_and_newline_and_all_surrogates_are_refused_and_no_other_letter():
    refused = {letter for letter in map(chr, range(sys.maxunicode + 1)) if refused_letter(letter)}
    expected = {
        letter for letter in map(chr, range(sys.maxunicode + 1)) if unicodedata.category(letter) in ("Cc", "Cs")
    }
    assert refused == expected - {"\t", "\n"}


@pytest.mark.parametrize(
    ("text", "letter"),
    [
        pytest.param("", None, id="nothing"),
        pytest.param("plain text,\twith a tab\nand two lines", None, id="tab and newline"),
        pytest.param("a\r\n", "\r", id="a carriage return"),
        pytest.param("é\x00\x01", "\x00", id="the first of two"),
        pytest.param("end\ud83d", "\ud83d", id="half of a pair"),
        pytest.param("\u2028\ufeff\u200b\u202e", None, id="separators and marks of format are letters"),
    ],
)
def test_the_first_refused_letter_is_named(text, letter):
    assert refused_letter(text) == letter


# Marks that decompose, marks that compose, marks that stand as letters and decompose into marks, letters around them.
MARKS = "\u0300\u0301\u0307\u0308\u0315\u0323\u0327\u0340\u0343\u0344\u0345\u0f71\u0f72\u0f73\u0f74\u0f75\u0f81\u3099"
LETTERS = "aeé\u1e69\u00c5\u212b\u03b1\u304b\u0f40\u1100\u1161\u11a8\uac00 "


@given(st.lists(st.text(MARKS, min_size=60, max_size=200) | st.text(LETTERS + MARKS, max_size=20), max_size=4))
def test_long_runs_of_marks_are_composed_as_python_does_it(parts):
    text = "".join(parts)
    assert composed(text) == unicodedata.normalize("NFC", text)


@given(st.text(max_size=100))
def test_any_text_is_composed_as_python_does_it(text):
    assert composed(text) == unicodedata.normalize("NFC", text)


def test_the_marks_that_hide_as_letters_are_all_known():
    """Found anew from the Unicode data of this Python: no combining class, but a decomposition that starts with one."""
    hidden = [
        letter
        for letter in map(chr, range(sys.maxunicode + 1))
        if unicodedata.combining(letter) == 0 and unicodedata.combining(unicodedata.normalize("NFD", letter)[0]) != 0
    ]
    for letter in hidden:
        text = "a" + (letter + "\u0315\u0f71") * 100
        assert composed(text) == unicodedata.normalize("NFC", text)
    assert hidden == ["\u0f73", "\u0f75", "\u0f81"]


def test_no_mark_stands_before_the_first_that_is_looked_for():
    assert min(letter for letter in map(chr, range(sys.maxunicode + 1)) if unicodedata.combining(letter)) == "\u0300"
