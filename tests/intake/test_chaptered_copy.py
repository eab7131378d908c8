"""A copy with chapters and captions is the recording, packet by packet, and any reader finds both in it."""

from __future__ import annotations

import html
from collections.abc import Sequence
from pathlib import Path

import av
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from narrate2report.errors import BadInput, NoRoom
from narrate2report.intake.chaptered_copy import Additions, copy_ending, make_chaptered_copy
from narrate2report.intake.container import time_zero
from narrate2report.intake.pictures import pictures
from narrate2report.intake.sound import sound_blocks
from narrate2report.records.timed_text import TimedText
from tests.intake.films import TEN_A_SECOND, ask_to_turn, cut_beginning, write_film
from tests.intake.recordings import KINDS, Kind, beep_starts, beeps, write_recording

SOUND = ("aac", beeps(48_000), 48_000, 0.0)
CHAPTERS = (TimedText(0.0, 0.75, "Start (draft)"), TimedText(0.75, 1.26, "Kitchen"), TimedText(1.26, 3.0, "Sink & <b>"))
CAPTIONS = (TimedText(0.5, 1.0, "Now the kitchen,\nby the sink."), TimedText(1.2, 2.07, "A <i>leak</i> & a drip. 😀"))
ADDED = Additions("Move-in, unit 2B", "DRAFT – not fully reviewed", CHAPTERS, CAPTIONS)


def copied(path: Path, added: Additions = ADDED) -> Path:
    out = path.parent / "copies" / f"copy{copy_ending(path)}"
    out.parent.mkdir(exist_ok=True)
    make_chaptered_copy(path, out, added)
    assert [file.name for file in out.parent.iterdir()] == [out.name]
    return out


def packets(path: Path) -> list[list[tuple[bytes, float]]]:
    """The packets of each track of picture and sound, with their times from where a player shows 0:00."""
    with av.open(str(path)) as container:
        tracks = [stream for stream in container.streams if stream.type in ("video", "audio")]
        found: dict[int, list[tuple[bytes, float]]] = {stream.index: [] for stream in tracks}
        for packet in container.demux(tracks):
            if packet.size:
                assert packet.pts is not None
                found[packet.stream.index].append((bytes(packet), float(packet.pts * packet.time_base)))
        zero = time_zero(container)
    return [[(content, time - zero) for content, time in track] for track in found.values()]


def chapters_in(path: Path) -> list[TimedText]:
    with av.open(str(path)) as container:
        return [
            TimedText(
                float(one["start"] * one["time_base"]), float(one["end"] * one["time_base"]), one["metadata"]["title"]
            )
            for one in container.chapters()
            if one["time_base"] is not None
        ]


def captions_in(path: Path) -> list[TimedText]:
    """Timed text is its length and the text (ISO/IEC 14496-17, 5.1); an empty one clears the screen."""
    with av.open(str(path)) as container:
        stored = [(packet, bytes(packet)) for packet in container.demux(subtitles=0) if packet.size]
        timed = container.streams.subtitles[0].codec_context.name == "mov_text"
        shown = []
        for packet, raw in stored:
            text = raw[2 : 2 + int.from_bytes(raw[:2], "big")].decode() if timed else html.unescape(raw.decode())
            start = float((packet.pts or 0) * packet.time_base)
            if text:
                shown.append(TimedText(start, start + float((packet.duration or 0) * packet.time_base), text))
        return shown


def near(found: Sequence[TimedText], wanted: Sequence[TimedText]) -> bool:
    assert [one.text for one in found] == [one.text for one in wanted]
    times = [(one.start_s, one.end_s) for one in wanted]
    assert [(one.start_s, one.end_s) for one in found] == [pytest.approx(pair, abs=0.0005) for pair in times]
    return True


SAME_PACKETS = [kind for kind in KINDS if kind.ending not in (".amr", ".ts", ".aac")]


@pytest.mark.parametrize("late_s", [0.0, 0.35])
@pytest.mark.parametrize("kind", SAME_PACKETS, ids=lambda kind: f"{kind.ending[1:]}-{kind.video}-{kind.audio}")
def test_packets_and_their_times_are_those_of_the_recording(tmp_path: Path, kind: Kind, late_s: float) -> None:
    path = write_recording(tmp_path / f"walk{kind.ending}", kind, late_s=late_s)
    copy = copied(path)
    for before, after in zip(packets(path), packets(copy), strict=True):
        assert [content for content, _ in after] == [content for content, _ in before]
        assert [time for _, time in after] == pytest.approx([time for _, time in before], abs=0.0011)
    assert near(chapters_in(copy), CHAPTERS)
    assert near(captions_in(copy), CAPTIONS)


