"""The record as the page shows it: plain JSON, worded here so that every window words it alike."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from typing import Any

from narrate2report.records.findings import Coverage, Entry, Evidence, Findings, Heard, Still, Unused
from narrate2report.records.journal import JournalLine
from narrate2report.records.moments import clock
from narrate2report.records.transcript import Gap
from narrate2report.review.choices import Choice, Choices
from narrate2report.review.decisions import statement
from narrate2report.review.fields import ALWAYS, CHOSEN, LABELS, OWN, PICKS, UNSAID, stands
from narrate2report.review.spine import Sentence, room_at
from narrate2report.review.undoing import standing
from narrate2report.wording import (
    LOOKED,
    REASONS,
    WALKS,
    called_out,
    misheard,
    plain,
    room_name,
    said,
    unit_name,
    weighed,
)

Json = dict[str, Any]

STATES = {"proposed": "to decide", "accepted": "accepted", "changed": "changed", "dropped": "left out"}


def whole_view(findings: Findings, spine: Sequence[Sentence], lines: Sequence[JournalLine], choices: Choices) -> Json:
    """Everything that the page shows when it opens."""
    numbers = findings.numbers()
    unused = {one.id for one in findings.unused}
    offered = choices.with_those_of(findings)
    return {
        "walk": _walk(findings),
        "recordings": [
            {"number": number, "file": one.file, "duration": one.duration_s, "media": one.media}
            for number, one in enumerate(findings.recordings)
        ],
        "sentences": [_sentence(one, findings, numbers, unused) for one in spine],
        "gaps": [_gap(number, gap, findings, numbers) for number, gap in enumerate(findings.transcript.gaps)],
        "entries": [entry_view(entry, numbers, choices) for entry in findings.entries],
        "coverage": [coverage_view(line) for line in findings.coverage if line.status == "not_noted"],
        "choices": {
            "rooms": _choices(offered.rooms),
            "components": _choices(offered.components),
            "conditions": _choices(offered.conditions),
        },
        "fields": {
            "own": OWN,
            "always": ALWAYS,
            "chosen": CHOSEN,
            "picks": PICKS,
            "unsaid": UNSAID,
            "labels": LABELS,
        },
        **progress(findings, lines),
    }


def changes_view(
    findings: Findings, lines: Sequence[JournalLine], new: Sequence[JournalLine], choices: Choices
) -> Json:
    """What these new lines have changed, as it stands now, for a window that has seen everything before them."""
    numbers = findings.numbers()
    entries = {entry.id: entry for entry in findings.entries}
    unused = {one.id: one for one in findings.unused}
    rows = {(row.room, row.component): row for row in findings.coverage}
    touched: dict[str, Json | None] = {}
    silent: dict[str, Json | None] = {}
    gaps: dict[tuple[str, str], Json] = {}
    for change in (change for line in new for change in line.changes):
        part = change.after if change.after is not None else change.before
        match part:
            case Entry():
                now = entries.get(part.id)
                touched[part.id] = entry_view(now, numbers, choices) if now else None
            case Unused():
                silent[part.id] = _reason(unused.get(part.id))
            case Coverage():
                gaps[part.room, part.component] = coverage_view(rows[part.room, part.component])
    return {
        "order": [entry.id for entry in findings.entries] if touched else None,
        "entries": touched,
        "unused": silent,
        "coverage": list(gaps.values()),
        "by": sorted({line.by for line in new}),
        **progress(findings, lines),
    }


def progress(findings: Findings, lines: Sequence[JournalLine]) -> Json:
    """How far the review has come."""
    done, undone = standing(lines)
    return {
        "head": len(lines),
        "undecided": sum(entry.state == "proposed" for entry in findings.entries),
        "open_gaps": sum(row.is_open for row in findings.coverage),
        "called_out": list(called_out(findings)),
        "can_undo": done[-1].action if done else None,
        "can_redo": bool(undone),
        "sealed": findings.seal is not None,
        "seal": findings.seal.sha256 if findings.seal else None,
    }


def entry_view(entry: Entry, numbers: Mapping[str, int], choices: Choices) -> Json:
    """One entry in words, with the fields that a person can change; `numbers` are those of the recordings."""
    return {
        "id": entry.id,
        "kind": entry.kind,
        "room": entry.room,
        "component": entry.component,
        "title": f"{plain(entry.component)}",
        "room_name": room_name(entry.room),
        "says": said(entry),
        "state": entry.state,
        "state_word": STATES[entry.state],
        "sound": choices.is_plain_and_sound(entry),
        "evidence": [evidence_view(piece, numbers) for piece in entry.evidence],
        "heard": [_misheard(one) for one in entry.heard],
        "because": list(entry.because),
        "sure": entry.confidence,
        "stills": [still_view(still, numbers) for still in entry.stills],
        "decided": entry.decided.model_dump() if entry.decided else None,
        "facts": stands(entry),
        "statement": statement(entry),
    }


def _misheard(one: Heard) -> Json:
    """A repair, or a question, with both words and how their sound compares."""
    why = "; ".join(filter(None, (one.why, weighed(one))))
    return {"heard": one.heard, "read": one.read, "why": why, "asked": one.asked}


def still_view(still: Still, numbers: Mapping[str, int]) -> Json:
    """A picture with where it lies, from the page's own address on."""
    return {
        "sha256": still.sha256,
        "time": still.time,
        "clock": clock(still.time),
        "recording": numbers[still.recording],
        "address": f"still/{still.sha256}",
    }


