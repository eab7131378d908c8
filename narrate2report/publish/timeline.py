"""The walk in time: when each room was walked and which entries were said of it. Pure; drawn by `timeline_svg`.

Several recordings stand one after the other, in the order of the record. What was never timed has no place in it.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from itertools import accumulate

from narrate2report.publish.report_entries import Telling, mark
from narrate2report.publish.report_values import Lane, Mark, Spot, Tick, Timeline
from narrate2report.records.findings import Entry, Findings
from narrate2report.records.moments import clock
from narrate2report.wording import moment

_STEPS_S = (5, 10, 30, 60, 120, 300, 600, 1800, 3600, 7200, 21600, 86400)
"""Seconds between two ticks: the first of these that needs no more than `_TICKS`."""
_TICKS = 6
_ORDER: tuple[Mark, ...] = ("attention", "fails", "possible", "untested", "works", "sound", "work", "fact")


def timeline_of(telling: Telling) -> Timeline:
    """Each room with its stays and entries, as this reader may see them."""
    findings, page = telling.findings, telling.language.page
    starts, length = _laid_end_to_end(findings)
    lanes = tuple(_lanes(telling, starts))
    rooms = ", ".join(lane.room for lane in lanes)
    return Timeline(
        length_s=length,
        lanes=lanes,
        ticks=tuple(_ticks(findings, starts, length)),
        title=page["timeline"],
        alt=page["timeline_alt"].format(length=clock(length), rooms=rooms),
    )


def _laid_end_to_end(findings: Findings) -> tuple[Mapping[str, float], float]:
    """Where each recording starts on the common line, and how long the line is, in seconds."""
    last: dict[str, float] = {one.file: one.duration_s or 0.0 for one in findings.recordings}
    ends = [(visit.recording, visit.end) for visit in findings.rooms]
    ends += [(piece.recording, piece.end) for entry in findings.entries for piece in entry.evidence]
    for file, end in ends:
        last[file] = max(end, last.get(file, 0.0))
    sums = [0.0, *accumulate(last.values())]
    return dict(zip(last, sums, strict=False)), max(sums[-1], 1.0)


def _lanes(telling: Telling, starts: Mapping[str, float]) -> Iterator[Lane]:
    """A lane a room: in walk order, then the rooms that were only spoken of."""
    seen = dict(telling.rooms())
    visits = telling.findings.rooms
    several = len(telling.findings.recordings)
    for room in dict.fromkeys([*(visit.room for visit in visits), *seen]):
        stays = [visit for visit in visits if visit.room == room]
        entries = seen.get(room, [])
        times = [f"{moment(one.recording, one.start, several)}–{clock(one.end)}" for one in stays]
        firsts = [entry.evidence[0] for entry in entries]
        times = times or list(dict.fromkeys(moment(one.recording, one.start, several) for one in firsts))
        yield Lane(
            room=telling.language.room(room),
            stays_s=tuple((starts[one.recording] + one.start, starts[one.recording] + one.end) for one in stays),
            spots=tuple(_spot(entry, starts) for entry in entries),
            times=", ".join(times),
            told=_told(telling, entries),
        )


def _spot(entry: Entry, starts: Mapping[str, float]) -> Spot:
    first = entry.evidence[0]
    return Spot(starts[first.recording] + first.start, mark(entry))


def _told(telling: Telling, entries: list[Entry]) -> str:
    """`Needs attention: 2, Works: 1`."""
    words = telling.language
    counts = Counter(map(mark, entries))
    return ", ".join(f"{words.marks[kind]}: {words.number(counts[kind])}" for kind in _ORDER if counts[kind])


def _ticks(findings: Findings, starts: Mapping[str, float], length: float) -> Iterator[Tick]:
    """Round times of each recording, few enough to be read, and where each of several begins."""
    step = next((one for one in _STEPS_S if length / one <= _TICKS), length / _TICKS)
    names = list(starts)
    for file, end in zip(names, [*list(starts.values())[1:], length], strict=True):
        yield Tick(starts[file], clock(0), file if len(findings.recordings) > 1 else "")
        at = step
        while starts[file] + at <= end - step / 3:
            yield Tick(starts[file] + at, clock(at))
            at += step
