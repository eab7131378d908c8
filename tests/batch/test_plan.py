"""Which recordings are drafted: each content once, under one name, and nothing over what lies there."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass, replace

from hypothesis import given
from hypothesis import strategies as st

from narrate2report.batch.known import Head, Known
from narrate2report.batch.places import Here
from narrate2report.batch.plan import Plan, plan
from narrate2report.records.findings import TranscriptFacts
from narrate2report.records.task import Lying
from narrate2report.records.transcript import Recording
from tests.batch.works import SETTINGS

FACTS = TranscriptFacts(
    engine="whisper",
    model="base",
    model_sha256=SETTINGS.model_sha256,
    language="en",
    vocabulary_version=SETTINGS.vocabulary_version,
    time_precision="word",
)


@dataclass
class Folder:
    """A folder as the plan sees it: contents by name, records by name, and which contents were hashed."""

    contents: dict[str, bytes]
    records: dict[str, Known]

    def __post_init__(self) -> None:
        self.hashed: list[str] = []
        self.changed_s = 10.0

    def plan(self) -> Plan:
        lying = (Lying(f"w/{name}", len(content), self.changed_s) for name, content in sorted(self.contents.items()))
        return plan(Here("w", tuple(lying), ()), list(self.records.values()), SETTINGS, self._digest)

    def _digest(self, place: str) -> str:
        self.hashed.append(place)
        return sha256(self.contents[place.removeprefix("w/")])

    def draft(self, planned: Plan) -> None:
        for each in planned.tasks:
            name = each.recording.removeprefix("w/")
            self.records[each.findings] = record(each.findings, name, self.contents[name])


def sha256(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()


def record(place: str, *named: str | bytes, changed_s: float = 20.0) -> Known:
    pairs = zip(named[::2], named[1::2], strict=True)
    recordings = tuple(
        Recording(file=str(name), sha256=sha256(content), bytes=len(content))
        for name, content in pairs
        if isinstance(content, bytes)
    )
    return Known(place, changed_s, Head(recordings=recordings, transcript=FACTS))


NAMES = st.sampled_from([f"{stem}{ending}" for stem in "abc" for ending in (".mp4", ".m4a", ".mov")])
CONTENTS = st.sampled_from([b"one", b"two", b"three", b"another"])


@given(st.dictionaries(NAMES, CONTENTS), st.dictionaries(NAMES, CONTENTS))
def test_each_recording_is_told_once_and_drafting_is_done_once(
    before: dict[str, bytes], later: dict[str, bytes]
) -> None:
    folder = Folder(before, {})
    for contents in (before, before | later):
        folder.contents = contents
        folder.changed_s += 20  # whatever lies there may have been written to since
        taken = set(folder.records)
        planned = folder.plan()
        told = [task.recording for task in planned.tasks] + [outcome.recording for outcome in planned.settled]
        assert sorted(told) == sorted(f"w/{name}" for name in contents)
        written = [task.findings for task in planned.tasks]
        assert len(set(written)) == len(written)
        assert not taken & set(written)
        drafted = [sha256(contents[task.recording.removeprefix("w/")]) for task in planned.tasks]
        assert len(set(drafted)) == len(drafted)
        folder.draft(planned)
        assert folder.plan().tasks == ()
        kept = {one.sha256 for known in folder.records.values() if known.head for one in known.head.recordings}
        faults = {outcome.recording for outcome in planned.settled if outcome.became == "failed"}
        assert {sha256(content) for name, content in contents.items() if f"w/{name}" not in faults} <= kept


def test_only_what_could_be_the_same_is_read() -> None:
    folder = Folder(
        {"a.mp4": b"one", "b.mp4": b"other"}, {"w/a.findings.json": record("w/a.findings.json", "a.mp4", b"one")}
    )
    assert [task.recording for task in folder.plan().tasks] == ["w/b.mp4"]
    assert folder.hashed == []


def test_a_copy_under_another_name_is_not_drafted_again_and_says_of_what() -> None:
    folder = Folder(
        {"a.mp4": b"one", "z.mp4": b"one"}, {"w/a.findings.json": record("w/a.findings.json", "a.mp4", b"one")}
    )
    assert [(each.became, each.note) for each in folder.plan().settled] == [
        ("already", None),
        ("already", "is the same recording as a.mp4"),
    ]


def test_clips_of_a_drafted_walk_are_drafted() -> None:
    known = record("w/walk.findings.json", "a.mp4", b"one", "b.mp4", b"other")
    planned = Folder({"a.mp4": b"one", "b.mp4": b"other"}, {"w/walk.findings.json": known}).plan()
    assert planned.tasks == ()
    assert {outcome.findings for outcome in planned.settled} == {"w/walk.findings.json"}


def test_a_record_of_another_recording_is_never_written_over() -> None:
    known = record("w/a.findings.json", "a.mp4", b"one")
    (outcome,) = Folder({"a.mp4": b"changed"}, {"w/a.findings.json": known}).plan().settled
    assert outcome.became == "failed"
    assert "is the record of another recording" in (outcome.note or "")
    broken = Known("w/a.findings.json", 20.0, None, "w/a.findings.json: not JSON")
    (outcome,) = Folder({"a.mp4": b"one"}, {"w/a.findings.json": broken}).plan().settled
    assert outcome.note == "w/a.findings.json: not JSON"


def test_other_settings_are_told_and_nothing_is_drafted_again() -> None:
    known = record("w/a.findings.json", "a.mp4", b"one")
    assert known.head is not None
    other = FACTS.model_copy(update={"model": "small", "model_sha256": "c" * 64, "vocabulary_version": "d" * 64})
    changed = replace(known, head=known.head.model_copy(update={"transcript": other}))
    planned = Folder({"a.mp4": b"one"}, {"w/a.findings.json": changed}).plan()
    assert planned.tasks == ()
    assert planned.settled[0].note == "was drafted with another speech model (small) and with other words"
