"""Making a kit: steps and what they wait for, the order of projects, and what the text of a step says."""

from layouts.assembly.order import Because, Order, order_of
from layouts.assembly.precedence import Precedence
from layouts.assembly.steps import KitSteps, PlannedStep, steps_of
from layouts.assembly.time import Time, time_of

__all__ = [
    "Because",
    "KitSteps",
    "Order",
    "PlannedStep",
    "Precedence",
    "Time",
    "order_of",
    "steps_of",
    "time_of",
]
