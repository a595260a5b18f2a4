"""A sheet given by its score lines."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from layouts.document.forms import Score, Scored
from layouts.shapes.forms.boxes import fold_steps, names_around, tab_faults, wall_names
from layouts.shapes.forms.cross import CORNERS, SIDES, Arms, Strip, cross, reach
from layouts.shapes.forms.flat import ExactSize, FormPaper, thickness
from layouts.shapes.forms.folded import Fault, Fold, Folded, FoldedSize, FoldStep, Side
from layouts.shapes.forms.grain import grain_along_folds
from layouts.shapes.forms.names import NamedPanels

__all__ = ["Layout", "faults", "flat_parts", "fold", "names", "read"]


def flat_parts(form: Scored, paper: FormPaper) -> tuple[ExactSize, ...]:
    """Return the one part, of the size as given: scores and corners do not change it."""
    return (ExactSize.exactly(form.size),)


@dataclass(frozen=True, slots=True)
class Layout:
    """What the scores make of the sheet: the base, its strips, and what is wrong with the scores."""

    base: ExactSize
    arms: Arms
    faults: tuple[Fault, ...]

    @property
    def walled(self) -> bool:
        """Whether there is a wall on each of the four sides."""
        return all(self.arms.get(side) for side in SIDES)

    @property
    def doubled(self) -> bool:
        """Whether each of the four walls has one that turns in."""
        return all(len(self.arms.get(side, ())) > 1 for side in SIDES)


def read(form: Scored) -> Layout:
    """Return the base within the innermost scores of each edge, and the strips from it outwards.

    Scores are measured from the edge that they name. One that is not inside the sheet, or lies on another from the same
    edge, makes no strip; where scores from opposite edges reach each other there is no base, and nothing is folded.

    Of a box (its corners cut off or tabbed) the outside is the outer side, whichever way its scores are called: when
    all walls fold one way they fold away as the outside is seen, and the scores beyond them as they differ from that.
    """
    size = {"width": form.size.width.ticks, "height": form.size.height.ticks}
    scored: dict[Side, Mapping[int, Score]] = {}
    wrong: list[Fault] = []
    for side in SIDES:
        inside, found = _from_edge(form.scores, side, size["width" if side in ("left", "right") else "height"])
        wrong.extend(found)
        if inside:
            scored[side] = inside
    boxed = form.corners != "keep"
    # In a box the innermost scores decide which side is the outer one.
    turned_over = boxed and {inside[max(inside)].fold for inside in scored.values()} == {"valley"}
    arms: Arms = {
        side: _strips(side, inside, flat=not boxed, turned_over=turned_over) for side, inside in scored.items()
    }
    opposite: tuple[tuple[str, Side, Side], ...] = (("width", "left", "right"), ("height", "bottom", "top"))
    for axis, low, high in opposite:
        taken = reach(arms, low) + reach(arms, high)
        if taken >= size[axis]:
            wrong.append(Fault("meeting", f"wall-{low}", f"wall-{high}", taken, Fraction(size[axis])))
            arms = {}
            break
    base = ExactSize(
        size["width"] - reach(arms, "left") - reach(arms, "right"),
        size["height"] - reach(arms, "bottom") - reach(arms, "top"),
    )
    if boxed:
        wrong.extend(_doubled_faults(arms))
    if form.corners == "tab":
        wrong.extend(tab_faults(base, arms))
    return Layout(base, arms, tuple(wrong))


def fold(form: Scored, paper: FormPaper) -> Folded:
    """Return the sheet folded at its scores.

    With its corners cut off or tabbed it is a box: walls stand up, what comes next turns in against them, flanges turn
    once more. With its corners kept it folds flat, the outermost folds first.
    """
    layout = read(form)
    base, arms = layout.base, layout.arms
    sheet = cross(base, arms, form.corners)
    thick = thickness(paper.caliper_um)
    steps: tuple[FoldStep, ...] = ()
    if form.corners == "keep":
        size = _flat_size(base, arms, thick)
        if sheet.creases:
            steps = (FoldStep(tuple(reversed(sheet.creases))),)
    else:
        high = max((strips[0].deep for strips in arms.values()), default=Fraction(0))
        size = FoldedSize(base.width + thick, base.height + thick, high + thick / (2 if high else 1))
        steps = fold_steps(sheet, arms, base) if arms else ()
    return Folded((sheet,), steps, size, grain_along_folds(sheet.creases), layout.faults)


def faults(form: Scored, paper: FormPaper) -> tuple[Fault, ...]:
    """Return what is wrong with the scores."""
    return read(form).faults


def names(form: Scored) -> NamedPanels:
    """Return the names of the base, of the strips beside it, and of the corners where they are kept."""
    arms = read(form).arms
    kept = form.corners == "keep"
    apart = tuple(
        f"corner-{beside}-{level}" for beside, level in CORNERS if kept and arms.get(beside) and arms.get(level)
    )
    return NamedPanels("base", names_around(arms).sides, apart)


def _from_edge(scores: Sequence[Score], side: Side, whole: int) -> tuple[Mapping[int, Score], list[Fault]]:
    """The scores from one edge by their distance, and what is wrong with the others (ticks)."""
    inside: dict[int, Score] = {}
    numbers: dict[int, int] = {}
    wrong = []
    for number, score in enumerate(scores, start=1):
        if score.from_ != side:
            continue
        at = score.at.ticks
        if at >= whole:
            wrong.append(Fault("outside", f"scores/{number}", side, Fraction(at), Fraction(whole)))
        elif at in inside:
            wrong.append(Fault("same", f"scores/{number}", f"scores/{numbers[at]}", Fraction(at), Fraction(at)))
        else:
            inside[at], numbers[at] = score, number
    return inside, wrong


def _strips(side: Side, scores: Mapping[int, Score], *, flat: bool, turned_over: bool) -> list[Strip]:
    """The strips of one side from the base outwards: each ends at the next score, the last at the edge."""
    inwards = sorted(scores, reverse=True)
    folds: dict[Fold, Fold] = {"mountain": "mountain", "valley": "valley"}
    if turned_over:
        folds = {"mountain": "valley", "valley": "mountain"}
    return [
        Strip(_name(side, number), Fraction(at - end), folds[scores[at].fold], 180 if flat or number == 1 else 90)
        for number, (at, end) in enumerate(zip(inwards, (*inwards[1:], 0), strict=True))
    ]


def _name(side: Side, number: int) -> str:
    """The name of a strip by how many lie between it and the base."""
    usual = wall_names(side)
    return usual[number] if number < len(usual) else f"{usual[2]}-{number - 1}"


def _doubled_faults(arms: Arms) -> Iterator[Fault]:
    """Yield the walls turned in that are a little longer than the wall they lie against: they would stand on the base.

    A strip half as long again, or the other way folded, is meant for something else: the face of a frame, a lining.
    What is wrong by the same numbers on several sides is told once.
    """
    told: set[tuple[Fraction, Fraction]] = set()
    for strips in arms.values():
        if len(strips) != 2 or strips[0].fold != strips[1].fold:
            continue
        wall, inner = strips
        if wall.deep < inner.deep < wall.deep * 3 / 2 and (wall.deep, inner.deep) not in told:
            told.add((wall.deep, inner.deep))
            yield Fault("turned-in", inner.name, wall.name, inner.deep, wall.deep)


def _flat_size(base: ExactSize, arms: Arms, thick: Fraction) -> FoldedSize:
    """How large the sheet is folded flat, every strip turned over the one before."""
    wide, across = _extent(base.width, arms.get("left", ()), arms.get("right", ()))
    high, upright = _extent(base.height, arms.get("bottom", ()), arms.get("top", ()))
    return FoldedSize(wide, high, across * upright * thick)


def _extent(base: Fraction, low: Sequence[Strip], high: Sequence[Strip]) -> tuple[Fraction, int]:
    """From end to end, and how many layers there are at most."""
    ends = [Fraction(0), base]
    for edge, into, strips in ((Fraction(0), 1, low), (base, -1, high)):
        here, way = edge, into
        for strip in strips:
            here, way = here + way * strip.deep, -way
            ends.append(here)
    return max(ends) - min(ends), 1 + len(low) + len(high)
