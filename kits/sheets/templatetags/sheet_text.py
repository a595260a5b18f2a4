"""How figures are set on a sheet: the whole number as it is, then its fraction as a fraction."""

from __future__ import annotations

import re

from django import template
from django.utils.html import escape
from django.utils.safestring import SafeString, mark_safe

register = template.Library()

# Denominators that a length may have: neither dates nor other slashes.
_FRACTION = re.compile(r"(?<![\w/⁄.,])(?:(?P<whole>\d{1,5}) )?(?P<over>\d{1,3})/(?P<under>2|4|8|16|32|64)(?![\w/⁄])")


@register.filter
def measured(text: object) -> SafeString:
    """Return text as HTML in which every fraction is set as one; all else is escaped.

    The feature that makes fractions stands on the fraction alone: on a whole measure many faces raise the whole number
    too, and `6 3/4` becomes a misprint. Taken out of the PDF it reads `6 3⁄4`.
    """
    # Nothing in a measure needs escaping, and no escape looks like a measure.
    return mark_safe(_FRACTION.sub(_set, escape(str(text))))


def _set(found: re.Match[str]) -> str:
    fraction = f'<span class="fr">{found["over"]}⁄{found["under"]}</span>'
    return f'<span class="m">{found["whole"]} {fraction}</span>' if found["whole"] else fraction
