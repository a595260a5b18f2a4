"""What the forms of things in the box ask for: pads, prints, embellishment sheets, blanks, supplies; and of tools."""

from __future__ import annotations

from frontend.kit_page.pieces import Choice
from frontend.kit_page.things.entries import Entry, Field, Rows, Section, choices
from frontend.kit_page.things.scope import Scope

__all__ = ["blank", "embellishment", "kit", "opening", "pad", "paper", "shape", "size", "supply", "tool"]

_READS = (
    Choice("up", "up"),
    Choice("down", "down"),
    Choice("left", "left"),
    Choice("right", "right"),
)
_REPEATS = (
    Choice("any", "the same whichever way it is turned"),
    Choice("one-way", "one way only"),
    Choice("two-way", "the same after half a turn"),
)
_SIDES = ("left", "right", "top", "bottom")
_SHAPES = (
    Choice("rect", "rectangle"),
    Choice("ellipse", "oval"),
    Choice("arch", "arch"),
    Choice("rounded", "rounded corners"),
    Choice("polygon", "outline by its corners"),
)
_NAME = Field("name", "name")


def size(path: str = "size", *labels: str, only_for: tuple[str, str] | None = None) -> tuple[Field, ...]:
    """Return a pair or a triple of lengths."""
    return tuple(
        Field(f"{path}/{at}", label, Entry.LENGTH, only_for=only_for)
        for at, label in enumerate(labels or ("width", "height"))
    )


def shape(start: str = "shape/") -> tuple[Field, ...]:
    """Return what an outline inside its bounding size is given by."""
    return (
        Field(f"{start}kind", "outline", Entry.CHOICE, _SHAPES),
        Field(f"{start}rise", "rise of the arch", Entry.LENGTH, only_for=(f"{start}kind", "arch")),
        Field(f"{start}radius", "radius of the corners", Entry.LENGTH, only_for=(f"{start}kind", "rounded")),
        Field(
            f"{start}points",
            "corners",
            Entry.POINTS,
            help="One corner a line, across × up from the lower left: 0 × 1 1/2",
            only_for=(f"{start}kind", "polygon"),
        ),
    )


def opening(start: str = "") -> tuple[Field, ...]:
    """Return the six measures of an opening, and its outline."""
    sides = tuple(Field(f"{start}{side}", f"from the {side}", Entry.LENGTH) for side in _SIDES)
    across = tuple(Field(f"{start}{name}", name, Entry.LENGTH) for name in ("width", "height"))
    return (*sides, *across, *shape(f"{start}shape/"))


def kit(scope: Scope) -> tuple[Section, ...]:
    """What is true of a kit as a whole."""
    return (
        Section(
            "Kit",
            (
                Field("title", "title"),
                Field("unit", "lengths without a unit are", Entry.CHOICE, (Choice("", "choose"), *_UNITS)),
            ),
            help="Lengths that are there keep their measure, whichever unit the kit has.",
        ),
        Section(
            "What sheets round to",
            (
                Field("printed/in", "in inches, to", Entry.LENGTH, help="Empty: 1/16 in."),
                Field("printed/mm", "in millimetres, to", Entry.LENGTH, help="Empty: 1 mm."),
            ),
        ),
        Section(
            "Cutting",
            (Field("cutting/slack", "paper lost to each cut", Entry.LENGTH, help="Empty: none."),),
        ),
    )


_UNITS = (Choice("in", "inches"), Choice("mm", "millimetres"))


def pad(scope: Scope) -> tuple[Section, ...]:
    return (Section("Pad", (_NAME, *size())),)


