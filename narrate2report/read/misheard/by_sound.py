"""Words that were misheard, decided by the sound: what is asked of it, and what its answer makes of a sentence.

Text proposes (`doubts`, and the repairs that the neighbours alone would make), the speech model weighs each reading on
the very sound (`records/weighing`), and the limits below decide: read so, asked of the reviewer, or left as heard.
They were chosen with tests/benchmarks/sound_repair.py on voices and narrations that its figures do not use.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from narrate2report.read.lexis.words import Token
from narrate2report.read.misheard.doubts import Doubts, Option, Suspect
from narrate2report.read.speech.changes import Change
from narrate2report.read.speech.sentences import Sentence
from narrate2report.records.transcript import Word
from narrate2report.records.weighing import LONGEST_S, Passage, Place, Weight

Verdict = Literal["read", "ask", "leave"]

SURE_READ, SURE_ASKED = 0.7, 0.4

CONTRADICTED = -6.0
"""Nats: where what the neighbours call for is this much less likely by its sound, the reviewer is asked instead."""


@dataclass(frozen=True)
class Limits:
    """The least that the sound must give for a reading, in nats: alone, and with words of the trade before it."""

    plain: float
    context: float

    def admit(self, weight: Weight) -> bool:
        """Whether both are reached."""
        return weight.plain >= self.plain and weight.context is not None and weight.context >= self.context


READ_KNOWN, READ_ALIKE = Limits(-2.0, -2.0), Limits(0.0, 0.5)
"""To be read: what is known to be heard so or is called for, and what only sounds alike."""
ASK_KNOWN, ASK_ALIKE = Limits(-6.0, -4.0), Limits(-4.5, -4.0)

CLEAR, FAIR = 0.8, 0.7
"""Mean probability of the words of a sentence: where it is lower, a word that sounds alike, and below the other any
word, is nothing to go by; the model was guessing all along."""

HESITANT, UNSURE_KNOWN = 0.6, 0.75
"""A word heard with more probability than this was no guess: it is not given up without asking, nor at all for one that
only sounds alike. The second is for what is known to be heard so."""

SAME_SOUND, LIKE_SOUND = 0.15, 0.2
"""How far a word that only sounds alike may be, to be read and to be asked."""


def chances_of(tokens: Sequence[Token], words: Sequence[Word]) -> list[float]:
    """The probability with which each token was heard; 1 where the words do not tell."""
    chances, at = [], 0
    for token in tokens:
        ahead = words[at : at + 4]
        found = next((k for k, word in enumerate(ahead) if token.text.lower() in word.text.lower()), None)
        at += found or 0
        chances.append(1.0 if found is None else ahead[found].probability)
    return chances


def reading_of(whole: str, fluent: str, tokens: Sequence[Token], change: Change) -> str | None:
    """The whole sentence with the change; `fluent` is what it is without its fillers, to which tokens belong.

    None where other words do not take the place of as many: texts of different lengths do not compare.
    """
    start, end = tokens[change.start].start, tokens[change.end - 1].end
    words = fluent[start:end]
    if len(change.read.split()) != len(words.split()) or not change.read.replace(" ", "").isalpha():
        return None
    these = re.compile(rf"\b{re.escape(words)}\b")
    places, before = list(these.finditer(whole)), list(these.finditer(fluent))
    number = next((at for at, one in enumerate(before) if one.start() == start), None)
    if number is None or len(places) != len(before):
        return None
    place = places[number]
    said = change.read[:1].upper() + change.read[1:] if words[0].isupper() else change.read
    return whole[: place.start()] + said + whole[place.end() :]


@dataclass(frozen=True)
class Proposal:
    """An option of a suspect, as a change of its sentence, with the whole text that the sound is asked of."""

    suspect: Suspect
    option: Option
    change: Change
    reading: str


class BySound:
    """Asks the sound of a sentence, and settles its changes by the answer."""

    def __init__(self, doubts: Doubts) -> None:
        self._doubts = doubts

    def ask(
        self, sentence: Sentence, fluent: str, tokens: Sequence[Token], changes: Sequence[Change]
    ) -> Passage | None:
        """What the sound is asked of a sentence: the changes that its text alone admits, and what it casts doubt on.

        None where there is nothing to ask, or nothing that could be weighed.
        """
        if sentence.doubt or not sentence.words or sentence.end - sentence.start > LONGEST_S:
            return None
        by_text = [reading_of(sentence.text, fluent, tokens, change) for change in changes]
        proposed = [one.reading for one in self.proposals(sentence, fluent, tokens, changes)]
        readings = tuple(dict.fromkeys(reading for reading in (*by_text, *proposed) if reading is not None))
        if not readings:
            return None
        return Passage(
            recording=sentence.recording,
            start=sentence.start,
            end=sentence.end,
            text=sentence.text,
            readings=readings,
        )

    def settle(
        self,
        sentence: Sentence,
        fluent: str,
        tokens: Sequence[Token],
        changes: Sequence[Change],
        weights: Mapping[Place, Weight],
    ) -> list[Change]:
        """The changes of a sentence by what the sound gave, left to right."""

        def weight_of(reading: str | None) -> Weight | None:
            return None if reading is None else weights.get((sentence.recording, sentence.start, reading))

        settled = []
        for change in changes:
            weight = weight_of(reading_of(sentence.text, fluent, tokens, change))
            may_tell = not self._doubts.sound_alike(tokens[change.start].norm, change.read)
            settled.append(_by_its_sound(change, weight, may_tell=may_tell))
        best: dict[int, tuple[tuple[bool, float], Change]] = {}
        for one in self.proposals(sentence, fluent, tokens, changes):
            weight = weight_of(one.reading)
            verdict = "leave" if weight is None else judge(one.suspect, one.option, weight, clarity_of(sentence.words))
            if weight is None or verdict == "leave":
                continue
            rank = (verdict == "read", weight.context or weight.plain)
            if one.suspect.at not in best or rank > best[one.suspect.at][0]:
                best[one.suspect.at] = rank, _decided(one.change, weight, asked=verdict == "ask")
        return sorted([*settled, *(change for _, change in best.values())], key=lambda one: one.start)

    def proposals(
        self, sentence: Sentence, fluent: str, tokens: Sequence[Token], changes: Sequence[Change]
    ) -> list[Proposal]:
        """Every option of every suspect that no change stands in the way of."""
        if sentence.doubt or not sentence.words:
            return []
        found = []
        for suspect in self._doubts.find(tokens, chances_of(tokens, sentence.words)):
            for option in suspect.options:
                change = Change(suspect.at, suspect.at + 1, option.word, _why(option), SURE_READ)
                reading = reading_of(sentence.text, fluent, tokens, change)
                if reading is not None and not any(change.overlaps(other) for other in changes):
                    found.append(Proposal(suspect, option, change, reading))
        return found


def judge(suspect: Suspect, option: Option, weight: Weight, clarity: float) -> Verdict:
    """What becomes of one option, by what speaks for it, what the sound gave, and how well the sentence was heard.

    `clarity` is the mean probability of its words.
    """
    if clarity < FAIR:
        return "leave"
    if option.times or option.called - {"said"}:
        if READ_KNOWN.admit(weight) and suspect.chance <= (UNSURE_KNOWN if option.times else HESITANT):
            return "read"
        return "ask" if ASK_KNOWN.admit(weight) else "leave"
    if suspect.chance > HESITANT and suspect.is_word:
        return "leave"
    alike = option.apart <= SAME_SOUND and suspect.is_word and clarity >= CLEAR
    if alike and READ_ALIKE.admit(weight):
        return "read"
    near = option.apart <= LIKE_SOUND or not suspect.is_word
    return "ask" if near and ASK_ALIKE.admit(weight) else "leave"


def clarity_of(words: Sequence[Word]) -> float:
    """The mean probability with which the words of a sentence were heard."""
    return sum(word.probability for word in words) / len(words) if words else 0.0


def _decided(change: Change, weight: Weight, *, asked: bool) -> Change:
    return replace(change, sound=weight, asked=asked, sureness=SURE_ASKED if asked else SURE_READ)


def _by_its_sound(change: Change, weight: Weight | None, *, may_tell: bool) -> Change:
    """A change that the text alone makes: asked instead where the sound speaks against it.

    Of two words that sound the same the model only says which is the more usual one, so there it may not tell.
    """
    if weight is None:
        return change
    if may_tell and weight.plain < CONTRADICTED:
        why = f"{change.why}; the recording speaks against it"
        return replace(change, sound=weight, asked=True, sureness=SURE_ASKED, why=why)
    return replace(change, sound=weight)


def _why(option: Option) -> str:
    if option.neighbour:
        return f"the recording allows '{option.word}', which '{option.neighbour}' beside it calls for"
    if option.times:
        return f"the recording allows '{option.word}', which is often heard so"
    return f"the recording allows '{option.word}', a word of the trade"
