"""The recordings of a walk as the review plays them and takes pictures from them: beside the findings file."""

from __future__ import annotations

import hashlib
import math
import tempfile
import threading
from collections.abc import Callable
from pathlib import Path

from narrate2report.errors import BadInput, NarrateError
from narrate2report.intake.frames import Frame, frame_at, neighbour, sharpest
from narrate2report.intake.playable import plays_in_browsers
from narrate2report.intake.review_copy import make_copy
from narrate2report.intake.still_file import as_jpeg
from narrate2report.records.beside import place_of, stills_beside
from narrate2report.records.digest import Written, digest_file, written_as
from narrate2report.records.files import write_whole
from narrate2report.records.findings import Entry, Findings, Still
from narrate2report.records.transcript import Recording
from narrate2report.review.playback import Playing
from narrate2report.review.requests import TakeStill


class _Stopped(Exception):
    """The review was closed while a copy was being made."""


def _within(frame: Frame) -> float:
    """A moment, to 0.01 s, at which a player shows this picture and not the one before."""
    return math.ceil(round(frame.time_s * 1000) / 10) / 100


class WalkRecordings:
    """Plays the recordings that lie beside a findings file, and takes pictures from them.

    A recording that browsers cannot play gets a copy in a temporary folder, made in the background; pictures are
    always taken from the recording itself.
    """

    def __init__(self, findings: Path, recordings: tuple[Recording, ...]) -> None:
        self._findings = findings
        self._stills = stills_beside(findings)
        self._recordings = recordings
        self._copies = tempfile.TemporaryDirectory(prefix="narrate2report-review-", ignore_cleanup_errors=True)
        self._states: dict[int, Playing] = {}
        self._checked: dict[int, tuple[Written, str | None]] = {}
        self._hashing: dict[int, threading.Thread] = {}
        self._starting, self._checking = threading.Lock(), threading.Lock()
        self._stop = threading.Event()
        self._workers: list[threading.Thread] = []

    def close(self) -> None:
        """Stop making copies and throw them away."""
        self._stop.set()
        for worker in self._workers:
            worker.join()
        self._copies.cleanup()

    def playing(self, number: int) -> Playing:
        """How a recording can be played now; the first question starts the making of a copy where one is needed.

        One that is missing, or another one, is looked for anew at each question, so putting it back is enough.
        """
        with self._starting:
            try:
                path = self._original(number)
            except NarrateError as error:
                if number in self._states and self._states[number].why:
                    del self._states[number]  # the copy failed for want of the recording
                return Playing(why=str(error))
            if number not in self._states:
                self._states[number] = self._first_look(number, path)
            return self._states[number]

    def frame(self, number: int, moment: float, steps: int) -> tuple[bytes, float]:
        """The picture `steps` frames from the one shown at a moment, as JPEG, and its own time."""
        path = self._original(number)
        frame = neighbour(path, moment, steps) if steps else frame_at(path, moment)
        return as_jpeg(frame), frame.time_s

    def sharpest(self, number: int, start: float, end: float) -> float:
        """The moment of the sharpest picture between two moments."""
        return sharpest(self._original(number), start, end).time_s

    def take(self, findings: Findings, wanted: TakeStill) -> Still:
        """The picture that is asked for, as a file in the folder of stills. Raises BadInput where there is none."""
        entry = next((one for one in findings.entries if one.id == wanted.entry), None)
        if entry is None:
            raise BadInput(f"no entry {wanted.entry!r} in this record")
        recording = entry.evidence[0].recording
        return self._keep(self._picture(findings.numbers()[recording], entry, wanted.at), recording)

    def _picture(self, number: int, entry: Entry, moment: float | None) -> Frame:
        piece = entry.evidence[0]
        path = self._original(number)
        self._hashing[number].join()  # a picture that is kept is of the recording that was drafted, for sure
        path = self._original(number)
        return sharpest(path, piece.start, piece.end) if moment is None else frame_at(path, moment)

    def _keep(self, frame: Frame, recording: str) -> Still:
        """A file is named by what it holds, so writing it again changes nothing."""
        content = as_jpeg(frame)
        sha256 = hashlib.sha256(content).hexdigest()
        self._stills.mkdir(exist_ok=True)
        place = self._stills / f"{sha256[:16]}.jpg"
        write_whole(place, content)
        return Still(file=f"{self._stills.name}/{place.name}", recording=recording, time=_within(frame), sha256=sha256)

    def _original(self, number: int) -> Path:
        """The file of a recording. Raises BadInput where it is not there, or is another one."""
        recording = self._recordings[number]
        path = place_of(recording.file, self._findings)
        if not recording.media:
            raise BadInput(f"{recording.file} is a written transcript and has no pictures")
        if not path.is_file():
            raise BadInput(f"{recording.file} does not lie beside the findings file; put it there")
        if path.stat().st_size != recording.bytes:
            raise BadInput(f"{recording.file} is not the recording that was drafted: its size differs")
        self._check(number, path)
        return path

    def _check(self, number: int, path: Path) -> None:
        """Hash a file once in the background; raises BadInput from when it is known to be another one."""
        written = written_as(path)
        if written is None:
            raise BadInput(f"{path.name} cannot be read; it was there a moment ago")
        with self._checking:
            known, why = self._checked.get(number, (None, None))
            if known != written:
                self._checked[number] = written, None
                self._hashing[number] = self._work(self._hash, number, path, written)
            elif why is not None:
                raise BadInput(why)

    def _hash(self, number: int, path: Path, written: Written) -> None:
        recording = self._recordings[number]
        try:
            other = digest_file(path, self._stop.is_set).sha256 != recording.sha256
        except BadInput:  # gone meanwhile, or the review was closed: told at the next question
            return
        if other and self._checked[number][0] == written:
            why = f"{recording.file} is not the recording that was drafted: its content differs"
            self._checked[number] = written, why

    def _work(self, what: Callable[..., None], *told: object) -> threading.Thread:
        worker = threading.Thread(target=what, args=told, daemon=True)
        self._workers.append(worker)
        worker.start()
        return worker

    def _first_look(self, number: int, path: Path) -> Playing:
        try:
            if plays_in_browsers(path):
                return Playing(file=path)
        except NarrateError as error:
            return Playing(why=str(error))
        self._work(self._copy, number, path)
        return Playing(progress=0.0)

    def _copy(self, number: int, path: Path) -> None:
        place = Path(self._copies.name) / f"{number}.mp4"

        def reached(part: float) -> None:
            if self._stop.is_set():
                raise _Stopped
            self._states[number] = Playing(progress=part)

        try:
            make_copy(path, place, reached)
            self._states[number] = Playing(file=place)
        except NarrateError as error:
            self._states[number] = Playing(why=str(error))
        except _Stopped:
            return
