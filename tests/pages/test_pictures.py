"""Pictures of prints: drawn anew from their dots, turned as the print lies, shown to the team alone."""

from __future__ import annotations

import io

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from PIL import Image, ImageFile

from kits.planning.errors import BadPicture, NotAllowed
from kits.planning.models import PrintPicture
from kits.planning.services import id_rename, picture_set
from tests.pages.reading import Page

pytestmark = pytest.mark.django_db

KELP = "/kits/2027-05/prints/kelp/front/picture/"
AT = "/kits/2027-05/at/paper:kelp/"


@pytest.fixture(autouse=True)
def _media(settings, tmp_path):
    settings.MEDIA_ROOT = tmp_path


def picture(size=(40, 20), form="PNG", **more) -> bytes:
    made = io.BytesIO()
    Image.new("RGB", size, (120, 60, 30)).save(made, form, **more)
    return made.getvalue()


def sent(planner, content: bytes, name="kelp.png", path=KELP) -> str:
    file = SimpleUploadedFile(name, content, "image/png")
    return str(planner.post(path, {"file": file}, follow=True).content.decode())


@pytest.mark.parametrize("form", ["PNG", "JPEG", "WEBP"])
def test_a_picture_is_shown_as_the_print_lies(draft, planner, form):
    sent(planner, picture(form=form))
    answer = planner.get(KELP)
    assert (answer.headers["Content-Type"], answer.headers["X-Content-Type-Options"]) == ("image/jpeg", "nosniff")
    with Image.open(io.BytesIO(answer.content)) as shown:
        assert shown.size == (40, 20)
        red, green, blue = shown.convert("RGB").resize((1, 1)).tobytes()
    # JPEG comes near its colours, not onto them.
    assert max(abs(red - 120), abs(green - 60), abs(blue - 30)) < 8
    page = Page(planner.get(AT).content.decode())
    drawn = page.one("section", id="picture").one("image")
    assert drawn.attributes["href"].startswith(KELP)


@pytest.mark.parametrize(("reads", "turn"), [("up", "0"), ("right", "90"), ("down", "180"), ("left", "270")])
def test_the_direction_of_a_print_is_shown_by_turning_its_picture(draft, planner, reads, turn):
    sent(planner, picture())
    page = Page(planner.get(AT).content.decode())
    values = page.one("form", id="facts").values() | {"front/reads": reads}
    planner.post(AT, values)
    turned = Page(planner.get(AT).content.decode()).one("section", id="picture").all("g")[0]
    assert turned.attributes["transform"].endswith(f"rotate({turn})")


def test_what_else_a_file_holds_is_not_kept(draft, planner):
    exif = Image.Exif()
    exif[0x010E] = "taken at home"
    exif[0x0112] = 6  # lies on its side: shown upright, it is higher than wide
    sent(planner, picture(form="JPEG", exif=exif))
    answer = planner.get(KELP)
    assert b"taken at home" not in answer.content
    with Image.open(io.BytesIO(answer.content)) as shown:
        assert (shown.size, dict(shown.getexif())) == ((20, 40), {})


@pytest.mark.parametrize(
    ("content", "why"),
    [
        pytest.param(b"", "choose a picture first", id="nothing"),
        pytest.param(b"<svg><script/></svg>", "no picture that can be read", id="markup"),
        pytest.param(picture()[:60], "no picture that can be read", id="half a picture"),
        pytest.param(b"\x89PNG\r\n\x1a\n" + bytes(8 * 1024 * 1024), "at most 8 MB", id="too large a file"),
        pytest.param(picture((9000, 9000), compress_level=1), "60 million dots", id="too many dots"),
    ],
)  # fmt: skip
def test_what_is_no_picture_is_refused_with_a_sentence(draft, planner, monkeypatch, content, why):
    # As where the library that sets the pages has been imported.
    monkeypatch.setattr(ImageFile, "LOAD_TRUNCATED_IMAGES", True)
    assert why in sent(planner, content)
    assert PrintPicture.objects.count() == 0


def test_a_picture_goes_with_its_print_when_that_gets_another_id_and_can_be_taken_away(draft, cast, planner):
    sent(planner, picture())
    id_rename(draft=draft, place="paper:kelp", to="weed", revision=1, by=cast["planner"])
    assert planner.get("/kits/2027-05/prints/weed/front/picture/").status_code == 200
    planner.post("/kits/2027-05/prints/weed/front/picture/", {"do": "remove"})
    assert planner.get("/kits/2027-05/prints/weed/front/picture/").status_code == 404


def test_only_the_team_sees_pictures_and_only_planners_put_them_there(draft, cast, planner, signed_in):
    sent(planner, picture())
    seen = {role: signed_in(role).get(KELP).status_code for role in ("editor", "stock", "member", "stranger")}
    assert seen == {"editor": 200, "stock": 200, "member": 404, "stranger": 302}
    with pytest.raises(NotAllowed):
        picture_set(kit=draft.kit, paper="kelp", side="front", content=picture(), by=cast["editor"])
    with pytest.raises(BadPicture):
        picture_set(kit=draft.kit, paper="kelp", side="front", content=b"", by=cast["planner"])
