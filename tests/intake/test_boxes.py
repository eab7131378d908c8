"""A first look into MP4 files tells two faults by name."""

from __future__ import annotations

import struct
from pathlib import Path

import pytest

from narrate2report.intake.boxes import Boxes, look_into
from tests.intake.recordings import Kind, write_recording


def box(kind: bytes, content: bytes = b"") -> bytes:
    return struct.pack(">I4s", 8 + len(content), kind) + content


FTYP = box(b"ftyp", b"isom\0\0\0\0")
ENTRY = box(b"enca", b"\0" * 20)
ENCRYPTED = box(b"moov", box(b"trak", box(b"stsd", b"\0\0\0\0\0\0\0\1" + ENTRY)))


@pytest.mark.parametrize(
    ("content", "expected"),
    [
        (FTYP + box(b"moov") + box(b"mdat", b"abc"), Boxes(True, False, 0)),
        (FTYP + box(b"mdat", b"abc"), Boxes(False, False, 0)),
        (FTYP + box(b"mdat", b"abc")[:-2], Boxes(False, False, 2)),
        (FTYP + ENCRYPTED, Boxes(True, True, 0)),
        (FTYP + struct.pack(">I4sQ", 1, b"mdat", 19) + b"abc" + box(b"moov"), Boxes(True, False, 0)),
        (FTYP + box(b"moov") + struct.pack(">I4s", 0, b"mdat") + b"to the end", Boxes(True, False, 0)),
        (b"RIFF\0\0\0\0WAVE", None),
        (b"ab", None),
    ],
)
def test_the_top_level_is_read(tmp_path: Path, content: bytes, expected: Boxes | None) -> None:
    (tmp_path / "walk.mp4").write_bytes(content)
    assert look_into(tmp_path / "walk.mp4") == expected


def test_a_box_of_no_size_does_not_hold_us_up(tmp_path: Path) -> None:
    (tmp_path / "walk.mp4").write_bytes(FTYP + struct.pack(">I4s", 4, b"free") * 10)
    assert look_into(tmp_path / "walk.mp4") == Boxes(False, False, 0)


def test_a_real_recording_is_whole(tmp_path: Path) -> None:
    path = write_recording(tmp_path / "walk.mp4", Kind(".mp4", "aac", "libx264"))
    assert look_into(path) == Boxes(True, False, 0)
