"""Another source for a piece that does not come out of the cut-out that it is to come from."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import islice

from layouts.document import Change, change_to
from layouts.proofing.mends.case import Candidate, Case
from layouts.proofing.mends.cut_outs import MOST_OFFERS, MOST_WINDOWS, Sharing
from layouts.proofing.mends.mend import Mend, cost
from layouts.proofing.mends.offers import cut_from, offered_windows

__all__ = ["other_sources"]


def other_sources(case: Case, place: str) -> tuple[tuple[Mend, ...], ...]:
    """Return the ways of each kind to cut a piece of this print (by its place) that its cut-out does not yield: that
    cut-out is kept, where it was thrown away; another one, the tightest first; or the sheets themselves."""
    want = next((one for one in case.answer.part.wants if one.place == place), None)
    if want is None or want.host is None or place not in case.made:
        return ()
    one = Candidate(*case.made[place], want)
    if len(want.copies) != one.copies:
        return ()  # some of its copies come from another print
    return tuple(_kept(case, one, want.host)), tuple(_from_windows(case, one)), tuple(_from_sheets(case, one))


def _left(case: Case, one: Candidate) -> Iterator[Change]:
    """Nobody keeps the cut-out that a piece no longer comes from, unless something else does."""
    guests = [piece for _, piece in case.made.values() if piece.from_ == one.piece.from_]
    if len(guests) == 1 and one.want.host is not None:
        place, window = one.want.host
        if any(own.id == window and own.cut_out == "kept" for own in case.made[place][1].windows):
            yield change_to(case.kit, f"{place}/window:{window}/cut_out", "waste")


def _kept(case: Case, one: Candidate, host: tuple[str, str]) -> Iterator[Mend]:
    piece = case.made[host[0]][1]
    if any(window.id == host[1] and window.cut_out == "waste" for window in piece.windows):
        change = change_to(case.kit, f"{host[0]}/window:{host[1]}/cut_out", "kept")
        words = f"Keep what comes out of the window {host[1]} of {piece.id}, so that {one.name} can be cut from it."
        yield Mend((change,), words, cost(kept=1))


def _from_windows(case: Case, one: Candidate) -> Iterator[Mend]:
    offers = list(islice(offered_windows(case), MOST_OFFERS))
    free = [offer for offer in Sharing(case, offers).for_(one) if not offer.guests]
    for offer in free[:MOST_WINDOWS]:
        host = Candidate(offer.project, offer.piece, offer.host)
        words = f"Cut {one.name} out of the window {offer.window} of {host.called} instead."
        yield Mend((*cut_from(case, one, offer), *_left(case, one)), words, cost(cut_outs=one.copies))


def _from_sheets(case: Case, one: Candidate) -> Iterator[Mend]:
    changes = (
        change_to(case.kit, f"{one.place}/from", None),
        change_to(case.kit, f"{one.place}/paper", case.paper.id),
        *_left(case, one),
    )
    words = f"Cut {one.name} from a sheet of {case.paper.name} instead, which has paper left."
    yield Mend(changes, words, cost(moved=one.copies))
