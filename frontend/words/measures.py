"""How measures are set: the whole number as it is, then its fraction as a fraction."""

from __future__ import annotations

import re

from django.utils.html import escape
from django.utils.safestring import SafeString, mark_safe

__all__ = ["set_measures"]

# Fractions of an inch, not dates and not numbers of a form: the denominators that a length may have.
_MEASURE = re.compile(r"(?<![\w/⁄.,])(?:(?P<whole>\d{1,5}) )?(?P<over>\d{1,3})/(?P<under>2|4|8|16|32|64)(?![\w/⁄])")


def set_measures(text: object) -> SafeString:
    """Return text as HTML in which every fraction is set as one; all else is escaped.

    The feature that makes fractions stands on the fraction alone: on a whole measure it raises the whole number too.
    Copied out of the page a measure reads `6 3⁄4`.

    >>> print(set_measures("6 3/4 × 7 <b>"))
    <span class="m">6 <span class="fr">3⁄4</span></span> × 7 &lt;b&gt;
    """
    # Nothing in a measure needs escaping, and no escape looks like a measure.
    return mark_safe(_MEASURE.sub(_set, escape(str(text))))


def _set(found: re.Match[str]) -> str:
    fraction = f'<span class="fr">{found["over"]}⁄{found["under"]}</span>'
    return f'<span class="m">{found["whole"]} {fraction}</span>' if found["whole"] else fraction
