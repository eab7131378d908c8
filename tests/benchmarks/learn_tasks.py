"""Learn how tasks are told (narrate2report/read/credible/tasks.csv) from narrations marked by hand.

    PYTHONPATH=. python tests/benchmarks/learn_tasks.py FOLDER [FOLDER ...] [--try] [--out FILE]

FOLDER holds NAME.txt with NAME.gold.json; narrations of one folder whose names begin with the same letters are of one
writer. Learned is whether a sentence tells of work to come or asks the resident for care, of which component, and what
work: from every sentence whose line has such a mark or has none. The sentences of tests/read/data that are written to
say one thing tell what the rules draft of them, which the tests hold to be right; those of tasks_told.txt tell a task.

With --try, prints how many lines are told rightly, and how many components and actions, when each tenth of the writers
is left out of the learning once; beside it how many of them the rules tell. With --out the weights learned from all
narrations are written.
"""

from __future__ import annotations

import string
from bisect import bisect_right
from collections import Counter, defaultdict
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any, Final

from narrate2report.intake.transcripts import read_transcript
from narrate2report.read.credible.concerned import concerned
from narrate2report.read.credible.signs import TASKS, Observed
from narrate2report.read.credible.tasks import ACTIONS, Tasks, done, undrafted
from narrate2report.read.credible.weighing import Weighing
from narrate2report.read.drafts.draft import Draft
from narrate2report.read.lexis.learned import ALWAYS
from narrate2report.read.lexis.lexicon import load_vocabulary
from narrate2report.read.lexis.tables import Table
from narrate2report.read.reading import Reader
from narrate2report.read.things.focus import Focus
from narrate2report.records.transcript import Transcript
from tests.benchmarks.learn_doubts import DATA, sayings
from tests.benchmarks.log_linear import Option, Sign, whether, which
from tests.benchmarks.marked import learning_options, marks_beside, several
from tests.benchmarks.weight_table import hundredths, write_table
from tests.read.told import transcript_of

LEAST: Final = 4
"""In how many sentences a sign is seen before it is learned."""

VARIANCE: Final[Mapping[str, float]] = {"told": 0.3, "of": 0.3, "action": 0.3}
"""Of the Gaussian prior on the weights, by question; half and double differ little."""

TELLS: Final = 0.3
TELLS_NONE: Final = 0.05
"""How much a sentence by itself counts beside one of a walk: less, since it agrees with the rules more often than talk
does."""

ONLY_TELLS: Final = 3.0
"""How much one counts that was written to tell a task in a rare way."""

RULED: Final = "drafted"
"""In the signs of what the rules say is done: learned beside the words, so that these get no credit for it, and never
asked, since where a rule says what is done nothing else is."""

TENTHS: Final = 10

Mark = Mapping[str, Any]


@dataclass(frozen=True)
class Heard:
    """A sentence as it was weighed for one kind of task, with what the marks of its line say."""

    writer: str
    line: tuple[str, int]
    kind: str
    signs: tuple[Sign, ...]
    told: bool | None
    """None where the marks leave it open, or do not say which sentence of the line they are of."""
    wanted: bool
    """Whether the line has a mark that has to be found."""
    open: bool
    """Whether the line has a mark at all."""
    components: tuple[Option, ...]
    actions: tuple[Option, ...]
    drafted: bool
    counts: float = 1.0
    """How much it counts where it is learned from; less than 1 where it is a sentence by itself, and of no walk."""


