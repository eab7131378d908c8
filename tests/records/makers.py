"""Random records for property-based tests: anything that the types allow, sensible or not."""

from __future__ import annotations

from hypothesis import strategies as st

from narrate2report.records import findings as f
from narrate2report.records import transcript as t

words = st.text(st.characters(exclude_categories=["Cs", "Cc", "Cf"], include_characters="\n\t"), max_size=20)
seconds = st.floats(min_value=0, max_value=40_000, allow_nan=False)
sureness = st.floats(min_value=0, max_value=1, allow_nan=False)
sha256 = st.text(alphabet="0123456789abcdef", min_size=64, max_size=64)


def few(values: st.SearchStrategy[object], least: int = 0) -> st.SearchStrategy[tuple[object, ...]]:
    return st.lists(values, min_size=least, max_size=2).map(tuple)


def maybe(values: st.SearchStrategy[object]) -> st.SearchStrategy[object]:
    return st.none() | values


tracks = st.builds(t.Track, kind=st.sampled_from(["video", "audio"]), codec=words, language=maybe(words))
recordings = st.builds(
    t.Recording,
    file=words,
    sha256=sha256,
    bytes=st.integers(0, 2**40),
    duration_s=maybe(seconds),
    recorded_at=maybe(words),
    tracks=few(tracks),
    media=st.booleans(),
)
heard_words = st.builds(t.Word, text=words, start=seconds, end=seconds, probability=sureness)
stretches = st.builds(
    t.Stretch,
    recording=words,
    start=seconds,
    end=seconds,
    text=words,
    words=few(heard_words),
    doubt=maybe(words),
)
gaps = st.builds(t.Gap, recording=words, start=seconds, end=seconds)
settings = st.dictionaries(words, words | st.integers(1 - 2**53, 2**53 - 1) | st.booleans(), max_size=3)
engines = st.builds(t.Engine, name=words, model=maybe(words), model_sha256=maybe(sha256), settings=settings)
transcripts = st.builds(
    t.Transcript,
    recordings=few(recordings),
    engine=engines,
    language=words,
    time_precision=st.sampled_from(["word", "line"]),
    stretches=few(stretches),
    gaps=few(gaps),
    warnings=few(words),
)

sourced = st.builds(f.Sourced, value=words, source=words)
headers = st.builds(
    f.Header,
    kind=few(sourced),
    unit=few(sourced),
    residents=few(sourced),
    inspector=few(sourced),
    date=few(sourced),
    clashes=few(words),
)
facts = st.builds(
    f.TranscriptFacts,
    engine=words,
    model=maybe(words),
    model_sha256=maybe(sha256),
    language=words,
    vocabulary_version=sha256,
    time_precision=st.sampled_from(["word", "line"]),
    gaps=few(gaps),
    warnings=few(words),
)
evidence = st.builds(
    f.Evidence, recording=words, start=seconds, end=seconds, sentences=few(words), quote=words, link=words
)
repairs = st.builds(f.Heard, heard=words, read=words, why=words, sureness=sureness)
sizes = st.builds(f.Size, text=words, value=maybe(seconds), unit=maybe(words))
entries = st.builds(
    f.Entry,
    id=words,
    kind=st.sampled_from(["condition", "check", "handover", "advice", "follow_up", "description"]),
    room=words,
    component=words,
    condition=maybe(words),
    assertion=maybe(st.sampled_from(["present", "absent", "possible"])),
    outcome=maybe(st.sampled_from(["works", "fails", "not_tested"])),
    quantity=maybe(st.integers(0, 999)),
    attribute=maybe(st.builds(f.Attribute, name=st.sampled_from(["material", "count"]), value=words)),
    where=maybe(words),
    size=maybe(sizes),
    severity=maybe(st.sampled_from(["slight", "moderate", "severe"])),
    pre_existing=st.booleans(),
    evidence=few(evidence, least=1),
    heard=few(repairs),
    confidence=sureness,
    because=few(words, least=1),
    state=st.sampled_from(["proposed", "accepted", "changed", "dropped"]),
    note=maybe(words),
    decided=maybe(st.builds(f.Decision, by=words, at=words, why=maybe(words))),
    merged_into=maybe(words),
    split_from=maybe(words),
    stills=few(st.builds(f.Still, file=words, recording=words, time=seconds, sha256=sha256)),
)
visits = st.builds(f.RoomVisit, room=words, recording=words, start=seconds, end=seconds)
coverage = st.builds(
    f.Coverage,
    room=words,
    component=words,
    status=st.sampled_from(["noted", "described_sound", "not_noted"]),
    acknowledged=maybe(
        st.builds(
            f.Acknowledged,
            looked=st.sampled_from(["not_looked_at", "looked_at_since", "left_not_noted"]),
            note=maybe(words),
            by=words,
            at=words,
        )
    ),
)
unused = st.builds(
    f.Unused,
    id=words,
    recording=words,
    start=seconds,
    end=seconds,
    text=words,
    reason=st.sampled_from(["talk", "moving", "checking_for", "hypothetical", "policy", "unclear"]),
    because=words,
)
sealed_files = st.builds(
    f.SealedFile,
    role=st.sampled_from(["recording", "transcript", "journal", "still"]),
    file=words,
    sha256=sha256,
    bytes=st.integers(0, 2**40),
)
signatures = st.builds(f.Signature, public_key=sha256, signature=sha256.map(lambda half: half * 2))
seals = st.builds(
    f.Seal,
    sha256=sha256,
    sealed_at=words,
    sealed_by=words,
    statement=words,
    previous=maybe(sha256),
    files=few(sealed_files),
    signature=maybe(signatures),
)
records = st.builds(
    f.Findings,
    walkthrough=headers,
    recordings=few(recordings),
    transcript=facts,
    entries=few(entries),
    rooms=few(visits),
    coverage=few(coverage),
    unused=few(unused),
    amends=maybe(st.builds(f.Amended, file=words, sha256=sha256)),
    seal=maybe(seals),
)
