"""The index of a shelf: one SQLite file in the cache, brought up to date by what changed, thrown away at will.

Rows of the full-text table (FTS5) are numbered by the day of their walk, so that the newest are found first without
ranking all that match: the time of a search does not grow with how common its words are.
"""

from __future__ import annotations

import hashlib
import json
import sqlite3
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import closing, contextmanager
from dataclasses import astuple, replace
from datetime import date
from pathlib import Path

from narrate2report.errors import BadInput
from narrate2report.records.shelved import Hit, Shelved, Standing
from narrate2report.shelf.below import FolderFiles, lying_on
from narrate2report.shelf.settled import settled_walks
from narrate2report.shelf.told import Told, tell

LAYOUT = 2
"""Changes with the tables below, and with what is put into them; an index of another layout is made anew."""

_TABLES = """
create table walk (
  path text primary key, standing text, unit text, kind text, date text, entries integer, open integer,
  due text, due_for text, fault text, stamp text, recordings text, number integer unique, first integer, last integer
);
create table settlement (path text, stamp text, walk text, is_final integer, due text, due_for text);
create virtual table line using fts5(
  words, path unindexed, told unindexed, quote unindexed, start unindexed, link unindexed,
  tokenize = 'porter unicode61 remove_diacritics 2'
);
create table name (said text, of text);
create index name_said on name (said);
create index name_of on name (of);
create table names_of (stamp text);
"""
_SHOWN = "path, standing, unit, kind, date, entries, open, due, due_for, fault"


def index_place(cache: Path, shelf: Path) -> Path:
    """Where the index of a shelf is kept."""
    return cache / "shelves" / f"{hashlib.sha256(str(shelf.resolve()).encode()).hexdigest()[:16]}.sqlite"


class Index:
    """The index of one shelf, open."""

    def __init__(self, base: sqlite3.Connection, shelf: Path) -> None:
        self._base = base
        self._shelf = shelf

    def refresh(self, on_read: Callable[[int, int], None]) -> None:
        """Read what is new or changed, forget what is gone. `on_read` is told how many of how many were read.

        What was read is kept step by step: a run that is stopped goes on from there.
        """
        folders = list(lying_on(self._shelf))
        lying = {folder.inside + name: stamp for folder in folders for name, stamp in folder.findings.items()}
        known = dict(self._base.execute("select path, stamp from walk where standing != 'to_draft'"))
        with self._base:
            self._forget(path for path in known if path not in lying)
        changed = [path for path, stamp in lying.items() if known.get(path) != stamp]
        for done, path in enumerate(changed, 1):
            with self._base:
                self._keep(tell(self._shelf / path, path), lying[path])
            on_read(done, len(changed))
        with self._base:
            self._undrafted(folders)
            self._settle(folders)

    def walks(self) -> list[Shelved]:
        """All walks, in the order of their names."""
        settled = {
            walk: (is_final, due, due_for)
            for walk, is_final, due, due_for in self._base.execute(
                "select walk, is_final, due, due_for from settlement"
            )
        }
        walks = (Shelved(*row) for row in self._base.execute(f"select {_SHOWN} from walk order by path"))
        return [_with_settlement(walk, *settled[walk.path]) if walk.path in settled else walk for walk in walks]

    def search(self, groups: Sequence[Sequence[str]], most: int) -> list[Hit]:
        """At most so many lines in which a phrase of each group stands, newest walks first."""
        asked = " AND ".join("(" + " OR ".join(map(_quoted, group)) + ")" for group in groups)
        rows = self._base.execute(
            "select line.path, walk.unit, walk.date, told, quote, start, link from line join walk using (path) "
            "where line match ? order by line.rowid desc limit ?",
            (asked, most),
        )
        return [Hit(*row) for row in rows]

    def know_names(self, stamp: str, names: Callable[[], Iterable[tuple[str, str]]]) -> None:
        """Keep each name with the id of what it names, unless those of this stamp are kept already."""
        if self._base.execute("select 1 from names_of where stamp = ?", (stamp,)).fetchone():
            return
        with self._base:
            self._base.execute("delete from names_of")
            self._base.execute("delete from name")
            self._base.executemany("insert into name values (?, ?)", names())
            self._base.execute("insert into names_of values (?)", (stamp,))

    def other_names(self, said: str) -> list[str]:
        """All names of what a name may mean; none where it is no name."""
        rows = self._base.execute(
            "select distinct other.said from name join name as other using (of) where name.said = ? order by 1", (said,)
        )
        return [name for (name,) in rows]

    def _keep(self, told: Told, stamp: str) -> None:
        path = told.shelved.path
        self._forget([path])
        (number,) = self._base.execute("select coalesce(max(number), 0) + 1 from walk").fetchone()
        first = _day(told.shelved.date) << 40 | number << 16
        self._base.executemany(
            "insert into line (rowid, words, path, told, quote, start, link) values (?, ?, ?, ?, ?, ?, ?)",
            # Backwards, since the last comes first: a walk is then listed in the order it was told.
            (
                (first + len(told.lines) - at, line.words, path, line.told, line.quote, line.start, line.link)
                for at, line in enumerate(told.lines)
            ),
        )
        self._base.execute(
            f"insert into walk ({_SHOWN}, stamp, recordings, number, first, last) values ({', '.join('?' * 15)})",
            (*astuple(told.shelved), stamp, json.dumps(told.recordings), number, first, first + len(told.lines)),
        )

    def _forget(self, paths: Iterable[str]) -> None:
        for path in paths:
            row = self._base.execute("select first, last from walk where path = ?", (path,)).fetchone()
            if row:
                self._base.execute("delete from line where rowid between ? and ?", row)
                self._base.execute("delete from walk where path = ?", (path,))

    def _undrafted(self, folders: Sequence[FolderFiles]) -> None:
        """Recordings that no record beside them is of."""
        drafted: dict[str, set[str]] = {}
        for path, recordings in self._base.execute("select path, recordings from walk where standing != 'to_draft'"):
            drafted.setdefault(path[: path.rfind("/") + 1], set()).update(json.loads(recordings))
        waiting = [
            folder.inside + name
            for folder in folders
            for name in folder.recordings
            if name not in drafted.get(folder.inside, set())
        ]
        self._base.execute("delete from walk where standing = 'to_draft'")
        self._base.executemany(
            "insert into walk (path, standing, entries, open) values (?, 'to_draft', 0, 0)",
            ((path,) for path in waiting),
        )

    def _settle(self, folders: Sequence[FolderFiles]) -> None:
        """What the settlements say of their walks; each is read again only when it changed."""
        lying = {
            folder.inside + name: (folder.inside, stamp)
            for folder in folders
            for name, stamp in folder.settlements.items()
        }
        known = dict(self._base.execute("select path, stamp from settlement"))
        for path in known.keys() - lying.keys():
            self._base.execute("delete from settlement where path = ?", (path,))
        for path, (inside, stamp) in lying.items():
            if known.get(path) != stamp:
                self._base.execute("delete from settlement where path = ?", (path,))
                self._base.executemany(
                    "insert into settlement values (?, ?, ?, ?, ?, ?)",
                    ((path, stamp, *astuple(walk)) for walk in settled_walks(self._shelf / path, inside)),
                )