@pytest.mark.parametrize(
    "kind", [kind for kind in KINDS if kind.ending in (".ts", ".aac")], ids=lambda kind: kind.ending
)
def test_streams_without_a_file_around_them_sound_and_look_the_same(tmp_path: Path, kind: Kind) -> None:
    """Their packets are framed otherwise in a file (start codes, ADTS): what they decode to is the same."""
    path = write_recording(tmp_path / f"walk{kind.ending}", kind)
    copy = copied(path)
    heard, again = (np.concatenate(list(sound_blocks(file))) for file in (path, copy))
    assert beep_starts(again) == pytest.approx(beep_starts(heard), abs=0.006)
    if kind.video:
        seen, shown = list(pictures(path)), list(pictures(copy))
        assert [one.time_s for one in shown] == pytest.approx([one.time_s for one in seen], abs=0.0011)
        assert all((a.frame.to_ndarray() == b.frame.to_ndarray()).all() for a, b in zip(seen, shown, strict=True))
    assert near(chapters_in(copy), CHAPTERS)


@pytest.mark.parametrize("turned", [90, 180, 270])
def test_a_turned_film_stays_turned(tmp_path: Path, turned: int) -> None:
    path = write_film(tmp_path / "walk.mov", turned=turned, sound=("aac", beeps(48_000), 48_000, 0.35))
    turns = []
    for file in (path, copied(path)):
        with av.open(str(file)) as container:
            turns.append(next(container.decode(video=0)).rotation)
    assert turns[0] == turns[1] != 0


def test_a_mirrored_film_stays_mirrored(tmp_path: Path) -> None:
    path = write_film(tmp_path / "walk.mp4")
    ask_to_turn(path, 0, mirrored=True)
    matrices = []
    for file in (path, copied(path)):
        raw = file.read_bytes()
        at = raw.index(b"tkhd") + 4
        matrices.append(raw[at + 40 : at + 76])
    assert matrices[0] == matrices[1]


@pytest.mark.parametrize("seconds", [0.7, 2.0])
def test_what_was_cut_off_on_the_phone_stays_cut_off(tmp_path: Path, seconds: float) -> None:
    path = write_film(tmp_path / "walk.mp4")
    cut_beginning(path, seconds)
    copy = copied(path)
    assert [one.time_s for one in pictures(copy)] == pytest.approx([one.time_s for one in pictures(path)], abs=0.001)
    assert packets(copy) == packets(path)


@pytest.mark.parametrize("ending", [".mp4", ".mkv"])
def test_a_picture_that_begins_late_begins_late(tmp_path: Path, ending: str) -> None:
    path = write_film(tmp_path / f"walk{ending}", times_s=[1.3 + time for time in TEN_A_SECOND], sound=SOUND)
    copy = copied(path)
    assert [one.time_s for one in pictures(copy)] == pytest.approx([one.time_s for one in pictures(path)], abs=0.0011)
    assert next(pictures(copy)).time_s == pytest.approx(1.3, abs=0.0011)


def test_every_track_of_sound_is_there(tmp_path: Path) -> None:
    path = write_recording(tmp_path / "walk.mp4", KINDS[0], more_tracks=(beeps(48_000, at=(1.0,)),))
    assert len(packets(copied(path))) == 3


@pytest.mark.parametrize(
    ("ending", "codec", "copy"),
    [(".mp4", "libx264", ".mp4"), (".mov", "libx264", ".mov"), (".webm", "libvpx-vp9", ".mkv")],
)
def test_the_copy_is_named_for_what_it_is(tmp_path: Path, ending: str, codec: str, copy: str) -> None:
    assert copy_ending(write_film(tmp_path / f"walk{ending}", codec, TEN_A_SECOND[:3])) == copy


def test_sound_alone_is_named_for_it(tmp_path: Path) -> None:
    assert copy_ending(write_recording(tmp_path / "walk.m4a", Kind(".m4a", "aac"))) == ".m4a"
    assert copy_ending(write_recording(tmp_path / "walk.flac", Kind(".flac", "flac"))) == ".mka"


@pytest.mark.parametrize("ending", [".mp4", ".mkv"])
def test_hundreds_of_long_titles_are_all_there(tmp_path: Path, ending: str) -> None:
    path = write_film(tmp_path / f"walk{ending}", times_s=[number / 10 for number in range(40)])
    many = [TimedText(n / 100, (n + 1) / 100, f"{n}: {'ü' * 100}") for n in range(400)]
    assert near(chapters_in(copied(path, Additions("a", "b", many))), many)