def paper(scope: Scope) -> tuple[Section, ...]:
    pads = (Choice("", "none: its size is given here"), *scope.pads())
    return (
        Section(
            "Print",
            (
                _NAME,
                Field("sheets", "sheets in the box", Entry.COUNT, help="How many one member gets."),
                Field("pad", "from the pad", Entry.CHOICE, pads),
                *size(),
            ),
            help="Give the pad that it is in, or its own width and height.",
        ),
        Section("Front", _side("front")),
        Section(
            "Back", _side("back"), help="The same leaf turned like a page. Leave its name empty where it is blank."
        ),
        Section(
            "Paper",
            (
                Field("grammage", "grammage, g/m²", Entry.COUNT),
                Field("caliper_um", "thickness, µm", Entry.COUNT, help="Card is about 300, copier paper about 100."),
                Field(
                    "grain",
                    "grain runs",
                    Entry.CHOICE,
                    (Choice("", "not known"), Choice("up", "up the sheet"), Choice("sideways", "across the sheet")),
                ),
            ),
            is_closed=True,
        ),
        Section(
            "What cannot be used",
            (
                Field("undersize", "smaller than stated by up to", Entry.LENGTH),
                *(Field(f"spoilt/{side}", f"spoilt margin, {side}", Entry.LENGTH) for side in _SIDES),
            ),
            help="As the front is seen.",
            is_closed=True,
        ),
    )


def _side(start: str) -> tuple[Field, ...]:
    return (
        Field(f"{start}/name", "name of the print"),
        Field(f"{start}/reads", "its top points", Entry.CHOICE, _READS),
        Field(f"{start}/repeat", "its pattern is", Entry.CHOICE, _REPEATS),
    )


def embellishment(scope: Scope) -> tuple[Section, ...]:
    return (
        Section("Sheet", (_NAME, Field("sheets", "sheets in the box", Entry.COUNT, usual="1"))),
        Section(
            "What is on one sheet",
            (
                Rows(
                    "elements",
                    "element",
                    (
                        Field("id", "id"),
                        _NAME,
                        Field("count", "how many on one sheet", Entry.COUNT),
                        *size(),
                        Field("two_sided", "printed on both sides", Entry.FLAG),
                    ),
                ),
            ),
        ),
    )


def blank(scope: Scope) -> tuple[Section, ...]:
    return (
        Section(
            "Blank",
            (
                _NAME,
                Field("count", "in the box", Entry.COUNT, usual="1"),
                Field("thickness_um", "thickness of its walls, µm", Entry.COUNT),
                *size("outside", "outside width", "outside depth", "outside height"),
            ),
        ),
        Section(
            "Faces",
            (
                Rows(
                    "faces",
                    "face",
                    (
                        Field("id", "name"),
                        *size(),
                        Field("count", "alike", Entry.COUNT, usual="1"),
                        Field("inside", "on the inside", Entry.FLAG),
                        *opening("opening/"),
                    ),
                    help="The surfaces that something is stuck to. An opening needs two measures across and two up.",
                ),
            ),
        ),
    )


_SUPPLIES = (
    "ribbon", "foam", "glazing", "light", "button-cell", "battery", "fastener", "adhesive-tape", "other",
)  # fmt: skip


def supply(scope: Scope) -> tuple[Section, ...]:
    return (
        Section(
            "Supply",
            (
                _NAME,
                Field("kind", "kind", Entry.CHOICE, (Choice("", "choose a kind"), *choices(*_SUPPLIES))),
                Field("count", "how many", Entry.COUNT),
                Field("length", "length", Entry.LENGTH),
                Field("thickness_um", "thickness, µm", Entry.COUNT),
                Field("from", "comes from", Entry.CHOICE, choices(kit="the box", member="the member")),
            ),
        ),
    )


_TOOLS = (
    "trimmer", "knife", "scissors", "punch", "decorative", "scorer", "wet-glue", "solvent-glue", "hot-glue", "tape",
    "heat", "other",
)  # fmt: skip


def tool(scope: Scope) -> tuple[Section, ...]:
    return (
        Section(
            "Tool",
            (_NAME, Field("kind", "kind", Entry.CHOICE, (Choice("", "choose a kind"), *choices(*_TOOLS)))),
        ),
        Section(
            "What it can do",
            (
                Field("step", "finest step of its scale", Entry.LENGTH),
                Field("longest", "longest cut", Entry.LENGTH),
                Field("narrowest", "narrowest strip that it holds", Entry.LENGTH),
                Field("bite", "bite into the paper", Entry.LENGTH, help="Of decorative scissors and edge punches."),
                Field("pitch", "length of one repeat", Entry.LENGTH),
                Field("least_depth", "paper that a punch must grip", Entry.LENGTH),
            ),
            help="Leave empty what nobody needs to know.",
        ),
    )
