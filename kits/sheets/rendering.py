"""Set pages as PDF and show PDF as pictures, in a child process that may fail without harm."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path
from types import TracebackType
from typing import Any, Self

from kits.sheets.render import wire
from layouts.children.watch import Child, Ends, Work
from layouts.errors import KitproofError

__all__ = [
    "RenderCancelled",
    "RenderDied",
    "RenderRefused",
    "RenderTooBig",
    "RenderTooSlow",
    "Renderer",
    "page_pictures",
    "render_pdf",
]

SECONDS = 60
MEMORY = 1 << 30
FONTS = Path(__file__).parent / "fonts" / "fonts.conf"


class RenderRefused(KitproofError):
    """The page asks for what it may not have, or cannot be set; the sentence says what."""

    code = "render-refused"


class RenderDied(KitproofError):
    """The renderer's process ended without an answer (exit 70)."""

    code = "render-died"


class RenderTooSlow(KitproofError):
    """The renderer was still at work when the wall clock ran out; its process was killed (exit 70)."""

    code = "render-too-slow"


class RenderTooBig(KitproofError):
    """The renderer's process needed more memory than it may have (exit 70)."""

    code = "render-too-big"


class RenderCancelled(KitproofError):
    """Somebody no longer wants the pages; the renderer's process was killed."""

    code = "render-cancelled"


class Renderer:
    """One child process that sets one page after another, for as long as the `with` block lasts.

    It starts with the first page. `seconds` of wall clock are for each page; `memory` is in bytes; `cancelled` is asked
    often and must be quick. The thread that asks for the first page must outlive the block.
    Each method raises RenderRefused, RenderDied, RenderTooSlow, RenderTooBig or RenderCancelled; after all but the
    first the child is gone, and the next page would start a new one.
    """

    def __init__(
        self, seconds: float = SECONDS, memory: int = MEMORY, cancelled: Callable[[], bool] = lambda: False
    ) -> None:
        self._seconds, self._cancelled = seconds, cancelled
        self._work = Work(
            module="kits.sheets.render",
            name="the renderer",
            end=wire.end,
            ends=Ends(died=RenderDied, too_slow=RenderTooSlow, too_big=RenderTooBig, cancelled=RenderCancelled),
            memory=memory,
            environment={"FONTCONFIG_FILE": str(FONTS)},
        )
        self._child: Child | None = None

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self._close()

    def pdf(self, html: str, assets: Mapping[str, bytes], *, title: str, true_size: bool = False) -> bytes:
        """Return the PDF of an HTML page, tagged (PDF/UA-1); the same page gives the same bytes.

        `html` names an asset as `asset:NAME`, by the end of whose name its kind is known: css, svg, png or jpg. Its
        root says its language. `true_size` asks the printer not to scale it.
        """
        job = {"task": "pdf", "html": html, "title": title, "true_size": true_size, "names": list(assets)}
        return self._ask(job, list(assets.values()))[0]

    def pictures(self, pdf: bytes, width: int) -> list[bytes]:
        """Return the pages of a PDF as PNG, each so many pixels wide."""
        return self._ask({"task": "pictures", "width": width}, [pdf])

    def _ask(self, job: dict[str, Any], parts: list[bytes]) -> list[bytes]:
        self._child = self._child or Child(self._work)
        try:
            answer = self._child.ask(wire.pack(job, parts), self._seconds, self._cancelled)
        except BaseException:
            self._child = None
            raise
        head, made = wire.unpack(answer)
        if "refused" in head:
            raise RenderRefused(head["refused"])
        if "too_big" in head:
            self._close()
            raise RenderTooBig(f"the renderer needs more than {self._work.memory >> 20} MiB")
        return made

    def _close(self) -> None:
        child, self._child = self._child, None
        if child is not None:
            child.close()


def render_pdf(
    html: str,
    assets: Mapping[str, bytes],
    *,
    title: str,
    true_size: bool = False,
    cancelled: Callable[[], bool] = lambda: False,
) -> bytes:
    """Return the PDF of one HTML page, see `Renderer.pdf`."""
    with Renderer(cancelled=cancelled) as renderer:
        return renderer.pdf(html, assets, title=title, true_size=true_size)


def page_pictures(pdf: bytes, width: int) -> list[bytes]:
    """Return the pages of one PDF as PNG, see `Renderer.pictures`."""
    with Renderer() as renderer:
        return renderer.pictures(pdf, width)
