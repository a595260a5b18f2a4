"""The addresses of all pages."""

from django.urls import URLPattern, URLResolver, include, path

urlpatterns: list[URLPattern | URLResolver] = [path("", include("frontend.urls"))]

handler400 = "frontend.views.errors.bad_request"
handler403 = "frontend.views.errors.forbidden"
handler404 = "frontend.views.errors.not_found"
handler500 = "frontend.views.errors.broken"
handler429 = "frontend.views.errors.too_many_requests"
