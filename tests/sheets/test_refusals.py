"""A page gets what came with it and nothing else, however it asks; what it asks for is named."""

from __future__ import annotations

import struct
import threading
import zlib
from collections.abc import Iterator
from http.server import BaseHTTPRequestHandler, HTTPServer
from pathlib import Path

import pytest

from kits.sheets.rendering import RenderRefused
from layouts.errors import KitproofError
from tests.sheets.specimen import ASSETS, drawing, page, picture

# What must never be found in a sheet.
SECRET = "the words of a file of the machine"


@pytest.fixture(scope="module")
def secret(tmp_path_factory: pytest.TempPathFactory) -> str:
    """The address of a file of the machine."""
    file = Path(tmp_path_factory.mktemp("machine")) / "secret.txt"
    file.write_text(SECRET)
    return file.as_uri()


@pytest.fixture(scope="module")
def server() -> Iterator[tuple[str, list[str]]]:
    """The address of a server of this machine, and what was asked of it."""
    asked: list[str] = []

    class Listener(BaseHTTPRequestHandler):
        def do_GET(self) -> None:
            asked.append(self.path)
            self.send_response(200)
            self.end_headers()
            self.wfile.write(picture())

        def log_message(self, *_: object) -> None:
            pass

    listening = HTTPServer(("127.0.0.1", 0), Listener)
    thread = threading.Thread(target=listening.serve_forever, kwargs={"poll_interval": 0.05})
    thread.start()
    yield f"http://127.0.0.1:{listening.server_port}", asked
    listening.shutdown()
    thread.join()
    listening.server_close()


# HERE is an address of the machine or of its net. Each way was seen to fetch with the library's own fetcher, or to be
# left out by the library without a word.
WAYS = {
    "picture": '<img alt="a" src="HERE">',
    "picture by size": '<img alt="a" src="asset:swatch.png" srcset="HERE 2x">',
    "base": '<base href="HERE"><img alt="a" src="a.png">',
    "style sheet": '<link rel="stylesheet" href="HERE">',
    "style sheet within": "<style>@import url(HERE);</style>",
    "style sheet within, by its words": '<style>@import "HERE";</style>',
    "background": '<p style="background: url(HERE)">x</p>',
    "background by a variable": '<p style="--a: url(HERE); background: var(--a)">x</p>',
    "background of the page": "<style>@page { background: url(HERE) }</style>",
    "border": '<p style="border-image: url(HERE) 1">x</p>',
    "mark of a list": '<ul style="list-style-image: url(HERE)"><li>x</li></ul>',
    "generated": "<style>p::before { content: url(HERE) }</style><p>x</p>",
    "in the margin": "<style>@page { @top-left { content: url(HERE) } }</style><p>x</p>",
    "face": "<style>@font-face { font-family: X; src: url(HERE) } p { font-family: X }</style><p>x</p>",
    "colours": "<style>@color-profile --x { src: url(HERE) }</style><p>x</p>",
    "attachment": '<link rel="attachment" href="HERE">',
    "attachment of a link": '<a rel="attachment" href="HERE">x</a>',
    "frame": '<iframe src="HERE"></iframe>',
    "object": '<object data="HERE">x</object>',
    "embedded": '<embed src="HERE">',
    "film": '<video src="HERE"></video>',
    "script": '<script src="HERE"></script>',
    "button": '<input type="image" src="HERE">',
    "picture in a drawing": drawing('<image href="HERE" width="9" height="9"/>'),
    "picture in a drawing, by the older name": drawing('<image xlink:href="HERE" width="9" height="9"/>'),
    "part of another drawing": drawing('<use href="HERE#x"/>'),
    "paint of another drawing": drawing('<rect width="9" height="9" fill="url(HERE#x)"/>'),
    "mask of another drawing": drawing('<rect width="9" height="9" mask="url(\'HERE#x\')"/>'),
    "style sheet of a drawing": drawing('<style>@import "HERE";</style>'),
    "frame in a drawing": drawing('<foreignObject><iframe src="HERE"/></foreignObject>'),
}


@pytest.mark.parametrize("way", WAYS.values(), ids=WAYS.keys())
def test_nothing_is_fetched_from_the_machine_or_its_net(renderer, server, secret, way):
    address, asked = server
    for here in (secret, f"{address}/a"):
        with pytest.raises(RenderRefused) as refused:
            renderer.pdf(page(way.replace("HERE", here)), ASSETS, title="T")
        assert isinstance(refused.value, KitproofError)
        assert refused.value.code == "render-refused"
        # A drawing with a style sheet is refused for that alone.
        assert here in refused.value.message or "nothing that a page is made of" in refused.value.message
    assert asked == []


def test_the_server_would_have_been_asked(server):
    """The library does fetch where nobody keeps it from it."""
    from weasyprint import HTML

    address, asked = server
    HTML(string=page(f'<img alt="a" src="{address}/seen">')).write_pdf()
    assert asked == ["/seen"]
    asked.clear()


