"""A record becomes a report: every section of it, for one reader. Pure; files are looked at elsewhere."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace

from narrate2report.publish import report_method as method
from narrate2report.publish.language import Language, language
from narrate2report.publish.report_cautions import cautions_for, urgent_for
from narrate2report.publish.report_crowd import crowded
from narrate2report.publish.report_entries import Telling, numbered
from narrate2report.publish.report_links import Links, moments
from narrate2report.publish.report_rooms import silent_of, told_rooms
from narrate2report.publish.report_safety import told_safety
from narrate2report.publish.report_values import (
    WRONG,
    Brief,
    Finding,
    Moment,
    NotSpoken,
    Reader,
    Report,
    Respond,
    Room,
    Standing,
    Unread,
)
from narrate2report.publish.timeline import timeline_of
from narrate2report.records.findings import Entry, Findings
from narrate2report.wording import moment

_BLANK = "____"


@dataclass(frozen=True)
class Around:
    """What is known of the files around a record: where recordings open, and why some of them cannot be shown."""

    links: Links = field(default_factory=Links)
    missing_recordings: Mapping[str, str] = field(default_factory=dict)
    missing_stills: Mapping[str, str] = field(default_factory=dict)


def telling_of(findings: Findings, reader: Reader, around: Around, words: Language | None = None) -> Telling:
    """A record as it is told to one reader in one language (English)."""
    return Telling(findings, reader, around.links, around.missing_stills, words or language())


def report_of(
    telling: Telling, name: str, standing: Standing, around: Around, respond: Respond | None = None
) -> Report:
    """The whole report. `standing` is told by whoever can judge it; a sealed record is `sealed`."""
    findings, reader, words = telling.findings, telling.reader, telling.language
    entries, rooms = telling.entries(), told_rooms(telling)
    wrong = tuple(one for one in _findings(rooms) if one.mark in WRONG)
    return Report(
        title=method.title(findings, words),
        name=name,
        reader=reader,
        reader_word=words.readers[reader],
        standing=standing,
        standing_word=words.standings[standing],
        standing_told=method.told_standing(findings, standing, words),
        facts=method.told_facts(findings, words),
        clashes=findings.walkthrough.clashes,
        urgent=urgent_for(entries, words),
        attention=wrong,
        safety=told_safety(telling),
        untested=tuple(one for one in _findings(rooms) if one.mark == "untested"),
        not_spoken=tuple(_not_spoken(telling)),
        timeline=timeline_of(telling),
        rooms=rooms,
        handed=tuple(_brief(telling, one) for one in entries if one.kind == "handover"),
        advice=tuple(_advice(telling, one) for one in entries if one.kind == "advice"),
        work=numbered(telling.finding(one) for one in entries if one.kind == "follow_up"),
        left_out=tuple(_left_out(telling)),
        method=method.told_method(findings, standing, words),
        recordings=method.told_recordings(findings, around.missing_recordings, words),
        warnings=findings.transcript.warnings,
        gaps=method.told_gaps(findings, words),
        seal=method.told_seal(findings, words),
        cautions=cautions_for(entries, words),
        residents=tuple(one.value for one in findings.walkthrough.residents),
        inspector=next((one.value for one in findings.walkthrough.inspector), ""),
        respond=tuple(_respond(respond or Respond(), words)),
        crowded=crowded(wrong, words),
        unread=tuple(_unread(telling)) if reader == "office" else (),
        empty=not entries,
        language=words.tag,
        spoken_in=findings.transcript.language,
        courtesy=words.courtesy,
        marks=words.marks,
        words=words.page,
    )


def _findings(rooms: tuple[Room, ...]) -> Iterator[Finding]:
    return (one for room in rooms for part in room.parts for one in part.findings)


def _not_spoken(telling: Telling) -> Iterator[NotSpoken]:
    rows = telling.findings.coverage
    for room in dict.fromkeys(row.room for row in rows if row.status == "not_noted"):
        yield NotSpoken(telling.language.room(room), silent_of(telling, room))


def _brief(telling: Telling, entry: Entry) -> Brief:
    told = telling.brief([entry])
    where = f" ({entry.note})" if entry.note and telling.reader != "resident" else ""
    return replace(told, says=told.says + where)


def _advice(telling: Telling, entry: Entry) -> Brief:
    quotes = " ".join(dict.fromkeys(piece.quote for piece in entry.evidence))
    words = telling.language
    return Brief(
        name=f"{words.room(entry.room)}, {words.component(entry.component)}",
        says="",
        moments=moments(entry.evidence, telling.findings, telling.links),
        unreviewed=entry.is_open,
        spoken=quotes,
    )


def _left_out(telling: Telling) -> Iterator[str]:
    """That something is not in this copy is said, though not what."""
    if telling.reader != "resident":
        return
    findings, words = telling.findings, telling.language
    kept = [one for one in findings.entries if one.stands]
    others = sum(one.kind == "follow_up" and one.party != "resident" for one in kept)
    if others:
        yield words.tell("work_of_others", entries=words.counted("entries", others))
    acknowledged = [row.acknowledged for row in findings.coverage if row.acknowledged]
    if any(one.note for one in acknowledged) or any(one.note for one in kept):
        yield words.told["office_remarks"]


def _respond(respond: Respond, words: Language) -> Iterator[str]:
    """By when to answer; where nobody gave the days, a blank to fill in."""
    form = words.counts["days"]["other"]
    days = form.format(n=_BLANK) if respond.days is None else words.counted("days", respond.days)
    yield words.page["response_days"].format(days=days)
    if respond.source:
        yield words.page["response_source"].format(source=respond.source)


def _unread(telling: Telling) -> Iterator[Unread]:
    findings = telling.findings
    media = {recording.file for recording in findings.recordings if recording.media}
    for one in findings.unused:
        address = telling.links.to(one.recording, one.start, one.end)
        label = moment(one.recording, one.start, len(findings.recordings))
        told = f"{telling.language.reasons[one.reason]}: {one.because}"
        yield Unread(Moment(label, address if one.recording in media else None), one.text, told)
