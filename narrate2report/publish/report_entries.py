"""An entry as the report tells it: its mark, its words, its moments and its pictures, fit for the reader."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace

from narrate2report.publish.language import Language, language
from narrate2report.publish.report_links import Links, moments
from narrate2report.publish.report_values import Brief, Finding, Mark, Picture, Reader
from narrate2report.publish.summary import by_room
from narrate2report.records.findings import Entry, Findings, Outcome, Still
from narrate2report.wording import capital, moment, weighed

_OUTCOMES: dict[Outcome, Mark] = {"works": "works", "fails": "fails", "not_tested": "untested"}


@dataclass(frozen=True)
class Telling:
    """What is needed to tell the entries of one record to one reader.

    `missing` holds, by SHA-256, why a still cannot be shown: a key of the language's `missing`.
    """

    findings: Findings
    reader: Reader = "resident"
    links: Links = field(default_factory=Links)
    missing: Mapping[str, str] = field(default_factory=dict)
    language: Language = field(default_factory=language)

    def rooms(self) -> list[tuple[str, list[Entry]]]:
        """Rooms in walk order with the entries that this reader may see; what was dropped is never among them."""
        seen = [(room, [one for one in entries if self.may_see(one)]) for room, entries in by_room(self.findings)]
        return [(room, entries) for room, entries in seen if entries]

    def entries(self) -> list[Entry]:
        """The same, one after the other."""
        return [entry for _, entries in self.rooms() for entry in entries]

    def may_see(self, entry: Entry) -> bool:
        """Whether the entry stands in this reader's copy: work of others is not for the resident."""
        if not entry.stands:
            return False
        return self.reader != "resident" or entry.kind != "follow_up" or entry.party == "resident"

    def finding(self, entry: Entry, number: int = 0) -> Finding:
        """The entry in full."""
        shown = mark(entry)
        says, spoken = self.says(entry)
        return Finding(
            number=number,
            mark=shown,
            state=self.language.marks[shown],
            room=self.language.room(entry.room),
            part=self.part(entry.component),
            says=capital(says),
            quotes=tuple(dict.fromkeys(piece.quote for piece in entry.evidence if piece.quote)),
            moments=moments(entry.evidence, self.findings, self.links),
            pictures=tuple(self._picture(entry, still) for still in entry.stills),
            remarks=tuple(self._remarks(entry)),
            unreviewed=entry.is_open,
            spoken=spoken,
        )

    def brief(self, entries: list[Entry]) -> Brief:
        """What can be said of one component in a line."""
        told = [self.says(entry) for entry in entries]
        evidence = tuple(dict.fromkeys(piece for entry in entries for piece in entry.evidence))
        return Brief(
            name=self.part(entries[0].component),
            says=", ".join(dict.fromkeys(says for says, _ in told)),
            moments=tuple(dict.fromkeys(moments(evidence, self.findings, self.links))),
            unreviewed=any(entry.is_open for entry in entries),
            spoken=", ".join(dict.fromkeys(spoken for _, spoken in told if spoken)),
        )

    def says(self, entry: Entry) -> tuple[str, str]:
        """What the entry states, and the speaker's own words apart where they are in another language."""
        return self.language.says(entry, self.findings.transcript.language)

    def part(self, component: str) -> str:
        """A component's name with a capital first letter."""
        return capital(self.language.component(component))

    def _remarks(self, entry: Entry) -> Iterable[str]:
        if self.reader == "resident":
            return
        if entry.note:
            yield self.language.tell("note", note=entry.note)
        for one in entry.heard:
            why = "; ".join(filter(None, (one.why, weighed(one))))
            yield self.language.tell("asked" if one.asked else "heard", heard=one.heard, read=one.read, why=why)

    def _picture(self, entry: Entry, still: Still) -> Picture:
        at = moment(still.recording, still.time, len(self.findings.recordings))
        words, says = self.language, self.says(entry)[0]
        subject = f"{words.room(entry.room)}, {words.component(entry.component)}: {says}"
        return Picture(
            sha256=still.sha256,
            alt=words.tell("picture_alt", time=at, subject=subject),
            caption=words.tell("picture", time=at),
            missing=words.why_missing(self.missing.get(still.sha256, "")),
        )


def numbered(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Counted from 1 in this order."""
    return tuple(replace(one, number=number) for number, one in enumerate(findings, start=1))


def mark(entry: Entry) -> Mark:
    """The state by which an entry is shown."""
    match entry.kind:
        case "check":
            return _OUTCOMES[entry.outcome or "not_tested"]
        case "follow_up":
            return "work"
        case "condition" if entry.is_adverse:
            return "possible" if entry.assertion == "possible" else "attention"
        case "condition":
            return "possible" if entry.assertion == "possible" else "sound"
        case _:
            return "fact"


def is_brief(entry: Entry) -> bool:
    """Whether a line is enough: in order, with nothing to show and nothing to look after."""
    return mark(entry) in {"sound", "works"} and not entry.stills and not entry.note
