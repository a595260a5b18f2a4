"""A piece that comes out of a window: one whose cut-out is thrown away, or kept and not used yet."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from itertools import islice

from layouts.assembly import Precedence, order_of, steps_of
from layouts.lengths import Length
from layouts.proofing.mends.case import Candidate, Case
from layouts.proofing.mends.matching import matched
from layouts.proofing.mends.mend import Mend, area_words, cost, listed
from layouts.proofing.mends.offers import Offer, cut_from, offered_windows

__all__ = [
    "MOST_OFFERS",
    "MOST_WINDOWS",
    "Sharing",
    "from_cut_outs",
    "mend_of_pairs",
    "saving_area",
    "ways_out_of",
]

# Windows of one print that are looked at, those that are tried for one piece, and pieces, those that have a window and
# those that want one, among which windows are shared out.
MOST_OFFERS = 60
MOST_WINDOWS = 2
MOST_GUESTS = 8
# Pieces out of windows that are proposed for one print only because paper is saved.
MOST_SAVINGS = 3

type Pairs = Sequence[tuple[Candidate, Offer]]


def from_cut_outs(case: Case) -> Iterator[Mend]:
    """Yield for each piece the windows that it could come out of, the tightest first; then the most that all windows
    of the print together can yield."""
    yield from ways_out_of(case, list(islice(offered_windows(case), MOST_OFFERS)))


def saving_area(case: Case) -> tuple[Mend, ...]:
    """Return the pieces that could come out of windows, one by one, so that together they save the most paper."""
    free = [offer for offer in islice(offered_windows(case), MOST_OFFERS) if not offer.guests]
    pairs = Sharing(case, free).best(case.direct)
    largest = sorted(pairs, key=lambda pair: -pair[0].area * pair[0].copies)
    return tuple(mend_of_pairs(case, [pair]) for pair in largest[:MOST_SAVINGS])


def ways_out_of(case: Case, offers: Sequence[Offer]) -> Iterator[Mend]:
    """Yield the ways in which pieces come out of these windows, single ones first."""
    sharing = Sharing(case, offers)
    for one in case.pieces:
        if not isinstance(one.piece.paper, str):
            continue  # each copy takes its picture from another print
        free = [offer for offer in sharing.for_(one) if not offer.guests]
        for offer in free[:MOST_WINDOWS]:
            yield mend_of_pairs(case, [(one, offer)])
        if not free and (pairs := sharing.best([one])):
            yield mend_of_pairs(case, pairs)
    pairs = sharing.best(case.direct)
    if len(pairs) > 1:
        yield mend_of_pairs(case, pairs)


def mend_of_pairs(case: Case, pairs: Pairs) -> Mend:
    """Return the change by which each of some pieces comes out of a window."""
    changes = [change for one, offer in pairs for change in cut_from(case, one, offer)]
    # Several may come out of one window, which is kept once.
    changes = [change for at, change in enumerate(changes) if change not in changes[:at]]
    saved = sum(one.area * one.copies for one, _ in pairs if one.piece.from_ is None)
    area = area_words(saved, case.kit.unit)
    words = f"{' '.join(_sentences(case, pairs))} That saves {area} of {case.paper.name}."
    copies = sum(one.copies for one, _ in pairs if one.piece.from_ is None)
    return Mend(tuple(changes), words, cost(cut_outs=copies, saved=area), saved)


def _sentences(case: Case, pairs: Pairs) -> Iterator[str]:
    """One for each window, in the order of the pairs."""
    offers = {offer.source: offer for _, offer in pairs}
    for source, offer in offers.items():
        guests = listed([one.name for one, given in pairs if given.source == source])
        size = " × ".join(Length(side, case.kit.unit).text(case.kit.unit) for side in (offer.width, offer.height))
        host = Candidate(offer.project, offer.piece, offer.host)
        if offer.is_new:
            window = f"a window of {size} {case.kit.unit} in {host.name} where another layer hides it"
            yield f"Cut {window}, and {guests} from what comes out of it."
        elif offer.guests:
            yield f"Cut {guests} out of the window {offer.window} of {host.called}."
        else:
            state = "is thrown away" if offer.changes else "is kept and not used"
            yield (
                f"Cut {guests} out of the window {offer.window} of {host.called}: what comes out of it, {size} "
                f"{case.kit.unit}, {state} as yet."
            )


class Sharing:
    """Which windows do for which pieces of a print, and who gets which."""

    def __init__(self, case: Case, offers: Sequence[Offer]) -> None:
        self._case = case
        self._offers = {offer.source: offer for offer in offers}
        self._musts: Mapping[str, Sequence[str]] | None = None
        self._known: dict[str, list[Offer]] = {}
        self._in_order: dict[frozenset[tuple[str, str]], bool] = {}
        wants = {want.place: want for want in case.answer.part.wants}
        self._guests = {
            place: Candidate(*case.made[place], wants[place])
            for offer in offers
            for place in offer.guests
            if place in wants
        }

    def for_(self, one: Candidate) -> list[Offer]:
        """The windows that one piece could come out of alone, the tightest first."""
        if one.place not in self._known:
            slack = self._case.answer.part.slack
            found = [
                offer
                for offer in self._offers.values()
                if offer.yields(one.want, slack) and self._is_no_circle({one.place: offer.source})
            ]
            self._known[one.place] = sorted(found, key=lambda offer: offer.area)
        return self._known[one.place]

    def best(self, pieces: Sequence[Candidate]) -> list[tuple[Candidate, Offer]]:
        """The choice of windows for some pieces that saves the most paper; whoever has one already keeps one."""
        wanted = {one.place: one for one in pieces if self.for_(one)}
        largest = sorted(wanted.values(), key=lambda one: -one.area * one.copies)[:MOST_GUESTS]
        now = {place: one.piece.from_ for place, one in self._guests.items() if one.piece.from_ is not None}
        if len(now) > MOST_GUESTS:
            return []
        asking = self._guests | {one.place: one for one in largest}
        hosts = {place: [offer.source for offer in self.for_(one)] for place, one in asking.items()}
        for place, source in now.items():
            hosts[place] = [source, *(other for other in hosts[place] if other != source)]
        chosen = matched(
            list(asking),
            hosts,
            lambda place: asking[place].area * asking[place].copies,
            lambda source: self._offers[source].area,
            now=now,
            allowed=self._is_no_circle,
        )
        new = {place: source for place, source in chosen.items() if now.get(place) != source}
        return [(asking[place], self._offers[source]) for place, source in new.items()]

    def _is_no_circle(self, chosen: Mapping[str, str]) -> bool:
        """Whether the projects still have an order if these pieces come out of these windows."""
        home = {place: self._case.made[place][0].id for place in chosen}
        pairs = ((source.partition("/")[0], home[place]) for place, source in chosen.items())
        new = frozenset((first, then) for first, then in pairs if first != then)
        if new not in self._in_order:
            self._in_order[new] = not new or self._have_order(new)
        return self._in_order[new]

    def _have_order(self, new: Collection[tuple[str, str]]) -> bool:
        """Whether projects still have an order where of each of these pairs the first must come before the other."""
        if self._musts is None:
            self._musts = self._musts_now()
        before = {project: list(first) for project, first in self._musts.items()}
        for first, then in sorted(new):
            before[then].append(first)
        return not Precedence(tuple(before), before).circles

    def _musts_now(self) -> dict[str, list[str]]:
        kit = self._case.kit
        before: dict[str, list[str]] = {project.id: [] for project in kit.projects}
        for because in order_of(kit, steps_of(kit)).because:
            if because.reason != "drying":
                before[because.then].append(because.first)
        return before
