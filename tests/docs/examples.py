"""The examples of a page: its files are written, its commands run in order, its typed answers typed.

A block that begins with `$ ` holds commands with what they print; `...` stands for what is left out of it, a whole
line of it for any number of lines. A block below a line that ends in the name of a file and a colon holds that file.
Where a command asks, the block shows the question with the answer behind it, as a terminal does.
"""

from __future__ import annotations

import io
import re
import shlex
from collections.abc import Iterator
from contextlib import redirect_stderr, redirect_stdout
from dataclasses import dataclass
from pathlib import Path

import pytest

from narrate2report.cli import main

PIECES = re.compile(r"(?:`(?P<file>[\w./-]+)`:\n)?^```[a-z]*\n(?P<block>.+?)\n```$", re.DOTALL | re.MULTILINE)
COLUMNS = 80


@dataclass(frozen=True)
class File:
    """A file that a page has its reader write."""

    name: str
    content: str


@dataclass(frozen=True)
class Example:
    """A command with what the page shows below it."""

    command: str
    shown: tuple[str, ...]

    @property
    def arguments(self) -> list[str]:
        """What is typed behind the name of the program."""
        return shlex.split(self.command)[1:]

    @property
    def tells_something(self) -> bool:
        """Whether anything could be found to be otherwise: words that stand there beside what is left out."""
        return any(re.search(r"\w{3}", line.replace("...", "")) for line in self.shown)

    def is_borne_out_by(self, printed: str) -> bool:
        """Whether what was printed is what is shown."""
        pattern = "".join(
            r"(?:[^\n]*\n)*?" if line == "..." else re.escape(line).replace(re.escape("..."), "[^\n]*") + "\n"
            for line in self.shown
        )
        told = "\n".join(line.rstrip() for line in printed.strip("\n").split("\n")) + "\n"
        return re.fullmatch(pattern, told) is not None


def steps(page: str) -> Iterator[File | Example]:
    """The files and commands of a page, in its order."""
    for piece in PIECES.finditer(page):
        block = piece["block"]
        if block.startswith("$ "):
            yield from _examples(block.split("\n"))
        elif piece["file"]:
            yield File(piece["file"], block + "\n")


def _examples(lines: list[str]) -> Iterator[Example]:
    starts = [at for at, line in enumerate(lines) if line.startswith("$ ")]
    for at, end in zip(starts, [*starts[1:], len(lines)], strict=True):
        yield Example(lines[at].removeprefix("$ "), tuple(line.rstrip() for line in lines[at + 1 : end]))


class _Keyboard:
    """Answers each question with what stands behind it in the example, or with Enter where it is left out of that."""

    def __init__(self, example: Example, screen: io.StringIO) -> None:
        self._left, self._screen = list(example.shown), screen

    def isatty(self) -> bool:
        """What is typed here stands on the screen without the program's doing."""
        return True

    def readline(self, _size: int | None = -1) -> str:
        """The next answer; the end of all, where nothing is left to be shown."""
        question = self._screen.getvalue().rpartition("\n")[2]
        asked = next((at for at, line in enumerate(self._left) if line.startswith(question.rstrip())), None)
        if not self._left or not question.strip():
            return ""
        answer = "" if asked is None else self._left[asked][len(question) :]
        del self._left[: 0 if asked is None else asked + 1]
        self._screen.write(f"{answer}\n")
        return f"{answer}\n"


def run(example: Example, folder: Path) -> tuple[int, str, str]:
    """Exit status, what stands on the screen and what was complained of when the command is typed in a folder."""
    screen, complaints = io.StringIO(), io.StringIO()
    with pytest.MonkeyPatch.context() as patch, redirect_stdout(screen), redirect_stderr(complaints):
        patch.chdir(folder)
        patch.setenv("COLUMNS", str(COLUMNS))
        patch.setattr("sys.stdin", _Keyboard(example, screen))
        status = main(example.arguments)
    return status, screen.getvalue(), complaints.getvalue()
