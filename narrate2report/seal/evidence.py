"""Whether a record stands on what was said: its quotes in the transcript, its times in the recordings.

How sentences were cut is not repeated here: a later version may cut otherwise, and an old record must still hold.
So each id must stand for the same words everywhere in the record, and those words must stand in the transcript.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from narrate2report.records.findings import Evidence, Findings, Still
from narrate2report.records.moments import fragment
from narrate2report.records.transcript import Recording, Transcript
from narrate2report.seal.mismatch import Mismatch

TOLERANCE_S = 0.01
"""Times are rounded to this, so a statement may end so much after its recording."""


def unsupported(findings: Findings, transcript: Transcript | None) -> tuple[Mismatch, ...]:
    """Everything in the record that does not stand on its transcript and recordings.

    Without a transcript (a record of notes that were typed) the words are compared among themselves only.
    """
    found = [*_times(findings), *_sentences(findings)]
    if transcript is not None:
        found += [*_recordings(findings, transcript), *_words(findings, transcript)]
    return tuple(found)


def _pieces(findings: Findings) -> Iterator[tuple[str, Evidence]]:
    return ((f"entry {entry.id}", piece) for entry in findings.entries for piece in entry.evidence)


def _times(findings: Findings) -> Iterator[Mismatch]:
    recordings = {recording.file: recording for recording in findings.recordings}
    for where, piece in _pieces(findings):
        yield from _stretch(where, piece.recording, piece.start, piece.end, recordings)
        link = fragment(piece.recording, piece.start, piece.end)
        if piece.link != link:
            yield Mismatch("evidence", where, "its link", link, piece.link)
    for unused in findings.unused:
        yield from _stretch(f"sentence {unused.id}", unused.recording, unused.start, unused.end, recordings)
    for entry in findings.entries:
        for still in entry.stills:
            yield from _still(f"entry {entry.id}, picture {still.file}", still, recordings)


def _still(where: str, still: Still, recordings: dict[str, Recording]) -> Iterator[Mismatch]:
    return _stretch(where, still.recording, still.time, still.time, recordings)


def _stretch(where: str, name: str, start: float, end: float, recordings: dict[str, Recording]) -> Iterator[Mismatch]:
    if name not in recordings:
        yield Mismatch("evidence", where, "its recording", "one of the record's", repr(name))
        return
    length = recordings[name].duration_s
    if end < start:
        yield Mismatch("evidence", where, "its end", f"{start:.2f} s or later", f"{end:.2f} s")
    if length is not None and end > length + TOLERANCE_S:
        yield Mismatch("evidence", where, "its end", f"within the {length:.2f} s of {name}", f"{end:.2f} s")


def _sentences(findings: Findings) -> Iterator[Mismatch]:
    """One id, one sentence: the same words of the same recording wherever it is named."""
    known = {unused.id: (unused.recording, unused.text) for unused in findings.unused}
    for where, piece in _pieces(findings):
        if len(piece.sentences) == 1:
            said = piece.recording, piece.quote
            first = known.setdefault(piece.sentences[0], said)
            if first != said:
                yield Mismatch("evidence", where, f"sentence {piece.sentences[0]}", repr(first[1]), repr(said[1]))


def _recordings(findings: Findings, transcript: Transcript) -> Iterator[Mismatch]:
    heard = {recording.file: recording.sha256 for recording in transcript.recordings}
    for recording in findings.recordings:
        found = heard.get(recording.file, "none of this name")
        if found != recording.sha256:
            yield Mismatch("evidence", recording.file, "what the transcript was made of", recording.sha256, found)


def _words(findings: Findings, transcript: Transcript) -> Iterator[Mismatch]:
    heard: dict[str, list[str]] = {}
    for stretch in transcript.stretches:
        heard.setdefault(stretch.recording, []).append(stretch.text)
    texts = {recording: _plainly(told) for recording, told in heard.items()}
    quoted = [(where, piece.recording, piece.quote) for where, piece in _pieces(findings)]
    quoted += [(f"sentence {unused.id}", unused.recording, unused.text) for unused in findings.unused]
    for where, recording, words in quoted:
        if _plainly([words]) not in texts.get(recording, ""):
            yield Mismatch("evidence", where, "its words", f"words of the transcript of {recording}", repr(words))


def _plainly(texts: Iterable[str]) -> str:
    """Texts one after the other, with one space wherever there is any."""
    return " ".join(word for text in texts for word in text.split())
