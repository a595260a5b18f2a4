"""The order of folding in sentences, as the flat part lies with its outside up."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise

from layouts.shapes.forms import Crease, Folded, FoldStep, Glued

__all__ = ["fold_words", "plain", "said"]

# Names in one sentence; what goes beyond is counted. So many things that are glued to are told one by one.
_MOST_NAMES, _APART = 8, 2
_MOST_STEPS = 20

_FOLDS = {"mountain": "away from you", "valley": "towards you"}


def fold_words(folded: Folded) -> tuple[str, ...]:
    """Return one sentence or two for each step of folding, in order; nothing for what is not folded."""
    steps = [step for step in folded.steps if step.creases or step.glued]
    more = len(steps) - _MOST_STEPS
    rest = (f"… and {more:,} more steps.",) if more > 0 else ()
    return (*(" ".join(_step(step)) for step in steps[:_MOST_STEPS]), *rest)


def plain(name: str) -> str:
    """Return the name of an area as it is read.

    >>> plain("wall-left-inner")
    'wall left inner'
    """
    return name.replace("-", " ")


def said(names: Iterable[str]) -> str:
    """Return names in a row, no more than can be read.

    >>> said(["wall-left", "wall-right", "tab"])
    'wall left, wall right and tab'
    """
    words = [plain(name) for name in names]
    more = len(words) - _MOST_NAMES
    if more > 0:
        return f"{', '.join(words[:_MOST_NAMES])} … and {more:,} more"
    return " and ".join(filter(None, [", ".join(words[:-1]), *words[-1:]]))


def _step(step: FoldStep) -> Iterator[str]:
    if _goes_to_and_fro(step.creases):
        first = step.creases[0].fold
        yield f"Fold to and fro, {len(step.creases)} folds; the first is a {first}, {_FOLDS[first]}."
    else:
        for fold, towards in _FOLDS.items():
            for turn, flat in ((90, ""), (180, "flat, ")):
                names = [one.between[1] for one in step.creases if one.fold == fold and one.turn == turn]
                if names:
                    yield f"Fold {flat}{towards} ({fold}): {said(names)}."
    yield from _glued(step.glued)


def _goes_to_and_fro(creases: Sequence[Crease]) -> bool:
    return len(creases) > 2 and all(one.fold != other.fold and one.turn == 180 for one, other in pairwise(creases))


def _glued(glued: Sequence[Glued]) -> Iterator[str]:
    onto: dict[tuple[str, str], list[str]] = {}
    skins = {one.skin for one in glued}
    if len({one.onto for one in glued}) > _APART and len(skins) == 1:
        yield f"Glue each to the {skins.pop()} of what it lies on: {said(one.area for one in glued)}."
        return
    for one in glued[:_MOST_NAMES]:
        onto.setdefault((one.onto, one.skin), []).append(one.area)
    for (panel, skin), names in onto.items():
        yield f"Glue {said(names)} to the {skin} of {plain(panel)}."
    if len(glued) > _MOST_NAMES:
        yield f"… and {len(glued) - _MOST_NAMES:,} more in the same way."