@pytest.mark.parametrize(
    ("asks", "says"),
    [
        pytest.param('<img alt="a" src="data:image/png;base64,iVBORw0KGgo=">', "data:image/png", id="data"),
        pytest.param('<img alt="a" src="a.png">', "a.png", id="without a scheme"),
        pytest.param('<img alt="a" src="//127.0.0.1/a.png">', "//127.0.0.1/a.png", id="without a scheme, with a host"),
        pytest.param('<img alt="a" src="asset:none.png">', "asset:none.png", id="not in the table"),
        pytest.param('<img alt="a" src="asset:../../etc/hostname">', "asset:../../etc/hostname", id="out of the table"),
        pytest.param('<img alt="a" src="asset:words.txt">', "words.txt", id="another kind"),
        pytest.param('<img alt="a" src="asset:ghost.png">', "ghost.png", id="page description, said to be a picture"),
        pytest.param('<img alt="a" src="asset:noise.png">', "noise.png", id="noise"),
        pytest.param('<img alt="a" src="asset:half.jpg">', "half.jpg", id="half a picture"),
        pytest.param('<img alt="a" src="asset:vast.png">', "vast.png", id="a few bytes that claim 900 megapixels"),
        pytest.param('<img alt="a" src="asset:wide.png">', "wide.png", id="a few bytes that claim 49 megapixels"),
        pytest.param('<img alt="a" src="asset:laughs.svg">', "laughs.svg", id="words made of words made of words"),
        pytest.param('<img alt="a" src="asset:outside.svg">', "outside.svg", id="words of a file"),
        pytest.param('<img alt="a" src="asset:within.svg">', "file:///etc/hostname", id="a file within a drawing"),
        pytest.param('<link rel="attachment" href="asset:swatch.png">', "attaches", id="attached"),
        pytest.param('<a href="javascript:alert(1)">x</a>', "javascript:alert(1)", id="link to a script"),
        pytest.param('<a href="file:///etc/hostname">x</a>', "file:///etc/hostname", id="link to a file"),
        pytest.param('<a href="other.html">x</a>', "other.html", id="link to nowhere"),
        pytest.param(
            '<style>@font-face { font-family: X; src: local("DejaVu Sans") }</style>', "'X'", id="face of the machine"
        ),
        pytest.param('<img src="asset:swatch.png">', "swatch.png", id="picture without words"),
        pytest.param("<p>\U0001d538</p>", "U+1D538", id="character that no face has"),
        pytest.param('<p style="colour: red">x</p>', "colour", id="mistake in a style"),
        pytest.param("<div>" * 3000, "nested too deeply", id="nested"),
        pytest.param(drawing("<g>" * 3000), "nested too deeply", id="nested drawing"),
        pytest.param(drawing('<g id="a"><use href="#a"/></g>'), "SVG", id="a drawing of itself"),
    ],
)
def test_what_cannot_be_set_is_refused_by_name(renderer, asks, says):
    with pytest.raises(RenderRefused) as refused:
        renderer.pdf(page(asks), HOSTILE, title="T")
    assert says in refused.value.message


def _claims(width: int, height: int) -> bytes:
    """A PNG of so many pixels, of which it has none."""

    def chunk(kind: bytes, content: bytes) -> bytes:
        return struct.pack(">I", len(content)) + kind + content + struct.pack(">I", zlib.crc32(kind + content))

    header = chunk(b"IHDR", struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0))
    return b"\x89PNG\r\n\x1a\n" + header + chunk(b"IDAT", zlib.compress(bytes(1 << 20))) + chunk(b"IEND", b"")


_LAUGHS = "".join(f'<!ENTITY {chr(98 + n)} "{f"&{chr(97 + n)};" * 10}">' for n in range(9))
HOSTILE = {
    **ASSETS,
    "words.txt": b"words",
    "ghost.png": b"%!PS-Adobe-3.0 EPSF-3.0\n%%BoundingBox: 0 0 10 10\n%%EndComments\nshowpage\n",
    "noise.png": bytes(range(256)),
    "half.jpg": picture("JPEG", (600, 400))[:-900],
    "vast.png": _claims(30_000, 30_000),
    "wide.png": _claims(7_000, 7_000),
    "laughs.svg": f'<!DOCTYPE svg [<!ENTITY a "ha">{_LAUGHS}]>{drawing("<text>&j;</text>")}'.encode(),
    "outside.svg": f'<!DOCTYPE svg [<!ENTITY a SYSTEM "file:///etc/hostname">]>{drawing("<text>&a;</text>")}'.encode(),
    "within.svg": drawing('<image href="file:///etc/hostname" width="9" height="9"/>').encode(),
}


def test_a_page_without_a_language_is_refused(renderer):
    with pytest.raises(RenderRefused, match="lang"):
        renderer.pdf(page("<p>x</p>", root="<html>"), {}, title="T")


def test_after_a_refusal_the_same_child_sets_the_next_page(renderer):
    before = renderer.pdf(page("<p>x</p>"), {}, title="T")
    with pytest.raises(RenderRefused):
        renderer.pdf(page("<iframe></iframe>"), {}, title="T")
    assert renderer.pdf(page("<p>x</p>"), {}, title="T") == before


def test_what_is_no_pdf_has_no_pictures(renderer):
    with pytest.raises(RenderRefused, match="cannot be read"):
        renderer.pictures(b"%PDF-1.7\nnoise", 100)
