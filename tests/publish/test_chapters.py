"""Chapters begin where links open, lie apart or one inside the other, and are read back by other libraries."""

from __future__ import annotations

import html
import re
from datetime import UTC, datetime
from itertools import pairwise
from pathlib import Path

import av
import pysubs2
from hypothesis import given
from hypothesis import strategies as st

from narrate2report.publish.captions import shown_in_turn
from narrate2report.publish.chapters import (
    LONGEST_BYTES,
    LONGEST_TITLE,
    Chapter,
    chapters_of,
    in_a_row,
    webvtt_chapters,
)
from narrate2report.publish.standing import Heading, heading_of
from narrate2report.records.findings import Findings
from narrate2report.records.transcript import Stretch
from tests.publish.walk import SEAL, entry, evidence, findings

AT = datetime(2026, 3, 6, 10, 0, tzinfo=UTC)


def heading(record: Findings) -> Heading:
    return heading_of(record, "sealed" if record.seal else "draft", AT)


def whole_of(record: Findings, recording: str = "walk.mp4") -> Chapter:
    return chapters_of(record, heading(record), recording)


def visit(room: str, start: float, end: float, recording: str = "walk.mp4") -> dict[str, object]:
    return {"room": room, "recording": recording, "start": start, "end": end}


WALK = findings(
    entry(id="e1", evidence=(evidence(20),)),
    entry(id="e2", condition="stain", evidence=(evidence(20),)),
    entry(id="e3", component="sink", condition="leak", evidence=(evidence(31.5),)),
    entry(id="e4", room="bathroom", component="toilet", condition="running", evidence=(evidence(33),)),
    entry(id="e5", room="bathroom", component="bathtub", evidence=(evidence(60), evidence(75))),
    entry(id="e6", state="dropped", evidence=(evidence(80),)),
    rooms=[visit("kitchen", 10, 40), visit("bathroom", 50, 90)],
)


def test_the_walk_holds_rooms_and_rooms_hold_what_was_said_in_them() -> None:
    whole = whole_of(WALK)
    assert (whole.start_s, whole.end_s) == (0.0, 200.0)
    assert [(one.title, one.start_s, one.end_s) for one in whole.inside] == [("Kitchen", 10, 50), ("Bathroom", 50, 200)]
    assert [(one.title, one.start_s, one.end_s) for one in whole.inside[0].inside] == [
        ("Countertop: chip; countertop: stain", 20, 31.5),
        ("Sink: leak", 31.5, 33),
        ("Bathroom, toilet: running", 33, 50),
    ]
    assert [one.start_s for one in whole.inside[1].inside] == [60, 75]


def test_in_a_row_each_chapter_names_its_room() -> None:
    row = in_a_row(whole_of(WALK))
    assert [one.text for one in row[1:4]] == [
        "Kitchen",
        "Kitchen, countertop: chip; countertop: stain",
        "Kitchen, sink: leak",
    ]
    assert [one.end_s for one in row[:-1]] == [one.start_s for one in row[1:]]


def test_a_draft_is_named_in_the_first_chapter_and_in_the_notes() -> None:
    text = webvtt_chapters(whole_of(WALK), heading(WALK))
    assert text.startswith("WEBVTT\n\nNOTE\nCondition report, unit 2B\nDRAFT – not fully reviewed\n\n00:00:00.000 --> ")
    assert in_a_row(whole_of(WALK))[0].text == "Condition report, unit 2B (DRAFT – not fully reviewed)"


def test_a_sealed_record_names_its_seal() -> None:
    record = WALK.model_copy(update={"seal": findings(seal=SEAL).seal})
    assert f"\nSealed, SHA-256 {'5' * 64}\n" in webvtt_chapters(whole_of(record), heading(record))


def test_clips_have_chapters_of_their_own() -> None:
    record = findings(
        entry(evidence=(evidence(20, clip="b.mp4"),)),
        recordings=[
            {"file": name, "sha256": name[0] * 64, "bytes": 9, "duration_s": 60} for name in ("a.mp4", "b.mp4")
        ],
        rooms=[visit("kitchen", 5, 30, "b.mp4")],
    )
    assert whole_of(record, "a.mp4").inside == ()
    assert [one.start_s for one in in_a_row(whole_of(record, "b.mp4"))] == [0, 5, 20]


def test_a_walk_that_begins_in_a_room_keeps_both_names_at_the_start() -> None:
    row = in_a_row(whole_of(findings(rooms=[visit("kitchen", 0, 30)])))
    assert [one.text for one in row] == ["Condition report, unit 2B (DRAFT – not fully reviewed); Kitchen"]


MOMENT = st.integers(0, 25_000).map(lambda hundredths: hundredths / 100)
ROOMS = st.sampled_from(["kitchen", "bathroom", "bedroom.2"])


