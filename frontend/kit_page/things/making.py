"""What the forms of what is made ask for: a project, its pieces, placements and steps."""

from __future__ import annotations

from frontend.kit_page.pieces import Choice
from frontend.kit_page.things.contents import opening, shape, size
from frontend.kit_page.things.entries import Entry, Field, Rows, Section, choices
from frontend.kit_page.things.scope import Scope

__all__ = ["COUNT", "NAME", "each", "piece", "placement", "project", "step"]

_SIDES = ("left", "right", "top", "bottom")
NAME = Field("name", "name")
_DIRECTIONS = ("up", "down", "left", "right", "any")
COUNT = Field("count", "how many", Entry.COUNT, usual="1")


def project(scope: Scope) -> tuple[Section, ...]:
    return (
        Section(
            "Project",
            (
                Field("title", "title"),
                Field("makes", "alike copies that a member makes", Entry.COUNT, usual="1"),
            ),
        ),
    )


def piece(scope: Scope) -> tuple[Section, ...]:
    tools = (Choice("", "cut straight"), *scope.tools("decorative", "punch", "scissors"))
    return (
        Section("Piece", (NAME, *size(), _size_is(), COUNT)),
        Section("Paper", (*_from_window(scope), *_piece_lies())),
        Section("Outline", shape(), help="Trimmed after the rectangle is cut.", is_closed=True),
        Section("Edges", tuple(Field(f"edges/{side}", side, Entry.CHOICE, tools) for side in _SIDES), is_closed=True),
        Section(
            "Windows",
            (
                Rows(
                    "windows",
                    "window",
                    (
                        Field("id", "name"),
                        *opening(),
                        Field(
                            "cut_out",
                            "what comes out is",
                            Entry.CHOICE,
                            choices(waste="waste", kept="kept for another piece"),
                        ),
                    ),
                    help="Two measures across and two up are enough; more are compared with each other.",
                ),
            ),
        ),
        Section(
            "Mirrored",
            (Field("mirror_of", "mirrored pair of", Entry.CHOICE, (Choice("", "no other piece"), *scope.pieces())),),
            is_closed=True,
        ),
    )


def placement(scope: Scope) -> tuple[Section, ...]:
    put = (Choice("", "choose a thing"), *scope.things("piece", "element", "form", "blank", "supply"))
    return (
        Section(
            "What goes where",
            (
                Field("put", "put", Entry.CHOICE, put),
                Field("on", "on", Entry.CHOICE, (Choice("", "choose a face, a piece or a panel"), *_supports(scope))),
                Field("skin", "of a panel, its", Entry.CHOICE, choices("outside", "inside")),
                Field("layer", "it lies", Entry.CHOICE, choices(over="over it", behind="behind it")),
            ),
        ),
        Section(
            "Where on it",
            _position(),
            help="One measure across and one up. On every copy of what it lies on, unless copies are listed below.",
        ),
        Section(
            "Border that is claimed",
            (
                Field("border", "the same on all sides", Entry.LENGTH),
                *(Field(f"border_sides/{side}", side, Entry.LENGTH) for side in _SIDES),
            ),
            help="What the sheet says of the border. It is checked; it does not move anything.",
        ),
        Section(
            "Edges",
            (
                Field("wraps", "turns over the edge", Entry.MANY, choices(*_SIDES)),
                Field(
                    "intends",
                    "is meant to",
                    Entry.MANY,
                    choices(overhang="overhang", uneven="lie uneven", overlap="overlap"),
                ),
            ),
            is_closed=True,
        ),
        Section(
            "Copies by themselves",
            (
                Rows(
                    "copies",
                    "copy",
                    (Field("on_copy", "on copy number", Entry.COUNT), *_position()),
                    help="Only where copies lie in different places, or not on every copy.",
                ),
            ),
            is_closed=True,
        ),
    )


