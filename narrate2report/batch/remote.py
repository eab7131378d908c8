"""Files at addresses: everything that knows fsspec. What is written appears whole or not at all."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import datetime
from pathlib import Path
from typing import Any

from narrate2report.errors import BadInput
from narrate2report.records.task import Lying

PIECE = 1 << 20
ADVICE = "install narrate2report[cluster] (for s3:// also narrate2report[s3])"

CHANGED = ("mtime", "LastModified", "last_modified", "updated", "created")
"""What file systems call the moment at which a file was last written, the surest first."""


def found(place: str, *, pattern: bool) -> Iterator[Lying]:
    """The files that match a pattern, lie below a folder, or the one of that name."""
    with _told(place):
        files, path = _opened(place)
        if pattern:
            facts = files.glob(path, detail=True)
        elif files.isdir(path):
            facts = files.find(path, detail=True)
        elif files.isfile(path):
            facts = {path: files.info(path)}
        else:
            raise FileNotFoundError("no such folder or recording")
        for name, each in sorted(facts.items()):
            if each.get("type") == "file" and not Path(name).name.startswith("."):
                yield Lying(files.unstrip_protocol(name), int(each.get("size") or 0), _changed(each))


def read(place: str) -> bytes:
    """All of a small file."""
    with _told(place):
        files, path = _opened(place)
        return bytes(files.cat_file(path))


def digest(place: str) -> str:
    """The SHA-256 of a file, read in pieces."""
    running = hashlib.sha256()
    with _told(place):
        files, path = _opened(place)
        with files.open(path, "rb") as file:
            while piece := file.read(PIECE):
                running.update(piece)
    return running.hexdigest()


def fetch(place: str, to: Path) -> bool:
    """Copy a file to a path of this machine; whether there is one."""
    with _told(place):
        files, path = _opened(place)
        if not files.isfile(path):
            return False
        files.get_file(path, str(to))
        return True


def send(file: Path, place: str) -> None:
    """Copy a file to an address: under another name first, so that nobody sees half of it."""
    with _told(place):
        files, path = _opened(place)
        folder, _, name = path.rpartition("/")
        part = f"{folder}/.{name}.part"
        files.put_file(str(file), part)
        files.mv(part, path)


def _opened(place: str) -> tuple[Any, str]:
    try:
        from fsspec.core import url_to_fs
    except ModuleNotFoundError as error:
        raise BadInput(f"{place}: is an address, for which a library is missing; {ADVICE}") from error
    files, path = url_to_fs(place)
    files.invalidate_cache()
    return files, str(path)


def _changed(facts: dict[str, Any]) -> float:
    """Seconds since 1970; without end where the file system does not tell, so that nothing is taken for older."""
    told = next((facts[name] for name in CHANGED if facts.get(name)), None)
    if isinstance(told, datetime):
        return told.timestamp()
    return float(told) if isinstance(told, (int, float)) else float("inf")


@contextmanager
def _told(place: str) -> Iterator[None]:
    """What a file system complains of, in one line: each has errors of its own."""
    try:
        yield
    except BadInput:
        raise
    except ImportError as error:
        raise BadInput(f"{place}: a library is missing for it ({error}); {ADVICE}") from error
    except Exception as error:
        raise BadInput(f"{place}: cannot be reached ({str(error) or type(error).__name__})") from error
