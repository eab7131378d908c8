"""Whatever is handed in that cannot be used: one clear line, exit status 2, and not a byte written."""

from __future__ import annotations

import re
import zipfile
from collections.abc import Callable
from pathlib import Path

import pytest

from narrate2report.cli import main
from tests.drafted import SAMPLES
from tests.journeys.media import music, picture_alone, silent_walk

NOTES = "[0:00] We are in the kitchen.\n[0:04] The sink has a chip.\n"


def refused(source: Path | list[Path], folder: Path, capsys: pytest.CaptureFixture[str]) -> str:
    """Draft it, check that it is refused as promised, and return the line that was printed."""
    sources = source if isinstance(source, list) else [source]
    before = sorted(folder.rglob("*"))
    status = main(["draft", *map(str, sources), "--out", str(folder / "walk.findings.json"), "--quiet"])
    told = capsys.readouterr()
    assert status == 2
    assert told.out == ""
    assert re.fullmatch(r"narrate2report: [^\n]+\n", told.err), told.err
    assert sorted(folder.rglob("*")) == before
    return told.err


def test_a_file_that_is_not_there(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert "gone.mp4" in refused(tmp_path / "gone.mp4", tmp_path, capsys)


def test_a_name_that_is_no_text(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Some systems allow any bytes as a name; a record could not hold it."""
    assert "rename" in refused(tmp_path / "walk\udcff.txt", tmp_path, capsys)


def test_a_folder(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "clips").mkdir()
    assert "folder" in refused(tmp_path / "clips", tmp_path, capsys)


@pytest.mark.parametrize("name", ["walk.mp4", "walk.vtt", "walk.txt", "walk.transcript.json"])
def test_a_file_of_no_bytes(tmp_path: Path, name: str, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / name).touch()
    assert "empty" in refused(tmp_path / name, tmp_path, capsys)


def test_text_that_is_named_like_a_video(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "walk.mp4").write_text(NOTES, encoding="utf-8")
    assert "holds text" in refused(tmp_path / "walk.mp4", tmp_path, capsys)


def test_a_video_that_was_cut_off(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    video = silent_walk(tmp_path / "walk.mp4")
    whole = video.read_bytes()
    for part in (len(whole) // 2, len(whole) - 900):
        video.write_bytes(whole[:part])
        assert "cut off" in refused(video, tmp_path, capsys)


@pytest.mark.parametrize("stamp", ["9" * 400, "9" * 5_000], ids=["400 digits", "5000 digits"])
def test_a_time_that_no_clock_can_show(tmp_path: Path, stamp: str, capsys: pytest.CaptureFixture[str]) -> None:
    captions = tmp_path / "walk.vtt"
    captions.write_text(f"WEBVTT\n\n{stamp}:00:00.000 --> {stamp}:00:01.000\nThe sink is clean.\n", encoding="utf-8")
    refused(captions, tmp_path, capsys)


@pytest.mark.parametrize("name", ["-", "x" * 250 + ".json"], ids=["dash", "too long"])
def test_a_name_that_cannot_be_written(tmp_path: Path, name: str, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "walk.txt").write_text(NOTES, encoding="utf-8")
    assert main(["draft", str(tmp_path / "walk.txt"), "--out", str(tmp_path / name)]) == 2
    assert capsys.readouterr().err.count("\n") == 1
    assert [path.name for path in tmp_path.iterdir()] == ["walk.txt"]


def test_a_link_is_not_written_through(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "kept.json").write_text("kept", encoding="utf-8")
    (tmp_path / "walk.findings.json").symlink_to(tmp_path / "kept.json")
    (tmp_path / "walk.txt").write_text(NOTES, encoding="utf-8")
    assert "ordinary file" in refused(tmp_path / "walk.txt", tmp_path, capsys)
    assert (tmp_path / "kept.json").read_text(encoding="utf-8") == "kept"


def test_notes_of_ones_own_are_not_taken_for_a_transcript_to_replace(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    own = tmp_path / "walk.transcript.json"
    own.write_text("my own notes", encoding="utf-8")
    assert "choose another" in refused(SAMPLES / "move-in.mp4", tmp_path, capsys)
    assert own.read_text(encoding="utf-8") == "my own notes"


def test_a_video_without_sound(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert "no sound" in refused(picture_alone(tmp_path / "walk.mp4"), tmp_path, capsys)


def test_a_video_in_which_nobody_speaks(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert "no speech" in refused(silent_walk(tmp_path / "walk.mp4"), tmp_path, capsys)


def test_music_alone(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert "no speech" in refused(music(tmp_path / "walk.m4a"), tmp_path, capsys)


def test_an_encrypted_video(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The sound track is declared as encrypted (ISO/IEC 23001-7: sample entry `enca`)."""
    video = silent_walk(tmp_path / "walk.mp4")
    video.write_bytes(video.read_bytes().replace(b"mp4a", b"enca"))
    assert "encrypted" in refused(video, tmp_path, capsys)


def test_an_archive_that_is_named_like_a_video(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    with zipfile.ZipFile(tmp_path / "walk.mp4", "w") as archive:
        archive.writestr("walk.txt", NOTES * 50)
    refused(tmp_path / "walk.mp4", tmp_path, capsys)


def test_a_file_that_may_not_be_read(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Permissions do not bind the administrator, who runs the tests at times: so the refusal is played."""
    notes = tmp_path / "walk.txt"
    notes.write_text(NOTES, encoding="utf-8")
    real: Callable[..., object] = Path.open

    def locked(self: Path, *rest: object, **more: object) -> object:
        if self == notes:
            raise PermissionError(13, "Permission denied", str(self))
        return real(self, *rest, **more)

    monkeypatch.setattr(Path, "open", locked)
    assert "may not be read" in refused(notes, tmp_path, capsys)


BAD_TRANSCRIPTS = {
    "notes that run backwards": (
        "walk.txt",
        "[0:10] The sink is clean.\n[0:04] The tub has a chip.\n",
        "line 2",
    ),
    "captions that run backwards": (
        "walk.vtt",
        "WEBVTT\n\n00:10.000 --> 00:12.000\nThe sink.\n\n00:04.000 --> 00:06.000\nThe tub.\n",
        "line 6",
    ),
    "a caption that ends before it starts": (
        "walk.srt",
        "1\n00:00:10,000 --> 00:00:02,000\nThe sink.\n",
        "line 2",
    ),
    "a time that is none": ("walk.txt", "[0:00] The sink.\n[0:71] The tub.\n", "line 2"),
    "a time line that is torn": (
        "walk.srt",
        "1\n00:00:01,000 --> 00:00:02,000\nThe sink.\n\n2\n00:00:03,000 -->\nThe tub.\n",
        "line 6",
    ),
    "no times at all": ("walk.txt", "The sink is clean.\nThe tub is not.\n", "no times"),
    "times without words": ("walk.vtt", "WEBVTT\n\n00:01.000 --> 00:02.000\n\n", "no words"),
    "captions that are no captions": ("walk.vtt", "WEBVTT\n\n", "no captions"),
    "a transcript that is not ours": ("walk.transcript.json", '{"text": "The sink."}', "not a transcript"),
    "a transcript with a terminal command": (
        "walk.transcript.json",
        '{"recordings": [], "engine": {"name": "\\u001b[31m"}}',
        "no text",
    ),
    "JSON that is torn": ("walk.transcript.json", '{"schema": ', "not a transcript"),
}


@pytest.mark.parametrize(("name", "text", "told"), BAD_TRANSCRIPTS.values(), ids=BAD_TRANSCRIPTS.keys())
def test_a_bad_transcript_names_the_line(
    tmp_path: Path, name: str, text: str, told: str, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / name).write_text(text, encoding="utf-8")
    line = refused(tmp_path / name, tmp_path, capsys)
    assert name in line
    assert told in line


def test_letters_that_are_no_utf_8_name_their_line(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "walk.txt").write_bytes(b"[0:00] The sink.\n[0:04] The caf\xe9 table.\n")
    assert "line 2" in refused(tmp_path / "walk.txt", tmp_path, capsys)


def test_text_in_another_encoding_says_which(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "walk.txt").write_text(NOTES, encoding="utf-16")
    assert "UTF-16" in refused(tmp_path / "walk.txt", tmp_path, capsys)


def test_ten_megabytes_in_one_line(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "walk.txt").write_bytes(b"[0:00] " + b"the sink is clean and " * 480_000)
    line = refused(tmp_path / "walk.txt", tmp_path, capsys)
    assert "line 1" in line
    assert len(line) < 300


def test_a_sound_track_that_is_not_there(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    video = silent_walk(tmp_path / "walk.mp4")
    assert main(["draft", str(video), "--out", str(tmp_path / "walk.findings.json"), "--track", "2"]) == 2
    told = capsys.readouterr().err
    assert told == f"narrate2report: {video}: has no sound track 2; there is 1 (aac, 1 channel)\n"
    assert list(tmp_path.iterdir()) == [video]


def test_a_sound_track_of_a_transcript(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "walk.txt").write_text(NOTES, encoding="utf-8")
    out = tmp_path / "walk.findings.json"
    assert main(["draft", str(tmp_path / "walk.txt"), "--out", str(out), "--track", "1"]) == 2
    assert "no sound track" in capsys.readouterr().err
    assert not out.exists()


def test_one_bad_clip_among_good_ones(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    good = silent_walk(tmp_path / "one.mp4")
    bad = picture_alone(tmp_path / "two.mp4")
    assert "two.mp4" in refused([good, bad], tmp_path, capsys)


def test_a_recording_beside_a_transcript(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "walk.txt").write_text(NOTES, encoding="utf-8")
    refused([silent_walk(tmp_path / "one.mp4"), tmp_path / "walk.txt"], tmp_path, capsys)


@pytest.mark.parametrize("out", ["nowhere/walk.findings.json", ".", "walk.txt"])
def test_a_place_that_cannot_be_written_to(tmp_path: Path, out: str, capsys: pytest.CaptureFixture[str]) -> None:
    notes = tmp_path / "walk.txt"
    notes.write_text(NOTES, encoding="utf-8")
    assert main(["draft", str(notes), "--out", str(tmp_path / out)]) == 2
    assert capsys.readouterr().err.count("\n") == 1
    assert notes.read_text(encoding="utf-8") == NOTES
    assert list(tmp_path.iterdir()) == [notes]


def test_another_file_is_never_overwritten(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    notes, photo = tmp_path / "walk.txt", tmp_path / "front.jpg"
    notes.write_text(NOTES, encoding="utf-8")
    photo.write_bytes(b"\xff\xd8\xff\xe0 a picture")
    assert main(["draft", str(notes), "--out", str(photo)]) == 2
    assert "no findings file" in capsys.readouterr().err
    assert photo.read_bytes() == b"\xff\xd8\xff\xe0 a picture"


@pytest.mark.parametrize(
    "text",
    ["[0:0", "what.is: [", "paint: 7\n", "\x00", "- a\n- b\n"],
    ids=["flow", "yaml", "number", "nul", "list"],
)
def test_a_vocabulary_with_a_mistake(tmp_path: Path, text: str, capsys: pytest.CaptureFixture[str]) -> None:
    notes, words = tmp_path / "walk.txt", tmp_path / "words"
    notes.write_text(NOTES, encoding="utf-8")
    words.mkdir()
    (words / "components.yaml").write_text(text, encoding="utf-8")
    out = tmp_path / "walk.findings.json"
    assert main(["draft", str(notes), "--out", str(out), "--vocab", str(words)]) == 2
    told = capsys.readouterr().err
    assert told.count("\n") == 1
    assert "components.yaml" in told
    assert not out.exists()
