"""`vocab try SENTENCE...`: how sentences are read, by which words, and what they give."""

from __future__ import annotations

import hashlib
import json
import sys
from collections.abc import Sequence
from dataclasses import asdict, dataclass
from pathlib import Path

from rich.console import Console

from narrate2report.commands.words import word_folders
from narrate2report.errors import BadInput
from narrate2report.publish.trial import Tried, trial
from narrate2report.read.lexis.lexicon import load_vocabulary
from narrate2report.read.lexis.vocabulary import Vocabulary
from narrate2report.read.outcome import Reading
from narrate2report.read.reading import Reader
from narrate2report.read.traces import trace
from narrate2report.records.plain import NOT_TEXT
from narrate2report.records.transcript import Engine, Recording, Stretch, Transcript

STANDARD_INPUT = "-"
LARGEST = 1 << 20
"""Bytes of standard input; more than is spoken in a day."""

STEP_S = 10.0
"""Seconds from one sentence to the next: more than a statement that was cut in two is joined over."""


@dataclass(frozen=True)
class WantedTrial:
    """What the person at the keyboard asked for."""

    sentences: tuple[str, ...]
    room: str | None = None
    vocabulary: Path | None = None
    as_json: bool = False


def try_words(wanted: WantedTrial) -> None:
    """Print how each sentence is read. Raises NarrateError for words, a room or sentences that cannot be used."""
    lines = _lines(wanted.sentences)
    vocabulary = load_vocabulary(*word_folders(wanted.vocabulary))
    room = _room(wanted.room, vocabulary) if wanted.room is not None else None
    reading = Reader(vocabulary).read(_transcript(lines), room)
    if wanted.as_json:
        sys.stdout.write(json.dumps(_for_machines(reading, vocabulary), ensure_ascii=False, indent=1) + "\n")
        return
    tried = [Tried(sentence, trace(sentence.spoken)) for sentence in reading.sentences]
    page = trial(tried, {entry.id: entry for entry in reading.findings.entries})
    Console(highlight=False, markup=False).print(page)


def _lines(sentences: Sequence[str]) -> list[str]:
    """The sentences to read: those given, with the lines of standard input in the place of `-`."""
    given = [line for told in sentences for line in (_piped() if told == STANDARD_INPUT else told.splitlines())]
    lines = [line for told in given if any(map(str.isalnum, line := NOT_TEXT.sub("", told).strip()))]
    if not lines:
        raise BadInput("no sentence to read; write one in quotes, or - to read lines from standard input")
    return lines


def _piped() -> list[str]:
    raw = sys.stdin.buffer.read(LARGEST + 1)
    if len(raw) > LARGEST:
        raise BadInput(f"standard input: is over {LARGEST >> 20} MB; draft a transcript of this length instead")
    try:
        return raw.decode("utf-8-sig").splitlines()
    except UnicodeDecodeError as error:
        line = raw.count(b"\n", 0, error.start) + 1
        raise BadInput(f"standard input: line {line} is not UTF-8; save the text as UTF-8") from error


def _room(named: str, vocabulary: Vocabulary) -> str:
    """The id of a room that was given by its id (`bedroom.2`) or as it is called (`mail alcove`)."""
    wanted = " ".join(named.lower().split())
    if wanted.partition(".")[0] in vocabulary.rooms:
        return wanted
    for room, term in vocabulary.rooms.items():
        if wanted in (*term.say, term.label.lower()):
            return room
        for suffix, words in (*term.named.items(), *term.qualifiers.items()):
            called = words if suffix in term.named else [f"{word} {name}" for word in words for name in term.say]
            if wanted in called:
                return suffix if suffix in term.named else f"{room}.{suffix}"
    raise BadInput(f"--room '{named}': no such room; there are: {', '.join(sorted(vocabulary.rooms))}")


def _transcript(lines: Sequence[str]) -> Transcript:
    raw = "\n".join(lines).encode()
    recording = Recording(file="typed", sha256=hashlib.sha256(raw).hexdigest(), bytes=len(raw), media=False)
    stretches = tuple(
        Stretch(recording="typed", start=STEP_S * number, end=STEP_S * number + STEP_S / 2, text=line)
        for number, line in enumerate(lines)
    )
    return Transcript(recordings=(recording,), engine=Engine(name="typed"), time_precision="line", stretches=stretches)


def _for_machines(reading: Reading, vocabulary: Vocabulary) -> dict[str, object]:
    """The same for machines, plain JSON; entries stand as in a findings file, without their place in time."""
    entries = {
        entry.id: entry.model_dump(mode="json", by_alias=True, exclude={"id", "evidence", "stills", "decided"})
        for entry in reading.findings.entries
    }
    told = []
    for sentence in reading.sentences:
        found = trace(sentence.spoken)
        told.append(
            {
                "text": sentence.text,
                "read": found.read,
                "room": sentence.room,
                "heard": [repair.model_dump() for repair in found.heard],
                "words": [asdict(word) for word in found.words],
                "parts": [asdict(part) for part in found.parts],
                "entries": [entries[name] for name in sentence.entries],
                "reason": sentence.reason,
                "because": list(sentence.because),
            }
        )
    return {"vocabulary_version": vocabulary.version, "sentences": told}
