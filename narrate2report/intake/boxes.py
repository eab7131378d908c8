"""A first look into MP4 and MOV files, which are made of nested boxes (ISO/IEC 14496-12, section 4.2).

A decoder only says "invalid data", or plays what is there; three faults deserve better words: a recording that
was cut off before its index (`moov`) was written, one that lost its end, and one that is encrypted
(sample entries `encv`, `enca`; ISO/IEC 23001-7).
"""

from __future__ import annotations

import struct
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import BinaryIO

LARGEST_INDEX = 256 << 20
"""Bytes of `moov` that are looked through; the index of a whole day of video is far smaller."""


@dataclass(frozen=True)
class Boxes:
    """What stands at the top level of an MP4 or MOV file."""

    has_index: bool
    encrypted: bool
    missing_bytes: int
    """How many bytes its boxes announce beyond the end of the file; 0 for a whole one."""


def look_into(path: Path) -> Boxes | None:
    """Read the top level of an MP4 or MOV file; None when the file is something else."""
    size = path.stat().st_size
    has_index, encrypted, missing = False, False, 0
    with path.open("rb") as file:
        file.seek(4)
        if file.read(4) not in (b"ftyp", b"moov", b"wide", b"mdat", b"free", b"skip"):
            return None
        for kind, start, end in _top_level(file, size):
            missing = max(missing, end - size)
            if kind == b"moov" and end <= size:
                has_index = True
                file.seek(start)
                encrypted = _names_encrypted_track(file.read(min(end - start, LARGEST_INDEX)))
    return Boxes(has_index, encrypted, missing)


def _top_level(file: BinaryIO, size: int) -> Iterator[tuple[bytes, int, int]]:
    """Yield each top-level box as kind, start and end offset."""
    at = 0
    while at + 8 <= size:
        file.seek(at)
        head = file.read(16)
        length, kind = struct.unpack(">I4s", head[:8])
        if length == 1 and len(head) == 16:
            (length,) = struct.unpack(">Q", head[8:])
        elif length == 0:
            length = size - at
        if length < 8:
            return
        yield kind, at, at + length
        at += length


def _names_encrypted_track(index: bytes) -> bool:
    """Whether a sample description of the index starts with an encrypted entry."""
    at = index.find(b"stsd")
    while at >= 0:
        # stsd: name, version and flags (4), count (4), then the first entry's size (4) and name.
        if index[at + 16 : at + 20] in (b"encv", b"enca"):
            return True
        at = index.find(b"stsd", at + 4)
    return False
