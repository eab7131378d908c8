"""Clips in, transcript out, behind a progress bar with the time left."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from rich.console import Console
from rich.progress import BarColumn, Progress, TextColumn, TimeRemainingColumn

from narrate2report.errors import NarrateError, NoRoom
from narrate2report.intake.gather import Clips
from narrate2report.listen.listening import Progress as Heard
from narrate2report.listen.listening import listen
from narrate2report.listen.weighing import weigh
from narrate2report.records.moments import so_far
from narrate2report.records.transcript import Transcript
from narrate2report.records.weighing import Passage, Weighed


@dataclass(frozen=True)
class Ears:
    """How the clips of a walk are heard, and how doubtful words are held against their sound.

    Both keep what they find in the file that they are given; another run goes on from there. They raise NarrateError
    for clips or a model that cannot be used; no new file is left behind then.
    """

    hear: Callable[[Clips, Path], Transcript]
    weigh: Callable[[Sequence[Passage], Clips, Transcript, Path], tuple[Weighed, ...]]


def ears(model: str | None, on_progress: Callable[[Heard], None], on_note: Callable[[str], None]) -> Ears:
    """Ears that say how far they are to whoever wants to know."""

    def hear(clips: Clips, keep: Path) -> Transcript:
        return _hear(clips, keep, model, on_progress, on_note)

    def weigh_words(
        passages: Sequence[Passage], clips: Clips, transcript: Transcript, keep: Path
    ) -> tuple[Weighed, ...]:
        return weigh(passages, clips.clips, transcript.engine, keep=keep, model=model)

    return Ears(hear, weigh_words)


def seen_ears(model: str | None, *, quiet: bool) -> Ears:
    """Ears with a bar on stderr, or nothing when quiet."""

    def hear(clips: Clips, keep: Path) -> Transcript:
        with _progress(clips, quiet=quiet) as tell:
            return _hear(clips, keep, model, tell, _note)

    def weigh_words(
        passages: Sequence[Passage], clips: Clips, transcript: Transcript, keep: Path
    ) -> tuple[Weighed, ...]:
        with _counting(len(passages), quiet=quiet) as tell:
            return weigh(passages, clips.clips, transcript.engine, keep=keep, model=model, on_progress=tell)

    return Ears(hear, weigh_words)


def _hear(
    clips: Clips, keep: Path, model: str | None, on_progress: Callable[[Heard], None], on_note: Callable[[str], None]
) -> Transcript:
    was_there = keep.exists()
    try:
        return listen(clips.clips, keep=keep, model=model, on_progress=on_progress, on_note=on_note)
    except NoRoom:
        raise  # what was heard before the disk was full is worth keeping
    except NarrateError:
        if not was_there:
            keep.unlink(missing_ok=True)
        raise


@contextmanager
def _counting(passages: int, *, quiet: bool) -> Iterator[Callable[[int], None]]:
    bar = Progress(
        TextColumn("weighing doubtful words", markup=False),
        BarColumn(),
        TextColumn("{task.completed} of {task.total}"),
        console=Console(stderr=True),
        disable=quiet,
    )
    with bar:
        task = bar.add_task("weighing", total=passages)
        yield lambda done: bar.update(task, completed=done)


def _note(line: str) -> None:
    """One line on stderr, above the bar."""
    Console(stderr=True, highlight=False, markup=False).print(f"narrate2report: {line}", soft_wrap=True)


@contextmanager
def _progress(clips: Clips, *, quiet: bool) -> Iterator[Callable[[Heard], None]]:
    """A bar with the time left on stderr, or nothing when quiet."""
    bar = Progress(
        TextColumn("listening to {task.fields[recording]}", markup=False),
        BarColumn(),
        TextColumn("{task.fields[at]}"),
        TextColumn("time left"),
        TimeRemainingColumn(compact=True),
        console=Console(stderr=True),
        disable=quiet,
    )
    with bar:
        task = bar.add_task("listening", total=None, recording=clips.clips[0].recording.file, at="")

        def tell(heard: Heard) -> None:
            bar.update(
                task,
                completed=heard.done_s,
                total=heard.total_s or None,
                recording=heard.recording,
                at=so_far(heard.done_s, heard.total_s),
            )

        yield tell
        bar.update(task, completed=bar.tasks[task].total or 0.0)
