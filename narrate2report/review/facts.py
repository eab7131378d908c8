"""An entry with the facts that a person typed: only what its kind can have, and what it must have."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from narrate2report.errors import CannotDecide
from narrate2report.records.findings import Attribute, Entry, Evidence, Findings, Size
from narrate2report.records.moments import clock
from narrate2report.review.fields import OWN
from narrate2report.review.requests import Facts
from narrate2report.review.spine import Span

NEEDS = {
    "condition": ("condition", "assertion"),
    "check": ("outcome",),
    "handover": ("direction",),
    "follow_up": ("action",),
    "description": ("attribute",),
    "advice": (),
}
"""What an entry of each kind must say (contract: the fields of an entry)."""

_PLAIN = ("kind", "room", "component", "condition", "assertion", "outcome", "action", "party", "quantity", "direction")
_ASSUMED = {"assertion": "present", "direction": "given"}
"""What goes without saying."""


NEAR_S = 30.0
"""How far from its words a statement may be moved: the pause before the camera shows what is spoken of, no more."""


def with_facts(findings: Findings, entry: Entry, facts: Facts, said: Sequence[Span]) -> Entry:
    """The entry as it reads with these facts; `said` is where the words of each piece of its evidence were said.

    Raises CannotDecide where a fact is missing that its kind needs, or a time lies outside its recording or far
    from its words.
    """
    fields = entry.model_dump()
    named = facts.model_fields_set
    fields.update({name: getattr(facts, name) for name in _PLAIN if name in named})
    for name in ("where", "note"):
        if name in named:
            fields[name] = getattr(facts, name) or None
    if "severity" in named:
        fields["severity"] = facts.severity
    if "pre_existing" in named:
        fields["pre_existing"] = bool(facts.pre_existing)
    if "size" in named and facts.size != (entry.size.text if entry.size else None):
        fields["size"] = Size(text=facts.size) if facts.size else None
    if fields["kind"] == "description" and named & {"attribute", "value"}:
        fields["attribute"] = _attribute(entry, facts)
    _keep_to_kind(fields)
    if named & {"start", "end"}:
        fields["evidence"] = _retimed(findings, entry, facts, said)
    return Entry.model_validate(fields)


def _attribute(entry: Entry, facts: Facts) -> Attribute | None:
    """What is named becomes so, also when it is named as nothing: a description without a value is none."""
    named, before = facts.model_fields_set, entry.attribute
    name = facts.attribute if "attribute" in named or before is None else before.name
    value = facts.value if "value" in named or before is None else before.value
    if name and not value:
        raise CannotDecide("a description needs its value; say what it is, or leave the entry out")
    return Attribute(name=name, value=value) if name and value else None


def _keep_to_kind(fields: dict[str, Any]) -> None:
    for name in ("kind", "room", "component"):
        if not fields[name]:
            raise CannotDecide(f"the {name} is missing; choose one")
    kind = fields["kind"]
    for name in (name for owner, names in OWN.items() if owner != kind for name in names):
        if name in fields and name not in OWN[kind]:
            fields[name] = None
    for name in NEEDS[kind]:
        if fields[name] is None:
            fields[name] = _ASSUMED.get(name)
        if fields[name] is None:
            raise CannotDecide(f"a {kind.replace('_', ' ')} needs its {name}; choose one")


def _retimed(findings: Findings, entry: Entry, facts: Facts, said: Sequence[Span]) -> tuple[Evidence, ...]:
    """The evidence with the start of its first piece and the end of its last one moved."""
    pieces = list(entry.evidence)
    if facts.start is not None:
        pieces[0] = pieces[0].moved(facts.start, pieces[0].end)
    if facts.end is not None:
        pieces[-1] = pieces[-1].moved(pieces[-1].start, facts.end)
    for piece in pieces:
        check_inside(findings, piece)
    for piece, span in ((pieces[0], said[0]), (pieces[-1], said[-1])):
        _check_near(piece, span)
    return tuple(pieces)


def check_inside(findings: Findings, piece: Evidence) -> None:
    """Raise CannotDecide for a stretch that ends before it starts, or lies outside every recording of the record."""
    lengths = {recording.file: recording.duration_s for recording in findings.recordings}
    if piece.recording not in lengths:
        raise CannotDecide(f"no recording {piece.recording!r} in this record")
    length = lengths[piece.recording]
    if piece.end <= piece.start or (length is not None and piece.end > length + 0.01):
        raise CannotDecide("a statement must end after it starts and lie inside its recording")


def _check_near(piece: Evidence, span: Span) -> None:
    first, last = span
    if piece.start < first - NEAR_S or piece.end > last + NEAR_S:
        where = f"{clock(first)} to {clock(last)}"
        raise CannotDecide(
            f"a statement stays within {NEAR_S:.0f} s of its words ({where}); for another moment make another entry"
        )
