"""Adding to the journal: locked against other programs, on disk before it is believed, torn ends set aside.

A line counts when its newline is on disk. What a crash left after the last newline was never shown to anyone as
kept; it is moved into a file of its own, so that nothing at all is thrown away.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager
from itertools import count
from pathlib import Path
from typing import Any, Generic

from filelock import FileLock, Timeout

from narrate2report.errors import BadInput, BrokenRecord
from narrate2report.records.base import Sha256
from narrate2report.records.files import sync_folder, write_whole
from narrate2report.records.journal import Altered
from narrate2report.records.journal_file import (
    KindOfLine,
    journal_bytes,
    last_sha256,
    line_bytes,
    parse_lines,
    whole_lines,
)

PATIENCE_S = 10.0
"""How long one program waits for another that is just writing."""


class Journal(Generic[KindOfLine]):
    """The journal of one record, read and added to; `kind` says what its lines hold.

    Raises BrokenRecord where the file is no journal or not that of this record, BadInput where it cannot be written.
    """

    def __init__(self, path: Path, kind: type[KindOfLine]) -> None:
        self._path, self._kind = path, kind
        self._lock = FileLock(path.with_name(f".{path.name}.lock"))
        self._raw = b""
        self.lines: list[KindOfLine] = []
        self.set_aside: Path | None = None

    @contextmanager
    def locked(self) -> Iterator[None]:
        """Keep other programs from writing meanwhile.

        Raises BadInput when one of them does not let go, or nothing can be written beside the record.
        """
        try:
            held = self._lock.acquire(timeout=PATIENCE_S)
        except Timeout as error:
            raise BadInput(f"{self._path}: another program is writing to it; close that one and try again") from error
        except OSError as error:
            raise BadInput(f"{self._path}: cannot be written ({error.strerror or error}); nothing was kept") from error
        with held:
            yield

    def refresh(self) -> list[KindOfLine]:
        """The lines that were added since the last look, by whichever program. Call it locked."""
        raw = journal_bytes(self._path)
        if not raw.startswith(self._raw):
            raise BrokenRecord(f"{self._path}: was changed from outside; close this review and open it again")
        if raw == self._raw:
            return []
        whole = whole_lines(raw)
        if len(whole) < len(raw):
            self._put_aside(raw[len(whole) :], len(whole))
        new = list(parse_lines(whole[len(self._raw) :], self._path, self._kind, self._raw))
        self.lines.extend(new)
        self._raw = whole
        return new

    def begin(self, at: str, by: str, draft: Sha256) -> None:
        """Write the first line, which names the draft that the journal belongs to. Call it locked."""
        self._write(self._line(number=1, at=at, by=by, action="begin", previous=draft))

    def append(self, at: str, by: str, action: str, changes: tuple[Altered, ...], takes_back: int | None) -> KindOfLine:
        """Write one more line and return it when it is on disk. Call it locked, after a refresh."""
        line = self._line(
            number=len(self.lines) + 1,
            at=at,
            by=by,
            action=action,
            changes=changes,
            takes_back=takes_back,
            previous=last_sha256(self._raw),
        )
        self._write(line)
        return line

    def _line(self, **fields: Any) -> KindOfLine:
        return self._kind(**fields)

    def _write(self, line: KindOfLine) -> None:
        raw = line_bytes(line)
        is_new = not self._path.exists()
        try:
            with self._path.open("ab") as file:
                file.write(raw)
                file.flush()
                os.fsync(file.fileno())
            if is_new:
                sync_folder(self._path.parent)
        except OSError as error:
            kept = (
                "this was not kept" if self._forgets() else "close this review and open it again to see what was kept"
            )
            raise BadInput(f"{self._path}: cannot be written ({error.strerror or error}); {kept}") from error
        self._raw += raw
        self.lines.append(line)

    def _forgets(self) -> bool:
        """Take off what a failed write may have left, so that nothing stands there that was told as not kept."""
        try:
            if self._path.exists():
                self._cut(len(self._raw))
        except OSError:
            return False
        return True

    def _put_aside(self, torn: bytes, at: int) -> None:
        names = (f"{self._path.name}.torn-{at}" + (f"-{number}" if number > 1 else "") for number in count(1))
        place = next(place for place in map(self._path.with_name, names) if not place.exists())
        write_whole(place, torn)
        self._cut(at)
        self.set_aside = place

    def _cut(self, at: int) -> None:
        """Make the file end there: what stands behind was never shown as kept."""
        with self._path.open("r+b") as file:
            file.truncate(at)
            file.flush()
            os.fsync(file.fileno())
