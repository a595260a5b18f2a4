"""Figures as sheets print them: which there are, what must hold between them, and each as shown in either system."""

from layouts.printed.as_shown import kit_as_shown
from layouts.printed.figures import Figure, shown, text_of
from layouts.printed.printing import Printing, ShownFigures, figures, grid_of
from layouts.printed.relations import PrintedSum

__all__ = [
    "Figure",
    "PrintedSum",
    "Printing",
    "ShownFigures",
    "figures",
    "grid_of",
    "kit_as_shown",
    "shown",
    "text_of",
]
