"""The same walk told otherwise: changes of a transcript after which the record should say what it said before.

Each takes a transcript and gives one with the same statements: without marks, in other letters, in the words of
another country, with fillers, in other cues, or with lines more that state nothing of this place.
"""

from __future__ import annotations

import random
import re
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from narrate2report.read.outcome import Reading
from narrate2report.read.speech.sentences import SENTENCE_END, split_sentences
from narrate2report.records.findings import Entry
from narrate2report.records.transcript import Stretch, Transcript

Statement = tuple[str, ...]
Change = Callable[[Transcript], Transcript]

MARKS = re.compile(r"[.:,/](?!\d)|(?<!\d)[.:,/]|['‘’](?!\w)|(?<!\w)['‘’]|(?<!\w)-|-(?!\w)|[;!?…—–\"“”()*•|>]")
"""Marks, but for those that belong to the spelling of a word or number: `don't`, `re-keyed`, `2.5`, `8/10`."""

BRITISH: Mapping[str, str] = {
    "faucet": "tap", "faucets": "taps", "baseboard": "skirting board", "baseboards": "skirting boards",
    "countertop": "worktop", "countertops": "worktops", "stove": "cooker", "outlet": "socket", "outlets": "sockets",
    "yard": "garden", "trash": "rubbish", "mold": "mould", "moldy": "mouldy", "color": "colour", "odor": "odour",
    "gray": "grey", "flashlight": "torch", "neighbor": "neighbour", "neighbors": "neighbours",
    "caulk": "sealant", "caulking": "sealant", "drywall": "plasterboard", "dryer": "tumble dryer",
    "dumpster": "skip", "smoke detector": "smoke alarm", "drapes": "curtains",
    "refrigerator": "fridge", "garbage": "rubbish", "apartment": "flat", "light bulb": "bulb", "mailbox": "letter box",
}  # fmt: skip
"""American words and the British ones for the same. A word with another meaning besides (`lift`, `flat`) is only
gone to, and not back from."""

ONLY_THERE = frozenset({"apartment", "dumpster", "garbage", "flashlight", "light bulb", "yard"})
AMERICAN: Mapping[str, str] = {british: american for american, british in BRITISH.items() if american not in ONLY_THERE}

FILLERS = ("um", "uh", "you know", "like", "sort of", "er")
"""What people say while they think. They stand where nothing is changed by them: before a sentence, after a comma,
before an article."""
SAFE_BEFORE_ARTICLE = re.compile(r"(?<=\w) (?=(?:the|a|an|this|that|these|those)\b)")
SAFE_AFTER_COMMA = re.compile(r"(?<=,) (?=\w)")

NOT_OF_THIS_PLACE = (
    "I always check for cracks.",
    "If you scratch something, we charge.",
    "I always check for leaks and stains.",
    "If anything gets cracked, we charge for that.",
    "If there's a burn or a hole at the end, that comes out of the deposit.",
    "I always look for mold and water damage.",
)
WARNINGS_OF_IT = (
    "If you scratch it, we charge.",
    "If you crack that, we charge for it.",
    "If it gets stained, you pay.",
)
"""Said to the resident of the thing last spoken of: the record may hold them as advice, and nothing else."""

ANSWER = re.compile(r"^(?:nope|none|no,|nah|yes|yeah)\b|\b(?:don't|do not) see any\b", re.IGNORECASE)

LEAST_WORDS_TO_CUT = 6


def statements(entries: Iterable[Entry]) -> Counter[Statement]:
    """What a record says, without its ids, times, sizes and places."""
    return Counter(
        (one.kind, one.room, one.component, one.condition or one.outcome or one.action or "", one.assertion or "")
        for one in entries
    )


@dataclass(frozen=True)
class Retelling:
    """A change of a transcript; `allows` are the kinds of entry that it may add or take away."""

    change: Change
    allows: frozenset[str] = frozenset()


@dataclass(frozen=True)
class Changes:
    """What a retelling changed in the records of some walks, counted in entries."""

    kept: int
    lost: int
    new: int
    told: tuple[str, ...] = ()
    """Every entry that was lost (`-`) or is new (`+`)."""

    @property
    def before(self) -> int:
        return self.kept + self.lost

    @property
    def agreement(self) -> float:
        """How much of the records is the same (Jaccard 1901, of multisets): 1 where they say the same."""
        return self.kept / max(1, self.kept + self.lost + self.new)


def changes(read: Callable[[Transcript], Reading], walks: Iterable[Transcript], retelling: Retelling) -> Changes:
    """Read walks as they are and told otherwise, and count what the records have in common."""
    kept = lost = new = 0
    told: list[str] = []
    for walk in walks:
        before, after = (
            statements(one for one in read(transcript).findings.entries if one.kind not in retelling.allows)
            for transcript in (walk, retelling.change(walk))
        )
        kept += sum((before & after).values())
        lost += sum((before - after).values())
        new += sum((after - before).values())
        name = walk.recordings[0].file
        told += [f"{name}: - {' '.join(one)}" for one in sorted(before - after)]
        told += [f"{name}: + {' '.join(one)}" for one in sorted(after - before)]
    return Changes(kept, lost, new, tuple(told))


def _each_text(change: Callable[[str], str]) -> Change:
    def retold(transcript: Transcript) -> Transcript:
        return _with(transcript, [one.model_copy(update={"text": change(one.text)}) for one in transcript.stretches])

    return retold


