"""The words of the pages, without a page: verdicts, places, order, changes, measures."""

from __future__ import annotations

import pytest

from frontend.kit_page.findings import finding_groups
from frontend.words.changes import change_words
from frontend.words.measures import set_measures
from frontend.words.order import order_words
from frontend.words.places import Places
from frontend.words.verdicts import said_of_proof
from kits.planning.models import Change, ChangeKind
from layouts.document import read_kit
from tests.services.planning_cast import box_bytes

KIT = read_kit(box_bytes())
NAMES = {"kelp": "Kelp", "slate": "Slate", "sand": "Sand"}


def _proof(verdict: str, papers: dict[str, str], findings: str = "") -> dict:
    """A proof with these prints and findings: s stop, f fix, n note, a capital one accepted."""
    weights = {"s": "stop", "f": "fix", "n": "note"}
    return {
        "verdict": verdict,
        "papers": [{"paper": name, "verdict": answer} for name, answer in papers.items()],
        "findings": [{"weight": weights[one.lower()], "accepted": one.isupper()} for one in findings],
    }


@pytest.mark.parametrize(
    ("proof", "shape", "sentence"),
    [
        (_proof("ready", {"kelp": "fits"}), "ready", "Every piece fits. Nothing to mend."),
        (_proof("ready", {"kelp": "fits"}, "nSF"), "ready", "Every piece fits. Nothing to mend."),
        (_proof("ready", {}), "ready", "This kit has no paper yet. Nothing to mend."),
        (
            _proof("not-ready", {"kelp": "fits"}, "fn"),
            "not-ready",
            "Every piece fits. 1 thing to mend before it can go to print.",
        ),
        (
            _proof("not-ready", {"kelp": "short", "slate": "unknown"}, "sf"),
            "not-ready",
            "Kelp is short of paper. 2 things to mend before it can go to print.",
        ),
        (
            _proof("not-ready", {"kelp": "short", "slate": "short"}, "ss"),
            "not-ready",
            "2 prints are short of paper. 2 things to mend before it can go to print.",
        ),
        (
            _proof("unknown", {"kelp": "fits", "slate": "unknown"}, "n"),
            "unknown",
            "Whether everything fits on Slate is undecided. Nothing else to mend.",
        ),
        (
            _proof("unknown", {"kelp": "unknown", "slate": "unknown"}, "nn"),
            "unknown",
            "Whether everything fits on 2 prints is undecided. Nothing else to mend.",
        ),
    ],
    ids=["ready", "accepted", "no paper", "one to mend", "one short", "two short", "one undecided", "two undecided"],
)
def test_a_verdict_is_a_sentence(proof, shape, sentence):
    said = said_of_proof(proof, NAMES)
    assert (said.shape, str(said).replace("\N{NO-BREAK SPACE}", " ")) == (shape, sentence)


def test_a_kit_from_which_nothing_is_cut_is_not_called_ready():
    empty = {"verdict": "ready", "papers": [{"paper": "kelp", "verdict": "fits", "plan": []}], "findings": []}
    said = said_of_proof(empty, NAMES)
    assert (said.shape, str(said)) == ("unknown", "Nothing to check yet: no piece is cut for this kit.")


@pytest.mark.parametrize(
    ("place", "words", "anchor"),
    [
        ("project:box/piece:A", "Box, piece A (front)", "project:box/piece:A"),
        ("project:box/piece:A/size/width", "Box, piece A (front), width", "project:box/piece:A"),
        ("project:box/piece:A/window:pane/left", "Box, piece A (front), window pane, left", "project:box/piece:A"),
        ("project:box/form:lid/depth", "Box, lid (lid), depth", "project:box/form:lid"),
        ("project:box/placement:shell", "Box, placement shell", "project:box/placement:shell"),
        ("project:box/step:cut/use/1/count", "Box, step cut, use, 1, count", "project:box/step:cut"),
        ("project:tag", "Tag", "project:tag"),
        ("paper:kelp/sheets", "Kelp, sheets", "paper:kelp"),
        ("embellishment:box/element:limpet/count", "Shells, limpet, count", "embellishment:box"),
        ("blank:lid/face:top/size/height", "wooden lid, face top, height", "blank:lid"),
        ("supply:twine", "twine", "supply:twine"),
        ("tool:knife", "knife", "tool:knife"),
        ("project:box/piece:Z", "Box, piece Z", "project:box"),
        ("nowhere:at/all", "nowhere:at/all", ""),
    ],
)
def test_a_place_has_words_and_an_element_of_the_page(place, words, anchor):
    places = Places(KIT)
    assert (places.words(place), places.anchor(place)) == (words, anchor)


