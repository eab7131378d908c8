"""What happens when somebody presses Tab: each shell is started as it is at a keyboard, and typed into."""

from __future__ import annotations

import os
import re
import select
import shutil
import sys
import time
from pathlib import Path

import pytest

from narrate2report.cli import main

if sys.platform == "win32":
    pytest.skip("these shells are those of Unix", allow_module_level=True)

import pty

PROMPT = "ready> "
STARTED = {
    "bash": (["--norc", "--noprofile", "-i"], "PS1='{prompt}'; source ./script"),
    "zsh": (["-f", "-i"], "fpath=($PWD $fpath); autoload -U compinit; compinit -u -D; PS1='{prompt}'"),
    "tcsh": (["-f"], "source ./script; set prompt='{prompt}'"),
}
"""How each is started without the settings of whoever runs the test, and told of the script."""
CONTROL = re.compile(r"\x1b\[[?0-9;]*[A-Za-z]")
LONGEST_S = 20.0


class Shell:
    """A shell in a terminal of its own."""

    def __init__(self, name: str, folder: Path) -> None:
        arguments, opening = STARTED[name]
        self._pid, self._terminal = pty.fork()
        if not self._pid:
            os.chdir(folder)
            os.execve(
                shutil.which(name) or name,
                [name, *arguments],
                {"TERM": "xterm", "HOME": str(folder), "PATH": os.environ["PATH"]},
            )
        self.types(opening.format(prompt=PROMPT) + "\n", until=f"\n{PROMPT}")

    def types(self, keys: str, *, until: str) -> str:
        """What stands on the screen once `until` is there; fails where it does not come."""
        os.write(self._terminal, keys.encode())
        seen, end = "", time.monotonic() + LONGEST_S
        while until not in CONTROL.sub("", seen).replace("\r", "\n"):
            assert time.monotonic() < end, f"{keys!r} gave {seen!r}"
            if select.select([self._terminal], [], [], 0.2)[0]:
                seen += os.read(self._terminal, 4096).decode(errors="replace")
        return seen

    def close(self) -> None:
        """The shell ends with its terminal."""
        os.close(self._terminal)
        os.waitpid(self._pid, 0)


@pytest.mark.parametrize("shell", STARTED)
def test_tab_completes_commands_files_options_and_their_values(
    shell: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    if shutil.which(shell) is None:
        pytest.skip(f"there is no {shell} here")
    assert main(["completion", shell]) == 0
    script = capsys.readouterr().out
    for name in ("script", "_narrate2report"):
        (tmp_path / name).write_text(script, encoding="utf-8")
    (tmp_path / "walk.findings.json").touch()
    at_keyboard = Shell(shell, tmp_path)
    try:
        for typed, completed in (
            ("narrate2report sho", "narrate2report show "),
            ("narrate2report show wal", "narrate2report show walk.findings.json "),
            ("narrate2report draft walk.mp4 --keep-l", "--keep-location "),
            ("narrate2report draft walk.mp4 --kind move_o", "--kind move_out "),
            ("narrate2report unit n", "narrate2report unit new "),
        ):
            at_keyboard.types(f"{typed}\t", until=completed)
            at_keyboard.types("\x15\n", until=PROMPT)  # Ctrl-U: the line is taken back
    finally:
        at_keyboard.close()
