"""Captions and timed notes become stretches, whatever program wrote them and however it saved them."""

from __future__ import annotations

import hashlib
from pathlib import Path

import pytest

from narrate2report.errors import BadInput
from narrate2report.intake.transcripts import join_transcripts, read_transcript
from narrate2report.records.files import write_record
from narrate2report.records.transcript import Engine, Recording, Stretch, Transcript, Word

VTT = """WEBVTT Kitchen walk
Language: en

NOTE
Made by hand.
--

STYLE
::cue { color: lime }

one
00:01.000 --> 00:03.500 line:0 align:start
<v Inspector>The sink &amp; the tap
are <b>clean</b>.

00:00:04.000 --> 00:00:06.000
No leaks &lt;here&gt;.
"""

SRT = """1
00:00:01,000 --> 00:00:03,500
The <i>sink</i> is
clean.

2
00:00:04,000 --> 00:00:06,000 X1:10 X2:20
{\\an8}No leaks,

12 tiles.

3
00:00:07,000 --> 00:00:08,000
Done.
"""

NOTES = """Unit 2B, kitchen

[0:01] The sink is clean.
[0:04.5]No leaks
  under it.

[0:09]
[1:00:00] The last word.
"""


def read(tmp_path: Path, name: str, content: str | bytes) -> Transcript:
    path = tmp_path / name
    path.write_bytes(content.encode() if isinstance(content, str) else content)
    return read_transcript(path)


def told(transcript: Transcript) -> list[tuple[float, float, str]]:
    return [(stretch.start, stretch.end, stretch.text) for stretch in transcript.stretches]


def test_webvtt_gives_its_words_without_tags_notes_and_styles(tmp_path: Path) -> None:
    assert told(read(tmp_path, "walk.vtt", VTT)) == [
        (1.0, 3.5, "The sink & the tap are clean."),
        (4.0, 6.0, "No leaks <here>."),
    ]


def test_subrip_gives_its_words_even_past_a_blank_line(tmp_path: Path) -> None:
    assert told(read(tmp_path, "walk.srt", SRT)) == [
        (1.0, 3.5, "The sink is clean."),
        (4.0, 6.0, "No leaks, 12 tiles."),
        (7.0, 8.0, "Done."),
    ]


def test_notes_go_on_until_the_next_time(tmp_path: Path) -> None:
    transcript = read(tmp_path, "walk.txt", NOTES)
    assert told(transcript) == [
        (1.0, 4.5, "The sink is clean."),
        (4.5, 9.0, "No leaks under it."),
        (3600.0, 3601.2, "The last word."),
    ]
    assert transcript.time_precision == "line"
    assert transcript.warnings == ("walk.txt: line 1 before the first time was not read",)


def test_a_line_before_a_long_silence_does_not_last_all_through_it(tmp_path: Path) -> None:
    (first, _) = told(read(tmp_path, "walk.txt", "[0:00] The sink is clean.\n[9:00] The tub is not.\n"))
    assert first[0] == 0.0
    assert 1.6 < first[1] < 20.0


def test_two_lines_at_one_time_both_have_a_length(tmp_path: Path) -> None:
    lines = told(read(tmp_path, "walk.txt", "[0:05] Sink clean.\n[0:05] Tub clean.\n[0:08] Done.\n"))
    assert [line[:2] for line in lines[:2]] == [(5.0, 8.0), (5.0, 8.0)]


@pytest.mark.parametrize(("name", "text"), [("a.vtt", VTT), ("a.srt", SRT), ("a.txt", NOTES)])
@pytest.mark.parametrize("form", ["bom", "crlf", "cr", "no last line end"])
def test_how_a_text_was_saved_makes_no_difference(tmp_path: Path, name: str, text: str, form: str) -> None:
    saved = {
        "bom": b"\xef\xbb\xbf" + text.encode(),
        "crlf": text.replace("\n", "\r\n").encode(),
        "cr": text.replace("\n", "\r").encode(),
        "no last line end": text.rstrip("\n").encode(),
    }[form]
    assert told(read(tmp_path, name, saved)) == told(read(tmp_path, name, text))


@pytest.mark.parametrize(("text", "name"), [(VTT, "a.txt"), (SRT, "a.txt"), (NOTES, "a.srt"), (VTT, "a")])
def test_the_content_tells_the_kind_not_the_name(tmp_path: Path, text: str, name: str) -> None:
    assert len(read(tmp_path, name, text).stretches) >= 2


def test_the_text_file_itself_is_the_recording(tmp_path: Path) -> None:
    (recording,) = read(tmp_path, "walk.txt", "[0:01] abc\n").recordings
    assert recording.file == "walk.txt"
    assert recording.bytes == 11
    assert not recording.media
    assert recording.sha256 == hashlib.sha256(b"[0:01] abc\n").hexdigest()


