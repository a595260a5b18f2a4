"""True-size files for cutting machines, in open formats: SVG and DXF in millimetres.

Nothing else of the drawings needs the library that writes DXF: import this room only where such files are made.
"""

from layouts.drawing.machine.as_dxf import part_as_dxf
from layouts.drawing.machine.as_svg import part_as_svg
from layouts.drawing.machine.files import LeftOut, MachineFile, machine_files
from layouts.drawing.machine.parts import MachinePart, flat_sheet_part, piece_part

__all__ = [
    "LeftOut",
    "MachineFile",
    "MachinePart",
    "flat_sheet_part",
    "machine_files",
    "part_as_dxf",
    "part_as_svg",
    "piece_part",
]
