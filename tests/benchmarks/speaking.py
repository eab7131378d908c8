"""Which phrasings are read best: each habit of the guide `speaking`, said as the guide asks for it and otherwise.

    python tests/benchmarks/speaking.py [--habit NAME] [--misses 5]

Every phrasing is told of every component of the vocabulary with up to --flaws of the flaws that the vocabulary has
for usual of it, in a room where it is expected, each in a walk of its own, as text: what the speech model mishears is
not in it (`tests/benchmarks/listen.py` measures that). A reading counts as right where the entry that was meant is
there, with its room, component and what was said of it, and no other condition or check beside it. An interval is
Wilson's, of 95 %.
"""

from __future__ import annotations

import argparse
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from scipy.stats import binomtest

from narrate2report.read.lexis.lexicon import load_vocabulary
from narrate2report.read.lexis.vocabulary import Vocabulary
from narrate2report.read.reading import Reader
from narrate2report.records.findings import Entry
from tests.read.told import LINE_S, transcript_of

COUNTED = ("chip", "crack", "scratch", "dent", "hole", "stain", "scuff", "tear", "gouge", "burn")
"""Flaws of which one says `a`."""


@dataclass(frozen=True)
class Case:
    """A component in a room with a flaw, each with the word that is said for it."""

    room: str
    component: str
    flaw: str
    in_room: str
    thing: str
    noun: str

    @property
    def a_flaw(self) -> str:
        return f"a {self.noun}"


Right = Callable[[Case, Sequence[Entry]], bool]


@dataclass(frozen=True)
class Habit:
    """Ways of saying the same, the one that the guide asks for first; in braces the words of a case."""

    name: str
    right: Right
    ways: tuple[str, ...]
    before: str = "Now the {room}."
    of_what_works: bool = False


def told(way: str, before: str, case: Case) -> list[str]:
    """The lines of a walk, each with a capital letter."""
    words = {"room": case.in_room, "thing": case.thing, "a_flaw": case.a_flaw, "flaw": case.noun}
    lines = [line.format(**words) for line in (*before.split(" / "), *way.split(" / "))]
    return [line[:1].upper() + line[1:] for line in lines]


def _conditions(entries: Sequence[Entry]) -> list[Entry]:
    return [entry for entry in entries if entry.kind in {"condition", "check"}]


def _is_at(case: Case, entry: Entry) -> bool:
    return (entry.room.partition(".")[0], entry.component) == (case.room, case.component)


def flawed(case: Case, entries: Sequence[Entry]) -> bool:
    """The flaw, seen, and nothing else."""
    told = _conditions(entries)
    return [(_is_at(case, one), one.condition, one.assertion) for one in told] == [(True, case.flaw, "present")]


def located(case: Case, entries: Sequence[Entry]) -> bool:
    """The same, with where it is and how large."""
    return flawed(case, entries) and all(one.where and one.size for one in _conditions(entries))


def checked(outcome: str) -> Right:
    """A trial of the component with this outcome, and nothing else."""

    def right(case: Case, entries: Sequence[Entry]) -> bool:
        return [(_is_at(case, one), one.outcome) for one in _conditions(entries)] == [(True, outcome)]

    return right


def sound(case: Case, entries: Sequence[Entry]) -> bool:
    """The component, said to be in order, and nothing else."""
    told = _conditions(entries)
    return [(_is_at(case, one), one.condition) for one in told] == [(True, "good")]


def withdrawn(case: Case, entries: Sequence[Entry]) -> bool:
    """Nothing is left of what was taken back; that there is dust may be."""
    return not any(one.condition == case.flaw and one.assertion != "absent" for one in entries)


def both(case: Case, entries: Sequence[Entry]) -> bool:
    """The flaw, and one of the ceiling, each where it is."""
    found = sorted((one.component, one.condition or "") for one in _conditions(entries) if one.assertion == "present")
    return found == sorted({(case.component, case.flaw), ("ceiling", "stain")})


