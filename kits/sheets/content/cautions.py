"""The usual cautions in words, with signal words in the sense of ANSI Z535, and where each comes from.

They defer to the maker's instructions and to local rules. A person of the team has to approve each of them by name;
none is approved yet, so the sheets say of the wording that it is a draft. NOTICE is never used for what can hurt
somebody.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Literal

__all__ = ["CAUTIONS", "Caution", "cautions_of", "words_below"]


@dataclass(frozen=True, slots=True)
class Caution:
    """One caution: its signal word, its sentences, the source of what it says, and who of the team approved it."""

    name: str
    signal: Literal["DANGER", "WARNING", "CAUTION"]
    text: str
    source: str
    approved_by: str = ""


# Signal words by meaning, ANSI Z535.4-2007 4.14: WARNING could result in death or serious injury, CAUTION in minor or
# moderate injury.
CAUTIONS = {
    one.name: one
    for one in (
        Caution(
            "cell",
            "WARNING",
            "Button cells can kill a child who swallows one. Keep them out of reach, close their compartment for good, "
            "and get medical help at once if one may have been swallowed.",
            "16 CFR 1263 and ANSI/UL 4200A-2023 (warnings on pack, product and instructions)",
        ),
        Caution(
            "flame",
            "WARNING",
            "Paper burns. Use battery lamps only, never a candle or any other flame.",
            "US Fire Administration and NFPA advice: candles 12 in from anything that burns, better battery candles",
        ),
        Caution(
            "solvent",
            "WARNING",
            "Solvent glue gives off vapour that burns, and that harms when breathed. Open a window, keep flames and "
            "sparks away, close the tube.",
            "the maker's label and safety data sheet (16 CFR 1500.3, .121: from memory)",
        ),
        Caution(
            "small-parts",
            "WARNING",
            "Small parts can choke. Not for children under 3 years.",
            "16 CFR 1500.19 (from memory)",
        ),
        Caution(
            "blade",
            "CAUTION",
            "Blades cut. Use a fresh one, cut away from the body along a metal rule on a cutting mat, and cap it "
            "after use.",
            "common practice, no source",
        ),
        Caution(
            "heat",
            "CAUTION",
            "Hot tools and hot glue burn. Let them stand on their rest, never unattended. Do not pull hot glue off "
            "skin: cool it with water.",
            "school and museum training sheets on hot melt glue",
        ),
    )
}
_DEFERS = "The maker’s instructions and your local rules come first."
_UNAPPROVED = "The wording of these cautions is a draft that nobody has approved yet."


def words_below(cautions: Sequence[Caution]) -> tuple[str, ...]:
    """Return what stands below the cautions of a sheet: what they defer to, and whether their wording is a draft."""
    return (_DEFERS,) if all(one.approved_by for one in cautions) else (_DEFERS, _UNAPPROVED)


def cautions_of(names: Iterable[str]) -> tuple[Caution, ...]:
    """Return the cautions of these names, each once, the gravest signal word first."""
    named = set(names)
    return tuple(caution for name, caution in CAUTIONS.items() if name in named)
