"""The renderer's process, with real pages: what befalls it has a name, and it outlives nobody."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from io import BytesIO
from pathlib import Path

import pytest
from PIL import Image

from kits.sheets.render import wire
from kits.sheets.rendering import (
    RenderCancelled,
    RenderDied,
    Renderer,
    RenderTooBig,
    RenderTooSlow,
    page_pictures,
    render_pdf,
)
from layouts.errors import KitproofError
from tests.processes import PATIENCE_SECONDS, children_running, is_alive, wait_until
from tests.sheets.pdf_ua import opened
from tests.sheets.specimen import drawing, page

ROOT = Path(__file__).resolve().parents[2]
SHORT = page("<h1>Short</h1>")
# Ten to the ninth squares, drawn by ten drawings of ten drawings.
_TENS = "".join(f'<g id="a{n}">{f"""<use href="#a{n - 1}"/>""" * 10}</g>' for n in range(1, 10))
ENDLESS = page(drawing(f'<defs><g id="a0"><rect width="1" height="1"/></g>{_TENS}</defs><use href="#a9"/>'))
HUGE = page('<table><tr><td colspan="100000000">x</td></tr></table>')
# Seen: a distance beyond what the library's numbers hold ends it.
DEADLY = page('<p style="letter-spacing: 1e30px">abc</p>')


def _children() -> set[int]:
    return children_running("kits.sheets.render")


@pytest.fixture
def others(renderer: Renderer) -> set[int]:
    """The children that were there before the test, such as the one that all tests share."""
    return _children()


def test_one_child_sets_one_page_after_another(others):
    with Renderer() as renderer:
        assert _children() == others
        renderer.pdf(SHORT, {}, title="T")
        (child,) = _children() - others
        renderer.pdf(SHORT, {}, title="T")
        assert _children() - others == {child}
    assert not is_alive(child)


@pytest.mark.parametrize(
    ("html", "limits", "error", "code"),
    [
        pytest.param(ENDLESS, {"seconds": 2.0}, RenderTooSlow, "render-too-slow", id="minutes of drawing"),
        pytest.param(page("<p>x</p>" * 300_000), {"seconds": 2.0}, RenderTooSlow, "render-too-slow", id="long"),
        pytest.param(HUGE, {}, RenderTooBig, "render-too-big", id="a table of many columns"),
        pytest.param(SHORT, {"memory": 20 << 20}, RenderTooBig, "render-too-big", id="memory at the start"),
        pytest.param(DEADLY, {}, RenderDied, "render-died", id="defect of the library"),
    ],
)
def test_what_befalls_the_child_has_a_name_and_leaves_none(others, html, limits, error, code):
    with Renderer(**limits) as renderer:
        with pytest.raises(error) as raised:
            renderer.pdf(html, {}, title="T")
        assert isinstance(raised.value, KitproofError)
        assert raised.value.code == code
        assert _children() == others


def test_the_cause_of_a_death_is_told_and_the_next_page_starts_anew():
    with Renderer() as renderer:
        with pytest.raises(RenderDied, match="OverflowError"):
            renderer.pdf(DEADLY, {}, title="T")
        assert renderer.pdf(SHORT, {}, title="T").startswith(b"%PDF-")


def test_a_long_page_that_is_called_off_is_ended(others):
    looks = 0

    def called_off() -> bool:
        nonlocal looks
        looks += 1
        return looks > 10

    with pytest.raises(RenderCancelled):
        render_pdf(ENDLESS, {}, title="T", cancelled=called_off)
    assert _children() == others


_PARENT = f"""
from kits.sheets.rendering import Renderer
with Renderer() as renderer:
    renderer.pdf({SHORT!r}, {{}}, title="T")
    print(renderer._child.pid, flush=True)
    renderer.pdf({ENDLESS!r}, {{}}, title="T")
"""


@pytest.mark.parametrize("how", [signal.SIGKILL, signal.SIGTERM], ids=["kill -9", "kill"])
def test_a_killed_parent_leaves_no_child(how):
    with subprocess.Popen([sys.executable, "-c", _PARENT], cwd=ROOT, stdout=subprocess.PIPE, text=True) as parent:
        assert parent.stdout is not None
        child = int(parent.stdout.readline())
        assert is_alive(child)
        parent.send_signal(how)
        assert parent.wait() == -how
        assert wait_until(lambda: not is_alive(child))


def test_a_child_ends_when_its_standard_input_closes_even_while_it_works():
    command = [sys.executable, "-P", "-m", "kits.sheets.render", str(os.getpid()), str(1 << 30)]
    with subprocess.Popen(
        command, env={"PYTHONPATH": str(ROOT)}, cwd="/", stdin=subprocess.PIPE, stdout=subprocess.PIPE
    ) as child:
        assert child.stdin is not None
        child.stdin.write(wire.pack({"task": "pdf", "html": ENDLESS, "title": "T", "true_size": False, "names": []}))
        child.stdin.close()
        assert child.wait(PATIENCE_SECONDS) == 0


def test_the_child_imports_no_django():
    command = [sys.executable, "-X", "importtime", "-c", "import kits.sheets.render.page, kits.sheets.render.pictures"]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=True)
    imported = [line.rpartition("|")[2].strip() for line in done.stderr.splitlines()]
    assert "weasyprint" in imported
    assert not [name for name in imported if name.split(".")[0] in ("django", "celery", "redis")]


def test_a_long_job_goes_through_a_pipe(renderer):
    """The parent must send and listen at once: a pipe holds 64 KiB."""
    html = page("".join(f"<!-- {'x' * 1000} -->" for _ in range(2000)) + "<h1>After much</h1>")
    assert renderer.pdf(html, {"swatch.png": bytes(3 << 20)}, title="T").startswith(b"%PDF-")


def test_the_title_is_that_of_the_caller(renderer):
    title = "Shed & chest “⅞”"
    with opened(renderer.pdf(page("<h1>Short</h1>"), {}, title=title)) as document:
        assert str(document.docinfo["/Title"]) == title
        with document.open_metadata() as metadata:
            assert metadata["dc:title"] == title


def test_pages_are_shown_as_wide_as_asked(specimen):
    shown = [Image.open(BytesIO(png)) for png in page_pictures(specimen, 510)]
    with opened(specimen) as document:
        assert len(shown) == len(document.pages) > 1
    # Letter is 612 by 792 points.
    assert {one.size for one in shown} == {(510, 660)}
    first = shown[0].convert("L")
    assert first.getpixel((2, 2)) == 255
    assert min(first.tobytes()) < 60


@pytest.mark.parametrize("parts", [[], [b""], [b"\n", b"{}\n", bytes(range(256))]], ids=["none", "empty", "any bytes"])
def test_messages_are_read_as_they_were_written(parts):
    message = wire.pack({"task": "pdf"}, parts)
    assert wire.unpack(message) == ({"task": "pdf", "sizes": [len(part) for part in parts]}, parts)
    assert wire.end(message + b"next") == len(message)
    assert all(wire.end(message[:length]) is None for length in range(len(message)))
