"""How many processor cores this program may use."""

from __future__ import annotations

import os


def cores() -> int:
    """Those that the system lets it have, where it tells (Linux), else all there are."""
    usable = len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count()
    return usable or 1
