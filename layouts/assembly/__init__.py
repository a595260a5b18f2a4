"""Making a kit: steps and what they wait for, the order of projects, and what the text of a step says."""

from layouts.assembly.order import Because, Order, order_of
from layouts.assembly.precedence import Precedence
from layouts.assembly.references import Names, Target, resolve
from layouts.assembly.steps import KitSteps, PlannedStep, steps_of
from layouts.assembly.text import Part, Reference, StrayBrace, Words, parse_text
from layouts.assembly.time import Time, time_of
from layouts.assembly.typed import TypedNumber, typed_numbers

__all__ = [
    "Because",
    "KitSteps",
    "Names",
    "Order",
    "Part",
    "PlannedStep",
    "Precedence",
    "Reference",
    "StrayBrace",
    "Target",
    "Time",
    "TypedNumber",
    "Words",
    "order_of",
    "parse_text",
    "resolve",
    "steps_of",
    "time_of",
    "typed_numbers",
]
