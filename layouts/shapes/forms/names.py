"""What the panels of a form are called, and which lies beside which: cheap even where there are very many.

| construction | panels |
|---|---|
| tray, lid | `base`, `wall-SIDE`; `wall-SIDE-inner` of double walls, `turn-in-SIDE` of single ones; `flange-SIDE` |
| scored | `base` within the innermost scores, then outwards `wall-SIDE`, `wall-SIDE-inner`, `flange-SIDE`, |
| | `flange-SIDE-2` …; and `corner-left-top` … where the corners are kept |
| sleeve | `panel-1` to `panel-4` from the left: across the width, the depth, the width, the depth |
| concertina | `panel-1` … from the left |
| pocket | `base` |
| frame | `strip-top`, `strip-bottom`, `strip-left`, `strip-right`: parts 1 to 4 |
| envelope | `base`, `flap-left`, `flap-right`, `flap-bottom`, `flap-top` |
| tag | `base` |

SIDE is `left`, `right`, `top` or `bottom` as the flat part lies with its outside up. Tabs carry nothing and are no
panels: `tab-left-top` … at the corners of a box, `tab` of a sleeve, `tab-1` … of a concertina at the end of each strip
but the last, `flap-SIDE` of a pocket. Waste is `waste-…`. A form of one panel answers to `panel-1` and to `base`.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Protocol

from layouts.shapes.forms.folded import Side

__all__ = ["ONLY_PANEL", "NamedPanels", "NumberedPanels", "PanelNames"]

# The other name of the base of a form that has no other panel.
ONLY_PANEL = "panel-1"

_OPPOSITE: Mapping[Side, Side] = {"left": "right", "right": "left", "top": "bottom", "bottom": "top"}


class PanelNames(Protocol):
    """The names of the panels of one form."""

    def __contains__(self, name: object) -> bool: ...

    def __iter__(self) -> Iterator[str]: ...

    def beside(self, name: str, side: Side) -> str | None:
        """Return the panel that a panel turns into on this side as the flat part lies, None where there is none.

        What lies beside the last panel of a strip of a concertina is the first panel of the next strip.
        """
        ...


@dataclass(frozen=True, slots=True)
class NamedPanels:
    """A first panel, and those that follow it outwards on each side; `apart` are panels that lie beside no other."""

    first: str
    sides: Mapping[Side, tuple[str, ...]] = field(default_factory=dict)
    apart: tuple[str, ...] = ()
    _beside: dict[str, dict[Side, str]] = field(init=False, default_factory=dict, repr=False, compare=False)

    def __post_init__(self) -> None:
        for name in (self.first, *self.apart):
            self._beside[name] = {}
        for side, names in self.sides.items():
            inner = self.first
            for name in names:
                self._beside[inner][side] = name
                self._beside[name] = {_OPPOSITE[side]: inner}
                inner = name

    def __contains__(self, name: object) -> bool:
        return name in self._beside or (name == ONLY_PANEL and len(self._beside) == 1)

    def __iter__(self) -> Iterator[str]:
        return iter(self._beside)

    def beside(self, name: str, side: Side) -> str | None:
        return self._beside.get(name, {}).get(side)


@dataclass(frozen=True, slots=True)
class NumberedPanels:
    """`panel-1`, `panel-2` … up to `count`, from left to right."""

    count: int

    def __contains__(self, name: object) -> bool:
        return self._number(name) is not None

    def __iter__(self) -> Iterator[str]:
        return (f"panel-{number}" for number in range(1, self.count + 1))

    def beside(self, name: str, side: Side) -> str | None:
        number = self._number(name)
        if number is None or side not in ("left", "right"):
            return None
        other = f"panel-{number - 1 if side == 'left' else number + 1}"
        return other if other in self else None

    def _number(self, name: object) -> int | None:
        digits = name.removeprefix("panel-") if isinstance(name, str) and name.startswith("panel-") else ""
        # No more digits than a count has: a name may be all zeros.
        if not (digits.isascii() and digits.isdigit() and len(digits) <= 5 and digits[0] != "0"):
            return None
        number = int(digits)
        return number if number <= self.count else None
