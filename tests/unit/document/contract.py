"""The contract field by field: what kind of value stands at each pointer, and whether it is needed.

A `*` after a slash stands for a number. A row names the pointers of `making.WHOLE` that it covers; each pointer is
covered once.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Any

from tests.unit.document.making import WHOLE, walk

__all__ = ["FIELDS", "Field", "Kind", "field_at", "places_of"]


@dataclass(frozen=True)
class Kind:
    """Values that are good at such a place, and bad ones with what they are refused for: code, or pointer and code."""

    good: tuple[Any, ...]
    bad: tuple[tuple[Any, str | tuple[tuple[str, str], ...]], ...]


def _wrong(*values: Any) -> tuple[tuple[Any, str], ...]:
    return tuple((value, "wrong-type") for value in values)


_NOT_A_TEXT = _wrong(5, 1.5, True, ["a"], {"a": "a"})
_NO_LENGTH = (
    ("", "not-a-length"),
    ("x", "not-a-length"),
    ("-1", "not-a-length"),
    ("1/3", "not-a-length"),
    ("½ mm", "not-a-length"),
    ("1⁄16", "not-a-length"),
    (" 1", "not-a-length"),
    ("0.1", "off-grid"),
    ("0.1 mm 2", "not-a-length"),
    ("0.001 mm", "off-grid"),
    ("394", "out-of-range"),
    ("10000.1 mm", "out-of-range"),
)
_NOT_COUNTED = _wrong("2", 2.0, 2.5, True, [2], {"a": 2})
_TOO_BIG = ((10_001, "out-of-range"), (10**400, "out-of-range"), (-1, "out-of-range"), (-(10**400), "out-of-range"))

LENGTH = Kind(
    ("1", "1/64", "2⅞", "2-7/8", "46/16", "2,5", "73 mm", "7.3cm", "0.003125 mm", "10000 mm"),
    (*_NOT_A_TEXT, *_NO_LENGTH, ("0", "out-of-range"), ("0.0 mm", "out-of-range"), ("0/2", "out-of-range")),
)
LENGTH_OR_ZERO = Kind((*LENGTH.good, "0", "0.0 mm", "0/2"), (*_NOT_A_TEXT, *_NO_LENGTH))
COUNT = Kind((1, 2, 10_000), (*_NOT_COUNTED, *_TOO_BIG, (0, "out-of-range")))
COUNT_OR_ZERO = Kind((0, 1, 2, 10_000), (*_NOT_COUNTED, *_TOO_BIG))
MICROMETRES = Kind(
    (1, 220, 150_000), (*_NOT_COUNTED, (0, "out-of-range"), (-1, "out-of-range"), (10**400, "out-of-range"))
)
TEXT = Kind(
    ("", "a", "two\nlines and\ta tab", "é", "\U0001f426", "a" * 100_000, "__proto__", "<b>"),
    (
        *_NOT_A_TEXT,
        ("\x00", "bad-text"),
        ("a\x1b", "bad-text"),
        ("\r\n", "bad-text"),
        ("\x7f", "bad-text"),
        ("\x85", "bad-text"),
        ("\ud800", "bad-text"),
    ),
)
ID = Kind(
    ("N", "9", "a-b-", "Z" * 32),
    (
        *_NOT_A_TEXT,
        ("", "bad-id"),
        ("-a", "bad-id"),
        ("a b", "bad-id"),
        ("a_b", "bad-id"),
        ("a/b", "bad-id"),
        ("a.b", "bad-id"),
        ("é", "bad-id"),
        ("２", "bad-id"),
        ("a\n", "bad-id"),
        ("Z" * 33, "bad-id"),
        ("a\x00", "bad-text"),
    ),
)
REFERENCE = Kind((), (*ID.bad, ("nosuch", "unknown-id")))
PATH = Kind(
    (),
    (
        *_NOT_A_TEXT,
        ("", "unknown-id"),
        ("nosuch", "unknown-id"),
        ("no/such", "unknown-id"),
        ("no/such/thing", "unknown-id"),
        ("/", "unknown-id"),
        ("a/b/c/d", "unknown-id"),
    ),
)
FLAG = Kind((True, False), _wrong(0, 1, "true", "", [], {}, 1.0))
ONLY_TRUE = Kind((True,), (*_wrong(0, 1, "true", "", [], {}, 1.0), (False, "out-of-range")))
TURN = Kind(
    (0, 90, 180, 270),
    (
        *_wrong("90", 90.0, True, False, [], {}),
        (45, "out-of-range"),
        (360, "out-of-range"),
        (-90, "out-of-range"),
        (1, "out-of-range"),
    ),
)
DURATION = Kind(
    ("60 s", "30 min", "2 h", "1 s"),
    (
        *_wrong(
            60,
            1.5,
            True,
            [],
            {},
            "",
            "60",
            "60s",
            "1.5 min",
            "1 d",
            "-1 s",
            "1 h 30 min",
            " 1 s",
            "1 s ",
            "1 s\n",
            "٣ s",
            "1 H",
        ),
        ("0 s", "out-of-range"),
    ),
)
NO_OBJECT = _wrong("a", "", 5, True, [])
OBJECT = Kind((), NO_OBJECT)
LIST = Kind((), _wrong("a", 5, True, {"a": 1}, {}))
OBJECTS = Kind((), (*LIST.bad, ([5, None, "a", []], tuple((f"/{n}", "wrong-type") for n in range(4)))))
TEXTS = Kind((), (*LIST.bad, ([5, None, ["a"], {}], tuple((f"/{n}", "wrong-type") for n in range(4)))))


def lengths(count: int, *, zero: bool = False, several: bool = False) -> Kind:
    """A list of so many lengths; a bad one is told at its own place. `several`: an object may stand here as well."""
    last = count - 1
    wrong = [["1"] * last, ["1"] * (count + 1), [], "1", "1 × 1", 5, {"0": "1"}, True]
    bad: list[tuple[Any, str | tuple[tuple[str, str], ...]]] = [(value, "wrong-type") for value in wrong]
    for value, code in (LENGTH_OR_ZERO if zero else LENGTH).bad:
        bad.append((["1"] * last + [value], ((f"/{last}", str(code)),)))
    bad = [(value, told) for value, told in bad if not (several and isinstance(value, dict))]
    bad.append(([None, *["x"] * last], (("/0", "wrong-type"), *((f"/{n}", "not-a-length") for n in range(1, count)))))
    return Kind((["1"] * count, ["2⅞", *["73 mm"] * last]), tuple(bad))


def one_of(*names: str) -> Kind:
    bad = (
        *_wrong(5, 1.5, True, ["a"], {"a": "a"}),
        ("nosuch", "out-of-range"),
        ("", "out-of-range"),
        (names[0].upper(), "out-of-range"),
        (names[0] + " ", "out-of-range"),
    )
    return Kind(names, bad)


@dataclass(frozen=True)
class Field:
    """One row: the pointers it covers, the kind of value, and how the field may be left out."""

    pattern: str
    kind: Kind
    # needed: refused where it is missing · optional: may be left out or null · choice: one of several is needed
    need: str = "needed"

    def covers(self, pointer: str) -> bool:
        return re.fullmatch(re.sub(r"(?<=/)\*", "[0-9]+", self.pattern), pointer) is not None


_SIDE, _READS = one_of("left", "right", "top", "bottom"), one_of("up", "down", "left", "right")
_PRINT_READS = one_of("up", "down", "left", "right", "any")
_OPENING = ("/blanks/*/faces/*/opening", "/projects/*/pieces/*/windows/*")
_P = "/projects/*"

FIELDS: tuple[Field, ...] = (
    Field("/format", one_of("kitproof/1")),
    Field("/code", ID),
    Field("/title", TEXT),
    Field("/unit", one_of("in", "mm")),
    Field("/printed", OBJECT, "optional"),
    Field("/printed/in", LENGTH, "optional"),
    Field("/printed/mm", LENGTH, "optional"),
    Field("/cutting", OBJECT, "optional"),
    Field("/cutting/slack", LENGTH_OR_ZERO, "optional"),
    Field("/pads", OBJECTS, "optional"),
    Field("/pads/*", OBJECT, "member"),
    Field("/pads/*/id", ID),
    Field("/pads/*/name", TEXT),
    Field("/pads/*/size", lengths(2)),
    Field("/papers", OBJECTS, "optional"),
    Field("/papers/*", OBJECT, "member"),
    Field("/papers/*/id", ID),
    Field("/papers/*/name", TEXT),
    Field("/papers/*/pad", REFERENCE, "choice"),
    Field("/papers/*/size", lengths(2), "choice"),
    Field("/papers/*/sheets", COUNT_OR_ZERO),
    Field("/papers/*/front", OBJECT),
    Field("/papers/*/back", OBJECT, "optional"),
    Field("/papers/*/(front|back)/name", TEXT),
    Field("/papers/*/(front|back)/reads", _READS, "optional"),
    Field("/papers/*/(front|back)/repeat", one_of("one-way", "two-way", "any"), "optional"),
    Field("/papers/*/grammage", COUNT, "optional"),
    Field("/papers/*/caliper_um", MICROMETRES, "optional"),
    Field("/papers/*/grain", one_of("up", "sideways"), "optional"),
    Field("/papers/*/undersize", LENGTH_OR_ZERO, "optional"),
    Field("/papers/*/spoilt", OBJECT, "optional"),
    Field("/papers/*/spoilt/(left|right|top|bottom)", LENGTH_OR_ZERO, "optional"),
    Field("/embellishments", OBJECTS, "optional"),
    Field("/embellishments/*", OBJECT, "member"),
    Field("/embellishments/*/id", ID),
    Field("/embellishments/*/name", TEXT),
    Field("/embellishments/*/sheets", COUNT_OR_ZERO, "optional"),
    Field("/embellishments/*/elements", OBJECTS, "optional"),
    Field("/embellishments/*/elements/*", OBJECT, "member"),
    Field("/embellishments/*/elements/*/id", ID),
    Field("/embellishments/*/elements/*/name", TEXT),
    Field("/embellishments/*/elements/*/count", COUNT),
    Field("/embellishments/*/elements/*/size", lengths(2), "optional"),
    Field("/embellishments/*/elements/*/two_sided", FLAG, "optional"),
    Field("/blanks", OBJECTS, "optional"),
    Field("/blanks/*", OBJECT, "member"),
    Field("/blanks/*/id", ID),
    Field("/blanks/*/name", TEXT),
    Field("/blanks/*/count", COUNT, "optional"),
    Field("/blanks/*/thickness_um", MICROMETRES, "optional"),
    Field("/blanks/*/outside", lengths(3), "optional"),
    Field("/blanks/*/faces", OBJECTS, "optional"),
    Field("/blanks/*/faces/*", OBJECT, "member"),
    Field("/blanks/*/faces/*/id", ID),
    Field("/blanks/*/faces/*/size", lengths(2)),
    Field("/blanks/*/faces/*/count", COUNT, "optional"),
    Field("/blanks/*/faces/*/inside", FLAG, "optional"),
    Field("/blanks/*/faces/*/opening", OBJECT, "optional"),
    Field("/supplies", OBJECTS, "optional"),
    Field("/supplies/*", OBJECT, "member"),
    Field("/supplies/*/id", ID),
    Field("/supplies/*/name", TEXT),
    Field(
        "/supplies/*/kind",
        one_of("ribbon", "foam", "glazing", "light", "button-cell", "battery", "fastener", "adhesive-tape", "other"),
    ),
    Field("/supplies/*/count", COUNT, "optional"),
    Field("/supplies/*/length", LENGTH, "optional"),
    Field("/supplies/*/thickness_um", MICROMETRES, "optional"),
    Field("/supplies/*/from", one_of("kit", "member"), "optional"),
    Field("/tools", OBJECTS, "optional"),
    Field("/tools/*", OBJECT, "member"),
    Field("/tools/*/id", ID),
    Field("/tools/*/name", TEXT, "optional"),
    Field(
        "/tools/*/kind",
        one_of(
            "trimmer",
            "knife",
            "scissors",
            "punch",
            "decorative",
            "scorer",
            "wet-glue",
            "solvent-glue",
            "hot-glue",
            "tape",
            "heat",
            "other",
        ),
    ),
    Field("/tools/*/(step|longest|narrowest|pitch)", LENGTH, "optional"),
    Field("/tools/*/(bite|least_depth)", LENGTH_OR_ZERO, "optional"),
    Field("/projects", OBJECTS, "optional"),
    Field(_P, OBJECT, "member"),
    Field(f"{_P}/id", ID),
    Field(f"{_P}/title", TEXT),
    Field(f"{_P}/makes", COUNT, "optional"),
    Field(f"{_P}/pieces", OBJECTS, "optional"),
    Field(f"{_P}/pieces/*", OBJECT, "member"),
    Field(f"{_P}/pieces/*/id", ID),
    Field(f"{_P}/pieces/*/name", TEXT),
    Field(
        f"{_P}/pieces/*/paper",
        Kind((), (*_wrong(5, 1.5, True, ["a"], []), ("nosuch", "unknown-id"), ("no such", "bad-id"))),
        "optional",
    ),
    Field(f"{_P}/pieces/*/paper/each", LIST),
    Field(f"{_P}/pieces/*/paper/each/*", REFERENCE, "member"),
    Field(f"{_P}/pieces/*/from", PATH, "optional"),
    Field(f"{_P}/pieces/*/side", one_of("front", "back", "either", "both"), "optional"),
    Field(f"{_P}/pieces/*/size", lengths(2)),
    Field(f"{_P}/pieces/*/size_is", one_of("cut", "finished"), "optional"),
    Field(f"{_P}/pieces/*/count", COUNT, "optional"),
    Field(f"{_P}/pieces/*/print_reads", _PRINT_READS, "optional"),
    Field(f"{_P}/pieces/*/shape", OBJECT, "optional"),
    Field(f"{_P}/pieces/*/edges", OBJECT, "optional"),
    Field(f"{_P}/pieces/*/edges/(left|right|top|bottom)", REFERENCE, "optional"),
    Field(f"{_P}/pieces/*/windows", OBJECTS, "optional"),
    Field(f"{_P}/pieces/*/windows/*", OBJECT, "member"),
    Field(f"{_P}/pieces/*/windows/*/id", ID),
    Field(f"{_P}/pieces/*/mirror_of", REFERENCE, "optional"),
    *(Field(f"{opening}/(left|right|top|bottom|width|height)", LENGTH, "optional") for opening in _OPENING),
    *(Field(f"{opening}/shape", OBJECT, "optional") for opening in _OPENING),
    *(Field(f"{opening}/cut_out", one_of("waste", "kept"), "optional") for opening in _OPENING),
    Field(".*/shape/kind", one_of("rect", "ellipse", "arch", "rounded", "polygon"), "shape"),
    Field(".*/shape/(rise|radius)", LENGTH, "shape"),
    Field(".*/shape/points", Kind((), LIST.bad), "shape"),
    Field(".*/shape/points/*", lengths(2, zero=True), "member"),
    Field(f"{_P}/forms", OBJECTS, "optional"),
    Field(f"{_P}/forms/*", OBJECT, "member"),
    Field(f"{_P}/forms/*/id", ID),
    Field(f"{_P}/forms/*/name", TEXT),
    Field(
        f"{_P}/forms/*/as",
        Kind((), (*_NOT_A_TEXT, ("box", "out-of-range"), ("", "out-of-range"), ("Tray", "out-of-range"))),
    ),
    Field(
        f"{_P}/forms/*/paper",
        Kind((), (*_wrong(5, 1.5, True, ["a"], []), ("nosuch", "unknown-id"), ("no such", "bad-id"))),
    ),
    Field(f"{_P}/forms/*/side", one_of("front", "back"), "optional"),
    Field(f"{_P}/forms/*/count", COUNT, "optional"),
    Field(f"{_P}/forms/*/print_reads", _PRINT_READS, "optional"),
    Field(f"{_P}/forms/*/(inside|outside)", lengths(2), "choice"),
    Field(f"{_P}/forms/[0-4]/depth", LENGTH),
    Field(f"{_P}/forms/[0-4]/walls", one_of("single", "double"), "optional"),
    Field(f"{_P}/forms/[0-4]/turn_in", LENGTH_OR_ZERO, "optional"),
    Field(f"{_P}/forms/[0-4]/flange", LENGTH_OR_ZERO, "optional"),
    Field(f"{_P}/forms/[0-4]/corner", one_of("tab", "cut"), "optional"),
    Field(f"{_P}/forms/[23]/fits", Kind((), _wrong("box", 5, True)), "choice"),
    Field(f"{_P}/forms/4/fits", lengths(2, several=True), "choice"),
    Field(f"{_P}/forms/*/fits/(blank|form)", REFERENCE, "choice"),
    Field(f"{_P}/forms/*/clearance", LENGTH, "optional"),
    Field(f"{_P}/forms/5/around", lengths(2)),
    Field(f"{_P}/forms/5/(length|overlap)", LENGTH),
    Field(f"{_P}/forms/[67]/panel", lengths(2)),
    Field(f"{_P}/forms/6/panels", COUNT),
    Field(f"{_P}/forms/6/join", LENGTH, "optional"),
    Field(f"{_P}/forms/6/first_fold", one_of("mountain", "valley"), "optional"),
    Field(f"{_P}/forms/7/flap", LENGTH),
    Field(f"{_P}/forms/7/open", _SIDE, "optional"),
    Field(f"{_P}/forms/8/opening", lengths(2)),
    Field(f"{_P}/forms/8/width", LENGTH),
    Field(f"{_P}/forms/8/corner", one_of("mitre", "butt"), "optional"),
    Field(f"{_P}/forms/9/holds", lengths(2)),
    Field(f"{_P}/forms/9/(side|bottom|top)_flap", LENGTH),
    Field(f"{_P}/forms/1[01]/size", lengths(2)),
    Field(f"{_P}/forms/10/corner", LENGTH_OR_ZERO, "optional"),
    Field(f"{_P}/forms/10/hole", LENGTH, "optional"),
    Field(f"{_P}/forms/11/scores", OBJECTS, "optional"),
    Field(f"{_P}/forms/11/scores/*", OBJECT, "member"),
    Field(f"{_P}/forms/11/scores/*/from", _SIDE),
    Field(f"{_P}/forms/11/scores/*/at", LENGTH),
    Field(f"{_P}/forms/11/scores/*/fold", one_of("mountain", "valley"), "optional"),
    Field(f"{_P}/forms/11/corners", one_of("keep", "tab", "cut"), "optional"),
    Field(f"{_P}/placements", OBJECTS, "optional"),
    Field(f"{_P}/placements/*", OBJECT, "member"),
    Field(f"{_P}/placements/*/id", ID),
    Field(f"{_P}/placements/*/put", OBJECT),
    Field(f"{_P}/placements/*/put/(piece|form|blank|supply)", REFERENCE, "choice"),
    Field(f"{_P}/placements/*/put/element", PATH, "choice"),
    Field(f"{_P}/placements/*/on", OBJECT),
    Field(f"{_P}/placements/*/on/(blank|face|piece|form)", REFERENCE, "choice"),
    Field(f"{_P}/placements/*/on/panel", ID, "choice"),
    Field(f"{_P}/placements/*/on/skin", one_of("outside", "inside"), "optional"),
    Field(f"{_P}/placements/*/layer", one_of("over", "behind"), "optional"),
    Field(f"{_P}/placements/*(/copies/*)?/(left|right|top|bottom)", LENGTH_OR_ZERO, "optional"),
    Field(f"{_P}/placements/*(/copies/*)?/(centred|middle)", ONLY_TRUE, "optional"),
    Field(f"{_P}/placements/*(/copies/*)?/turn", TURN, "optional"),
    Field(
        f"{_P}/placements/*/copies",
        Kind(
            ("each",),
            (
                *_wrong(5, True, {"a": 1}, {}),
                ("all", "out-of-range"),
                ([], "out-of-range"),
                ([5, None, "a"], tuple((f"/{n}", "wrong-type") for n in range(3))),
            ),
        ),
        "optional",
    ),
    Field(f"{_P}/placements/*/copies/*", OBJECT, "member"),
    Field(f"{_P}/placements/*/copies/*/on_copy", COUNT),
    Field(
        f"{_P}/placements/0/border",
        Kind(LENGTH_OR_ZERO.good, (*_wrong(5, 1.5, True, ["a"], []), *_NO_LENGTH)),
        "optional",
    ),
    Field(
        f"{_P}/placements/2/border",
        Kind(LENGTH_OR_ZERO.good, (*_wrong(5, 1.5, True, ["a"], []), *_NO_LENGTH)),
        "optional",
    ),
    Field(f"{_P}/placements/2/border/(left|right|top|bottom)", LENGTH_OR_ZERO, "optional"),
    Field(f"{_P}/placements/*/wraps", TEXTS, "optional"),
    Field(f"{_P}/placements/*/wraps/*", _SIDE, "member"),
    Field(f"{_P}/placements/*/intends", TEXTS, "optional"),
    Field(f"{_P}/placements/*/intends/*", one_of("overhang", "uneven", "overlap"), "member"),
    Field(f"{_P}/steps", OBJECTS, "optional"),
    Field(f"{_P}/steps/*", OBJECT, "member"),
    Field(f"{_P}/steps/*/id", ID),
    Field(f"{_P}/steps/*/text", TEXT),
    Field(f"{_P}/steps/*/(cut|tools|closes|after|cautions)", TEXTS, "optional"),
    Field(f"{_P}/steps/*/(cut|tools|closes)/*", REFERENCE, "member"),
    Field(f"{_P}/steps/*/after/*", PATH, "member"),
    Field(f"{_P}/steps/*/cautions/*", one_of("blade", "heat", "solvent", "flame", "cell", "small-parts"), "member"),
    Field(f"{_P}/steps/*/use", OBJECTS, "optional"),
    Field(f"{_P}/steps/*/use/*", OBJECT, "member"),
    Field(f"{_P}/steps/*/use/*/(piece|form|blank|supply)", REFERENCE, "choice"),
    Field(f"{_P}/steps/*/use/*/element", PATH, "choice"),
    Field(f"{_P}/steps/*/use/*/count", COUNT, "optional"),
    Field(f"{_P}/steps/*/use/*/length", LENGTH, "optional"),
    Field(f"{_P}/steps/*/(work|hold|dry)", DURATION, "optional"),
    Field(f"{_P}/steps/*/held", one_of("by-hand", "clamped"), "optional"),
    Field("/accepted", OBJECTS, "optional"),
    Field("/accepted/*", OBJECT, "member"),
    Field("/accepted/*/(rule|why|because|by)", TEXT),
    Field("/accepted/*/at", TEXTS, "optional"),
    Field("/accepted/*/at/*", TEXT, "member"),
)


def field_at(pointer: str) -> Field | None:
    """The row that covers a pointer. Raises: AssertionError if several do."""
    found = [row for row in FIELDS if row.covers(pointer)]
    assert len(found) <= 1, (pointer, [row.pattern for row in found])
    return found[0] if found else None


def places_of(row: Field) -> list[str]:
    """The pointers of the whole document that a row covers."""
    return [pointer for pointer, _ in walk(WHOLE) if row.covers(pointer)]
