"""The only place that a page may take anything from: the table of assets that came with it.

A page names an asset as `asset:NAME`. Everything else that it asks for, by whatever way, is refused, and so is the
page: something left out without a word would be a sheet that lacks it.
"""

from __future__ import annotations

from collections.abc import Mapping
from io import BytesIO
from urllib.parse import unquote

from PIL import Image, ImageFile
from weasyprint.urls import FatalURLFetchingError, URLFetcherResponse

from kits.sheets.render.refused import Refused

__all__ = ["Table"]

# Each pixel takes four bytes when a picture is unpacked, and a few kilobytes can claim any number of them.
PIXELS = 40_000_000
SHOWN = 80
TYPES = {"css": "text/css", "svg": "image/svg+xml", "png": "image/png", "jpg": "image/jpeg"}


class Table:
    """Serves the assets of one page; `refused` are the sentences about what it did not serve.

    It is called by the library in the place of its own fetcher, of which it is no kind: that one can reach the net.
    """

    def __init__(self, assets: Mapping[str, bytes]) -> None:
        self._assets = assets
        self.refused: list[str] = []

    def __call__(self, url: str) -> URLFetcherResponse:
        try:
            name, content, kind = self._found(url)
        except Refused as refused:
            # Told twice: whoever asked may swallow the error, and a page drawn without its picture would get out.
            self.refused.append(str(refused))
            raise FatalURLFetchingError(str(refused)) from None
        return URLFetcherResponse(f"asset:{name}", content, {"Content-Type": kind})

    def _found(self, url: str) -> tuple[str, bytes, str]:
        shown = url if len(url) <= SHOWN else f"{url[:SHOWN]}…"
        scheme, _, quoted = url.partition(":")
        name = unquote(quoted)
        if scheme != "asset" or name not in self._assets:
            raise Refused(f"the page asks for “{shown}”, which is not among its assets")
        kind = TYPES.get(name.rpartition(".")[2])
        if kind is None:
            raise Refused(f"the asset “{name}” is not of a kind that can be set ({', '.join(TYPES)})")
        content = self._assets[name]
        if kind in ("image/png", "image/jpeg"):
            _look_at_picture(name, content)
        return name, content, kind


def _look_at_picture(name: str, content: bytes) -> None:
    """Let through what really is a picture of these two kinds: others may start programs of the machine."""
    # The library fills what is missing of a picture with grey.
    ImageFile.LOAD_TRUNCATED_IMAGES = False
    try:
        with Image.open(BytesIO(content), formats=("PNG", "JPEG")) as picture:
            width, height = picture.size
            if width * height > PIXELS:
                raise Refused(f"the picture “{name}” has more than {PIXELS} pixels")
            picture.load()
    except Image.DecompressionBombError:
        raise Refused(f"the picture “{name}” has more than {PIXELS} pixels") from None
    except (OSError, SyntaxError, ValueError):
        raise Refused(f"the picture “{name}” cannot be read as PNG or JPEG") from None