def _with_settlement(walk: Shelved, is_final: int, due: str | None, due_for: str | None) -> Shelved:
    """A sealed walk with a final settlement waits for nothing more than the day by which it must be paid out."""
    standing: Standing = "settled" if is_final and walk.standing == "sealed" else walk.standing
    return replace(walk, standing=standing, due=due, due_for=due_for)


@contextmanager
def open_index(place: Path, shelf: Path) -> Iterator[Index]:
    """The index at `place`, made anew where it is missing, of another layout or damaged.

    Raises BadInput where it cannot be written.
    """
    try:
        place.parent.mkdir(parents=True, exist_ok=True)
        base = _opened(place)
    except (OSError, sqlite3.OperationalError) as error:
        raise BadInput(
            f"{place}: the index cannot be kept there ({error}); NARRATE2REPORT_CACHE names a place"
        ) from error
    with closing(base):
        yield Index(base, shelf)


def _opened(place: Path) -> sqlite3.Connection:
    try:
        return _ready(place)
    except sqlite3.OperationalError:
        raise
    except sqlite3.DatabaseError:
        place.unlink()
        return _ready(place)


def _ready(place: Path) -> sqlite3.Connection:
    base = sqlite3.connect(place, timeout=30)
    (layout,) = base.execute("pragma user_version").fetchone()
    if layout != LAYOUT:
        with base:
            for (table,) in base.execute(
                "select name from sqlite_master where name in ('walk', 'line', 'name', 'names_of', 'settlement')"
            ).fetchall():
                base.execute(f"drop table {table}")
        base.executescript(_TABLES)
        base.execute(f"pragma user_version = {LAYOUT}")
    # It can be made again at any time: no need to wait for the disk at every step.
    base.execute("pragma synchronous = off")
    return base


def _day(told: str | None) -> int:
    """The number of a day; 0, before all others, where it is not known."""
    try:
        return date.fromisoformat((told or "")[:10]).toordinal()
    except ValueError:
        return 0


def _quoted(phrase: str) -> str:
    """A phrase as FTS5 takes it, whatever marks stand in it."""
    return '"' + phrase.replace('"', '""') + '"'
