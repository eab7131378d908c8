"""The quick way to the nodes of a YAML text comes to the same as PyYAML's own reader in Python."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
import yaml

from narrate2report.records.yaml_nodes import nodes_of
from narrate2report.shipped import shipped


def _told(node: yaml.Node | None) -> Any:
    """What a node holds and the lines it holds it on; None for none."""
    if node is None:
        return None
    held = node.value
    if isinstance(node, yaml.SequenceNode):
        held = [_told(one) for one in node.value]
    elif isinstance(node, yaml.MappingNode):
        held = [(_told(key), _told(value)) for key, value in node.value]
    return type(node).__name__, node.start_mark.line, held


@pytest.mark.parametrize("file", sorted(shipped("vocab").glob("*.yaml")), ids=lambda file: str(file.stem))
def test_the_words_that_come_with_the_program_are_read_alike_both_ways(file: Path) -> None:
    text = file.read_text(encoding="utf-8")
    assert _told(nodes_of(text, quick=True)) == _told(nodes_of(text))


@pytest.mark.parametrize("quick", [False, True])
@pytest.mark.parametrize("opening", ["[", "{a: ", "- "])
def test_lists_within_lists_without_end_end_in_an_error(opening: str, quick: bool) -> None:
    with pytest.raises((yaml.YAMLError, RecursionError)):
        nodes_of(opening * 100_000, quick=quick)
