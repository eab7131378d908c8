"""`compare MOVE_IN MOVE_OUT --out FILE`: what became of every flaw between two walks of one unit."""

from __future__ import annotations

import json
import os
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from rich.console import Console

from narrate2report.commands.known_terms import terms_of
from narrate2report.commands.out_file import earlier_at
from narrate2report.commands.sealed_walk import WalkToCompare, walk_to_compare
from narrate2report.commands.words import word_folders
from narrate2report.compare.admission import admit
from narrate2report.compare.comparing import compare as compared
from narrate2report.compare.rooms import NOT_THERE
from narrate2report.errors import BadInput
from narrate2report.publish.changes import Compare, changes_page, numbers
from narrate2report.read.lexis.lexicon import load_vocabulary
from narrate2report.records.beside import journal_beside
from narrate2report.records.comparison import Compared, Comparison
from narrate2report.records.files import write_record
from narrate2report.records.findings import Findings
from narrate2report.records.header import first_told
from narrate2report.records.yaml_lines import FileKind, LinedYaml
from narrate2report.wording import afterthought

ROOMS_FILE = FileKind("rooms", BadInput, "see: narrate2report guide comparing")


@dataclass(frozen=True)
class WantedComparison:
    """What the person at the keyboard asked for."""

    before: Path
    after: Path
    out: Path
    rooms: Path | None = None
    vocabulary: Path | None = None
    json: bool = False
    quiet: bool = False


def compare(wanted: WantedComparison) -> Comparison:
    """Write the comparison and print it. Raises NarrateError, with nothing written, where that cannot be."""
    _check_out(wanted)
    terms = terms_of(load_vocabulary(*word_folders(wanted.vocabulary)))
    read = walk_to_compare(wanted.before), walk_to_compare(wanted.after)
    before, after = (one.findings for one in read)
    names = _names(wanted)
    marks = admit((names[0], before), (names[1], after), terms)
    given = _given_rooms(wanted.rooms, before, after) if wanted.rooms else {}
    paths = wanted.before, wanted.after
    named = [_named(path, one, wanted.out) for path, one in zip(paths, read, strict=True)]
    marks = (*marks, *(mind for one in read for mind in one.minds), *_out_of_reach(named, wanted.out))
    comparison = compared((named[0], before), (named[1], after), given, terms)
    marks = (*marks, *map(afterthought, comparison.afterthoughts))
    write_record(wanted.out, comparison)
    _tell(wanted, Compare(comparison, before, after, marks))
    return comparison


def _names(wanted: WantedComparison) -> tuple[str, str]:
    """How the two files are called: by their names, or where these are the same by their whole paths."""
    names = wanted.before.name, wanted.after.name
    return names if names[0] != names[1] else (str(wanted.before), str(wanted.after))


def _tell(wanted: WantedComparison, told: Compare) -> None:
    if wanted.quiet:
        return
    console = Console(highlight=False, markup=False)
    if wanted.json:
        console.print(json.dumps(numbers(told), ensure_ascii=False), soft_wrap=True)
        return
    console.print(changes_page(told))
    console.print(f"{wanted.out}: the comparison", soft_wrap=True)


def _check_out(wanted: WantedComparison) -> None:
    """The file to write must not take the place of anything but an earlier comparison that nobody has judged."""
    if wanted.before.exists() and wanted.after.exists() and wanted.before.samefile(wanted.after):
        raise BadInput(f"{wanted.before}: is named twice; name the earlier record and then the later one")
    out = wanted.out
    earlier = earlier_at(out, Comparison, "comparison")
    if earlier is None:
        return
    if journal_beside(out).exists() or any(change.confirmed or change.judgement for change in earlier.changes):
        raise BadInput(f"--out {out}: holds what a person has judged; choose another name, or take it away first")


def _named(path: Path, read: WalkToCompare, out: Path) -> Compared:
    walk = read.findings.walkthrough
    return Compared(
        file=_beside(path, out),
        seal=read.seal,
        addenda=read.addenda,
        kind=first_told(walk.kind),
        date=first_told(walk.date),
        unit=first_told(walk.unit),
    )


def _out_of_reach(named: Iterable[Compared], out: Path) -> Iterator[str]:
    """What is written where its records are not below it can be read, and no further: other files are not opened."""
    away = [one.file for one in named if ".." in Path(one.file).parts or Path(one.file).is_absolute()]
    if away:
        yield (
            f"{out.name} lies neither beside the records nor above them ({', '.join(away)}): it can be read, but to "
            "judge and settle it, write it beside them"
        )


def _beside(path: Path, out: Path) -> str:
    """Relative to the comparison where it can be, so that the folder can be moved; a link to a record stays one."""
    named = os.path.relpath(path.absolute(), out.parent.absolute()) if path.drive == out.drive else ".."
    if ".." not in Path(named).parts:
        return Path(named).as_posix()
    try:
        return Path(os.path.relpath(path.resolve(), out.parent.resolve())).as_posix()
    except ValueError:  # another drive
        return path.resolve().as_posix()


def _given_rooms(path: Path, before: Findings, after: Findings) -> Mapping[str, str]:
    """What a person says of the rooms: `bedroom.2: bedroom.back`, or `bedroom.2: none`.

    Raises BadInput, with file and line, for what is no such list and for rooms that the records do not have.
    """
    lined = LinedYaml(path, ROOMS_FILE)
    known = [{visit.room for visit in walk.rooms} | {entry.room for entry in walk.entries} for walk in (before, after)]
    wanted = "a list of rooms is wanted, such as  bedroom.2: bedroom.back"
    if lined.is_empty:
        raise BadInput(f"{path}: says nothing; {wanted}")
    if not isinstance(lined.data, dict):
        raise lined.mistake((), wanted)
    for earlier, later in lined.data.items():
        if not isinstance(later, str):
            raise lined.mistake((earlier,), f"{earlier}: one room of the later record is wanted, or {NOT_THERE}")
        for room, rooms, which in ((earlier, known[0], "earlier"), (later, known[1], "later")):
            if room not in rooms and room != NOT_THERE:
                told = ", ".join(sorted(rooms)) or "none"
                raise lined.mistake((earlier,), f"{room}: no such room in the {which} record; it has {told}")
        if later != NOT_THERE and list(lined.data.values()).count(later) > 1:
            raise lined.mistake((earlier,), f"{later}: is named for two rooms; it can be only one of them")
    return lined.data
