"""What a reader can do while something dries or is held by clamps: a sentence for every wait in which there is work."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import groupby

from layouts.assembly import KitSteps, Wait, order_of, waits_of
from layouts.document import Kit, step_place

__all__ = ["WaitWords", "wait_words"]

# The sentence by the step's place and by what is waited for; nothing where there is nothing to do meanwhile.
type WaitWords = Mapping[tuple[str, str], str]

_WHILE = {"dry": "While this dries", "clamp": "While this is clamped"}


def wait_words(kit: Kit, steps: KitSteps) -> WaitWords:
    """Return what can be done during every wait, for one pair of hands that goes from step to step."""
    names = _Names(kit)
    found: dict[tuple[str, str], str] = {}
    for wait in waits_of(kit, steps, order_of(kit, steps)):
        words = names.sentence(wait)
        if words:
            found[wait.place, wait.kind] = words
    return found


class _Names:
    """What steps are called on the sheet of a project: by their number, those of others with the title of theirs."""

    def __init__(self, kit: Kit) -> None:
        self._titles = {project.id: project.title for project in kit.projects}
        self._numbers = {
            step_place(project.id, step.id): (project.id, number)
            for project in kit.projects
            for number, step in enumerate(project.steps, start=1)
        }

    def sentence(self, wait: Wait) -> str:
        here = self._numbers[wait.place][0]
        doing = []
        if wait.meanwhile:
            doing.append(f"do {self._steps(wait.meanwhile, here)}")
        if wait.begin is not None:
            doing.append(f"begin {self._steps([wait.begin], here)}")
        return f"{_WHILE[wait.kind]}, you can {' and '.join(doing)}." if doing else ""

    def _steps(self, places: Sequence[str], here: str) -> str:
        told = []
        for project, steps in groupby((self._numbers[place] for place in places), key=lambda one: one[0]):
            runs = _runs([number for _, number in steps])
            word = "step" if len(runs) == 1 and "to" not in runs[0] else "steps"
            of = "" if project == here else f" of the {self._titles[project]}"
            told.append(f"{word} {_listed(runs)}{of}")
        return ", then ".join(told)


def _runs(numbers: Sequence[int]) -> list[str]:
    """Numbers in their order, those that follow each other as one run.

    >>> _runs([2, 3, 4, 7]), _runs([2, 3]), _runs([5])
    (['2 to 4', '7'], ['2', '3'], ['5'])
    """
    runs: list[list[int]] = []
    for number in numbers:
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return [text for run in runs for text in ([f"{run[0]} to {run[-1]}"] if len(run) > 2 else map(str, run))]


def _listed(words: Sequence[str]) -> str:
    return " and ".join([*([", ".join(words[:-1])] if words[:-1] else []), words[-1]])
