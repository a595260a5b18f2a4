"""Sheets made in the background from a proved document: asked for, called off, tried again, done, and found again."""

from __future__ import annotations

import hashlib
import json
import logging
from collections.abc import Collection
from datetime import datetime
from functools import partial
from typing import Any

from django.contrib.auth.base_user import AbstractBaseUser
from django.db import IntegrityError, transaction
from django.db.models import QuerySet
from django.utils import timezone

from kits.sheets.files import is_kept, keep
from kits.sheets.models import KEY, RenderRun
from kits.sheets.options import SheetOptions
from kits.sheets.rendering import RenderCancelled, Renderer
from kits.sheets.setting import TEMPLATE_NUMBER, SheetFile, sheet_files
from layouts import jobs
from layouts.document import read_kit
from layouts.errors import KitproofError
from layouts.jobs import Hold
from layouts.models import OPEN, JobState

__all__ = [
    "PICTURE_WIDTH",
    "OtherProof",
    "RenderNotClosed",
    "RenderOutdated",
    "render_cancel",
    "render_execute",
    "render_request",
    "render_retry",
    "render_sweep",
    "renders_of",
]

log = logging.getLogger("kitproof.sheets")

# Pixels: enough to see on a page what is on a sheet; to read it there is the PDF.
PICTURE_WIDTH = 600
# Requests for one key at the same moment: each time round, one of them gets through.
_TRIES = 20
_LAST_RUNS = 100


class OtherProof(KitproofError):
    """A proof says which document it proves; sheets are made from the two together."""

    code = "other-proof"


class RenderNotClosed(KitproofError):
    """Sheets that were neither called off nor failed need no second try."""

    code = "render-not-closed"


class RenderOutdated(KitproofError):
    """Sheets are not tried again once others of the same key are made or being made."""

    code = "render-outdated"


def render_request(
    *, document: str, proof: str, options: SheetOptions, by: AbstractBaseUser | None, now: datetime
) -> RenderRun:
    """Ask for the sheets of a document in canonical form with its proof; the same key gives the same run.

    Raises: OtherProof.
    """
    key = _key(document, proof, options)
    with transaction.atomic():
        for _ in range(_TRIES):
            known = RenderRun.objects.filter(**key, state__in=[*OPEN, JobState.DONE]).first()
            if known is not None and _is_good(known):
                return known
            if known is not None:
                # Its files are gone from the disk: restored from a backup of the database alone, say.
                RenderRun.objects.filter(pk=known.pk, state=JobState.DONE).update(state=JobState.REPLACED, files=[])
            run = RenderRun(
                **key,
                document=document,
                proof=proof,
                requested_by_id=None if by is None else by.pk,
                requested_at=now,
                first_requested_at=now,
                due_at=now,
            )
            run.full_clean(validate_constraints=False)
            try:
                with transaction.atomic():
                    run.save(force_insert=True)
            except IntegrityError as error:
                lost = error  # somebody else's request for this key came in between
                continue
            transaction.on_commit(partial(jobs.send, RenderRun, run.pk))
            return run
    raise lost


def render_cancel(*, run: int, by: AbstractBaseUser | None, now: datetime) -> bool:
    """Call sheets off; say whether they were still being made. It stops within seconds."""
    called_off = jobs.cancel(RenderRun, run, now=now)
    if called_off:
        log.info("render run %s is called off", run, extra={"run": run, "person": None if by is None else by.pk})
    return called_off


def render_retry(*, run: int, by: AbstractBaseUser | None, now: datetime) -> None:
    """Try sheets again that failed or were called off. Raises: RenderOutdated, RenderNotClosed."""
    with transaction.atomic():
        try:
            with transaction.atomic():
                again = jobs.retry(RenderRun, run, now=now)
        except IntegrityError as error:
            raise RenderOutdated("The same sheets are made already, or being made.") from error
        if not again:
            raise RenderNotClosed("These sheets neither failed nor were called off.")
        transaction.on_commit(partial(jobs.send, RenderRun, run))
    log.info("render run %s is tried again", run, extra={"run": run, "person": None if by is None else by.pk})


def render_execute(run: int) -> None:
    """Make sheets: what the task of their message calls, as often as the message comes."""
    jobs.execute(RenderRun, run, _make)


def render_sweep() -> int:
    """Revive the renderings whose worker or message was lost; return how many messages were sent."""
    return jobs.sweep(RenderRun, now=timezone.now())


def renders_of(document_hashes: Collection[str] | QuerySet[Any, str]) -> list[RenderRun]:
    """Return the newest run of each setting of these documents, newest first, without documents and proofs.

    It looks at the last runs only: what is older than so many is not looked for on a page.
    """
    runs = RenderRun.objects.filter(document_hash__in=document_hashes).exclude(state=JobState.REPLACED)
    newest: dict[tuple[Any, ...], RenderRun] = {}
    for run in runs.order_by("-pk").defer("document", "proof")[:_LAST_RUNS]:
        newest.setdefault(tuple(getattr(run, name) for name in KEY), run)
    return list(newest.values())


def _key(document: str, proof: str, options: SheetOptions) -> dict[str, Any]:
    proved = json.loads(proof)
    document_hash = hashlib.sha256(document.encode()).hexdigest()
    if proved["document"] != document_hash:
        raise OtherProof(f"The proof is of document {proved['document'][:8]}, not of {document_hash[:8]}.")
    return {
        "document_hash": document_hash,
        "engine": proved["engine"],
        "template_number": TEMPLATE_NUMBER,
        "page": options.page,
        "unit": options.unit,
        "print": options.print,
        "cut": options.cut,
    }


def _is_good(run: RenderRun) -> bool:
    """Whether a run is under way, or all that it made is still there."""
    return all(is_kept(name) for file in run.files for name in (file["pdf"], *file["pictures"]))


def _make(run: RenderRun, hold: Hold) -> dict[str, Any]:
    files = list(sheet_files(read_kit(run.document.encode()), json.loads(run.proof), run.options))
    made: list[dict[str, Any]] = []
    try:
        with Renderer(cancelled=lambda: hold.is_over) as renderer:
            for file in files:
                jobs.report(run, {"done": len(made), "files": len(files), "title": file.title})
                made.append(_made(renderer, file))
    except RenderCancelled:
        hold.check()
        raise
    hold.check()
    jobs.report(run, {"done": len(made), "files": len(files)})
    return {"files": made}


def _made(renderer: Renderer, file: SheetFile) -> dict[str, Any]:
    pdf = renderer.pdf(file.html, file.assets, title=file.title, true_size=file.true_size)
    pictures = renderer.pictures(pdf, PICTURE_WIDTH)
    return {
        "name": file.name,
        "title": file.title,
        "pdf": keep(pdf, "pdf"),
        "bytes": len(pdf),
        "pictures": [keep(picture, "png") for picture in pictures],
    }
