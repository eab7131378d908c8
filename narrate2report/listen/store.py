"""What was heard so far, kept on disk: an interrupted run goes on, an unchanged one is instant.

A file of one JSON line for each result, appended to and forced to disk as soon as there is one. A line that
a crash left half written is cut off when the file is next opened. Keys say what a result depends on, so
nothing stale is used.
"""

from __future__ import annotations

import hashlib
import json
import os
from collections.abc import Mapping
from pathlib import Path
from types import TracebackType
from typing import Any

from narrate2report.errors import FULL, BadInput, NarrateError, NoRoom

FORM = 4
"""Raised when the meaning of a line, or the way in which words are timed, changes."""

FIRST_BYTES = b'{"key":"'
"""How every line begins: a file that begins otherwise is not ours to cut off."""


def result_key(**depends_on: object) -> str:
    """A name for a result from all that it depends on."""
    text = json.dumps({"form": FORM, **depends_on}, sort_keys=True, separators=(",", ":"), default=dict)
    return hashlib.sha256(text.encode()).hexdigest()


class Store:
    """Results by key; use as a context."""

    def __init__(self, path: Path | None) -> None:
        """Open or begin the file; None keeps results in memory only. Raises BadInput when it cannot be
        written.
        """
        self._path = path
        self._file: int | None = None
        self._results: dict[str, Mapping[str, Any]] = {}
        if path is None:
            return
        try:
            whole = self._read(path)
            self._file = os.open(path, os.O_WRONLY | os.O_CREAT, 0o644)
            os.ftruncate(self._file, whole)
            os.lseek(self._file, whole, os.SEEK_SET)
        except OSError as error:
            raise self._fault(error) from error

    def __enter__(self) -> Store:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        if self._file is not None:
            os.close(self._file)
            self._file = None

    def get(self, key: str) -> Mapping[str, Any] | None:
        """The result kept under a key, if any."""
        return self._results.get(key)

    def put(self, key: str, result: Mapping[str, Any]) -> None:
        """Keep a result; it is on disk when this returns. Raises BadInput when the disk is full."""
        self._results[key] = result
        if self._file is None:
            return
        line = json.dumps({"key": key, "result": result}, ensure_ascii=False, separators=(",", ":")) + "\n"
        try:
            left = memoryview(line.encode())
            while left:
                left = left[os.write(self._file, left) :]
            os.fsync(self._file)
        except OSError as error:
            raise self._fault(error) from error

    def _read(self, path: Path) -> int:
        """Take in the whole lines; returns the length in bytes up to which the file is good."""
        good = 0
        if not path.exists():
            return good
        with path.open("rb") as file:
            for line in file:
                try:
                    entry = json.loads(line) if line.endswith(b"\n") else None
                except ValueError:
                    entry = None
                if not isinstance(entry, dict) or not isinstance(entry.get("result"), dict) or "key" not in entry:
                    break
                self._results[entry["key"]] = entry["result"]
                good += len(line)
            if not good:
                file.seek(0)
                head = file.read(len(FIRST_BYTES))
                if not FIRST_BYTES.startswith(head):
                    raise BadInput(
                        f"{path}: is another kind of file and is left alone; move it or choose another output"
                    )
        return good

    def _fault(self, error: OSError) -> NarrateError:
        if error.errno in FULL:
            return NoRoom(
                f"{self._path}: no room left there ({error.strerror}); make some, and the same command goes on "
                "from what was heard so far"
            )
        return BadInput(f"{self._path}: what was heard cannot be kept there ({error.strerror or error})")