HABITS = (
    Habit(
        "the room is named as one enters it",
        flawed,
        (
            "Now the {room}. / The {thing} has {a_flaw}.",
            "We're in the {room} now. / The {thing} has {a_flaw}.",
            "{room}. / The {thing} has {a_flaw}.",
            "Okay, next one. / The {thing} has {a_flaw}.",
        ),
        before="Now the living room. / The ceiling is in good condition.",
    ),
    Habit(
        "the thing is named",
        flawed,
        (
            "The {thing} has {a_flaw}.",
            "{thing}: {a_flaw}.",
            "There's {a_flaw} on the {thing}.",
            "{a_flaw}, {thing}.",
            "There's {a_flaw} over here.",
            "This one here has {a_flaw}.",
        ),
    ),
    Habit(
        "where and how big, in words that measure",
        located,
        (
            "The {thing} has {a_flaw} on the left side, about two inches long.",
            "The {thing}: {a_flaw} on the left side, two inches.",
            "The {thing} has a two-inch {flaw} on the left side.",
            "The {thing}: {a_flaw}, two inches, on the left side.",
            "The {thing}: {a_flaw}, two inches, left side.",
            "The {thing} has {a_flaw} there on the left, pretty big.",
            "The {thing} has {a_flaw} right here, about like that.",
        ),
    ),
    Habit(
        "what was tried is said with what it did",
        checked("works"),
        (
            "I tried the {thing}, it works.",
            "{thing}: works.",
            "Testing the {thing}, and yes, it works.",
            "Trying the {thing}. Okay, good.",
            "Let me just try the {thing}.",
        ),
        of_what_works=True,
    ),
    Habit(
        "what was not tried is said",
        checked("not_tested"),
        (
            "I did not test the {thing}.",
            "{thing}: not tested.",
            "I'm not going to run the {thing} today.",
            "The {thing}, we'll leave that for now.",
        ),
        of_what_works=True,
    ),
    Habit(
        "what is fine is said of the thing",
        sound,
        (
            "The {thing} is in good condition.",
            "{thing}: good.",
            "{thing} looks fine.",
            "{thing}. Okay.",
            "All good here.",
        ),
    ),
    Habit(
        "one flaw a sentence",
        both,
        (
            "The {thing} has {a_flaw}. The ceiling has a stain.",
            "The {thing} has {a_flaw}, and the ceiling has a stain.",
            "the {thing} has {a_flaw} the ceiling has a stain",
            "The {thing} and the ceiling have {a_flaw} and a stain.",
        ),
    ),
    Habit(
        "what was wrong is taken back in so many words",
        withdrawn,
        (
            "The {thing} has {a_flaw}. / Scratch that, it was only dust.",
            "The {thing} has {a_flaw}. / No, sorry, that's just dust.",
            "The {thing} has {a_flaw}. / Oh, it wipes off.",
        ),
    ),
)


def cases(vocabulary: Vocabulary, flaws: int) -> Iterator[Case]:
    """Every component that is expected in some room, with its usual flaws."""
    for component, term in vocabulary.components.items():
        room = next((name for name, one in vocabulary.rooms.items() if component in one.expects), None)
        if room is None or room in {"whole_unit", "living_room"} or not term.say:
            continue
        usual = [flaw for flaw in COUNTED if vocabulary.afflicts(flaw, component)] or (
            ["scratch"] if term.works else []
        )
        for flaw in usual[:flaws]:
            noun = vocabulary.conditions[flaw].nouns[0]
            yield Case(room, component, flaw, vocabulary.rooms[room].say[0], term.say[0], noun)


def main() -> None:
    options = _options()
    vocabulary = load_vocabulary()
    reader = Reader(vocabulary)
    every = tuple(cases(vocabulary, options.flaws))
    for habit in HABITS:
        if options.habit not in habit.name:
            continue
        asked = tuple(_of_what_works(every, vocabulary) if habit.of_what_works else every)
        print(f"\n{habit.name} ({len(asked)} cases, {len({case.component for case in asked})} components)")
        for way in habit.ways:
            _measure(way, habit, asked, reader, options.misses)


def _of_what_works(every: Sequence[Case], vocabulary: Vocabulary) -> Iterator[Case]:
    """One case for each component that can be tried."""
    first = {case.component: case for case in reversed(every)}
    yield from (case for case in first.values() if vocabulary.components[case.component].works)


def _measure(way: str, habit: Habit, every: Sequence[Case], reader: Reader, misses: int) -> None:
    wrong = []
    for case in every:
        entries = reader.read(transcript_of(told(way, habit.before, case))).findings.entries
        if not habit.right(case, _of_the_case(entries, habit)):
            wrong.append((case, entries))
    right = len(every) - len(wrong)
    low, high = binomtest(right, len(every)).proportion_ci(method="wilson")
    print(f"  {right / len(every):4.0%}  ({low:.0%} to {high:.0%})  {way}")
    for case, entries in wrong[:misses]:
        read = [(one.room, one.component, one.condition or one.outcome) for one in _conditions(entries)]
        print(f"          {' '.join(told(way, habit.before, case))} -> {read}")


def _of_the_case(entries: Sequence[Entry], habit: Habit) -> list[Entry]:
    """Without what was said before the lines that are measured."""
    starts = LINE_S * len(habit.before.split(" / "))
    return [one for one in entries if one.evidence[0].start >= starts]


def _options() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--habit", default="", help="only habits whose name holds this")
    parser.add_argument("--flaws", type=int, default=3, help="flaws of each component")
    parser.add_argument("--misses", type=int, default=0, help="how many wrong readings of each phrasing are printed")
    return parser.parse_args()


if __name__ == "__main__":
    main()
