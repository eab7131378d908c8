"""Passages to their weights: each is cut out of its recording, and what may have been said is held against its sound.

What was weighed is kept beside what was heard, under a name made of all that it depends on: another run weighs
nothing again and gives the same to the last digit, and an interrupted one goes on.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from pathlib import Path
from typing import Protocol

import numpy as np

from narrate2report.listen.device import Device
from narrate2report.listen.models import find_model
from narrate2report.listen.store import Store, result_key
from narrate2report.records.clip import RATE, Clip, Sound
from narrate2report.records.transcript import Engine
from narrate2report.records.weighing import Passage, Weighed, Weight

BEFORE_S, AFTER_S = 0.2, 0.3
"""Sound kept around a passage: word times are settled to about a tenth of a second."""

UNFIT = -7.0
"""Nats a word: where what was heard is itself less likely than this on its sound, the passage was cut wrongly or is
noise, and nothing that is weighed on it means anything."""

RULED_OUT = -8.0
"""Nats: what sounds alike lies within about eight of what was heard, other words of the trade nine and more below."""

CONTEXT = (
    "Walk-through of a rental: walls, ceiling, floor, carpet, baseboards, caulk, grout, doors, windows, blinds,"
    " screens, outlets, cabinets, drawers, hinges, faucets, sink, tub, toilet, stove, dents, scratches, stains, chips,"
    " cracks, scuffs."
)
"""What stands before the text where it is weighed with words of the trade: nouns alone, which assert nothing."""

FORM = 1
"""Raised when the meaning of a weight changes."""


class Weigher(Protocol):
    """What tells how likely texts are on sound."""

    def likelihoods(self, sound: Sound, texts: Sequence[str], contexts: Sequence[str]) -> list[list[float]]:
        """For each context, the log probability of each text, in nats."""


def weigh(
    passages: Sequence[Passage],
    clips: Sequence[Clip],
    engine: Engine,
    *,
    keep: Path | None,
    model: str | None = None,
    language: str = "en",
    on_progress: Callable[[int], None] = lambda _: None,
) -> tuple[Weighed, ...]:
    """The weights of all passages, by the model and on the device that heard them (`engine`).

    `keep` is the file in which what was heard is kept. `on_progress` is told how many passages are done.
    Raises ModelMissing when the model is not there or not whole.
    """
    chosen = find_model(model)
    device = Device(str(engine.settings["device"]), str(engine.settings["weights"]), 1)

    def load() -> Weigher:
        from narrate2report.listen.aligner import Aligner

        return Aligner(chosen.ready_folder(), language, device)

    depends_on = {"model": chosen.sha256, "device": device.name, "weights": device.weights, "language": language}
    return weigh_with(load, depends_on, passages, clips, keep=keep, on_progress=on_progress)


def weigh_with(
    load: Callable[[], Weigher],
    depends_on: Mapping[str, object],
    passages: Sequence[Passage],
    clips: Sequence[Clip],
    *,
    keep: Path | None = None,
    on_progress: Callable[[int], None] = lambda _: None,
) -> tuple[Weighed, ...]:
    """As `weigh`, with any weigher; it is loaded, and a recording decoded, only for what is not yet weighed."""
    of_clip: dict[str, list[Passage]] = defaultdict(list)
    keys = {}
    with Store(keep) as store:
        for clip in clips:
            heard = {"recording": clip.recording.sha256, "track": clip.track, **depends_on}
            for passage in passages:
                if passage.recording == clip.recording.file:
                    keys[passage] = result_key(weighed=FORM, passage=passage.model_dump(), context=CONTEXT, **heard)
                    if store.get(keys[passage]) is None:
                        of_clip[passage.recording].append(passage)
        done = len(keys) - sum(map(len, of_clip.values()))
        on_progress(done)
        weigher = load() if of_clip else None
        for clip in clips:
            for passage, sound in cut_out(clip.blocks(_tell_nobody), of_clip[clip.recording.file]):
                assert weigher is not None
                weights = weigh_one(weigher, passage, sound)
                store.put(keys[passage], {"weights": [weight.model_dump() for weight in weights]})
                done += 1
                on_progress(done)
        return tuple(_weighed(passage, store.get(keys[passage])) for passage in passages if passage in keys)


def weigh_one(weigher: Weigher, passage: Passage, sound: Sound) -> tuple[Weight, ...]:
    """The weights of the readings of one passage; none where what was heard does not fit the sound either."""
    [plain] = weigher.likelihoods(sound, (passage.text, *passage.readings), ("",))
    if plain[0] < UNFIT * len(passage.text.split()):
        return ()
    near = [reading for reading, one in zip(passage.readings, plain[1:], strict=True) if one - plain[0] >= RULED_OUT]
    context: dict[str, float] = {}
    if near:
        [told] = weigher.likelihoods(sound, (passage.text, *near), (CONTEXT,))
        context = {reading: round(one - told[0], 2) for reading, one in zip(near, told[1:], strict=True)}
    return tuple(
        Weight(plain=round(one - plain[0], 2), context=context.get(reading))
        for reading, one in zip(passage.readings, plain[1:], strict=True)
    )


def cut_out(blocks: Iterable[Sound], passages: Sequence[Passage]) -> Iterator[tuple[Passage, Sound]]:
    """Each passage with its sound, in the order in which they begin; the stream is read no further than needed."""
    waiting = sorted(passages, key=lambda one: (one.start, one.end))
    if not waiting:
        return
    held: Sound = np.zeros(0, np.float32)
    base = 0
    for block in blocks:
        held = np.concatenate([held, block])
        while waiting and base + len(held) >= _span(waiting[0])[1]:
            first, last = _span(waiting[0])
            yield waiting.pop(0), held[first - base : last - base]
        if not waiting:
            return
        gone = min(len(held), max(0, _span(waiting[0])[0] - base))
        held, base = held[gone:], base + gone
    for passage in waiting:  # the recording ends within their margin
        first, last = _span(passage)
        if len(left := held[max(0, first - base) : last - base]):
            yield passage, left


def _span(passage: Passage) -> tuple[int, int]:
    """The first sample of a passage and the one behind its last, margins included."""
    return max(0, round((passage.start - BEFORE_S) * RATE)), round((passage.end + AFTER_S) * RATE)


def _weighed(passage: Passage, kept: Mapping[str, object] | None) -> Weighed:
    return Weighed.model_validate({"passage": passage, "weights": kept["weights"] if kept else ()})


def _tell_nobody(_told: str) -> None:
    """What could not be read of the recording was told when it was listened to."""
