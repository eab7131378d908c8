"""What has to be done, as values: follow-ups, flaws and checks that failed, safety first, then in walk order.

A follow-up stands with what was found of the same part in the same room; a flaw of which nobody said what to do stands
by itself, to be decided. Nothing here is read from a file, and every text is a single line without control characters.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from narrate2report.publish.entry_words import (
    cautions_for,
    entries_of,
    is_gas,
    part_of,
    room_of,
    statement,
    unreviewed,
    urgent_for,
)
from narrate2report.publish.report_links import Links, moments
from narrate2report.publish.report_values import Moment
from narrate2report.publish.standing import Heading
from narrate2report.publish.work_urgency import RANKS, urgency_of
from narrate2report.publish.work_words import WORDS, Urgency
from narrate2report.records.findings import Entry, Findings
from narrate2report.records.plain import one_line
from narrate2report.wording import capital


@dataclass(frozen=True)
class Stills:
    """How each picture is reached from the list, by its SHA-256, and why others cannot be."""

    places: Mapping[str, str] = field(default_factory=dict)
    missing: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True)
class Picture:
    """The first picture of a task: its words and, where it can be opened, its address."""

    label: str
    address: str | None = None


@dataclass(frozen=True)
class Task:
    """One line of the list. `entry` is the id of what it is about, `others` those of what was found of the part.

    `moment` is where the flaw was spoken of, or else the work; a smell of gas comes before all else (`is_gas`).
    """

    entry: str
    others: tuple[str, ...]
    urgency: Urgency
    room: str
    part: str
    found: str
    to_do: str
    party: str
    mind: str
    moment: Moment
    picture: Picture | None
    remark: str
    reviewed: str
    is_gas: bool

    @property
    def entries(self) -> tuple[str, ...]:
        """The ids of all entries that it rests on."""
        return (self.entry, *self.others)

    def in_columns(self, heading: Heading) -> dict[str, str]:
        """What stands in each of `WorkWords.columns`, but for the number of the line."""
        return {
            "urgency": WORDS.urgencies[self.urgency],
            "unit": heading.unit,
            "room": self.room,
            "part": self.part,
            "found": self.found,
            "to_do": self.to_do,
            "party": self.party,
            "mind": self.mind,
            "time": self.moment.label,
            "link": self.moment.link or "",
            "still": "" if self.picture is None else self.picture.label,
            "remark": self.remark,
            "reviewed": self.reviewed,
            "entry": " ".join(self.entries),
            "record": heading.mark,
        }


@dataclass(frozen=True)
class WorkList:
    """All tasks of one record, with the cautions that its entries call for."""

    heading: Heading
    tasks: tuple[Task, ...]
    cautions: tuple[str, ...]


def work_list(findings: Findings, heading: Heading, links: Links, stills: Stills) -> WorkList:
    """The list of one record for the office. What was dropped is not in it."""
    entries = entries_of(findings)
    groups: dict[tuple[str, str], list[Entry]] = {}
    for entry in entries:
        if entry.is_adverse or entry.kind == "follow_up":
            groups.setdefault((entry.room, entry.component), []).append(entry)
    teller = _Teller(findings, links, stills)
    tasks = [task for group in groups.values() for task in teller.tasks(group)]
    ordered = sorted(tasks, key=lambda task: (RANKS.index(task.urgency), not task.is_gas))
    return WorkList(heading, tuple(ordered), cautions_for(entries))


@dataclass(frozen=True)
class _Teller:
    """Puts entries into words, with what is needed to open them."""

    findings: Findings
    links: Links
    stills: Stills

    def tasks(self, group: list[Entry]) -> Iterable[Task]:
        """The tasks of one part of one room."""
        wrong = [one for one in group if one.kind != "follow_up"]
        planned = [one for one in group if one.kind == "follow_up"]
        urgency = urgency_of(group)
        if planned:
            return [self._task(one, wrong, urgency) for one in planned]
        return [self._task(one, [], urgency) for one in wrong]

    def _task(self, entry: Entry, wrong: list[Entry], urgency: Urgency) -> Task:
        group = [entry, *wrong]
        planned = entry.kind == "follow_up"
        found = wrong if planned else [entry]
        return Task(
            entry=entry.id,
            others=tuple(one.id for one in wrong),
            urgency=urgency,
            room=one_line(room_of(entry)),
            part=one_line(capital(part_of(entry))),
            found=one_line("; ".join(dict.fromkeys(map(statement, found)))) or WORDS.only_work,
            to_do=one_line(_work(entry)) if planned else WORDS.undecided,
            party=entry.party or WORDS.nobody,
            mind=one_line(" ".join(urgent_for(group))),
            moment=self._moment(found[0] if found else entry),
            picture=self._picture(group),
            remark=one_line("; ".join(dict.fromkeys(one.note for one in group if one.note))),
            reviewed=unreviewed() if any(one.is_open for one in group) else WORDS.reviewed,
            is_gas=is_gas(group),
        )

    def _moment(self, entry: Entry) -> Moment:
        first = moments(entry.evidence[:1], self.findings, self.links)[0]
        return Moment(one_line(first.label), first.link)

    def _picture(self, group: list[Entry]) -> Picture | None:
        stills = [still for one in group for still in one.stills]
        for still in stills:
            if still.sha256 in self.stills.places:
                return Picture(one_line(still.file), self.stills.places[still.sha256])
        for still in stills:
            why = self.stills.missing.get(still.sha256, "")
            return Picture(one_line(f"{still.file} ({why})" if why else still.file))
        return None


def _work(entry: Entry) -> str:
    """`replace`, with how many, how large and where as they were spoken; who is to do it has a column of its own."""
    told = statement(entry.model_copy(update={"party": None}))
    return capital(told.removeprefix("to do: "))
