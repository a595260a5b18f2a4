"""Files for cutting machines: every length is the exact one, read back by the format's own rules."""

from __future__ import annotations

import io
import re
import subprocess
import sys
import xml.etree.ElementTree as ET
from fractions import Fraction
from importlib.metadata import version
from pathlib import Path
from typing import Any

import pytest
from ezdxf import recover

from layouts.drawing.machine import LeftOut, MachineFile, flat_sheet_part, machine_files, part_as_dxf, part_as_svg
from layouts.shapes.forms import FlatSizes
from tests.unit.drawing.reading import SVG
from tests.unit.proofing.small_prints import kit_of, piece, project
from tests.unit.shapes.making import kit_of as kit_of_forms

CHECKOUT = Path(__file__).resolve().parents[3]
PANE = {"id": "pane", "left": "10", "right": "12", "bottom": "8", "height": "20"}


def _files(kit) -> dict[str, bytes]:
    return {file.name: file.content for file in machine_files(kit) if isinstance(file, MachineFile)}


def _piece_files(*windows, **more) -> dict[str, bytes]:
    return _files(kit_of(project(piece("A", "60", "40", windows=list(windows), **more))))


def _dxf(content: bytes):
    """The drawing, and every entity of it by layer; a file that does not keep the rules of the format fails."""
    drawing, audit = recover.read(io.BytesIO(content))
    assert not audit.errors
    assert not audit.fixes
    return drawing, drawing.modelspace()


def _decimal(number: float) -> Any:
    """A number as it stands in the file."""
    return Fraction(str(number))


def _corners(entity) -> list[Any]:
    return [(_decimal(x), _decimal(y)) for x, y, *_ in entity.get_points("xy")]


def test_a_piece_is_cut_at_true_size_with_its_window():
    """60 by 40, the window 38 by 20, 10 from the left and 8 from below: millimetres throughout."""
    files = _piece_files(PANE)
    assert sorted(files) == ["p-A.dxf", "p-A.svg"]
    window, outline = _dxf(files["p-A.dxf"])[1]
    assert [entity.dxf.layer for entity in (window, outline)] == ["CUT", "CUT"]
    assert all(entity.closed for entity in (window, outline))
    assert _corners(window) == [(10, 8), (48, 8), (48, 28), (10, 28)]
    assert _corners(outline) == [(0, 0), (60, 0), (60, 40), (0, 40)]
    root = ET.fromstring(files["p-A.svg"])
    assert {name: root.attrib[name] for name in ("width", "height", "viewBox")} == {
        "width": "60mm",
        "height": "40mm",
        "viewBox": "0 0 60 40",
    }
    assert [path.attrib["d"] for path in root.iter(f"{SVG}path")] == [
        "M 10 32 L 48 32 L 48 12 L 10 12 Z",
        "M 0 40 L 60 40 L 60 0 L 0 0 Z",
    ]


def test_units_are_set_in_the_head_and_kinds_of_lines_differ():
    drawing, _ = _dxf(_piece_files(PANE)["p-A.dxf"])
    assert (drawing.header["$INSUNITS"], drawing.header["$MEASUREMENT"]) == (4, 1)
    lines = {name: drawing.layers.get(name).dxf.linetype for name in ("CUT", "SCORE-MOUNTAIN", "SCORE-VALLEY")}
    assert len(set(lines.values())) == 3
    assert all(name in drawing.linetypes for name in lines.values())


def test_a_plain_rectangle_needs_no_file():
    assert _piece_files() == {}


def test_what_an_edge_takes_is_cut_as_well():
    """A finished strip of 60 by 40 whose left and lower edges take 3: cut 63 by 43, its window 3 further in."""
    scallop = {"id": "scallop", "kind": "scissors", "bite": "3"}
    made = piece("A", "60", "40", windows=[PANE], edges={"left": "scallop", "bottom": "scallop"}, size_is="finished")
    window, outline = _dxf(_files(kit_of(project(made), tools=[scallop]))["p-A.dxf"])[1]
    assert _corners(outline) == [(0, 0), (63, 0), (63, 43), (0, 43)]
    assert _corners(window)[0] == (13, 11)


def test_an_oval_is_an_ellipse():
    """38 by 20 around 29, 18: half axes 19 and 10."""
    oval, _ = _dxf(_piece_files({**PANE, "shape": {"kind": "ellipse"}})["p-A.dxf"])[1]
    assert oval.dxftype() == "ELLIPSE"
    assert (_decimal(oval.dxf.center.x), _decimal(oval.dxf.center.y)) == (29, 18)
    assert _decimal(oval.dxf.major_axis.x) == 19
    assert _decimal(oval.dxf.ratio) == Fraction(repr(10 / 19))


def test_a_round_window_is_a_circle():
    round_ = {"id": "pane", "left": "10", "width": "20", "bottom": "8", "height": "20", "shape": {"kind": "ellipse"}}
    circle, _ = _dxf(_piece_files(round_)["p-A.dxf"])[1]
    assert (circle.dxftype(), _decimal(circle.dxf.radius)) == ("CIRCLE", 10)
    assert (_decimal(circle.dxf.center.x), _decimal(circle.dxf.center.y)) == (20, 18)


@pytest.mark.parametrize(("rise", "longer", "first"), [("5", 19, 0), ("20", 20, -1)], ids=["flat", "steep"])
def test_an_arch_is_its_sides_and_half_an_ellipse(rise, longer, first):
    """The steep one is nothing but its top and its foot: 20 high, half of 38 across."""
    sides, top, _ = _dxf(_piece_files({**PANE, "shape": {"kind": "arch", "rise": rise}})["p-A.dxf"])[1]
    assert (sides.dxftype(), top.dxftype()) == ("LWPOLYLINE", "ELLIPSE")
    assert _decimal(top.dxf.major_axis.magnitude) == longer
    assert round(top.dxf.start_param / 3.14159 * 2) % 4 == first % 4
    assert {(round(x, 9), round(y, 9)) for x, y, _ in (top.start_point, top.end_point)} == {
        (48, 28 - int(rise)),
        (10, 28 - int(rise)),
    }


