"""The sentences of a record in the order they were said: those that gave entries and those that gave none."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from narrate2report.records.findings import Entry, Evidence, Findings, Unused

Span = tuple[float, float]
"""From when to when, in seconds of one recording."""


@dataclass(frozen=True)
class Sentence:
    """What was said in one breath, as transcribed, with its place in a recording."""

    id: str
    recording: str
    start: float
    end: float
    text: str
    unused: Unused | None = None

    def as_evidence(self) -> Evidence:
        """How it stands in an entry that rests on it."""
        return Evidence.of(self.recording, self.start, self.end, self.text, self.id)


def sentences(findings: Findings) -> tuple[Sentence, ...]:
    """Every sentence of the record once, recording by recording."""
    known = {unused.id: _silent(unused) for unused in findings.unused}
    for entry in findings.entries:
        for piece in entry.evidence:
            for sentence in piece.sentences:
                known.setdefault(sentence, Sentence(sentence, piece.recording, piece.start, piece.end, piece.quote))
    order = findings.numbers()
    return tuple(sorted(known.values(), key=lambda one: (order.get(one.recording, 0), one.start, one.end, one.id)))


def silent_stretches(findings: Findings, spine: Sequence[Sentence]) -> dict[int, Sentence]:
    """What gave no entry, by numbers that stay the same whatever is decided.

    These are sentences, and behind them the stretches in which nothing was understood: those have no id and no words.
    """
    unused = {one.id for one in findings.unused}
    gaps = (Sentence("", gap.recording, gap.start, gap.end, "") for gap in findings.transcript.gaps)
    return {number: one for number, one in enumerate((*spine, *gaps), 1) if not one.id or one.id in unused}


def room_at(findings: Findings, recording: str, moment: float) -> str:
    """The room that was walked at a moment: the newest one entered by then in this or an earlier clip, or the first."""
    room = findings.rooms[0].room if findings.rooms else "whole_unit"
    here = False
    for clip in findings.recordings:
        if here:
            break
        here = clip.file == recording
        for visit in findings.rooms:
            if visit.recording == clip.file and (not here or visit.start <= moment):
                room = visit.room
    return room


def began_at(findings: Findings, entry: Entry) -> tuple[int, float]:
    """Where an entry stands in the walk: number of the recording, second."""
    order = findings.numbers()
    first = entry.evidence[0]
    return order.get(first.recording, 0), first.start


def spans_said(spine: Sequence[Sentence], first: Entry, entry: Entry) -> list[Span]:
    """Where each piece of an entry's evidence was said, wherever it was moved since.

    `first` is the entry as it came into the record: a piece without words lies where that has it.
    """
    spoken = {sentence.id: (sentence.start, sentence.end) for sentence in spine}
    unspoken = next((piece for piece in first.evidence if not piece.sentences), None)
    spans = []
    for piece in entry.evidence:
        known = [spoken[sentence] for sentence in piece.sentences if sentence in spoken]
        there = unspoken if unspoken and unspoken.recording == piece.recording and not piece.sentences else piece
        known = known or [(there.start, there.end)]
        spans.append((min(start for start, _ in known), max(end for _, end in known)))
    return spans


def _silent(unused: Unused) -> Sentence:
    return Sentence(unused.id, unused.recording, unused.start, unused.end, unused.text, unused)
