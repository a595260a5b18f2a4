"""What the box holds, and the tools a member is expected to have: one line a thing, in groups."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from frontend.kit_page.findings import FindingLine
from frontend.words.numbers import counted
from layouts.document import Box, Kit, Paper, Size, Supply, Tool, paper_place
from layouts.lengths import Length

__all__ = ["ContentGroup", "ContentLine", "content_groups"]


@dataclass(frozen=True, slots=True)
class ContentLine:
    """A thing, and the id of its element on the page, which is its place unless that is another element's."""

    place: str
    anchor: str
    name: str
    words: str
    said: tuple[FindingLine, ...]


@dataclass(frozen=True, slots=True)
class ContentGroup:
    """The things of one kind, and how adding one is called."""

    kind: str
    title: str
    adding: str
    lines: tuple[ContentLine, ...]


def content_groups(kit: Kit, said: Mapping[str, tuple[FindingLine, ...]]) -> tuple[ContentGroup, ...]:
    """Return all that is in the box by kinds, also those of which there is nothing."""
    groups = (
        ("paper", "Prints", "Add a print", _papers(kit)),
        ("pad", "Pads", "Add a pad", ((f"pad:{pad.id}", pad.name, _size(kit, pad.size)) for pad in kit.pads)),
        ("embellishment", "Embellishment sheets", "Add an embellishment sheet", _embellishments(kit)),
        ("blank", "Blanks", "Add a blank", _blanks(kit)),
        (
            "supply",
            "Supplies",
            "Add a supply",
            ((f"supply:{one.id}", one.name, _supply(kit, one)) for one in kit.supplies),
        ),
        ("tool", "Tools that a member is expected to have", "Add a tool", _tools(kit)),
    )
    return tuple(
        ContentGroup(kind, title, adding, tuple(_line(place, name, words, said) for place, name, words in lines))
        for kind, title, adding, lines in groups
    )


def _line(place: str, name: str, words: str, said: Mapping[str, tuple[FindingLine, ...]]) -> ContentLine:
    # A print's place is the id of its sheets, further up the page.
    anchor = f"{place}/front" if place.startswith("paper:") else place
    return ContentLine(place, anchor, name, words, said.get(anchor, ()))


def _papers(kit: Kit) -> Iterator[tuple[str, str, str]]:
    pads = {pad.id: pad for pad in kit.pads}
    for paper in kit.papers:
        size = paper.size or pads[str(paper.pad)].size
        words = [counted(paper.sheets, "sheet"), _size(kit, size), _sides(paper)]
        if paper.grammage is not None:
            words.append(f"{paper.grammage} g/m²")
        yield paper_place(paper.id), paper.name, "; ".join(words)


def _sides(paper: Paper) -> str:
    back = f", back {paper.back.name}" if paper.back is not None else ", back not printed"
    return f"front {paper.front.name}{back}"


def _embellishments(kit: Kit) -> Iterator[tuple[str, str, str]]:
    for sheet in kit.embellishments:
        elements = ", ".join(f"{one.count} {one.name}" for one in sheet.elements)
        yield (
            f"embellishment:{sheet.id}",
            sheet.name,
            f"{counted(sheet.sheets, 'sheet')}: {elements or 'nothing on it'}",
        )


def _blanks(kit: Kit) -> Iterator[tuple[str, str, str]]:
    for blank in kit.blanks:
        outside = f", {_size(kit, blank.outside)} outside" if blank.outside is not None else ""
        faces = ", ".join(f"{face.id} {_size(kit, face.size)}" for face in blank.faces)
        yield f"blank:{blank.id}", blank.name, f"{blank.count}{outside}{f'; faces: {faces}' if faces else ''}"


def _supply(kit: Kit, one: Supply) -> str:
    words = [one.kind.replace("-", " ")]
    if one.count is not None:
        words.append(str(one.count))
    if one.length is not None:
        words.append(_length(kit, one.length))
    words.append("in the box" if one.from_ == "kit" else "the member has it")
    return "; ".join(words)


def _tools(kit: Kit) -> Iterator[tuple[str, str, str]]:
    for tool in kit.tools:
        yield f"tool:{tool.id}", tool.name or tool.id, "; ".join(_tool(kit, tool))


def _tool(kit: Kit, tool: Tool) -> Iterator[str]:
    yield tool.kind.replace("-", " ")
    for words, length in (
        ("cuts up to", tool.longest),
        ("no narrower than", tool.narrowest),
        ("step", tool.step),
        ("bite", tool.bite),
        ("pitch", tool.pitch),
    ):
        if length is not None:
            yield f"{words} {_length(kit, length)}"


def _size(kit: Kit, size: Size | Box) -> str:
    lengths = size if isinstance(size, Size) else (size.width, size.depth, size.height)
    return f"{' × '.join(length.text(kit.unit) for length in lengths)} {kit.unit}"


def _length(kit: Kit, length: Length) -> str:
    text = length.text(kit.unit)
    # A length in the other system names its unit itself.
    return text if text[-1].isalpha() else f"{text} {kit.unit}"
