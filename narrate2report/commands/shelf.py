"""`shelf FOLDER`: all walks below a folder, with what has to be done next."""

from __future__ import annotations

import json
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import asdict, dataclass
from pathlib import Path

from narrate2report.publish.shelf_list import shelf_list
from narrate2report.records.cache import cache_folder
from narrate2report.records.shelved import Shelved, Standing
from narrate2report.shelf.index import Index, index_place, open_index


@dataclass(frozen=True)
class WantedShelf:
    """What the person at the keyboard asked for; a filter that is None lets all pass."""

    folder: Path
    standing: Standing | None = None
    unit: str | None = None
    kind: str | None = None
    as_json: bool = False


def shelf(wanted: WantedShelf) -> None:
    """Print the walks below a folder. Raises BadInput where it cannot be read."""
    with shelf_index(wanted.folder) as index:
        walks = [walk for walk in index.walks() if _passes(walk, wanted)]
    told = json.dumps([asdict(walk) for walk in walks], ensure_ascii=False, indent=1) if wanted.as_json else None
    sys.stdout.write((shelf_list(walks) if told is None else told) + "\n")


@contextmanager
def shelf_index(folder: Path) -> Iterator[Index]:
    """The index of a shelf, brought up to date; what is read anew is counted on a terminal's stderr."""
    with open_index(index_place(cache_folder(), folder), folder) as index:
        index.refresh(_count)
        yield index


def _count(done: int, of: int) -> None:
    if sys.stderr is not None and sys.stderr.isatty() and of > 20:
        print(f"\rreading {done} of {of}", end="" if done < of else "\n", file=sys.stderr)  # noqa: T201 - progress


def _passes(walk: Shelved, wanted: WantedShelf) -> bool:
    return (
        wanted.standing in (None, walk.standing)
        and wanted.kind in (None, walk.kind)
        and (wanted.unit is None or (walk.unit or "").casefold() == wanted.unit.casefold())
    )
