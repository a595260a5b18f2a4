"""The rule about names in the words of steps: letters and prints that the kit does not have.

A false alarm in common prose costs more than a fault that is not seen: what could mean anything else is not told.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import islice

from layouts.assembly import KitSteps, PlannedStep
from layouts.assembly.prose import Letter, PrintName, Prose, as_singular, prose_of, word_set
from layouts.document import FormBase, Kit, Piece, Project
from layouts.proofing.findings import Finding, Rule
from layouts.proofing.measures import shortened
from layouts.proofing.rules.counts import ANYTHING, noun_of

__all__ = ["NAME_IN_TEXT_UNKNOWN", "RULES", "findings"]

_TEXT = {"type": "string"}

NAME_IN_TEXT_UNKNOWN = Rule(
    "name-in-text-unknown",
    "fix",
    "The text of a step speaks of a piece by a letter, or of a print by a name, that nothing in the kit has.",
    {"name": _TEXT, "said": _TEXT, "of": {"enum": ["piece", "print"]}},
)
RULES = (NAME_IN_TEXT_UNKNOWN,)

# No kit has a hundred such slips: of each rule so many are told.
_MOST_TOLD = 100
# Nor thousands of lone letters, or of prints, in its text: what comes after so many is not read.
_MOST_READ = 2_000

# A letter that stands alone, or a word beside which a print may be named: where there is none, nothing is read.
_MAY_NAME = re.compile(r"\b[A-HJ-Z]\b|\b(?:papers?|prints?|sheet|pad)\b")
_WORD = re.compile(r"[^\W\d_]+")
# Kinds of paper, sizes, times of the year and colours: right in any kit. Ends of words: Indian, Japanese, Danish.
_GENERIC = word_set(
    """kraft washi bristol manila braille crepe tissue vellum tracing carbon wax parchment watercolour watercolor photo
    construction cartridge sugar mulberry marbled handmade origami rice silk cotton linen letter legal ledger tabloid
    foolscap quarto octavo crown demy royal imperial florentine french dutch greek swiss welsh scots thai birthday
    christmas easter advent halloween xmas valentine valentines thanksgiving hanukkah diwali ramadan eid monday tuesday
    wednesday thursday friday saturday sunday january february march april may june july august september october
    november december spring summer autumn fall winter art deco nouveau gothic baroque batik gingham tartan paisley
    madras white black red blue green grey gray gold silver cream ivory brown yellow pink orange purple plain lined
    squared graph"""
)
_GENERIC_END = re.compile(r"(?:an|ish|ese)\Z")


def findings(kit: Kit, steps: KitSteps) -> Iterator[Finding]:
    """Yield the letters, then the names of prints, in the text of the steps that the kit does not have."""
    read = list(prose_of(steps, _MAY_NAME))
    yield from islice(_letters(kit, read), _MOST_TOLD)
    yield from islice(_prints(kit, read), _MOST_TOLD)


_Read = list[tuple[PlannedStep, Prose]]


def _says(planned: PlannedStep, said: str) -> str:
    return f"Step {planned.step.id} of “{shortened(planned.project.title)}” says “{shortened(said)}”"


# Letters of pieces. -------------------------------------------------------------------------------------------------


def _letters(kit: Kit, read: _Read) -> Iterator[Finding]:
    """The letters that stand like those of pieces, in projects whose pieces have letters, but name nothing."""
    known: set[str] | None = None
    left = _MOST_READ
    by_project: dict[str, list[tuple[PlannedStep, Prose]]] = {}
    for planned, prose in read:
        by_project.setdefault(planned.project.id, []).append((planned, prose))
    for texts in by_project.values():
        nouns = _nouns_of_letters(texts[0][0].project)
        if not nouns:
            continue
        found: list[tuple[PlannedStep, Letter]] = []
        for planned, prose in texts:
            letters = list(islice(prose.letters(), left))
            left -= len(letters)
            found.extend((planned, letter) for letter in letters)
        known = known or _known_letters(kit)
        # A label is one throughout: “mark the point Q”, and in a later step “fold Q to {A}”.
        labels = {letter.letter for _, letter in found if letter.is_label}
        told: set[tuple[str, str]] = set()
        for planned, letter in found:
            key = planned.place, letter.letter
            if not letter.said or key in told or letter.letter in labels or letter.letter in known:
                continue
            if letter.noun and as_singular(letter.noun) not in nouns:
                continue
            told.add(key)
            message = (
                f"{_says(planned, letter.said)}, and nothing in this kit is called {letter.letter}. "
                "Correct the letter, or better refer to the piece in braces, so that the text follows the plan."
            )
            yield NAME_IN_TEXT_UNKNOWN.finding(
                planned.place, message=message, name=letter.letter, said=letter.said, of="piece"
            )


def _nouns_of_letters(project: Project) -> set[str]:
    """The words that may stand before the letter of a piece of this project; none where pieces have no letters."""
    lettered = [made for made in _made(project) if len(made.id) == 1 and made.id.isupper()]
    if not lettered:
        return set()
    nouns = {noun for made in lettered if (noun := noun_of(made.name)[0])}
    return (nouns - (ANYTHING if project.forms else frozenset())) | {"piece"}


def _known_letters(kit: Kit) -> set[str]:
    """Letters that are the id of anything in the kit, or a word of a name."""
    return {word.upper() for name in _names(kit) for word in re.findall(r"(?<![^\W_])[^\W\d_](?![^\W_])", name)}


def _names(kit: Kit) -> Iterator[str]:
    """The ids and names of everything in a kit."""
    yield from (kit.title, kit.code)
    for named in (kit.pads, kit.papers, kit.embellishments, kit.blanks, kit.supplies, kit.tools):
        for thing in named:
            yield from (thing.id, thing.name or "")
    for paper in kit.papers:
        yield from (side.name for side in (paper.front, paper.back) if side is not None)
    for sheet in kit.embellishments:
        for element in sheet.elements:
            yield from (element.id, element.name)
    for project in kit.projects:
        yield from (project.id, project.title)
        for made in _made(project):
            yield from (made.id, made.name)
        for piece in project.pieces:
            yield from (window.id for window in piece.windows)
        yield from (placement.id for placement in project.placements)
        yield from (step.id for step in project.steps)


def _made(project: Project) -> list[Piece | FormBase]:
    return [*project.pieces, *project.forms]


# Names of prints. ---------------------------------------------------------------------------------------------------


def _prints(kit: Kit, read: _Read) -> Iterator[Finding]:
    """The names said to be of a print of which no word is in any name of the kit, where prints have capitals at all."""
    if not any(side.name[:1].isupper() for paper in kit.papers for side in (paper.front, paper.back) if side):
        return
    names = [one.name for several in (kit.pads, kit.embellishments, kit.papers) for one in several]
    named = {as_singular(word) for name in names for word in _WORD.findall(name)}
    known: set[str] | None = None
    left = _MOST_READ
    told: set[tuple[str, str]] = set()
    for planned, prose in read:
        names_read = list(islice(prose.print_names(), left))
        left -= len(names_read)
        for found in names_read:
            if not found.name or (planned.place, found.name) in told or not _is_of_a_print(found, named):
                continue
            known = known or _known_words(kit)
            if _is_known(found.name, known):
                continue
            told.add((planned.place, found.name))
            message = (
                f"{_says(planned, found.said)}, and no paper, side or pad of this kit is called {found.name}. "
                "Correct the name, or better refer to the paper in braces, so that the text follows the plan."
            )
            yield NAME_IN_TEXT_UNKNOWN.finding(
                planned.place, message=message, name=found.name, said=found.said, of="print"
            )


def _is_of_a_print(found: PrintName, named: set[str]) -> bool:
    """A sheet or a pad may be of rubber: it counts where names of this kit call something a sheet or a pad."""
    return as_singular(found.noun) in ("paper", "print") or found.noun in named


def _known_words(kit: Kit) -> set[str]:
    """The words of all names in the kit, and each name as one word."""
    known: set[str] = set()
    for name in _names(kit):
        parts = _WORD.findall(name)
        known.update(as_singular(part) for part in (*parts, "".join(parts)))
    return known


def _is_known(name: str, known: set[str]) -> bool:
    return any(
        as_singular(word) in known or word.casefold() in _GENERIC or _GENERIC_END.search(word) for word in name.split()
    )
