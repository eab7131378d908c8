"""What holds of every record whatever was said: the eight invariants of the findings file.

Narrations are put together at random from fragments of talk. A statement may be read wrong; these never break.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections.abc import Iterable, Sequence
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from narrate2report.read.lexis.lexicon import load_vocabulary
from narrate2report.read.lexis.words import Tokenizer
from narrate2report.read.reading import read
from narrate2report.records.canonical import readable_bytes
from narrate2report.records.files import record_json
from narrate2report.records.findings import Findings
from narrate2report.records.schema import published
from narrate2report.records.transcript import Engine, Stretch, Transcript, Word
from tests.read.fragments import (
    DEVICES,
    FORBIDDEN,
    NOT_OPERATED,
    ONLY_SHOWN,
    SOUGHT,
    SUPPOSED,
    Fragment,
    Line,
    every,
    fragments,
    known_fragments,
    narrations,
    operated,
    texts,
    unseen_fragments,
)
from tests.read.told import CLIP, Narrator, Told, recording, transcript_of
from tests.records.media_fragments import temporal

SCHEMA = Draft202012Validator(published("findings.schema.json"))
MOST_LEAD_S = 0.5
"""How much before its first word a link may open at most."""

some = settings(
    max_examples=12,
    derandomize=True,
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)


# --- 1: nothing vanishes


@some
@given(narration=narrations(fragments))
def test_every_sentence_is_evidence_or_unused_and_never_both(narration: list[Line], entries: Narrator) -> None:
    lines = texts(narration)
    findings = entries(*lines).findings
    used = {sentence for entry in findings.entries for piece in entry.evidence for sentence in piece.sentences}
    unused = [one.id for one in findings.unused]
    assert not used & set(unused)
    assert len(unused) == len(set(unused))
    assert all(one.because for one in findings.unused)
    assert _words(_in_order(findings).values()) == _words(lines)


def _in_order(findings: Findings) -> dict[tuple[str, ...], str]:
    """The text of every sentence that stands anywhere in the record, by its id."""
    spoken: dict[tuple[str, ...], str] = {(one.id,): one.text for one in findings.unused}
    for entry in findings.entries:
        spoken.update({piece.sentences: piece.quote for piece in entry.evidence})
    return dict(sorted(spoken.items()))


def _words(pieces: Iterable[str]) -> list[str]:
    """Words that hold a letter or digit, in order: lone marks may be dropped."""
    return [word for piece in pieces for word in piece.split() if any(letter.isalnum() for letter in word)]


# --- 2: what would be, what is looked for and what must not be done is no flaw


@pytest.mark.parametrize("template", [*SUPPOSED, *SOUGHT, *FORBIDDEN])
def test_what_is_only_talked_about_is_no_flaw(template: str, entries: Narrator) -> None:
    said = [fragment.text for fragment in every("", [template])]
    told = entries(*said, room="kitchen")
    assert _flaws(told) == []


@some
@given(narration=narrations(unseen_fragments, longest=30))
def test_what_is_only_talked_about_is_no_flaw_in_any_order(narration: list[Line], entries: Narrator) -> None:
    told = entries(*texts(narration))
    assert _flaws(told) == []


def _flaws(told: Told) -> list[str]:
    """The sentences that gave a flaw that is, or may be, there."""
    return [
        f"{entry.evidence[0].quote} -> {entry.component} {entry.condition} {entry.assertion}"
        for entry in told.entries
        if entry.kind == "condition" and entry.assertion != "absent"
    ]


# --- 3: silence is never good


@some
@given(narration=narrations(known_fragments))
def test_what_was_never_spoken_of_is_not_noted(narration: list[Line], entries: Narrator) -> None:
    spoken_of = {component for line in narration for fragment in line for component in fragment.about}
    coverage = entries(*texts(narration)).findings.coverage
    noted = {one.component for one in coverage if one.status != "not_noted"}
    assert noted <= spoken_of


def test_a_sentence_that_breaks_off_is_read_to_its_end(entries: Narrator) -> None:
    said = "So here are the keys ("
    assert [sentence.text for sentence in entries(said).sentences] == [said]


def test_a_silent_walk_leaves_everything_not_noted(entries: Narrator) -> None:
    """Rooms are walked and nothing is said of them."""
    findings = entries("Okay, into the kitchen.", "Now the hall bath.", "And bedroom two.").findings
    assert {one.room for one in findings.coverage} == {"kitchen", "bathroom.hall", "bedroom.2"}
    assert {one.status for one in findings.coverage} == {"not_noted"}


def test_praise_of_a_room_says_nothing_of_what_stands_in_it(entries: Narrator) -> None:
    coverage = entries("The whole room looks good.", room="kitchen").findings.coverage
    assert len(coverage) > 10
    assert {one.status for one in coverage} == {"not_noted"}


@pytest.mark.parametrize(
    ("said", "status"),
    [
        ("The refrigerator looks good.", "described_sound"),
        ("No dents on the refrigerator.", "described_sound"),
        ("The refrigerator has a dent.", "noted"),
        ("The refrigerator looks good. The refrigerator has a dent.", "noted"),
        ("If the refrigerator gets a dent, call me.", "not_noted"),
        ("I'm checking the refrigerator for dents.", "not_noted"),
    ],
)
def test_coverage_says_what_was_said(said: str, status: str, entries: Narrator) -> None:
    coverage = {one.component: one.status for one in entries(said, room="kitchen").findings.coverage}
    assert coverage.pop("refrigerator") == status
    assert set(coverage.values()) == {"not_noted"}


# --- 4: what was not operated is not tested


@pytest.mark.parametrize("template", NOT_OPERATED)
def test_what_was_not_operated_is_not_tested(template: str, entries: Narrator) -> None:
    said = [fragment.text for fragment in operated("", [template])]
    told = entries(*said, room="kitchen")
    found = [(entry.component, entry.outcome) for entry in told.entries if entry.kind == "check"]
    assert found == [(component, "not_tested") for about in DEVICES.values() for component in about], told.told()


@pytest.mark.parametrize("template", ONLY_SHOWN)
def test_what_was_only_shown_was_not_found_to_work(template: str, entries: Narrator) -> None:
    said = [fragment.text for fragment in operated("", [template])]
    told = entries(*said, room="kitchen")
    assert [entry.outcome for entry in told.entries if entry.kind == "check"] == [], told.told()


# --- 5: the quote is the transcript's own text


GARBLED = [
    Fragment("garbled", text)
    for text in (
        "The base bored is scuffed.", "There's a nil hole in the wall.", "The cock around the tub is cracked.",
        "A few dense and scratches on the fridge.", "The lent trap is full.", "The door jam is cracked.",
    )
]  # fmt: skip


@some
@given(narration=narrations(st.one_of(fragments, st.sampled_from(GARBLED))))
def test_quotes_are_the_transcripts_own_words_and_repairs_stand_beside_them(
    narration: list[Line], entries: Narrator
) -> None:
    lines = texts(narration)
    whole = " ".join(" ".join(lines).split())
    for entry in entries(*lines).entries:
        quotes = [" ".join(piece.quote.split()) for piece in entry.evidence]
        assert all(quote in whole for quote in quotes)
        for repair in entry.heard:
            assert any(" ".join(repair.heard.split()) in quote for quote in quotes)
            assert repair.heard != repair.read
            assert repair.why


def test_a_repaired_sentence_is_quoted_as_it_was_heard(entries: Narrator) -> None:
    (entry,) = entries("The base bored is scuffed.", room="bedroom").entries
    assert entry.evidence[0].quote == "The base bored is scuffed."
    assert [(repair.heard, repair.read) for repair in entry.heard] == [("base bored", "baseboard")]


# --- 6: times


@st.composite
def word_timed(draw: st.DrawFn) -> Transcript:
    """One or two clips whose words are timed, with pauses and overlong or empty words among them."""
    clips = []
    stretches: list[Stretch] = []
    for file in ("first clip.mp4", CLIP)[: draw(st.integers(1, 2))]:
        now = draw(st.sampled_from([0.0, 0.07, 1.5]))
        for line in texts(draw(narrations(fragments, longest=6, a_line=3))):
            words = []
            for text in line.split():
                length = draw(st.sampled_from([0.0, 0.01, 0.2, 0.333, 2.0]))
                words.append(Word(text=text, start=now, end=now + length, probability=0.9))
                now += length + draw(st.sampled_from([0.0, 0.005, 0.1, 1.0]))
            if words:
                stretches.append(
                    Stretch(recording=file, start=words[0].start, end=words[-1].end, text=line, words=tuple(words))
                )
        clips.append(recording(now + 0.01, file))
    return Transcript(
        recordings=tuple(clips),
        engine=Engine(name="told by a test"),
        time_precision="word",
        stretches=tuple(stretches),
    )


@some
@given(transcript=word_timed())
def test_word_times_give_links_that_open_at_the_first_word(transcript: Transcript, entries: Narrator) -> None:
    findings = entries.read(transcript).findings
    _check_times(findings)
    words = [(stretch.recording, word) for stretch in transcript.stretches for word in stretch.words]
    opened: dict[tuple[str, ...], tuple[str, float]] = {
        (one.id,): (one.recording, one.start) for one in findings.unused
    }
    for entry in findings.entries:
        opened.update({one.sentences: (one.recording, _linked(one.link)[0]) for one in entry.evidence})
    spoken = _in_order(findings)
    assert opened.keys() == spoken.keys()
    at = 0
    for sentence, text in spoken.items():
        first = text.split()[0]
        while words[at][1].text != first:  # lone marks between two sentences belong to neither
            at += 1
        file, word = words[at]
        opened_in, start = opened[sentence]
        assert opened_in == file
        assert start <= word.start + 0.005
        assert start >= word.start - MOST_LEAD_S - 0.005
        at += len(text.split())


@some
@given(narration=narrations(fragments))
def test_line_times_give_links_inside_their_line(narration: list[Line], entries: Narrator) -> None:
    transcript = transcript_of(texts(narration))
    findings = entries.read(transcript).findings
    _check_times(findings)
    for entry in findings.entries:
        for piece in entry.evidence:
            inside = [stretch for stretch in transcript.stretches if piece.quote in stretch.text]
            # A statement that runs on into the next line stands whole in none.
            assert not inside or any(one.start <= piece.start and piece.end <= one.end for one in inside)


def _check_times(findings: Findings) -> None:
    """Times lie inside their recording, never run backwards, and stand in the link."""
    durations = {one.file: one.duration_s or 0.0 for one in findings.recordings}
    spans: dict[str, tuple[str, float, float]] = {
        one.id: (one.recording, one.start, one.end) for one in findings.unused
    }
    for entry in findings.entries:
        for piece in entry.evidence:
            assert _linked(piece.link) == (piece.start, piece.end)
            spans[piece.sentences[0]] = (piece.recording, piece.start, piece.end)
    for file, start, end in spans.values():
        assert 0 <= start < end <= durations[file] + 0.005
    ordered = [spans[sentence] for sentence in sorted(spans)]
    for (file, start, _), (next_file, next_start, _) in pairwise(ordered):
        assert file != next_file or start <= next_start
    for visit in findings.rooms:
        assert 0 <= visit.start <= visit.end <= durations[visit.recording] + 0.005
    for one, other in pairwise(findings.rooms):
        assert one.recording != other.recording or one.start <= other.start


def _linked(link: str) -> tuple[float, float]:
    """Start and end that a player takes from a link, as the W3C's grammar reads it."""
    _, _, fragment = link.partition("#")
    span = temporal(fragment)
    assert span is not None, link
    assert span[1] is not None, link
    return span[0], span[1]


