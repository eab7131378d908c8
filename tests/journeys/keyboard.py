"""Somebody at the keyboard of a review in the terminal, and what was printed for them."""

from __future__ import annotations

import io
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from narrate2report.cli import main


class Person:
    """Somebody who types answers, and what was printed for them in so many columns."""

    def __init__(self, patch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], columns: int) -> None:
        self._patch, self._capsys = patch, capsys
        patch.setenv("COLUMNS", str(columns))

    def answers(self, place: Path, *lines: str, by: str | None = "Ida Pell") -> str:
        self._patch.setattr("sys.stdin", io.StringIO("".join(f"{line}\n" for line in lines)))
        assert main(["review", str(place), "--terminal", *(["--by", by] if by else [])]) == 0
        return self._capsys.readouterr().out


def interrupted(place: Path, answer: str, told: str) -> str:
    """What is printed from when one answer was told as kept and Ctrl-C ended the review, without any complaint."""
    command = [sys.executable, "-m", "narrate2report", "review", str(place), "--terminal", "--by", "Ida Pell"]
    with subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.PIPE) as running:
        assert running.stdin is not None
        assert running.stdout is not None
        running.stdin.write(f"{answer}\n".encode())
        running.stdin.flush()
        while not running.stdout.readline().startswith(f"Kept: {told}".encode()):
            assert running.poll() is None
        running.send_signal(signal.SIGINT)
        out, err = running.communicate(timeout=60)
    assert (running.returncode, err) == (0, b"")
    return out.decode()
