"""A thing of a kit as a form: its sections with what stands in them, what is said beside each value, and its words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from frontend.kit_page.pieces import Choice
from frontend.kit_page.things.entries import Entry, Field, Rows, Section
from frontend.kit_page.things.kinds import KINDS, KIT, Kind
from frontend.kit_page.things.scope import Scope
from frontend.kit_page.things.texts import Read, Texts, is_empty, plain_of, row_numbers, texts_of
from layouts.document import Kit, Project, UnknownPlace, plain_at
from layouts.document.canonical import canonical_tree
from layouts.lengths import BadLength, Length, in_millimetres, parse_length
from layouts.printed import text_of

__all__ = ["Control", "Form", "Row", "RowsPart", "SectionPart", "Thing", "thing_at", "thing_in"]


# So many values stand in one line of a wide page.
_FEW = 4


@dataclass(frozen=True, slots=True)
class Control:
    """One value as it is typed. `echo` is the length in both units, `wrong` what was refused about it, `theirs` what
    somebody else made of it meanwhile; `only_for` is the choice with which it is asked for at all."""

    name: str
    label: str
    entry: Entry
    texts: tuple[str, ...]
    choices: tuple[Choice, ...]
    help: str
    echo: str = ""
    wrong: str = ""
    theirs: str = ""
    only_for: str = ""

    @property
    def text(self) -> str:
        return self.texts[0] if self.texts else ""


@dataclass(frozen=True, slots=True)
class Row:
    """One of several alike things, by its number; the last one of a list is empty, for one more."""

    number: int
    title: str
    controls: tuple[Control, ...]
    is_new: bool

    @property
    def is_folded(self) -> bool:
        """Whether it is folded away: one that is empty, and has much to fill in."""
        return self.is_new and len(self.controls) > _FEW


@dataclass(frozen=True, slots=True)
class RowsPart:
    path: str
    one: str
    help: str
    rows: tuple[Row, ...]


@dataclass(frozen=True, slots=True)
class SectionPart:
    """A section with its items, controls and rows; `is_open` unless it is one that is folded away while empty."""

    title: str
    help: str
    items: tuple[Control | RowsPart, ...]
    is_closed: bool
    is_open: bool


@dataclass(frozen=True, slots=True)
class Thing:
    """A thing of a kit, or one that is to be: its place, its kind, and what the document says of it as plain JSON."""

    kit: Kit
    place: str
    kind: str
    project: Project | None
    plain: Mapping[str, Any]

    @property
    def words(self) -> Kind:
        return KINDS[self.kind]

    @property
    def id(self) -> str:
        return self.kit.code if self.place == KIT else self.place.rpartition(":")[2]

    @property
    def name(self) -> str:
        return str(self.plain.get("name") or self.plain.get("title") or "")

    @property
    def sections(self) -> tuple[Section, ...]:
        return self.words.sections(Scope(self.kit, self.project, self.id), dict(self.plain))

    @property
    def texts(self) -> dict[str, tuple[str, ...]]:
        """What the controls of its form hold while nobody has typed anything."""
        return texts_of(self.sections, self.words.opened(dict(self.plain)))

    def read(self, texts: Texts) -> Read:
        """Return what its form says as the document writes it, with the control that each part came from."""
        before = self.words.opened(dict(self.plain))
        read = plain_of(self.sections, texts, before)
        # What nobody changed stays as it is written, with all that a form does not know of.
        was, thing = self.words.closed(before), self.words.closed(read.thing)
        kept = {name: value for name, value in self.plain.items() if was.get(name) == thing.get(name)}
        return Read({**thing, **kept}, read.controls)

    def form(
        self,
        texts: Texts,
        wrong: Mapping[str, str] | None = None,
        theirs: Mapping[str, str] | None = None,
        sent: Texts | None = None,
    ) -> Form:
        """Return its form with these texts in it, and what is said about them; `sent` is what the page that asks has
        of it."""
        return Form(self, texts, wrong or {}, theirs or {}, texts if sent is None else sent)


@dataclass(frozen=True, slots=True)
class Form:
    """A form as it is shown."""

    thing: Thing
    texts: Texts
    wrong: Mapping[str, str]
    theirs: Mapping[str, str]
    sent: Texts

    @property
    def sections(self) -> tuple[SectionPart, ...]:
        return tuple(self._section(section) for section in self.thing.sections)

    @property
    def controls(self) -> Iterator[Control]:
        for section in self.sections:
            for item in section.items:
                if isinstance(item, Control):
                    yield item
                else:
                    yield from (control for row in item.rows for control in row.controls)

    @property
    def more_rows(self) -> tuple[tuple[RowsPart, Row], ...]:
        """The empty rows that a page does not have yet: those that it had were filled."""
        parts = (item for section in self.sections for item in section.items if isinstance(item, RowsPart))
        return tuple((part, part.rows[-1]) for part in parts if not self._has_row(part, part.rows[-1]))

    @property
    def answered(self) -> Iterator[Control]:
        """The controls that the page has."""
        missing = {control.name for _, row in self.more_rows for control in row.controls}
        return (control for control in self.controls if control.name not in missing)

    def _has_row(self, part: RowsPart, row: Row) -> bool:
        return any(name.startswith(f"{part.path}/{row.number}/") for name in self.sent)

    def _section(self, section: Section) -> SectionPart:
        items = tuple(
            self._rows(one) if isinstance(one, Rows) else self._control(one, one.path) for one in section.items
        )
        return SectionPart(section.title, section.help, items, section.is_closed, self._is_given(section))

    def _is_given(self, section: Section) -> bool:
        """Whether anything in a section is not as it is anyway, or was refused."""
        return any(self._has_text(one) for one in section.items)

    def _has_text(self, one: Field | Rows) -> bool:
        if isinstance(one, Rows):
            return any(not is_empty(one, number, self.texts) for number in row_numbers(one, self.texts))
        typed = [text for text in self.texts.get(one.path, ()) if text]
        return one.path in self.wrong or one.path in self.theirs or typed not in ([], [one.start])

    def _rows(self, rows: Rows) -> RowsPart:
        numbers = list(row_numbers(rows, self.texts))
        new = max(numbers, default=-1) + 1
        if not numbers or not is_empty(rows, numbers[-1], self.texts):
            numbers.append(new)
        shown = []
        for at, number in enumerate(numbers, start=1):
            start = f"{rows.path}/{number}"
            is_new = is_empty(rows, number, self.texts)
            title = f"{'one more ' if is_new else ''}{rows.one}{'' if is_new else f' {at}'}"
            controls = tuple(self._control(one, f"{start}/{one.path}", title) for one in rows.fields)
            shown.append(Row(number, title, controls, is_new))
        return RowsPart(rows.path, rows.one, rows.help, tuple(shown))

    def _control(self, one: Field, name: str, of: str = "") -> Control:
        texts = self.texts.get(name, () if one.entry in (Entry.MANY, Entry.FLAG) else (one.start,))
        return Control(
            name=name,
            label=one.label,
            entry=one.entry,
            texts=texts,
            choices=_with_unknown(one, texts),
            help=one.help,
            echo=_echo(texts[0] if texts else "", self.thing.kit) if one.entry == Entry.LENGTH else "",
            wrong=self.wrong.get(name, ""),
            theirs=self.theirs.get(name, ""),
            only_for="" if one.only_for is None else one.only_for[1],
        )


def thing_at(kit: Kit, place: str) -> Thing:
    """Return the thing at a place. Raises: UnknownPlace."""
    kind = place.rpartition("/")[2].partition(":")[0]
    if kind not in KINDS:
        raise UnknownPlace(f"{place} has no form")
    plain = canonical_members(kit) if place == KIT else plain_at(kit, place)
    if not isinstance(plain, dict):
        raise UnknownPlace(f"there is no {place} in this kit")
    return Thing(kit, place, kind, _project(kit, place), plain)


def canonical_members(kit: Kit) -> dict[str, Any]:
    """Return what of a kit as a whole is written: nothing of what has a list of its own."""
    tree = canonical_tree(kit)
    return {name: tree[name] for name in ("title", "unit", "printed", "cutting") if name in tree}


def thing_in(kit: Kit, project: str, kind: str, id_: str, plain: Mapping[str, Any]) -> Thing:
    """Return a thing that is to be added, to a project (by id) if its kind stands in one. Raises: UnknownPlace."""
    if kind not in KINDS or kind == KIT or KINDS[kind].in_project != bool(project):
        raise UnknownPlace(f"no {kind} can be added here")
    place = f"project:{project}/{kind}:{id_}" if project else f"{kind}:{id_}"
    found = _project(kit, place)
    if project and found is None:
        raise UnknownPlace(f"there is no project {project} in this kit")
    return Thing(kit, place, kind, found, plain)


def _project(kit: Kit, place: str) -> Project | None:
    first, _, inner = place.partition("/")
    if not inner and not first.startswith("project:"):
        return None
    return next((one for one in kit.projects if f"project:{one.id}" == first), None)


def _with_unknown(one: Field, texts: tuple[str, ...]) -> tuple[Choice, ...]:
    """The choices, and whatever else was chosen: a window that is waste now must not be lost from its form."""
    if one.entry not in (Entry.CHOICE, Entry.MANY):
        return one.choices
    known = {choice.value for choice in one.choices}
    return (*one.choices, *(Choice(text, text) for text in texts if text and text not in known))


def _echo(text: str, kit: Kit) -> str:
    """A length in both systems, exact in its own; nothing where it is no length (yet)."""
    try:
        length = parse_length(text.strip(), kit.unit) if text.strip() else None
    except BadLength:
        return ""
    return "" if length is None else both(length)


def both(length: Length) -> str:
    """Return a length in both systems.

    >>> both(Length.of("6 3/4 in")), both(Length.of("10 mm"))
    ('6 3/4 in = 171.45 mm', '10 mm ≈ 25/64 in')
    """
    if length.system == "in":
        return f"{length.text()} = {in_millimetres(length.ticks)} mm"
    inches = text_of(_nearest(length.ticks, _SIXTY_FOURTH), "in")
    return f"{length.text()} {'=' if length.ticks % _SIXTY_FOURTH == 0 else '≈'} {inches} in"


# 1/64 in, in ticks.
_SIXTY_FOURTH = 127


def _nearest(ticks: int, step: int) -> int:
    return (2 * ticks + step) // (2 * step) * step