@settings(max_examples=20)
@given(st.data(), st.sampled_from([".mp4", ".mkv"]))
def test_chapters_and_captions_come_back_as_they_went_in(
    tmp_path_factory: pytest.TempPathFactory, data: st.DataObject, ending: str
) -> None:
    words = st.text(st.characters(exclude_categories=["C", "Z"]), min_size=1, max_size=40)
    starts = sorted(data.draw(st.sets(st.integers(1, 390), min_size=1, max_size=12)))
    texts = [data.draw(words) for _ in starts]
    turns = zip([0, *starts], [*starts, 400], ["S", *texts], strict=True)
    row = [TimedText(start / 100, end / 100, text) for start, end, text in turns]
    path = write_film(tmp_path_factory.mktemp("walk") / f"walk{ending}", sound=SOUND)
    copy = copied(path, Additions("t", "c", row, row[1:]))
    assert near(chapters_in(copy), row)
    assert near(captions_in(copy), row[1:])
    assert [[content for content, _ in track] for track in packets(copy)] == [
        [content for content, _ in track] for track in packets(path)
    ]


def test_the_list_of_chapters_is_also_there_for_players_that_know_no_track_of_them(tmp_path: Path) -> None:
    """Read from the box itself: version and flags, four bytes, a count, then time in 100 ns, length, title."""
    raw = copied(write_film(tmp_path / "walk.mp4")).read_bytes()
    at = raw.index(b"chpl") + 13
    found = []
    for _ in range(raw[at - 1]):
        time, length = int.from_bytes(raw[at : at + 8], "big"), raw[at + 8]
        found.append((time / 1e7, raw[at + 9 : at + 9 + length].decode("utf-8")))
        at += 9 + length
    assert found == [(one.start_s, one.text) for one in CHAPTERS]
    assert b"tref\x00\x00\x00\x0cchap" in raw


def test_title_and_standing_stand_in_the_file_and_place_and_device_do_not(tmp_path: Path) -> None:
    tags = {"location": "+12.3456-045.6789/", "make": "an invented phone", "com.apple.quicktime.model": "a model"}
    path = write_film(tmp_path / "walk.mp4", tags=tags)
    copy = copied(path)
    assert not [value for value in tags.values() if value.encode() in copy.read_bytes()]
    with av.open(str(copy)) as container:
        assert container.metadata["title"] == "Move-in, unit 2B"
        assert container.metadata["comment"] == "DRAFT – not fully reviewed"


@pytest.mark.parametrize("ending", [".mp4", ".mkv"])
def test_equal_input_gives_equal_bytes_and_the_recording_stays(tmp_path: Path, ending: str) -> None:
    path = write_film(tmp_path / f"walk{ending}", sound=SOUND)
    before = path.read_bytes()
    assert copied(path).read_bytes() == copied(path).read_bytes()
    assert path.read_bytes() == before


def test_a_browser_need_not_wait_for_the_end(tmp_path: Path) -> None:
    raw = copied(write_film(tmp_path / "walk.mp4", sound=SOUND)).read_bytes()
    assert 0 < raw.index(b"moov") < raw.index(b"mdat")


def test_a_recording_that_breaks_off_is_copied_as_far_as_it_goes(tmp_path: Path) -> None:
    path = write_film(tmp_path / "walk.mkv")
    path.write_bytes(path.read_bytes()[: path.stat().st_size * 2 // 3])
    copy = copied(path)
    assert 15 < len(list(pictures(copy))) == len(list(pictures(path))) < 35


def test_a_form_that_no_file_with_chapters_holds_is_refused_in_one_line(tmp_path: Path) -> None:
    path = write_recording(tmp_path / "walk.amr", Kind(".amr", "libopencore_amrnb", rate=8_000))
    with pytest.raises(BadInput, match=r"walk\.amr: cannot be copied without encoding it anew; .* --only vtt"):
        make_chaptered_copy(path, tmp_path / "copy.mka", ADDED)
    assert [file.name for file in tmp_path.iterdir()] == ["walk.amr"]


def test_what_is_no_recording_is_refused(tmp_path: Path) -> None:
    (tmp_path / "walk.mp4").write_bytes(b"no film" * 1000)
    with pytest.raises(BadInput, match=r"walk\.mp4"):
        make_chaptered_copy(tmp_path / "walk.mp4", tmp_path / "copy.mp4", ADDED)


@pytest.mark.parametrize("ending", [".mp4", ".mkv"])
@pytest.mark.parametrize("room", [0.1, 0.5, 0.95])
def test_a_full_disk_is_told_and_nothing_half_stays(tmp_path: Path, ending: str, room: float) -> None:
    """A limit on the size of a file stands for it."""
    resource = pytest.importorskip("resource")
    path = write_film(tmp_path / f"walk{ending}", sound=SOUND, times_s=[number / 10 for number in range(100)])
    (tmp_path / f"copy{ending}").write_bytes(b"the copy of before")
    soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (int(path.stat().st_size * room), hard))
    try:
        with pytest.raises(NoRoom, match="make room"):
            make_chaptered_copy(path, tmp_path / f"copy{ending}", ADDED)
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))
    assert sorted(file.name for file in tmp_path.iterdir()) == [f"copy{ending}", f"walk{ending}"]
    assert (tmp_path / f"copy{ending}").read_bytes() == b"the copy of before"
