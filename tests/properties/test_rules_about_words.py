"""Whatever the text of a step says, the rules about its words answer, alike each time, in published schemas."""

from __future__ import annotations

import json
from itertools import chain
from typing import Any

from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from layouts.assembly import steps_of
from layouts.assembly.prose import Prose
from layouts.document import Kit, read_kit_tree
from layouts.proofing.findings import Finding
from layouts.proofing.rules import counts, words
from tests.properties.written_documents import written_documents

_RULES = {rule.name: rule for rule in (*words.RULES, *counts.RULES)}
# What the rules read, and what may stand in between.
_TOKENS = st.sampled_from(
    [
        *("Cut", "glue", "to", "onto", "and", "then", "the", "from", "both", "two", "five", "7", "pair of", "a", "of"),
        *("Q", "A", "B", "I", "{A}", "{B}", "{A.width}", "{nowhere}", "{foil/oval}", "{", "}}", "{{", "Q's", "(Q)"),
        *("strips", "long strips", "strip", "ovals", "Meadow", "Trellis", "paper", "print", "pad", "middle of", "mark"),
        *(".", ",", "!", "\n", " ", "\t", "e\u0301", "\u00a0", "“", "”", "-", "…", "999999999999999999999999"),
    ]
)
_TEXTS = st.lists(st.tuples(_TOKENS, st.sampled_from([" ", "", "  "])), max_size=30).map(
    lambda tokens: "".join(chain.from_iterable(tokens))
)


@st.composite
def _kits(draw: st.DrawFn) -> Kit:
    pieces: list[dict[str, Any]] = [
        {"id": "A", "name": "long strip", "size": ["4", "3"], "count": draw(st.integers(1, 4))},
        {"id": "B", "name": "mat", "size": ["4", "3"]},
    ]
    used = st.fixed_dictionaries({"piece": st.sampled_from("AB"), "count": st.integers(1, 5)})
    steps = [
        {
            "id": f"s{at}",
            "text": draw(_TEXTS),
            "use": draw(st.lists(used, max_size=2)),
            "cut": draw(st.sampled_from([[], ["A"]])),
        }
        for at in range(draw(st.integers(1, 3)))
    ]
    return read_kit_tree(
        {
            "format": "kitproof/1",
            "code": "c",
            "title": "t",
            "unit": "in",
            "papers": [{"id": "p", "name": "Trellis", "size": ["9", "9"], "sheets": 1, "front": {"name": "Trellis"}}],
            "embellishments": [
                {"id": "foil", "name": "foil", "elements": [{"id": "oval", "name": "oval", "count": 2}]}
            ],
            "projects": [{"id": "p", "title": "t", "pieces": pieces, "steps": steps, "makes": draw(st.integers(1, 2))}],
        }
    )


def _findings(kit: Kit) -> list[Finding]:
    steps = steps_of(kit)
    return [*words.findings(kit, steps), *counts.findings(kit, steps)]


@given(written_documents() | _kits())
def test_every_finding_is_of_a_rule_with_that_schema_and_begins_at_a_step(kit):
    places = {step.place: step.step.text for step in steps_of(kit)}
    found = _findings(kit)
    assert found == _findings(kit)
    for finding in found:
        rule = _RULES[finding.rule]
        schema = {"type": "object", "properties": dict(rule.why), "additionalProperties": False}
        Draft202012Validator({**schema, "required": list(rule.why)}).validate(json.loads(json.dumps(finding.why)))
        assert finding.at[0] in places
        assert finding.message.endswith((".", "plan.", "agree."))


@given(_kits())
def test_nothing_is_told_of_names_that_the_kit_has_and_of_counts_that_are_used(kit):
    for finding in _findings(kit):
        if finding.rule == "name-in-text-unknown":
            assert finding.why["name"] not in ("A", "B", "I", "Trellis")
        else:
            assert finding.why["number"] != finding.why["planned"]


@given(_TEXTS)
def test_what_is_read_of_a_text_is_where_it_says(text):
    prose = Prose.read(text)
    for at, reference in prose.references.items():
        assert text[reference.start : reference.end] == f"{{{reference.text}}}"
        assert prose.text[at] in "\0\1"
    for counted in prose.counts():
        start, end = prose.sentence(counted.at)
        assert 0 <= start <= counted.at <= end <= len(prose.text)
        assert prose.text.startswith(counted.words[:1], counted.words_at) or not counted.words
        assert counted.number >= 2
