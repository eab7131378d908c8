"""Where the files of one walk lie: `flat.findings.json` has its transcript, journal and pictures beside it."""

from __future__ import annotations

from pathlib import Path, PurePosixPath

from narrate2report.errors import BrokenRecord

FINDINGS_ENDING = ".findings.json"
JOURNAL_ENDING = ".journal.jsonl"
CHAPTERS_MARK = ".chapters"
"""Before the ending of a copy of a recording with chapters in it: `flat.chapters.mp4` is no recording of its own."""
MEDIA_SUFFIXES = frozenset(
    {".mp4", ".mov", ".m4v", ".3gp", ".3g2", ".mkv", ".webm", ".avi", ".mpg", ".mpeg", ".ts", ".mts"}
    | {".m4a", ".mp3", ".wav", ".flac", ".ogg", ".oga", ".opus", ".aac", ".amr"}
)
"""How recordings are named."""


def is_recording(name: str) -> bool:
    """Whether a file is named like a recording of a walk: a copy with chapters is none of its own."""
    stem, _, ending = name.rpartition(".")
    return f".{ending.lower()}" in MEDIA_SUFFIXES and not stem.endswith(CHAPTERS_MARK)


def walk_name(findings: Path) -> str:
    """`flat` for `flat.findings.json`, and for `flat.json` too."""
    name = findings.name
    return name.removesuffix(FINDINGS_ENDING) if name.endswith(FINDINGS_ENDING) else findings.stem


def transcript_beside(findings: Path) -> Path:
    """What was heard: `flat.transcript.json`."""
    return findings.with_name(f"{walk_name(findings)}.transcript.json")


def journal_beside(findings: Path) -> Path:
    """Every decision about the entries: `flat.journal.jsonl`."""
    return findings.with_name(walk_name(findings) + JOURNAL_ENDING)


def stills_beside(findings: Path) -> Path:
    """The folder of pictures taken from the recordings: `flat.stills`."""
    return findings.with_name(f"{walk_name(findings)}.stills")


def heard_beside(findings: Path) -> Path:
    """Where the pieces heard so far are kept: `.flat.heard.jsonl`. It may be deleted at any time."""
    return findings.with_name(f".{walk_name(findings)}.heard.jsonl")


def place_of(file: str, path: Path) -> Path:
    """Where a file of the record at `path` lies. Raises BrokenRecord for a name that leads out of its folder."""
    name = PurePosixPath(file)
    if not name.parts or name.is_absolute() or ".." in name.parts or "\\" in file or ":" in file:
        raise BrokenRecord(f"{path}: names a file outside its own folder: {file!r}")
    return path.parent.joinpath(*name.parts)
