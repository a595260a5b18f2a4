"""The addresses of the pages."""

from __future__ import annotations

from allauth.account import views as account
from django.urls import URLPattern, URLResolver, path, re_path

from frontend.views.accepting import accept, recall
from frontend.views.bring import bring
from frontend.views.builds import build_photo, build_photos, builds
from frontend.views.checks import check_again, check_cancel_view, undo
from frontend.views.cuts import kit_cuts
from frontend.views.documents import kit_document, kit_proof, kit_replace_view
from frontend.views.grid import project_pieces
from frontend.views.health import health
from frontend.views.history import history, history_restore, redo
from frontend.views.home import home
from frontend.views.kit import kit, kit_check
from frontend.views.kits import kits
from frontend.views.lengths import length
from frontend.views.mends import mend
from frontend.views.months import calendar_feed, calendar_off, calendar_on, kit_dates, months
from frontend.views.new_kit import kit_new
from frontend.views.parts import part, part_forget_view, part_keep_view, parts
from frontend.views.pictures import print_picture
from frontend.views.pieces import piece_change_view
from frontend.views.placements import project_placements
from frontend.views.reviews import comment, comments, handover
from frontend.views.sheets import sheet_pdf, sheet_picture, sheets, sheets_again, sheets_cancel, sheets_make
from frontend.views.steps import project_steps
from frontend.views.things import thing, thing_check, thing_new

urlpatterns: list[URLPattern | URLResolver] = [
    path("", home, name="home"),
    path("health", health, name="health"),
    path("months/", months, name="months"),
    path("months/calendar/", calendar_on, name="calendar-on"),
    path("months/calendar/close/", calendar_off, name="calendar-off"),
    # A secret called “key”: it does not get into the log.
    path("calendar/<str:key>.ics", calendar_feed, name="calendar-feed"),
    path("kits/", kits, name="kits"),
    # Not below kits/: a kit may have the code “new”.
    path("new-kit/", kit_new, name="kit-new"),
    path("kits/<slug:code>/", kit, name="kit"),
    path("kits/<slug:code>/dates/", kit_dates, name="kit-dates"),
    path("kits/<slug:code>/comments/", comments, name="kit-comments"),
    path("kits/<slug:code>/comments/<int:number>/", comment, name="comment"),
    path("kits/<slug:code>/handover/", handover, name="kit-handover"),
    path("kits/<slug:code>/test-builds/", builds, name="kit-builds"),
    path("kits/<slug:code>/test-builds/<int:number>/photos/", build_photos, name="build-photos"),
    path("kits/<slug:code>/test-builds/<int:number>/<int:photo>.jpg", build_photo, name="build-photo"),
    path("kits/<slug:code>/check/", kit_check, name="kit-check"),
    path("kits/<slug:code>/cuts/<slug:paper>/", kit_cuts, name="kit-cuts"),
    path("kits/<slug:code>/check/again/", check_again, name="check-again"),
    path("kits/<slug:code>/check/stop/", check_cancel_view, name="check-cancel"),
    path("kits/<slug:code>/pieces/", piece_change_view, name="piece-change"),
    path("kits/<slug:code>/projects/<slug:project>/pieces/", project_pieces, name="project-pieces"),
    path("kits/<slug:code>/prints/<slug:paper>/<slug:side>/picture/", print_picture, name="print-picture"),
    path("kits/<slug:code>/projects/<slug:project>/placements/", project_placements, name="project-placements"),
    path("kits/<slug:code>/projects/<slug:project>/steps/", project_steps, name="project-steps"),
    path("kits/<slug:code>/length/", length, name="length"),
    path("kits/<slug:code>/at/<path:place>/check/", thing_check, name="thing-check"),
    path("kits/<slug:code>/at/<path:place>/", thing, name="thing"),
    path("kits/<slug:code>/add/<slug:kind>/", thing_new, name="thing-new"),
    path("kits/<slug:code>/projects/<slug:project>/add/<slug:kind>/", thing_new, name="thing-new-in"),
    path("kits/<slug:code>/bring/", bring, name="kit-bring"),
    path("kits/<slug:code>/keep/<path:place>/", part_keep_view, name="part-keep"),
    path("parts/", parts, name="parts"),
    path("parts/<int:number>/", part, name="part"),
    path("parts/<int:number>/forget/", part_forget_view, name="part-forget"),
    path("kits/<slug:code>/mend/", mend, name="kit-mend"),
    path("kits/<slug:code>/accept/", accept, name="finding-accept"),
    path("kits/<slug:code>/recall/", recall, name="finding-recall"),
    path("kits/<slug:code>/undo/", undo, name="kit-undo"),
    path("kits/<slug:code>/redo/", redo, name="kit-redo"),
    path("kits/<slug:code>/history/", history, name="kit-history"),
    path("kits/<slug:code>/history/restore/", history_restore, name="history-restore"),
    path("kits/<slug:code>/replace/", kit_replace_view, name="kit-replace"),
    path("kits/<slug:code>/sheets/", sheets, name="sheets"),
    path("kits/<slug:code>/sheets/make/", sheets_make, name="sheets-make"),
    path("kits/<slug:code>/sheets/<int:run>/again/", sheets_again, name="sheets-again"),
    path("kits/<slug:code>/sheets/<int:run>/stop/", sheets_cancel, name="sheets-cancel"),
    path("kits/<slug:code>/sheets/<int:run>/<int:number>.pdf", sheet_pdf, name="sheet-pdf"),
    path("kits/<slug:code>/sheets/<int:run>/<int:number>/<int:page>.png", sheet_picture, name="sheet-picture"),
    path("kits/<slug:code>/document.json", kit_document, name="kit-document"),
    path("kits/<slug:code>/proof.json", kit_proof, name="kit-proof"),
    # The names are allauth's: it looks them up itself.
    path("sign-in/", account.login, name="account_login"),
    path("sign-in/inactive/", account.account_inactive, name="account_inactive"),
    path("sign-in/password/", account.password_reset, name="account_reset_password"),
    path("sign-in/password/sent/", account.password_reset_done, name="account_reset_password_done"),
    path("sign-in/password/set/", account.password_reset_from_key_done, name="account_reset_password_from_key_done"),
    re_path(
        r"^sign-in/password/(?P<uidb36>[0-9A-Za-z]+)-(?P<key>.+)/$",
        account.password_reset_from_key,
        name="account_reset_password_from_key",
    ),
    path("sign-out/", account.logout, name="account_logout"),
]
