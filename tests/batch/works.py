"""Work that is quick, or goes wrong in every way: what a runner is given in place of drafting."""

from __future__ import annotations

import os
import signal
import time
from pathlib import Path

from narrate2report.errors import BadInput
from narrate2report.records.task import Outcome, Settings, Task, Tell

SETTINGS = Settings(program="0", model=None, model_sha256="a" * 64, vocabulary_version="b" * 64)


def task(recording: str, settings: Settings = SETTINGS) -> Task:
    return Task(recording, f"{recording}.findings.json", 1, settings)


def obliging(task: Task, tell: Tell) -> Outcome:
    """Does what the name of the recording asks for."""
    tell(1.0, 2.0)
    match Path(task.recording).stem:
        case "killed":
            os.kill(os.getpid(), signal.SIGKILL)
        case "leaves":
            os._exit(3)
        case "bad":
            raise BadInput(f"{task.recording}: cannot be used")
        case "broken":
            raise KeyError("a mistake of ours")
        case "noisy":
            print("never to be seen")  # noqa: T201
        case "slow":
            time.sleep(60)
        case "threads":
            return Outcome(task.recording, "drafted", note=os.environ["OMP_NUM_THREADS"])
    return Outcome(task.recording, "drafted", task.findings)
