"""An entry that a person adds: on sentences of the transcript, or on a stretch in which nothing was understood."""

from __future__ import annotations

import hashlib
from collections.abc import Sequence

from narrate2report.errors import CannotDecide
from narrate2report.records.findings import Entry, Evidence, Findings
from narrate2report.review.facts import check_inside, with_facts
from narrate2report.review.requests import Add, Stretch
from narrate2report.review.spine import Sentence, room_at

BY_HAND = ("added by the person who reviewed",)
"""Why an entry that a person added is there."""


def added_entry(findings: Findings, spine: Sequence[Sentence], wanted: Add, number: int) -> tuple[Entry, set[str]]:
    """The entry that line `number` of the journal adds, and the ids of the sentences that it rests on.

    Raises CannotDecide where it rests on nothing, or says too little.
    """
    evidence = _evidence(findings, spine, wanted)
    first = evidence[0]
    blank = Entry(
        id=new_id("added", first.link, number),
        kind=wanted.facts.kind or "condition",
        room=room_at(findings, first.recording, first.start),
        component="",
        evidence=evidence,
        confidence=1,
        because=BY_HAND,
    )
    said = [(piece.start, piece.end) for piece in evidence]
    return with_facts(findings, blank, wanted.facts, said), {
        sentence for piece in evidence for sentence in piece.sentences
    }


def new_id(*parts: object) -> str:
    """An id for an entry that a decision makes; the same decision gives the same id."""
    return "e" + hashlib.sha256("|".join(map(str, parts)).encode()).hexdigest()[:8]


def _evidence(findings: Findings, spine: Sequence[Sentence], wanted: Add) -> tuple[Evidence, ...]:
    if wanted.sentences:
        known = {sentence.id: sentence for sentence in spine}
        if not known.keys() >= set(wanted.sentences):
            raise CannotDecide("no such sentence in this record; open the page anew to see what there is")
        return tuple(sentence.as_evidence() for sentence in spine if sentence.id in wanted.sentences)
    if wanted.stretch is None:
        raise CannotDecide("an entry must rest on a sentence or a stretch of a recording; choose one")
    return (_unspoken(findings, wanted.stretch),)


def _unspoken(findings: Findings, stretch: Stretch) -> Evidence:
    """Evidence without words: the recording shows it, or it was said and not understood."""
    piece = Evidence.of(stretch.recording, stretch.start, stretch.end, "")
    check_inside(findings, piece)
    return piece
