"""How texts and figures are set on a sheet: the whole number as it is, then its fraction as a fraction.

A space in front of a run that is set otherwise goes into that run: where a line ends with text and a space that just
does not fit, the library that sets the pages would break after the first word.
"""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterator, Sequence

from django import template
from django.utils.html import escape
from django.utils.safestring import SafeString, mark_safe

from kits.sheets.content.running import Run
from layouts.drawing import ScaledDrawing

register = template.Library()

# Denominators that a length may have: neither dates nor other slashes.
_FRACTION = re.compile(
    r"(?P<space> ?)(?<![\w/⁄.,])(?:(?P<whole>\d{1,5}) )?(?P<over>\d{1,3})/(?P<under>2|4|8|16|32|64)(?![\w/⁄])"
)


# A count stays with what is counted: “2 × trowel”.
_COUNT = re.compile(r"(?<!\S)(\d{1,5}) × (?=[^\W\d])")


@register.filter
def drawing_name(drawing: ScaledDrawing) -> str:
    """Return the name of a drawing among the assets of a page, by what is in it: alike drawings are one asset."""
    return f"drawing-{hashlib.sha256(drawing.svg.encode()).hexdigest()[:12]}"


@register.filter
def measured(text: object) -> SafeString:
    """Return text as HTML in which every fraction is set as one, and no line ends within a count; all else is escaped.

    The feature that makes fractions stands on the fraction alone: on a whole measure many faces raise the whole number
    too, and `6 3/4` becomes a misprint. Taken out of the PDF it reads `6 3⁄4`.
    """
    # Nothing in a measure needs escaping, and no escape looks like a measure.
    return mark_safe(_FRACTION.sub(_set, _COUNT.sub("\\1\N{NO-BREAK SPACE}×\N{NO-BREAK SPACE}", escape(str(text)))))


@register.filter
def stepped(runs: Sequence[Run]) -> SafeString:
    """Return the text of a step as HTML: letters stand out, fractions are set as such."""
    return mark_safe("".join(_stepped(runs)))


def _stepped(runs: Sequence[Run]) -> Iterator[str]:
    space = ""
    for number, run in enumerate(runs):
        text, space = space + run.text, ""
        if run.kind == "letter":
            yield f"<b>{escape(text)}</b>"
            continue
        if number + 1 < len(runs) and text.endswith(" "):
            text, space = text[:-1], " "
        yield measured(text)


def _set(found: re.Match[str]) -> str:
    fraction = f"{found['over']}⁄{found['under']}"
    if found["whole"]:
        # By itself, since no line ends within what follows: between many figures none could end at all.
        space = f"<span>{found['space']}</span>" if found["space"] else ""
        return f'{space}<span class="m">{found["whole"]} <span class="fr">{fraction}</span></span>'
    return f'<span class="fr">{found["space"]}{fraction}</span>'
