"""The journal's file: one canonical JSON line a decision, each naming the SHA-256 of the line before.

Reading only; whoever decides adds the lines. A line's hash is over its bytes without the end of the line.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import TypeVar

from pydantic import BaseModel

from narrate2report.errors import BrokenRecord
from narrate2report.records.canonical import canonical_bytes, canonical_sha256
from narrate2report.records.files import as_it_stands, parse_record, read_bytes, record_json
from narrate2report.records.journal import Line

KindOfLine = TypeVar("KindOfLine", bound=Line)


@dataclass(frozen=True)
class Fault:
    """What is wrong with a line, counted from 1: what was expected there, and what stands there."""

    line: int
    what: str
    expected: str
    found: str

    def __str__(self) -> str:
        return f"line {self.line}: {self.what} should be {self.expected}, is {self.found}"


def line_bytes(line: Line) -> bytes:
    """A line as it is written: its canonical form (RFC 8785), which holds no end of line, and a newline."""
    return canonical_bytes(record_json(line)) + b"\n"


def line_sha256(line: Line) -> str:
    """What the next line names as its `previous`: SHA-256 over a line's bytes without the newline."""
    return hashlib.sha256(line_bytes(line)[:-1]).hexdigest()


def last_sha256(raw: bytes) -> str:
    """What the line after these lines names as its `previous`: of the bytes as they lie on disk."""
    return hashlib.sha256(raw.removesuffix(b"\n").rpartition(b"\n")[2]).hexdigest()


def draft_sha256(draft: BaseModel) -> str:
    """What the first line names as its `previous`: SHA-256 over the draft's canonical form (RFC 8785).

    Fields at their default are left out, so that a field that a later version adds makes no other draft of it.
    """
    return canonical_sha256(draft.model_dump(mode="json", by_alias=True, exclude_defaults=True))


def read_journal(path: Path, kind: type[KindOfLine]) -> tuple[KindOfLine, ...]:
    """All lines of a journal, each of this kind. Raises BrokenRecord with the number of the first line that is wrong.

    Raises BadInput where the file cannot be read.
    """
    raw = read_bytes(path)
    if not raw:
        raise BrokenRecord(f"{path}: is empty; a journal has at least its first line")
    return parse_lines(raw, path, kind)


def journal_bytes(path: Path) -> bytes:
    """What stands in a journal; nothing where there is none yet. Raises BadInput where it cannot be read."""
    return read_bytes(path) if path.exists() else b""


def whole_lines(raw: bytes) -> bytes:
    """What stands there up to the last end of a line; what a crash has torn off behind it is no line."""
    return raw[: raw.rfind(b"\n") + 1]


def kept_lines(path: Path, kind: type[KindOfLine]) -> tuple[KindOfLine, ...]:
    """The whole lines of a journal; none where there is no such file. Raises as `read_journal` does."""
    return parse_lines(whole_lines(journal_bytes(path)), path, kind)


def parse_lines(raw: bytes, path: Path, kind: type[KindOfLine], before: bytes = b"") -> tuple[KindOfLine, ...]:
    """The lines of a journal from its start, or those that follow the bytes `before`.

    Raises BrokenRecord with the number of the first line that is wrong.
    """
    lines, faults = check_lines(raw, kind, before)
    if faults:
        raise BrokenRecord(f"{path}: {faults[0]}")
    return lines


def check_lines(
    raw: bytes, kind: type[KindOfLine], before: bytes = b""
) -> tuple[tuple[KindOfLine, ...], tuple[Fault, ...]]:
    """The lines that can be read, and everything that is wrong with any: form, number, chain.

    What the first line of all names as its previous is left to whoever has the draft.
    """
    *whole, torn = raw.split(b"\n")
    first = before.count(b"\n") + 1
    previous = last_sha256(before) if before else None
    faults: list[Fault] = []
    lines: list[KindOfLine] = []
    for number, bytes_of_line in enumerate(whole, first):
        try:
            line = parse_record(bytes_of_line.decode("utf-8"), kind, "line of a journal")
        except (BrokenRecord, UnicodeDecodeError) as error:
            faults.append(Fault(number, "what stands there", "a decision", str(error)))
        else:
            lines.append(line)
            faults += _faults(number, line, previous, bytes_of_line)
        previous = hashlib.sha256(bytes_of_line).hexdigest()
    if torn:
        faults.append(Fault(first + len(whole), "its end", "the end of a line", "torn off"))
    return tuple(lines), tuple(faults)


def _faults(number: int, line: Line, before: str | None, raw: bytes) -> Iterator[Fault]:
    if line.number != number:
        yield Fault(number, "its number", str(number), str(line.number))
    if (line.action == "begin") != (number == 1):
        yield Fault(number, "its action", "begin" if number == 1 else "a decision", line.action)
    if before is not None and line.previous != before:
        yield Fault(number, "the hash of the line before", line.previous, before)
    if canonical_bytes(as_it_stands(line)) != raw:
        yield Fault(number, "its form", "canonical JSON", "written otherwise")
