"""An entry as the report tells it: its mark, its words, its moments and its pictures, fit for the reader."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace

from narrate2report.publish.report_links import Links, moments
from narrate2report.publish.report_values import Brief, Finding, Mark, Picture, Reader
from narrate2report.publish.report_words import MARKS, PLAINER
from narrate2report.publish.summary import by_room, is_adverse
from narrate2report.records.findings import Entry, Findings, Outcome, Still
from narrate2report.wording import moment, plain, room_name, said

_OUTCOMES: dict[Outcome, Mark] = {"works": "works", "fails": "fails", "not_tested": "untested"}


@dataclass(frozen=True)
class Telling:
    """What is needed to tell the entries of one record to one reader.

    `missing` holds, by SHA-256, why a still cannot be shown.
    """

    findings: Findings
    reader: Reader = "resident"
    links: Links = field(default_factory=Links)
    missing: Mapping[str, str] = field(default_factory=dict)

    def rooms(self) -> list[tuple[str, list[Entry]]]:
        """Rooms in walk order with the entries that this reader may see; what was dropped is never among them."""
        seen = [(room, [one for one in entries if self.may_see(one)]) for room, entries in by_room(self.findings)]
        return [(room, entries) for room, entries in seen if entries]

    def entries(self) -> list[Entry]:
        """The same, one after the other."""
        return [entry for _, entries in self.rooms() for entry in entries]

    def may_see(self, entry: Entry) -> bool:
        """Whether the entry stands in this reader's copy: work of others is not for the resident."""
        if entry.state == "dropped":
            return False
        return self.reader != "resident" or entry.kind != "follow_up" or entry.party == "resident"

    def finding(self, entry: Entry, number: int = 0) -> Finding:
        """The entry in full."""
        shown = mark(entry)
        return Finding(
            number=number,
            mark=shown,
            state=MARKS[shown],
            room=room_name(entry.room),
            part=capital(plain(entry.component)),
            says=capital(words_for(entry)),
            quotes=tuple(dict.fromkeys(piece.quote for piece in entry.evidence if piece.quote)),
            moments=moments(entry.evidence, self.findings, self.links),
            pictures=tuple(self._picture(entry, still) for still in entry.stills),
            remarks=tuple(self._remarks(entry)),
            unreviewed=entry.is_open,
        )

    def brief(self, entries: list[Entry]) -> Brief:
        """What can be said of one component in a line."""
        evidence = tuple(dict.fromkeys(piece for entry in entries for piece in entry.evidence))
        return Brief(
            name=capital(plain(entries[0].component)),
            says=", ".join(dict.fromkeys(map(words_for, entries))),
            moments=tuple(dict.fromkeys(moments(evidence, self.findings, self.links))),
            unreviewed=any(entry.is_open for entry in entries),
        )

    def _remarks(self, entry: Entry) -> Iterable[str]:
        if self.reader == "resident":
            return
        if entry.note:
            yield f"Note: {entry.note}"
        for one in entry.heard:
            yield f"Heard “{one.heard}”, read as “{one.read}” ({one.why})"

    def _picture(self, entry: Entry, still: Still) -> Picture:
        at = moment(still.recording, still.time, len(self.findings.recordings))
        subject = f"{room_name(entry.room)}, {plain(entry.component)}: {words_for(entry)}"
        return Picture(
            sha256=still.sha256,
            alt=f"Picture from the recording at {at}. {subject}",
            caption=f"Picture at {at}",
            missing=self.missing.get(still.sha256, ""),
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
        case "condition" if is_adverse(entry):
            return "possible" if entry.assertion == "possible" else "attention"
        case "condition":
            return "possible" if entry.assertion == "possible" else "sound"
        case _:
            return "fact"


def is_brief(entry: Entry) -> bool:
    """Whether a line is enough: in order, with nothing to show and nothing to look after."""
    return mark(entry) in {"sound", "works"} and not entry.stills and not entry.note


def words_for(entry: Entry) -> str:
    """What an entry says, without words of the trade."""
    plainer = PLAINER.get(entry.condition or "")
    return said(entry if plainer is None else entry.model_copy(update={"condition": plainer}))


def capital(text: str) -> str:
    """With a capital first letter."""
    return text[:1].upper() + text[1:]
