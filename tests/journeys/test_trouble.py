"""Runs that are killed and disks that are full: what was heard stays, and the next run goes on from it."""

from __future__ import annotations

import json
import subprocess
import sys
import time
from pathlib import Path

import pytest

from narrate2report.cli import main
from narrate2report.records.files import read_record
from narrate2report.records.transcript import Transcript
from tests.intake.recordings import write_recording
from tests.journeys.test_recordings import AUDIO, spoken

LIMITED = """
import resource, sys
resource.setrlimit(resource.RLIMIT_FSIZE, (int(sys.argv[1]), int(sys.argv[1])))
from narrate2report.cli import main
sys.exit(main(sys.argv[2:]))
"""


def lines_of(kept: Path) -> list[str]:
    """The whole lines of what was heard."""
    text = kept.read_text(encoding="utf-8") if kept.exists() else ""
    return [line for line in text.splitlines(keepends=True) if line.endswith("\n")]


def windows_of(kept: Path) -> list[str]:
    """The names of the windows that were heard, in the order of hearing."""
    results = [json.loads(line) for line in lines_of(kept)]
    return [each["key"] for each in results if "words" in each["result"]]


@pytest.mark.skipif(sys.platform == "win32", reason="needs a limit on the size of files")
def test_a_full_disk_is_one_line_and_keeps_what_was_heard(tmp_path: Path) -> None:
    walk = write_recording(tmp_path / "walk.m4a", AUDIO, spoken(0, 75))
    out, kept = tmp_path / "walk.findings.json", tmp_path / ".walk.heard.jsonl"
    command = ["draft", str(walk), "--out", str(out), "--quiet"]
    done = subprocess.run([sys.executable, "-c", LIMITED, "9000", *command], capture_output=True, text=True)
    assert done.returncode == 2
    assert done.stderr.count("\n") == 1
    assert "no room left there" in done.stderr
    assert "goes on from what was heard so far" in done.stderr
    assert not out.exists()
    before = lines_of(kept)
    assert before
    assert main(command) == 0
    assert lines_of(kept)[: len(before)] == before
    assert read_record(tmp_path / "walk.transcript.json", Transcript).stretches


def test_runs_that_are_killed_keep_every_window_that_was_heard(tmp_path: Path) -> None:
    """Killed without warning, again and again, as soon as one more result is on disk: no result is heard twice."""
    walk = write_recording(tmp_path / "walk.m4a", AUDIO, spoken(0, 110))
    out, kept = tmp_path / "walk.findings.json", tmp_path / ".walk.heard.jsonl"
    command = ["draft", str(walk), "--out", str(out), "--quiet"]
    for _ in range(2):
        before = lines_of(kept)
        run = subprocess.Popen([sys.executable, "-m", "narrate2report", *command])
        until = time.monotonic() + 120
        while len(lines_of(kept)) <= len(before) and run.poll() is None and time.monotonic() < until:
            time.sleep(0.005)
        run.kill()
        run.wait()
        assert lines_of(kept)[: len(before)] == before
        assert len(lines_of(kept)) > len(before)
        assert not out.exists()
    assert main(command) == 0
    heard = windows_of(kept)
    assert len(heard) == len(set(heard)) >= 4
    fresh = tmp_path / "fresh"
    fresh.mkdir()
    assert main(["draft", str(walk), "--out", str(fresh / "walk.findings.json"), "--quiet"]) == 0
    assert (fresh / "walk.findings.json").read_bytes() == out.read_bytes()