def _with(transcript: Transcript, stretches: Sequence[Stretch]) -> Transcript:
    return transcript.model_copy(update={"stretches": tuple(one for one in stretches if one.text.strip())})


def without_marks(text: str) -> str:
    """The words alone, with the marks that belong to their spelling."""
    return " ".join(MARKS.sub(" ", text).split())


def in_words_of(words: Mapping[str, str]) -> Callable[[str], str]:
    """A text with each of these words in the place of its other."""
    known = re.compile(rf"\b({'|'.join(sorted(map(re.escape, words), key=len, reverse=True))})\b", re.IGNORECASE)

    def told(found: re.Match[str]) -> str:
        other = words[found[0].lower()]
        return other.upper() if found[0].isupper() else other.capitalize() if found[0][0].isupper() else other

    return lambda text: known.sub(told, text)


def with_fillers(text: str) -> str:
    """The text with a filler at about every third place where one does no harm; the same each time."""
    chance = random.Random(text)

    def perhaps(found: re.Match[str]) -> str:
        filler = chance.choice(FILLERS)
        return f" {filler}{',' if chance.random() < 0.5 else ''} " if chance.random() < 0.34 else found[0]

    def opened(sentence: str) -> str:
        return f"{chance.choice(FILLERS[:2]).capitalize()}, {sentence}" if chance.random() < 0.34 else sentence

    text = SAFE_BEFORE_ARTICLE.sub(perhaps, SAFE_AFTER_COMMA.sub(perhaps, text))
    return " ".join(opened(sentence) for sentence in _sentences(text))


def _sentences(text: str) -> Iterator[str]:
    begin = 0
    for end in [*(match.end() for match in SENTENCE_END.finditer(text)), len(text)]:
        if text[begin:end].strip():
            yield text[begin:end].strip()
        begin = end


def under_one_time(count: int) -> Change:
    """Every `count` cues as one."""

    def retold(transcript: Transcript) -> Transcript:
        told = transcript.stretches
        groups = [told[at : at + count] for at in range(0, len(told), count)]
        return _with(
            transcript,
            [
                group[0].model_copy(update={"end": group[-1].end, "text": " ".join(one.text for one in group)})
                for group in groups
            ],
        )

    return retold


def cut_in_two(transcript: Transcript) -> Transcript:
    """Each cue of some length as two, cut between two words in its middle, the way captions are when they are full."""
    stretches: list[Stretch] = []
    for one in transcript.stretches:
        words = one.text.split()
        if len(words) < LEAST_WORDS_TO_CUT:
            stretches.append(one)
            continue
        half, middle = len(words) // 2, (one.start + one.end) / 2
        stretches.append(one.model_copy(update={"end": middle, "text": " ".join(words[:half])}))
        stretches.append(one.model_copy(update={"start": middle, "text": " ".join(words[half:])}))
    return _with(transcript, stretches)


def a_sentence_a_cue(transcript: Transcript) -> Transcript:
    """Each sentence under a time of its own."""
    stretches: list[Stretch] = []
    for one in transcript.stretches:
        sentences = list(_sentences(one.text))
        step = (one.end - one.start) / max(1, len(sentences))
        for at, sentence in enumerate(sentences):
            start = one.start + at * step
            stretches.append(one.model_copy(update={"start": start, "end": start + step, "text": sentence}))
    return _with(transcript, stretches)


def with_talk(lines: Sequence[str], every: int, first: int) -> Change:
    """A line that states nothing of this place after every so many cues, from the `first` on; never in the middle of
    a sentence that goes on in the next cue, nor between a question or search and its answer."""

    def retold(transcript: Transcript) -> Transcript:
        stretches: list[Stretch] = []
        ends = {sentence.end for sentence in split_sentences(transcript)}
        for at, one in enumerate(transcript.stretches):
            following = transcript.stretches[at + 1 : at + 2]
            answered = any(ANSWER.search(after.text) for after in following)
            if at % every != first or one.end not in ends or answered:
                stretches.append(one)
                continue
            middle = (one.start + one.end) / 2
            line = lines[(at // every) % len(lines)]
            stretches.append(one.model_copy(update={"end": middle}))
            stretches.append(one.model_copy(update={"start": middle, "text": line}))
        return _with(transcript, stretches)

    return retold


RETELLINGS: Mapping[str, Retelling] = {
    name: Retelling(change)
    for name, change in {
        "no marks": _each_text(without_marks),
        "lower case": _each_text(str.lower),
        "upper case": _each_text(str.upper),
        "British words": _each_text(in_words_of(BRITISH)),
        "American words": _each_text(in_words_of(AMERICAN)),
        "fillers": _each_text(with_fillers),
        "a sentence a cue": a_sentence_a_cue,
        "two cues under one time": under_one_time(2),
        "three cues under one time": under_one_time(3),
        "a cue cut in two": cut_in_two,
    }.items()
}
ADDED: Mapping[str, Retelling] = {
    f"{name}, {first + 1} of 3": Retelling(with_talk(lines, 3, first), allows)
    for name, lines, allows in (
        ("talk added", NOT_OF_THIS_PLACE, frozenset[str]()),
        ("warnings added", WARNINGS_OF_IT, frozenset({"advice"})),
    )
    for first in range(3)
}
"""Lines added after every third cue."""
