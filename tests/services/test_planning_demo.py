"""The demo: example kits and an account for every role, on one machine alone, on each database."""

from __future__ import annotations

import stat

import pytest
from django.contrib.auth import authenticate

from kits.members.models import Person, Role
from kits.members.queries import roles_of
from kits.members.services import role_withdraw
from kits.planning.demo import DemoRefused, demo_load
from kits.planning.documents import build_bytes
from kits.planning.models import Draft, Kit
from kits.planning.services import kit_replace, piece_change
from layouts.document import canonical_bytes, read_kit
from layouts.models import CheckRun
from tests.services.planning_cast import box_bytes

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def home(settings, tmp_path):
    settings.DEMO = True
    settings.HOME = tmp_path
    # The usual one takes long on purpose.
    settings.PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]
    return tmp_path


def test_somebody_of_every_role_can_sign_in():
    sign_in = demo_load()
    assert set(sign_in.people) == set(Role.values)
    for role, email in sign_in.people.items():
        person = authenticate(username=email, password=sign_in.password)
        assert isinstance(person, Person)
        assert roles_of(person) == {role}
        assert person.name


def test_the_examples_are_loaded_and_checked():
    demo_load()
    assert sorted(Kit.objects.values_list("code", flat=True)) == ["2027-04", "2027-07", "2027-11"]
    for draft in Draft.objects.all():
        assert CheckRun.objects.get(subject=draft.subject).document.encode() == build_bytes(draft)


def test_a_second_start_changes_nothing():
    sign_in = demo_load()
    draft = Draft.objects.select_related("kit").get(kit__code="2027-11")
    planner = Person.objects.get(email=sign_in.people["planner"])
    kit_replace(kit=draft.kit, document=box_bytes(code="2027-11"), revision=1, by=planner)
    before = Person.objects.order_by("pk").values_list("email", "password")
    known = list(before)
    assert demo_load() == sign_in
    assert list(before.all()) == known
    assert build_bytes(draft) == canonical_bytes(read_kit(box_bytes(code="2027-11")))
    assert Draft.objects.count() == 3


def test_the_password_is_made_by_chance_and_kept_for_its_owner(home):
    sign_in = demo_load()
    kept = home / "demo-password"
    assert kept.read_text() == sign_in.password
    assert stat.S_IMODE(kept.stat().st_mode) == 0o600
    kept.unlink()
    again = demo_load()
    assert again.password != sign_in.password
    # Whoever knew the old one is out, everybody else is in.
    assert authenticate(username=again.people["member"], password=sign_in.password) is None
    assert authenticate(username=again.people["member"], password=again.password) is not None


def test_a_password_that_was_never_written_to_the_end_is_made_anew(home):
    (home / "demo-password").write_text("")
    assert len(demo_load().password) == 16


def test_every_start_gives_the_people_their_roles():
    sign_in = demo_load()
    planner = Person.objects.get(email=sign_in.people["planner"])
    role_withdraw(person=planner, role=Role.PLANNER, by=None)
    demo_load()
    assert roles_of(planner) == {"planner"}


def test_there_is_no_demo_where_others_are_served(settings, home):
    settings.DEMO = False
    with pytest.raises(DemoRefused):
        demo_load()
    assert not Person.objects.exists()
    assert not Kit.objects.exists()
    assert list(home.iterdir()) == []


def test_the_planner_of_the_demo_can_plan():
    sign_in = demo_load()
    planner = Person.objects.get(email=sign_in.people["planner"])
    draft = Draft.objects.get(kit__code="2027-11")
    project = read_kit(build_bytes(draft)).projects[0]
    place = f"project:{project.id}/piece:{project.pieces[0].id}"
    assert piece_change(draft=draft, place=place, field="count", value=7, revision=1, by=planner).revision == 2
