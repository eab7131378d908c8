"""A recording that browsers cannot play to a copy that they can: MP4 with H.264 and AAC, upright, at most 1280 pixels.

What the original shows and plays at a time, the copy shows and plays at that time, from 0:00 on: start offsets, edit
lists and holes are worked into it. Picture and sound are read side by side and laid into the file as their times come,
so memory does not grow with the recording. For looking and listening only: stills are taken from the original.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction
from pathlib import Path

import av
import av.container
import numpy as np
from av.audio.frame import AudioFrame
from av.audio.stream import AudioStream
from av.video.frame import PictureType, VideoFrame
from av.video.reformatter import ColorPrimaries, ColorRange, Colorspace, ColorTrc, Interpolation, VideoReformatter
from av.video.stream import VideoStream

from narrate2report.errors import BadInput
from narrate2report.intake.container import opened, picture_tracks, time_zero
from narrate2report.intake.pictures import Picture, pictures
from narrate2report.intake.sound import sound_blocks
from narrate2report.intake.upright import HIGH_DYNAMIC_RANGE, Turn, assumed_matrix, turn_of
from narrate2report.records.clip import Sound
from narrate2report.records.files import writing_whole

LONG_SIDE = 1280
"""Pixels of the copy at most."""

HIGHEST_RATE = 40
"""Pictures a second of the copy at most: of 60 each other one is left out, 30 may come unevenly without loss."""

KEY_FRAME_EVERY_S = 1.0
SOUND_RATE = 48_000
SOUND_BITS = 96_000
CLOCK = 90_000
"""Ticks a second of the copy's picture track."""

PICTURE_OPTIONS = {
    "preset": "veryfast",
    "crf": "26",
    "bf": "0",  # no picture is stored out of order, so that none needs an edit list
    "g": "600",
    "sc_threshold": "0",
    "forced-idr": "1",
}


def make_copy(path: Path, out: Path, on_progress: Callable[[float], None]) -> None:
    """Write a copy of a recording that browsers play; `out` appears when it is whole.

    `on_progress` is told the part done, 0 to 1, about once for each second of the recording; 1.0 when the copy stands.
    An exception that it raises ends the work, leaves nothing behind and comes through. Raises BadInput when the
    recording cannot be read or the copy not be written.
    """
    has_picture, has_sound, length_s = _facts(path)
    progress = _Progress(on_progress, length_s)
    progress.reached(0.0)
    with (
        writing_whole(out) as temporary,
        av.open(f"file:{temporary}", "w", format="mp4", options={"movflags": "+faststart"}) as container,
    ):
        sound = _SoundTrack(container, path) if has_sound else None
        if has_picture:
            _copy_pictures(container, path, sound, progress)
        if sound is not None:
            sound.finish(progress)
    on_progress(1.0)


def _facts(path: Path) -> tuple[bool, bool, float | None]:
    """Whether there is a picture, whether there is sound, and how long both are, in seconds."""
    with opened(path) as container:
        has_picture = bool(picture_tracks(container))
        has_sound = bool(container.streams.audio)
        if not has_picture and not has_sound:
            raise BadInput(f"{path}: has neither picture nor sound")
        if container.duration is None:
            return has_picture, has_sound, None
        end = (container.start_time or 0) + container.duration
        return has_picture, has_sound, end / av.time_base - time_zero(container)


class _Progress:
    """Tells how far the copy has come, once for each second of the recording."""

    def __init__(self, tell: Callable[[float], None], length_s: float | None) -> None:
        self._tell, self._length_s = tell, length_s
        self._next_s = 0.0

    def reached(self, time_s: float) -> None:
        if time_s < self._next_s:
            return
        self._next_s = time_s + 1.0
        self._tell(min(0.99, time_s / self._length_s) if self._length_s else 0.0)


class _SoundTrack:
    """The sound of a recording, encoded as far as it is asked for."""

    def __init__(self, container: av.container.OutputContainer, path: Path) -> None:
        self._container = container
        self._stream: AudioStream = container.add_stream("aac", rate=SOUND_RATE, layout="mono", bit_rate=SOUND_BITS)
        self._blocks: Iterator[Sound] = sound_blocks(path, rate=SOUND_RATE)
        self._written = 0

    def until(self, time_s: float) -> bool:
        """Encode the sound up to a time; False once it has come to its end."""
        while self._written < time_s * SOUND_RATE:
            block = next(self._blocks, None)
            if block is None:
                return False
            frame = AudioFrame.from_ndarray(np.ascontiguousarray(block).reshape(1, -1), format="fltp", layout="mono")
            frame.sample_rate, frame.time_base = SOUND_RATE, Fraction(1, SOUND_RATE)
            frame.pts = self._written
            self._written += len(block)
            self._container.mux(self._stream.encode(frame))
        return True

    def finish(self, progress: _Progress) -> None:
        """Encode the rest."""
        while self.until(self._written / SOUND_RATE + 1.0):
            progress.reached(self._written / SOUND_RATE)
        self._container.mux(self._stream.encode(None))


