"""What lies below a folder: folder by folder, with the files in each. One rule for what is passed over.

No file is opened. Names are kept as text, since a Path for each of 100,000 is slow.
"""

from __future__ import annotations

import os
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from narrate2report.errors import BadInput

DEEPEST = 32
"""Folders within folders; whoever has more has gone in a circle."""


@dataclass(frozen=True)
class FolderBelow:
    """One folder with its ordinary files, by name."""

    inside: str
    """The folder below the first one, with `/` after it; empty for the first one itself."""
    files: Mapping[str, os.DirEntry[str]]


def folders_below(root: Path) -> Iterator[FolderBelow]:
    """Each folder from `root` down, in the order of their names.

    Links, hidden files and folders, and folders of pictures taken from a recording are passed over.
    Raises BadInput where `root` is no folder, or one below it cannot be read.
    """
    if not root.is_dir():
        raise BadInput(f"{root}: is no folder")
    yield from _below(str(root), "", 0)


def _below(root: str, inside: str, depth: int) -> Iterator[FolderBelow]:
    files: dict[str, os.DirEntry[str]] = {}
    folders: list[str] = []
    try:
        with os.scandir(os.path.join(root, inside)) as found:  # noqa: PTH118
            for one in found:
                if one.name.startswith("."):
                    continue
                if one.is_file(follow_symlinks=False):
                    files[one.name] = one
                elif one.is_dir(follow_symlinks=False) and not one.name.endswith(".stills"):
                    folders.append(one.name)
    except OSError as error:
        raise BadInput(f"{Path(root) / inside}: cannot be read ({error.strerror})") from error
    yield FolderBelow(inside, dict(sorted(files.items())))
    if depth < DEEPEST:
        for name in sorted(folders):
            yield from _below(root, f"{inside}{name}/", depth + 1)