def step(scope: Scope) -> tuple[Section, ...]:
    used = (Choice("", "choose a thing"), *scope.things("piece", "form", "element", "blank", "supply"))
    after = choices(previous="the step before it", nothing="nothing: at any time", these="these steps")
    closes = tuple(one for one in scope.things("form", "blank"))
    return (
        Section(
            "Step",
            (Field("text", "what to do", Entry.AREA, help="Type { to name a piece or one of its measures."),),
        ),
        Section(
            "With what",
            (
                Field("cut", "cuts", Entry.MANY, scope.made()),
                Rows(
                    "use",
                    "thing that it uses",
                    (
                        Field("what", "uses", Entry.CHOICE, used),
                        COUNT,
                        Field("length", "length of each", Entry.LENGTH),
                    ),
                ),
                Field("tools", "with", Entry.MANY, scope.tools()),
            ),
        ),
        Section(
            "How long",
            (
                Field("work", "work", help="60 s, 30 min or 2 h"),
                Field("hold", "hold"),
                Field("held", "held", Entry.CHOICE, choices(**{"by-hand": "by hand", "clamped": "clamped"})),
                Field("dry", "then dries"),
            ),
        ),
        Section(
            "When",
            (
                Field("after_is", "comes after", Entry.CHOICE, after),
                Field("after", "these steps", Entry.MANY, scope.steps(), only_for=("after_is", "these")),
                Field("closes", "closes", Entry.MANY, closes),
            ),
            is_closed=True,
        ),
        Section(
            "Cautions",
            (
                Field(
                    "cautions",
                    "printed before the step",
                    Entry.MANY,
                    choices("blade", "heat", "solvent", "flame", "cell", "small-parts"),
                ),
            ),
            help="A knife, heat, solvent glue, a lamp or a coin cell cannot go without its own.",
            is_closed=True,
        ),
    )


def _size_is() -> Field:
    return Field(
        "size_is",
        "this is the size",
        Entry.CHOICE,
        choices(cut="as it is cut", finished="after its edges are made"),
    )


def each(scope: Scope) -> tuple[Field, ...]:
    """One copy of the project from each of several prints: only where there are several copies."""
    if scope.project is None or scope.project.makes == 1:
        return ()
    return (
        Field(
            "each",
            "or one copy of the project from each of",
            Entry.MANY,
            scope.papers(),
            help="As many prints as there are copies of the project.",
        ),
    )


def _from_window(scope: Scope) -> tuple[Field, ...]:
    windows = scope.windows()
    return (
        Field("paper", "print", Entry.CHOICE, (Choice("", "none yet"), *scope.papers())),
        *each(scope),
        Field("from", "or out of a window", Entry.CHOICE, (Choice("", "no: from a sheet"), *windows)),
    )


def _piece_lies() -> tuple[Field, ...]:
    return (
        Field("side", "side that is seen", Entry.CHOICE, choices("front", "back", "either", "both")),
        Field("print_reads", "its print reads", Entry.CHOICE, choices(*_DIRECTIONS)),
    )


def _position() -> tuple[Field, ...]:
    turns = tuple(Choice(str(one), "upright" if not one else f"{one}° anticlockwise") for one in (0, 90, 180, 270))
    return (
        Field("left", "from the left", Entry.LENGTH),
        Field("right", "from the right", Entry.LENGTH),
        Field("centred", "centred", Entry.FLAG),
        Field("top", "from the top", Entry.LENGTH),
        Field("bottom", "from the bottom", Entry.LENGTH),
        Field("middle", "half way up", Entry.FLAG),
        Field("turn", "turned", Entry.CHOICE, turns),
    )


def _supports(scope: Scope) -> tuple[Choice, ...]:
    faces = (
        Choice(f"blank:{blank.id}/face:{face.id}", f"{blank.name}, {face.id}")
        for blank in scope.kit.blanks
        for face in blank.faces
    )
    return (*faces, *scope.things("piece"), *scope.panels())
