"""What a narration should give, said briefly, and whether that is what it gave."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from narrate2report.records.findings import Entry

Seen = Callable[[Entry], Any]

FIELDS: Mapping[str, Seen] = {
    "component": lambda entry: entry.component,
    "room": lambda entry: entry.room,
    "condition": lambda entry: entry.condition,
    "assertion": lambda entry: entry.assertion,
    "outcome": lambda entry: entry.outcome,
    "action": lambda entry: entry.action,
    "party": lambda entry: entry.party,
    "quantity": lambda entry: entry.quantity,
    "direction": lambda entry: entry.direction,
    "severity": lambda entry: entry.severity,
    "pre_existing": lambda entry: entry.pre_existing,
    "name": lambda entry: entry.attribute and entry.attribute.name,
    "value": lambda entry: entry.attribute and entry.attribute.value.lower(),
    "size": lambda entry: entry.size and entry.size.value,
    "unit": lambda entry: entry.size and entry.size.unit,
}


@dataclass(frozen=True)
class Want:
    """An entry as it should be. A field may name several values, `pipe|sink`: each is right."""

    kind: str
    fields: Mapping[str, Any] = field(default_factory=dict)
    where: str = ""
    heard: str = ""

    def is_met_by(self, entry: Entry) -> bool:
        """Whether an entry says this."""
        if entry.kind != self.kind or self.where not in (entry.where or "").lower():
            return False
        if self.heard and not any(self.heard in repair.read for repair in entry.heard):
            return False
        return all(_accepts(wanted, FIELDS[name](entry)) for name, wanted in self.fields.items())

    def __str__(self) -> str:
        told = " ".join(f"{name}={value}" for name, value in self.fields.items())
        return f"{self.kind} {told} {self.where} {self.heard}".strip()


def _accepts(wanted: Any, got: Any) -> bool:
    if isinstance(wanted, str):
        return got in wanted.split("|")
    return bool(wanted == got)


def condition(component: str, name: str, assertion: str = "present", **more: Any) -> Want:
    """`condition("wall", "scuff", where="by the door")`."""
    return _want("condition", more, component=component, condition=name, assertion=assertion)


def check(component: str, outcome: str, **more: Any) -> Want:
    """`check("smoke_alarm", "works")`."""
    return _want("check", more, component=component, outcome=outcome)


def advice(component: str, **more: Any) -> Want:
    """`advice("grout")`."""
    return _want("advice", more, component=component)


def follow_up(component: str, action: str, **more: Any) -> Want:
    """`follow_up("caulk", "repair", party="manager")`."""
    return _want("follow_up", more, component=component, action=action)


def handover(component: str, quantity: int | None, direction: str = "given") -> Want:
    """`handover("key", 2)`."""
    return _want("handover", {}, component=component, quantity=quantity, direction=direction)


def description(component: str, name: str, value: str) -> Want:
    """`description("vanity", "material", "marble")`."""
    return _want("description", {}, component=component, name=name, value=value)


def _want(kind: str, more: dict[str, Any], **fields: Any) -> Want:
    where, heard = more.pop("where", ""), more.pop("heard", "")
    return Want(kind, {**fields, **more}, where, heard)


def difference(
    entries: Sequence[Entry], asked: Sequence[Want | tuple[Want, ...]], optional: Sequence[Want] = ()
) -> str:
    """What is missing and what is too much, in plain words; empty where the entries are as asked.

    Several wants in one tuple state one fact: one is enough and each may stand.
    """
    groups = [one if isinstance(one, tuple) else (one,) for one in asked]
    used = _assigned(groups, entries)
    if used is None:
        missing = [group for group in groups if not any(want.is_met_by(e) for want in group for e in entries)]
        return "missing: " + "; ".join(" or ".join(map(str, group)) for group in missing or groups)
    allowed = [*optional, *(want for group in groups if len(group) > 1 for want in group)]
    over = [
        entry
        for at, entry in enumerate(entries)
        if at not in used and not any(want.is_met_by(entry) for want in allowed)
    ]
    return "too much: " + "; ".join(entry.model_dump_json(exclude_defaults=True) for entry in over) if over else ""


def _assigned(groups: Sequence[tuple[Want, ...]], entries: Sequence[Entry]) -> frozenset[int] | None:
    """An entry of its own for each group, by their places; None where there is none."""
    if not groups:
        return frozenset()
    for at, entry in enumerate(entries):
        if any(want.is_met_by(entry) for want in groups[0]):
            rest = _assigned(groups[1:], [one for here, one in enumerate(entries) if here != at])
            if rest is not None:
                return frozenset({at, *(here + (here >= at) for here in rest)})
    return None
