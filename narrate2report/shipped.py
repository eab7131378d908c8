"""Where the data that travels with the program lies: in the installed package, or beside it in a checkout."""

from __future__ import annotations

from pathlib import Path

PACKAGE = Path(__file__).parent


def shipped(name: str) -> Path:
    """The folder `vocab`, `samples`, `guide`, `schema` or `references`. It is not checked that it holds anything."""
    inside = PACKAGE / name
    return inside if inside.is_dir() else PACKAGE.parent / name
