"""`doctor`: whether everything that the program needs is here, with one line of advice for each fault.

Each part is tried as a run would use it, not only looked for. What fails hinders something; a remark does not.
"""

from __future__ import annotations

import platform
import shutil
import sqlite3
import tempfile
import webbrowser
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from rich.console import Console
from rich.table import Table

from narrate2report import __version__
from narrate2report.commands.words import word_folders
from narrate2report.errors import NarrateError
from narrate2report.records.cache import cache_folder
from narrate2report.records.cores import cores

ROOM_MB = 2000
"""Free space that an hour's review copy, its report and what is heard of it fit into, with some over."""

Health = Literal["well", "remark", "fault"]
SIGNS = {"well": "ok", "remark": "note", "fault": "FAULT"}


@dataclass(frozen=True)
class Checked:
    """One part, how it is, and what to know or to do."""

    part: str
    health: Health
    told: str


def doctor() -> bool:
    """Print how each part is; whether all are well, remarks aside."""
    table = Table(box=None, show_header=False, pad_edge=False)
    checked = list(_all())
    for one in checked:
        table.add_row(SIGNS[one.health], one.part, one.told, style="bold" if one.health == "fault" else "")
    console = Console(highlight=False, markup=False)
    console.print(table)
    faults = sum(one.health == "fault" for one in checked)
    console.print(f"\n{faults} of {len(checked)} parts are at fault." if faults else "\nAll that is needed is here.")
    return not faults


def _all() -> Iterator[Checked]:
    yield Checked("program", "well", f"narrate2report {__version__}, Python {platform.python_version()}")
    parts: tuple[tuple[str, Callable[[], Checked | str]], ...] = (
        ("speech model", _speech_model),
        ("language model", _language_model),
        ("words", _words),
        ("graphics card", _graphics_card),
        ("recordings", _recordings),
        ("reports", _reports),
        ("search", _search),
        ("browser", _browser),
        ("cache", _cache),
        ("free space", _free_space),
    )
    for part, check in parts:
        yield _checked(part, check)


def _checked(part: str, check: Callable[[], Checked | str]) -> Checked:
    try:
        told = check()
    except NarrateError as error:
        return Checked(part, "fault", " ".join(str(error).split()))
    except Exception as error:  # a part that is broken fails in ways that it does not announce
        return Checked(part, "fault", f"{type(error).__name__}: {error}; install narrate2report again")
    return told if isinstance(told, Checked) else Checked(part, "well", told)


def _speech_model() -> str:
    from narrate2report.listen.models import find_model

    model = find_model()
    return f"{model.name}, as it should be, in {model.ready_folder()}"


def _language_model() -> str:
    from narrate2report.read.lexis.words import Tokenizer

    (tokens,) = Tokenizer().sentences(["The sink drips."])
    return f"English, reads {len(tokens)} tokens of “The sink drips.”"


def _words() -> str:
    from narrate2report.read.lexis.lexicon import load_vocabulary

    own = word_folders()
    vocabulary = load_vocabulary(*own)
    told = f"{len(vocabulary.components)} components, {len(vocabulary.conditions)} conditions"
    return told + (f", with yours from {', '.join(map(str, own))}" if own else "; none of your own")


def _graphics_card() -> Checked | str:
    from narrate2report.listen.device import cards, choose_hearer
    from narrate2report.listen.models import find_model

    if not cards():
        return Checked("graphics card", "remark", "none that can be used; the processor listens")
    faults: list[str] = []
    choose_hearer(find_model(), "en", faults.append)
    return Checked("graphics card", "remark", faults[0]) if faults else f"{cards()}, listens"


def _recordings() -> Checked | str:
    from narrate2report.intake.decoders import WANTED, missing_decoders

    if missing := missing_decoders():
        told = f"no {', '.join(missing)} here; save such recordings in another form, or install another build of PyAV"
        return Checked("recordings", "remark", told)
    return ", ".join(WANTED)


def _reports() -> str:
    from narrate2report.publish.report_pdf import trial_page

    return f"a page was set, {len(trial_page()) / 1000:.0f} kB, with the fonts that come with the program"


def _search() -> Checked | str:
    try:
        sqlite3.connect(":memory:").execute("create virtual table words using fts5(word)")
    except sqlite3.OperationalError:
        return Checked("search", "fault", "this Python's SQLite has no full-text search (FTS5); use another Python")
    return f"SQLite {sqlite3.sqlite_version} with full-text search"


def _browser() -> Checked | str:
    try:
        webbrowser.get()
    except webbrowser.Error:
        told = "none can be opened from here; open the address that review prints, or use review --terminal"
        return Checked("browser", "remark", told)
    return "can be opened"


def _cache() -> Checked | str:
    folder = cache_folder()
    try:
        folder.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryFile(dir=folder):
            return str(folder)
    except OSError as error:
        told = f"{folder}: {error.strerror or error}; name a folder that you may write to in NARRATE2REPORT_CACHE"
        return Checked("cache", "fault", told)


def _free_space() -> Checked | str:
    short = []
    for folder in (cache_folder(), Path.cwd()):
        there = next(place for place in (folder, *folder.parents) if place.is_dir())
        free_mb = shutil.disk_usage(there).free // 10**6
        if free_mb < ROOM_MB:
            short.append(f"{folder} has {free_mb} MB left")
    if short:
        return Checked(
            "free space", "remark", f"{'; '.join(short)}; make room there: a long recording wants {ROOM_MB} MB"
        )
    return f"over {ROOM_MB} MB here and in the cache; {cores()} processor cores"
