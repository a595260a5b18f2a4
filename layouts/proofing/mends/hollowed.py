"""A mat hollowed where a layer hides its middle: what comes out of it is paper for other pieces."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import ceil, floor

from layouts.document import Change, Piece, Project, Window, added, change_to
from layouts.lengths import Length
from layouts.proofing.mends.case import Candidate, Case
from layouts.proofing.mends.cut_outs import mend_of_pairs, ways_out_of
from layouts.proofing.mends.hidden import HIDING, is_plain
from layouts.proofing.mends.mend import Mend
from layouts.proofing.mends.offers import Offer
from layouts.shapes.faces import Rectangle

__all__ = ["hollowed"]

# Mats that are looked at, those with the largest hidden part first.
MOST_MATS = 6
# What opens a window, the first that a kit has.
_OPENERS = ("knife", "scissors")
_ID = "hollow"


def hollowed(case: Case) -> Iterator[Mend]:
    """Yield the pieces that could come out of hidden middles: singly, each out of another, and several out of one."""
    offers = list(_hollows(case))
    if not offers:
        return
    yield from ways_out_of(case, offers)
    for offer in offers:
        together = list(_together(case, offer))
        if len(together) > 1:
            yield mend_of_pairs(case, [(one, offer) for one in together])


def _together(case: Case, offer: Offer) -> Iterator[Candidate]:
    """The pieces that could all come out of one middle as far as their area says, the largest first."""
    left = offer.area
    for one in sorted(case.direct, key=lambda one: -one.area * one.copies):
        if one.area * one.copies <= left and offer.yields(one.want, case.answer.part.slack):
            left -= one.area * one.copies
            yield one


def _hollows(case: Case) -> Iterator[Offer]:
    """What could be cut out of the pieces of this print where a layer hides it, the largest first."""
    mirrored = {piece.mirror_of for _, piece in case.made.values()}
    found: list[Offer] = []
    for want in case.answer.part.wants:
        if want.place not in case.made:
            continue
        project, piece = case.made[want.place]
        if len(want.copies) != project.makes * piece.count or not is_plain(piece):
            continue
        # What shows on both its sides is hidden on neither by what lies on one.
        if piece.mirror_of is not None or piece.id in mirrored or piece.side == "both":
            continue
        middles = [_middle(case, area) for area in case.hidden.of_piece(want.place)]
        largest = max((area for area in middles if area is not None), key=lambda area: area.area, default=None)
        if largest is not None:
            changes = (
                added(case.kit, f"{want.place}/window:{_ID}", _window(case, largest)),
                *_opener(case, project, piece),
            )
            size = int(largest.width), int(largest.height)
            found.append(Offer(project, piece, want, _ID, *size, changes, is_new=True))
    yield from sorted(found, key=lambda offer: -offer.area)[:MOST_MATS]


def _middle(case: Case, area: Rectangle) -> Rectangle | None:
    """What of a hidden area may be cut out: it stays hidden all round, and is measured in printed steps."""
    step, rim = case.step.ticks, HIDING.ticks
    left, bottom = (ceil((low + rim) / step) * step for low in (area.left, area.bottom))
    right, top = (floor((high - rim) / step) * step for high in (area.right, area.top))
    if right <= left or top <= bottom:
        return None
    return Rectangle(*map(Fraction, (left, bottom, right, top)))


def _window(case: Case, area: Rectangle) -> Window:
    left, bottom, width, height = (
        Length(int(side), case.step.system) for side in (area.left, area.bottom, area.width, area.height)
    )
    return Window(id=_ID, left=left, bottom=bottom, width=width, height=height, cut_out="kept")


def _opener(case: Case, project: Project, piece: Piece) -> Iterator[Change]:
    """The tool for the new window in the step that first cuts the piece, where no step that handles it lists any."""
    kinds = {tool.id: tool.kind for tool in case.kit.tools}
    handling = [step for step in project.steps if piece.id in step.cut or piece.id in (use.piece for use in step.use)]
    if any(kinds[tool] in (*_OPENERS, "punch", "other") for step in handling for tool in step.tools):
        return
    opener = next((tool for kind in _OPENERS for tool in case.kit.tools if tool.kind == kind), None)
    step = next((step for step in handling if piece.id in step.cut), None)
    if opener is None or step is None:
        return
    place = f"project:{project.id}/step:{step.id}"
    yield change_to(case.kit, f"{place}/tools", (*step.tools, opener.id))
    if opener.kind == "knife" and "blade" not in step.cautions:
        yield change_to(case.kit, f"{place}/cautions", (*step.cautions, "blade"))
