"""Pages as pictures."""

from __future__ import annotations

from io import BytesIO
from typing import Any

import pypdfium2

from kits.sheets.render.refused import Refused

__all__ = ["pictures"]


def pictures(pdf: bytes, width: int) -> list[bytes]:
    """Return every page as a PNG so many pixels wide, on white. Raises: Refused if this is no PDF."""
    try:
        document = pypdfium2.PdfDocument(pdf)
    except pypdfium2.PdfiumError as error:
        raise Refused(f"the PDF cannot be read ({error})") from None
    return [_picture(page, width) for page in document]


def _picture(page: Any, width: int) -> bytes:
    bitmap = page.render(scale=width / page.get_width(), rev_byteorder=True)
    png = BytesIO()
    bitmap.to_pil().save(png, "PNG")
    page.close()
    return png.getvalue()
