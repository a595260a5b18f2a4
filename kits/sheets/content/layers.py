"""What lies on what: for each face, piece and panel the things that are put there, with their borders."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import NamedTuple

from kits.sheets.content.measures import Measures
from layouts.document import Copy, Kit, Placement, Project, Support
from layouts.lengths import Length
from layouts.shapes.faces import Along, Lying, claimed_borders, lying_in
from layouts.shapes.forms import Side

__all__ = ["Laid", "Layered", "LyingPair", "SupportNames", "how_words", "layers_of", "lying_pairs"]

_AXES: tuple[tuple[str, Side, Side], ...] = (("across", "left", "right"), ("up", "bottom", "top"))
_ORDER: tuple[Side, ...] = ("left", "right", "top", "bottom")
_CENTRED: Mapping[tuple[str, ...], str] = {
    ("across",): "centred from side to side",
    ("up",): "centred from top to bottom",
    ("across", "up"): "centred",
}
_TURNS = {0: "", 90: "turned a quarter anticlockwise", 180: "upside down", 270: "turned a quarter clockwise"}
_ORDINALS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth")
# No line ends between a figure and its unit.
_NO_BREAK = "\N{NO-BREAK SPACE}"
# Sentences about one project: a list of copies may be very long.
_MOST = 400


class LyingPair(NamedTuple):
    """One copy of a placement as the document has it, and as the sheet shows it."""

    exact: Lying
    shown: Lying


@dataclass(frozen=True, slots=True)
class Laid:
    """A thing that is put somewhere, by its letter if it has one, and how: one phrase for each copy that lies there."""

    letter: str
    name: str
    how: tuple[str, ...]

    @property
    def words(self) -> str:
        """Its name and how it lies as one sentence."""
        how = "; ".join(filter(None, self.how))
        return f"{self.name}: {how}." if how else f"{self.name}."


@dataclass(frozen=True, slots=True)
class Layered:
    """A face, piece or panel, which copy of it if copies differ, and what is put there in the order of the document."""

    place: str
    on_copy: int | None
    letter: str
    name: str
    laid: tuple[Laid, ...]


def lying_pairs(measures: Measures) -> tuple[LyingPair, ...]:
    """Return all placements of a kit, each exactly and as a sheet shows it."""
    return tuple(map(LyingPair, lying_in(measures.kit), lying_in(measures.as_shown)))


def layers_of(measures: Measures, project: Project, lying: Sequence[LyingPair]) -> tuple[Layered, ...]:
    """Return what the placements of one project lie on, in document order, with their borders in words.

    Figures are those of the proof: stated positions and borders, and borders on both sides of what is centred where
    the printed step can show them; whatever else follows is left to the drawing. `lying` are those of the kit.
    """
    names = SupportNames(measures.kit, project)
    groups: dict[tuple[str, int | None], list[LyingPair]] = {}
    for one in [one for one in lying if one.exact.project.id == project.id][:_MOST]:
        # Of a support that is one of its kind, copy 1 is each copy.
        on_copy = one.exact.on_copy if names.support(one.exact.placement.on)[2] > 1 else None
        groups.setdefault((one.exact.surface.place, on_copy), []).append(one)
    return tuple(_layered(measures, names, place, on_copy, here) for (place, on_copy), here in groups.items())


def _layered(
    measures: Measures, names: SupportNames, place: str, on_copy: int | None, here: Sequence[LyingPair]
) -> Layered:
    letter, name = names.told(here[0].exact.placement.on, () if on_copy is None else (on_copy,))
    things: dict[str, list[LyingPair]] = {}
    for one in here:
        things.setdefault(one.exact.thing.place, []).append(one)
    laid = (
        Laid(*names.thing(same[0].exact), tuple(how_words(measures, one) for one in same)) for same in things.values()
    )
    return Layered(place, on_copy, letter, name, tuple(laid))


class SupportNames:
    """What the supports and the things of one project are called."""

    def __init__(self, kit: Kit, project: Project) -> None:
        self._blanks = {blank.id: (blank, {face.id: face for face in blank.faces}) for blank in kit.blanks}
        self._pieces = {piece.id: piece for piece in project.pieces}
        self._forms = {form.id: form for form in project.forms}

    def support(self, on: Support) -> tuple[str, str, int]:
        """Return letter and name of what something is put on, and how many there are of it."""
        if on.blank is not None:
            blank, faces = self._blanks[on.blank]
            face = faces[on.face or ""]
            inside = ", inside" if face.inside else ""
            return "", f"{face.id.replace('-', ' ')} of the {blank.name}{inside}", blank.count * face.count
        if on.piece is not None:
            piece = self._pieces[on.piece]
            return piece.id, piece.name, piece.count
        form = self._forms[on.form or ""]
        inside = ", inside" if on.skin == "inside" else ""
        return "", f"{str(on.panel).replace('-', ' ')} of the {form.name}{inside}", form.count

    def told(self, on: Support, copies: Sequence[int] = ()) -> tuple[str, str]:
        """Return letter and name, and which copies are meant where there are several; none means each."""
        letter, name, many = self.support(on)
        if many == 1:
            return letter, name
        which = f"the {_listed(list(map(_ordinal, copies)))} of {many}" if copies else "each"
        return letter, f"{name}, {which}"

    def thing(self, lying: Lying) -> tuple[str, str]:
        """Return letter and name of what is put; a form that is called by its letter has none beside its name."""
        put = lying.placement.put
        if put.piece is not None:
            return put.piece, self._pieces[put.piece].name
        if put.form is not None:
            name = self._forms[put.form].name
            return "" if put.form == name else put.form, name
        return "", lying.thing.name.strip("“”")


def how_words(measures: Measures, pair: LyingPair) -> str:
    """Return how one thing lies, its borders first of all; nothing where the document does not say."""
    placement = pair.exact.placement
    figures = {side: text for axis in _AXES for side, text in _borders(measures, pair, *axis)}
    said = [_TURNS[pair.exact.turn]] if pair.exact.turn else []
    if placement.layer == "behind":
        said.append("behind it")
    if len(figures) == 4 and len(set(figures.values())) == 1:
        said.append(
            "flush all round" if figures["left"] == "0" else f"{figures['left']}{_NO_BREAK}{measures.unit} all round"
        )
    else:
        said += _sides(figures, measures.unit)
        centred = tuple(
            axis for axis, low, high in _AXES if _is_centred(pair, axis) and not {low, high} & figures.keys()
        )
        said += [_CENTRED[centred]] if centred else []
    if placement.wraps:
        said.append(f"turned over the {_listed(list(placement.wraps))}")
    return ", ".join(said)


def _borders(measures: Measures, pair: LyingPair, axis: str, low: Side, high: Side) -> Iterator[tuple[Side, str]]:
    """The sides along one axis of which a border is told, each with its figure; one that sticks out begins with −."""
    along: Along = getattr(pair.shown, axis)
    stated = {side: text for side in (low, high) if (text := _stated(measures, pair, side)) is not None}
    derived = {
        side: _derived(measures, border)
        for side, border in ((low, along.low), (high, along.high))
        if side not in pair.exact.placement.wraps
    }
    for side in (low, high):
        other = high if side == low else low
        if side in stated:
            yield side, stated[side]
        elif derived.get(side) and (
            derived[side] in ("0", stated.get(other)) or (not stated and _is_centred(pair, axis))
        ):
            yield side, derived[side] or ""


def _stated(measures: Measures, pair: LyingPair, side: Side) -> str | None:
    """The figure that the document states for one side: where it is put, or the border that is claimed and true."""
    placement, place = pair.shown.placement, f"project:{pair.shown.project.id}/placement:{pair.shown.placement.id}"
    length: Length | None = getattr(_position(pair.shown), side)
    if length is not None:
        return measures.own(length.ticks, measures.mark(f"{pair.shown.place}/{side}")).text
    claim, true = claimed_borders(pair.exact).get(side), pair.exact.borders[side]
    if claim is None or true is None or abs(true - claim.ticks) > pair.exact.surface.give:
        return None
    at = f"{place}/border" if isinstance(placement.border, Length) else f"{place}/border/{side}"
    return measures.own(claimed_borders(pair.shown)[side].ticks, measures.mark(at)).text


def _derived(measures: Measures, border: Fraction | None) -> str | None:
    """A border that follows from others, where the printed step can show it."""
    if border is None or border % measures.step:
        return None
    text = measures.own(abs(int(border))).text
    return f"−{text}" if border < 0 else text


def _is_centred(pair: LyingPair, axis: str) -> bool:
    position = _position(pair.exact)
    return bool(position.centred if axis == "across" else position.middle)


def _position(lying: Lying) -> Placement | Copy:
    """Where the document says how this one lies: in the list of copies, else in the placement itself."""
    copies = lying.placement.copies
    return lying.placement if copies == "each" else copies[int(lying.place.rpartition("/")[2]) - 1]


def _sides(figures: Mapping[Side, str], unit: str) -> Iterator[str]:
    """Sides with equal figures together, in the order in which a reader goes round."""
    together: dict[str, list[str]] = {}
    for side in _ORDER:
        if side in figures:
            together.setdefault(figures[side], []).append(side)
    for text, sides in together.items():
        where = _listed([f"the {side}" for side in sides])
        if text == "0":
            yield f"flush with {where}"
        elif text.startswith("−"):
            yield f"sticking out {text[1:]}{_NO_BREAK}{unit} at {where}"
        else:
            yield f"{text}{_NO_BREAK}{unit} from {where}"


def _ordinal(number: int) -> str:
    return _ORDINALS[number - 1] if number <= len(_ORDINALS) else f"{number}th"


def _listed(names: Sequence[str]) -> str:
    return " and ".join([*([", ".join(names[:-1])] if names[:-1] else []), names[-1]])