BAD = {
    "webvtt: comma in a time": ("a.vtt", "WEBVTT\n\n00:01,000 --> 00:02.000\nWords\n", "line 3"),
    "webvtt: words without a time": (
        "a.vtt",
        "WEBVTT\n\n00:01.000 --> 00:02.000\nWords\n\nLost words\n",
        "line 6: words without a time: 'Lost words'",
    ),
    "webvtt: a blank line is missing": (
        "a.vtt",
        "WEBVTT\n\n00:01.000 --> 00:02.000\nWords\n00:03.000 --> 00:04.000\nMore\n",
        "line 5",
    ),
    "webvtt: no header": ("a.vtt", "The sink is clean.\n", "line 1: a WebVTT file starts with WEBVTT"),
    "webvtt: cues backwards": (
        "a.vtt",
        "WEBVTT\n\n00:05.000 --> 00:06.000\nOne\n\n00:04.999 --> 00:07.000\nTwo\n",
        "line 6: starts at 0:04, before the line above it",
    ),
    "webvtt: ends before it starts": (
        "a.vtt",
        "WEBVTT\n\n00:05.000 --> 00:04.000\nOne\n",
        "line 3: ends at 0:04",
    ),
    "subrip: words before the first time": (
        "a.srt",
        "Hello\n\n1\n00:00:01,000 --> 00:00:02,000\nA\n",
        "line 1",
    ),
    "subrip: a torn time": ("a.srt", "1\n00:00:01,000 -->\nWords\n", "line 2"),
    "notes: backwards": ("a.txt", "[0:05] One\nstill one\n[0:04] Two\n", "line 3: starts at 0:04"),
    "notes: no such time": ("a.txt", "[0:05] One\n[0:61] Two\n", r"line 2: \[0:61\] is not a time"),
    "no times": ("a.txt", "The sink is clean.\n", "holds no times"),
    "only empty cues": ("a.vtt", "WEBVTT\n\n00:01.000 --> 00:02.000\n<i></i>\n", "has times but no words"),
    "nothing but a header": ("a.vtt", "WEBVTT\n", "holds no captions"),
    "blank": ("a.txt", "\n  \n", "holds no times"),
    "one endless line": ("a.txt", "[0:01] " + "word " * 5000, "line 1: 25,007 characters"),
}


@pytest.mark.parametrize(("name", "text", "expected"), BAD.values(), ids=BAD.keys())
def test_a_line_that_cannot_be_read_is_named(tmp_path: Path, name: str, text: str, expected: str) -> None:
    with pytest.raises(BadInput, match=expected) as refusal:
        read(tmp_path, name, text)
    assert name in str(refusal.value)
    assert "\n" not in str(refusal.value)


@pytest.mark.parametrize(
    ("raw", "expected"),
    [
        (b"[0:01] Caf\xe9\n", r"line 1: byte 0xe9 \(offset 10\)"),
        (b"\xef\xbb\xbf[0:01] A\n[0:02] B\xff\n", r"line 2: byte 0xff \(offset 20\)"),
        (b"[0:01] A\n[0:02] \xe2\x82", r"line 2: byte 0xe2"),
        ("[0:01] A\n".encode("utf-16"), "UTF-16"),
        (b"[0:01] A\n\0\n", "line 2: holds a zero byte"),
    ],
)
def test_letters_that_cannot_be_read_are_named(tmp_path: Path, raw: bytes, expected: str) -> None:
    with pytest.raises(BadInput, match=expected):
        read(tmp_path, "walk.txt", raw)


def saved_transcript(*stretches: Stretch, file: str = "walk.mp4") -> Transcript:
    return Transcript(
        recordings=(Recording(file=file, sha256="0" * 64, bytes=1, duration_s=60.0),),
        engine=Engine(name="an engine"),
        time_precision="word",
        stretches=stretches,
    )


def said(start: float, text: str, file: str = "walk.mp4") -> Stretch:
    word = Word(text=text, start=start, end=start + 1, probability=0.5)
    return Stretch(recording=file, start=start, end=start + 1, text=text, words=(word,))


def test_a_saved_transcript_comes_back_whole(tmp_path: Path) -> None:
    transcript = saved_transcript(said(1.0, "Sink"), said(2.0, "clean"))
    write_record(tmp_path / "walk.transcript.json", transcript)
    assert read_transcript(tmp_path / "walk.transcript.json") == transcript


@pytest.mark.parametrize(
    ("stretches", "expected"),
    [
        ((said(2.0, "Sink"), said(1.0, "clean")), "stretch 2: its times run backwards"),
        ((said(2.0, "Sink", "other.mp4"),), "stretch 1 belongs to 'other.mp4'"),
        ((), "without words"),
    ],
)
def test_a_saved_transcript_that_does_not_hold_together(
    tmp_path: Path, stretches: tuple[Stretch, ...], expected: str
) -> None:
    write_record(tmp_path / "walk.transcript.json", saved_transcript(*stretches))
    with pytest.raises(BadInput, match=expected):
        read_transcript(tmp_path / "walk.transcript.json")


@pytest.mark.parametrize("text", ["{", '{"schema": "other"}', "{" * 100_000, '{"a":' * 100_000])
def test_json_that_is_no_transcript(tmp_path: Path, text: str) -> None:
    with pytest.raises(BadInput, match="not a transcript of this program") as refusal:
        read(tmp_path, "walk.transcript.json", text)
    assert len(str(refusal.value)) < 400


def test_transcripts_of_several_clips_join_in_order(tmp_path: Path) -> None:
    first = read(tmp_path, "one.txt", "[0:01] The sink.\n")
    second = read(tmp_path, "two.txt", "[0:00] The tub.\n")
    joined = join_transcripts([first, second])
    assert [(stretch.recording, stretch.text) for stretch in joined.stretches] == [
        ("one.txt", "The sink."),
        ("two.txt", "The tub."),
    ]


def test_transcripts_made_in_different_ways_do_not_join(tmp_path: Path) -> None:
    first = read(tmp_path, "one.txt", "[0:01] The sink.\n")
    with pytest.raises(BadInput, match="different ways"):
        join_transcripts([first, saved_transcript(said(1.0, "Sink"))])


def test_two_transcripts_of_one_recording_do_not_join() -> None:
    with pytest.raises(BadInput, match=r"walk\.mp4"):
        join_transcripts([saved_transcript(said(1.0, "Sink")), saved_transcript(said(1.0, "Tub"))])
