"""The identity of a file: SHA-256 and size, read once in pieces however long it is; and whether it stays as it is."""

from __future__ import annotations

import hashlib
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from narrate2report.errors import BadInput

PIECE = 1 << 20


@dataclass(frozen=True)
class Digest:
    """SHA-256 (64 hex digits) and length in bytes."""

    sha256: str
    bytes: int


@dataclass(frozen=True)
class Footprint:
    """What the file system tells of a file's content without reading it: another one means that it was changed."""

    bytes: int
    changed_ns: int
    """When it was last written to, in nanoseconds."""

    @classmethod
    def of(cls, path: Path) -> Footprint:
        """The footprint of a file as it is now. Raises BadInput when it is no longer there."""
        try:
            now = path.stat()
        except OSError as error:
            raise BadInput(f"{path}: cannot be read ({error.strerror or error})") from error
        return cls(now.st_size, now.st_mtime_ns)

    def check(self, path: Path) -> None:
        """Raise BadInput when the file is no longer as it was."""
        if Footprint.of(path) != self:
            raise BadInput(f"{path}: changed while it was being read; let the copying finish, then run this again")


Written = tuple[int, int, int]
"""Inode, time and size: what changes when a file is written anew, or another one takes its place."""


def written_as(path: Path) -> Written | None:
    """What tells this writing of a file from another one; None where there is none."""
    try:
        facts = path.stat()
    except OSError:
        return None
    return facts.st_ino, facts.st_mtime_ns, facts.st_size


class Hashes:
    """Files hashed once each, however many records cover them; `tell` is told of a file and its bytes beforehand."""

    def __init__(self, tell: Callable[[Path, int], None] = lambda _, __: None) -> None:
        self._tell = tell
        self._known: dict[Path, Digest | None] = {}

    def of(self, path: Path) -> Digest | None:
        """The digest of a file, or None where it cannot be read."""
        place = path.resolve()
        if place not in self._known:
            try:
                self._tell(path, Footprint.of(path).bytes)
                self._known[place] = digest_file(path)
            except BadInput:
                self._known[place] = None
        return self._known[place]


def digest_file(path: Path, stopped: Callable[[], bool] = lambda: False) -> Digest:
    """Hash a file in pieces of 1 MiB. Raises BadInput when it cannot be read, changes meanwhile, or is `stopped`."""
    before = Footprint.of(path)
    total, running = 0, hashlib.sha256()
    try:
        with path.open("rb") as file:
            while piece := file.read(PIECE):
                total += len(piece)
                running.update(piece)
                if stopped():
                    raise BadInput(f"{path}: was not read to its end")
    except OSError as error:
        raise BadInput(f"{path}: cannot be read ({error.strerror or error})") from error
    before.check(path)
    return Digest(running.hexdigest(), total)
