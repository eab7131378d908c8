"""Learn which drafts are worded as talk (narrate2report/read/credible/doubts.csv) from narrations marked by hand.

    PYTHONPATH=. python tests/benchmarks/learn_doubts.py FOLDER [FOLDER ...] [--try] [--out FILE]

FOLDER holds NAME.txt with NAME.gold.json; narrations of one folder whose names begin with the same letter are of one
writer. Learned from are all drafts of the rules, and what they would draft if nothing were talk: so the words of talk
are learned from all talk, not only from what the rules take for something that is so. A draft is right where a mark
says the same; one that differs from a mark in one field only, or that a mark leaves open, teaches nothing.

With --try, prints how many of the right and how many of the wrong ones are kept when each writer is left out of the
learning once. With --out the weights learned from all narrations are written.
"""

from __future__ import annotations

import string
from collections import Counter, defaultdict
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from itertools import cycle, islice
from pathlib import Path
from typing import Final
from unittest.mock import patch

from narrate2report.evaluate.marks import Mark, key_fields, marks_of, said_at
from narrate2report.evaluate.matching import match
from narrate2report.intake.transcripts import read_transcript
from narrate2report.read import route
from narrate2report.read.credible.doubts import DOUBTED, TALK, Doubts
from narrate2report.read.credible.signs import TASKS, Observed
from narrate2report.read.credible.weighing import Weighing
from narrate2report.read.drafts.draft import Draft
from narrate2report.read.lexis.learned import ALWAYS, Sign
from narrate2report.read.lexis.lexicon import load_vocabulary
from narrate2report.read.meant.stance import read_stances
from narrate2report.read.reading import Reader
from narrate2report.read.speech.modes import PLAIN, Mode, Stance
from narrate2report.read.speech.spoken import Spoken
from narrate2report.records.findings import Entry
from narrate2report.records.transcript import Transcript
from tests.benchmarks.log_linear import whether
from tests.benchmarks.marked import learning_options, marks_beside
from tests.benchmarks.weight_table import hundredths, write_table
from tests.read.test_frames import FLAWS, FRAMES, WANTED, Wanted, frames
from tests.read.test_plain_ways import WAYS
from tests.read.told import transcript_of

RAREST = 4
"""How often a sign is seen before it is learned."""

HELD_BACK = 0.1
"""Variance of the Gaussian prior on the weights: smaller keeps them nearer to 0. 0.05 to 0.3 differ little."""

LEAN: Final[Mapping[Sign, float]] = {ALWAYS: -0.5, "kind present": -0.4, "kind possible": -0.4, "kind fails": -0.4}
"""Added to what a sign weighs: what is left out costs more than talk that is struck in the review, most of all where
something is wrong."""

DATA: Final = FRAMES.parent

WRITERS: Final = 10
"""The frames and plain ways are of many hands: parts of them, left out in turn."""

TWICE: Final = 2
"""How often a line is counted that is worded like talk and yet is none: there are few of them."""

PLAIN_WAYS: Final = (
    "a_flaw_is_there", "it_is_so", "it_works", "it_fails", "it_was_not_tried", "work_is_planned", "care_is_asked",
)  # fmt: skip
"""Those of tests/read/data/plain_ways.yaml that say what they say."""


@dataclass(frozen=True)
class Case:
    """A draft that teaches something: its signs, whether a mark says the same, and whether the rules enter it."""

    writer: str
    signs: tuple[Sign, ...]
    wrong: bool
    drafted: bool
    adverse: bool


@dataclass(frozen=True)
class Weighed:
    """A draft as it was to be weighed, how its words are meant, and the sentence that it is of."""

    draft: Draft
    signs: tuple[Sign, ...]
    mode: Mode
    sentence: str

    def case(self, writer: str, entry: Entry, *, wrong: bool, drafted: bool) -> Case:
        """What it teaches, once it is known whether the entry is right."""
        return Case(writer, (ALWAYS, *self.signs), wrong, drafted, entry.is_adverse)

    def became(self, entry: Entry) -> bool:
        """Whether an entry was made of it."""
        same = (self.draft.kind, self.draft.component) == (entry.kind, entry.component)
        what = (self.draft.condition, self.draft.outcome, self.draft.action)
        told = any(self.sentence in piece.sentences for piece in entry.evidence)
        return same and told and what == (entry.condition, entry.outcome, entry.action)


