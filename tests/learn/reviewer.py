"""A reviewer who knows what is right: a draft is corrected to its gold and sealed, through the program's own review."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from narrate2report.commands.seal import seal_walk
from narrate2report.evaluate.marks import KEYS, Mark, marks_of
from narrate2report.evaluate.matching import Matched, match
from narrate2report.intake.transcripts import read_transcript
from narrate2report.read.reading import Reader
from narrate2report.records.files import write_record
from narrate2report.records.findings import Entry
from narrate2report.review import requests as ask
from narrate2report.review.desk import Desk
from narrate2report.review.spine import room_at
from narrate2report.seal.sealing import STATEMENT, Sealer

WHO = "Ida Pell"


def marks_of_narration(narration: Path, gold: Sequence[Mapping[str, Any]]) -> tuple[Mark, ...]:
    """The marks of a narration's gold, with the times of its lines."""
    lines = [(said.start, said.end) for said in read_transcript(narration).stretches]
    return marks_of(gold, lines, 0.0)


@dataclass(frozen=True)
class Reviewer:
    """Somebody who always chooses alike where several answers are right: the one that most gold asks for."""

    often: Counter[tuple[str, str]]

    @classmethod
    def of(cls, golds: Iterable[Sequence[Mapping[str, Any]]]) -> Reviewer:
        """Used to all of these golds."""
        return cls(
            Counter(
                (name, str(value))
                for gold in golds
                for entry in gold
                for name, told in entry.items()
                for value in (told if isinstance(told, list) else [told])
            )
        )

    def choice(self, name: str, right: Iterable[Any]) -> str | None:
        """What is typed where any of these is right."""
        choices = sorted(str(one) for one in right if one is not None)
        return max(choices, key=lambda one: self.often[name, one], default=None)


def reviewed(narration: Path, gold: Sequence[Mapping[str, Any]], reader: Reader, who: Reviewer, out: Path) -> Path:
    """Draft a narration, correct the draft to its gold, seal it. Gives the findings file."""
    write_record(out, reader.read(read_transcript(narration)).findings)
    review(out, marks_of_narration(narration, gold), who)
    seal_walk(out, Sealer(WHO, STATEMENT))
    return out


def review(findings: Path, marks: Sequence[Mark], who: Reviewer) -> None:
    """Decide everything: what is right is accepted, what is wrong changed or left out, what is missing added."""
    desk = Desk(findings)
    matched = match(marks, desk.findings.entries)
    changed = _pairs(matched)
    wanted: list[ask.Decide] = [
        ask.Change(entry=entry.id, facts=_facts(mark, entry.room, who)) for mark, entry in changed if entry.stands
    ]
    wrong = [entry.id for entry in matched.extra if entry.id not in {entry.id for _, entry in changed}]
    missing = [mark for mark in matched.missed if id(mark) not in {id(mark) for mark, _ in changed}]
    wanted += [ask.Drop(entries=tuple(wrong))] if wrong else []
    for mark in missing:
        said = [one for one in desk.spine if any(start <= one.start < end for start, end in _spans(mark))]
        if said:
            room = room_at(desk.findings, said[0].recording, said[0].start)
            wanted.append(ask.Add(sentences=tuple(one.id for one in said[:1]), facts=_facts(mark, room, who)))
    for one in wanted:
        desk.decide(one, WHO, len(desk.lines))
    undecided = tuple(entry.id for entry in desk.findings.entries if entry.is_open)
    if undecided:
        desk.decide(ask.Accept(entries=undecided), WHO, len(desk.lines))
    gaps = tuple(ask.Gap(room=row.room, component=row.component) for row in desk.findings.coverage if row.is_open)
    if gaps:
        desk.decide(ask.Acknowledge(gaps=gaps, looked="not_looked_at"), WHO, len(desk.lines))
    desk.put_down()


def _pairs(matched: Matched) -> list[tuple[Mark, Entry]]:
    """What a person would change rather than leave out and add: one of the same kind, of the same words."""
    free, pairs = list(matched.extra), []
    for mark in matched.missed:
        near = [entry for entry in free if entry.kind == mark.kind and _meets(mark, entry)]
        best = max(near, key=lambda entry: _alike(mark, entry), default=None)
        if best is not None and _alike(mark, best):
            free.remove(best)
            pairs.append((mark, best))
    return pairs


def _meets(mark: Mark, entry: Entry) -> bool:
    return any(start <= piece.start < end for piece in entry.evidence for start, end in _spans(mark))


def _alike(mark: Mark, entry: Entry) -> int:
    return sum(getattr(entry, name, None) in right for name, right in mark.fields.items() if name != "room")


def _spans(mark: Mark) -> list[tuple[float, float]]:
    return [(said.start, said.end) for said in mark.where]


def _facts(mark: Mark, room: str, who: Reviewer) -> ask.Facts:
    """The facts of a mark as they are typed; the room only where it is another one."""
    told: dict[str, Any] = {"kind": mark.kind}
    for name in KEYS[mark.kind]:
        right = mark.fields.get(name, frozenset())
        chosen = who.choice(name, right)
        if name == "room":
            told[name] = room if room.partition(".")[0] in right else chosen
        elif name == "name" and chosen:
            told |= {"attribute": chosen, "value": "as said"}
        elif chosen:
            told[name] = int(chosen) if name == "quantity" else chosen
    return ask.Facts(**{name: value for name, value in told.items() if value is not None})
