"""A task in a process of its own, so that whatever ends that process is one outcome among others.

The process says how far it is through a pipe. It ends when nobody listens any more, so that none is left behind when
the program itself is killed.
"""

from __future__ import annotations

import contextlib
import multiprocessing
import os
import pickle
import signal
from multiprocessing.connection import Connection
from multiprocessing.process import BaseProcess
from threading import Event

from narrate2report.batch.runner import attempt, failed
from narrate2report.records.task import Outcome, Task, Tell, Work

LOOK_S = 0.2
"""How often it is looked whether to stop."""
GRACE_S = 5.0
"""How long a process may take to end by itself before it is ended."""


def do_alone(work: Work, task: Task, tell: Tell, threads: int, stop: Event) -> Outcome | None:
    """Do a task in a fresh process with so many threads. None when it was stopped."""
    fresh = multiprocessing.get_context("spawn")
    here, there = fresh.Pipe(duplex=False)
    process = fresh.Process(target=_in_process, args=(there, threads, pickle.dumps((work, task))), daemon=True)
    process.start()
    there.close()
    try:
        while not stop.is_set():
            if not here.poll(LOOK_S):
                continue
            told = here.recv()
            if isinstance(told, Outcome):
                return told
            tell(*told)
        return None
    except (EOFError, OSError):
        process.join(GRACE_S)
        return failed(task, f"{task.recording}: {_how_it_ended(process.exitcode)}")
    finally:
        here.close()
        _end(process)


def _in_process(there: Connection, threads: int, packed: bytes) -> None:
    # Libraries look at this when they are loaded, so it comes before what they are loaded by.
    os.environ["OMP_NUM_THREADS"] = str(threads)
    # Ctrl-C reaches all processes of a terminal; the one that started this one decides.
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    silence = os.open(os.devnull, os.O_WRONLY)
    os.dup2(silence, 1)
    os.dup2(silence, 2)
    work, task = pickle.loads(packed)
    outcome = attempt(work, task, lambda done_s, total_s: there.send((done_s, total_s)))
    with contextlib.suppress(OSError):
        there.send(outcome)


def _how_it_ended(status: int | None) -> str:
    if status is None or status >= 0:
        return f"its process ended without a word (exit status {status}); what was heard is kept"
    name = signal.Signals(-status).name if -status in signal.valid_signals() else f"signal {-status}"
    likely = ", as happens where memory runs out; try fewer --jobs" if name == "SIGKILL" else ""
    return f"its process broke down or was ended from outside ({name}{likely}); what was heard is kept"


def _end(process: BaseProcess) -> None:
    process.join(LOOK_S)
    if process.is_alive():
        process.terminate()
        process.join(GRACE_S)
    if process.is_alive():
        process.kill()
        process.join()
    process.close()
