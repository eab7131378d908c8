"""Clips in, transcript out, behind a progress bar with the time left."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path

from rich.console import Console
from rich.progress import BarColumn, Progress, TextColumn, TimeRemainingColumn

from narrate2report.errors import NarrateError, NoRoom
from narrate2report.intake.gather import Clips
from narrate2report.listen.listening import Progress as Heard
from narrate2report.listen.listening import listen
from narrate2report.listen.weighing import weigh
from narrate2report.records.moments import clock
from narrate2report.records.transcript import Transcript
from narrate2report.records.weighing import Passage, Weighed


def listen_to(clips: Clips, keep: Path, model: str | None, *, quiet: bool) -> Transcript:
    """The transcript of a walk's clips. What was heard is kept in `keep`; another run goes on from there.

    Raises NarrateError for clips or a model that cannot be used; no new file is left behind then.
    """
    was_there = keep.exists()
    try:
        with _progress(clips, quiet=quiet) as tell:
            transcript = listen(clips.clips, keep=keep, model=model, on_progress=tell, on_note=_note)
    except NoRoom:
        raise  # what was heard before the disk was full is worth keeping
    except NarrateError:
        if not was_there:
            keep.unlink(missing_ok=True)
        raise
    return transcript


def weigh_for(
    passages: Sequence[Passage], clips: Clips, transcript: Transcript, keep: Path, model: str | None, *, quiet: bool
) -> tuple[Weighed, ...]:
    """What the sound of a walk's clips gives for other readings of what was heard; kept in `keep` as well.

    Raises NarrateError where the model cannot be used or there is no room to keep it.
    """
    bar = Progress(
        TextColumn("weighing doubtful words", markup=False),
        BarColumn(),
        TextColumn("{task.completed} of {task.total}"),
        console=Console(stderr=True),
        disable=quiet,
    )
    with bar:
        task = bar.add_task("weighing", total=len(passages))
        return weigh(
            passages,
            clips.clips,
            transcript.engine,
            keep=keep,
            model=model,
            on_progress=lambda done: bar.update(task, completed=done),
        )


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
            at = f"{clock(heard.done_s)} of {clock(heard.total_s)}" if heard.total_s else clock(heard.done_s)
            bar.update(
                task,
                completed=heard.done_s,
                total=heard.total_s or None,
                recording=heard.recording,
                at=at,
            )

        yield tell
        bar.update(task, completed=bar.tasks[task].total or 0.0)
