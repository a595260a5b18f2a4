"""HTML to PDF: the library sets it, `finish` puts right what the library leaves open."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import pydyf
from weasyprint import HTML
from weasyprint.pdf import fonts
from weasyprint.urls import FatalURLFetchingError

from kits.sheets.render.assets import Table
from kits.sheets.render.breaks import join_words
from kits.sheets.render.faces import cut_down
from kits.sheets.render.finish import finished
from kits.sheets.render.parts import look_through
from kits.sheets.render.refused import Refused
from kits.sheets.render.remarks import Remarks

__all__ = ["set_pages"]


def set_pages(html: str, assets: Mapping[str, bytes], *, title: str, true_size: bool) -> bytes:
    """Return the PDF of a page, tagged, with its title.

    Raises: Refused if the page asks for anything but its assets, or the library has anything to remark.
    """
    table = Table(assets)
    with Remarks() as remarks:
        try:
            read = HTML(string=html, url_fetcher=table)
            look_through(read.etree_element)
            join_words(read.etree_element)
            document = read.render()
            document.metadata.title = title
            # Packed later, by a library that comes with its own way of packing: the machine's may pack otherwise.
            pdf = document.write_pdf(pdf_variant="pdf/ua-1", uncompressed_pdf=True, finisher=_say_links)
        except FatalURLFetchingError:
            raise Refused("; ".join(table.refused)) from None
    if table.refused:
        raise Refused("; ".join(table.refused))
    remarks.judge()
    return finished(pdf, true_size=true_size)


def _say_links(document: Any, _: Any) -> None:
    """Let every link be read as its words; the library gives its target, which may be an id of ours."""
    for page in document.pages:
        for box in page._page_box.descendants():
            if box.link_annotation and box.element is not None:
                words = " ".join("".join(box.element.itertext()).split())
                box.link_annotation["Contents"] = pydyf.String(box.element.get("aria-label") or words)


def _cut_down(self: Any, to_unicode: dict[int, str], hinting: bool) -> None:
    """Takes the place of the library's own, see `faces`."""
    self.file_content = cut_down(self.file_content, to_unicode)


fonts.Font.subset = _cut_down
