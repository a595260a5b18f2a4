"""Steps: instructions, with what they cut, use and wait for."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, Any, Literal

from pydantic import StrictStr
from pydantic_core import PydanticCustomError

from layouts.document.base import Bounded, DocumentObject, exactly_one
from layouts.document.values import Count, Duration, Id, PositiveLength

__all__ = ["Caution", "Step", "Use"]

Caution = Literal["blade", "heat", "solvent", "flame", "cell", "small-parts"]


class Use(DocumentObject):
    """One thing a step uses, how many of it, and how long a piece of it."""

    piece: Id | None = None
    form: Id | None = None
    element: StrictStr | None = None
    blank: Id | None = None
    supply: Id | None = None
    count: Count = 1
    length: PositiveLength | None = None

    @classmethod
    def faults(cls, given: Mapping[str, Any]) -> list[PydanticCustomError]:
        return exactly_one(given, "piece", "form", "element", "blank", "supply")


class Step(DocumentObject):
    """One instruction. `after` absent means after the step before it; an empty list means at once."""

    id: Id
    text: StrictStr
    cut: tuple[Annotated[Id, Bounded], ...] = ()
    use: tuple[Annotated[Use, Bounded], ...] = ()
    tools: tuple[Annotated[Id, Bounded], ...] = ()
    work: Duration | None = None
    hold: Duration | None = None
    held: Literal["by-hand", "clamped"] = "by-hand"
    dry: Duration | None = None
    after: tuple[Annotated[StrictStr, Bounded], ...] | None = None
    closes: tuple[Annotated[Id, Bounded], ...] = ()
    cautions: tuple[Annotated[Caution, Bounded], ...] = ()