# --- 7: nothing is decided without a person


@some
@given(narration=narrations(fragments))
def test_every_drafted_entry_is_proposed_and_nothing_is_sealed(narration: list[Line], entries: Narrator) -> None:
    findings = entries(*texts(narration)).findings
    assert {entry.state for entry in findings.entries} <= {"proposed"}
    assert {entry.decided for entry in findings.entries} <= {None}
    assert findings.seal is None


# --- 8: the same in, the same out


WALK = [
    "This is the move-in walk for unit four B on March the fifth.",
    "Okay, into the kitchen. The counter has a chip, maybe half an inch, and two scratches.",
    "The base bored is scuffed. Run the dishwasher... it works. If that gets dented, call me.",
    "Now the hall bath. Looking for cracks. I don't see any. The tub is stained, I'll have someone clean it.",
    "You've got two door keys and a mailbox key. Scratch that, three door keys.",
]


def test_equal_input_gives_byte_identical_records_with_everything_loaded_anew() -> None:
    transcript = transcript_of(WALK)
    one, other = (
        readable_bytes(record_json(read(transcript, load_vocabulary(), Tokenizer()).findings)) for _ in range(2)
    )
    assert one == other
    assert len(json.loads(one)["entries"]) > 5


def test_equal_input_gives_byte_identical_files_whatever_the_hash_seed(tmp_path: Path) -> None:
    notes = tmp_path / "walk.txt"
    notes.write_text("".join(f"[0:{10 * at:02d}] {line}\n" for at, line in enumerate(WALK)), encoding="utf-8")
    written = {_drafted(notes, tmp_path / "walk.findings.json", seed) for seed in ("0", "1", "4242")}
    assert len(written) == 1


def _drafted(notes: Path, out: Path, seed: str) -> bytes:
    """The findings file that the program writes in a process of its own."""
    command = [sys.executable, "-m", "narrate2report", "draft", str(notes), "--out", str(out), "--quiet"]
    subprocess.run(command, check=True, env={**os.environ, "PYTHONHASHSEED": seed}, timeout=120)
    content = out.read_bytes()
    out.unlink()
    return content


@some
@given(narration=narrations(fragments))
def test_reading_again_changes_nothing_and_ids_are_unique(narration: list[Line], entries: Narrator) -> None:
    lines = texts(narration)
    one, other = entries(*lines).findings, entries(*lines).findings
    assert readable_bytes(record_json(one)) == readable_bytes(record_json(other))
    ids = [entry.id for entry in one.entries]
    assert len(ids) == len(set(ids))


# --- and the file is what its schema says


@some
@given(narration=narrations(fragments))
def test_every_record_read_validates_against_the_published_schema(narration: list[Line], entries: Narrator) -> None:
    findings = entries(*texts(narration)).findings
    written = json.loads(readable_bytes(record_json(findings)))
    assert _faults(written) == []


def _faults(written: object) -> Sequence[str]:
    return [error.message for error in SCHEMA.iter_errors(written)]