def test_rounded_corners_are_arcs_of_their_radius():
    """A quarter of a circle: its bulge is the tangent of 22.5°, and the radius follows from that and the chord."""
    rounded, _ = _dxf(_piece_files({**PANE, "shape": {"kind": "rounded", "radius": "4"}})["p-A.dxf"])[1]
    points = list(rounded.get_points("xyb"))
    assert len(points) == 8
    bulges = [bulge for *_, bulge in points]
    assert bulges == pytest.approx([0, 0.41421356] * 4, abs=1e-8)
    assert _corners(rounded)[:3] == [(14, 8), (44, 8), (48, 12)]


def _tray():
    """100 by 80 inside, 0.3 mm thick, walls of 20: score to score 100.3 and 80.3, flat 140.3 by 120.3."""
    kit = kit_of_forms(
        {"as": "tray", "inside": ["100", "80"], "depth": "20"}, caliper_um=300, size=["300", "300"], unit="mm"
    )
    return kit, FlatSizes.of(kit).fold(kit.projects[0].forms[0], "p", kit.papers[0])


def test_a_flat_part_is_exact_to_the_thickness_of_its_paper():
    kit, folded = _tray()
    _, space = _dxf(_files(kit)["p-f.dxf"])
    outline = [entity for entity in space if entity.dxftype() == "LWPOLYLINE"][-1]
    across, up = zip(*_corners(outline), strict=True)
    assert (min(across), max(across)) == (0, Fraction("140.3"))
    assert (min(up), max(up)) == (0, Fraction("120.3"))
    scores = [entity for entity in space if entity.dxf.layer == "SCORE-MOUNTAIN"]
    assert len(scores) == len(folded.sheets[0].creases) == 8
    assert all(entity.dxf.layer in ("CUT", "SCORE-MOUNTAIN") for entity in space)
    assert {_decimal(one.dxf.start.x) for one in scores} == {20, Fraction("120.3")}


def test_the_same_lengths_stand_in_the_other_format():
    part = flat_sheet_part(_tray()[1].sheets[0], "t")
    svg = ET.fromstring(part_as_svg(part))
    assert (svg.attrib["width"], svg.attrib["height"]) == ("140.3mm", "120.3mm")
    in_svg = set()
    for group in svg.iter(f"{SVG}g"):
        for path in group:
            numbers = [Fraction(number) for number in re.findall(r"[-.\d]+", path.attrib["d"])]
            spots = zip(numbers[::2], numbers[1::2], strict=True)
            in_svg |= {(group.attrib["id"], x, Fraction("120.3") - y) for x, y in spots}
    in_dxf = set()
    for entity in _dxf(part_as_dxf(part))[1]:
        if entity.dxftype() == "LINE":
            ends = entity.dxf.start, entity.dxf.end
            in_dxf |= {(entity.dxf.layer, _decimal(end.x), _decimal(end.y)) for end in ends}
        else:
            in_dxf |= {(entity.dxf.layer, x, y) for x, y in _corners(entity)}
    assert in_svg == in_dxf


def test_strips_that_are_alike_share_a_file():
    """Seven panels of 3 on paper of 12 are strips of three and four; twelve are four strips, of which two are alike."""
    form = {"as": "concertina", "panel": ["3", "4"], "panels": 13}
    names = sorted(_files(kit_of_forms(form)))
    assert [name for name in names if name.endswith(".svg")] == ["p-f-1.svg", "p-f-2.svg", "p-f-4.svg"]


def test_what_cannot_be_folded_is_told_and_has_no_file():
    form = {"as": "tray", "inside": ["2", "2"], "depth": "3"}
    (told,) = machine_files(kit_of_forms(form))
    assert isinstance(told, LeftOut)
    assert told.place == "project:p/form:f"


def test_ten_thousand_panels_end():
    forms = [
        {"id": f"f{number}", "as": "concertina", "panel": ["1/64", "1"], "panels": 9_000, "join": "1/64"}
        for number in range(4)
    ]
    found = list(machine_files(kit_of_forms(*forms)))
    assert [one.place for one in found if isinstance(one, LeftOut)] == ["project:p/form:f2", "project:p/form:f3"]


def test_no_two_files_have_one_name():
    one = project(piece("b-c", "60", "40", windows=[PANE]), id_="a")
    other = project(piece("c", "60", "40", windows=[PANE]), id_="a-b")
    assert sorted(_files(kit_of(one, other))) == ["a-b-c.dxf", "a-b-c.svg", "a-b-c~2.dxf", "a-b-c~2.svg"]


def test_files_are_the_same_bytes_in_every_process():
    """No time of day and no random mark: two processes, two seeds of hashing."""
    script = (
        "import hashlib, sys; from tests.unit.drawing.test_machine_files import _tray, _files;"
        "print(sorted((n, hashlib.sha256(c).hexdigest()) for n, c in _files(_tray()[0]).items()))"
    )
    said = [
        subprocess.run(
            [sys.executable, "-c", script],
            cwd=CHECKOUT,
            env={"PYTHONHASHSEED": seed, "PATH": ""},
            capture_output=True,
            check=True,
            text=True,
        ).stdout
        for seed in ("1", "2")
    ]
    assert said[0] == said[1] != ""
    assert version("ezdxf").encode() not in _files(_tray()[0])["p-f.dxf"]
