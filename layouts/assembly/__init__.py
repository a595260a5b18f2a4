"""Making a kit: steps and what they wait for, the order of projects, and what the text of a step says."""

from layouts.assembly.hands import OnePerson, Wait, one_person, waits_of
from layouts.assembly.order import Because, Order, order_of
from layouts.assembly.precedence import Precedence
from layouts.assembly.references import Names, Target, resolve
from layouts.assembly.schedule import Bar, Schedule, ScheduledStep, schedule_of
from layouts.assembly.steps import KitSteps, PlannedStep, steps_of
from layouts.assembly.text import Part, Reference, StrayBrace, Words, parse_text
from layouts.assembly.time import Time, time_of
from layouts.assembly.typed import TypedNumber, typed_numbers

__all__ = [
    "Bar",
    "Because",
    "KitSteps",
    "Names",
    "OnePerson",
    "Order",
    "Part",
    "PlannedStep",
    "Precedence",
    "Reference",
    "Schedule",
    "ScheduledStep",
    "StrayBrace",
    "Target",
    "Time",
    "TypedNumber",
    "Wait",
    "Words",
    "one_person",
    "order_of",
    "parse_text",
    "resolve",
    "schedule_of",
    "steps_of",
    "time_of",
    "typed_numbers",
    "waits_of",
]
