"""Captions, timed notes or a saved transcript to a Transcript; the content tells which it is."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from narrate2report.errors import BadInput, BrokenRecord
from narrate2report.intake.cues import Cue, CueFault, check_order, to_stretches
from narrate2report.intake.notes import has_stamps, parse_notes
from narrate2report.intake.subrip import is_subrip, parse_subrip
from narrate2report.intake.text import lines_of, read_text
from narrate2report.intake.webvtt import is_webvtt, parse_webvtt
from narrate2report.records.digest import digest_file
from narrate2report.records.files import parse_record
from narrate2report.records.transcript import Engine, Recording, Transcript


def read_transcript(path: Path) -> Transcript:
    """Read captions, timed notes or a saved transcript. Raises BadInput naming the first line that cannot
    be read.
    """
    text = read_text(path)
    if text.lstrip().startswith("{"):
        return _saved(path, text)
    lines = lines_of(text, path)
    try:
        engine, cues, warnings = _cues(path, text, lines)
        check_order(cues)
    except CueFault as fault:
        raise BadInput(f"{path}: {fault}") from fault
    stretches = to_stretches(cues, path.name)
    if not stretches:
        raise BadInput(f"{path}: has times but no words" if cues else f"{path}: holds no captions")
    identity = digest_file(path)
    recording = Recording(file=path.name, sha256=identity.sha256, bytes=identity.bytes, media=False)
    return Transcript(
        recordings=(recording,),
        engine=Engine(name=engine),
        time_precision="line",
        stretches=stretches,
        warnings=tuple(warnings),
    )


def join_transcripts(transcripts: Sequence[Transcript]) -> Transcript:
    """Several transcripts of one walk as one. Raises BadInput unless all were made the same way."""
    first = transcripts[0]
    if len(transcripts) == 1:
        return first
    names = [recording.file for one in transcripts for recording in one.recordings]
    for name in names:
        if names.count(name) > 1:
            raise BadInput(f"{name}: two of the transcripts are of a recording of this name; give each once")
    if any(one.engine != first.engine or one.language != first.language for one in transcripts):
        raise BadInput("the transcripts were made in different ways; draft them one at a time")
    return first.model_copy(
        update={
            "recordings": tuple(recording for one in transcripts for recording in one.recordings),
            "stretches": tuple(stretch for one in transcripts for stretch in one.stretches),
            "gaps": tuple(gap for one in transcripts for gap in one.gaps),
            "warnings": tuple(warning for one in transcripts for warning in one.warnings),
        }
    )


def _cues(path: Path, text: str, lines: Sequence[str]) -> tuple[str, list[Cue], list[str]]:
    if is_webvtt(text):
        return "captions (WebVTT)", parse_webvtt(lines), []
    if is_subrip(text):
        return "captions (SubRip)", parse_subrip(lines), []
    if has_stamps(text):
        cues, untimed = parse_notes(lines)
        warnings = []
        if untimed:
            span = f"line {untimed[0]}" if len(untimed) == 1 else f"lines {untimed[0]} to {untimed[-1]}"
            warnings.append(f"{path.name}: {span} before the first time was not read")
        return "timed notes", cues, warnings
    if path.suffix.lower() == ".vtt":
        raise CueFault(1, "a WebVTT file starts with WEBVTT")
    raise BadInput(f"{path}: holds no times; start each line with one, such as [0:12]")


def _saved(path: Path, text: str) -> Transcript:
    """A `.transcript.json` as listening wrote it."""
    try:
        transcript = parse_record(text, Transcript)
    except BrokenRecord as error:
        raise BadInput(f"{path}: is not a transcript of this program ({error})") from error
    known = {recording.file for recording in transcript.recordings}
    latest: dict[str, float] = {}
    for number, stretch in enumerate(transcript.stretches, start=1):
        if stretch.recording not in known:
            raise BadInput(f"{path}: stretch {number} belongs to {stretch.recording!r}, which it does not list")
        if stretch.end < stretch.start or stretch.start < latest.get(stretch.recording, 0.0):
            raise BadInput(f"{path}: stretch {number}: its times run backwards")
        latest[stretch.recording] = stretch.start
    if not transcript.stretches:
        raise BadInput(f"{path}: is a transcript without words")
    return transcript
