"""Whether all that is needed is here, and what to do where it is not."""

from __future__ import annotations

import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from narrate2report.cli import main
from narrate2report.intake import decoders


def test_all_parts_of_this_installation_are_well(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("COLUMNS", "300")
    assert main(["doctor"]) == 0
    told = capsys.readouterr().out
    for part in ("speech model", "language model", "words", "recordings", "reports", "search", "browser", "free space"):
        assert f" {part} " in told
    assert "FAULT" not in told
    assert "All that is needed is here." in told


def test_a_part_at_fault_is_told_with_what_to_do(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("COLUMNS", "300")
    (tmp_path / "words").mkdir()
    (tmp_path / "words" / "components.yaml").write_text("sink:\n  sya: [basin]\n", encoding="utf-8")
    monkeypatch.setenv("NARRATE2REPORT_VOCAB", str(tmp_path / "words"))
    monkeypatch.setattr(decoders, "WANTED", {"Wax cylinder": "wax"})
    assert main(["doctor"]) == 2
    lines = capsys.readouterr().out.splitlines()
    (faulty,) = [line for line in lines if line.startswith("FAULT")]
    assert "components.yaml:2: sink.sya: no such key; use say" in faulty
    assert any(line.startswith("note") and "Wax cylinder" in line for line in lines)
    assert lines[-1].startswith("1 of ")


@pytest.mark.parametrize("shell", ["bash", "zsh"])
def test_a_shell_understands_the_script_that_completes_commands(shell: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["completion", shell]) == 0
    script = capsys.readouterr().out
    assert "narrate2report" in script
    assert "--keep-location" in script
    if shutil.which(shell):
        subprocess.run([shell, "-n"], input=script, text=True, check=True)


@pytest.mark.skipif(sys.platform == "win32", reason="a shell of Unix")
def test_bash_completes_a_command(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["completion", "bash"]) == 0
    script = capsys.readouterr().out + (
        "\nCOMP_WORDS=(narrate2report sho); COMP_CWORD=1; _shtab_narrate2report narrate2report sho"
        "\necho ${COMPREPLY[@]}"
    )
    done = subprocess.run(["bash", "-c", script], capture_output=True, text=True, check=True)
    assert done.stdout.split() == ["show"]