class Listener(Tasks):
    """Leaves the tasks as the rules drafted them, and notes the signs."""

    def __init__(self) -> None:
        super().__init__({})
        self.marks: Callable[[str, float], list[Mark]] = lambda _kind, _start: []
        self.noted: list[Heard] = []
        self.narration = "", ""
        self.line_of: Callable[[float], int] = lambda _start: 0
        self.shared: Counter[int] = Counter()

    def settle(self, observed: Observed, focus: Focus, **_: bool) -> tuple[tuple[Draft, ...], tuple[str, ...]]:
        """The tasks that the rules drafted."""
        for kind in TASKS:
            self.noted.append(self._heard(observed, kind, focus))
        return tuple(draft for draft in observed.drafts if draft.kind in TASKS), ()

    def _heard(self, observed: Observed, kind: Any, focus: Focus) -> Heard:
        start = observed.scene.spoken.sentence.start
        marks = self.marks(kind, start)
        drafted = [draft for draft in observed.drafts if draft.kind == kind]
        right = {component for mark in marks for component in several(mark["component"])}
        wanted = any(not mark.get("optional") for mark in marks)
        here = {one.component for one in observed.scene.spoken.named} | {draft.component for draft in drafted}
        sure = bool(drafted or right & here or self._has_line_to_itself(start))
        of = concerned(observed, kind, focus) if marks and len(drafted) < 2 else {}
        components = tuple(Option(one, signs, one in right) for one, signs in of.items())
        return Heard(
            self.narration[0],
            (self.narration[1], self.line_of(start)),
            kind,
            (ALWAYS, *observed.of_task(kind)),
            None if marks and not (wanted and sure) else bool(marks),
            wanted,
            bool(marks),
            components if sure else (),
            tuple(_actions(observed, drafted, marks, right, focus)) if kind == "follow_up" and sure and of else (),
            bool(drafted),
        )

    def _has_line_to_itself(self, start: float) -> bool:
        return self.shared[self.line_of(start)] == 1


def _actions(
    observed: Observed, drafted: Sequence[Draft], marks: Sequence[Mark], right: set[str], focus: Focus
) -> Iterator[Option]:
    """What may be done, of the component that the rules found or the first that a mark accepts."""
    task = drafted[0] if drafted else undrafted(observed, "follow_up", "")
    if task.component not in right:
        task = replace(task, component=min(right))
    wanted = {
        action for mark in marks if task.component in several(mark["component"]) for action in several(mark["action"])
    }
    for action in ACTIONS:
        signs = done(observed, task.component, action, focus)
        if task.action is not None:
            signs |= {f"{action}: {RULED} {task.action}", *([RULED] if action == task.action else [])}
        yield Option(action, tuple(signs), action in wanted)


class Learner:
    """Turns narrations into what was heard of tasks."""

    def __init__(self) -> None:
        self._listener = Listener()
        self._reader = Reader(load_vocabulary(), weighing=Weighing(tasks=self._listener))

    def narration(self, text: Path) -> list[Heard]:
        """What a narration teaches."""
        walk = read_transcript(text)
        marks: dict[tuple[str, int], list[Mark]] = defaultdict(list)
        for mark in marks_beside(text):
            for line in several(mark["line"]):
                marks[mark["kind"], line].append(mark)
        return self._listen(walk, f"{text.parent}/{text.stem.rstrip(string.digits)}", str(text), marks)

    def saying(self, said: str, room: str, writer: str) -> list[Heard]:
        """What a sentence by itself teaches: that it tells what the rules draft of it."""
        heard = self._listen(transcript_of([f"Okay, into the {room}.", said]), writer, said, {})
        return [replace(one, told=one.drafted, counts=TELLS if one.drafted else TELLS_NONE) for one in heard]

    def told(self, kind: str, said: str, room: str) -> list[Heard]:
        """What sentences teach of which the last tells a task of this kind."""
        heard = self._listen(transcript_of([f"Okay, into the {room}.", said]), "told", said, {})
        return [replace(one, told=True, counts=ONLY_TELLS) for one in heard if one.kind == kind][-1:]

    def _listen(
        self, walk: Transcript, writer: str, name: str, marks: Mapping[tuple[str, int], list[Mark]]
    ) -> list[Heard]:
        starts = [stretch.start for stretch in walk.stretches]
        listener = self._listener
        listener.noted.clear()
        listener.narration = writer, name
        listener.line_of = lambda start: bisect_right(starts, start + 1e-6)
        listener.marks = lambda kind, start: marks.get((kind, listener.line_of(start)), [])
        listener.shared = Counter(listener.line_of(one.start) for one in self._reader.sentences(walk))
        self._reader.read(walk)
        return list(listener.noted)