@dataclass(frozen=True)
class Saying:
    """A sentence that was written to say one thing, or only to talk of it."""

    said: str
    room: str
    writer: str
    tells: Callable[[Entry], bool]
    """Whether an entry is what it says, or what it only talks of."""
    talks: bool = False


def sayings() -> Iterator[Saying]:
    """The frames and plain ways of tests/read, each with two things, and its lines that talk of flaws."""
    for number, (kind, frame) in enumerate(frames()):
        wanted, (adjective, noun) = WANTED[kind], FLAWS[number % len(FLAWS)]
        for thing, components, room in islice(cycle(wanted.things), number, number + 2):
            said = _filled(frame, c=thing, a=adjective, n=noun)
            yield Saying(said, room, f"frames {number % WRITERS}", _tells_of(wanted, components, noun), not wanted.of)
    for number, way in enumerate(way for name in PLAIN_WAYS for way in WAYS[name]):
        for thing, condition in (("counter", "scratch"), ("door", "loose")):
            yield Saying(_filled(way, x=thing, y=condition), "kitchen", f"ways {number % WRITERS}", lambda _: True)
    for number, line in enumerate(_rows("flaws_told_all_the_same.txt")):
        room, conditions, said = line.split(": ", 2)
        yield Saying(said, room, f"told {number % WRITERS}", partial(_is_one_of, conditions.split("/")))
    for number, line in enumerate(_rows("told_like_talk.txt") * TWICE):
        room, said = line.split(": ", 1)
        yield Saying(said, room, f"like talk {number % WRITERS}", lambda _: True)
    for number, line in enumerate(_rows("flaws_only_talked_of.txt")):
        room, said = line.split(": ", 1)
        yield Saying(said, room, f"talk {number % WRITERS}", lambda entry: entry.is_adverse, talks=True)


def _filled(frame: str, **words: str) -> str:
    return frame.format(**words, **{name.upper(): word.capitalize() for name, word in words.items()})


def _tells_of(wanted: Wanted, components: set[str], flaw: str) -> Callable[[Entry], bool]:
    if wanted.of is None:
        return wanted.none or (lambda _: False)
    of = wanted.of
    return lambda entry: entry.component in components and of(entry, flaw)


def _is_one_of(conditions: Sequence[str], entry: Entry) -> bool:
    return entry.condition in conditions and entry.is_adverse


def _rows(name: str) -> list[str]:
    rows = (DATA / name).read_text(encoding="utf-8").splitlines()
    return [row for row in rows if row and not row.startswith("#")]


class Listener(Doubts):
    """Keeps every draft, and notes it."""

    def __init__(self) -> None:
        super().__init__({})
        self.noted: list[Weighed] = []

    def sift(self, observed: Observed) -> tuple[list[Draft], tuple[str, ...]]:
        """All drafts but those of tasks."""
        scene = observed.scene
        meant = read_stances(scene.spoken)
        drafts = [draft for draft in observed.drafts if draft.kind not in TASKS]
        self.noted += [
            Weighed(draft, tuple(observed.signs(draft)), meant[draft.at].mode, scene.spoken.sentence.id)
            for draft in drafts
            if draft.kind in DOUBTED
        ]
        return drafts, ()


