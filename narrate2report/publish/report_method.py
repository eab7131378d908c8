"""Head and method page of a report: which walk, how far reviewed, from which recordings, under which seal."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from datetime import date, datetime
from textwrap import shorten

from narrate2report.publish.report_values import Fact, Recorded, Standing
from narrate2report.publish.report_words import ANY_TITLE, FACTS, MONTHS, NOT_RECORDED, STANDINGS, TITLES
from narrate2report.records.findings import Findings, Seal, Sourced
from narrate2report.records.moments import clock
from narrate2report.wording import WALKS, counted, moment, unit_name

_LONGEST_UNIT = 60
"""Characters of the unit in a title; in full it stands below."""
_GROUP = 8
"""Digits of a hash that stand together, so that a person can compare them."""


def title(findings: Findings) -> str:
    """`Move-in condition report, unit 2B`."""
    walk = findings.walkthrough
    name = next((TITLES[one.value] for one in walk.kind if one.value in TITLES), ANY_TITLE)
    unit = ", ".join(shorten(unit_name(one.value), _LONGEST_UNIT, placeholder="…") for one in walk.unit[:1])
    return f"{name}, {unit}" if unit else name


def told_facts(findings: Findings) -> tuple[Fact, ...]:
    """Unit, date, kind of walk and people, each with its source; every value where sources disagree."""
    walk = findings.walkthrough
    found: list[Fact] = []
    for name, word in FACTS.items():
        sources: tuple[Sourced, ...] = getattr(walk, name)
        if not sources:
            found.append(Fact(word, NOT_RECORDED))
        for value in dict.fromkeys(_value(name, one.value) for one in sources):
            source = ", ".join(one.source for one in sources if _value(name, one.value) == value)
            found.append(Fact(word, value, source))
    return tuple(found)


def told_standing(findings: Findings, standing: Standing) -> str:
    """What draft, reviewed or sealed means for this record."""
    if findings.seal is not None:
        sealed = f"Closed by {findings.seal.sealed_by}, {day(findings.seal.sealed_at)}."
        return f"{sealed} The digits of the seal stand where this report says how it was made."
    if not findings.entries and not findings.coverage:
        return "Nothing in it needed a decision."
    if standing == "reviewed":
        return "A person has decided on every entry. The record is not sealed, so it can still be changed."
    entries = sum(one.is_open for one in findings.entries)
    gaps = sum(row.is_open for row in findings.coverage)
    open_parts = [counted(entries, "entry", "entries")] if entries else []
    open_parts += [f"{counted(gaps, 'part')} not spoken of"] if gaps else []
    return f"A draft: {' and '.join(open_parts)} still to be decided by a person. Do not sign it."


def told_recordings(findings: Findings, missing: Mapping[str, str]) -> tuple[Recorded, ...]:
    """Each recording or written source; `missing` says, by name, why one cannot be opened."""
    return tuple(
        Recorded(
            file=one.file,
            length=NOT_RECORDED if one.duration_s is None else clock(one.duration_s),
            recorded_at=day(one.recorded_at, with_time=True) if one.recorded_at else NOT_RECORDED,
            sha256=grouped(one.sha256),
            missing=missing.get(one.file, ""),
        )
        for one in findings.recordings
    )


def told_method(findings: Findings, standing: Standing) -> tuple[Fact, ...]:
    """What listened, which words it knew, who reviewed."""
    heard = findings.transcript
    facts = [Fact("State", STANDINGS[standing]), Fact("Words made with", heard.engine)]
    if heard.model:
        facts.append(Fact("Speech model", heard.model, grouped(heard.model_sha256 or "")))
    facts.append(Fact("Vocabulary", grouped(heard.vocabulary_version)))
    facts += [Fact("Reviewed by", told) for told in _reviewers(findings)] or [Fact("Reviewed by", "nobody yet")]
    return tuple(facts)


def told_warnings(findings: Findings) -> tuple[str, ...]:
    """What the reader should know of the recording, and where someone spoke and was not understood."""
    number = len(findings.recordings)
    gaps = [
        f"At {moment(gap.recording, gap.start, number)} someone speaks for {gap.end - gap.start:.0f} s "
        "and was not understood."
        for gap in findings.transcript.gaps
    ]
    return (*findings.transcript.warnings, *gaps)


def told_seal(findings: Findings) -> tuple[Fact, ...]:
    """Who sealed, when, with which words, and the digits to compare. Nothing where there is no seal."""
    seal = findings.seal
    if seal is None:
        return ()
    facts = [
        Fact("Sealed by", seal.sealed_by),
        Fact("Sealed at", day(seal.sealed_at, with_time=True)),
        Fact("Declared", f"“{seal.statement}”"),
        Fact("Seal", grouped(seal.sha256)),
        Fact("Covers", f"the record and {counted(len(seal.files), 'file')}"),
        Fact("Signed", _signed(seal)),
        Fact("Checked", "the record matched its seal when this copy was made; its other files were not read again"),
    ]
    if findings.amends:
        facts.append(Fact("Adds to", f"{findings.amends.file}, seal {grouped(findings.amends.sha256)}"))
    return tuple(facts)


def grouped(digits: str) -> str:
    """A hash in groups of eight digits."""
    return " ".join(digits[at : at + _GROUP] for at in range(0, len(digits), _GROUP))


def day(told: str, *, with_time: bool = False) -> str:
    """`2025-03-06T15:20:00Z` as `6 March 2025` (`, 15:20 UTC`); what is no date stays as it is."""
    try:
        if not with_time or len(told) <= len("2025-03-06"):
            return _long(date.fromisoformat(told[:10]))
        at = datetime.fromisoformat(told)
    except ValueError:
        return told
    zone = f" {at.tzname()}" if at.tzinfo else ""
    return f"{_long(at.date())}, {at:%H:%M}{zone}"


def _long(one: date) -> str:
    return f"{one.day} {MONTHS[one.month - 1]} {one.year}"


def _value(name: str, value: str) -> str:
    match name:
        case "kind":
            return WALKS.get(value, value)
        case "unit":
            told = unit_name(value)
            return told[:1].upper() + told[1:]
        case "date":
            return day(value)
        case _:
            return value


def _signed(seal: Seal) -> str:
    return f"with the key {grouped(seal.signature.public_key)}" if seal.signature else "not signed with a key"


def _reviewers(findings: Findings) -> Iterator[str]:
    decisions = [entry.decided for entry in findings.entries if entry.decided and entry.state != "proposed"]
    gaps = [row.acknowledged for row in findings.coverage if row.acknowledged]
    last: dict[str, str] = {}
    for by, at in [*((one.by, one.at) for one in decisions), *((one.by, one.at) for one in gaps)]:
        last[by] = max(at, last.get(by, ""))
    decided = Counter(one.by for one in decisions)
    said = Counter(one.by for one in gaps)
    for name, at in last.items():
        parts = [counted(decided[name], "entry", "entries")] if decided[name] else []
        parts += [f"{counted(said[name], 'part')} not spoken of"] if said[name] else []
        yield f"{name}: {' and '.join(parts)}, last on {day(at)}"
