"""A walk and its sound track in, an MP4 out: camera moves, caption strip and the burnt-in clock.

The clock shows the presentation time of the very frame it stands in (10 frames a second, so tenths are
exact): a still taken through a link proves by itself that the link opens at the right second.
"""

from __future__ import annotations

import math
from collections import deque
from fractions import Fraction
from pathlib import Path

import av
import numpy as np
from PIL import Image, ImageDraw

from studio.canvas import HEIGHT, MASTER, WIDTH, load_font
from studio.rooms import ROOMS, room_picture
from studio.story import Shot, Walk
from studio.voice import SoundTrack

FRAME = (960, 540)
RATE = 10
"""Frames a second."""

KEYFRAME_EVERY = 2 * RATE
MOVE_S = 0.7
"""How long the camera takes to the next shot; it arrives `EARLY_S` before the line begins."""

EARLY_S = 0.2
DRIFT = 0.05
"""Part of the width by which the camera closes in while a line is spoken."""

_STRIP = 50
_DIGIT = 27


def film_walk(walk: Walk, track: SoundTrack, target: Path) -> None:
    """Draw and encode the video; replaces the target."""
    with av.open(str(target), "w", format="mp4", options={"movflags": "+faststart"}) as container:
        container.metadata["creation_time"] = walk.recorded_at
        container.metadata["title"] = f"Invented sample walk, {walk.name}"
        picture = container.add_stream("libx264", rate=RATE)
        picture.width, picture.height = FRAME
        picture.pix_fmt = "yuv420p"
        picture.time_base = Fraction(1, RATE)
        picture.options = {
            "crf": "30",
            "preset": "slow",
            "tune": "animation",
            "g": str(KEYFRAME_EVERY),
            "keyint_min": str(KEYFRAME_EVERY),
            "sc_threshold": "0",
            "bf": "0",
        }
        sound = container.add_stream("aac", rate=track.rate, layout="mono")
        sound.bit_rate = 44_000
        blocks = _audio_frames(track)
        for index in range(math.ceil(track.duration_s * RATE)):
            frame = av.VideoFrame.from_ndarray(np.asarray(draw_frame(walk, track, index)), format="rgb24")
            frame.pts, frame.time_base = index, Fraction(1, RATE)
            container.mux(picture.encode(frame))
            # Sound goes in along with the picture: no player shall need the whole file for the first word.
            while blocks and (blocks[0].pts or 0) <= (index + 1) * track.rate / RATE:
                container.mux(sound.encode(blocks.popleft()))
        container.mux(picture.encode(None))
        container.mux(sound.encode(None))


def draw_frame(walk: Walk, track: SoundTrack, index: int) -> Image.Image:
    """The picture at index / RATE seconds."""
    now = index / RATE
    starts = [start for start, _ in track.times]
    current = max((i for i, start in enumerate(starts) if start - EARLY_S - MOVE_S <= now), default=0)
    shot = walk.shots[current]
    moved = min(1.0, max(0.0, (now - (starts[current] - EARLY_S - MOVE_S)) / MOVE_S)) if current else 1.0
    view = _drifted(shot, now - starts[current])
    image = None
    if moved < 1.0:
        before = walk.shots[current - 1]
        eased = moved * moved * (3 - 2 * moved)
        leaving = _drifted(before, now - starts[current - 1])
        if before.room == shot.room:
            view = _between(leaving, view, eased)
            leaving = view
        if (before.room, before.shown) != (shot.room, shot.shown):
            image = Image.blend(_look(walk, before, leaving), _look(walk, shot, view), eased)
    if image is None:
        image = _look(walk, shot, view)
    draw_captions(image, ROOMS[shot.room][0], walk.caption, index)
    return image


View = tuple[float, float, float]


def _drifted(shot: Shot, since: float) -> View:
    """Centre and width of the view some seconds after the shot's line began."""
    closing = DRIFT * (1 - math.exp(-max(0.0, since + EARLY_S) / 4))
    return shot.x, shot.y, shot.width * (1 - closing)


def _between(start: View, end: View, part: float) -> View:
    """A view on the way; widths change by ratio, so the zoom looks even."""
    width = start[2] * (end[2] / start[2]) ** part
    return start[0] + (end[0] - start[0]) * part, start[1] + (end[1] - start[1]) * part, width


def _look(walk: Walk, shot: Shot, view: View) -> Image.Image:
    """What the camera sees of the room, kept inside the drawn picture."""
    full, half = room_picture(shot.room, walk.flaws | shot.shown)
    x, y, width = view
    high = width * HEIGHT / WIDTH
    left = min(max(0.0, x - width / 2), WIDTH - width)
    top = min(max(0.0, y - high / 2), HEIGHT - high)
    image, scale = (half, MASTER / 2) if width >= FRAME[0] else (full, float(MASTER))
    box = (left * scale, top * scale, (left + width) * scale, (top + high) * scale)
    return image.resize(FRAME, Image.Resampling.BICUBIC, box)


def draw_captions(image: Image.Image, room: str, caption: str, index: int) -> None:
    """The strip along the foot and the clock in the upper right corner."""
    draw = ImageDraw.Draw(image, "RGBA")
    wide, high = FRAME
    draw.rectangle((0, high - _STRIP, wide, high), fill="#14191cd8")
    draw.text((22, high - _STRIP / 2), room, fill="#ffffff", font=load_font(28), anchor="lm")
    draw.text((wide - 22, high - _STRIP / 2), caption, fill="#cfd8dc", font=load_font(20), anchor="rm")
    tenths = index * 10 // RATE
    clock = f"{tenths // 600}:{tenths // 10 % 60:02d}.{tenths % 10}"
    draw.rounded_rectangle((wide - 192, 14, wide - 14, 72), 10, fill="#14191ce6")
    x = wide - 178.0
    for letter in clock:
        cell = _DIGIT if letter.isdigit() else _DIGIT * 0.6
        draw.text((x + cell / 2, 43), letter, fill="#ffe08a", font=load_font(46), anchor="mm")
        x += cell


def _audio_frames(track: SoundTrack) -> deque[av.AudioFrame]:
    """The sound in blocks of the size that an AAC encoder takes."""
    block = 1024
    frames: deque[av.AudioFrame] = deque()
    for start in range(0, len(track.samples), block):
        samples = np.ascontiguousarray(track.samples[start : start + block]).reshape(1, -1)
        frame = av.AudioFrame.from_ndarray(samples, format="fltp", layout="mono")
        frame.sample_rate, frame.pts, frame.time_base = track.rate, start, Fraction(1, track.rate)
        frames.append(frame)
    return frames
