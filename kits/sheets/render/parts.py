"""What a page may be made of. The library leaves out in silence what it does not know, so it is not asked to."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

from kits.sheets.render.refused import Refused

__all__ = ["look_through"]

SVG = "{http://www.w3.org/2000/svg}"
HTML = frozenset(
    re.findall(
        r"\w+",
        """html head title meta link style body main nav section article aside header footer div p h1 h2 h3 h4 h5 h6
        blockquote pre ol ul li dl dt dd figure figcaption table caption colgroup col thead tbody tfoot tr th td hr
        br wbr a abbr b cite code em i img kbd mark q s small span strong sub sup time u var""",
    )
)
# No `style`: drawings carry presentation attributes only, so that they look alike on screen and in print.
DRAWING = frozenset(
    SVG + name
    for name in re.findall(
        r"\w+",
        """svg title desc defs g symbol use path rect line polyline polygon circle ellipse text tspan pattern clipPath
        marker mask""",
    )
)
REFERENCES = frozenset({"href", "src", "srcset", "data", "background", "poster", "xlink:href"})
ELSEWHERE = re.compile(r"url\(\s*['\"]?(?!\s*['\"]?#)", re.IGNORECASE)
SHOWN = 80


def look_through(root: Any) -> None:
    """Raises: Refused if an element is none of those above, or refers to anything but an asset or a place in the page.

    What style sheets ask for is left to the table of assets, which serves them; where links lead, to `finish`.
    """
    for element in root.iter():
        if not isinstance(element.tag, str):
            continue  # a comment
        name = element.tag.removeprefix(SVG)
        for wanted in _wanted(element):
            shown = wanted if len(wanted) <= SHOWN else f"{wanted[:SHOWN]}…"
            raise Refused(f"<{name}> asks for “{shown}”, which is not among the page’s assets")
        if element.tag not in HTML and element.tag not in DRAWING:
            raise Refused(f"<{name}> is nothing that a page is made of")


def _wanted(element: Any) -> Iterator[str]:
    """What the element refers to and may not."""
    for key, value in element.items():
        name = key.rpartition("}")[2]
        refers = name in REFERENCES and element.tag != "a" and not value.startswith(("#", "asset:"))
        if refers or (element.tag.startswith(SVG) and ELSEWHERE.search(value)):
            yield value
