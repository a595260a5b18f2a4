"""Rules about folded forms: scores and panels that contradict each other, tabs that are too long, unknown panels."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import islice

from layouts.document import Form, Kit, Placement, Project, form_place
from layouts.document.forms import Scored
from layouts.lengths import System
from layouts.proofing.findings import Finding, Rule
from layouts.proofing.measures import told, whole_ticks
from layouts.proofing.rules.text import UNKNOWN_REFERENCE
from layouts.shapes import FlatSizes, NotBuilt
from layouts.shapes.forms import Fault, panel_names

__all__ = ["PANELS_SUM", "RULES", "SCORE_OUTSIDE", "TABS_OVERLAP", "findings"]

_TEXT = {"type": "string"}
_WHOLE = {"type": "integer", "description": "ticks of 1/320 mm"}
_SIDES = ("left", "right", "top", "bottom")

SCORE_OUTSIDE = Rule(
    "score-outside",
    "stop",
    "A score is as far from its edge as the sheet is wide or high, or farther: there is nothing to fold.",
    {"from": {"enum": list(_SIDES)}, "at": _WHOLE, "whole": _WHOLE},
)
PANELS_SUM = Rule(
    "panels-sum",
    "fix",
    "The stated measures of a form leave a panel that contradicts another one, or no panel at all.",
    {"panel": _TEXT, "against": _TEXT, "length": _WHOLE, "limit": _WHOLE},
)
TABS_OVERLAP = Rule(
    "tabs-overlap",
    "stop",
    "Corner tabs are longer than half the wall they are glued to, or a tab or flap longer than what it lies on.",
    {"tab": _TEXT, "against": _TEXT, "length": _WHOLE, "limit": _WHOLE},
)
RULES = (SCORE_OUTSIDE, PANELS_SUM, TABS_OVERLAP)

# One sheet may have very many scores, and a form very many panels: of each this many are told.
_MOST_TOLD = 20
_MOST_NAMED = 8


def findings(kit: Kit) -> Iterator[Finding]:
    """Yield what is wrong with the forms of a kit and with the panels that placements name.

    A form cut from several prints is judged by the first of them.
    """
    sizes, papers = FlatSizes.of(kit), {paper.id: paper for paper in kit.papers}
    for project in kit.projects:
        wrong: dict[str, tuple[Fault, ...]] = {}
        for form in project.forms:
            paper = papers[form.paper if isinstance(form.paper, str) else form.paper.each[0]]
            try:
                wrong[form.id] = sizes.faults(form, project.id, paper)
            except NotBuilt:
                # Told by the paper it is cut from: what it is cut as is not known either.
                continue
            yield from _of_faults(project, form, wrong[form.id], kit.unit)
        yield from _unknown_panels(project, wrong)


def _of_faults(project: Project, form: Form, faults: tuple[Fault, ...], unit: System) -> Iterator[Finding]:
    place = form_place(project.id, form.id)
    for number, fault in enumerate(faults[:_MOST_TOLD], start=1):
        more = len(faults) - number if number == _MOST_TOLD else 0
        rest = f" And {more} more are wrong with this form." if more else ""
        message = _message(form, fault, unit) + rest
        length, limit = whole_ticks(fault.length), whole_ticks(fault.limit)
        if fault.kind == "outside":
            why = {"from": fault.against, "at": length, "whole": limit}
            yield SCORE_OUTSIDE.finding(f"{place}/{fault.subject}/at", message=message, **why)
        elif fault.kind in ("tabs", "flap"):
            why = {"tab": fault.subject, "against": fault.against, "length": length, "limit": limit}
            yield TABS_OVERLAP.finding(place, message=message, **why)
        else:
            at = f"{place}/{fault.subject}/at" if fault.kind == "same" else place
            why = {"panel": fault.subject, "against": fault.against, "length": length, "limit": limit}
            yield PANELS_SUM.finding(at, message=message, **why)


def _message(form: Form, fault: Fault, unit: System) -> str:
    """What is wrong, in words: what, where, what to do."""
    name, what, other = f"“{form.name}”", fault.subject, fault.against
    length, limit = told(fault.length, unit), told(fault.limit, unit)
    match fault.kind:
        case "outside":
            score, axis = what.removeprefix("scores/"), "wide" if other in ("left", "right") else "high"
            return (
                f"Score {score} of {name} is {length} from the {other}, and the sheet is {limit} {axis}: there is "
                "nothing to fold. Correct the distance."
            )
        case "meeting":
            sides = " and the ".join(side.removeprefix("wall-") for side in (what, other))
            return (
                f"The scores of {name} from the {sides} reach {length} together, and the sheet is {limit}: no base is "
                "left between them. Correct a distance, or make the sheet larger."
            )
        case "same":
            first, second = other.removeprefix("scores/"), what.removeprefix("scores/")
            return (
                f"Scores {first} and {second} of {name} lie on each other, {length} from the same edge: the panel "
                "between them has no width. Correct one distance, or leave one of them out."
            )
        case "turned-in":
            return (
                f"The {what} of {name} is {length} and is turned in against the {other} of {limit}: it would stand on "
                f"the base and not lie flat. Make it {limit} or less."
            )
        case "uneven":
            return (
                f"The {what} of {name} is {length} high and its corner tabs are glued to the {other} of {limit}: they "
                "would stand out over its rim. Make both walls alike, or cut the corners off."
            )
        case "corner":
            return (
                f"{length} are to be cut off each corner of {name}, and half its shorter side is {limit}: the cuts "
                "would meet before they end. Cut off less."
            )
        case "hole":
            return (
                f"The hole of {name} is {length} across, and the tag only {limit}: nothing is left of it. "
                "Make the hole smaller."
            )
        case "tabs":
            return (
                f"The corner tabs of {name} are {length} long, and half the {other} they are glued to is {limit}: two "
                "of them meet there. Make the walls lower, or cut the corners off."
            )
        case "flap":
            return (
                f"The {what} of {name} is {length} deep, and the {other} it lies on is only {limit}: it would stick "
                "out beyond. Make it shorter."
            )


def _unknown_panels(project: Project, wrong: Mapping[str, tuple[Fault, ...]]) -> Iterator[Finding]:
    """Yield the placements that name a panel which their form does not have.

    Where scores are wrong nobody knows what panels they should make.
    """
    forms = {form.id: form for form in project.forms}
    on_forms: dict[str, list[Placement]] = {}
    for placement in project.placements:
        if placement.on.form is not None:
            on_forms.setdefault(placement.on.form, []).append(placement)
    for name, placements in on_forms.items():
        form = forms[name]
        if isinstance(form, Scored) and any(
            fault.kind in ("outside", "meeting", "same") for fault in wrong.get(name, ())
        ):
            continue
        panels = panel_names(form)
        some = list(islice(panels, _MOST_NAMED + 1))
        listed = ", ".join(some[:_MOST_NAMED]) + (" and more" if len(some) > _MOST_NAMED else "")
        for placement in placements:
            panel = placement.on.panel or ""
            if panel not in panels:
                message = (
                    f"The placement {placement.id} of “{project.title}” is on the {panel} of “{form.name}”, which has "
                    f"no such panel. Name one that it has: {listed}."
                )
                place = f"project:{project.id}/placement:{placement.id}"
                yield UNKNOWN_REFERENCE.finding(place, form_place(project.id, form.id), message=message, text=panel)
