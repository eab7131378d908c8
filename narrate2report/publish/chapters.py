"""The chapters of a recording: the whole walk, in it the rooms, in them what was said, from moment to moment.

Two forms of the same: nested, as WebVTT (W3C, section 4: chapters are apart or one inside the other), and one after
the other, for players that know chapters without depth. Each begins where the entry's link opens.
"""

from __future__ import annotations

import html
from bisect import bisect_left
from collections.abc import Iterator
from dataclasses import dataclass

from narrate2report.publish.captions import SHORTEST_S, webvtt_time
from narrate2report.publish.entry_words import entries_of, part_of, room_called, room_of, statement
from narrate2report.publish.standing import Heading
from narrate2report.records.findings import Entry, Findings
from narrate2report.records.moments import rounded
from narrate2report.records.plain import one_line
from narrate2report.records.timed_text import TimedText, until_next
from narrate2report.wording import capital

LONGEST_TITLE = 120
"""Characters of a title: more does not fit a player's list."""
LONGEST_BYTES = 240
"""The same in UTF-8: players of MP4 read a length of one byte."""


@dataclass(frozen=True)
class Chapter:
    """From start to end, in seconds. `title` stands inside the chapter around it, `alone` where there is none around.

    `inside` are apart from each other, in order.
    """

    start_s: float
    end_s: float
    title: str
    alone: str
    inside: tuple[Chapter, ...] = ()


@dataclass(frozen=True)
class _Span:
    """A stay in a room, until the next one; without a room before the first."""

    room: str | None
    start_s: float
    end_s: float


def chapters_of(findings: Findings, heading: Heading, recording: str) -> Chapter:
    """The whole of one recording as a chapter, with those inside it. What was dropped has none."""
    said = _said(findings, recording)
    starts = list(said)
    length_s = _length_s(findings, recording, starts)
    inside: list[Chapter] = []
    for span in _spans(findings, recording, length_s):
        within = starts[bisect_left(starts, span.start_s) : bisect_left(starts, span.end_s)]
        inside += _in_span(span, {at: said[at] for at in within})
    whole = _title(f"{heading.about} ({heading.word})")
    return Chapter(0.0, length_s, whole, whole, tuple(inside))


def webvtt_chapters(whole: Chapter, heading: Heading) -> str:
    """The chapters as WebVTT, each inside the one around it; a note at the top says how far the record has come."""
    blocks = ["WEBVTT", f"NOTE\n{_text(heading.about)}\n{_text(heading.mark)}"]
    blocks += [
        f"{webvtt_time(one.start_s)} --> {webvtt_time(one.end_s)}\n{_text(one.title)}" for one in _with_inside(whole)
    ]
    return "\n\n".join(blocks) + "\n"


def in_a_row(whole: Chapter) -> tuple[TimedText, ...]:
    """The chapters one after the other from 0:00 on; where several begin together they share one."""
    titles: dict[float, list[str]] = {}
    for one in _with_inside(whole):
        titles.setdefault(one.start_s, []).append(one.alone)
    turns = until_next(sorted(titles), whole.end_s)
    return tuple(TimedText(start, end, _title("; ".join(titles[start]))) for start, end in turns)


def _with_inside(chapter: Chapter) -> Iterator[Chapter]:
    """A chapter, then those inside it, in the order in which they begin."""
    yield chapter
    for one in chapter.inside:
        yield from _with_inside(one)


def _said(findings: Findings, recording: str) -> dict[float, list[Entry]]:
    """What was said of the unit in this recording, by the moment at which it begins, in order."""
    said: dict[float, list[Entry]] = {}
    for entry in entries_of(findings):
        for start in dict.fromkeys(piece.start for piece in entry.evidence if piece.recording == recording):
            said.setdefault(start, []).append(entry)
    return dict(sorted(said.items()))


def _length_s(findings: Findings, recording: str, starts: list[float]) -> float:
    """How long the recording is: as told, or as far as anything in it."""
    told = [one.duration_s for one in findings.recordings if one.file == recording and one.duration_s is not None]
    visits = [visit.start for visit in findings.rooms if visit.recording == recording]
    begun = max([0.0, *starts, *visits])
    return rounded(max([begun + SHORTEST_S, *told]))


def _spans(findings: Findings, recording: str, length_s: float) -> list[_Span]:
    rooms = {visit.start: visit.room for visit in findings.rooms if visit.recording == recording}
    starts = sorted(rooms)
    spans = [_Span(rooms[start], start, end) for start, end in until_next(starts, length_s)]
    before = starts[0] if starts else length_s
    return [_Span(None, 0.0, before), *spans] if before > 0 else spans


def _in_span(span: _Span, said: dict[float, list[Entry]]) -> list[Chapter]:
    """The room with what was said in it, or that alone where no room was entered yet."""
    parts = []
    for start, end in until_next(list(said), span.end_s):
        title = "; ".join(dict.fromkeys(_told(entry, span.room) for entry in said[start]))
        alone = title if span.room is None else f"{room_called(span.room)}, {title}"
        parts.append(Chapter(start, end, _title(capital(title)), _title(alone)))
    if span.room is None:
        return parts
    name = _title(room_called(span.room))
    return [Chapter(span.start_s, span.end_s, name, name, tuple(parts))]


def _told(entry: Entry, room: str | None) -> str:
    told = f"{part_of(entry)}: {statement(entry)}"
    return told if entry.room == room else f"{room_of(entry)}, {told}"


def _title(words: str) -> str:
    """The words in a line that a player's list can show, cut at the end where they are too long."""
    line = one_line(words)
    if len(line) <= LONGEST_TITLE and len(line.encode("utf-8", "replace")) <= LONGEST_BYTES:
        return line
    short = line[: LONGEST_TITLE - 1]
    while len(short.encode("utf-8", "replace")) > LONGEST_BYTES - len("…".encode()):
        short = short[:-1]
    return f"{short.rstrip()}…"


def _text(words: str) -> str:
    """Words that no reader takes for markup or for a line of times."""
    return html.escape(words, quote=False)
