"""`captions FILE --to X.vtt|X.srt`: what was heard of a recording, as captions to play beside it."""

from __future__ import annotations

from pathlib import Path

from rich.console import Console

from narrate2report.errors import BadInput
from narrate2report.publish.captions import subrip, webvtt
from narrate2report.records.files import check_place, read_record, write_whole
from narrate2report.records.transcript import Stretch, Transcript
from narrate2report.wording import counted

WRITERS = {".vtt": webvtt, ".srt": subrip}


def captions(source: Path, to: Path, recording: str | None) -> None:
    """Write the captions of one recording of a transcript, and say how many there are.

    Raises NarrateError when the file is no transcript, the recording is not in it, or `to` cannot be written.
    """
    writer = WRITERS.get(to.suffix.lower())
    if writer is None:
        raise BadInput(f"--to {to}: captions are written as .vtt (WebVTT) or .srt (SubRip)")
    transcript = read_record(source, Transcript)
    stretches = _stretches_of(transcript, source, recording)
    check_place(to, "captions", _looks_like_captions)
    write_whole(to, writer(stretches).encode("utf-8"))
    shown = sum(stretch.doubt is None for stretch in stretches)
    told = f"{to}: {counted(shown, 'caption')} of {stretches[0].recording}"
    Console(highlight=False, markup=False).print(told, soft_wrap=True)


def _stretches_of(transcript: Transcript, source: Path, wanted: str | None) -> list[Stretch]:
    """The stretches of the wanted recording, or of the only one: times of two clips do not go into one file."""
    files = [recording.file for recording in transcript.recordings]
    if wanted is None and len(files) > 1:
        raise BadInput(f"{source}: is of {len(files)} recordings; name one with --recording: {', '.join(files)}")
    chosen = files[0] if wanted is None else wanted
    if chosen not in files:
        raise BadInput(f"{source}: has no recording {chosen}; there is {', '.join(files)}")
    stretches = [stretch for stretch in transcript.stretches if stretch.recording == chosen]
    if all(stretch.doubt is not None for stretch in stretches):
        raise BadInput(f"{source}: holds no words of {chosen} that could be shown")
    return stretches


def _looks_like_captions(head: bytes) -> bool:
    """Whether the marks of captions stand in the first lines of a file."""
    return head.startswith(b"WEBVTT") or b" --> " in head
