"""YAML as plain data that remembers its lines, so that a mistake can be shown where it stands.

Every scalar stays a string: a manager who writes `no` or `on` as a spoken word means the word.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import yaml

from narrate2report.errors import BadVocabulary

Location = tuple[str | int, ...]


class LinedYaml:
    """The data of one YAML file with the line (1-based) of each of its values."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self._lines: dict[Location, int] = {}
        try:
            node = yaml.compose(path.read_text(encoding="utf-8"), Loader=yaml.SafeLoader)
        except yaml.MarkedYAMLError as error:
            line = error.problem_mark.line + 1 if error.problem_mark else 1
            raise BadVocabulary(f"{path}:{line}: not YAML ({error.problem})") from error
        except (OSError, UnicodeDecodeError, yaml.YAMLError) as error:
            raise BadVocabulary(f"{path}: cannot be read ({' '.join(str(error).split())})") from error
        self.data: Any = self._plain(node, (), ()) if node is not None else {}
        self.is_empty = node is None

    def _plain(self, node: yaml.Node, at: Location, inside: tuple[int, ...]) -> Any:
        self._lines[at] = node.start_mark.line + 1
        if id(node) in inside:
            raise self.mistake(at, "this list holds itself")
        inside = (*inside, id(node))
        if isinstance(node, yaml.MappingNode):
            found: dict[str, Any] = {}
            for key_node, value_node in node.value:
                key = str(key_node.value)
                if key in found:
                    raise self.mistake((*at, key), f"'{key}' stands here twice", key_node.start_mark.line + 1)
                found[key] = self._plain(value_node, (*at, key), inside)
            return found
        if isinstance(node, yaml.SequenceNode):
            return [self._plain(item, (*at, i), inside) for i, item in enumerate(node.value)]
        return str(node.value)

    def mistake(self, at: Location, problem: str, line: int | None = None) -> BadVocabulary:
        """The error to raise about the value at `at`, with the nearest line that is known."""
        while line is None:
            line = self._lines.get(at)
            if not at:
                break
            at = at[:-1]
        return BadVocabulary(f"{self.path}:{line or 1}: {problem}")
