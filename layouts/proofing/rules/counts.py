"""The rule about counts in the words of steps: “four strips” where the step uses two.

A false alarm in common prose costs more than a fault that is not seen: what could mean anything else is not told.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from itertools import islice

from layouts.assembly import KitSteps, Names, PlannedStep, Reference
from layouts.assembly.naming import blank_place, element_place, made_place, place_named
from layouts.assembly.prose import Counted, Prose, as_singular, prose_of, word_set
from layouts.document import FormBase, Kit, Piece, Project
from layouts.document.forms import Concertina, Frame
from layouts.document.places import form_place, piece_place
from layouts.proofing.findings import Finding, Rule
from layouts.proofing.measures import shortened

__all__ = ["ANYTHING", "COUNT_WORD_DIFFERS", "RULES", "findings", "noun_of"]

_TEXT = {"type": "string"}
_WHOLE = {"type": "integer"}

COUNT_WORD_DIFFERS = Rule(
    "count-word-differs",
    "fix",
    "The text of a step counts copies of a thing in words or digits; the step uses, or the plan has, another number.",
    {"said": _TEXT, "number": _WHOLE, "planned": _WHOLE, "thing": _TEXT},
)
RULES = (COUNT_WORD_DIFFERS,)

# No kit has a hundred such slips: so many are told.
_MOST_TOLD = 100
# Nor thousands of counts in its text: what comes after so many is not read.
_MOST_READ = 3_000
# A sentence or a step that names more things than these is not read.
_MOST_NAMED = 50

# Nouns of many things that are no pieces: a fold makes panels, a tray has walls, and anything has sides.
ANYTHING = word_set(
    """back bottom copy corner cover cut dot drop edge end face flap fold foot front half hand hole inch join knot layer
    length line loop opening page pair panel part piece row score seam section set sheet side slit slot spot stack step
    strap tab time top turn wall window"""
)
# What a fold or a tray has, whatever stands before it: “the two long walls”.
_OF_FORMS = word_set("edge end flap fold hinge panel side tab wall")
# A name with one of these is not what its last word says: “pair of wings”, “card for the lid”.
_COUNTING = word_set(
    """of for with and or from to pair set dozen half two three four five six seven eight nine ten eleven twelve
    single double triple both"""
)
# A number before a word; where there is none, nothing is read.
_MAY_COUNT = re.compile(
    r"\b(?:two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|both|pair[ \t\u00a0]{1,3}of|[0-9]{1,3})"
    r"[ \t\u00a0]{1,3}[a-z{]",
    re.IGNORECASE,
)
_WORD = re.compile(r"[^\W\d_]+")
_NAME = re.compile(r"[A-Za-z]+(?:[ -][A-Za-z]+){0,5}")


def findings(kit: Kit, steps: KitSteps) -> Iterator[Finding]:
    """Yield the counts in the text of the steps that neither the step nor the plan agrees with."""
    yield from islice(_counts(kit, steps), _MOST_TOLD)


@dataclass(frozen=True, slots=True)
class _Thing:
    """What may be counted: `noun` is the last word of its name in the singular, `words` are all of them.

    `count` is how many of it one copy of the project has, or, if `is_stock`, the whole kit.
    """

    place: str
    called: str
    noun: str
    words: frozenset[str]
    count: int
    is_stock: bool


def noun_of(name: str) -> tuple[str, frozenset[str]]:
    """The noun of a name and all its words, in the singular; no noun where the name is not plain words ending in it."""
    words = frozenset(as_singular(word) for word in _WORD.findall(name))
    if _NAME.fullmatch(name) is None or words & _COUNTING:
        return "", words
    return as_singular(_WORD.findall(name)[-1]), words


_Called = dict[str, list[frozenset[str]]]


class _Stock:
    """What the whole kit holds and may be counted; of everything else that has a name only its words.

    The elements of a label sheet are labels, a paper may be called a card, and a project a letter.
    """

    def __init__(self, kit: Kit) -> None:
        blanks = [_thing(blank_place(one.id), one.id, one.name, one.count, is_stock=True) for one in kit.blanks]
        elements: list[_Thing] = []
        called = [one.words for one in blanks]
        for sheet in kit.embellishments:
            of_sheet = noun_of(sheet.name)[1]
            for one in sheet.elements:
                place = element_place(f"{sheet.id}/{one.id}")
                elements.append(_thing(place, one.id, one.name, one.count * sheet.sheets, is_stock=True))
                # No name is of so many words, but one may fill a document.
                called.append(elements[-1].words | (of_sheet if len(of_sheet) <= _MOST_NAMED else frozenset()))
        names = [kit.title, *(one.title for one in kit.projects), *(one.name for one in kit.supplies)]
        names += [*(one.name for one in kit.papers), *(one.name or "" for one in kit.tools)]
        self.by_place = {one.place: one for one in (*blanks, *elements)}
        self.called = _called([*called, *(noun_of(name)[1] for name in names)])


class _Things:
    """What the steps of a project may count, by place and by the words of its name."""

    def __init__(self, project: Project, stock: _Stock) -> None:
        self.project = project
        self._stock = stock
        self._has_strips = any(isinstance(form, Frame | Concertina) for form in project.forms)
        made: list[Piece | FormBase] = [*project.pieces, *project.forms]
        things = [_thing(made_place(project.id, one), one.id, one.name, one.count, is_stock=False) for one in made]
        self._made = {thing.place: thing for thing in things}
        self._called = _called([thing.words for thing in things])
        # In how many steps each is cut: nobody can say how many of it are cut in one of several.
        self.cut_in = Counter(place for step in project.steps for place in self.places_of(step.cut))

    def places_of(self, ids: tuple[str, ...]) -> frozenset[str]:
        """The places of pieces and forms with these ids."""
        places = (
            place for id_ in ids for place in (piece_place(self.project.id, id_), form_place(self.project.id, id_))
        )
        return frozenset(place for place in places if place in self._made)

    def at(self, place: str) -> _Thing | None:
        return self._made.get(place) or self._stock.by_place.get(place)

    def is_only(self, noun: str, described: frozenset[str]) -> bool:
        """Whether one thing at most may be meant by a noun with these words before it."""
        if noun in (_OF_FORMS if described else ANYTHING) or (noun == "strip" and self._has_strips):
            return False
        called = [*self._called.get(noun, [])[:_MOST_NAMED], *self._stock.called.get(noun, [])[:_MOST_NAMED]]
        return len(called) < _MOST_NAMED and sum(described <= words for words in called) <= 1


def _called(names: list[frozenset[str]]) -> _Called:
    called: _Called = {}
    for words in names:
        for word in words:
            called.setdefault(word, []).append(words)
    return called


def _thing(place: str, id_: str, name: str, count: int, *, is_stock: bool) -> _Thing:
    noun, words = noun_of(name)
    return _Thing(place, f"{id_} (“{shortened(name)}”)", noun, words, count, is_stock)


def _counts(kit: Kit, steps: KitSteps) -> Iterator[Finding]:
    """The counts of a thing that a step names, uses or cuts, where no other thing can be meant."""
    names = Names(kit)
    stock: _Stock | None = None
    things: _Things | None = None
    left = _MOST_READ
    for planned, prose in prose_of(steps, _MAY_COUNT):
        step: _Step | None = None
        counts = list(islice(prose.counts(), left))
        left -= len(counts)
        for counted in counts:
            stock = stock or _Stock(kit)
            if things is None or things.project.id != planned.project.id:
                things = _Things(planned.project, stock)
            step = step or _Step(planned, prose, things, names)
            found = step.judged(counted)
            if found is not None:
                yield found
        referred = list(islice(prose.counted_references(), left))
        left -= len(referred)
        for counted, reference in referred:
            stock = stock or _Stock(kit)
            if things is None or things.project.id != planned.project.id:
                things = _Things(planned.project, stock)
            step = step or _Step(planned, prose, things, names)
            found = step.judged_of(counted, reference)
            if found is not None:
                yield found


class _Step:
    """A step whose text counts something."""

    def __init__(self, planned: PlannedStep, prose: Prose, things: _Things, names: Names) -> None:
        self._planned = planned
        self._prose = prose
        self._things = things
        self._names = names
        self._home = f"project:{planned.project.id}/"
        self._used: Counter[str] = Counter()
        for use in planned.step.use:
            self._used[place_named(use, planned.project.id)] += use.count
        self._cut = things.places_of(planned.step.cut)
        self._told: set[str] = set()

    @cached_property
    def _numbers(self) -> Counter[int]:
        return Counter(self._prose.numbers())

    @cached_property
    def _tells_a_part(self) -> bool:
        return self._prose.tells_a_part()

    def judged(self, counted: Counted) -> Finding | None:
        """What is wrong with a count, None where it is right or nobody can know what it counts."""
        at = counted.words_at
        for before, word in enumerate(counted.words):
            at = self._prose.text.index(word, at)
            if as_singular(word) != word:
                described = frozenset(as_singular(one) for one in counted.words[:before])
                thing = self._meant(counted, as_singular(word), described, at + len(word))
                return (
                    None if thing is None else self._compared(counted, self._prose.text[counted.at : at] + word, thing)
                )
            at += len(word)
        return None

    def judged_of(self, counted: Counted, reference: Reference) -> Finding | None:
        """What is wrong with a count of what a reference names right after it."""
        thing = self._things.at(self._place(reference))
        if thing is None or self._prose.hedges(*self._prose.sentence(counted.at)):
            return None
        return self._compared(counted, self._prose.said(counted.at, counted.words_at + 1), thing)

    def _meant(self, counted: Counted, noun: str, described: frozenset[str], end: int) -> _Thing | None:
        """The one thing that is counted: the one that is named right after, or the one that alone has that noun."""
        start_of, end_of = self._prose.sentence(counted.at)
        if self._prose.counts_a_measure(end) or self._prose.hedges(start_of, end_of):
            return None
        named = self._prose.named_after(end)
        if named is not None:
            thing = self._things.at(self._place(named))
            return thing if thing is not None and thing.noun == noun and described <= thing.words else None
        referred = self._prose.referred(start_of, end_of)
        if len(referred) > _MOST_NAMED or len(self._used) > _MOST_NAMED or not self._things.is_only(noun, described):
            return None
        places = {self._place(one) for one in referred} | set(self._used) | set(self._cut)
        if any(place.startswith("project:") and not place.startswith(self._home) for place in places):
            return None
        found = [thing for place in sorted(places) if (thing := self._things.at(place)) and thing.noun == noun]
        return found[0] if len(found) == 1 and described <= found[0].words else None

    def _place(self, reference: Reference) -> str:
        """The place of the thing that a reference names, whatever of it; empty where it leads nowhere."""
        target = self._names.resolve(reference, self._things.project.id)
        if target is None:
            return ""
        parts = target.place.split("/")
        return parts[0] if parts[0].startswith("blank:") else "/".join(parts[:2])

    def _compared(self, counted: Counted, said: str, thing: _Thing) -> Finding | None:
        """A count is right where it is what the step uses, or, where all may be spoken of, what there is; of one copy
        of the project or of all. Fewer is wrong only where the text can speak of no part of them."""
        used = self._used.get(thing.place)
        is_cut = thing.place in self._cut
        right = {thing.count} if used is None else {used}
        if counted.is_definite or is_cut or self._tells_a_part or set(self._numbers) - {counted.number}:
            right.add(thing.count)
        if not (thing.is_stock and used is None):
            right |= {count * self._things.project.makes for count in right}
        if counted.number in right or thing.place in self._told:
            return None
        if counted.number < max(right):
            is_all = used is not None if not is_cut else self._things.cut_in[thing.place] == 1
            in_parts = self._tells_a_part or self._numbers.total() > 1 or len(right) > 1
            if counted.is_definite or not is_all or in_parts:
                return None
        self._told.add(thing.place)
        planned = thing.count if used is None else used
        if used is not None:
            there = f"the step uses {used} of {thing.called}"
        else:
            there = f"{'the kit holds' if thing.is_stock else 'the plan has'} {thing.count} of {thing.called}"
        message = (
            f"Step {self._planned.step.id} of “{shortened(self._things.project.title)}” says “{shortened(said)}”, "
            f"but {there}. "
            "Correct the number in the text, or the count in the plan, so that they agree."
        )
        return COUNT_WORD_DIFFERS.finding(
            self._planned.place,
            thing.place,
            message=message,
            said=said,
            number=counted.number,
            planned=planned,
            thing=thing.place,
        )
