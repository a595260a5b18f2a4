"""The text of a step while it is typed: as its sheet will print it, and what of it will not follow the plan."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from difflib import get_close_matches
from typing import Any

from frontend.kit_page.things.nameable import nameable
from frontend.words.places import Places
from kits.sheets.content.measures import Measures
from kits.sheets.content.project import PrintedStep, printed_steps
from kits.sheets.content.running import StepText
from kits.sheets.content.waits import wait_words
from kits.sheets.options import SheetOptions
from layouts.assembly import (
    KitSteps,
    Names,
    PlannedStep,
    Reference,
    StrayBrace,
    TypedNumber,
    parse_text,
    steps_of,
    typed_numbers,
)
from layouts.document import Kit
from layouts.printed import Printing, grid_of
from layouts.proofing.rules import steps as step_rules
from layouts.rounding import nearest_step

__all__ = ["Flaw", "Offer", "flaws_in", "printed_project", "printed_step", "referred"]

# Things that are offered for one number or name, and flaws of one text that are told.
_MOST_OFFERED, _MOST_NEAR, _MOST_FLAWS = 5, 3, 12


@dataclass(frozen=True, slots=True)
class Offer:
    """A reference that can be written instead, and what it is in words."""

    reference: str
    words: str


@dataclass(frozen=True, slots=True)
class Flaw:
    """Something in a text that names no figure of the plan: from its character `start`, as it stands there; what is
    wrong with it in a sentence, and what could stand there instead."""

    start: int
    text: str
    words: str
    offers: tuple[Offer, ...]


def printed_step(kit: Kit, place: str) -> PrintedStep | None:
    """Return the step at a place as its sheet will print it, each figure rounded by itself; None if there is none."""
    project = place.partition("/")[0].removeprefix("project:")
    planned = steps_of(kit).by_project.get(project, ())
    at = next((number for number, one in enumerate(planned) if one.place == place), None)
    return None if at is None else printed_project(kit, project)[at]


def printed_project(kit: Kit, project: str, proof: Mapping[str, Any] | None = None) -> tuple[PrintedStep, ...]:
    """Return all steps of a project (by id) as its sheet prints them; with a proof of this kit, by its figures."""
    measures = Measures(kit, SheetOptions.of(kit), proof)
    as_shown = measures.as_shown
    planned = steps_of(as_shown)
    own = planned.by_project[project]
    needed: dict[str, set[str]] = {}
    for finding in step_rules.cautions(kit, KitSteps({project: own}, planned.precedence)):
        needed.setdefault(finding.at[0], set()).add(str(finding.why["caution"]))
    home = next(one for one in as_shown.projects if one.id == project)
    text = StepText(as_shown, home, measures, Names(as_shown))
    return tuple(printed_steps(own, text, needed, wait_words(as_shown, planned)))


def flaws_in(kit: Kit, place: str) -> tuple[Flaw, ...]:
    """Return what in the text of a step will not follow the plan, in the order of the text: measures that were typed,
    names that lead nowhere, and lone braces."""
    planned = next((one for one in steps_of(kit) if one.place == place), None)
    if planned is None:
        return ()
    found = [*_typed(kit, planned), *_lost(kit, planned)]
    return tuple(sorted(found, key=lambda one: one.start)[:_MOST_FLAWS])


def referred(text: str, start: int, reference: str) -> str:
    """Return a text in which a reference stands instead of the typed measure, or the name, that begins at `start`.

    Where neither begins there the text has been changed since, and stays as it is.

    >>> referred("Cut 2 3/4 in off.", 4, "A.width"), referred("Fold {a}.", 5, "A")
    ('Cut {A.width} off.', 'Fold {A}.')
    """
    spans = [(one.start, one.end) for one in typed_numbers(text)]
    spans += [(one.start, one.end) for one in parse_text(text) if isinstance(one, Reference)]
    end = dict(spans).get(start)
    return text if end is None else f"{text[:start]}{{{reference}}}{text[end:]}"


def _typed(kit: Kit, planned: PlannedStep) -> Iterator[Flaw]:
    numbers = typed_numbers(planned.step.text)
    if not numbers:
        return
    exact, names, places = Printing(kit).exact, Names(kit), Places(kit)
    project = planned.project
    for number in numbers:
        equal = _used(planned, number) or _equal(kit, exact, number)
        references = {at: names.reference_to(at, project.id) for at in equal}
        named = _nearest_first(planned, {at: one for at, one in references.items() if one is not None})
        offers = tuple(Offer(name, places.words(at).removeprefix(f"{project.title}, ")) for at, name in named.items())
        if offers:
            words = f"“{number.text}” is typed: it will not follow when the plan changes."
        elif equal:
            words = f"“{number.text}” is typed, and is {places.words(equal[0])}: change both together."
        else:
            words = f"“{number.text}” is typed, and nothing in the plan measures that."
        yield Flaw(number.start, number.text, words, offers[:_MOST_OFFERED])


def _used(planned: PlannedStep, typed: TypedNumber) -> list[str]:
    """The length that the step itself uses of something: where it is what is typed, no other figure is nearer."""
    return [
        f"{planned.place}/use/{number}/length"
        for number, use in enumerate(planned.step.use, start=1)
        if use.length is not None and use.length.ticks == typed.ticks
    ]


def _equal(kit: Kit, exact: Mapping[str, int], typed: TypedNumber) -> list[str]:
    """The places whose figures are what is typed: exactly, or as a sheet shows them in its system."""
    if typed.ticks is None:
        return []
    step = grid_of(kit, typed.system)
    return [
        place
        for place, ticks in exact.items()
        if typed.ticks == ticks or (typed.ticks == nearest_step(ticks, step) and not place.startswith("tool:"))
    ]


def _nearest_first(planned: PlannedStep, references: Mapping[str, str]) -> dict[str, str]:
    """What the step cuts, uses or names before the rest of its project, and that before other projects and the box."""
    step = planned.step
    near = {*step.cut, *(use.piece or use.form or "" for use in step.use)}
    near |= {part.names[0] for part in parse_text(step.text) if isinstance(part, Reference) and part.names}

    def rank(item: tuple[str, str]) -> tuple[bool, bool]:
        place, reference = item
        return reference.partition(".")[0] not in near, not place.startswith(f"project:{planned.project.id}/")

    return dict(sorted(references.items(), key=rank))


def _lost(kit: Kit, planned: PlannedStep) -> Iterator[Flaw]:
    names, known = Names(kit), None
    for part in parse_text(planned.step.text):
        if isinstance(part, StrayBrace):
            words = f"“{part.text}” stands alone: complete the name, or double the brace to print it."
            yield Flaw(part.start, part.text, words, ())
        elif isinstance(part, Reference) and names.resolve(part, planned.project.id) is None:
            known = known or {one.reference: one.words for one in nameable(kit, planned.project)}
            near = _close(part.text, tuple(known))
            words = f"“{{{part.text}}}” leads nowhere{'' if near else ': nothing here is called so'}."
            yield Flaw(part.start, f"{{{part.text}}}", words, tuple(Offer(one, known[one]) for one in near))


def _close(text: str, known: Sequence[str]) -> list[str]:
    """The names most like a text, small and capital letters alike: what is called so elsewhere, then what looks so."""
    asked = text.strip().casefold()
    folded: dict[str, str] = {}
    for one in known:
        folded.setdefault(one.casefold(), one)
    elsewhere = [one for one in known if one.casefold().rpartition("/")[2].rpartition(":")[2] == asked]
    like = (folded[one] for one in get_close_matches(asked, list(folded), n=_MOST_NEAR, cutoff=0.5))
    return list(dict.fromkeys((*elsewhere, *like)))[:_MOST_NEAR]
