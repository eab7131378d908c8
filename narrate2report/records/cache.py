"""Where is kept what can be made again at any time: joined weights, the index of a shelf."""

from __future__ import annotations

import os
from pathlib import Path

import platformdirs


def cache_folder() -> Path:
    """NARRATE2REPORT_CACHE, or the system's place for caches. It may not be there yet."""
    named = os.environ.get("NARRATE2REPORT_CACHE")
    return Path(named) if named else Path(platformdirs.user_cache_dir("narrate2report", appauthor=False))
