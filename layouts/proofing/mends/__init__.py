"""Mends: changes of a kit that would make a print that is short suffice, each proved before it is shown.

`candidates` says what is tried, kind by kind; `search` has it proved and keeps, of each kind, the first that does.
"""

from layouts.proofing.mends.candidates import Mend
from layouts.proofing.mends.search import MendSearch

__all__ = ["Mend", "MendSearch"]
