"""The page of a kit as a whole, and the parts of it that change while it is open."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from frontend.kit_page.checks import Check, Shown, check_state, shown_proof
from frontend.kit_page.drawn import Drawings, DrawnProject, DrawnSchedule
from frontend.kit_page.findings import FindingLine, WeightGroup, finding_groups, said_at
from frontend.kit_page.making import (
    Figure,
    FormLine,
    PlacementLine,
    StepLine,
    face_figures,
    form_lines,
    placement_lines,
    step_lines,
)
from frontend.kit_page.papers import PaperTile, paper_tiles
from frontend.kit_page.pieces import PieceLine, Pieces
from frontend.kit_page.spare import WeakestPart, weakest_part
from frontend.words.numbers import counted, listed
from frontend.words.order import OrderWords, order_words
from frontend.words.places import Places
from kits.planning.queries import KitPage
from layouts.assembly import Names
from layouts.document import Kit, Project, read_kit
from layouts.shapes import FlatSizes

__all__ = ["ClosedProject", "ProjectPart", "ProofPart", "making_parts", "proof_part"]


@dataclass(frozen=True, slots=True)
class ProofPart:
    """Verdict, weakest point, papers, findings, order: what a check changes. `said` are the findings by the id they
    stand beside."""

    check: Check
    shown: Shown
    papers: tuple[PaperTile, ...]
    groups: tuple[WeightGroup, ...]
    said: dict[str, tuple[FindingLine, ...]]
    order: OrderWords | None
    weakest: WeakestPart | None


@dataclass(frozen=True, slots=True)
class ProjectPart:
    id: str
    place: str
    title: str
    makes: int
    pieces: tuple[PieceLine, ...]
    forms: tuple[FormLine, ...]
    placements: tuple[PlacementLine, ...]
    faces: tuple[tuple[str, tuple[Figure, ...]], ...]
    steps: tuple[StepLine, ...]
    drawn: DrawnProject


@dataclass(frozen=True, slots=True)
class ClosedProject:
    """A project of a large kit that is not shown yet: what it is called, and how much there is of it."""

    id: str
    place: str
    title: str
    makes: int
    holds: str
    is_closed: bool = True

    @classmethod
    def of(cls, project: Project) -> ClosedProject:
        counts = (
            (len(project.pieces), "piece"),
            (len(project.forms), "folded part"),
            (len(project.steps), "step"),
        )
        holds = listed([counted(many, what) for many, what in counts if many])
        return cls(project.id, f"project:{project.id}", project.title, project.makes, holds or "nothing yet")


def proof_part(page: KitPage, now: datetime) -> ProofPart:
    """Return what is known about a kit; where its newest check has no proof yet, what was known before."""
    kit = page.document
    shown = shown_proof(page.run, page.proved, page.draft.revision)
    proved = kit if shown.current or shown.proof is None else read_kit(shown.document.encode())
    earlier = {} if shown.proof is None else {paper["paper"]: paper for paper in shown.proof["papers"]}
    findings = () if shown.proof is None else shown.proof["findings"]
    groups = finding_groups(findings, Places(proved), proved.accepted)
    return ProofPart(
        check=check_state(page.run, shown, {paper.id: paper.name for paper in kit.papers}, now),
        shown=shown,
        papers=paper_tiles(kit, shown.answers, earlier, proved, findings),
        groups=groups,
        said=said_at(groups),
        order=None if shown.proof is None else order_words(proved, shown.proof),
        weakest=None if shown.proof is None else weakest_part(proved, shown.proof["papers"]),
    )


def making_parts(
    kit: Kit,
    proof: Mapping[str, Any] | None,
    said: dict[str, tuple[FindingLine, ...]],
    only: Collection[str] | None = None,
) -> tuple[tuple[ProjectPart, ...], DrawnSchedule | None]:
    """Return the projects of a kit, and what to make when. `proof` is that of this document, None where there is none:
    its figures are those that the drawings show. With `only`, ids of projects, no others are worked out, nor when."""
    pieces, places, names, sizes = Pieces(kit, said), Places(kit), Names(kit), FlatSizes.of(kit)
    drawings = Drawings(kit, proof)
    parts = []
    for project in kit.projects:
        if only is not None and project.id not in only:
            continue
        drawn = drawings.of(project)
        parts.append(
            ProjectPart(
                id=project.id,
                place=f"project:{project.id}",
                title=project.title,
                makes=project.makes,
                pieces=pieces.lines(project.id),
                forms=form_lines(kit, project, sizes, drawn, said),
                placements=placement_lines(project, places, drawn, said),
                faces=face_figures(drawn),
                steps=step_lines(kit, project, names, said),
                drawn=drawn,
            )
        )
    return tuple(parts), None if only is not None else drawings.schedule()
