"""The part of a face that a document needs, the same bytes on every machine.

The library cuts faces down with whatever version of a system library it finds, and each version writes other bytes.
"""

from __future__ import annotations

from collections.abc import Iterable
from io import BytesIO

from fontTools.ttLib import TTFont
from fontTools.ttLib.tables._g_l_y_f import Glyph

__all__ = ["cut_down"]

# All that a face inside a PDF needs where glyphs are named by their numbers (ISO 32000-1, 9.9, table 126).
TABLES = {"glyf", "head", "hhea", "hmtx", "loca", "maxp", "GlyphOrder"}


def cut_down(face: bytes, glyphs: Iterable[int]) -> bytes:
    """Return the face with these glyphs, what they are made of, and .notdef. Every glyph keeps its number."""
    font = TTFont(BytesIO(face), lazy=True, recalcBBoxes=False, recalcTimestamp=False)
    outlines = font["glyf"]
    names = font.getGlyphOrder()
    kept = {names[0]}
    # Numbers beyond the last stand for characters that the face lacks; the page is refused for them.
    wanted = [names[glyph] for glyph in glyphs if glyph < len(names)]
    while wanted:
        name = wanted.pop()
        if name not in kept:
            kept.add(name)
            wanted += outlines[name].getComponentNames(outlines)
    for name in names:
        if name not in kept:
            outlines.glyphs[name] = Glyph()
    for table in set(font.keys()) - TABLES:
        del font[table]
    cut = BytesIO()
    font.save(cut, reorderTables=None)
    return cut.getvalue()
