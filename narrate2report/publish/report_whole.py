"""A record becomes a report: every section of it, for one reader. Pure; files are looked at elsewhere."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace

from narrate2report.publish import report_method as method
from narrate2report.publish.report_cautions import cautions_for, urgent_for
from narrate2report.publish.report_entries import Telling, capital, numbered, words_for
from narrate2report.publish.report_links import Links, moments
from narrate2report.publish.report_rooms import silent_of, told_rooms
from narrate2report.publish.report_safety import told_safety
from narrate2report.publish.report_values import (
    Brief,
    Finding,
    Moment,
    NotSpoken,
    Reader,
    Report,
    Room,
    Standing,
    Unread,
)
from narrate2report.publish.report_words import LANGUAGE, MARKS, PAGE, READERS, STANDINGS
from narrate2report.records.findings import Entry, Findings
from narrate2report.wording import REASONS, counted, moment, plain, room_name

_WRONG = frozenset({"attention", "fails", "possible"})


@dataclass(frozen=True)
class Around:
    """What is known of the files around a record: where recordings open, and why some of them cannot be shown."""

    links: Links = field(default_factory=Links)
    missing_recordings: Mapping[str, str] = field(default_factory=dict)
    missing_stills: Mapping[str, str] = field(default_factory=dict)


def report_of(findings: Findings, name: str, standing: Standing, reader: Reader, around: Around) -> Report:
    """The whole report. `standing` is told by whoever can judge it; a sealed record is `sealed`."""
    telling = Telling(findings, reader, around.links, around.missing_stills)
    entries, rooms = telling.entries(), told_rooms(telling)
    wrong = tuple(one for one in _findings(rooms) if one.mark in _WRONG)
    return Report(
        title=method.title(findings),
        name=name,
        reader=reader,
        reader_word=READERS[reader],
        standing=standing,
        standing_word=STANDINGS[standing],
        standing_told=method.told_standing(findings, standing),
        facts=method.told_facts(findings),
        clashes=findings.walkthrough.clashes,
        urgent=urgent_for(entries),
        attention=wrong,
        safety=told_safety(telling),
        untested=tuple(one for one in _findings(rooms) if one.mark == "untested"),
        not_spoken=tuple(_not_spoken(telling)),
        rooms=rooms,
        handed=tuple(_brief(telling, one) for one in entries if one.kind == "handover"),
        advice=tuple(_advice(telling, one) for one in entries if one.kind == "advice"),
        work=numbered(_work(telling, one) for one in entries if one.kind == "follow_up"),
        left_out=tuple(_left_out(findings, reader)),
        method=method.told_method(findings, standing),
        recordings=method.told_recordings(findings, around.missing_recordings),
        warnings=method.told_warnings(findings),
        seal=method.told_seal(findings),
        cautions=cautions_for(entries),
        residents=tuple(one.value for one in findings.walkthrough.residents),
        inspector=next((one.value for one in findings.walkthrough.inspector), ""),
        unread=tuple(_unread(findings, around.links)) if reader == "office" else (),
        empty=not entries,
        language=LANGUAGE,
        marks=MARKS,
        words=PAGE,
    )


def _findings(rooms: tuple[Room, ...]) -> Iterator[Finding]:
    return (one for room in rooms for part in room.parts for one in part.findings)


def _not_spoken(telling: Telling) -> Iterator[NotSpoken]:
    rows = telling.findings.coverage
    for room in dict.fromkeys(row.room for row in rows if row.status == "not_noted"):
        yield NotSpoken(room_name(room), silent_of(telling, room))


def _brief(telling: Telling, entry: Entry) -> Brief:
    told = telling.brief([entry])
    where = f" ({entry.note})" if entry.note and telling.reader != "resident" else ""
    return Brief(told.name, words_for(entry) + where, told.moments, told.unreviewed)


def _advice(telling: Telling, entry: Entry) -> Brief:
    quotes = " ".join(dict.fromkeys(piece.quote for piece in entry.evidence))
    return Brief(
        name=f"{room_name(entry.room)}, {plain(entry.component)}",
        says=f"“{quotes}”",
        moments=moments(entry.evidence, telling.findings, telling.links),
        unreviewed=entry.is_open,
    )


def _work(telling: Telling, entry: Entry) -> Finding:
    told = telling.finding(entry)
    return replace(told, says=capital(words_for(entry).removeprefix("to do: ")))


def _left_out(findings: Findings, reader: Reader) -> Iterator[str]:
    """That something is not in this copy is said, though not what."""
    if reader != "resident":
        return
    others = sum(
        one.kind == "follow_up" and one.party != "resident" for one in findings.entries if one.state != "dropped"
    )
    if others:
        yield f"{counted(others, 'entry', 'entries')} about work that is not said to be the resident's."
    acknowledged = [row.acknowledged for row in findings.coverage if row.acknowledged]
    if any(one.note for one in acknowledged) or any(one.note for one in findings.entries if one.state != "dropped"):
        yield "Remarks that the manager keeps for the office."


def _unread(findings: Findings, links: Links) -> Iterator[Unread]:
    media = {recording.file for recording in findings.recordings if recording.media}
    for one in findings.unused:
        address = links.to(one.recording, one.start, one.end)
        label = moment(one.recording, one.start, len(findings.recordings))
        told = f"{REASONS[one.reason]}: {one.because}"
        yield Unread(Moment(label, address if one.recording in media else None), one.text, told)
