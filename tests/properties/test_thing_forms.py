"""The form of a thing, sent as it is shown, says what the document says: nothing is lost by looking at it."""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, given, settings

from frontend.kit_page.things.kinds import KINDS, KIT
from frontend.kit_page.things.page import thing_at
from frontend.kit_page.things.trying import tried
from frontend.words.places import Places
from layouts.document import canonical_bytes, read_kit
from tests.properties.test_load_build import EXAMPLES
from tests.properties.written_documents import written_documents


def things(kit):
    places = (*Places(kit).anchors(), KIT)
    return [place for place in places if place.rpartition("/")[2].partition(":")[0] in KINDS]


def forms_that_say_something_else(kit):
    found = []
    for place in things(kit):
        thing = thing_at(kit, place)
        form = thing.form(thing.texts)
        shown = {control.name: control.texts for control in form.controls}
        if canonical_bytes(tried(kit, place, thing.read(shown).thing)) != canonical_bytes(kit):
            found.append(place)
    return found


@settings(max_examples=150, suppress_health_check=[HealthCheck.too_slow])
@given(kit=written_documents())
def test_a_form_that_nobody_typed_in_changes_nothing(kit):
    assert forms_that_say_something_else(kit) == []


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.name)
def test_the_forms_of_the_examples_change_nothing(path):
    kit = read_kit(path.read_bytes())
    assert len(things(kit)) > 10
    assert forms_that_say_something_else(kit) == []