@st.composite
def walks(draw: st.DrawFn) -> Findings:
    entries = [
        entry(
            id=f"e{number}",
            room=draw(ROOMS),
            evidence=tuple(evidence(start) for start in draw(st.lists(MOMENT, min_size=1, max_size=3))),
        )
        for number in range(draw(st.integers(0, 6)))
    ]
    rooms = [visit(draw(ROOMS), start, start + 5) for start in draw(st.lists(MOMENT, max_size=5))]
    length = draw(st.one_of(st.none(), MOMENT))
    recordings = [{"file": "walk.mp4", "sha256": "a" * 64, "bytes": 9, "duration_s": length}]
    return findings(*entries, rooms=rooms, recordings=recordings)


CUE = re.compile(r"(\d\d+):([0-5]\d):([0-5]\d\.\d{3}) --> (\d\d+):([0-5]\d):([0-5]\d\.\d{3})\n(.+)")


def cues(text: str) -> list[tuple[float, float, str]]:
    """The cues of a file by the rules for authors (WebVTT, section 4)."""
    head, *blocks = text.rstrip("\n").split("\n\n")
    assert head == "WEBVTT"
    found = [CUE.fullmatch(block) for block in blocks if not block.startswith("NOTE\n")]
    assert all(found), text
    return [
        (
            int(one[1]) * 3600 + int(one[2]) * 60 + float(one[3]),
            int(one[4]) * 3600 + int(one[5]) * 60 + float(one[6]),
            one[7],
        )
        for one in found
        if one
    ]


@given(walks())
def test_chapters_are_in_order_and_apart_or_one_inside_the_other(record: Findings) -> None:
    made = cues(webvtt_chapters(whole_of(record), heading(record)))
    starts = [start for start, _, _ in made]
    assert starts == sorted(starts)
    for number, (start, end, _) in enumerate(made):
        assert end > start
        for other_start, other_end, _ in made[number + 1 :]:
            assert other_start >= end or other_end <= end


@given(walks())
def test_a_chapter_begins_at_every_moment_of_an_entry_and_at_every_room(record: Findings) -> None:
    wanted = {piece.start for one in record.entries for piece in one.evidence} | {one.start for one in record.rooms}
    row = in_a_row(whole_of(record))
    assert [one.start_s for one in row] == sorted(wanted | {0.0})
    assert [one.end_s for one in row[:-1]] == [one.start_s for one in row[1:]]
    assert row[-1].end_s > row[-1].start_s
    nested = {round(start, 2) for start, _, _ in cues(webvtt_chapters(whole_of(record), heading(record)))}
    assert nested == wanted | {0.0}


def test_other_libraries_read_the_same_titles_at_the_same_times(tmp_path: Path) -> None:
    path = tmp_path / "walk.chapters.vtt"
    path.write_text(webvtt_chapters(whole_of(WALK), heading(WALK)), encoding="utf-8")
    made = cues(path.read_text(encoding="utf-8"))
    read = pysubs2.load(str(path), encoding="utf-8", format_="vtt")
    assert sorted((one.start / 1000, one.end / 1000, html.unescape(one.plaintext)) for one in read) == sorted(made)
    with av.open(str(path)) as container:
        times = [float((packet.pts or 0) * packet.time_base) for packet in container.demux(subtitles=0) if packet.size]
    assert times == [start for start, _, _ in made]


@given(st.text(st.characters(exclude_categories=["Cs"]), min_size=1, max_size=600))
def test_no_title_is_longer_than_a_player_reads(words: str) -> None:
    record = findings(entry(size={"text": words}))
    for one in in_a_row(whole_of(record)):
        assert len(one.text) <= LONGEST_TITLE
        assert 0 < len(one.text.encode("utf-8")) <= LONGEST_BYTES


def stretch(start: float, end: float, text: str) -> Stretch:
    return Stretch(recording="walk.mp4", start=start, end=end, text=text)


@given(
    st.lists(
        st.tuples(MOMENT, MOMENT, st.sampled_from(["Clean.", "The sink drips a bit when it is open."])), max_size=8
    )
)
def test_captions_are_shown_one_at_a_time_and_none_is_lost(spoken: list[tuple[float, float, str]]) -> None:
    shown = shown_in_turn([stretch(start, start + length, text) for start, length, text in spoken])
    assert [one.start_s for one in shown] == sorted({start for start, _, _ in spoken})
    assert all(one.end_s > one.start_s for one in shown)
    assert all(one.end_s <= after.start_s for one, after in pairwise(shown))
    words = " ".join(one.text for one in shown).split()
    assert sorted(words) == sorted(" ".join(text for _, _, text in spoken).split())
