"""How many recordings this machine can draft at once, by its cores and its free memory."""

from __future__ import annotations

from dataclasses import dataclass

import psutil

from narrate2report.records.cores import cores

JOB_BYTES = 900 << 20
"""Memory of one draft with the bundled speech model, at its largest (measured on hours of talk)."""

JOB_THREADS = 2
"""Threads of one draft: a second one saves nearly half of the time, further ones little."""


@dataclass(frozen=True)
class Room:
    """So many drafts at once, each with so many threads."""

    jobs: int
    threads: int


def room(jobs: int | None = None) -> Room:
    """What this machine has room for now, or for the number of drafts that was asked for."""
    return room_for(cores(), psutil.virtual_memory().available, jobs)


def room_for(cores_here: int, free_bytes: int, jobs: int | None) -> Room:
    """As `room`, for a machine of so many cores and so much free memory.

    >>> room_for(8, 32 << 30, None)
    Room(jobs=4, threads=2)
    >>> room_for(8, 2 << 30, None)
    Room(jobs=2, threads=4)
    """
    jobs = jobs or max(1, min(cores_here // JOB_THREADS, free_bytes // JOB_BYTES))
    return Room(jobs, max(1, cores_here // jobs))
