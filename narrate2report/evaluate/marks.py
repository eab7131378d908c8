"""What should have been read of a walk: entries as a person marked them by hand, or decided them in a review.

A mark names what must be right of an entry of its kind, and where it was said. A field may have several values that
are all right; an `optional` mark is neither asked for nor held against anyone, and of those that are `same_as` each
other one is enough.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final

from narrate2report.records.findings import SOUND, Entry, Evidence, Findings

KEYS: Final[Mapping[str, tuple[str, ...]]] = {
    "condition": ("room", "component", "condition", "assertion"),
    "check": ("room", "component", "outcome"),
    "handover": ("component", "quantity"),
    "advice": ("component",),
    "follow_up": ("component", "action"),
    "description": ("component", "name"),
}
"""What must be right of an entry of each kind for it to say what a mark says."""


@dataclass(frozen=True)
class Said:
    """Where something was said: from when to when, in seconds of a recording."""

    start: float
    end: float
    recording: str | None = None
    """Its file; None where there is only one."""

    def meets(self, other: Said) -> bool:
        """Whether both are about the same words."""
        if self.recording and other.recording and self.recording != other.recording:
            return False
        return (self.start < other.end and self.end > other.start) or other.start <= self.start < other.end


@dataclass(frozen=True)
class Mark:
    """One thing that should have been read."""

    kind: str
    fields: Mapping[str, frozenset[Any]]
    where: tuple[Said, ...]
    told: str
    """The mark in words, for whoever looks for what was missed."""
    optional: bool = False
    same_as: frozenset[int] = frozenset()

    @property
    def is_adverse(self) -> bool:
        """Whether it speaks of something wrong, in each of the ways in which it may be read."""
        if self.kind == "check":
            return self.fields["outcome"] == {"fails"}
        if self.kind != "condition":
            return False
        return "absent" not in self.fields["assertion"] and not self.fields["condition"] & SOUND

    @property
    def may_be_adverse(self) -> bool:
        """Whether it speaks of something wrong in at least one of them."""
        if self.kind == "check":
            return "fails" in self.fields["outcome"]
        if self.kind != "condition":
            return False
        return bool(self.fields["assertion"] - {"absent"} and self.fields["condition"] - SOUND)


@dataclass(frozen=True)
class Gold:
    """All marks of a walk, and in how many stretches it was told."""

    marks: tuple[Mark, ...]
    stretches: int


def marks_of(
    entries: Sequence[Mapping[str, Any]], lines: Sequence[tuple[float, float]], slack: float
) -> tuple[Mark, ...]:
    """The marks of a narration marked by hand; `line` counts its lines from 1, `slack` widens each on both sides.

    Raises KeyError, TypeError or IndexError where an entry is not of that form.
    """
    return tuple(
        Mark(
            kind=entry["kind"],
            fields={name: _choices(entry[name]) for name in KEYS[entry["kind"]] if name in entry},
            where=tuple(
                Said(lines[line - 1][0] - slack, lines[line - 1][1] + slack) for line in sorted(_choices(entry["line"]))
            ),
            told=_told(entry),
            optional=bool(entry.get("optional")),
            same_as=_choices(entry["same_as"]) if entry.get("same_as") is not None else frozenset(),
        )
        for entry in entries
    )


def decided_marks(findings: Findings) -> Gold:
    """What a person left in a record that they decided: every entry that was not dropped."""
    kept = [entry for entry in findings.entries if entry.stands]
    marks = tuple(
        Mark(
            kind=entry.kind,
            fields={name: frozenset({fields[name]}) for name in KEYS[entry.kind]},
            where=tuple(map(said_at, entry.evidence)),
            told=_told(entry.model_dump(mode="json") | fields),
        )
        for entry in kept
        for fields in (key_fields(entry),)
    )
    said = {
        (piece.recording, name) for entry in findings.entries for piece in entry.evidence for name in piece.sentences
    }
    return Gold(marks, len(said) + len(findings.unused))


def key_fields(entry: Entry) -> dict[str, Any]:
    """What a mark asks of an entry, by name."""
    known: dict[str, Any] = entry.model_dump(include={"room", "component", "condition", "assertion", "outcome"})
    known |= {"quantity": entry.quantity, "action": entry.action}
    return known | {"name": entry.attribute.name if entry.attribute else None}


def said_at(piece: Evidence) -> Said:
    """Where a piece of evidence was said."""
    return Said(piece.start, piece.end, piece.recording)


def _choices(value: Any) -> frozenset[Any]:
    return frozenset(value) if isinstance(value, list) else frozenset({value})


def _told(fields: Mapping[str, Any]) -> str:
    """`kitchen countertop chip present`, as the files have it, where several are right with a bar between."""
    words = [fields.get(name) for name in KEYS[fields["kind"]]]
    told = ["|".join(map(str, word)) if isinstance(word, list) else str(word) for word in words if word is not None]
    return " ".join([fields["kind"], *told])
