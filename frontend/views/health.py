"""Whether this Kitproof is alive: for machines that watch it."""

from __future__ import annotations

from django.contrib.auth.decorators import login_not_required
from django.db import DatabaseError, connection
from django.http import HttpRequest, JsonResponse
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_safe

__all__ = ["health"]


@login_not_required
@never_cache
@require_safe
def health(request: HttpRequest) -> JsonResponse:
    """Answer 200 if the database answers, else 503."""
    try:
        with connection.cursor() as cursor:
            cursor.execute("SELECT 1")
    except DatabaseError:
        return JsonResponse({"status": "down", "database": "does not answer"}, status=503)
    return JsonResponse({"status": "up", "database": "answers"})
