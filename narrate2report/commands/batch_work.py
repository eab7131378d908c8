"""What is done with one recording of a batch, wherever that is: the same as `draft` does, with settings that travel."""

from __future__ import annotations

import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from narrate2report import __version__
from narrate2report.batch.at_hand import at_hand
from narrate2report.commands.draft import Wanted, make_draft
from narrate2report.commands.listening import ears
from narrate2report.commands.planned import expected_rooms, read_plan
from narrate2report.commands.words import word_folders
from narrate2report.errors import BadInput, BadVocabulary, ModelMissing
from narrate2report.listen.listening import Progress
from narrate2report.listen.models import find_model
from narrate2report.read.lexis.lexicon import load_vocabulary
from narrate2report.read.lexis.vocabulary import Vocabulary
from narrate2report.records.task import Outcome, Settings, Task, Tell, WordFiles


def settings_now(*, model: str | None, vocabulary: Path | None, plan: Path | None = None) -> Settings:
    """How a batch that starts now drafts. Words and plan are taken as they are at this moment.

    Raises NarrateError for a model, words or a unit file that cannot be used.
    """
    folders = word_folders(vocabulary)
    words = load_vocabulary(*folders)
    if plan is not None:
        expected_rooms(read_plan(plan, words), words)
    return Settings(
        program=__version__,
        model=model,
        model_sha256=find_model(model).sha256,
        vocabulary_version=words.version,
        words=tuple(map(_packed, folders)),
        plan=(plan.name, plan.read_text(encoding="utf-8")) if plan is not None else None,
    )


def draft_task(task: Task, tell: Tell) -> Outcome:
    """Draft a recording. Raises NarrateError where it cannot be drafted, or not here as it would be elsewhere."""
    settings = task.settings
    _check_same(settings)

    def on_progress(heard: Progress) -> None:
        tell(heard.done_s, heard.total_s)

    with_ears = ears(settings.model, on_progress, lambda _: None)
    with at_hand(task) as files, _plan(settings) as plan:
        wanted = Wanted(
            inputs=(files.recording,),
            out=files.findings,
            facts=settings.facts,
            model=settings.model,
            track=settings.track,
            by_sound=settings.by_sound,
            plan=plan,
            keep_location=settings.keep_location,
        )
        findings, _ = make_draft(wanted, lambda: _words(settings), with_ears)
    return Outcome(
        task.recording,
        "drafted",
        task.findings,
        entries=len(findings.entries),
        adverse=sum(entry.is_adverse for entry in findings.entries),
        duration_s=sum(recording.duration_s or 0.0 for recording in findings.recordings),
    )


def _check_same(settings: Settings) -> None:
    """Raise unless this machine would make the same of a recording as the one that the batch was started on."""
    if settings.program != __version__:
        raise BadInput(
            f"a worker has version {__version__} of narrate2report, the batch was started with {settings.program}; "
            "install the same on all"
        )
    if find_model(settings.model).sha256 != settings.model_sha256:
        raise ModelMissing(f"a worker has another speech model of the name {settings.model}; put the same on all")


def _words(settings: Settings) -> Vocabulary:
    with _unpacked(settings.words) as folders:
        vocabulary = load_vocabulary(*folders)
    if vocabulary.version != settings.vocabulary_version:
        raise BadVocabulary("a worker has other built-in words than the batch was started with; install the same")
    return vocabulary


@contextmanager
def _plan(settings: Settings) -> Iterator[Path | None]:
    """The unit file of the batch, as a file here."""
    if settings.plan is None:
        yield None
        return
    name, text = settings.plan
    with tempfile.TemporaryDirectory(prefix="narrate2report-plan-") as scratch:
        place = Path(scratch) / Path(name).name
        place.write_text(text, encoding="utf-8")
        yield place


def _packed(folder: Path) -> WordFiles:
    """The files of a folder of words; they were read as such already, so they are small texts."""
    return tuple(
        (path.name, path.read_text(encoding="utf-8"))
        for path in sorted(folder.glob("*.yaml"))
        if not path.name.startswith(".")
    )


@contextmanager
def _unpacked(layers: tuple[WordFiles, ...]) -> Iterator[list[Path]]:
    with tempfile.TemporaryDirectory(prefix="narrate2report-words-") as scratch:
        folders = []
        for number, files in enumerate(layers):
            folder = Path(scratch) / str(number)
            folder.mkdir()
            for name, text in files:
                (folder / Path(name).name).write_text(text, encoding="utf-8")
            folders.append(folder)
        yield folders
