"""Which columns hold which member of the document: one table, read both ways."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from kits.planning import models
from kits.planning.models import Row
from layouts.document import Each, canonical_value
from layouts.document.base import DocumentObject

__all__ = ["DRAFT", "TABLES", "Member", "Table", "columns_of", "members_of"]

type Columns = tuple[Any, ...]


@dataclass(frozen=True, slots=True)
class Member:
    """A member of an object of the document. Written as plain JSON, None says that it is absent."""

    written: str
    attribute: str
    columns: tuple[str, ...]
    to_columns: Callable[[Any], Columns]
    to_plain: Callable[[Columns], Any]


@dataclass(frozen=True, slots=True)
class Table:
    """A list of the document and the rows that hold its members.

    `kind` names a member in a place, `listed` is the list's name in its owner, `owner` the column that leads there.
    The column `rest` holds what no other does.
    """

    model: type[Row]
    kind: str
    listed: str
    owner: str
    members: tuple[Member, ...]
    parts: tuple[Table, ...] = ()
    rest: str = ""


def columns_of(thing: DocumentObject, members: tuple[Member, ...], rest: str = "") -> dict[str, Any]:
    """Return the values of the columns that hold an object of the document."""
    values: dict[str, Any] = {"carried": thing.carried}
    for member in members:
        values.update(zip(member.columns, member.to_columns(getattr(thing, member.attribute)), strict=True))
    if rest:
        held = {member.written for member in members} | thing.carried.keys()
        values[rest] = {name: value for name, value in _plain(thing).items() if name not in held}
    return values


def members_of(row: Any, members: tuple[Member, ...], rest: str = "") -> dict[str, Any]:
    """Return an object of the document as plain JSON from its row: defaults filled in, every unit written."""
    plain = {
        member.written: member.to_plain(tuple(getattr(row, name) for name in member.columns)) for member in members
    }
    present = {name: value for name, value in plain.items() if value is not None}
    return {**present, **(getattr(row, rest) if rest else {}), **row.carried}


def _plain(value: Any) -> Any:
    return canonical_value(value, None)


def _same(value: Any) -> Columns:
    return (value,)


def _first(columns: Columns) -> Any:
    return columns[0]


def _as_it_is(written: str, *, column: str = "", attribute: str = "") -> Member:
    """A text, a number, yes or no."""
    return Member(written, attribute or written, (column or written,), _same, _first)


def _word(written: str, *, column: str = "", attribute: str = "") -> Member:
    """A text that is never empty where it is present; an empty column says that it is not."""

    def to_columns(value: Any) -> Columns:
        return ("" if value is None else str(value),)

    return Member(written, attribute or written, (column or written,), to_columns, lambda columns: columns[0] or None)


def _yes(written: str) -> Member:
    """True, or absent."""
    return Member(written, written, (written,), lambda value: (value is True,), lambda columns: columns[0] or None)


def _length(written: str) -> Member:
    return Member(written, written, (written,), _same, lambda columns: _plain(columns[0]))


def _lengths(written: str, *columns: str) -> Member:
    """A list of lengths, a column each; all of them or none."""

    def to_columns(value: Any) -> Columns:
        return (None,) * len(columns) if value is None else tuple(getattr(value, name) for name in value.names)

    def to_plain(values: Columns) -> Any:
        return None if values[0] is None else [_plain(value) for value in values]

    return Member(written, written, columns, to_columns, to_plain)


def _json(written: str) -> Member:
    """A value without an id, as it is in the canonical form, but with every unit."""
    return Member(written, written, (written,), lambda value: (None if value is None else _plain(value),), _first)


def _papers(value: Any) -> Columns:
    return ("", _plain(value)) if isinstance(value, Each) else (value or "", None)


_ID = _as_it_is("id", column="ident")
_NAME = _as_it_is("name")
_COUNT = _as_it_is("count")
_SIZE = _lengths("size", "width", "height")
_PAPER = Member("paper", "paper", ("paper", "each"), _papers, lambda columns: columns[0] or columns[1])

_WINDOW = Table(
    models.Window,
    "window",
    "windows",
    "piece",
    (
        _ID,
        *(_length(side) for side in ("left", "right", "top", "bottom", "width", "height")),
        _json("shape"),
        _as_it_is("cut_out"),
    ),
)
_PIECE = Table(
    models.Piece,
    "piece",
    "pieces",
    "project",
    (
        _ID,
        _NAME,
        _PAPER,
        _word("from", column="cut_from", attribute="from_"),
        _as_it_is("side"),
        _SIZE,
        _as_it_is("size_is"),
        _COUNT,
        _as_it_is("print_reads"),
        _json("shape"),
        _json("edges"),
        _word("mirror_of"),
    ),
    (_WINDOW,),
)
_FORM = Table(
    models.Form,
    "form",
    "forms",
    "project",
    (
        _ID,
        _NAME,
        _as_it_is("as", column="construction", attribute="as_"),
        _PAPER,
        _as_it_is("side"),
        _COUNT,
        _as_it_is("print_reads"),
    ),
    rest="parameters",
)
_PLACEMENT = Table(
    models.Placement,
    "placement",
    "placements",
    "project",
    (
        _ID,
        _json("put"),
        _json("on"),
        _as_it_is("layer"),
        _length("left"),
        _length("right"),
        _yes("centred"),
        _length("top"),
        _length("bottom"),
        _yes("middle"),
        _as_it_is("turn"),
        *(_json(name) for name in ("copies", "border", "wraps", "intends")),
    ),
)
_STEP = Table(
    models.Step,
    "step",
    "steps",
    "project",
    (
        _ID,
        _as_it_is("text"),
        *(_json(name) for name in ("cut", "use", "tools")),
        _word("work"),
        _word("hold"),
        _as_it_is("held"),
        _word("dry"),
        *(_json(name) for name in ("after", "closes", "cautions")),
    ),
)
_ELEMENT = Table(
    models.Element, "element", "elements", "embellishment", (_ID, _NAME, _COUNT, _SIZE, _as_it_is("two_sided"))
)
_FACE = Table(models.Face, "face", "faces", "blank", (_ID, _SIZE, _COUNT, _as_it_is("inside"), _json("opening")))
_THICKNESS = _as_it_is("thickness_um")

# The lists of the document, in the order in which references lead back.
TABLES = (
    Table(models.Pad, "pad", "pads", "draft", (_ID, _NAME, _SIZE)),
    Table(
        models.Paper,
        "paper",
        "papers",
        "draft",
        (
            _ID,
            _NAME,
            _word("pad"),
            _SIZE,
            _as_it_is("sheets"),
            _json("front"),
            _json("back"),
            _as_it_is("grammage"),
            _as_it_is("caliper_um"),
            _word("grain"),
            _length("undersize"),
            _json("spoilt"),
        ),
    ),
    Table(
        models.Embellishment, "embellishment", "embellishments", "draft", (_ID, _NAME, _as_it_is("sheets")), (_ELEMENT,)
    ),
    Table(
        models.Blank,
        "blank",
        "blanks",
        "draft",
        (_ID, _NAME, _COUNT, _THICKNESS, _lengths("outside", "width", "depth", "height")),
        (_FACE,),
    ),
    Table(
        models.Supply,
        "supply",
        "supplies",
        "draft",
        (
            _ID,
            _NAME,
            _as_it_is("kind"),
            _COUNT,
            _length("length"),
            _THICKNESS,
            _as_it_is("from", column="given_by", attribute="from_"),
        ),
    ),
    Table(
        models.Tool,
        "tool",
        "tools",
        "draft",
        (
            _ID,
            _NAME,
            _as_it_is("kind"),
            *(_length(name) for name in ("step", "longest", "narrowest", "bite", "pitch", "least_depth")),
        ),
    ),
    Table(
        models.Project,
        "project",
        "projects",
        "draft",
        (_ID, _as_it_is("title"), _as_it_is("makes")),
        (_PIECE, _FORM, _PLACEMENT, _STEP),
    ),
    Table(
        models.AcceptedFinding,
        "",
        "accepted",
        "draft",
        (_as_it_is("rule"), _json("at"), _as_it_is("why"), _as_it_is("because"), _as_it_is("by")),
    ),
)

# The document as a whole, but for its lists and the code of its kit.
DRAFT = (_as_it_is("title"), _as_it_is("unit"), _json("printed"), _json("cutting"))
