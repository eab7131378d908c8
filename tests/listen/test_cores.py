"""What is heard does not depend on how many cores there are: a record made elsewhere of the same file is the same."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

from tests.intake.recordings import write_recording
from tests.journeys.test_recordings import AUDIO, spoken


def test_the_same_words_with_any_number_of_threads(tmp_path: Path) -> None:
    walk = write_recording(tmp_path / "walk.m4a", AUDIO, spoken(37, 50))
    heard = set()
    for threads in ("1", "2", "5"):
        folder = tmp_path / threads
        folder.mkdir()
        environment = {**os.environ, "OMP_NUM_THREADS": threads, "OPENBLAS_NUM_THREADS": threads}
        command = [sys.executable, "-m", "narrate2report", "draft", str(walk), "--out", str(folder / "w.findings.json")]
        subprocess.run([*command, "--quiet"], env=environment, check=True)
        heard.add(tuple((folder / f"w.{kind}.json").read_bytes() for kind in ("transcript", "findings")))
    assert len(heard) == 1
