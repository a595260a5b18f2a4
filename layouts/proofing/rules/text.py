"""Rules about the text of steps: references that lead nowhere, and measures that were typed instead of referred to."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction

from layouts.assembly import KitSteps, Names, PlannedStep, Reference, StrayBrace, TypedNumber, parse_text, typed_numbers
from layouts.assembly.naming import project_place
from layouts.document import Kit
from layouts.lengths import TICKS_PER_INCH, TICKS_PER_MM, System
from layouts.printed import Figure
from layouts.proofing.findings import Finding, Rule

__all__ = ["NUMBER_NOT_IN_PLAN", "RULES", "TYPED_NUMBER", "UNKNOWN_REFERENCE", "findings"]

_TEXT = {"type": "string"}

UNKNOWN_REFERENCE = Rule(
    "unknown-reference",
    "fix",
    "A reference in the text of a step, or the panel of a placement, names nothing in this kit; or a brace is alone.",
    {"text": _TEXT},
)
TYPED_NUMBER = Rule(
    "typed-number",
    "note",
    "A measure typed into the text of a step equals a figure of the plan, but will not follow when the plan changes.",
    {"typed": _TEXT, "equals": _TEXT},
)
NUMBER_NOT_IN_PLAN = Rule(
    "number-not-in-plan",
    "fix",
    "A measure is typed into the text of a step, and no figure of the plan equals it.",
    {"typed": _TEXT},
)
RULES = (UNKNOWN_REFERENCE, TYPED_NUMBER, NUMBER_NOT_IN_PLAN)


def findings(kit: Kit, steps: KitSteps, figures: Iterable[Figure]) -> Iterator[Finding]:
    """Yield what is wrong with the text of the steps. `figures` are the printed ones and the derived sides of windows
    and openings, since a reference may name them as well."""
    names = Names(kit)
    known = _Figures(figures)
    for planned in steps:
        yield from _references(planned, names)
        yield from _typed(planned, names, known)


def _references(planned: PlannedStep, names: Names) -> Iterator[Finding]:
    where = f"Step {planned.step.id} of “{planned.project.title}”"
    told: set[str] = set()
    for part in parse_text(planned.step.text):
        if isinstance(part, StrayBrace):
            message = f"{where} has a lone “{part.text}”. Complete the reference, or double the brace to print it."
        elif isinstance(part, Reference) and names.resolve(part, planned.project.id) is None:
            message = f"{where} refers to “{{{part.text}}}”, which leads nowhere. Correct the name, or add the thing."
        else:
            continue
        if part.text not in told:
            told.add(part.text)
            yield UNKNOWN_REFERENCE.finding(planned.place, message=message, text=part.text)


def _typed(planned: PlannedStep, names: Names, known: _Figures) -> Iterator[Finding]:
    where = f"Step {planned.step.id} of “{planned.project.title}”"
    for typed in {number.text: number for number in typed_numbers(planned.step.text)}.values():
        equal = _used(planned, typed) or known.equal_to(typed, project_place(planned.project.id))
        if equal is None:
            message = (
                f"{where} says “{typed.text}”, and nothing in the plan measures that. "
                "Refer to the piece, window or placement that is meant, or correct the plan."
            )
            yield NUMBER_NOT_IN_PLAN.finding(planned.place, message=message, typed=typed.text)
            continue
        reference = names.reference_to(equal, planned.project.id)
        instead = f"Write “{{{reference}}}” instead" if reference else "Change both together"
        named = "which is a figure of the plan" if reference else f"which is {equal}"
        message = f"{where} says “{typed.text}”, {named}. {instead}, so that the text follows the plan."
        yield TYPED_NUMBER.finding(planned.place, message=message, typed=typed.text, equals=equal)


def _used(planned: PlannedStep, typed: TypedNumber) -> str | None:
    """The length that the step itself uses of something, where that is what is typed: no other figure is nearer."""
    for number, use in enumerate(planned.step.use, start=1):
        if use.length is not None and use.length.ticks == typed.ticks:
            return f"{planned.place}/use/{number}/length"
    return None


class _Figures:
    """The figures of a plan by what they measure, in ticks: exactly, and as printed in each system."""

    def __init__(self, figures: Iterable[Figure]) -> None:
        self._exact: _ByValue = {}
        self._printed: dict[System, _ByValue] = {"in": {}, "mm": {}}
        for figure in figures:
            _add(self._exact, Fraction(figure.ticks), figure.at)
            # A tool is as it is: nobody means its step or its bite by a rounded figure.
            if figure.at.startswith("tool:"):
                continue
            _add(self._printed["in"], _read(figure.inches) * TICKS_PER_INCH, figure.at)
            _add(self._printed["mm"], _read(figure.mm) * TICKS_PER_MM, figure.at)

    def equal_to(self, number: TypedNumber, home: str) -> str | None:
        """Return the place of a figure that equals a typed measure, rather one of the project `home`, or None."""
        if number.ticks is None:
            return None
        found = [values.get(number.ticks, {}) for values in (self._exact, self._printed[number.system])]
        for places in found:
            if home in places:
                return places[home]
        others = [place for places in found for place in places.values()]
        # Whatever else has that measure is meant rather than a tool.
        return min(others, key=lambda place: place.startswith("tool:"), default=None)


# For each measure, for each project and each thing of the kit, the first place that has it.
_ByValue = dict[Fraction, dict[str, str]]


def _add(values: _ByValue, measure: Fraction, place: str) -> None:
    values.setdefault(measure, {}).setdefault(place.partition("/")[0], place)


def _read(figure: str) -> Fraction:
    """Read a printed figure: a mixed number or a decimal. It may be longer than any length of a document."""
    return sum((Fraction(part) for part in figure.split()), Fraction(0))