class Learner:
    """Turns narrations into cases."""

    def __init__(self) -> None:
        self._listener = Listener()
        self._reader = Reader(load_vocabulary(), weighing=Weighing(doubts=self._listener))

    def cases(self, text: Path) -> Iterator[Case]:
        """What a narration teaches."""
        walk = read_transcript(text)
        gold = marks_beside(text)
        marks = marks_of(gold, _lines(walk), 0.0)
        writer = f"{text.parent}/{text.stem.rstrip(string.digits)}"
        yield from self._read(walk, marks, writer)
        with patch.object(route, "read_stances", _as_if_all_were_so):
            yield from (case for case in self._read(walk, marks, writer, credulous=True) if case.wrong)

    def alone(self, saying: Saying) -> Iterator[Case]:
        """What a sentence by itself teaches; of one that only talks, what would be drafted if it did not."""
        with patch.object(route, "read_stances", _as_if_all_were_so if saying.talks else read_stances):
            self._listener.noted.clear()
            walk = transcript_of([f"Okay, into the {saying.room}.", saying.said])
            entries = list(self._reader.read(walk).findings.entries)
        for entry, one in self._entered(entries):
            if saying.tells(entry):
                yield one.case(saying.writer, entry, wrong=saying.talks, drafted=not saying.talks)

    def _entered(self, entries: Sequence[Entry]) -> Iterator[tuple[Entry, Weighed]]:
        """The drafts that are weighed, each with the entry that was made of it."""
        left = list(entries)
        for one in self._listener.noted:
            entry = next((entry for entry in left if one.became(entry)), None)
            if entry is not None:
                left.remove(entry)
                yield entry, one

    def _read(self, walk: Transcript, marks: Sequence[Mark], writer: str, *, credulous: bool = False) -> Iterator[Case]:
        self._listener.noted.clear()
        entries = self._reader.read(walk).findings.entries
        matched = match(marks, entries)
        right = {entry.id for mark, entry in matched.found if not mark.optional}
        wrong = {entry.id for entry in matched.extra if not any(_is_near(mark, entry) for mark in matched.missed)}
        for entry, one in self._entered(entries):
            asserted = credulous and one.mode is Mode.ASSERTED
            if (entry.id in right or entry.id in wrong) and not asserted:
                yield one.case(writer, entry, wrong=entry.id in wrong, drafted=not credulous)


def _lines(walk: Transcript) -> list[tuple[float, float]]:
    starts = [stretch.start for stretch in walk.stretches]
    return list(zip(starts, [*starts[1:], walk.stretches[-1].end], strict=True))


def _as_if_all_were_so(spoken: Spoken) -> tuple[Stance, ...]:
    return (PLAIN,) * len(spoken.tokens)


def _is_near(mark: Mark, entry: Entry) -> bool:
    """Whether an entry says what a mark says but for one field: something was said, only not quite that."""
    if mark.kind != entry.kind or not any(
        said_at(piece).meets(there) for piece in entry.evidence for there in mark.where
    ):
        return False
    told = key_fields(entry)
    return sum(told[name] not in right for name, right in mark.fields.items()) <= 1


Learned = Mapping[Sign, int]


def learn(cases: Sequence[Case]) -> Learned:
    """The weights of the signs for doubt, in hundredths."""
    rows, wrong = [case.signs for case in cases], [case.wrong for case in cases]
    weights = whether(rows, wrong, least=RAREST, variance=HELD_BACK)
    for sign, more in LEAN.items():
        weights[sign] += more
    return hundredths(weights)


def is_doubted(case: Case, learned: Learned) -> bool:
    """Whether a draft is left out by these weights."""
    return sum(learned.get(sign, 0) for sign in set(case.signs)) > 0


def main() -> None:
    """Learn, try, and write what was learned."""
    options = learning_options(__doc__)
    learner = Learner()
    cases = [case for text in options.texts for case in learner.cases(text)]
    cases += [case for saying in sayings() for case in learner.alone(saying)]
    print(f"{len(cases)} drafts of {len(options.texts)} narrations and of plain sayings")
    if options.tried:
        _try_on(cases)
    if options.out is not None:
        write_table(options.out, {TALK: learn(cases)})


def _try_on(cases: Sequence[Case]) -> None:
    kept: Counter[str] = Counter()
    all_of: Counter[str] = Counter()
    by_writer: dict[str, list[Case]] = defaultdict(list)
    for case in cases:
        by_writer[case.writer].append(case)
    for writer, left_out in by_writer.items():
        learned = learn([case for case in cases if case.writer != writer])
        for case in (case for case in left_out if case.drafted):
            names = ["wrong" if case.wrong else "right"] + (
                [f"{'wrong' if case.wrong else 'right'} adverse"] * case.adverse
            )
            all_of.update(names)
            kept.update(names if not is_doubted(case, learned) else [])
    told = ", ".join(f"{kept[name]} of {all_of[name]} {name}" for name in sorted(all_of))
    print(f"  kept {told}")


if __name__ == "__main__":
    main()
