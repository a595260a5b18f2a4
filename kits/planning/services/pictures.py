"""Pictures of prints, put there and taken away by planners."""

from __future__ import annotations

import io
from collections.abc import Iterator
from contextlib import contextmanager

from django.db import transaction
from django.utils import timezone
from PIL import Image, ImageFile, ImageOps

from kits.members.models import Person
from kits.planning.errors import BadPicture
from kits.planning.models import Kit, PrintPicture
from kits.planning.permissions import ensure_may_edit
from kits.sheets.files import keep

__all__ = ["drawn_anew", "picture_remove", "picture_set"]

# As a file, and in pixels: a small file may unfold into a picture that no memory holds.
_LARGEST, _MOST_PIXELS = 8 * 1024 * 1024, 60_000_000
# On a screen a side is never shown larger.
_LONGEST_SIDE = 1600
_READABLE = ("PNG", "JPEG", "WEBP")


@transaction.atomic
def picture_set(*, kit: Kit, paper: str, side: str, content: bytes, by: Person) -> PrintPicture:
    """Keep a picture of one side of a print, in place of the one there is. It is drawn anew from its pixels, so that
    nothing else that the file holds (where it was taken, say) is kept.

    Raises: NotAllowed, BadPicture.
    """
    ensure_may_edit(by)
    drawn = drawn_anew(content)
    name = keep(drawn[0], "jpg")
    picture, _ = PrintPicture.objects.update_or_create(
        kit=kit,
        paper=paper,
        side=side,
        defaults={"file": name, "width": drawn[1], "height": drawn[2], "by": by, "at": timezone.now()},
    )
    return picture


@transaction.atomic
def picture_remove(*, kit: Kit, paper: str, side: str, by: Person) -> None:
    """Take a picture away; where there is none, nothing happens. Raises: NotAllowed."""
    ensure_may_edit(by)
    PrintPicture.objects.filter(kit=kit, paper=paper, side=side).delete()


@contextmanager
def _only_whole() -> Iterator[None]:
    """Read no half of a picture as one: the library that sets pages allows that for a whole process, once it is
    imported there."""
    before = ImageFile.LOAD_TRUNCATED_IMAGES
    ImageFile.LOAD_TRUNCATED_IMAGES = False
    try:
        yield
    finally:
        ImageFile.LOAD_TRUNCATED_IMAGES = before


def drawn_anew(content: bytes) -> tuple[bytes, int, int]:
    """Return a picture as JPEG, at most so large, with its width and height. Raises: BadPicture."""
    if not content:
        raise BadPicture("choose a picture first")
    if len(content) > _LARGEST:
        raise BadPicture(f"a picture is at most {_LARGEST // 1024 // 1024} MB: make this one smaller")
    try:
        with _only_whole(), Image.open(io.BytesIO(content), formats=_READABLE) as opened:
            if opened.width * opened.height > _MOST_PIXELS:
                raise BadPicture("this picture has more than 60 million dots: make it smaller")
            opened.draft("RGB", (_LONGEST_SIDE, _LONGEST_SIDE))
            upright = ImageOps.exif_transpose(opened)
            flat = Image.new("RGB", upright.size, "white")
            # What is see-through shows white paper.
            shown = upright.convert("RGBA")
            flat.paste(shown, mask=shown.getchannel("A"))
    except (OSError, SyntaxError, ValueError, Image.DecompressionBombError) as error:
        raise BadPicture("this is no picture that can be read: send a PNG, JPEG or WebP") from error
    flat.thumbnail((_LONGEST_SIDE, _LONGEST_SIDE))
    written = io.BytesIO()
    flat.save(written, "JPEG", quality=85)
    return written.getvalue(), flat.width, flat.height
