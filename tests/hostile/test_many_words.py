"""Documents with very much text in their steps: what the rules about words read and tell of it is bounded.

Time is not judged here, since machines differ. What took time that grows with the square of the length of a text, or
read all of it as closely as a step of a kit, would take minutes in each of these.
"""

from __future__ import annotations

from typing import Any

import pytest

from layouts.assembly import steps_of
from layouts.document import Kit, read_kit_tree
from layouts.proofing.rules import counts, words

# All but what the document needs beside its texts.
CHARACTERS = 2_500_000
STEPS = 20_000


def _kit(texts: list[str], **of_project: Any) -> Kit:
    pieces = [{"id": "A", "name": "long strip", "size": ["1", "1"]}]
    steps = [{"id": f"s{at}", "text": text} for at, text in enumerate(texts)]
    return read_kit_tree(
        {
            "format": "kitproof/1",
            "code": "c",
            "title": "",
            "unit": "in",
            "papers": [{"id": "p", "name": "Trellis", "size": ["9", "9"], "sheets": 1, "front": {"name": "Trellis"}}],
            "projects": [{"id": "p", "title": "", "pieces": pieces, "steps": steps, **of_project}],
        }
    )


@pytest.mark.parametrize("steps", [1, 14, STEPS])
@pytest.mark.parametrize(
    "words_again_and_again",
    [
        pytest.param("Cut Q. ", id="letters in sentences"),
        pytest.param("Q, ", id="letters in one list"),
        pytest.param("Q ", id="letters"),
        pytest.param("the Meadow paper ", id="prints"),
        pytest.param("two strips {A}, ", id="counts and references"),
        pytest.param("two {A} ", id="references"),
        pytest.param("{ ", id="lone braces"),
        pytest.param("and ", id="a word"),
        pytest.param(" ", id="blanks"),
    ],
)
def test_very_much_text_is_read_in_part_and_told_in_part(words_again_and_again, steps):
    each = CHARACTERS // steps
    text = (words_again_and_again * each)[:each].rpartition("{")[0] or (words_again_and_again * each)[:each]
    kit = _kit([text] * steps)
    planned = steps_of(kit)

    assert len(list(words.findings(kit, planned))) <= 200
    assert len(list(counts.findings(kit, planned))) <= 100


def test_very_many_things_of_one_name_are_not_counted_one_by_one():
    more = [{"id": f"a{at}", "name": "long strip", "size": ["1", "1"]} for at in range(15_000)]
    kit = _kit(["Two strips here. Glue two strips {A} on."] * 1_000, pieces=[*more, {**more[0], "id": "A"}])

    assert len(list(counts.findings(kit, steps_of(kit)))) == 100
