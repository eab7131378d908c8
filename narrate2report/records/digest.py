"""The identity of a file: SHA-256 and size, read once in pieces however long it is."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass
from pathlib import Path

from narrate2report.errors import BadInput

PIECE = 1 << 20


@dataclass(frozen=True)
class Digest:
    """SHA-256 (64 hex digits) and length in bytes."""

    sha256: str
    bytes: int


def digest_file(path: Path) -> Digest:
    """Hash a file in pieces of 1 MiB. Raises BadInput when it cannot be read."""
    total, running = 0, hashlib.sha256()
    try:
        with path.open("rb") as file:
            while piece := file.read(PIECE):
                total += len(piece)
                running.update(piece)
    except OSError as error:
        raise BadInput(f"{path}: cannot be read ({error.strerror or error})") from error
    return Digest(running.hexdigest(), total)
