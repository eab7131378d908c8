"""The fixed wording of the work list and the calendar, as it stands in `languages/`."""

from __future__ import annotations

from typing import Final, Literal

from narrate2report.publish.wording_files import wording_of
from narrate2report.records.base import Value

Urgency = Literal["safety", "soon", "in_turn"]
"""Safety comes first, then what gets worse by waiting or keeps the unit from being lived in, then the rest."""


class WorkWords(Value):
    """Everything in work_list.yaml; `columns` stand in the order in which they are written."""

    title: str
    urgencies: dict[Urgency, str]
    rule: dict[Urgency, str]
    rule_note: str
    columns: dict[str, str]
    undecided: str
    nobody: str
    only_work: str
    reviewed: str
    empty: str
    about: str
    order: str
    cautions: str
    record: str
    draft: str


WORDS: Final = WorkWords.model_validate(wording_of("work_list"))

PRIORITIES: Final[dict[Urgency, int]] = {"safety": 1, "soon": 5, "in_turn": 9}
"""High, medium and low as RFC 5545 (section 3.8.1.9) counts them."""
