"""Make the faces of the sheets from open ones: `python -m kits.sheets.fonts.make COMMISSIONER NOTO`.

COMMISSIONER is a folder of the published web subsets (`commissioner-latin-400-normal.woff2` and so on), NOTO one of
the full Noto Sans, Noto Sans Math, Noto Sans Symbols and Noto Sans Symbols 2. It was run once; the faces that it wrote
are what is kept.

A web page takes a face in parts; a sheet needs it whole and under one name, so that the machine that sets it has one
file to choose. No outline is changed. What is new are figures of one width (`tnum`), which the subsets lack: the same
outlines, set in the middle of an equal advance, so that numbers stand under each other in tables.
"""

from __future__ import annotations

import sys
import unicodedata
from collections.abc import Iterable
from copy import deepcopy
from io import BytesIO
from pathlib import Path
from tempfile import TemporaryDirectory

from fontTools.merge import Merger
from fontTools.otlLib.builder import buildLookup, buildSingleSubstSubtable
from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont
from fontTools.ttLib.tables.otTables import Feature, FeatureRecord

from kits.sheets.coverage import can_be_made

__all__ = ["main"]

HERE = Path(__file__).parent
# Weight → its name, and the advance of its figures of one width in units of 1/2000 of the type size: wide enough for
# the widest (the nought), narrow enough that the one does not stand alone.
WEIGHTS = {400: ("Regular", 1230), 600: ("SemiBold", 1240), 700: ("Bold", 1250)}
PARTS = ("latin", "latin-ext", "vietnamese", "greek", "cyrillic", "cyrillic-ext")
FIGURES = ("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")

# What the second face adds where the first has nothing. No marks that turn the direction of text (U+200E and U+200F,
# U+202A to U+202E, U+2066 to U+2069): with one of them inside it a measurement could be printed backwards. And nothing
# that versions of the setting library take from different faces: marks that stand on letters, and letters that the
# first face can put together.
LETTERS = (
    *range(0x0180, 0x0530),
    *range(0x1E00, 0x2000),
    *range(0x2002, 0x200B),
    *range(0x2010, 0x2028),
    *range(0x202F, 0x205F),
    *range(0x2070, 0x2190),
    0xFFFD,
)
# Set with the face of the letter in front of them, without a look whether it has them.
SPACES = {0x0020, 0x00A0, *range(0x2002, 0x200C)}
ARROWS_AND_SIGNS = (*range(0x2190, 0x2200), *range(0x2200, 0x2300))
SHAPES = (*range(0x2460, 0x2474), *range(0x25A0, 0x2600), *range(0x2600, 0x27C0))
# A day of 2023 in seconds since 1904: the clock would make every run differ.
MADE = 3_763_065_600


def main() -> None:
    commissioner, noto = map(Path, sys.argv[1:])
    first: set[str] = set()
    for weight, (style, advance) in WEIGHTS.items():
        parts = [commissioner / f"commissioner-{part}-{weight}-normal.woff2" for part in PARTS]
        face = _merged((TTFont(part), range(0x20, 0x110000)) for part in parts)
        _add_tabular_figures(face, advance)
        first = set(map(chr, face.getBestCmap()))
        _save(face, "Commissioner", style, weight)
    rest = _merged(
        (TTFont(noto / name), SPACES | {point for point in points if _is_missed(chr(point), first)})
        for name, points in (
            ("NotoSans-Regular.ttf", LETTERS),
            ("NotoSansMath-Regular.ttf", ARROWS_AND_SIGNS),
            ("NotoSansSymbols-Regular.ttf", SHAPES),
            ("NotoSansSymbols2-Regular.ttf", SHAPES),
        )
    )
    _save(rest, "Kitproof Rest", "Regular", 400)


def _is_missed(letter: str, first: set[str]) -> bool:
    return not can_be_made(letter, first) and unicodedata.category(letter) not in ("Mn", "Me")


def _merged(parts: Iterable[tuple[TTFont, Iterable[int]]]) -> TTFont:
    """One face of several, each character taken from the first that has it."""
    taken: set[int] = set()
    with TemporaryDirectory() as folder:
        files = []
        for number, (face, points) in enumerate(parts):
            wanted = (set(points) & set(face.getBestCmap())) - taken
            taken |= wanted
            options = Options()
            options.layout_features = ["*"]
            options.drop_tables += ["STAT", "DSIG", "MATH", "meta", "prep", "gasp", "fpgm", "cvt "]
            options.hinting = False
            # Not `.null`, CR and such: merged they would only get strange names.
            options.recommended_glyphs = False
            subsetter = Subsetter(options)
            subsetter.populate(unicodes=wanted)
            subsetter.subset(face)
            face.flavor = None
            files.append(f"{folder}/{number}.ttf")
            face.save(files[-1])
        merged = Merger().merge(files)
        content = BytesIO()
        merged.save(content)
    content.seek(0)
    return TTFont(content)


def _add_tabular_figures(face: TTFont, advance: int) -> None:
    """Add the feature `tnum`: every figure by its copy in the middle of the advance."""
    glyphs, metrics, cmap = face["glyf"], face["hmtx"], face.getBestCmap()
    copies = {}
    for name, figure in ((cmap[ord("0") + number], figure) for number, figure in enumerate(FIGURES)):
        copy = copies[name] = f"{figure}.tnum"
        face.setGlyphOrder([*face.getGlyphOrder(), copy])
        glyphs[copy] = deepcopy(glyphs[name])
        left = (advance - (glyphs[copy].xMax - glyphs[copy].xMin)) // 2
        glyphs[copy].coordinates.translate((left - glyphs[copy].xMin, 0))
        glyphs[copy].recalcBounds(glyphs)
        metrics[copy] = (advance, left)
    rules = face["GSUB"].table
    rules.LookupList.Lookup.append(buildLookup([buildSingleSubstSubtable(copies)]))
    feature = FeatureRecord()
    feature.FeatureTag = "tnum"
    feature.Feature = Feature()
    feature.Feature.LookupListIndex = [len(rules.LookupList.Lookup) - 1]
    rules.FeatureList.FeatureRecord.append(feature)
    for record in rules.ScriptList.ScriptRecord:
        for language in (record.Script.DefaultLangSys, *(one.LangSys for one in record.Script.LangSysRecord)):
            if language is not None:
                language.FeatureIndex.append(len(rules.FeatureList.FeatureRecord) - 1)


def _save(face: TTFont, family: str, style: str, weight: int) -> None:
    """Write the face under the one name by which it is asked for."""
    for number, words in {
        1: family if style in ("Regular", "Bold") else f"{family} {style}",
        2: style if style in ("Regular", "Bold") else "Regular",
        3: f"Kitproof: {family} {style}",
        4: f"{family} {style}",
        6: f"{family}-{style}".replace(" ", ""),
        16: family,
        17: style,
    }.items():
        face["name"].setName(words, number, 3, 1, 0x409)
    face["name"].names = [one for one in face["name"].names if one.platformID == 3 and one.nameID not in (21, 22, 25)]
    face["OS/2"].usWeightClass = weight
    face["OS/2"].fsSelection = 0x20 if style == "Bold" else 0x40
    face["head"].macStyle = 1 if style == "Bold" else 0
    face["head"].created = face["head"].modified = MADE
    face.recalcTimestamp = False
    face.save(HERE / f"{family}-{style}.ttf".replace(" ", ""))


if __name__ == "__main__":
    main()
