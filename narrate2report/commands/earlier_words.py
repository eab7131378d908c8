"""A folder that proposals were written to before: the lines that a person accepted stay, and nothing else is lost."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

from narrate2report.errors import BadInput
from narrate2report.publish.word_layer import FIRST_LINE, WordLine
from narrate2report.read.lexis.word_files import WORDS, read_layer
from narrate2report.records.proposal import Addition, Place
from narrate2report.records.yaml_lines import LinedYaml

OURS = re.compile(r'\s*(\[|\]|[a-z][a-z0-9_]*:( \[)?)?\s*|#.*|\s+"(?:[^"\\]|\\.)*",(\s+#.*)?')
"""A line as this program writes it, or as it is once its mark is taken away."""


def accepted_lines(folder: Path) -> tuple[WordLine, ...]:
    """The lines that a person accepted there; none where there is no such folder yet.

    Raises BadInput where the folder holds anything that this program did not write, since it would be lost.
    """
    if not folder.exists():
        if not folder.parent.is_dir():
            raise BadInput(f"{folder.parent}: no such folder; make it first")
        return ()
    if not folder.is_dir():
        raise BadInput(f"{folder}: is no folder; name one for the proposed words")
    files = sorted(path for path in folder.iterdir() if not path.name.startswith("."))
    for path in files:
        _check_ours(path)
    read_layer(folder)
    return tuple(line for path in files for line in _accepted(path))


def _check_ours(path: Path) -> None:
    lines = path.read_text(encoding="utf-8", errors="replace").splitlines() if path.is_file() else []
    if not lines or lines[0] != FIRST_LINE:
        raise BadInput(f"{path}: was not written by learn and would be lost; name another folder for proposed words")
    for number, line in enumerate(lines, 1):
        if not OURS.fullmatch(line):
            raise BadInput(f"{path}:{number}: was written by hand and would be lost; name another folder")


def _accepted(path: Path) -> Iterator[WordLine]:
    lined = LinedYaml(path, WORDS)
    written = path.read_text(encoding="utf-8").splitlines()
    for at, word in lined.words():
        keys = tuple(step for step in at if isinstance(step, str))
        yield WordLine(Addition(Place(path.stem, keys), word), accepted=True, written=written[lined.line(at) - 1])
