"""Which piece comes out of which window: the choice that saves the most paper, found by trying all."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

__all__ = ["MOST_TRIED", "matched"]

# Pairs that are tried before the best choice so far is taken: a month's kit has a handful of windows.
MOST_TRIED = 5_000


def matched[Guest, Host](
    guests: Sequence[Guest],
    hosts: Mapping[Guest, Sequence[Host]],
    worth: Callable[[Guest], int],
    room: Callable[[Host], int],
    *,
    now: Mapping[Guest, Host],
    allowed: Callable[[Mapping[Guest, Host]], bool],
) -> dict[Guest, Host]:
    """Return the hosts of those guests that get one, each host given once, so that most is won.

    `hosts` are those that will do for a guest. `worth` is what is won if a guest has a host, `room` how large a host
    is. Who has a host `now` keeps one, this or another. Of choices that win as much, the one that moves the fewest is
    taken, then the one that takes the smallest hosts, then the first in the order given. `allowed` judges a choice
    that may have to be made larger: one that is not allowed stays so, whatever is added.
    """
    order = sorted(guests, key=lambda guest: (guest not in now, -worth(guest)))
    after = [0] * (len(order) + 1)
    for at in reversed(range(len(order))):
        after[at] = after[at + 1] + (0 if order[at] in now else worth(order[at]))
    best: dict[Guest, Host] = dict(now)
    best_score = (0, 0, 0)
    tried = 0
    chosen: dict[Guest, Host] = {}

    def search(at: int, won: int, moved: int, taken: int) -> None:
        nonlocal best, best_score, tried
        tried += 1
        if tried > MOST_TRIED or (won + after[at], -moved, -taken) <= best_score:
            return
        if at == len(order):
            if (won, -moved, -taken) > best_score:
                best, best_score = dict(chosen), (won, -moved, -taken)
            return
        guest = order[at]
        for host in hosts[guest]:
            if any(host == other for other in chosen.values()):
                continue
            chosen[guest] = host
            stays = guest in now and now[guest] == host
            if allowed(chosen):
                more = 0 if guest in now else worth(guest)
                search(at + 1, won + more, moved + (guest in now and not stays), taken + (0 if stays else room(host)))
            del chosen[guest]
        if guest not in now:
            search(at + 1, won, moved, taken)

    search(0, 0, 0, 0)
    return best
