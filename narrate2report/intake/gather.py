"""The one way in: files named by the user, checked all together, to clips or a transcript.

Every file is looked at before anything is done with any, so a mistake in the last one costs no waiting.
"""

from __future__ import annotations

import stat
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from narrate2report.errors import BadInput
from narrate2report.intake.probe import probe
from narrate2report.intake.sound import MediaClip
from narrate2report.intake.text import UTF_16_MARKS, looks_like_text
from narrate2report.intake.transcripts import join_transcripts, read_transcript
from narrate2report.records.beside import MEDIA_SUFFIXES
from narrate2report.records.digest import Footprint
from narrate2report.records.transcript import Transcript

TEXT_SUFFIXES = frozenset({".vtt", ".srt", ".json", ".txt", ".md"})
HEAD = 8192


@dataclass(frozen=True)
class Clips:
    """Recordings of one walk, in the order they were made."""

    clips: tuple[MediaClip, ...]


Given = Clips | Transcript
"""What the user brought: sound still to be listened to, or words."""


def gather(inputs: Sequence[Path], *, track: int | None = None, keep_location: bool = False) -> Given:
    """Check and open the inputs of one walk: recordings in order, or transcripts in order.

    `track` is the sound track to listen to, counted from 1 (None: the first that can be decoded).
    Raises BadInput, with one line naming the file, what is wrong and what to do, for the first that cannot
    be used.
    """
    if not inputs:
        raise BadInput("no recording or transcript was named")
    kinds = [_is_transcript(path) for path in inputs]
    _refuse_same_name(inputs)
    if any(kinds) and track is not None:
        raise BadInput(f"{inputs[kinds.index(True)]}: is a transcript, so it has no sound track {track}")
    if all(kinds):
        return join_transcripts([read_transcript(path) for path in inputs])
    if any(kinds):
        text = inputs[kinds.index(True)]
        raise BadInput(f"{text}: is a transcript, the others are recordings; give one kind or the other")
    return Clips(tuple(_clip(path, track, keep_location=keep_location) for path in inputs))


def _clip(path: Path, track: int | None, *, keep_location: bool) -> MediaClip:
    """A recording with its facts. Raises BadInput when it cannot be listened to, or is still being written."""
    footprint = Footprint.of(path)
    recording = probe(path, track, keep_location=keep_location)
    footprint.check(path)
    return MediaClip(path, recording, footprint, track)


def _is_transcript(path: Path) -> bool:
    """Whether a file is to be read as text; raises BadInput when it can be neither text nor recording."""
    head = _head(path)
    suffix = path.suffix.lower()
    if not looks_like_text(head) and suffix not in TEXT_SUFFIXES:
        return False
    if suffix in MEDIA_SUFFIXES:
        raise BadInput(f"{path}: is named like a recording but holds text")
    if b"\0" in head and not head.startswith(UTF_16_MARKS):
        if suffix == ".txt":
            return False  # a recording that lost its name on the way
        raise BadInput(f"{path}: is named like a transcript but does not hold text")
    return True


def _head(path: Path) -> bytes:
    """The first bytes of a file that is there, is a file, holds something and may be read; else BadInput."""
    try:
        mode = path.stat().st_mode
        if stat.S_ISDIR(mode):
            raise BadInput(f"{path}: is a folder; name the recording in it")
        if not stat.S_ISREG(mode):
            raise BadInput(f"{path}: is not a file")
        with path.open("rb") as file:
            head = file.read(HEAD)
    except FileNotFoundError as error:
        raise BadInput(f"{path}: no such file") from error
    except PermissionError as error:
        raise BadInput(f"{path}: may not be read; change its permissions or copy it") from error
    except (OSError, ValueError) as error:
        raise BadInput(f"{path}: cannot be read ({getattr(error, 'strerror', None) or error})") from error
    if not head:
        raise BadInput(f"{path}: is empty (0 bytes); copy it from the phone again")
    return head


def _refuse_same_name(inputs: Sequence[Path]) -> None:
    """Links name a recording by its file name, so no two may share one."""
    seen: dict[str, Path] = {}
    for path in inputs:
        other = seen.setdefault(path.name.casefold(), path)
        if other is not path:
            raise BadInput(f"{path}: has the same name as {other}; rename one, since links go by file name")
