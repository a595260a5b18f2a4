"""What is shown when a page cannot be: in words, with a way on, and with the id by which the log tells why."""

from __future__ import annotations

from django.core.exceptions import RequestDataTooBig
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.template import loader

__all__ = ["bad_request", "broken", "forbidden", "form_too_old", "not_found", "too_many_requests"]


def bad_request(request: HttpRequest, exception: Exception) -> HttpResponse:
    if isinstance(exception, RequestDataTooBig):
        return render(request, "413.html", status=413)
    return render(request, "400.html", status=400)


def forbidden(request: HttpRequest, exception: Exception) -> HttpResponse:
    return render(request, "403.html", {"sentence": str(exception)}, status=403)


def form_too_old(request: HttpRequest, reason: str = "") -> HttpResponse:
    sentence = "This form was open for too long, or your browser refuses cookies. Go back, reload the page, try again."
    return render(request, "403.html", {"sentence": sentence}, status=403)


def not_found(request: HttpRequest, exception: Exception) -> HttpResponse:
    return render(request, "404.html", status=404)


def too_many_requests(request: HttpRequest) -> HttpResponse:
    return render(request, "429.html", status=429)


def broken(request: HttpRequest) -> HttpResponse:
    """The page for a defect. It asks no database and no session: they may be what is broken."""
    page = loader.get_template("500.html").render({"request_id": request.META.get("KITPROOF_REQUEST", "")})
    return HttpResponse(page, status=500)
