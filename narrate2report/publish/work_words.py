"""The fixed wording of the work list and the calendar: another language is another such module."""

from __future__ import annotations

from typing import Final, Literal

Urgency = Literal["safety", "soon", "in_turn"]
"""Safety comes first, then what gets worse by waiting or keeps the unit from being lived in, then the rest."""

URGENCIES: Final[dict[Urgency, str]] = {"safety": "1 Safety", "soon": "2 Soon", "in_turn": "3 In turn"}
RULE: Final[dict[Urgency, str]] = {
    "safety": "a smell of gas, bare wiring, something called unsafe, an edge to cut or trip on, a railing, stair, deck "
    "or grab bar that may give way, and whatever is wrong with an alarm or another safety device",
    "soon": "water (leak, damp, mold, water damage), a flaw of an outlet, switch, fixture or panel, a check that "
    "failed, and whatever was called severe",
    "in_turn": "everything else",
}
RULE_NOTE: Final = (
    "What is to be done about a part is as urgent as the worst that was said of that part. This is an order in which "
    "to look at things, and no finding on safety: local codes and licensed people decide."
)

COLUMNS: Final = {
    "number": "No.",
    "urgency": "Urgency",
    "unit": "Unit",
    "room": "Room",
    "part": "Part",
    "found": "What was found",
    "to_do": "To do",
    "party": "By",
    "mind": "Mind",
    "time": "Time",
    "link": "Link",
    "still": "Picture",
    "remark": "Remark",
    "reviewed": "Reviewed",
    "entry": "Entry",
    "record": "Record",
}
TITLE: Final = "Work list"
UNDECIDED: Final = "to be decided"
NOBODY: Final = "not said"
ONLY_WORK: Final = "nothing was said to be wrong with it"
REVIEWED: Final = "yes"
EMPTY: Final = "The record names no work, no flaw and no check that failed. That is no proof that nothing is wrong."
ABOUT: Final = "About this list"
ORDER: Final = "Order"
CAUTIONS: Final = "Please mind"
RECORD: Final = "Record"
DRAFT: Final = "DRAFT"
PRIORITIES: Final[dict[Urgency, int]] = {"safety": 1, "soon": 5, "in_turn": 9}
"""High, medium and low as RFC 5545 (section 3.8.1.9) counts them."""
