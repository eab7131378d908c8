"""The fields of an entry as a person fills them in: which each kind has, what they are called, what there is to pick.

The page is sent these, and the terminal asks by them.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Final, get_args

from narrate2report.records.findings import Action, Entry, Kind
from narrate2report.wording import CHECKED, HANDED, plain

KINDS: Final[Mapping[str, str]] = {
    "condition": "what was seen",
    "check": "what was tried",
    "handover": "handed over",
    "advice": "told to the resident",
    "follow_up": "work to do",
    "description": "what it is",
}
OWN: Final[Mapping[Kind, tuple[str, ...]]] = {
    "condition": ("condition", "assertion"),
    "check": ("outcome",),
    "handover": ("direction",),
    "advice": (),
    "follow_up": ("action", "party"),
    "description": ("attribute", "value"),
}
"""What only entries of a kind can have."""

ALWAYS: Final = ("where", "size", "severity", "quantity", "pre_existing", "note", "start", "end")
"""What entries of every kind can have, behind their room, component and own fields."""

CHOSEN: Final = ("room", "component", "condition")
"""What is chosen from the vocabulary."""

PICKS: Final[Mapping[str, Mapping[str, str]]] = {
    "kind": KINDS,
    "assertion": {"present": "is there", "absent": "is not there", "possible": "not certain"},
    "outcome": CHECKED,
    "direction": HANDED,
    "action": {action: plain(action) for action in get_args(Action)},
    "party": {party: party for party in ("resident", "owner", "manager")},
    "attribute": {"material": "material", "type": "type", "count": "number", "colour": "colour", "age": "age"},
    "severity": {severity: severity for severity in ("slight", "moderate", "severe")},
}
"""What is picked from a short list."""

UNSAID: Final = ("party", "severity")
"""Those that may stay unsaid."""

LABELS: Final[Mapping[str, str]] = {
    "kind": "Says",
    "room": "Room",
    "component": "Component",
    "condition": "Condition",
    "assertion": "Is it there",
    "outcome": "Outcome",
    "direction": "Direction",
    "action": "Work",
    "party": "By whom",
    "attribute": "Which property",
    "value": "Its value",
    "where": "Where on it",
    "size": "Size",
    "severity": "How bad",
    "quantity": "How many",
    "pre_existing": "Was there before",
    "note": "Your remark",
    "start": "From",
    "end": "To",
}


def fields_of(kind: Kind) -> tuple[str, ...]:
    """The fields that an entry of this kind has, in the order in which they are asked."""
    return ("room", "component", *OWN[kind], *ALWAYS)


def stands(entry: Entry) -> dict[str, Any]:
    """The fields of an entry as they stand, each by its name in `LABELS`."""
    flat = {name: getattr(entry, name, None) for name in LABELS}
    flat["size"] = entry.size.text if entry.size else None
    flat["attribute"] = entry.attribute.name if entry.attribute else None
    flat["value"] = entry.attribute.value if entry.attribute else None
    return flat | {"start": entry.evidence[0].start, "end": entry.evidence[-1].end}
