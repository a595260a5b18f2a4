"""Mends: changes of a kit that would make a print that is short suffice, or save paper of one that fits.

`candidates` says what is tried, kind by kind, each a module of its own; `search` has it proved and keeps, of each kind,
the first that does.
"""

from layouts.proofing.mends.mend import Mend
from layouts.proofing.mends.search import MendSearch

__all__ = ["Mend", "MendSearch"]
