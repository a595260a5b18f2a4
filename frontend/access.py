"""Who may see which page. Strangers sign in first; a page without its word here is open to nobody.

For a member, what is not released does not exist: they are told 404, never 403.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import Concatenate

from django.contrib.auth.middleware import LoginRequiredMiddleware
from django.contrib.auth.views import redirect_to_login
from django.core.exceptions import PermissionDenied
from django.http import Http404, HttpRequest, HttpResponse
from django.http.response import HttpResponseBase, HttpResponseRedirectBase
from django.shortcuts import resolve_url
from django.utils.cache import add_never_cache_headers
from django_htmx.http import HttpResponseClientRedirect
from django_htmx.middleware import HtmxDetails

from kits.members.models import Person, Role
from kits.members.queries import roles_of

__all__ = [
    "SignInRequired",
    "for_checkers",
    "for_editors",
    "for_everybody",
    "for_planners",
    "for_team",
    "person_of",
    "roles_in",
]

type View[**P] = Callable[Concatenate[HttpRequest, P], HttpResponse]


class SignInRequired(LoginRequiredMiddleware):
    """Sends strangers to sign in, and brings them back to where they wanted to go."""

    def handle_no_permission(  # type: ignore[override]  # a redirect made by the browser's script is one as well
        self, request: HttpRequest, view_func: Callable[..., HttpResponseBase]
    ) -> HttpResponseRedirectBase:
        asked = HtmxDetails(request)
        if not asked:
            return super().handle_no_permission(request, view_func)
        # A part of a page was asked for. The sign-in page would be set into its place: the whole page must go there,
        # and come back to itself, not to its part.
        to_sign_in = redirect_to_login(asked.current_url_abs_path or "/", resolve_url(self.get_login_url(view_func)))
        return HttpResponseClientRedirect(to_sign_in.url)


def person_of(request: HttpRequest) -> Person:
    """The person who asks; only for pages that need signing in."""
    person = request.user
    if not isinstance(person, Person):
        raise PermissionDenied
    return person


def roles_in(request: HttpRequest) -> frozenset[Role]:
    """The roles of who asks, read once a request."""
    known: frozenset[Role] | None = request.META.get("KITPROOF_ROLES")
    if known is None:
        known = request.META["KITPROOF_ROLES"] = roles_of(person_of(request))
    return known


def for_everybody[**P](view: View[P]) -> View[P]:
    """A page for whoever has signed in."""

    @wraps(view)
    def opened(request: HttpRequest, /, *args: P.args, **kwargs: P.kwargs) -> HttpResponse:
        return _kept_nowhere(view(request, *args, **kwargs))

    return opened


def for_team[**P](view: View[P]) -> View[P]:
    """A page that all of the team may read."""

    @wraps(view)
    def opened(request: HttpRequest, /, *args: P.args, **kwargs: P.kwargs) -> HttpResponse:
        if not roles_in(request) - {Role.MEMBER}:
            raise Http404
        return _kept_nowhere(view(request, *args, **kwargs))

    return opened


def for_checkers[**P](view: View[P]) -> View[P]:
    """A page that asks for checks, and calls them off."""
    return _for(frozenset({Role.PLANNER, Role.EDITOR}), "Only planners and editors ask for checks.", view)


def for_planners[**P](view: View[P]) -> View[P]:
    """A page that changes drafts."""
    return _for(frozenset({Role.PLANNER}), "Only planners change kits. You can read this one.", view)


def for_editors[**P](view: View[P]) -> View[P]:
    """A page that judges what is found in a kit."""
    return _for(frozenset({Role.EDITOR}), "Only editors accept findings. You can read them.", view)


def _for[**P](roles: frozenset[Role], sentence: str, view: View[P]) -> View[P]:
    @wraps(view)
    def opened(request: HttpRequest, /, *args: P.args, **kwargs: P.kwargs) -> HttpResponse:
        if not roles & roles_in(request):
            raise PermissionDenied(sentence)
        return view(request, *args, **kwargs)

    return for_team(opened)


def _kept_nowhere(response: HttpResponse) -> HttpResponse:
    """No browser or proxy keeps a draft: after signing out on a shared computer, Back must not show it."""
    add_never_cache_headers(response)
    return response