def _tasks_told() -> Iterator[list[str]]:
    for line in (DATA / "tasks_told.txt").read_text(encoding="utf-8").splitlines():
        if not line.startswith("#"):
            yield line.split(": ", 2)


def learn(heard: Sequence[Heard]) -> Table:
    """The weights of all questions, in hundredths."""
    table: dict[str, Mapping[Sign, int]] = {}
    for kind in TASKS:
        mine = [one for one in heard if one.kind == kind]
        sure = [one for one in mine if one.told is not None]
        counts = [one.counts for one in sure]
        told = whether([one.signs for one in sure], [bool(one.told) for one in sure], counts=counts, **_how("told"))
        table[f"{kind} told"] = hundredths(told)
        table[f"{kind} of"] = hundredths(which([one.components for one in mine if one.components], **_how("of")))
    acts = which([one.actions for one in heard if one.actions], **_how("action"))
    table["action"] = hundredths({sign: weight for sign, weight in acts.items() if RULED not in sign})
    return table


def _how(question: str) -> dict[str, Any]:
    return {"least": LEAST, "variance": VARIANCE[question]}


def _try(heard: Sequence[Heard]) -> None:
    """Print what is right where it was left out."""
    writers = sorted({one.writer for one in heard})
    tenth = {writer: at % TENTHS for at, writer in enumerate(writers)}
    counts: Counter[str] = Counter()
    for left in range(TENTHS):
        learned = learn([one for one in heard if tenth[one.writer] != left])
        out = [one for one in heard if tenth[one.writer] == left]
        for kind in TASKS:
            mine = [one for one in out if one.kind == kind and one.counts == 1.0]
            wanted = {one.line for one in mine if one.wanted}
            allowed = {one.line for one in mine if one.open}
            found = {one.line for one in mine if _sum(learned[f"{kind} told"], one.signs) > 0}
            ruled = {one.line for one in mine if one.drafted}
            for name, lines in (("learned", found), ("rules", ruled)):
                counts[f"{kind} {name} right"] += len(lines & wanted)
                counts[f"{kind} {name} too many"] += len(lines - allowed)
                counts[f"{kind} {name} missed"] += len(wanted - lines)
            for one in mine:
                _count(counts, f"{kind} of", one.components, learned[f"{kind} of"])
                _count(counts, "action", one.actions, learned["action"])
    for name, number in sorted(counts.items()):
        print(f"  {name}: {number}")


def _count(counts: Counter[str], name: str, options: Sequence[Option], weights: Mapping[Sign, int]) -> None:
    if not any(one.right for one in options):
        return
    best = max(options, key=lambda one: (_sum(weights, one.signs), one.name))
    ruled = next((one for one in options if RULED in one.signs), None)
    counts[f"{name}: asked"] += 1
    counts[f"{name}: learned right"] += best.right
    counts[f"{name}: rules right"] += ruled is not None and ruled.right
    counts[f"{name}: rules silent"] += ruled is None


def _sum(weights: Mapping[Sign, int], signs: Iterable[Sign]) -> int:
    return sum(weights.get(sign, 0) for sign in signs)


def main() -> None:
    """Learn, try, and write what was learned."""
    options = learning_options(__doc__)
    learner = Learner()
    heard = [one for text in options.texts for one in learner.narration(text)]
    heard += [one for saying in sayings() for one in learner.saying(saying.said, saying.room, saying.writer)]
    heard += [one for kind, room, said in _tasks_told() for one in learner.told(kind, said, room)]
    print(f"{len(heard)} times a sentence of {len(options.texts)} narrations, or one by itself, was weighed")
    if options.tried:
        _try(heard)
    if options.out is not None:
        write_table(options.out, learn(heard))


if __name__ == "__main__":
    main()
