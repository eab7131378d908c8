"""Where to cut a stream of speech chances into windows: pure counting in frames of 32 ms.

A window is cut at a long pause; when it grows too long, at the longest pause in its later part; in speech
without any pause, where speech is least likely.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from narrate2report.listen.silero import FRAME
from narrate2report.records.clip import RATE


def frames(seconds: float) -> int:
    """Seconds in whole frames."""
    return round(seconds * RATE / FRAME)


SPEAKS, FALLS_SILENT = 0.5, 0.35
"""Chances at which speech is taken to begin and to end; between the two it goes on as it was."""

PAUSE = frames(0.16)
"""A shorter silence is part of a word."""
MARGIN = frames(0.4)
"""Sound kept around speech: a word with its edge cut off is heard badly."""
LONGEST = frames(28.0)
"""The model takes 30 s."""
ENOUGH, GOOD_PAUSE = frames(24.0), frames(1.0)
"""A window this long ends at the next pause this long. Fuller ones are fewer, and heard better."""
LONG_PAUSE = frames(4.0)
"""Such a pause always ends a window: models invent words in long silence."""
EARLIEST_CUT = frames(10.0)
"""A window that must be cut is not cut before this, if there is a pause later on."""
LATE_CUT, FAIR_PAUSE = frames(24.0), frames(0.35)
"""This late, any pause this long will do: fuller windows are fewer windows."""
BLIP = frames(0.1)
"""Less speech than this in a whole window is a click."""


@dataclass(frozen=True)
class Span:
    """Frames from `start` up to and without `end`."""

    start: int
    end: int


@dataclass(frozen=True)
class Cut:
    """A window to be taken: its frames, and the speech in it (both counted from the stream's start)."""

    start: int
    end: int
    speech: tuple[Span, ...]


@dataclass
class Cutter:
    """Takes chances frame by frame and tells which windows are complete."""

    _chances: list[float] = field(default_factory=list)
    _base: int = 0
    """The frame that the first of `_chances` belongs to."""
    _runs: list[Span] = field(default_factory=list)
    _begun: int | None = None
    _quiet_since: int | None = None
    _taken: int = 0
    """Frames before this belong to windows already told."""

    @property
    def now(self) -> int:
        """The number of frames seen."""
        return self._base + len(self._chances)

    @property
    def needed_from(self) -> int:
        """The first frame that a coming window may still hold."""
        begin = self._runs[0].start if self._runs else self._begun
        return max(self._taken, (self.now if begin is None else begin) - MARGIN)

    def feed(self, chance: float) -> Iterator[Cut]:
        """Count one more frame; yields a window when this frame completes it."""
        at = self.now
        self._chances.append(chance)
        self._follow(at, chance)
        if (begin := self._runs[0].start if self._runs else self._begun) is None:
            self._forget()
            return
        pause = at + 1 - self._runs[-1].end if self._runs and self._begun is None else 0
        length = at + 1 - max(self._taken, begin - MARGIN)
        if pause >= LONG_PAUSE or (pause >= GOOD_PAUSE and self._runs[-1].end - begin >= ENOUGH):
            yield from self._take(len(self._runs))
        elif length >= LONGEST:
            yield from self._cut_within()

    def finish(self) -> Iterator[Cut]:
        """The last window, when the stream has ended."""
        if self._begun is not None:
            self._runs.append(Span(self._begun, self._quiet_since or self.now))
            self._begun = None
        yield from self._take(len(self._runs))

    def _follow(self, at: int, chance: float) -> None:
        """Keep track of whether someone speaks."""
        if chance >= SPEAKS:
            self._quiet_since = None
            if self._begun is None:
                self._begun = at
        elif chance < FALLS_SILENT and self._begun is not None:
            if self._quiet_since is None:
                self._quiet_since = at
            if at + 1 - self._quiet_since >= PAUSE:
                self._runs.append(Span(self._begun, self._quiet_since))
                self._begun = self._quiet_since = None

    def _cut_within(self) -> Iterator[Cut]:
        """End a window that has grown to its greatest length."""
        runs = [*self._runs, *([] if self._begun is None else [Span(self._begun, self.now)])]
        pauses = [(runs[index + 1].start - runs[index].end, index + 1) for index in range(len(runs) - 1)]
        if self._begun is None:
            pauses.append((self.now - runs[-1].end, len(runs)))
        late = [pause for pause in pauses if runs[pause[1] - 1].end - runs[0].start >= EARLIEST_CUT]
        if pauses and (late or self._begun is None or self.now - runs[-1].start < LONGEST - EARLIEST_CUT):
            later = [p for p in late if p[0] >= FAIR_PAUSE and runs[p[1] - 1].end - runs[0].start >= LATE_CUT]
            yield from self._take(max(later or late or pauses)[1])
        else:
            yield from self._cut_speech(runs[-1])

    def _cut_speech(self, run: Span) -> Iterator[Cut]:
        """Cut a run of speech without a pause where its chance is lowest, in its last third."""
        first = max(run.start + 1, self.now - LONGEST // 3)
        at = min(range(first, self.now - 1), key=lambda frame: (self._chances[frame - self._base], -frame))
        if self._quiet_since is not None and at >= self._quiet_since:
            # It has just fallen silent, for too short a time to be told from the middle of a word: a pause after all.
            self._runs.append(Span(run.start, self._quiet_since))
            self._begun = self._quiet_since = None
        else:
            self._runs.append(Span(run.start, at))
            self._begun = at
        yield from self._take(len(self._runs))

    def _take(self, count: int) -> Iterator[Cut]:
        """Tell the first `count` runs as a window and keep the rest."""
        taken, self._runs = tuple(self._runs[:count]), self._runs[count:]
        if not taken:
            return
        following = self._runs[0].start if self._runs else self._begun
        start = max(self._taken, taken[0].start - MARGIN)
        end = min(taken[-1].end + MARGIN, self.now)
        if following is not None:
            end = min(end, max(taken[-1].end, (taken[-1].end + following) // 2))
        goes_on = taken[0].start == self._taken  # the rest of speech that was cut
        self._taken = end
        self._forget()
        if goes_on or sum(run.end - run.start for run in taken) >= BLIP:
            yield Cut(start, end, taken)

    def _forget(self) -> None:
        """Drop chances that no coming cut can look at."""
        spare = self.needed_from - self._base
        if spare > 1000:
            del self._chances[:spare]
            self._base += spare
