"""Head and method page of a report: which walk, how far reviewed, from which recordings, under which seal."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from textwrap import shorten
from typing import Final

from narrate2report.publish.language import Language
from narrate2report.publish.report_values import Fact, Recorded, Standing
from narrate2report.records.findings import Findings, Seal, Sourced
from narrate2report.records.moments import clock
from narrate2report.wording import capital, moment

HEADER: Final = ("kind", "unit", "date", "residents", "inspector")
_LONGEST_UNIT = 60
"""Characters of the unit in a title; in full it stands below."""
_GROUP = 8
"""Digits of a hash that stand together, so that a person can compare them."""


def title(findings: Findings, words: Language) -> str:
    """`Move-in condition report, unit 2B`."""
    walk = findings.walkthrough
    name = next((words.titles[one.value] for one in walk.kind if one.value in words.titles), words.titles["any"])
    unit = ", ".join(shorten(words.unit(one.value), _LONGEST_UNIT, placeholder="…") for one in walk.unit[:1])
    return f"{name}, {unit}" if unit else name


def told_facts(findings: Findings, words: Language) -> tuple[Fact, ...]:
    """Unit, date, kind of walk and people, each with its source; every value where sources disagree."""
    walk = findings.walkthrough
    found: list[Fact] = []
    for name in HEADER:
        told = words.facts[name]
        sources: tuple[Sourced, ...] = getattr(walk, name)
        if not sources:
            found.append(Fact(told, words.facts["not_recorded"]))
        values = [(_value(name, one.value, words), words.source(one.source)) for one in sources]
        for value in dict.fromkeys(value for value, _ in values):
            found.append(Fact(told, value, ", ".join(source for other, source in values if other == value)))
    return tuple(found)


def told_standing(findings: Findings, standing: Standing, words: Language) -> str:
    """What draft, reviewed or sealed means for this record."""
    if findings.seal is not None:
        return words.tell("sealed", by=findings.seal.sealed_by, day=words.day(findings.seal.sealed_at))
    if not findings.entries and not findings.coverage:
        return words.told["nothing"]
    if standing == "reviewed":
        return words.told["reviewed"]
    entries = sum(one.is_open for one in findings.entries)
    gaps = sum(row.is_open for row in findings.coverage)
    return words.tell("draft", open=_decisions(entries, gaps, words))


def told_recordings(findings: Findings, missing: Mapping[str, str], words: Language) -> tuple[Recorded, ...]:
    """Each recording or written source; `missing` says, by name, why one cannot be opened (a key of `missing`)."""
    unknown = words.facts["not_recorded"]
    return tuple(
        Recorded(
            file=one.file,
            length=unknown if one.duration_s is None else clock(one.duration_s),
            recorded_at=words.day(one.recorded_at, with_time=True) if one.recorded_at else unknown,
            sha256=grouped(one.sha256),
            missing=words.why_missing(missing.get(one.file, "")),
        )
        for one in findings.recordings
    )


def told_method(findings: Findings, standing: Standing, words: Language) -> tuple[Fact, ...]:
    """What listened, which words it knew, who reviewed."""
    heard, names = findings.transcript, words.facts
    facts = [Fact(names["state"], words.standings[standing]), Fact(names["engine"], heard.engine)]
    if heard.model:
        facts.append(Fact(names["model"], heard.model, grouped(heard.model_sha256 or "")))
    facts.append(Fact(names["vocabulary"], grouped(heard.vocabulary_version)))
    reviewers = list(_reviewers(findings, words)) or [names["nobody"]]
    return (*facts, *(Fact(names["reviewed_by"], told) for told in reviewers))


def told_gaps(findings: Findings, words: Language) -> tuple[str, ...]:
    """Where someone spoke and was not understood."""
    number = len(findings.recordings)
    return tuple(
        words.tell("gap", time=moment(gap.recording, gap.start, number), seconds=f"{gap.end - gap.start:.0f}")
        for gap in findings.transcript.gaps
    )


def told_seal(findings: Findings, words: Language) -> tuple[Fact, ...]:
    """Who sealed, when, with which words, and the digits to compare. Nothing where there is no seal."""
    seal, names = findings.seal, words.facts
    if seal is None:
        return ()
    facts = [
        Fact(names["sealed_by"], seal.sealed_by),
        Fact(names["sealed_at"], words.day(seal.sealed_at, with_time=True)),
        Fact(names["declared"], f"“{seal.statement}”"),
        Fact(names["seal"], grouped(seal.sha256)),
        Fact(names["covers"], words.tell("covers", files=words.counted("files", len(seal.files)))),
        Fact(names["signed"], _signed(seal, words)),
        Fact(names["checked"], words.told["checked"]),
    ]
    if findings.amends:
        told = words.tell("adds_to", file=findings.amends.file, seal=grouped(findings.amends.sha256))
        facts.append(Fact(names["adds_to"], told))
    return tuple(facts)


def grouped(digits: str) -> str:
    """A hash in groups of eight digits."""
    return " ".join(digits[at : at + _GROUP] for at in range(0, len(digits), _GROUP))


def _value(name: str, value: str, words: Language) -> str:
    match name:
        case "kind":
            return words.walks.get(value, value)
        case "unit":
            return capital(words.unit(value))
        case "date":
            return words.day(value)
        case _:
            return value


def _decisions(entries: int, gaps: int, words: Language) -> str:
    """`2 entries and 1 part not spoken of`."""
    parts = [words.counted("entries", entries)] if entries else []
    return words.both(parts + ([words.counted("parts", gaps)] if gaps else []))


def _signed(seal: Seal, words: Language) -> str:
    return words.tell("signed", key=grouped(seal.signature.public_key)) if seal.signature else words.told["unsigned"]


def _reviewers(findings: Findings, words: Language) -> Iterator[str]:
    decisions = [entry.decided for entry in findings.entries if entry.decided and entry.state != "proposed"]
    gaps = [row.acknowledged for row in findings.coverage if row.acknowledged]
    last: dict[str, str] = {}
    for by, at in [*((one.by, one.at) for one in decisions), *((one.by, one.at) for one in gaps)]:
        last[by] = max(at, last.get(by, ""))
    decided = Counter(one.by for one in decisions)
    said = Counter(one.by for one in gaps)
    for name, at in last.items():
        told = _decisions(decided[name], said[name], words)
        yield words.tell("reviewer", name=name, decisions=told, day=words.day(at))
