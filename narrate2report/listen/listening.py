"""Listening to the clips of a walk: from sound to transcript, with progress; what is known is reused."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from itertools import pairwise
from pathlib import Path

from narrate2report.errors import BadInput
from narrate2report.listen.crew import Crew
from narrate2report.listen.hearing import Hearer
from narrate2report.listen.line import Line
from narrate2report.listen.models import Model, find_model
from narrate2report.listen.store import Store
from narrate2report.listen.stretches import find_gaps, to_stretches, told_languages
from narrate2report.records.clip import Clip
from narrate2report.records.moments import clock, rounded
from narrate2report.records.transcript import Engine, Gap, Recording, Stretch, Transcript

ENGINE = "whisper (faster-whisper)"
LOST_S = 2.0
"""Sound that ends this much before its container says it would means that the file broke off."""

PAUSE_TOLD_S = 60.0
"""A pause between two clips worth telling; some phones note when a clip ended, so less means nothing."""


@dataclass(frozen=True)
class Progress:
    """How far listening is: seconds of sound done of all there are, and the recording at work."""

    done_s: float
    total_s: float
    recording: str


def _tell_nobody(_told: object) -> None:
    """What is told of progress, and of how the model is run, when nobody asked."""


def listen(
    clips: Sequence[Clip],
    *,
    keep: Path | None,
    model: str | None = None,
    language: str = "en",
    on_progress: Callable[[Progress], None] = _tell_nobody,
    on_note: Callable[[str], None] = _tell_nobody,
) -> Transcript:
    """The words of a walk's clips, in order, each with its own time.

    `keep` is the file in which results are kept as they come (None: not at all); a run that was interrupted
    goes on from it. `model` is None for the bundled one, a name or a folder. Raises BadInput when no speech is
    heard in any clip, ModelMissing when the model is not there or not whole.
    """
    from narrate2report.listen.device import choose_hearer

    chosen = find_model(model)
    load, settings = choose_hearer(chosen, language, on_note)
    return listen_with(
        load,
        chosen,
        settings,
        clips,
        keep=keep,
        language=language,
        on_progress=on_progress,
    )


def listen_with(
    load: Callable[[], Hearer],
    model: Model,
    settings: Mapping[str, str | int | float | bool],
    clips: Sequence[Clip],
    *,
    keep: Path | None = None,
    language: str = "en",
    on_progress: Callable[[Progress], None] = _tell_nobody,
) -> Transcript:
    """As `listen`, with any hearer; it is loaded only when there is something not yet heard."""
    total = sum(clip.recording.duration_s or 0.0 for clip in clips)
    stretches: list[Stretch] = []
    gaps: list[Gap] = []
    recordings: list[Recording] = []
    warnings: list[str] = []
    silent: list[str] = []
    foreign: list[str] = []
    with Store(keep) as store, Crew(load) as crew:
        line = Line(crew, store, {"model": model.sha256, "settings": settings})
        before = 0.0
        for clip in clips:
            name = clip.recording.file

            def tell(done: float, name: str = name, before: float = before) -> None:
                on_progress(Progress(min(before + done, total) if total else before + done, total, name))

            heard = line.hear_clip(clip, tell)
            before += clip.recording.duration_s or heard.length
            found = to_stretches(heard.placed, name)
            if all(stretch.doubt for stretch in found):
                silent.append(name)
            stretches += found
            gaps += find_gaps(heard.placed, name)
            recordings.append(_with_length(clip.recording, heard.length, found))
            warnings += [f"{name}: {loss}" for loss in heard.lost]
            foreign += told_languages(heard.placed, name)
            warnings += _losses(clip.recording, heard.length)
    if len(silent) == len(clips) and foreign:
        raise BadInput(foreign[0])
    if len(silent) == len(clips):
        raise BadInput(f"no speech was heard in {', '.join(silent)}; check that the walk was narrated aloud")
    warnings += foreign
    warnings += [f"no speech was heard in {name}" for name in silent]
    warnings += between(recordings)
    return Transcript(
        recordings=tuple(recordings),
        engine=Engine(name=ENGINE, model=model.name, model_sha256=model.sha256, settings=dict(settings)),
        language=language,
        time_precision="word",
        stretches=tuple(stretches),
        gaps=tuple(gaps),
        warnings=tuple(warnings),
    )


def _with_length(recording: Recording, length: float, stretches: Sequence[Stretch]) -> Recording:
    """A recording with a length that holds all its words: some containers tell none, or round it down."""
    declared = length if recording.duration_s is None else recording.duration_s
    return recording.model_copy(update={"duration_s": rounded(max([declared, *(s.end for s in stretches)]))})


def between(recordings: Sequence[Recording]) -> list[str]:
    """What the clips' own clocks say of the time between them: a pause that nobody recorded, or another order."""
    told = []
    for one, other in pairwise(recordings):
        made, next_made = _moment(one), _moment(other)
        if made is None or next_made is None or (made.tzinfo is None) != (next_made.tzinfo is None):
            continue
        if next_made < made:
            told.append(f"{other.file} was made before {one.file} by their own clocks; the order given is kept")
        elif (pause := (next_made - made).total_seconds() - (one.duration_s or 0.0)) >= PAUSE_TOLD_S:
            told.append(f"about {clock(pause)} lie between {one.file} and {other.file} by their own clocks")
    return told


def _moment(recording: Recording) -> datetime | None:
    return None if recording.recorded_at is None else datetime.fromisoformat(recording.recorded_at)


def _losses(recording: Recording, length: float) -> list[str]:
    """What must be said of a recording that ends before it should."""
    declared = recording.duration_s
    if declared is None or declared - length < LOST_S:
        return []
    return [f"{recording.file}: its sound ends at {clock(length)}, though the file says {clock(declared)}"]
