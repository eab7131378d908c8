"""A command line of this program, as a person can type it here."""

from __future__ import annotations

import shlex
import shutil
import sys
from pathlib import Path


def command(*words: str | Path) -> str:
    """A command line of this program as it can be typed here, also where it is not on the search path."""
    if shutil.which("narrate2report"):
        program = ["narrate2report"]
    elif Path(sys.argv[0]).stem == "narrate2report":
        program = [sys.argv[0]]
    else:
        program = [sys.executable, "-m", "narrate2report"]
    return shlex.join([*program, *map(str, words)])
