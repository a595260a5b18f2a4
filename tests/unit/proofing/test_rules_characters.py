"""Texts that no sheet can print as they are written."""

from __future__ import annotations

import pytest

from kits.sheets.coverage import covered
from layouts.printed.characters import unprintable
from layouts.proofing.rules import characters
from tests.unit.assembly.small_kits import kit_of, project, step

_NAMED = {"id": "A", "name": "front 𝔸 panel", "size": ["4", "3"]}


def test_the_table_is_that_of_the_faces_of_the_sheets():
    every = (chr(code) for code in range(0x20, 0x30000) if not 0xD800 <= code < 0xE000)
    assert [letter for letter in every if bool(unprintable(letter)) != (covered(letter) != letter)] == []


@pytest.mark.parametrize(
    "text",
    [
        pytest.param("Čtyři růže, 6 3⁄4 × 2½ → šířka", id="Czech, and signs of measures"),
        pytest.param("Ω λ Жук", id="Greek and Cyrillic"),
        pytest.param("e\u0301 \t\n", id="a mark, a tab, a new line"),
    ],
)
def test_what_the_faces_have_is_printed(text):
    assert unprintable(text) == ()


@pytest.mark.parametrize(
    ("text", "lost"),
    [
        pytest.param("紙 and 𝔸", ("紙", "𝔸"), id="letters that no face has"),
        pytest.param("🌱🌱 sow", ("🌱",), id="each once"),
        pytest.param("a" + "\u0301" * 5, ("\u0301",), id="the fifth mark on a letter"),
    ],
)
def test_what_the_faces_lack_is_named(text, lost):
    assert unprintable(text) == lost


def test_a_finding_names_the_text_and_its_characters():
    kit = kit_of(
        project("box", pieces=[_NAMED], steps=[step("one", "Glue {A} 紙."), step("two", "Press.")]), title="Tide 🌊"
    )
    found = [(one.at, one.weight, one.why) for one in characters.findings(kit)]
    assert found == [
        (("title",), "note", {"characters": ["🌊"]}),
        (("project:box/piece:A/name",), "note", {"characters": ["𝔸"]}),
        (("project:box/step:one/text",), "note", {"characters": ["紙"]}),
    ]


def test_a_kit_in_letters_that_the_faces_have_is_silent():
    kit = kit_of(project("box", pieces=[{**_NAMED, "name": "přední panel"}], steps=[step("one", "Glue {A}.")]))
    assert list(characters.findings(kit)) == []
