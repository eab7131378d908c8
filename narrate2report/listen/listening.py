"""Listening to the clips of a walk: from sound to transcript, with progress; what is known is reused."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from narrate2report.errors import BadInput
from narrate2report.listen.hearing import Hearer, Hearing, Window
from narrate2report.listen.models import Model, find_model
from narrate2report.listen.onset import settle
from narrate2report.listen.store import Store, result_key
from narrate2report.listen.stretches import Placed, find_gaps, to_stretches
from narrate2report.listen.windows import cut_windows
from narrate2report.records.clip import RATE, Clip, Sound
from narrate2report.records.moments import clock, rounded
from narrate2report.records.transcript import Engine, Gap, Recording, Stretch, Transcript

ENGINE = "whisper (faster-whisper)"
LOST_S = 2.0
"""Sound that ends this much before its container says it would means that the file broke off."""


@dataclass(frozen=True)
class Progress:
    """How far listening is: seconds of sound done of all there are, and the recording at work."""

    done_s: float
    total_s: float
    recording: str


def _tell_nobody(_progress: Progress) -> None:
    """What is told of progress when nobody asked."""


def listen(
    clips: Sequence[Clip],
    *,
    keep: Path | None,
    model: str | None = None,
    language: str = "en",
    on_progress: Callable[[Progress], None] = _tell_nobody,
) -> Transcript:
    """The words of a walk's clips, in order, each with its own time.

    `keep` is the file in which results are kept as they come (None: not at all); a run that was interrupted
    goes on from it. `model` is None for the bundled one, or a folder. Raises BadInput when no speech is
    heard in any clip, ModelMissing when the model is not there or not whole.
    """
    from narrate2report.listen.whisper import Whisper, hearing_settings

    chosen = find_model(model)
    return listen_with(
        lambda: Whisper(chosen.ready_folder(), language),
        chosen,
        hearing_settings(language),
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
    with Store(keep) as store:
        line = _Line(load, store, {"model": model.sha256, "settings": settings})
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
            warnings += _losses(clip.recording, heard.length)
    if len(silent) == len(clips):
        raise BadInput(f"no speech was heard in {', '.join(silent)}; check that the walk was narrated aloud")
    warnings += [f"no speech was heard in {name}" for name in silent]
    return Transcript(
        recordings=tuple(recordings),
        engine=Engine(name=ENGINE, model=model.name, model_sha256=model.sha256, settings=dict(settings)),
        language=language,
        time_precision="word",
        stretches=tuple(stretches),
        gaps=tuple(gaps),
        warnings=tuple(warnings),
    )


@dataclass(frozen=True)
class _HeardClip:
    placed: tuple[Placed, ...]
    length: float
    """Seconds of sound that there really were."""


class _Counted:
    """Blocks of sound as they pass, with the number of samples so far."""

    def __init__(self, blocks: Iterator[Sound]) -> None:
        self.samples = 0
        self._blocks = blocks

    def __iter__(self) -> Iterator[Sound]:
        for block in self._blocks:
            self.samples += len(block)
            yield block


class _Line:
    """Windows through the hearer, as many at a time as it likes, past those whose result is known."""

    def __init__(self, load: Callable[[], Hearer], store: Store, depends_on: Mapping[str, object]) -> None:
        self._load = load
        self._hearer: Hearer | None = None
        self._store = store
        self._depends_on = depends_on

    def hear_clip(self, clip: Clip, tell: Callable[[float], None]) -> _HeardClip:
        """All of a clip; when its file was heard to the end before, without decoding any of it."""
        whole = result_key(recording=clip.recording.sha256, **self._depends_on)
        if (known := self._known_clip(whole)) is not None:
            tell(known.length)
            return known
        tell(0.0)
        blocks = _Counted(clip.blocks())
        places: list[tuple[int, str]] = []
        waiting: list[tuple[str, Window]] = []
        for window in cut_windows(blocks):
            key = result_key(sound=window.digest(), **self._depends_on)
            places.append((window.start, key))
            if self._store.get(key) is None and key not in (other for other, _ in waiting):
                waiting.append((key, window))
            if not waiting:
                tell(window.end_s)
            elif len(waiting) >= self._ready().at_once:
                self._hear(waiting)
                tell(window.end_s)
                waiting = []
        self._hear(waiting)
        tell(blocks.samples / RATE)
        self._store.put(whole, {"length": blocks.samples, "windows": places})
        return self._placed(blocks.samples, places)

    def _ready(self) -> Hearer:
        if self._hearer is None:
            self._hearer = self._load()
        return self._hearer

    def _hear(self, waiting: Sequence[tuple[str, Window]]) -> None:
        if not waiting:
            return
        heard = self._ready().hear([window.sound for _, window in waiting])
        for (key, window), result in zip(waiting, heard, strict=True):
            hearing = Hearing(
                words=settle(result.words, window.sound, window.chances),
                likelihood=result.likelihood,
                silence=result.silence,
                speech=window.speech,
            )
            self._store.put(key, hearing.model_dump(mode="json"))

    def _known_clip(self, whole: str) -> _HeardClip | None:
        """A clip from the store alone, if all of it is there."""
        known = self._store.get(whole)
        if known is None or any(self._store.get(key) is None for _, key in known["windows"]):
            return None
        return self._placed(known["length"], known["windows"])

    def _placed(self, samples: int, places: Sequence[tuple[int, str]]) -> _HeardClip:
        return _HeardClip(
            tuple(
                Placed(start / RATE, Hearing.model_validate(self._store.get(key))) for start, key in places
            ),
            samples / RATE,
        )


def _with_length(recording: Recording, length: float, stretches: Sequence[Stretch]) -> Recording:
    """A recording with a length that holds all its words: some containers tell none, or round it down."""
    declared = length if recording.duration_s is None else recording.duration_s
    return recording.model_copy(update={"duration_s": rounded(max([declared, *(s.end for s in stretches)]))})


def _losses(recording: Recording, length: float) -> list[str]:
    """What must be said of a recording that ends before it should."""
    declared = recording.duration_s
    if declared is None or declared - length < LOST_S:
        return []
    return [f"{recording.file}: its sound ends at {clock(length)}, though the file says {clock(declared)}"]
