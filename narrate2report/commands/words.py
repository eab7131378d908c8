"""Which words are used: the built-in ones, then the folder of the person who works here, then the one named."""

from __future__ import annotations

import os
from pathlib import Path

import platformdirs

from narrate2report.errors import BadVocabulary

SWITCH = "NARRATE2REPORT_VOCAB"
"""Names another folder of one's own words; empty, none is used."""


def own_folder() -> Path | None:
    """Where the words of the person who works here lie, whether there are any or not; None when switched off."""
    named = os.environ.get(SWITCH)
    if named is not None:
        return Path(named) if named else None
    return Path(platformdirs.user_config_dir("narrate2report", appauthor=False, roaming=True)) / "vocab"


def word_folders(named: Path | None = None) -> tuple[Path, ...]:
    """The folders to lay over the built-in words, in this order; `named` is the one asked for at the keyboard.

    Raises BadVocabulary for a folder that was named and holds no words: they would be missed only in the record.
    """
    folders = []
    own = own_folder()
    if own is not None and (own.exists() or SWITCH in os.environ):
        if not own.is_dir():
            fault = "is no folder" if own.exists() else "no such folder"
            raise BadVocabulary(f"{own}: {fault}; make it, or set {SWITCH} to nothing to do without")
        folders.append(own)
    if named is not None and not (folders and _is_same(named, folders[0])):
        if named.is_dir() and not _has_files(named):
            raise BadVocabulary(f"{named}: no file of words in it, such as components.yaml; is it the right folder?")
        folders.append(named)
    return tuple(folders)


def _has_files(folder: Path) -> bool:
    """Whether any file there looks like one of words; what cannot be looked at is judged by who reads it."""
    try:
        return any(path.suffix.lower() in {".yaml", ".yml", ".txt"} for path in folder.iterdir())
    except OSError:
        return True


def _is_same(one: Path, other: Path) -> bool:
    try:
        return one.samefile(other)
    except OSError:
        return False
