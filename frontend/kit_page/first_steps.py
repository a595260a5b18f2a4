"""What a team does first, from an empty installation to the sheets of a proved kit; each step knows when it is done."""

from __future__ import annotations

from dataclasses import dataclass

from django.urls import reverse

from layouts.document import Kit

__all__ = ["FirstStep", "first_steps", "is_begun"]


@dataclass(frozen=True, slots=True)
class FirstStep:
    """One step with what it means and where it is done; the first that is not done is the next."""

    words: str
    help: str
    address: str
    is_done: bool
    is_next: bool = False


def is_begun(kit: Kit) -> bool:
    """Whether anything is cut for a kit."""
    return any(project.pieces or project.forms for project in kit.projects)


def first_steps(kit: Kit | None, verdict: str, *, has_sheets: bool) -> tuple[FirstStep, ...]:
    """Return the steps of a team with no kit yet, or with this one; `verdict` is that of the kit as it is, or empty."""
    page = "" if kit is None else reverse("kit", args=[kit.code])
    steps = (
        FirstStep(
            "Start a kit",
            "Its code, its title, and the pad of prints that goes into the box.",
            reverse("kit-new"),
            kit is not None,
        ),
        FirstStep(
            "Say what is in the box",
            "Prints and how many sheets of each, blanks, embellishment sheets, supplies, and the tools a member has.",
            f"{page}#contents" if page else "",
            kit is not None and bool(kit.papers),
        ),
        FirstStep(
            "Add the pieces",
            "Size, count and print of each: typed into a table, or a cutting list pasted as it is.",
            _pieces(kit),
            kit is not None and is_begun(kit),
        ),
        FirstStep(
            "Write the steps",
            "Sentences, and which pieces each step cuts and uses: a piece that no step cuts or uses is found missing.",
            _steps(kit),
            kit is not None and any(project.steps for project in kit.projects),
        ),
        FirstStep(
            "Look at the verdict",
            _verdict_help(verdict),
            f"{page}#findings" if page else "",
            verdict == "ready" and kit is not None and is_begun(kit),
        ),
        FirstStep(
            "Make the sheets",
            "The sheet of each project and the cut guide, as PDF, in inches or millimetres.",
            f"{page}#sheets" if page else "",
            has_sheets,
        ),
    )
    next_ = next((number for number, step in enumerate(steps) if not step.is_done), len(steps))
    return tuple(
        FirstStep(one.words, one.help, one.address, one.is_done, number == next_) for number, one in enumerate(steps)
    )


def _pieces(kit: Kit | None) -> str:
    if kit is None:
        return ""
    if not kit.projects:
        return reverse("thing-new", args=[kit.code, "project"])
    return reverse("project-pieces", args=[kit.code, kit.projects[0].id])


def _steps(kit: Kit | None) -> str:
    if kit is None or not kit.projects:
        return ""
    return reverse("project-steps", args=[kit.code, kit.projects[0].id])


def _verdict_help(verdict: str) -> str:
    if verdict == "not-ready":
        return "Something has to be mended first: each finding says what, where, and often in which proved ways."
    if verdict == "unknown":
        return "Whether everything fits is not decided yet: each finding says what is open."
    return "After every change all is proved again: whether the pieces fit the paper, and whether everything adds up."
