"""Learn what shows that a walk goes to a room (narrate2report/read/walk/leads.csv) from narrations marked by hand.

    PYTHONPATH=. python tests/benchmarks/learn_leads.py FOLDER [FOLDER ...] [--try] [--out FILE]

FOLDER holds NAME.txt with NAME.gold.json; narrations of one folder whose names begin with the same letter are of one
writer. A sentence led into a room if what is marked next is in such a room, and what was marked before is not.

With --try, prints in how many of the marks the walk is in the right kind of room, by the rules alone and on the
likeliest course, when each writer is left out of the learning and of the counting once. With --out the weights
learned from all narrations are written.
"""

from __future__ import annotations

import string
from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final

from narrate2report.intake.transcripts import read_transcript
from narrate2report.read.lexis.learned import ALWAYS, Sign
from narrate2report.read.lexis.lexicon import load_vocabulary
from narrate2report.read.lexis.vocabulary import Vocabulary
from narrate2report.read.outcome import Reading
from narrate2report.read.reading import Reader
from narrate2report.read.route import as_meant, steps
from narrate2report.read.walk.belonging import Belonging
from narrate2report.read.walk.course import ENTERED, Courses, Step, Way
from narrate2report.read.walk.leads import BY_RULE, IN_THE_OPEN, OUT_HERE
from narrate2report.read.walk.place import kind_of
from tests.benchmarks.count_rooms import count
from tests.benchmarks.log_linear import whether
from tests.benchmarks.marked import learning_options, marks_beside, several
from tests.benchmarks.weight_table import hundredths, write_table
from tests.read.test_plain_ways import ROOMS, WAYS
from tests.read.test_rooms_walked import LINES
from tests.read.told import transcript_of

RAREST = 4
"""How often a sign is seen before it is learned."""

HELD_BACK = 0.3
"""Variance of the Gaussian prior on the weights. 0.1 to 1 differ little."""

PLAIN_COUNTS: Final = 0.6
"""What a line by itself counts, beside a sentence of a narration."""

LEAN: Final[Mapping[Sign, float]] = {ALWAYS: -0.5, BY_RULE: 1.0, OUT_HERE: 1.0, IN_THE_OPEN: 0.7}
"""Added to what a sign weighs: in doubt the rules are right, and most of all those of which there are few examples."""


Case = tuple[frozenset[Sign], bool]
"""The signs of a lead, and whether the walk went there."""


@dataclass(frozen=True)
class Mark:
    """Where something was marked: its line, the kinds of rooms it may be in, and what it may be of."""

    line: int
    kinds: frozenset[str]
    components: frozenset[str]


@dataclass(frozen=True)
class Walked:
    """A narration as its sentences may lead on, the line of each sentence, and what was marked."""

    writer: str
    text: Path
    steps: Sequence[Step]
    lines: Sequence[int]
    marks: Sequence[Mark]

    def cases(self) -> Iterator[Case]:
        """The signs of each lead, and whether the walk went there."""
        by_line: dict[int, set[str]] = defaultdict(set)
        for mark in self.marks:
            by_line[mark.line] |= mark.kinds
        walked = ""
        for number, (step, line) in enumerate(zip(self.steps, self.lines, strict=True)):
            before = by_line[max((one for one in by_line if one < line), default=0)]
            following = sorted(one for one in by_line if one >= line)[:2]
            then = {kind for one in following for kind in by_line[one]}
            for lead in step.leads:
                known = lead.kind in {walked, "whole_unit"} or (lead.kind in before and not lead.by_rule)
                if not known and (lead.by_rule or lead.kind not in self._ruled_until(number, following)):
                    yield frozenset({ALWAYS, *lead.signs}), lead.kind in then - before
            walked = next((lead.kind for lead in step.leads if lead.by_rule), walked)

    def _ruled_until(self, number: int, following: Sequence[int]) -> set[str]:
        """The kinds of rooms that the rules go to later, no further than the next lines with marks: that such a room
        is told of then does not show that one went there before."""
        later = zip(self.steps[number + 1 :], self.lines[number + 1 :], strict=True)
        near = [step for step, line in later if following and line <= following[-1]]
        return {lead.kind for step in near for lead in step.leads if lead.by_rule}

    def right(self, rooms: Sequence[str | None]) -> int:
        """How many of the marks are in the kind of room that the walk is in then."""
        return sum(kind_of(rooms[self._told_in(mark)] or "entry") in mark.kinds for mark in self.marks)

    def _told_in(self, mark: Mark) -> int:
        """The sentence of the line that speaks of what is marked, or its last."""
        inside = [number for number, line in enumerate(self.lines) if line == mark.line]
        named = (number for number in inside if mark.components & set(self.steps[number].things))
        return next(named, inside[-1] if inside else 0)


