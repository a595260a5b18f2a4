"""Reads a page as the tests need it: elements by id, forms with what they would send, text as it is seen."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from html.parser import HTMLParser

__all__ = ["Element", "Page"]

_VOID = {"br", "col", "hr", "img", "input", "link", "meta", "path", "rect", "line"}


@dataclass
class Element:
    name: str
    attributes: dict[str, str]
    parts: list[Element | str] = field(default_factory=list)

    @property
    def text(self) -> str:
        """All text inside, white space as a browser shows it."""
        return re.sub(r"[ \n\t]+", " ", self._raw).strip()

    @property
    def _raw(self) -> str:
        return "".join(part if isinstance(part, str) else part._raw for part in self.parts)

    def all(self, name: str, /, **attributes: str) -> list[Element]:
        """All elements inside of a name (`*` for any) and with these attributes; `class_` is one of its classes."""
        wanted = {key.rstrip("_").replace("_", "-"): value for key, value in attributes.items()}
        here = [part for part in self.parts if isinstance(part, Element)]
        found = [one for one in here if name in ("*", one.name) and all(one.has(*item) for item in wanted.items())]
        return found + [one for part in here for one in part.all(name, **attributes)]

    def one(self, name: str, /, **attributes: str) -> Element:
        found = self.all(name, **attributes)
        assert len(found) == 1, f"{len(found)} of {name} {attributes}"
        return found[0]

    def has(self, key: str, value: str) -> bool:
        given = self.attributes.get(key)
        return given is not None and (value in given.split() if key == "class" else given == value)

    def values(self) -> dict[str, str]:
        """What a form would send: its inputs, and of each list the chosen option."""
        values = {one.attributes["name"]: one.attributes.get("value", "") for one in self.all("input") if _is_sent(one)}
        values |= {one.attributes["name"]: one.text for one in self.all("textarea")}
        for chooser in self.all("select"):
            options = chooser.all("option")
            chosen = [one for one in options if "selected" in one.attributes] or options[:1]
            values[chooser.attributes["name"]] = chosen[0].attributes["value"]
        return {name: value for name, value in values.items() if name != "csrfmiddlewaretoken"}


def _is_sent(control: Element) -> bool:
    """Of boxes, those with a tick are sent."""
    return control.attributes.get("type") != "checkbox" or "checked" in control.attributes


class Page(Element):
    """A whole page, or the part of one that htmx gets."""

    def __init__(self, html: str) -> None:
        super().__init__("page", {})
        self.html = html
        reader = _Reader(self)
        reader.feed(html)
        reader.close()
        assert reader.open == [self], f"{reader.open[-1].name} is never closed"

    def at(self, id_: str) -> Element:
        return self.one("*", id=id_)


class _Reader(HTMLParser):
    def __init__(self, page: Page) -> None:
        super().__init__()
        self.open: list[Element] = [page]

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        element = Element(tag, {name: value or "" for name, value in attrs})
        self.open[-1].parts.append(element)
        if tag not in _VOID:
            self.open.append(element)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.open[-1].parts.append(Element(tag, {name: value or "" for name, value in attrs}))

    def handle_endtag(self, tag: str) -> None:
        if tag in _VOID:
            return
        closed = self.open.pop()
        assert closed.name == tag, f"{closed.name} is closed by {tag}"

    def handle_data(self, data: str) -> None:
        self.open[-1].parts.append(data)
