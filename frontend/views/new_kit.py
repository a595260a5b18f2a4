"""A new kit, in four ways: a blank month, from an earlier kit, from a document, from a pasted cutting list."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from django.contrib import messages
from django.core.exceptions import BadRequest
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_http_methods

from frontend.access import for_planners, person_of
from frontend.requests import document_sent
from frontend.views.documents import Sent
from kits.planning.copying import copied
from kits.planning.errors import CodeKnown
from kits.planning.letters import free_letters
from kits.planning.models import Draft
from kits.planning.months import Month, listed_prints, next_month, with_pieces
from kits.planning.pasted import PastedPiece, prints_in, read_pasted
from kits.planning.queries import document_of
from kits.planning.services import kit_create
from layouts.document import Kit, Refused, read_kit_tree

__all__ = ["kit_new"]

# What is chosen of an earlier kit's box, in the words of the page.
LISTS = {
    "papers": "prints and pads",
    "embellishments": "embellishment sheets",
    "blanks": "blanks",
    "supplies": "supplies",
    "tools": "tools",
}
_MONTH = ("code", "title", "unit", "width", "height", "prints", "sheets", "project")
_PASTED = ("code", "title", "unit", "width", "height", "prints", "sheets", "project", "pasted")
_STARTS = {"unit": "in", "sheets": "2", "project": "First project"}


@dataclass(frozen=True, slots=True)
class Way:
    """The form of one way: what is typed in it, and what is wrong, by its controls; `""` is the form as a whole."""

    typed: Mapping[str, str]
    wrong: Mapping[str, str] = field(default_factory=dict)
    is_open: bool = False


@dataclass(frozen=True, slots=True)
class _Holds:
    """An earlier kit as its new one is chosen from it."""

    code: str
    title: str
    lists: tuple[tuple[str, str, int], ...]
    projects: tuple[tuple[str, str, int], ...]
    ticked: frozenset[str]


@require_http_methods(["GET", "HEAD", "POST"])
@for_planners
def kit_new(request: HttpRequest) -> HttpResponse:
    """Start a kit. One whose code is known is never begun twice; a document may take the place of its draft."""
    if request.method != "POST":
        return _shown(request, "month" if "from" not in request.GET else "copy")
    way = request.POST.get("way", "document")
    if way not in _WAYS:
        raise BadRequest("no kit begins this way")
    return _WAYS[way](request)


def _month(request: HttpRequest) -> HttpResponse:
    typed = _typed(request, _MONTH)
    wrong = _missing(typed)
    if not wrong:
        try:
            return _begun(request, _month_of(typed).document())
        except Refused as refused:
            wrong = _wrong(refused)
        except CodeKnown as known:
            wrong = {"code": _known(known)}
    return _shown(request, "month", ways={"month": Way(typed, wrong, True)}, status=422)


def _copy(request: HttpRequest) -> HttpResponse:
    typed = _typed(request, ("code", "title", "from"))
    wrong = {} if typed["title"] else {"title": "A kit needs a title."}
    source = _draft(typed["from"])
    if source is None:
        raise Http404
    lists = [name for name in LISTS if request.POST.get(f"list.{name}")]
    kit = document_of(source)[1]
    projects = [one.id for one in kit.projects if request.POST.get(f"project.{one.id}")]
    if not wrong:
        document = copied(kit, code=typed["code"], title=typed["title"], lists=lists, projects=projects)
        try:
            return _begun(request, document)
        except Refused as refused:
            wrong = _wrong(refused)
        except CodeKnown as known:
            wrong = {"code": _known(known)}
    ticked = frozenset([*(f"list.{name}" for name in lists), *(f"project.{one}" for one in projects)])
    return _shown(request, "copy", ways={"copy": Way(typed, wrong, True)}, source=kit, ticked=ticked, status=422)


def _document(request: HttpRequest) -> HttpResponse:
    document = document_sent(request)
    if not document:
        sent = Sent(problem="Choose a file, or paste the document.")
    else:
        try:
            draft = kit_create(document=document, by=person_of(request))
        except Refused as refused:
            sent = Sent.refused(document, errors=refused.errors)
        except CodeKnown as known:
            context = {"room": "kits", "known": known, "text": document.decode()}
            return render(request, "frontend/kit_known.html", context, status=409)
        else:
            messages.success(request, "The kit is here, and is being checked.")
            return redirect("kit", draft.kit.code)
    return _shown(request, "document", sent=sent, status=422)


def _list(request: HttpRequest) -> HttpResponse:
    """Show what was read of a list, or make the kit: only when every line has been read, or was left out knowingly."""
    typed = _typed(request, _PASTED)
    if not typed["prints"]:
        typed["prints"] = "\n".join(prints_in(typed["pasted"]))
    wrong = _missing(typed)
    if not typed["pasted"].strip():
        wrong["pasted"] = "Paste a list, one piece a line."
    lines: tuple[PastedPiece, ...] = ()
    if not wrong:
        document = _month_of(typed).document()
        try:
            kit = read_kit_tree(document)
            lines = read_pasted(typed["pasted"], kit, kit.projects[0], free_letters(kit))
            good = [line for line in lines if not line.wrong]
            if not good:
                wrong["pasted"] = "No line of it could be read as a piece: what is missing is said below."
            elif request.POST.get("do") == "make" and (len(good) == len(lines) or request.POST.get("without")):
                return _begun(request, with_pieces(document, good))
            elif request.POST.get("do") == "make":
                wrong["without"] = "Mend the lines that were not read, or say that they are left out."
        except Refused as refused:
            wrong = _wrong(refused)
        except CodeKnown as known:
            wrong = {"code": _known(known)}
    unread = sum(1 for line in lines if line.wrong)
    read: dict[str, Any] = {"read": lines, "unread": unread, "good": len(lines) - unread}
    return _shown(request, "list", ways={"list": Way(typed, wrong, True)}, status=422 if wrong else 200, **read)


_WAYS = {"month": _month, "copy": _copy, "document": _document, "list": _list}


def _begun(request: HttpRequest, document: Mapping[str, Any]) -> HttpResponse:
    """Make a kit and go to it. Raises: Refused, CodeKnown."""
    draft = kit_create(document=json.dumps(document).encode(), by=person_of(request))
    messages.success(request, "The kit is here, and is being checked.")
    return redirect("kit", draft.kit.code)


def _typed(request: HttpRequest, names: tuple[str, ...]) -> dict[str, str]:
    # Browsers send line ends as CR LF.
    return {name: request.POST.get(name, "").replace("\r\n", "\n").strip() for name in names}


def _month_of(typed: Mapping[str, str]) -> Month:
    sheets = typed["sheets"]
    return Month(
        code=typed["code"],
        title=typed["title"],
        unit=typed["unit"],
        width=typed["width"],
        height=typed["height"],
        prints=listed_prints(typed["prints"]),
        sheets=int(sheets) if sheets.isascii() and sheets.isdigit() and len(sheets) < 9 else sheets,
        project=typed["project"],
    )


def _missing(typed: Mapping[str, str]) -> dict[str, str]:
    """What a kit can do without and a person would miss at once: a document may have an empty title."""
    sentences = {
        "title": "A kit needs a title.",
        "project": "The first thing that is made needs a name.",
        "prints": "Name the prints of the pad, one a line.",
    }
    return {name: sentence for name, sentence in sentences.items() if not typed[name]}


def _wrong(refused: Refused) -> dict[str, str]:
    """What is wrong, by the control that it was typed into."""
    controls = {"/pads/0/size/0": "width", "/pads/0/size/1": "height", "/code": "code", "/title": "title"}
    wrong: dict[str, str] = {}
    for error in refused.errors:
        name = controls.get(error.pointer, "")
        if error.pointer.startswith("/papers/"):
            name = "sheets" if error.pointer.endswith("/sheets") else "prints"
        if error.pointer.startswith("/projects/"):
            name = "project" if "/pieces/" not in error.pointer else "pasted"
        wrong.setdefault(name, f"{error.message[:1].upper()}{error.message[1:]}.")
    return wrong


def _known(known: CodeKnown) -> str:
    return f"There is already a kit {known.kit}, “{known.title}”: choose another code."


def _draft(code: str) -> Draft | None:
    return Draft.objects.select_related("kit").filter(kit__code__iexact=code, is_main=True).first()


def _holds(kit: Kit, ticked: frozenset[str] | None) -> _Holds:
    lists = tuple((name, words, len(getattr(kit, name))) for name, words in LISTS.items())
    projects = tuple((one.id, one.title, len(one.pieces) + len(one.forms)) for one in kit.projects)
    # A month mostly has the tools of the last one, and prints of its own.
    chosen = frozenset({"list.tools", "list.blanks", "list.supplies"}) if ticked is None else ticked
    return _Holds(kit.code, kit.title, lists, projects, chosen)


def _shown(
    request: HttpRequest,
    open_: str,
    *,
    ways: Mapping[str, Way] | None = None,
    source: Kit | None = None,
    ticked: frozenset[str] | None = None,
    sent: Sent | None = None,
    status: int = 200,
    **more: Any,
) -> HttpResponse:
    drafts = list(Draft.objects.filter(is_main=True).select_related("kit").order_by("-kit__pk"))
    code = next_month((draft.kit.code for draft in drafts), timezone.localdate())
    if source is None and drafts:
        asked = request.GET.get("from", "")
        source = document_of(next((one for one in drafts if one.kit.code == asked), drafts[0]))[1]
    begun = {"code": code, **_STARTS}
    filled = {name: Way(begun, is_open=name == open_) for name in ("month", "copy", "list")} | dict(ways or {})
    context = {
        "room": "kits",
        "ways": filled,
        "open": open_,
        "others": [(draft.kit.code, draft.title) for draft in drafts],
        "source": None if source is None else _holds(source, ticked),
        "sent": sent or Sent(),
        **more,
    }
    return render(request, "frontend/kit_new.html", context, status=status)
