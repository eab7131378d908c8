"""Whole-file reading and writing: a crash leaves the old file or the new one, never a half."""

from __future__ import annotations

import contextlib
import json
import os
import tempfile
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import TypeVar

from pydantic import BaseModel, ValidationError

from narrate2report.errors import FULL, BadInput, BrokenRecord, NoRoom
from narrate2report.records.canonical import readable_bytes
from narrate2report.records.plain import NOT_TEXT

Record = TypeVar("Record", bound=BaseModel)

_LARGEST = 2**53 - 1
"""The largest whole number that every reader of JSON understands alike (RFC 7493, which RFC 8785 builds on)."""
_DIGITS = 17
_HEAD = 4096


def write_whole(path: Path, content: bytes) -> None:
    """Write a file so that it is either as before or complete: temporary file, fsync, rename.

    Raises BadInput when the folder cannot be written to, NoRoom when the disk is full.
    """
    with writing_whole(path) as temporary:
        temporary.write_bytes(content)


@contextlib.contextmanager
def writing_whole(path: Path) -> Iterator[Path]:
    """An empty file beside `path` to be filled; it takes the place of `path` at the end, or goes at any exception.

    Raises BadInput when the folder cannot be written to or the disk is full.
    """
    try:
        handle, name = tempfile.mkstemp(prefix=f".{path.name}.", suffix=".part", dir=path.parent)
        os.close(handle)
        temporary = Path(name)
        try:
            yield temporary
            with temporary.open("rb+") as file:
                os.fsync(file.fileno())
            temporary.chmod(0o644)
            temporary.replace(path)
        finally:
            temporary.unlink(missing_ok=True)
    except OSError as error:
        reason = error.strerror or error
        if error.errno in FULL:
            raise NoRoom(f"{path}: cannot be written ({reason}); make room and run this again") from error
        raise BadInput(f"{path}: cannot be written ({reason}); choose another place") from error
    sync_folder(path.parent)


def check_place(to: Path, called: str, looks_like: Callable[[bytes], bool]) -> None:
    """Whether a file may be written there: it takes the place of nothing but an earlier file of its kind.

    `looks_like` judges by the first bytes of what is there; an empty file may always be replaced. `called` is the
    kind, in the plural. Raises BadInput where it may not.
    """
    if not to.parent.is_dir():
        raise BadInput(f"{to.parent}: no such folder; make it first")
    if to.is_symlink() or (to.exists() and not (to.is_file() and _is_replaceable(to, looks_like))):
        raise BadInput(f"{to}: is there already and holds no {called}; choose another name")


def _is_replaceable(file: Path, looks_like: Callable[[bytes], bool]) -> bool:
    with file.open("rb") as stream:
        head = stream.read(_HEAD)
    return not head or looks_like(head)


def sync_folder(folder: Path) -> None:
    """Make the rename itself durable where the system can: not all can open or sync a folder."""
    if not hasattr(os, "O_DIRECTORY"):
        return
    with contextlib.suppress(OSError):
        handle = os.open(folder, os.O_RDONLY | os.O_DIRECTORY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def _texts(content: object) -> Iterator[str]:
    """Every text of a JSON value, keys and values."""
    if isinstance(content, str):
        yield content
    elif isinstance(content, list):
        for item in content:
            yield from _texts(item)
    elif isinstance(content, dict):
        for key, value in content.items():
            yield key
            yield from _texts(value)


def write_record(path: Path, record: BaseModel) -> None:
    """Write a record as JSON; equal records give byte-identical files."""
    write_whole(path, readable_bytes(record_json(record)))


def record_json(record: BaseModel) -> dict[str, object]:
    """A record as the plain JSON object that stands in its file."""
    return record.model_dump(mode="json", by_alias=True, exclude_none=False)


def as_it_stands(record: BaseModel) -> dict[str, object]:
    """A record that was read, as the JSON object that it was read from.

    Fields that a later version of the program has added, and the file does not hold, are left out: what was sealed
    with an earlier version still matches its seal.
    """
    return record.model_dump(mode="json", by_alias=True, exclude_unset=True)


def read_bytes(path: Path) -> bytes:
    """All of a file. Raises BadInput where it cannot be read."""
    try:
        return path.read_bytes()
    except OSError as error:
        raise BadInput(f"{path}: cannot be read ({error.strerror or error})") from error


def read_record(path: Path, kind: type[Record]) -> Record:
    """Read a record back; raises BrokenRecord with the first thing that is wrong with it."""
    if path.exists() and not path.is_file():
        raise BadInput(f"{path}: is no file that can hold a record")
    return record_from(read_bytes(path), path, kind)


def record_from(raw: bytes, path: Path, kind: type[Record]) -> Record:
    """A record from the bytes that were read of `path`; raises as `read_record` does."""
    try:
        return parse_record(raw.decode("utf-8"), kind)
    except BrokenRecord as error:
        raise BrokenRecord(f"{path}: {error}") from error
    except UnicodeDecodeError as error:
        raise BrokenRecord(f"{path}: not JSON ({error})") from error


def schema_named_in(path: Path) -> str | None:
    """What a JSON file says it is by its field `schema`; None where it cannot be read or does not say."""
    try:
        content = json.loads(path.read_text(encoding="utf-8"))
    except (OSError, ValueError, RecursionError):
        return None
    schema = content.get("schema") if isinstance(content, dict) else None
    return schema if isinstance(schema, str) else None


def _whole(figure: str) -> int:
    if len(figure) > _DIGITS or abs(number := int(figure)) > _LARGEST:
        raise BrokenRecord(f"holds a number that is too large: {figure[:_DIGITS]}")
    return number


def _fraction(figure: str) -> float:
    number = float(figure)
    if abs(number) > _LARGEST:
        raise BrokenRecord(f"holds a number that is too large: {figure[:_DIGITS]}")
    return number


def parse_record(text: str, kind: type[Record], called: str | None = None) -> Record:
    """A record from its JSON text; raises BrokenRecord with the first thing that is wrong, naming no file.

    `called` is what a person calls it, if not `findings file`.
    """
    try:
        content = json.loads(text, parse_int=_whole, parse_float=_fraction)
        if any(NOT_TEXT.search(words) for words in _texts(content)):
            raise BrokenRecord("holds characters that are no text (control codes or half of a pair)")
        return kind.model_validate(content)
    except ValidationError as error:
        first = error.errors(include_url=False)[0]
        where = ".".join(str(part) for part in first["loc"]) or "top level"
        called = called or f"{kind.__name__.lower()} file"
        raise BrokenRecord(f"not a {called}: {where}: {first['msg']}") from error
    except (ValueError, RecursionError) as error:
        raise BrokenRecord(f"not JSON ({error})") from error
