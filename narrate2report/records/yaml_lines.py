"""YAML as plain data that remembers its lines, so that a mistake can be shown where it stands.

Every scalar stays a string: a manager who writes `no` or `on` as a spoken word means the word. What kind of file it
is, and so which error and which guide its mistakes speak of, is said by whoever reads it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import yaml

from narrate2report.errors import NarrateError
from narrate2report.records.alternatives import spread
from narrate2report.records.plain import NOT_TEXT
from narrate2report.records.yaml_nodes import nodes_of

Location = tuple[str | int, ...]

LARGEST = 1 << 20
"""Bytes of one file; the largest that comes with the program fills a quarter of it."""

MOST_VALUES = 100_000
"""Values of one file; an alias that repeats a list within lists could make any number of them."""


@dataclass(frozen=True)
class FileKind:
    """What a file is called in its mistakes (`words`), the error that they are, and the guide that helps."""

    called: str
    error: type[NarrateError]
    guide: str
    sayings: bool = False
    """Whether what stands in a list may be a saying with alternatives."""
    comes_with_program: bool = False
    """Whether it is known to be without mistakes, and may be read by a quicker library that tells less of them."""


class LinedYaml:
    """The data of one YAML file with the line (1-based) of each of its values.

    Raises the error of its kind for what is no file, no text or no YAML, and for values that nobody could have meant.
    """

    def __init__(self, path: Path, kind: FileKind) -> None:
        self.path = path
        self.kind = kind
        self._lines: dict[Location, int] = {}
        self._values = 0
        text = _text(path, kind)
        try:
            node = nodes_of(text, quick=kind.comes_with_program)
            self.data: Any = self._plain(node, (), ()) if node is not None else {}
        except yaml.MarkedYAMLError as error:
            line = error.problem_mark.line + 1 if error.problem_mark else 1
            raise kind.error(f"{path}:{line}: {_fault(str(error.problem), kind.guide)}") from error
        except yaml.reader.ReaderError as error:
            line = text.count("\n", 0, error.position) + 1
            raise kind.error(f"{path}:{line}: holds a control character; take it out") from error
        except RecursionError as error:
            raise kind.error(f"{path}:1: lists within lists without end; {kind.guide}") from error
        self.is_empty = node is None

    def _plain(self, node: yaml.Node, at: Location, inside: tuple[int, ...]) -> Any:
        self._lines.setdefault(at, node.start_mark.line + 1)
        self._values += 1
        if self._values > MOST_VALUES:
            raise self.mistake(at[:1], f"over {MOST_VALUES} values up to here; write fewer, and no aliases (*)")
        if id(node) in inside:
            raise self.mistake(at, "this list holds itself; write its words out")
        inside = (*inside, id(node))
        if isinstance(node, yaml.MappingNode):
            return self._block(node, at, inside)
        if isinstance(node, yaml.SequenceNode):
            return self._list(node, at, inside)
        told = str(node.value)
        if NOT_TEXT.search(told):
            raise self.mistake(at, "holds a character that cannot be shown; take it out")
        return told

    def _block(self, node: yaml.MappingNode, at: Location, inside: tuple[int, ...]) -> dict[str, Any]:
        found: dict[str, Any] = {}
        for key_node, value_node in node.value:
            if not isinstance(key_node, yaml.ScalarNode):
                raise self.mistake(at, "a name of one word is wanted before the colon", key_node.start_mark.line + 1)
            key = str(key_node.value)
            if key in found:
                problem = f"'{key}' stands here twice; put both into one block"
                raise self.mistake((*at, key), problem, key_node.start_mark.line + 1)
            self._lines[(*at, key)] = key_node.start_mark.line + 1
            found[key] = self._plain(value_node, (*at, key), inside)
        return found

    def _list(self, node: yaml.SequenceNode, at: Location, inside: tuple[int, ...]) -> list[Any]:
        """The values of a list; a saying with alternatives gives each of its phrases."""
        found: list[Any] = []
        for item in node.value:
            told = self._word(item, (*at, len(found)), inside)
            for value in self._spread(told, (*at, len(found))) if isinstance(told, str) else [told]:
                self._lines.setdefault((*at, len(found)), item.start_mark.line + 1)
                found.append(value)
        self._values += len(found) - len(node.value)
        return found

    def _spread(self, told: str, at: Location) -> tuple[str, ...]:
        if not self.kind.sayings:
            return (told,)
        try:
            return spread(told)
        except ValueError as error:
            raise self.mistake(at, str(error)) from error

    def _word(self, node: yaml.Node, at: Location, inside: tuple[int, ...]) -> Any:
        told = self._plain(node, at, inside)
        if isinstance(told, str) and not any(letter.isalnum() for letter in told):
            raise self.mistake(at, f"'{told}' is no word; write what is said, or take it out")
        return told

    def words(self) -> Iterator[tuple[Location, str]]:
        """Every word and phrase of a list, with where it stands."""
        return _words(self.data, ())

    def line(self, at: Location) -> int:
        """The line of the value at `at`, or of what holds it."""
        while at and at not in self._lines:
            at = at[:-1]
        return self._lines.get(at, 1)

    def mistake(self, at: Location, problem: str, line: int | None = None) -> NarrateError:
        """The error to raise about the value at `at`, with the nearest line that is known."""
        return self.kind.error(f"{self.path}:{line or self.line(at)}: {problem}")


def _words(data: Any, at: Location) -> Iterator[tuple[Location, str]]:
    if isinstance(data, dict):
        for key, value in data.items():
            yield from _words(value, (*at, key))
    elif isinstance(data, list):
        for index, value in enumerate(data):
            if isinstance(value, str):
                yield (*at, index), value


def _text(path: Path, kind: FileKind) -> str:
    """The file as text. Raises the error of its kind with the line of the first byte that is none."""
    try:
        if path.is_dir():
            raise kind.error(f"{path}:1: is a folder; a file of {kind.called} is wanted here")
        if path.stat().st_size > LARGEST:
            raise kind.error(
                f"{path}:1: is over {LARGEST >> 20} MB, too large for {kind.called}; is it the right file?"
            )
        raw = path.read_bytes()
    except OSError as error:
        raise kind.error(f"{path}:1: cannot be read ({error.strerror or error})") from error
    if raw.startswith((b"\xff\xfe", b"\xfe\xff")):
        raise kind.error(f"{path}:1: is UTF-16 text; save it as UTF-8")
    try:
        return raw.decode("utf-8").removeprefix("\ufeff")
    except UnicodeDecodeError as error:
        line = raw.count(b"\n", 0, error.start) + 1
        raise kind.error(
            f"{path}:{line}: byte 0x{raw[error.start]:02x} is not UTF-8; save the file as UTF-8"
        ) from error


def _fault(problem: str, guide: str) -> str:
    """What the YAML reader complains of, in words that help."""
    if "'\\t'" in problem:
        return "not YAML: a tab where only spaces may stand; indent with spaces"
    if "expected a single document" in problem or "but found another document" in problem:
        return "not YAML: one file holds one list of blocks; take the line --- out"
    return f"not YAML ({problem}); {guide}"
