"""What a mend or an idea costs, in words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from frontend.words.numbers import counted

__all__ = ["cost_words"]

# What else it costs than paper, by its name in a proof.
_OTHER = {
    "pieces": ("piece fewer", "pieces fewer"),
    "moved": ("piece on another print", "pieces on another print"),
    "turned": ("piece lies another way", "pieces lie another way"),
    "joined": ("piece of two strips", "pieces of two strips"),
    "cut_outs": ("piece out of a window", "pieces out of windows"),
}


def cost_words(cost: Mapping[str, int | str]) -> str:
    """Return what it costs: the sheets first, then what else there is a word for.

    >>> cost_words({"sheets": 1}), cost_words({"sheets": -2}), cost_words({"sheets": 0, "pieces": 1})
    ('1 sheet more', '2 sheets fewer', 'no more sheets, 1 piece fewer')
    """
    return ", ".join(_words(cost))


def _words(cost: Mapping[str, int | str]) -> Iterator[str]:
    sheets = int(cost.get("sheets", 0))
    yield f"{counted(abs(sheets), 'sheet')} {'more' if sheets > 0 else 'fewer'}" if sheets else "no more sheets"
    for name, words in _OTHER.items():
        if name in cost:
            yield counted(int(cost[name]), *words)