def coverage_view(row: Coverage) -> Json:
    """A component that was not spoken of, and what a person said of that."""
    known = row.acknowledged
    return {
        "room": row.room,
        "component": row.component,
        "room_name": room_name(row.room),
        "title": plain(row.component),
        "looked": known.looked if known else None,
        "looked_word": LOOKED[known.looked] if known else "not noted",
        "note": known.note if known else None,
    }


def _walk(findings: Findings) -> Json:
    header = findings.walkthrough
    kind, unit, date = ([one.value for one in getattr(header, name)][:1] for name in ("kind", "unit", "date"))
    parts = [*(WALKS.get(one, one) for one in kind), *map(unit_name, unit), *date]
    return {"name": " · ".join(parts) or "a walk", "clashes": list(header.clashes)}


def _sentence(one: Sentence, findings: Findings, numbers: Mapping[str, int], unused: Collection[str]) -> Json:
    room = room_at(findings, one.recording, one.start)
    return {
        "id": one.id,
        "recording": numbers.get(one.recording, 0),
        "start": one.start,
        "end": one.end,
        "clock": clock(one.start),
        "text": one.text,
        "room": room,
        "room_name": room_name(room),
        "unused": _reason(one.unused) if one.id in unused else None,
    }


def _gap(number: int, gap: Gap, findings: Findings, numbers: Mapping[str, int]) -> Json:
    """A stretch in which someone speaks and nothing was understood: a line that a person listens to."""
    room = room_at(findings, gap.recording, gap.start)
    return {
        "id": f"gap-{number}",
        "recording": numbers.get(gap.recording, 0),
        "start": gap.start,
        "end": gap.end,
        "clock": clock(gap.start),
        "text": f"(someone speaks for {gap.end - gap.start:.0f} s)",
        "room": room,
        "room_name": room_name(room),
        "unused": {"reason": "not understood", "because": "listen to it", "asked": []},
        "stretch": {"recording": gap.recording, "start": gap.start, "end": gap.end},
    }


def _reason(unused: Unused | None) -> Json | None:
    if unused is None:
        return None
    asked = [misheard(one) for one in unused.heard if one.asked]
    return {"reason": REASONS[unused.reason], "because": unused.because, "asked": asked}


def evidence_view(piece: Evidence, numbers: Mapping[str, int]) -> Json:
    """Where something was said, and the words."""
    return {
        "recording": numbers.get(piece.recording, 0),
        "start": piece.start,
        "end": piece.end,
        "clock": clock(piece.start),
        "quote": piece.quote,
        "sentences": list(piece.sentences),
    }


def _choices(found: Sequence[Choice]) -> list[Json]:
    return [{"id": one.id, "label": one.label, "also": list(one.also)} for one in found]
