"""A copy of a recording with chapters and captions in it, so that any player jumps to a finding.

Picture and sound are laid into the copy packet by packet as they are: nothing is decoded, and every packet keeps its
time, counted from where a player shows 0:00. MP4 and MOV stay what they are (captions as timed text, ISO/IEC 14496-17);
everything else becomes Matroska (captions as WebVTT). Place, device and other tags of the file are not carried over.
"""

from __future__ import annotations

import html
import struct
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING

import av
import av.container
from av.stream import Stream
from av.subtitles.codeccontext import SubtitleCodecContext

from narrate2report.errors import FULL, BadInput
from narrate2report.intake.container import opened, picture_tracks, time_zero
from narrate2report.records.files import writing_whole
from narrate2report.records.timed_text import TimedText

if TYPE_CHECKING:
    from av.container.core import Chapter  # there for type checkers alone

TICK = Fraction(1, 1000)
"""In which chapters and captions are counted, in seconds."""

QUICKTIME_BRANDS = ("qt", "3g")
"""How the brand of a file begins (ISO/IEC 14496-12, 4.3) that holds forms of sound which MP4 does not."""

STYLE = b"""[Script Info]
ScriptType: v4.00+
PlayResX: 384
PlayResY: 288

[V4+ Styles]
Format: Name, Fontname, Fontsize, PrimaryColour, SecondaryColour, OutlineColour, BackColour, Bold, Italic, Underline, \
StrikeOut, ScaleX, ScaleY, Spacing, Angle, BorderStyle, Outline, Shadow, Alignment, MarginL, MarginR, MarginV, Encoding
Style: Default,sans-serif,16,&Hffffff,&Hffffff,&H0,&H0,0,0,0,0,100,100,0,0,1,1,0,2,10,10,10,0

[Events]
Format: Layer, Start, End, Style, Name, MarginL, MarginR, MarginV, Effect, Text
"""
"""White letters below, from which the library makes the sample description that timed text must have."""


@dataclass(frozen=True)
class Additions:
    """What the copy holds beside picture and sound. Chapters and captions are each apart and in order."""

    title: str
    comment: str
    chapters: Sequence[TimedText]
    captions: Sequence[TimedText] = ()


@dataclass(frozen=True)
class _Form:
    """A kind of file: its name for the library, how its name ends with and without a picture, its form of captions."""

    name: str
    ending: str
    sound_ending: str
    captions: str


_MP4 = _Form("mp4", ".mp4", ".m4a", "mov_text")
_MOV = _Form("mov", ".mov", ".mov", "mov_text")
_MATROSKA = _Form("matroska", ".mkv", ".mka", "webvtt")


def copy_ending(path: Path) -> str:
    """How the name of the copy ends: `.mp4`, `.mkv`. Raises BadInput when the recording cannot be read."""
    with opened(path) as source:
        form = _form_of(source)
        return form.ending if picture_tracks(source) else form.sound_ending


def make_chaptered_copy(path: Path, out: Path, additions: Additions) -> None:
    """Write the copy; `out` appears when it is whole.

    Raises BadInput when the recording cannot be read or copied as it is, NoRoom when the disk is full.
    """
    with opened(path) as source, writing_whole(out) as temporary, _told_of(path):
        form = _form_of(source)
        with av.open(f"file:{temporary}", "w", format=form.name, options=_options(form)) as copy:
            tracks = {track.index: copy.add_stream_from_template(track, opaque=True) for track in _kept(source, path)}
            for index, track in tracks.items():
                track.metadata["language"] = source.streams[index].language or "und"
            captions = _Captions(copy, form, additions.captions) if additions.captions else None
            copy.metadata.update({"title": additions.title, "comment": additions.comment})
            copy.set_chapters([_chapter(number, one) for number, one in enumerate(additions.chapters, start=1)])
            _lay_in(source, copy, tracks, captions)


