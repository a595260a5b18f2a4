"""Texts of steps as they are printed: letters, names and figures in place of references."""

from __future__ import annotations

import pytest

from kits.sheets.content.measures import Measures
from kits.sheets.content.running import Run, StepText, duration_words
from kits.sheets.templatetags.sheet_text import measured, stepped
from layouts.assembly import Names
from layouts.document import Duration
from tests.unit.assembly.small_kits import CARD, kit_of, piece, project
from tests.unit.sheets.proofs import INCHES, MILLIMETRES

PANE = {"id": "pane", "left": "7/8", "right": "7/8", "top": "5/8", "bottom": "7/8"}
KIT = kit_of(
    project("shelf", pieces=[piece("A", paper="card", size=["6 3/4", "4"], count=2, windows=[PANE])]),
    project("tray", pieces=[piece("B", paper="card")]),
    papers=[{**CARD, "name": "Trellis"}],
    blanks=[{"id": "chest", "name": "plain chest", "faces": [{"id": "front", "size": ["7", "5"]}]}],
    supplies=[{"id": "twine", "name": "garden twine", "kind": "ribbon"}],
)


def _runs(text: str, options=INCHES) -> tuple[Run, ...]:
    return StepText(KIT, KIT.projects[0], Measures(KIT, options), Names(KIT)).runs(text)


def _told(text: str, options=INCHES) -> str:
    """The text, with ~ for a blank at which no line may end."""
    return "".join(run.text for run in _runs(text, options)).replace("\N{NO-BREAK SPACE}", "~")


TEXTS = [
    ("Cut {A}.", "Cut A."),
    ("It is {A.width} wide.", "It is 6 3/4~in wide."),
    ("Score {A.width} in from the edge.", "Score 6 3/4~in from the edge."),
    ("Score {A.width} in, then fold.", "Score 6 3/4~in, then fold."),
    ("Set {A.width} inside.", "Set 6 3/4~in inside."),
    ("{A.count} of them", "2 of them"),
    ("Open {A.pane}.", "Open the window of A."),
    ("Open the {A.pane}.", "Open the window of A."),
    ("{A.pane} is opened", "The window of A is opened"),
    ("{A.pane.top} down", "5/8~in down"),
    ("Glue to {blank:chest}. {blank:chest} dries.", "Glue to the plain chest. The plain chest dries."),
    ("Tie {A} {supply:twine} to it", "Tie A the garden twine to it"),
    ("On the front of your {blank:chest}", "On the front of your plain chest"),
    ("Face {blank:chest.front}", "Face the front"),
    ("Tie with {supply:twine}", "Tie with the garden twine"),
    ("{paper:card} shows", "Trellis shows"),
    ("Keep it for {tray/B}.", "Keep it for B of the Tray."),
    ("What is {nothing.width}?", "What is {nothing.width}?"),
    ("Braces {{A}} stay", "Braces {A} stay"),
]


@pytest.mark.parametrize(("text", "told"), TEXTS, ids=[text for text, _ in TEXTS])
def test_references_are_told_as_a_reader_needs_them(text, told):
    assert _told(text) == told


def test_in_millimetres_the_unit_of_a_figure_stays_beside_a_word_in():
    assert _told("Score {A.width} in from the edge.", MILLIMETRES) == "Score 171~mm in from the edge."


def test_letters_and_figures_are_runs_of_their_own():
    assert _runs("Cut {A}, {A.width} wide") == (
        Run("words", "Cut "),
        Run("letter", "A"),
        Run("words", ", "),
        Run("measure", "6 3/4\N{NO-BREAK SPACE}in"),
        Run("words", " wide"),
    )


FIGURES = [
    ("6 3/4", '<span class="m">6 <span class="fr">3⁄4</span></span>'),
    ("1 5/16 in", '<span class="m">1 <span class="fr">5⁄16</span></span> in'),
    ("of 7/8 in", 'of<span class="fr"> 7⁄8</span> in'),
    ("12", "12"),
    ("7 × 1/2", '7 ×<span class="fr"> 1⁄2</span>'),
    ("2 × oval, 3 × 4, A2 × B", "2\N{NO-BREAK SPACE}×\N{NO-BREAK SPACE}oval, 3 × 4, A2 × B"),
    ("3/5 and 24/7 and 1/3", "3/5 and 24/7 and 1/3"),
    ("2027/04/16", "2027/04/16"),
    ("A1/2", "A1/2"),
    ('<b>1/2</b> & "q"', "&lt;b&gt;" + '<span class="fr">1⁄2</span>' + "&lt;/b&gt; &amp; &quot;q&quot;"),
]


@pytest.mark.parametrize(("text", "html"), FIGURES, ids=[text for text, _ in FIGURES])
def test_fractions_alone_are_set_as_fractions_and_all_else_is_escaped(text, html):
    assert measured(text) == html


def test_a_space_in_front_of_a_letter_goes_into_its_run():
    """At the end of a line the library would break such a text after its first word."""
    runs = (Run("words", "Cut "), Run("letter", "A"), Run("words", " and <B> "), Run("letter", "C"))
    assert stepped(runs) == "Cut<b> A</b> and &lt;B&gt;<b> C</b>"


def test_durations_are_words():
    told = [duration_words(Duration(*one)) for one in ((1, "s"), (60, "s"), (1, "min"), (30, "min"), (2, "h"))]
    assert told == ["1 second", "60 seconds", "1 minute", "30 minutes", "2 hours"]
