"""Two people in one thing: what each of them changed since it was read, put together."""

from __future__ import annotations

from dataclasses import dataclass

from frontend.kit_page.things.texts import Texts

__all__ = ["Merged", "merged"]


@dataclass(frozen=True, slots=True)
class Merged:
    """The texts with both changes in them; `theirs` are those that both changed, each otherwise, by their controls."""

    texts: Texts
    theirs: dict[str, str]


def merged(seen: Texts, mine: Texts, now: Texts) -> Merged:
    """Return what was typed over what is there now; `seen` is what was there when the form was read.

    Of a value that both changed, mine stands in the texts and theirs beside it: nothing is chosen here.
    """
    texts, theirs = dict(now), {}
    for name in {**seen, **mine}:
        before, own, there = (_filled(one.get(name, ())) for one in (seen, mine, now))
        if own == before:
            continue
        texts[name] = mine.get(name, ())
        if there not in (before, own):
            theirs[name] = ", ".join(there)
    return Merged(texts, theirs)


def _filled(texts: tuple[str, ...]) -> tuple[str, ...]:
    """Empty and absent are the same."""
    return tuple(text for one in texts if (text := one.strip().replace("\r\n", "\n")))