def _lay_in(
    source: av.container.InputContainer,
    copy: av.container.OutputContainer,
    tracks: dict[int, Stream],
    captions: _Captions | None,
) -> None:
    """Every packet in the order in which it is stored, the captions keeping step."""
    zero_s = time_zero(source)
    for packet in _packets(source, [source.streams[index] for index in tracks]):
        late = round(zero_s / packet.time_base)
        packet.dts = None if packet.dts is None else packet.dts - late
        packet.pts = None if packet.pts is None else packet.pts - late
        if captions is not None and packet.dts is not None:
            captions.until(float(packet.dts * packet.time_base))
        packet.stream = tracks[packet.stream.index]
        copy.mux(packet)
    if captions is not None:
        captions.until(float("inf"))


def _packets(source: av.container.InputContainer, tracks: list[Stream]) -> Iterator[av.Packet[Stream]]:
    """The packets of a recording, as far as it goes where it breaks off."""
    try:
        for packet in source.demux(tracks):
            if packet.dts is not None or packet.size:  # else it is the end of a track
                yield packet
    except (av.FFmpegError, OSError):
        return


class _Captions:
    """The track of captions, laid in as far as it is asked for."""

    def __init__(self, copy: av.container.OutputContainer, form: _Form, captions: Sequence[TimedText]) -> None:
        self._copy, self._form = copy, form
        self._left = iter(captions)
        self._next = next(self._left, None)
        if form is _MATROSKA:
            self._track = copy.add_mux_stream(form.captions, time_base=TICK)
        else:
            self._track = copy.add_stream(form.captions)
            context = self._track.codec_context
            assert isinstance(context, SubtitleCodecContext)
            context.subtitle_header = STYLE
            self._track.time_base = context.time_base = TICK
        self._track.metadata["language"] = "eng"

    def until(self, time_s: float) -> None:
        """Lay in what begins until then."""
        while self._next is not None and self._next.start_s <= time_s:
            packet = av.Packet(self._stored(self._next.text))
            packet.time_base = TICK
            packet.pts = packet.dts = _ticks(self._next.start_s)
            packet.duration = _ticks(self._next.end_s) - packet.pts
            packet.stream = self._track
            self._copy.mux(packet)
            self._next = next(self._left, None)

    def _stored(self, text: str) -> bytes:
        """WebVTT reads marks in its text; timed text is its length in two bytes, then the text as it is."""
        if self._form is _MATROSKA:
            return html.escape(text, quote=False).encode("utf-8")
        raw = text.encode("utf-8")
        return struct.pack(">H", len(raw)) + raw


def _form_of(source: av.container.InputContainer) -> _Form:
    if "mp4" not in source.format.name.split(","):
        return _MATROSKA
    return _MOV if source.metadata.get("major_brand", "").startswith(QUICKTIME_BRANDS) else _MP4


def _options(form: _Form) -> dict[str, str]:
    """Nothing that differs from run to run; what begins before 0:00, as sound does in many files, keeps its time; and
    the index of an MP4 stands before what it points to.
    """
    options = {"fflags": "+bitexact", "avoid_negative_ts": "disabled"}
    return options if form is _MATROSKA else options | {"movflags": "+faststart"}


def _kept(source: av.container.InputContainer, path: Path) -> list[Stream]:
    """The tracks of picture and sound, but those of a form that is unknown here: phones put such beside a plain one."""
    tracks = [*picture_tracks(source), *source.streams.audio]
    known = [track for track in tracks if track.codec_context is not None]
    if not known:
        raise BadInput(f"{path}: has neither picture nor sound that could be copied")
    return known


def _chapter(number: int, one: TimedText) -> Chapter:
    start, end = _ticks(one.start_s), _ticks(one.end_s)
    return {"id": number, "start": start, "end": end, "time_base": TICK, "metadata": {"title": one.text}}


def _ticks(time_s: float) -> int:
    return round(time_s / TICK)


@contextmanager
def _told_of(path: Path) -> Iterator[None]:
    """What the library says of a recording that no other file can hold as it is, in one line."""
    try:
        yield
    except (av.FFmpegError, ValueError) as error:
        if isinstance(error, av.FFmpegError) and error.errno in FULL:
            raise OSError(error.errno, error.strerror) from error
        raise BadInput(
            f"{path}: cannot be copied without encoding it anew; its chapters can be had alone, with --only vtt"
        ) from error
