"""`learn FOLDER`: words that sealed reviews speak for, proposed line by line; nothing changes by itself."""

from __future__ import annotations

import json
import sys
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from narrate2report.commands.at_hand import written
from narrate2report.commands.earlier_words import accepted_lines
from narrate2report.commands.reading_again import ReadingAgain
from narrate2report.commands.sealed_walks import Sealed, sealed_below
from narrate2report.commands.typed import command
from narrate2report.commands.words import word_folders
from narrate2report.errors import BadInput
from narrate2report.learn.habits import find_habits
from narrate2report.learn.proposing import propose
from narrate2report.publish.proposals import Learnt, learnt_page, learnt_values
from narrate2report.publish.word_layer import HEAD, WordLine, layer_files, proposed_line
from narrate2report.wording import counted


@dataclass(frozen=True)
class WantedLearning:
    """What the person at the keyboard asked for."""

    folder: Path
    to: Path | None = None
    """Where the proposed words are to be written; nowhere where it is None."""
    vocabulary: Path | None = None
    as_json: bool = False


def learn(wanted: WantedLearning) -> None:
    """Print what may be learnt, and write it where asked to. Raises NarrateError, with nothing written, where
    the folder holds no sealed walk or another one cannot be used.
    """
    accepted = accepted_lines(wanted.to) if wanted.to else ()
    sealed = sealed_below(wanted.folder)
    if not sealed.walks:
        raise BadInput(f"{wanted.folder}: no sealed walk to learn from{_instead(sealed)}")
    folders = [*word_folders(wanted.vocabulary), *([wanted.to] if wanted.to and accepted else [])]
    again = ReadingAgain(sealed.walks, folders)
    learnt = Learnt(
        walks=len(sealed.walks),
        unsealed=sealed.unsealed,
        faults=tuple(sealed.faults),
        proposals=propose(again.reviewed(), again.mistakes, _count),
        habits=find_habits((walk.draft, walk.decided) for walk in sealed.walks),
    )
    places = _write(wanted.to, [*accepted, *map(proposed_line, learnt.proposals)]) if wanted.to else ()
    if wanted.as_json:
        told = learnt_values(learnt) | {"written": [str(path) for path in places]}
        sys.stdout.write(json.dumps(told, ensure_ascii=False, indent=1) + "\n")
        return
    sys.stdout.write(learnt_page(learnt) + "\n" + _next(wanted, places))


def _instead(sealed: Sealed) -> str:
    if sealed.faults:
        return f": {sealed.faults[0]}" + (f", and {len(sealed.faults) - 1} more" if len(sealed.faults) > 1 else "")
    if sealed.unsealed:
        return f"; {counted(sealed.unsealed, 'walk')} there not sealed yet: review and seal first"
    return "; learn reads what was reviewed and sealed"


def _write(folder: Path, lines: Sequence[WordLine]) -> tuple[Path, ...]:
    """Write the files of words, those that were there before included."""
    if not lines and not folder.exists():
        return ()
    emptied = {path.stem: HEAD for path in folder.glob("*.yaml")}
    texts = emptied | layer_files(lines)
    return written(folder, {f"{name}.yaml": texts[name].encode() for name in sorted(texts)})


def _next(wanted: WantedLearning, places: Sequence[Path]) -> str:
    if wanted.to is None or not places:
        return ""
    check = command("vocab", "check", wanted.to)
    return (
        f"\nWritten: {wanted.to}. Nothing counts yet: take the first # away from each line that you accept, then\n"
        f"{check}\n"
    )


def _count(done: int, of: int) -> None:
    if sys.stderr is not None and sys.stderr.isatty() and of:
        print(f"\rtried {done} of {of}", end="" if done < of else "\n", file=sys.stderr)  # noqa: T201 - progress
