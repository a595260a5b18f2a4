"""One log line a request, and an id that ties everything written meanwhile to it."""

from __future__ import annotations

import logging
import time
import uuid
from collections.abc import Callable

from django.contrib.auth import SESSION_KEY
from django.http import HttpRequest, HttpResponse

from config.log_lines import bound

__all__ = ["RequestLines"]

_LINES = logging.getLogger("kitproof.requests")


class RequestLines:
    """Middleware, the outermost: names the request, answers with that name, and writes its line."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self._get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        # Never the visitor's own idea of an id: it would end in our log as they please.
        name = uuid.uuid4().hex[:16]
        request.META["KITPROOF_REQUEST"] = name
        began = time.perf_counter_ns()
        with bound(request=name):
            response = self._get_response(request)
            response.headers["X-Request-ID"] = name
            _LINES.info(
                "%s %s %s",
                request.method,
                path := _path(request),
                response.status_code,
                extra={
                    "method": request.method,
                    "path": path,
                    "status": response.status_code,
                    "ms": (time.perf_counter_ns() - began) // 1_000_000,
                    "person": _person(request),
                },
            )
        return response


def _path(request: HttpRequest) -> str:
    """The path without its query; where it holds a key that opens an account, the address's pattern instead."""
    match = request.resolver_match
    return f"/{match.route}" if match is not None and "key" in match.kwargs else request.path


def _person(request: HttpRequest) -> int | None:
    """The id of who asks, from the session that has been read anyway: a log line must cost no query."""
    session = getattr(request, "session", None)
    if session is None or not session.accessed:
        return None
    key = session.get(SESSION_KEY)
    return None if key is None else int(key)