@pytest.mark.parametrize(
    ("text", "html"),
    [
        ("3/8", '<span class="fr">3⁄8</span>'),
        ("1 5/16", '<span class="m">1 <span class="fr">5⁄16</span></span>'),
        ("15/16 × 7", '<span class="fr">15⁄16</span> × 7'),
        ("2027/04, 3/5, 1/128, 3/40", "2027/04, 3/5, 1/128, 3/40"),
        ("a/2 and 1/2/4 and 0.1/2", "a/2 and 1/2/4 and 0.1/2"),
        ("<b>1/2</b>", '&lt;b&gt;<span class="fr">1⁄2</span>&lt;/b&gt;'),
    ],
    ids=["fraction", "mixed", "beside others", "no fractions of an inch", "no measures", "markup"],
)
def test_only_fractions_of_an_inch_are_set_as_fractions(text, html):
    assert set_measures(text) == html


def test_a_message_is_parted_after_its_first_sentence_outside_of_quotations():
    message = "Step cut of “Fold it. Now” is late. Mend that. Or not."
    finding = {
        "rule": "x",
        "weight": "fix",
        "at": ["project:box/step:cut"],
        "message": message,
        "accepted": False,
        "mend": [],
    }
    [group] = finding_groups([finding], Places(KIT))
    assert (group.findings[0].about, group.findings[0].advice) == (
        "Step cut of “Fold it. Now” is late.",
        "Mend that. Or not.",
    )


def test_a_finding_with_many_places_names_the_first_six():
    at = [f"project:box/piece:{letter}" for letter in "ABABABAB"]
    finding = {"rule": "x", "weight": "stop", "at": at, "message": "Short.", "accepted": False, "mend": []}
    [group] = finding_groups([finding], Places(KIT))
    assert (len(group.findings[0].places), group.findings[0].more_places) == (6, 2)


TIME = {"hands_on_s": None, "waiting_s": 5400}


@pytest.mark.parametrize(
    ("projects", "because", "sentence", "why"),
    [
        (None, [], "The projects wait for each other in a circle: there is no order to make them in.", ()),
        ([], [], "There is nothing to make yet.", ()),
        (["box"], [], "There is one project: Box.", ()),
        (
            ["box", "tag"],
            [{"first": "box", "then": "tag", "reason": "cut-out", "at": "project:tag/piece:H"}],
            "Make Box and then Tag.",
            ("Box before Tag: H comes out of a window of it.",),
        ),
        (
            ["box", "tag"],
            [{"first": "box", "then": "tag", "reason": "drying", "at": "project:box/step:glue"}],
            "Make Box and then Tag.",
            ("Box before Tag: while its step glue dries, the next can be made.",),
        ),
    ],
    ids=["circle", "nothing", "one", "cut-out", "drying"],
)
def test_the_order_is_said_with_its_reasons(projects, because, sentence, why):
    words = order_words(KIT, {"order": {"projects": projects, "because": because}, "time": TIME})
    assert (words.sentence, words.because) == (sentence, why)
    assert words.time == "Time at work unknown: a step does not say how long it takes. Waiting 1 h 30 min."


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (
            Change(
                what=ChangeKind.CHANGED,
                place="project:box/piece:A/size",
                before=["6 in", "4 in"],
                after=["6 in", "50 mm"],
            ),
            "Box, A: 6 × 4 to 6 × 50 mm",
        ),
        (
            Change(what=ChangeKind.CHANGED, place="project:box/piece:A/paper", before="kelp", after="slate"),
            "Box, A, print: Kelp to Slate",
        ),
        (
            Change(what=ChangeKind.RENAMED, place="project:box/id", before="chest", after="box"),
            "chest is now called box",
        ),
        (Change(what=ChangeKind.REPLACED, before="1", after="2"), "the document was replaced"),
        (
            Change(what=ChangeKind.TAKEN_OVER, place="paper:kelp", before={}, after={}),
            "Kelp was taken over from the catalogue",
        ),
    ],
    ids=["size", "print", "renamed", "replaced", "taken over"],
)
def test_a_change_fits_a_button(change, words):
    assert change_words(change, KIT) == words
