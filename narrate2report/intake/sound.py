"""The sound of a recording as a stream: one channel, at 16 kHz for listening, on the time line that a player shows.

Only one packet is held at a time, whatever the recording's length. Presentation times rule: a track that
starts late or has holes is filled with silence, what lies before 0:00 is cut away.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

import av
import numpy as np
from av.audio.frame import AudioFrame
from av.audio.resampler import AudioResampler

from narrate2report.errors import BadInput
from narrate2report.intake.container import missing_bytes, opened, sound_stream, time_zero
from narrate2report.records.clip import RATE, Sound
from narrate2report.records.digest import Footprint
from narrate2report.records.moments import clock
from narrate2report.records.transcript import Recording

JITTER_S = 0.04
"""Frame times may wander this much around the running count of samples before they are believed instead."""

LONGEST_HOLE_S = 6 * 3600.0
"""A later time than this after the sound so far is a broken clock, not a pause."""

CRACKLE_S = 0.5
"""So much undecodable sound in all is worth telling."""

Tell = Callable[[str], None]
"""Takes what could not be read, in plain words."""


def tell_nobody(_loss: str) -> None:
    """What is told of losses when nobody asked."""


@dataclass(frozen=True)
class MediaClip:
    """A recording on disk that can be listened to: which of its sound tracks (from 1; None: the first that can be
    decoded), and how the file was when it was probed.
    """

    path: Path
    recording: Recording
    footprint: Footprint
    track: int | None = None

    def blocks(self, tell: Tell = tell_nobody) -> Iterator[Sound]:
        """Its sound from 0:00 on, without holes; `tell` gets what could not be read of it.

        Raises BadInput when nothing can be decoded, or when the file is no longer the one that was probed.
        """
        self.footprint.check(self.path)
        yield from sound_blocks(self.path, self.track, tell)
        self.footprint.check(self.path)


def sound_blocks(
    path: Path, track: int | None = None, tell: Tell = tell_nobody, *, rate: int = RATE
) -> Iterator[Sound]:
    """Decode the sound of a recording piece by piece, `rate` samples a second.

    What breaks off half way ends early, and is told.

    Raises BadInput when not even the beginning can be decoded.
    """
    if missing := missing_bytes(path):
        tell(f"is cut short, {missing:,} bytes are missing at its end; copy it from the phone again if you can")
    with opened(path) as container:
        stream = sound_stream(container, path, track)
        line = _Line(time_zero(container), rate)
        crackle_s = 0.0
        try:
            for packet in container.demux(stream):
                try:
                    frames = packet.decode()
                except av.InvalidDataError:
                    # One bad packet is a crackle; its place is kept by the times of the next ones.
                    crackle_s += float((packet.duration or 0) * (packet.time_base or 0))
                    continue
                for frame in frames:
                    if isinstance(frame, AudioFrame):
                        yield from line.take(frame)
        except (av.FFmpegError, OSError) as error:
            if not line.written:
                raise BadInput(f"{path}: its sound cannot be decoded (damaged or encrypted)") from error
            tell(f"is damaged and could not be read beyond {clock(line.written / rate)}")
        yield from line.finish()
    if crackle_s >= CRACKLE_S:
        tell(f"is damaged: {crackle_s:.1f} s of its sound could not be decoded and are silence here")


class _Line:
    """Lays decoded frames end to end on the player's time line."""

    def __init__(self, zero: float, rate: int) -> None:
        self.written = 0
        self._zero, self._rate = zero, rate
        self._resampler: AudioResampler | None = None
        self._form: tuple[str, str, int] | None = None
        self._expected: float | None = None
        self._cut = 0

    def take(self, frame: AudioFrame) -> Iterator[Sound]:
        """Place one frame: filling a hole before it, or cutting what overlaps."""
        form = (frame.format.name, frame.layout.name, frame.sample_rate)
        at = self._expected if frame.time is None else frame.time - self._zero
        at = 0.0 if at is None else at
        if self._expected is None or form != self._form or abs(at - self._expected) > JITTER_S:
            yield from self._restart(at)
            self._form, self._expected = form, at
        self._expected += frame.samples / frame.sample_rate
        assert self._resampler is not None
        frame.pts = None  # the resampler would fill holes of its own
        yield from self._write(self._resampler.resample(frame))

    def finish(self) -> Iterator[Sound]:
        """Hand out what the resampler still holds."""
        if self._resampler is not None:
            yield from self._write(self._resampler.resample(None))

    def _restart(self, at: float) -> Iterator[Sound]:
        yield from self.finish()
        self._resampler = AudioResampler(format="flt", layout="mono", rate=self._rate)
        hole = round(at * self._rate) - self.written
        if hole > LONGEST_HOLE_S * self._rate:
            hole = 0
        self._cut = max(0, -hole)
        while hole > 0:
            silence = np.zeros(min(hole, self._rate), np.float32)
            self.written += len(silence)
            hole -= len(silence)
            yield silence

    def _write(self, frames: list[AudioFrame]) -> Iterator[Sound]:
        for frame in frames:
            samples: Sound = np.nan_to_num(frame.to_ndarray().reshape(-1)).astype(np.float32, copy=False)
            if self._cut:
                dropped = min(self._cut, len(samples))
                self._cut -= dropped
                samples = samples[dropped:]
            if len(samples):
                self.written += len(samples)
                yield samples
