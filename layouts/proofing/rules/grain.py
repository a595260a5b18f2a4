"""The rule about grain: card whose long folds lie across it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import islice

from layouts.document import Form, Kit, Paper, Project, form_place
from layouts.document.forms import Concertina
from layouts.proofing.findings import Finding, Rule
from layouts.proofing.measures import told, whole_ticks
from layouts.shapes import FlatSizes, NotBuilt, turns_on_sheet, usable_sheet
from layouts.shapes.forms import Crease

__all__ = ["FOLD_ACROSS_GRAIN", "RULES", "findings"]

FOLD_ACROSS_GRAIN = Rule(
    "fold-across-grain",
    "note",
    "The long folds of a form of card lie across the grain in every way in which it may lie on its sheet.",
    {
        "between": {"type": "array", "items": {"type": "string"}},
        "length": {"type": "integer", "description": "ticks of 1/320 mm"},
        "grain": {"enum": ["up", "sideways"]},
    },
)
RULES = (FOLD_ACROSS_GRAIN,)

# What is called card here, and the fold that is long enough to show a crack. Source: common practice, no source.
_CARD_UM = 250
_CARD_GRAMMAGE = 200
_LONG_FOLD = 2 * 8128

# Forms that are folded to see which way their folds run; a note is not worth more work.
_MOST_FOLDED = 500


def findings(kit: Kit) -> Iterator[Finding]:
    """Yield the forms of card whose long folds must lie across the grain, of the first 500 that are of card.

    Where folds run both ways, some lie across in any case: a form is judged if those that run one way are more than
    twice as long, taken together, as those that run the other way. A form cut from several prints is judged by the
    first of them, one that cannot be folded not at all.
    """
    sizes = FlatSizes.of(kit)
    for project, form, paper in islice(_of_card(kit), _MOST_FOLDED):
        try:
            yield from _across_grain(kit, project, form, paper, sizes)
        except NotBuilt:
            # Told by the paper it is cut from: what it is cut as is not known either.
            continue


def _of_card(kit: Kit) -> Iterator[tuple[Project, Form, Paper]]:
    papers = {paper.id: paper for paper in kit.papers}
    for project in kit.projects:
        for form in project.forms:
            paper = papers[form.paper if isinstance(form.paper, str) else form.paper.each[0]]
            if paper.grain is not None and _is_card(paper):
                yield project, form, paper


def _across_grain(kit: Kit, project: Project, form: Form, paper: Paper, sizes: FlatSizes) -> Iterator[Finding]:
    # The folds of a concertina are all alike: two panels show what ten thousand would.
    few = form.model_copy(update={"panels": min(form.panels, 2)}) if isinstance(form, Concertina) else form
    folded = sizes.fold(few, project.id, paper)
    if folded.faults:
        return
    creases = folded.sheets[0].creases
    upright = [crease for crease in creases if crease.upright]
    level = [crease for crease in creases if not crease.upright]
    along, other = (upright, level) if folded.grain == "up" else (level, upright)
    if folded.grain is None or _total(along) <= 2 * _total(other):
        return
    longest = max(along, key=lambda crease: crease.length)
    if longest.length <= _LONG_FOLD:
        return
    grains = [_grain(paper, turned) for turned in _lies(kit, form, paper, sizes, project)]
    if not grains or folded.grain in grains:
        return
    first, second = longest.between
    message = (
        f"The fold of “{form.name}” between {first} and {second} is {told(longest.length, kit.unit)} long and lies "
        f"across the grain of {paper.name}, however the form may lie on the sheet: card cracks there. Score it deep "
        "and fold it slowly, or let the sheet's grain run the other way."
    )
    why = {"between": [first, second], "length": whole_ticks(longest.length), "grain": paper.grain}
    yield FOLD_ACROSS_GRAIN.finding(form_place(project.id, form.id), message=message, **why)


def _is_card(paper: Paper) -> bool:
    if paper.caliper_um is not None:
        return paper.caliper_um >= _CARD_UM
    return paper.grammage is not None and paper.grammage >= _CARD_GRAMMAGE


def _total(creases: Iterable[Crease]) -> int:
    return whole_ticks(sum(crease.length for crease in creases))


def _lies(kit: Kit, form: Form, paper: Paper, sizes: FlatSizes, project: Project) -> Iterator[bool]:
    """Whether a form may lie upright (False) or turned by a quarter (True) on a sheet: its print allows it, it fits."""
    sheet = usable_sheet(paper, sizes.pads, kit.cutting.slack)
    if isinstance(form, Concertina):
        # The first strip is as long with two panels more than the sheet holds as with ten thousand more.
        held = max(sheet.width, sheet.height) // form.panel.width.ticks
        form = form.model_copy(update={"panels": min(form.panels, held + 2)})
    part = sizes.parts(form, project.id, paper)[0]
    for turned in sorted({turn in (90, 270) for turn in turns_on_sheet(paper, form.side, form.print_reads)}):
        width, height = (part.height, part.width) if turned else (part.width, part.height)
        if width.ticks <= sheet.usable_width and height.ticks <= sheet.usable_height:
            yield turned


def _grain(paper: Paper, turned: bool) -> str:
    """How the grain runs on a flat part that lies so."""
    return "up" if (paper.grain == "up") != turned else "sideways"
