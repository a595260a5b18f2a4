"""What the words of a step say where nothing refers to the plan: letters, names of prints, and how many of something.

Everything here knows English and no kit. It is read sparingly: what could mean anything else is not told.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from layouts.assembly.steps import PlannedStep
from layouts.assembly.text import Reference, parse_text

__all__ = ["Counted", "Letter", "PrintName", "Prose", "as_singular", "prose_of", "word_set"]

# Stand for a reference while the words around it are read: to a thing of a project, and to anything else.
# No text of a document may hold them.
_THING, _OTHER = "\0", "\1"
# How far what belongs to one sentence is looked for, in characters.
_NEAR = 300
# A kit has some ten thousand characters of text; a document may have four million, of nothing but references.
_MOST_TEXT = 250_000
_GAP = r"[ \t\u00a0]{1,3}"


@dataclass(frozen=True, slots=True)
class Letter:
    """A capital letter that stands alone; `said` is it with the words before it, where it stands like a thing's name.

    `noun` is the word before it where only that word says so: “strip Q”. `is_label` where it is introduced as a name
    of something else: “mark it Q”, “the point Q”.
    """

    letter: str
    said: str
    noun: str
    is_label: bool


@dataclass(frozen=True, slots=True)
class PrintName:
    """The capitalised words beside “paper”, “print”, “sheet” or “pad”; empty where none are said to be its name."""

    name: str
    noun: str
    said: str


@dataclass(frozen=True, slots=True)
class Counted:
    """A number before words, of which one may be the name of what is counted. `at` is where the number begins.

    `is_definite`: “the four strips”, “both strips”, which may be some that were spoken of before.
    """

    number: int
    at: int
    words_at: int
    words: tuple[str, ...]
    is_definite: bool


@dataclass(frozen=True, slots=True)
class Prose:
    """The text of a step with one mark for each reference, so that words around references can be read.

    >>> Prose.read("Glue four strips {F} to Q.").text
    'Glue four strips \\x00 to Q.'
    """

    text: str
    references: dict[int, Reference]

    @classmethod
    def read(cls, text: str) -> Prose:
        words: list[str] = []
        at = 0
        references: dict[int, Reference] = {}
        for part in parse_text(text):
            if isinstance(part, Reference):
                references[at] = part
                words.append(_THING if part.kind is None and len(part.names) == 1 else _OTHER)
            else:
                words.append(part.text)
            at += len(words[-1])
        return cls("".join(words), references)

    def sentence(self, at: int) -> tuple[int, int]:
        """Where the sentence around a character begins and ends; of a very long one only the part near it."""
        start = max(self.text.rfind(mark, max(at - _NEAR, 0), at) for mark in ".!?;\n") + 1
        ends = [end for mark in ".!?;\n" if (end := self.text.find(mark, at, at + _NEAR)) >= 0]
        return max(start, at - _NEAR, 0), min(ends, default=min(at + _NEAR, len(self.text)))

    def referred(self, start: int, end: int) -> list[Reference]:
        """The references between two characters of the text."""
        return [self.references[at] for at in range(start, end) if at in self.references]

    def letters(self) -> Iterator[Letter]:
        """Yield capital letters that stand alone, except I, which is nearly always a word or a number."""
        for found in _LETTER.finditer(self.text):
            at = found.start()
            near = max(at - 80, 0)
            start, end = self.sentence(at)
            end = min(found.end() + _WORD_LONG, end)
            is_label = bool(_LABEL.search(self.text, near, at) or _NAMING.search(self.text, start, end))
            stands = None
            if _GOES_ON.match(self.text, found.end()):
                stands = next((one for how in _STANDS if (one := how.search(self.text, near, at))), None)
            said = "" if stands is None else self.said(stands.start("said"), found.end())
            said += ")" if "(" in said else ""
            noun = "" if stands is None else (stands.groupdict().get("noun") or "").lower()
            yield Letter(found[0], said, noun, is_label)

    def print_names(self) -> Iterator[PrintName]:
        """Yield the words for a print, a sheet or a pad, each with the capitalised name beside it in its sentence."""
        for found in _PRINT.finditer(self.text):
            start, end = found.span()
            before = _NAME_BEFORE.search(self.text, max(start - 100, 0), start)
            if before is not None and _AFTER_PRINT.match(self.text, end):
                yield PrintName(before["name"], found[0], self.said(before.start("name"), end))
                continue
            after = _NAME_AFTER.match(self.text, end) if _THE.search(self.text, max(start - 6, 0), start) else None
            if after is not None:
                yield PrintName(after["name"], found[0], self.said(start, after.end("name")))
            else:
                yield PrintName("", found[0], "")

    def counts(self) -> Iterator[Counted]:
        """Yield the numbers from two before words in lower case; no words where the number may be no count of all."""
        for found in _COUNT.finditer(self.text):
            before = _before(self.text, found.start())
            if found["word"]:
                number = _NUMBERS[found["word"].lower()]
            else:
                number = int(found["digits"]) if found["digits"] else 2
            is_part = before in _NOT_A_COUNT or "hundred" in self.text[max(found.start() - 16, 0) : found.start()]
            words = () if is_part else tuple(re.split(_GAP, found["words"]))
            is_definite = bool(found["both"]) or before in _DEFINITE
            yield Counted(number, found.start(), found.start("words"), words, is_definite)

    def counted_references(self) -> Iterator[tuple[Counted, Reference]]:
        """Yield the numbers right before a reference to one thing: “four {F}”, “2 of {F}”; none before two things."""
        for found in _COUNT_OF.finditer(self.text):
            before = _before(self.text, found.start())
            end = found.end() + 1
            if before in _NOT_A_COUNT or _SECOND.match(self.text, end) or _MEASURED.match(self.text, end):
                continue
            number = (
                _NUMBERS[found["word"].lower()] if found["word"] else int(found["digits"]) if found["digits"] else 2
            )
            is_definite = bool(found["both"]) or before in _DEFINITE
            yield Counted(number, found.start(), found.end(), (), is_definite), self.references[found.end()]

    def numbers(self) -> list[int]:
        """All numbers of the text that may count something, one included; “half” and “single” count as one."""
        found = (word.lower() for word in _ANY_NUMBER.findall(self.text))
        return [int(word[:9]) if word.isdecimal() else _NUMBERS.get(word, _TWOS.get(word, 1)) for word in found]

    def tells_a_part(self) -> bool:
        """Whether the text may speak of some of the things at a time: “each”, “the rest”, “two more”."""
        return _PARTLY.search(self.text) is not None

    def hedges(self, start: int, end: int) -> bool:
        """Whether a sentence may not mean what it counts: “not”, “scrap”, “enough”."""
        return _HEDGE.search(self.text, start, end) is not None

    def counts_a_measure(self, end: int) -> bool:
        """Whether what follows a counted word makes it another thing or a measure: “strips of tape”, “feet long”."""
        return _MEASURED.match(self.text, end) is not None

    def named_after(self, end: int) -> Reference | None:
        """The one thing that a reference names right after a word: “strips {F}”, “strips ({F})”; None before two."""
        found = _NAMED.match(self.text, end)
        return self.references[found.end() - 1] if found and not _SECOND.match(self.text, found.end()) else None

    def said(self, start: int, end: int) -> str:
        """What the text says between two characters, references as they were written."""
        return "".join(
            f"{{{self.references[at].text}}}" if at in self.references else self.text[at] for at in range(start, end)
        )


def prose_of(steps: Iterable[PlannedStep], holds: re.Pattern[str]) -> Iterator[tuple[PlannedStep, Prose]]:
    """Yield the steps whose texts hold a pattern, each with its prose; of far more text than any kit has, the first."""
    left = _MOST_TEXT
    for planned in steps:
        text = planned.step.text
        if len(text) <= left and holds.search(text):
            left -= len(text)
            yield planned, Prose.read(text)


def as_singular(word: str) -> str:
    """Return a noun in the singular, lower case; it only has to be the same for both.

    >>> [as_singular(word) for word in ("Strips", "strip", "boxes", "berries", "leaves", "feet", "glass")]
    ['strip', 'strip', 'box', 'berry', 'leaf', 'foot', 'glass']
    """
    low = word.casefold()
    if low in _IRREGULAR:
        return _IRREGULAR[low]
    if low.endswith("ies") and len(low) > 4:
        return low[:-3] + "y"
    if low.endswith(("ches", "shes", "xes", "sses")):
        return low[:-2]
    return low[:-1] if low.endswith("s") and not low.endswith(("ss", "us", "is")) else low


_IRREGULAR = {
    "feet": "foot",
    "leaves": "leaf",
    "shelves": "shelf",
    "halves": "half",
    "knives": "knife",
    "mice": "mouse",
    "geese": "goose",
    "children": "child",
}


def word_set(words: str) -> frozenset[str]:
    """The words of a list that is written as one text."""
    return frozenset(words.split())


# Letters. -----------------------------------------------------------------------------------------------------------

# Alone: no initial, no part of a word or number, not between quotation marks, not `{Q}` written with doubled braces.
_LETTER = re.compile(r"(?<![\w.\-–{/&+*#@'’‘“\"])[A-HJ-Z](?![\w\-–/&+*#'’”\"}]|\.\w)")
_JOIN = rf"(?:,?{_GAP}(?:and|or){_GAP}|,{_GAP})"
_LIST = rf"(?:[A-Z]|{_THING})(?:{_JOIN}(?:[A-Z]|{_THING})){{0,9}}"
_MOVED = rf"(?:{_LIST}|(?:only{_GAP})?(?:it|them|this|these|both|all))"
_PREFIX = rf"(?:(?:[A-Z]|{_THING}){_JOIN}){{0,9}}"
_ON = "(?:to|onto|on|behind|over|inside|under|underneath|above|below|around|against)"
_VERB = "|".join(
    f"[{verb[0].upper()}{verb[0]}]{verb[1:]}"
    for verb in sorted(word_set("cut trim score glue stick tape attach adhere mount centre center"))
)
# “Fold P to Q” is no order to a piece: points and corners have letters where one folds.
# Where a verb is an instruction, and not a cut that is spoken of.
_ORDER = rf"(?:\A[ \t\n]?|[.!?:;,(]{_GAP}|\n|\b(?:and|then|now|first|next|or|to|[A-Za-z]{{1,20}}ly){_GAP})"
# What stands before a letter that is the name of a thing; each is searched up to where the letter begins.
_STANDS = (
    re.compile(
        rf"{_ORDER}(?P<said>(?:{_VERB})(?:{_GAP}(?:out|down|off))?{_GAP}(?:{_MOVED}{_GAP}{_ON}{_GAP})?{_PREFIX})\Z"
    ),
    re.compile(
        r"\b(?P<said>(?:middle|centre|center|front|back|rear|foot|top|bottom|underside|rest|rim|edges?|corners?|ends?|sides?)"
        rf"{_GAP}of{_GAP}{_PREFIX})\Z"
    ),
    re.compile(rf"(?P<said>{_THING}{_JOIN}{_PREFIX})\Z"),
    re.compile(rf"(?<![\w'’\-])(?P<said>(?P<noun>[A-Za-z][a-z]{{1,30}}){_GAP}\(?{_PREFIX})\Z"),
)
# How a sentence goes on after the name of a thing. “Cut V notches” and “glue D cells” do not: there it is a shape or
# a size. Of a list all is read at once, since “V and T notches” are shapes as well.
_WORDS_AFTER = (
    r"(?:and|or|to|onto|on|in|into|from|with|inside|behind|along|around|over|under|underneath|above|below|at|by|so|as"
    r"|then|before|after|for|until|but|while|flush|against|through|between|upright|facing|aside|again|together|twice"
    r"|once|next|up|down|if|when|is|are|go|goes|lie|lies|meet|meets|out|off|across|beside|away|first|the|that|which|will)\b(?!-)"
)
_GOES_ON = re.compile(
    rf"(?:{_JOIN}(?:[A-Z](?![\w\-–'’/])|{_THING})){{0,9}}+\)?(?:\Z|[.!?;:,)\n]|{_GAP}(?:{_WORDS_AFTER}|[{_THING}{_OTHER}]|\())"
)
# Words before a letter that make it the name of something else, there and everywhere in the project.
_LABEL = re.compile(
    rf"""(?:\b(?:tab|slot|point|spot|line|fold|crease|template|figure|fig\.|diagram|drawing|step|plan|side|group|size|type
    |grade|class|option|version|method|pattern|vitamin|corner|row|column|section|page|part|volume|team|bag|packet
    |pile|key|button|route|socket|terminal|letter|an?|the|edge|hole|cross|stitch|knot|bead|colou?r|wire|pin)s?{_GAP}
    |["“'‘]) {_PREFIX} \Z""",
    re.VERBOSE | re.IGNORECASE,
)
# In a sentence before a letter, or right after it (“Q marks the middle”), these name something with it.
_WORD_LONG = 7
_NAMING = re.compile(
    r"\b(?:marks?|marked|marking|labels?|labell?ed|letter(?:s|ed)?|calls?|called|names?|named|writes?|written|draws?|drawn"
    r"|initials?|alphabet|spells?|reads?|stamp|stencil|monogram|shapes?|shaped|batter(?:y|ies)|cells?)\b",
    re.IGNORECASE,
)

# Names of prints. ---------------------------------------------------------------------------------------------------

_PRINT = re.compile(r"(?<![\w'’\-–])(?:papers?|prints?|sheet|pad)(?![\w'’\-–])")
# Capitals say something only inside a sentence; a name in capitals throughout may be anything.
_CAPITALISED = r"[A-Z][a-zß-ÿ]{2,29}"
_NAME_BEFORE = re.compile(
    rf"(?:\b[Tt]he|\b(?:from|of|in|with|on|our|your|more)){_GAP}(?P<name>{_CAPITALISED}(?:{_GAP}{_CAPITALISED}){{0,2}}){_GAP}\Z"
)
_THE = re.compile(rf"\b[Tt]he{_GAP}\Z")
_NAME_AFTER = re.compile(
    rf"{_GAP}(?P<name>{_CAPITALISED})(?=\Z|[.!?;:,)\n]|{_GAP}(?:and|or|to|onto|into|behind|along|around|under|over)\b)"
)
# After “the Meadow paper” a sentence goes on; “the Meadow paper trimmer” is no paper.
_AFTER_PRINT = re.compile(rf"\Z|[.!?;:,)\n]|{_GAP}(?:side|{_WORDS_AFTER}|[{_THING}{_OTHER}]|\()")

# Counts. ------------------------------------------------------------------------------------------------------------

_NUMBERS = {
    "two": 2,
    "three": 3,
    "four": 4,
    "five": 5,
    "six": 6,
    "seven": 7,
    "eight": 8,
    "nine": 9,
    "ten": 10,
    "eleven": 11,
    "twelve": 12,
}
_TWOS = {"both": 2, "pair": 2, "pairs": 2}
_WORDS_OF_NUMBERS = "|".join(f"[{word[0].upper()}{word[0]}]{word[1:]}" for word in _NUMBERS)
# The words after a number are only looked at, since in “two or three strips” another number follows.
_A_COUNT = rf"""(?<![\w.,/⁄∕×\-–—'’+#{_THING}{_OTHER}])
    (?: (?P<both> [Bb]oth ) (?:{_GAP}of)? (?:{_GAP}(?:the|these|those|your))?
      | (?P<pair> (?:[Aa]{_GAP})? \b[Pp]air {_GAP} of )
      | (?P<word> {_WORDS_OF_NUMBERS} ) | (?P<digits> [2-9] | [1-9][0-9]{{1,2}} ) ) {_GAP}"""
_COUNT = re.compile(rf"{_A_COUNT} (?= (?P<words> [a-z]+ (?:{_GAP}[a-z]+){{0,2}} ) )", re.VERBOSE)
_COUNT_OF = re.compile(rf"{_A_COUNT} (?:of{_GAP})? (?:the{_GAP})? (?={_THING})", re.VERBOSE)
# Words before a number with which it is no count of all, or no count at all: “up to two”, “step 2”, “into four”.
_NOT_A_COUNT = word_set(
    f"""a about almost another around at between both by each either every extra few figure first fold further half in
    into last least less like maybe most my nearly next no nor not number one or other others over page per remaining
    roughly same second spare step than third times to under up x twenty thirty forty fifty sixty seventy eighty ninety
    hundred thousand dozen {" ".join(_NUMBERS)}"""
)
_DEFINITE = word_set("the these those all of your its their our his her such")
_ANY_NUMBER = re.compile(
    rf"(?<![\w.,/⁄∕×])(?:one|both|pairs?|dozen|half|single|{'|'.join(_NUMBERS)}|[0-9]+)\b"
    r"(?![ -]?(?:s|sec|secs|seconds?|min|minutes?|h|hours?|days?|mm|cm|in|inch|inches)\b|[./⁄∕])",
    re.IGNORECASE,
)
_PARTLY = re.compile(
    r"\b(?:each|every|per|either|more|others?|another|rest|remaining|remainder|again|repeat|likewise|same|half|halves"
    r"|next|first|last|second|third|final|apiece|left|leave|keep|aside|later|spare|few|some|now|still|opposite|also|too"
    r"|a time|in turn|of them|so far|to begin|to start)\b",
    re.IGNORECASE,
)
_HEDGE = re.compile(
    r"\b(?:not|never|without|instead|scraps?|leftovers?|left over|off-?cuts?|waste|spare|if|would|could|may|might"
    r"|enough|like|another|more|others?|pretend|else|extra|copies|makes?|making|friend|members?|altogether|previous|next|last"
    r"|earlier|already)\b|n[’']t\b",
    re.IGNORECASE,
)
_MEASURED = re.compile(
    rf"-|['’]|{_GAP}(?:of|long|wide|high|deep|tall|thick|apart|away|more|or|at{_GAP}a|each|per|in{_GAP}(?:one|all|total))\b"
)
_NAMED = re.compile(rf"(?:{_GAP}\(?|,{_GAP}){_THING}")
_SECOND = re.compile(rf"{_JOIN}(?:[{_THING}{_OTHER}]|[A-Z]\b)|{_GAP}(?:to|by|on|with|plus){_GAP}[{_THING}{_OTHER}]")


def _before(text: str, at: int) -> str:
    """The word before a place in the text, lower case; none across the end of a clause."""
    found = _WORD_BEFORE.search(text, max(at - 24, 0), at)
    return found["word"].lower() if found else ""


_WORD_BEFORE = re.compile(rf"(?P<word>\w{{1,20}}){_GAP}\Z")
