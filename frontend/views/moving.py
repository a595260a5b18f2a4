"""Moves a thing within its list, for the pages that show such a list."""

from __future__ import annotations

from django.http import HttpRequest

from frontend.access import person_of
from frontend.requests import number_sent
from kits.planning.errors import DraftRefused, RevisionMoved
from kits.planning.queries import KitPage
from kits.planning.services import thing_move
from layouts.document import UnknownPlace

__all__ = ["thing_moved"]


def thing_moved(request: HttpRequest, page: KitPage, place: str, position: int) -> tuple[str, int]:
    """Move a thing to a position that counts from 1; return what kept it, as a sentence, and the status of that answer.

    Where nothing did, both say nothing: an empty sentence, and 200.
    """
    revision, by = number_sent(request, "revision"), person_of(request)
    try:
        thing_move(draft=page.draft, place=place, position=position, revision=revision, by=by)
    except (RevisionMoved, UnknownPlace):
        return "Somebody changed this kit meanwhile: this is its list now. Move it again, if it still must.", 409
    except DraftRefused as refused:
        sentence = "; ".join(error.message for error in refused.errors)
        return f"{sentence}.", 422
    return "", 200
