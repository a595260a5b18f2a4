"""Whatever a valid document says, the rules about tools, waits and templates answer, and what they say is published."""

from __future__ import annotations

import json

from hypothesis import given
from jsonschema import Draft202012Validator

from layouts.assembly import one_person, order_of, schedule_of, steps_of, waits_of
from layouts.document import Kit
from layouts.proofing.findings import Finding
from layouts.proofing.rules import fineness, templates, tools, waits, windows
from tests.properties.written_documents import written_documents

_FAMILIES = (fineness, templates, tools, waits, windows)
_RULES = {rule.name: rule for family in _FAMILIES for rule in family.RULES}


def _findings(kit: Kit) -> list[Finding]:
    steps = steps_of(kit)
    return [
        *fineness.findings(kit),
        *templates.findings(kit),
        *tools.findings(kit, steps, []),
        *waits.findings(kit, steps),
        *windows.findings(kit),
    ]


@given(written_documents())
def test_every_finding_is_of_a_rule_with_that_schema_and_begins_at_a_thing_of_the_kit(kit):
    ids = {project.id for project in kit.projects}
    found = _findings(kit)
    assert found == _findings(kit)
    for finding in found:
        rule = _RULES[finding.rule]
        Draft202012Validator({"type": "object", "properties": dict(rule.why)}).validate(
            json.loads(json.dumps(finding.why))
        )
        assert finding.weight == rule.weight
        assert finding.message.endswith((".", "well."))
        kind, _, name = finding.at[0].partition("/")[0].partition(":")
        assert kind != "project" or name in ids


@given(written_documents())
def test_a_schedule_is_there_unless_steps_go_round_in_a_circle(kit):
    steps = steps_of(kit)
    schedule, alone = schedule_of(kit, steps), one_person(kit, steps)
    assert (schedule is None) == (alone is None) == bool(steps.precedence.circles)
    told = waits_of(kit, steps, order_of(kit, steps))
    if schedule is None or alone is None:
        assert told == ()
        return
    assert sorted(alone.order) == sorted(step.place for step in schedule.steps)
    assert schedule.length_s <= alone.bound_s <= alone.length_s
    assert {wait.place for wait in told} == {step.place for step in steps if step.waiting_s}
