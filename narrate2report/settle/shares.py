"""How much of a cost is still the resident's: by age on a straight line, or by length of stay in published steps.

The straight line is cost x (life - age) / life, never below nothing: the rule of the California tenants' guide and of
the letting agents' guidance on apportionment whose worked examples stand in `references/useful-life.csv`. The steps
are the repaint schedule of the same California guide, for paint that lasts two years; they are not the straight line.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from decimal import Decimal
from fractions import Fraction

from narrate2report.records.life import Step
from narrate2report.records.unit import Work
from narrate2report.settle.spans import add_months

PRORATED: Mapping[Work, str] = {
    "replace": "The owner gets a new thing for a used one, so only what was left of its useful life is charged.",
    "repaint": "The owner gets new paint for used paint, so only what was left of its useful life is charged.",
}
NOT_PRORATED: Mapping[Work, str] = {
    "repair": "Repairing puts back what was there and gives the owner nothing newer, so it is not prorated.",
    "clean": "Cleaning puts back what was there and gives the owner nothing newer, so it is not prorated.",
    "touch_up": "Touching up puts back what was there and gives the owner nothing newer, so it is not prorated.",
    "secure": "Securing puts back what was there and gives the owner nothing newer, so it is not prorated.",
    "treat": "Treating puts back what was there and gives the owner nothing newer, so it is not prorated.",
    "supply": "What was handed over and not returned is supplied again; such things do not wear and are not prorated.",
}
"""The rule of what is prorated and what is not, by the work that is done."""


def straight_line(age_months: Fraction, life_years: Decimal) -> Fraction:
    """What is left of a useful life, from 1 when new down to 0 at its end and after. The age must not be negative."""
    if age_months < 0:
        raise ValueError("an age is never negative")
    return max(Fraction(0), 1 - age_months / (Fraction(life_years) * 12))


def step_of_stay(since: date, until: date, steps: Sequence[Step]) -> tuple[Step, bool]:
    """The step that a stay falls on, and whether it ends exactly on the border between two.

    The guide leaves the border itself open: it belongs to the later step, whose share is the lower one.
    """
    reached = [step for step in steps if add_months(since, step.since) <= until]
    if not reached:
        raise ValueError("a stay never ends before it begins")
    last = reached[-1]
    return last, last.since > 0 and add_months(since, last.since) == until
