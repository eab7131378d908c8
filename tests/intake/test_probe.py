"""The facts of a recording, as they go into the record."""

from __future__ import annotations

import hashlib
import tracemalloc
from pathlib import Path

import pytest

from narrate2report.errors import BadInput
from narrate2report.intake.probe import probe, recorded_moment, recorded_with
from narrate2report.records.digest import digest_file
from narrate2report.records.transcript import Track
from tests.intake.recordings import LENGTH_S, Kind, beeps, write_recording


def test_a_recording_is_known_by_its_bytes_length_and_tracks(tmp_path: Path) -> None:
    path = write_recording(tmp_path / "walk.mp4", Kind(".mp4", "aac", "libx264"))
    facts = probe(path)
    assert facts.file == "walk.mp4"
    assert facts.sha256 == hashlib.sha256(path.read_bytes()).hexdigest()
    assert facts.bytes == path.stat().st_size
    assert facts.duration_s == pytest.approx(LENGTH_S, abs=0.1)
    assert facts.tracks == (
        Track(kind="video", codec="h264"),
        Track(kind="audio", codec="aac", chosen=True),
    )


def test_a_late_sound_track_counts_into_the_length(tmp_path: Path) -> None:
    path = write_recording(tmp_path / "walk.mp4", Kind(".mp4", "aac", "libx264"), late_s=1.0)
    assert probe(path).duration_s == pytest.approx(LENGTH_S + 1.0, abs=0.1)


def test_a_transport_stream_is_as_long_as_a_player_shows(tmp_path: Path) -> None:
    path = write_recording(tmp_path / "walk.ts", Kind(".ts", "aac", "libx264"))
    assert probe(path).duration_s == pytest.approx(LENGTH_S, abs=0.2)


def test_the_recordings_own_clock_is_read(tmp_path: Path) -> None:
    path = write_recording(
        tmp_path / "walk.mp4", Kind(".mp4", "aac", "libx264"), tags={"creation_time": "2026-03-04T14:15:00Z"}
    )
    assert probe(path).recorded_at == "2026-03-04T14:15:00+00:00"


def test_where_and_with_what_it_was_filmed_is_left_out(tmp_path: Path) -> None:
    path = write_recording(
        tmp_path / "walk.mov",
        Kind(".mov", "aac", "libx264"),
        tags={"location": "+12.3456-012.3456/", "make": "Anymaker", "model": "Anyphone"},
    )
    assert b"Anyphone" in path.read_bytes()
    told = probe(path).model_dump_json()
    assert "12.3456" not in told
    assert "Any" not in told


def test_where_and_with_what_it_was_filmed_is_kept_when_asked_for(tmp_path: Path) -> None:
    path = write_recording(
        tmp_path / "walk.mov",
        Kind(".mov", "aac", "libx264"),
        tags={"location": "+12.3456-012.3456/", "make": "Anymaker", "model": "Anyphone 3"},
    )
    facts = probe(path, keep_location=True)
    assert facts.location == "+12.3456-012.3456/"
    assert facts.device == "Anymaker Anyphone 3"


@pytest.mark.parametrize(
    ("tags", "device"),
    [
        ({"com.android.manufacturer": "Anymaker", "com.android.model": "A3"}, "Anymaker A3"),
        ({"model": "A3"}, "A3"),
        ({"make": "", "model": ""}, None),
        ({"encoder": "Lavf"}, None),
    ],
)
def test_a_device_is_known_by_the_tags_that_phones_write(tags: dict[str, str], device: str | None) -> None:
    assert recorded_with(tags) == device


def test_the_track_that_is_listened_to_is_marked(tmp_path: Path) -> None:
    kind = Kind(".mp4", "aac", "libx264")
    path = write_recording(tmp_path / "walk.mp4", kind, more_tracks=(beeps(kind.rate),))
    assert [track.chosen for track in probe(path).tracks] == [False, True, False]
    assert [track.chosen for track in probe(path, 2).tracks] == [False, False, True]


def test_a_large_file_is_hashed_in_pieces(tmp_path: Path) -> None:
    path = tmp_path / "large"
    path.write_bytes(b"walk" * 5_000_000)
    tracemalloc.start()
    digest = digest_file(path)
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    assert digest.sha256 == hashlib.sha256(path.read_bytes()).hexdigest()
    assert peak < 4_000_000


def test_a_file_that_grows_while_it_is_hashed_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "walk.mp4"
    path.write_bytes(b"walk" * 1_000_000)
    real = hashlib.sha256

    def growing() -> object:
        with path.open("ab") as file:
            file.write(b"more")
        return real()

    monkeypatch.setattr(hashlib, "sha256", growing)
    with pytest.raises(BadInput, match=r"walk\.mp4: changed while it was being read"):
        digest_file(path)


@pytest.mark.parametrize(
    ("tags", "moment"),
    [
        (
            {
                "creation_time": "2026-03-04T14:15:00.000000Z",
                "com.apple.quicktime.creationdate": "2026-03-04T09:15:00-0500",
            },
            "2026-03-04T09:15:00-05:00",
        ),
        ({"creation_time": "2026-03-04T14:15:00.000000Z"}, "2026-03-04T14:15:00+00:00"),
        ({"CREATION_TIME": "2026-03-04T14:15:00Z"}, "2026-03-04T14:15:00+00:00"),
        ({"creation_time": "1904-01-01T00:00:00.000000Z"}, None),
        ({"creation_time": "1970-01-01T00:00:00.000000Z"}, None),
        ({"date": "2026"}, None),
        ({"creation_time": "yesterday at about noon"}, None),
        ({}, None),
    ],
)
def test_a_clock_that_was_never_set_tells_nothing(tags: dict[str, str], moment: str | None) -> None:
    assert recorded_moment(tags) == moment