def walked_in(texts: Iterable[Path]) -> Iterator[Walked]:
    """Narrations, as they were walked."""
    vocabulary = load_vocabulary()
    reader = Reader(vocabulary, courses=ByRule())
    for text in texts:
        walk = read_transcript(text)
        starts = [stretch.start for stretch in walk.stretches]
        read = reader.read(walk)
        taken = _steps(read, None, vocabulary)
        lines = [sum(start <= one.sentence.start + 1e-6 for start in starts) for one in read.sentences]
        writer = f"{text.parent}/{text.stem[0] if '_' in text.stem else text.stem.rstrip(string.digits)}"
        yield Walked(writer, text, taken, lines, list(_marks(marks_beside(text))))


def _marks(gold: Sequence[Mapping[str, Any]]) -> Iterator[Mark]:
    for one in gold:
        if one["kind"] in {"condition", "check"} and one.get("room"):
            line = min(several(one["line"]))
            kinds = frozenset(map(kind_of, several(one["room"])))
            yield Mark(line, kinds, frozenset(several(one["component"])))


def plain_ways() -> Iterator[Case]:
    """Lines of tests/read with where the speaker is once they are said: ways to enter a room, and to name it only."""
    vocabulary = load_vocabulary()
    reader = Reader(vocabulary, courses=ByRule())
    for start, said, kinds in _lines_told():
        for step in _steps(reader.read(transcript_of([said]), room=start), start, vocabulary):
            for lead in step.leads:
                if lead.kind not in {kind_of(start), "whole_unit"}:
                    yield frozenset({ALWAYS, *lead.signs}), lead.kind in kinds


def _lines_told() -> Iterator[tuple[str, str, set[str]]]:
    """Where the speaker is, what is said, and in what kinds of rooms the speaker may be then."""
    for name, enters in (("a_room_is_entered", True), ("a_room_is_only_named", False)):
        for way in WAYS[name]:
            for room in ROOMS:
                said = way.format(room=room, Room=room.capitalize(), ROOM=room.upper())
                yield "living_room", said, {room if enters else "living_room"}
    for line in LINES.read_text(encoding="utf-8").splitlines():
        start, said, wanted = line.split("\t")
        yield start, said, set(map(kind_of, wanted.split("|")))


class ByRule(Courses):
    """Leaves it to the rules where a walk goes."""

    def likeliest(self, steps: Sequence[Step], start: str | None) -> Mapping[int, Way]:
        """Nothing."""
        del steps, start
        return {}


def _steps(read: Reading, start: str | None, vocabulary: Vocabulary) -> list[Step]:
    spoken = [one.spoken for one in read.sentences]
    return list(steps(spoken, list(as_meant(spoken)), start, vocabulary))


def by_rules(taken: Sequence[Step]) -> list[str | None]:
    """The room of each sentence, as the rules walk."""
    return _rooms(next((lead.room for lead in step.leads if lead.by_rule), None) for step in taken)


def on_course(taken: Sequence[Step], courses: Courses) -> list[str | None]:
    """The room of each sentence on the likeliest course."""
    ways = courses.likeliest(taken, None)
    return _rooms(ways[number].room if number in ways else None for number in range(len(taken)))


def _rooms(entered: Iterable[str | None]) -> list[str | None]:
    """The room of each sentence, from the rooms that they lead into."""
    rooms: list[str | None] = [None]
    for another in entered:
        rooms.append(another or rooms[-1])
    return rooms[1:]


def learn(walks: Sequence[Walked], plain: Sequence[Case]) -> Mapping[Sign, int]:
    """The weights of the signs that a lead is one, in hundredths."""
    cases = [*plain, *(case for walk in walks for case in walk.cases())]
    counts = [PLAIN_COUNTS] * len(plain) + [1.0] * (len(cases) - len(plain))
    rows, so = [signs for signs, _ in cases], [so for _, so in cases]
    weights = whether(rows, so, least=RAREST, variance=HELD_BACK, counts=counts)
    for sign, more in LEAN.items():
        weights[sign] = weights.get(sign, 0.0) + more
    return hundredths(weights)


def main() -> None:
    """Learn, try, and write what was learned."""
    options = learning_options(__doc__)
    walks = list(walked_in(options.texts))
    plain = list(plain_ways())
    print(f"{sum(len(list(walk.cases())) for walk in walks)} leads of {len(walks)} narrations")
    if options.tried:
        _try_on(walks, plain)
    if options.out is not None:
        write_table(options.out, {ENTERED: learn(walks, plain)})


def _try_on(walks: Sequence[Walked], plain: Sequence[Case]) -> None:
    ruled = likeliest = 0
    for writer in sorted({walk.writer for walk in walks}):
        others = [walk for walk in walks if walk.writer != writer]
        table: dict[str, dict[str, int]] = defaultdict(dict)
        for (room, thing), marks in _counted(others).items():
            table[room][thing] = marks
        courses = Courses({ENTERED: learn(others, plain)}, Belonging(table))
        for walk in (one for one in walks if one.writer == writer):
            ruled += walk.right(by_rules(walk.steps))
            likeliest += walk.right(on_course(walk.steps, courses))
    print(
        f"  of {sum(len(walk.marks) for walk in walks)} marks in the right room: {ruled} by rule, {likeliest} likeliest"
    )


def _counted(walks: Sequence[Walked]) -> Counter[tuple[str, str]]:
    return count(walk.text for walk in walks)


if __name__ == "__main__":
    main()