class _PictureTrack:
    """Pictures turned upright, made smaller and encoded; the first settles the size of all."""

    def __init__(self, container: av.container.OutputContainer, first: VideoFrame) -> None:
        self._container = container
        self._turn = turn_of(first)
        self._size = _small_size(first)
        self._reformatter = VideoReformatter()  # kept: one for each picture costs time
        wide, high = reversed(self._size) if self._turn.transposed else self._size
        stream: VideoStream = container.add_stream("libx264", rate=30, options=PICTURE_OPTIONS)
        stream.width, stream.height, stream.pix_fmt = wide, high, "yuv420p"
        stream.time_base = stream.codec_context.time_base = Fraction(1, CLOCK)
        stream.codec_context.color_range = ColorRange.MPEG
        stream.codec_context.colorspace = Colorspace.ITU709
        self._stream = stream
        self._key_due_s = 0.0

    def add(self, time_s: float, picture: VideoFrame) -> None:
        frame = self._upright(self._shrunk(picture))
        frame.pts, frame.time_base = round(time_s * CLOCK), Fraction(1, CLOCK)
        frame.pict_type = PictureType.NONE
        if time_s >= self._key_due_s:
            frame.pict_type = PictureType.I
            self._key_due_s = time_s + KEY_FRAME_EVERY_S
        self._container.mux(self._stream.encode(frame))

    def finish(self) -> None:
        self._container.mux(self._stream.encode(None))

    def _shrunk(self, picture: VideoFrame) -> VideoFrame:
        wide_range = picture.color_trc in HIGH_DYNAMIC_RANGE
        return self._reformatter.reformat(
            picture,
            *self._size,
            format="yuv420p",
            interpolation=Interpolation.BILINEAR,
            src_colorspace=assumed_matrix(picture),
            dst_colorspace=Colorspace.ITU709,
            dst_color_range=ColorRange.MPEG,
            dst_color_trc=ColorTrc.BT709 if wide_range else None,
            dst_color_primaries=ColorPrimaries.BT709 if wide_range else None,
        )

    def _upright(self, small: VideoFrame) -> VideoFrame:
        if self._turn == Turn():
            return small
        wide, high = self._size
        flat = small.to_ndarray().astype(np.uint8, copy=False).reshape(-1)
        brightness, colour = wide * high, wide * high // 4
        planes = (
            flat[:brightness].reshape(high, wide),
            flat[brightness : brightness + colour].reshape(high // 2, wide // 2),
            flat[brightness + colour :].reshape(high // 2, wide // 2),
        )
        turned = np.concatenate([self._turn.apply(plane).reshape(-1) for plane in planes])
        columns = high if self._turn.transposed else wide
        return VideoFrame.from_ndarray(turned.reshape(-1, columns), format="yuv420p")


def _small_size(picture: VideoFrame) -> tuple[int, int]:
    """Width and height of the copy before turning: even numbers, at most LONG_SIDE."""
    scale = min(1.0, LONG_SIDE / max(picture.width, picture.height))
    return max(2, round(picture.width * scale / 2) * 2), max(2, round(picture.height * scale / 2) * 2)


def _copy_pictures(
    container: av.container.OutputContainer, path: Path, sound: _SoundTrack | None, progress: _Progress
) -> None:
    """Encode all pictures, the sound keeping step."""
    track: _PictureTrack | None = None
    for time_s, picture in _thinned(pictures(path)):
        if track is None:
            track = _PictureTrack(container, picture)
        track.add(time_s, picture)
        if sound is not None:
            sound.until(time_s)
        progress.reached(time_s)
    assert track is not None  # pictures() gives one, or raises
    track.finish()


def _thinned(shown: Iterator[Picture]) -> Iterator[tuple[float, VideoFrame]]:
    """Pictures with their times in the copy: the first from 0:00 on, then at most HIGHEST_RATE a second."""
    last_s: float | None = None
    for picture in shown:
        if last_s is None:
            yield 0.0, picture.frame
            last_s = 0.0
        if picture.time_s - last_s >= 1 / HIGHEST_RATE:
            yield picture.time_s, picture.frame
            last_s = picture.time_s
