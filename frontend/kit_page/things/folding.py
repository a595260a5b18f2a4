"""What the forms of folded parts ask for: of each construction its own measures."""

from __future__ import annotations

from frontend.kit_page.pieces import Choice
from frontend.kit_page.things.contents import size
from frontend.kit_page.things.entries import Entry, Field, Rows, Section, choices
from frontend.kit_page.things.making import COUNT, NAME, each
from frontend.kit_page.things.scope import Scope

__all__ = ["CONSTRUCTIONS", "form"]

_SIDES = ("left", "right", "top", "bottom")
# What each construction of a folded part is called, in the order of the contract.
CONSTRUCTIONS = {
    "tray": "open tray",
    "lid": "lid",
    "sleeve": "sleeve",
    "concertina": "concertina",
    "pocket": "pocket",
    "frame": "frame of four strips",
    "envelope": "envelope",
    "tag": "flat tag",
    "scored": "sheet with score lines",
}


def form(scope: Scope, construction: str = "tray") -> tuple[Section, ...]:
    return (
        Section("Folded part", (NAME, COUNT)),
        *_MEASURES[construction](scope),
        Section("Paper", (*_prints(scope), *_form_lies())),
    )


def _prints(scope: Scope) -> tuple[Field, ...]:
    return (
        Field("paper", "print", Entry.CHOICE, (Choice("", "choose a print"), *scope.papers())),
        *each(scope),
    )


def _form_lies() -> tuple[Field, ...]:
    return (
        Field("side", "side that is outside", Entry.CHOICE, choices("front", "back")),
        Field("print_reads", "its print reads", Entry.CHOICE, choices("any", "up", "down", "left", "right")),
    )


def _walled(scope: Scope) -> tuple[Section, ...]:
    return (
        Section(
            "Measures",
            (
                *size("inside", "inside width", "inside height"),
                *size("outside", "outside width", "outside height"),
                Field("depth", "depth", Entry.LENGTH),
            ),
            help="Give its inside or its outside.",
        ),
        _walls(),
    )


def _walls() -> Section:
    return Section(
        "Walls",
        (
            Field("walls", "walls", Entry.CHOICE, choices("single", "double")),
            Field("turn_in", "turned in by", Entry.LENGTH, help="Empty: by the depth where walls are double."),
            Field("flange", "flange", Entry.LENGTH),
            Field("corner", "corners", Entry.CHOICE, choices(tab="with tabs", cut="cut out")),
        ),
        is_closed=True,
    )


def _lid(scope: Scope) -> tuple[Section, ...]:
    fits = (
        Choice("", "nothing: its own size is given"),
        *scope.things("blank", "form"),
        Choice("size", "something of this size"),
    )
    inside, walls = _walled(scope)
    return (
        Section(
            "What it fits",
            (
                Field("fits", "goes over", Entry.CHOICE, fits),
                *size("fits_size", "width", "height", only_for=("fits", "size")),
                Field("clearance", "clearance on each side", Entry.LENGTH, help="Empty: 1/32 in."),
            ),
        ),
        Section(inside.title, inside.items, help="Its depth; and its inside or outside, if it goes over nothing."),
        walls,
    )


def _sleeve(scope: Scope) -> tuple[Section, ...]:
    return (
        Section(
            "Measures",
            (
                *size("around", "goes around, width", "goes around, depth"),
                Field("length", "length", Entry.LENGTH),
                Field("overlap", "overlap", Entry.LENGTH),
                Field("clearance", "clearance on each side", Entry.LENGTH, help="Empty: 1/32 in."),
            ),
        ),
    )


def _concertina(scope: Scope) -> tuple[Section, ...]:
    return (
        Section(
            "Measures",
            (
                *size("panel", "panel width", "panel height"),
                Field("panels", "panels", Entry.COUNT),
                Field("join", "where strips are joined, overlap", Entry.LENGTH, help="Empty: 1/2 in."),
                Field("first_fold", "first fold", Entry.CHOICE, choices("mountain", "valley")),
            ),
        ),
    )


def _pocket(scope: Scope) -> tuple[Section, ...]:
    return (
        Section(
            "Measures",
            (
                *size("panel", "panel width", "panel height"),
                Field("flap", "flaps", Entry.LENGTH),
                Field("open", "open at the", Entry.CHOICE, choices("top", "bottom", "left", "right")),
            ),
        ),
    )


def _frame(scope: Scope) -> tuple[Section, ...]:
    return (
        Section(
            "Measures",
            (
                *size("opening", "opening width", "opening height"),
                Field("width", "width of the strips", Entry.LENGTH),
                Field("corner", "corners", Entry.CHOICE, choices(mitre="mitred", butt="butted")),
            ),
        ),
    )


def _envelope(scope: Scope) -> tuple[Section, ...]:
    return (
        Section(
            "Measures",
            (
                *size("holds", "holds, width", "holds, height"),
                Field("clearance", "clearance on each side", Entry.LENGTH, help="Empty: 1/16 in."),
                Field("side_flap", "side flaps", Entry.LENGTH),
                Field("bottom_flap", "bottom flap", Entry.LENGTH),
                Field("top_flap", "top flap", Entry.LENGTH),
            ),
        ),
    )


def _tag(scope: Scope) -> tuple[Section, ...]:
    return (
        Section(
            "Measures",
            (
                *size(),
                Field("corner", "cut off each corner", Entry.LENGTH),
                Field("hole", "hole across", Entry.LENGTH),
            ),
        ),
    )


def _scored(scope: Scope) -> tuple[Section, ...]:
    return (
        Section("Measures", size()),
        Section(
            "Score lines",
            (
                Rows(
                    "scores",
                    "score line",
                    (
                        Field("from", "from the", Entry.CHOICE, (Choice("", "choose a side"), *choices(*_SIDES))),
                        Field("at", "at", Entry.LENGTH),
                        Field("fold", "folds as a", Entry.CHOICE, choices("valley", "mountain")),
                    ),
                    help="How it folds is as the outside is seen.",
                ),
                Field("corners", "corners", Entry.CHOICE, choices(keep="stay", tab="become tabs", cut="are cut out")),
            ),
        ),
    )


_MEASURES = {
    "tray": _walled,
    "lid": _lid,
    "sleeve": _sleeve,
    "concertina": _concertina,
    "pocket": _pocket,
    "frame": _frame,
    "envelope": _envelope,
    "tag": _tag,
    "scored": _scored,
}
