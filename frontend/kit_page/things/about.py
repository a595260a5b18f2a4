"""What a check says beside the form of a thing: what is found about it, and the prints it is of."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from frontend.kit_page.findings import FindingLine
from frontend.kit_page.papers import PaperTile
from layouts.document import Each, Kit, UnknownPlace
from layouts.document.places import value_at

__all__ = ["About", "about_thing"]


@dataclass(frozen=True, slots=True)
class About:
    """What a check says of a thing: its findings, and the prints that it is cut from as they are planned."""

    findings: tuple[FindingLine, ...]
    papers: tuple[PaperTile, ...]


def about_thing(
    kit: Kit, place: str, said: Mapping[str, tuple[FindingLine, ...]], papers: tuple[PaperTile, ...]
) -> About:
    """Return what there is to say beside a thing; `papers` are the tiles of all prints."""
    prints = _prints(kit, place)
    findings = dict.fromkeys(one for at, lines in said.items() if at == place or _is_inside(at, place) for one in lines)
    return About(tuple(findings), tuple(one for one in papers if one.paper in prints))


def _is_inside(at: str, place: str) -> bool:
    return at.startswith(f"{place}/")


def _prints(kit: Kit, place: str) -> set[str]:
    kind, _, id_ = place.rpartition("/")[2].partition(":")
    if kind == "paper":
        return {id_}
    try:
        thing = value_at(kit, place)
    except UnknownPlace:
        return set()
    made = [*thing.pieces, *thing.forms] if kind == "project" else [thing] if kind in ("piece", "form") else []
    return {print_ for one in made for print_ in _of(one.paper)}


def _of(paper: Any) -> tuple[str, ...]:
    return paper.each if isinstance(paper, Each) else () if paper is None else (paper,)
