"""The same page gives the same bytes, wherever, whenever and by whomever it is set."""

from __future__ import annotations

import hashlib
import os
import re
import shutil
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pikepdf
import pytest
from pikepdf import Name

from kits.sheets import rendering
from kits.sheets.rendering import Renderer
from tests.sheets.pdf_ua import opened
from tests.sheets.specimen import ASSETS, SPECIMEN, page

ROOT = Path(__file__).resolve().parents[2]
TITLE = "The Potting Shed: the chest"
ELSEWHERE = f"""
import hashlib, sys
sys.path.insert(0, {str(ROOT)!r})
from kits.sheets.rendering import render_pdf
from tests.sheets.specimen import ASSETS, SPECIMEN
print(hashlib.sha256(render_pdf(SPECIMEN, ASSETS, title={TITLE!r})).hexdigest())
"""
# Another machine: what its fonts are, and which it takes for which.
KNOWS_OTHERS = """<?xml version="1.0"?><!DOCTYPE fontconfig SYSTEM "urn:fontconfig:fonts.dtd"><fontconfig>
<dir>/usr/share/fonts</dir><cachedir>CACHE</cachedir>
<alias binding="same"><family>Commissioner</family><prefer><family>DejaVu Serif</family></prefer></alias>
</fontconfig>"""
KNOWS_NONE = """<?xml version="1.0"?><!DOCTYPE fontconfig SYSTEM "urn:fontconfig:fonts.dtd"><fontconfig>
<cachedir>CACHE</cachedir></fontconfig>"""


def _fonts(folder: Path, words: str) -> dict[str, str]:
    file = folder / "fonts.conf"
    file.write_text(words.replace("CACHE", str(folder)))
    return {"FONTCONFIG_FILE": str(file), "FONTCONFIG_PATH": str(folder), "FONTCONFIG_SYSROOT": str(folder)}


@pytest.mark.parametrize(
    "machine",
    [
        pytest.param(lambda folder: _fonts(folder, KNOWS_OTHERS), id="other fonts"),
        pytest.param(lambda folder: _fonts(folder, KNOWS_NONE), id="no fonts"),
        pytest.param(lambda _: {"TZ": "Pacific/Kiritimati", "LC_ALL": "tr_TR.UTF-8", "LANG": "ar_EG"}, id="far away"),
        pytest.param(lambda _: {"PYTHONHASHSEED": "1", "SOURCE_DATE_EPOCH": "1"}, id="in 1970"),
        pytest.param(lambda folder: {"PYTHONHASHSEED": "2", "HOME": str(folder), "TMPDIR": str(folder)}, id="at home"),
    ],
)
def test_another_machine_sets_the_same_bytes(specimen, machine, tmp_path, monkeypatch):
    for name in ("SOURCE_DATE_EPOCH", "PYTHONHASHSEED"):
        monkeypatch.delenv(name, raising=False)
    done = subprocess.run(
        [sys.executable, "-c", ELSEWHERE],
        env={**os.environ, **machine(tmp_path)},
        cwd=tmp_path,
        capture_output=True,
        text=True,
        check=True,
    )
    assert done.stdout.strip() == hashlib.sha256(specimen).hexdigest()


def test_the_fonts_of_the_machine_would_change_the_bytes(renderer, tmp_path):
    """What the test above could not see if the renderer used the fonts that it is told of in no case."""
    words = page("<p>Words</p>")
    shutil.copy(rendering.FONTS.parent / "Commissioner-Bold.ttf", tmp_path)
    machine = _fonts(tmp_path, KNOWS_OTHERS.replace("/usr/share/fonts", str(tmp_path)))
    with Renderer() as elsewhere:
        elsewhere._work = replace(elsewhere._work, environment={"FONTCONFIG_FILE": machine["FONTCONFIG_FILE"]})
        assert elsewhere.pdf(words, {}, title="T") != renderer.pdf(words, {}, title="T")


def test_what_was_set_before_leaves_no_trace(renderer, specimen):
    renderer.pdf(page("<h1>Another Ж page</h1><p>of other words, 3⁄8</p>"), {}, title="Another")
    assert renderer.pdf(SPECIMEN, ASSETS, title=TITLE) == specimen


def test_nothing_in_it_tells_when_or_where_it_was_set(specimen):
    with opened(specimen) as document:
        assert set(document.docinfo.keys()) == {"/Producer", "/Title"}
        metadata = document.Root.Metadata.read_bytes()
        streams = [one for one in document.objects if isinstance(one, pikepdf.Stream)]
        everything = [one.read_bytes() for one in streams if one.get("/Filter") != Name.DCTDecode]
    assert not re.search(rb"Date|uuid", metadata)
    assert not [one for one in everything if str(ROOT).encode() in one or b"/tmp" in one]


def test_another_page_has_another_identifier(renderer, specimen):
    with opened(specimen) as first, opened(renderer.pdf(SPECIMEN, ASSETS, title="Another")) as second:
        assert bytes(first.trailer.ID[1]) != bytes(second.trailer.ID[1])


def test_faces_are_cut_down_by_ourselves_and_packed_by_the_library_that_writes(specimen):
    """A library of the machine cuts a face or packs a stream in the way of its version."""
    from kits.sheets.render.faces import cut_down
    from tests.sheets.pdf_ua_content import shown_glyphs

    fonts = ROOT / "kits" / "sheets" / "fonts"
    files = {
        "Commissioner": "Commissioner-Regular.ttf",
        "Commissioner-Bold": "Commissioner-Bold.ttf",
        "Kitproof-Rest": "KitproofRest-Regular.ttf",
    }
    with opened(specimen) as document:
        shown: dict[str, set[int]] = {}
        embedded = {}
        holders: list[pikepdf.Object] = [one.obj for one in document.pages]
        holders += [one for one in document.objects if isinstance(one, pikepdf.Stream) and "/Resources" in one]
        for holder in holders:
            for font, glyphs in shown_glyphs(holder):
                name = str(font.BaseFont).partition("+")[2]
                shown.setdefault(name, set()).update(glyphs)
                embedded[name] = font.DescendantFonts[0].FontDescriptor.FontFile2.read_bytes()
    assert set(embedded) == set(files)
    for name, file in files.items():
        assert embedded[name] == cut_down((fonts / file).read_bytes(), shown[name])
