"""The table of constructions: how a form is laid flat and folded, and what its panels are called."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import NamedTuple

from layouts.shapes.forms import concertina, envelope, frame, lid, pocket, scored, sleeve, tag, tray
from layouts.shapes.forms.flat import ExactSize
from layouts.shapes.forms.folded import Fault, Folded
from layouts.shapes.forms.names import PanelNames

__all__ = ["CONSTRUCTIONS", "Construction"]


class Construction(NamedTuple):
    """How a form is laid flat and folded: functions of the form and its paper, for a lid also of the outside of what it
    fits; and what its panels are called, a function of the form alone.

    `flat_parts` are the sizes of the sheets of `fold`, and `faults` its faults, without working the rest out.
    `stated`: the document itself gives the flat size, which is then not rounded.
    """

    flat_parts: Callable[..., tuple[ExactSize, ...]]
    fold: Callable[..., Folded]
    faults: Callable[..., tuple[Fault, ...]]
    names: Callable[..., PanelNames]
    stated: bool = False


CONSTRUCTIONS: Mapping[str, Construction] = {
    "tray": Construction(tray.flat_parts, tray.fold, tray.faults, tray.names),
    "lid": Construction(lid.flat_parts, lid.fold, lid.faults, lid.names),
    "sleeve": Construction(sleeve.flat_parts, sleeve.fold, sleeve.faults, sleeve.names),
    "concertina": Construction(concertina.flat_parts, concertina.fold, concertina.faults, concertina.names),
    "pocket": Construction(pocket.flat_parts, pocket.fold, pocket.faults, pocket.names),
    "frame": Construction(frame.flat_parts, frame.fold, frame.faults, frame.names),
    "envelope": Construction(envelope.flat_parts, envelope.fold, envelope.faults, envelope.names),
    "tag": Construction(tag.flat_parts, tag.fold, tag.faults, tag.names, stated=True),
    "scored": Construction(scored.flat_parts, scored.fold, scored.faults, scored.names, stated=True),
}
