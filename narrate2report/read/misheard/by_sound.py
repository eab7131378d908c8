"""Words that were misheard, decided by the sound: what is asked of it, and what its answer makes of a sentence.

Text proposes (`doubts`, and the repairs that the neighbours alone would make), the speech model weighs each reading on
the very sound (`records/weighing`), and how likely each is by all that is known of it (`odds`) decides: it is read so,
asked of the reviewer, or left as heard. What that does is counted by tests/benchmarks/sound_repair.py.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace

from narrate2report.read.lexis.words import Token
from narrate2report.read.misheard.doubts import Doubt, Doubts
from narrate2report.read.misheard.odds import odds_asked
from narrate2report.read.misheard.sounds import Sounds, apart
from narrate2report.read.speech.changes import Change
from narrate2report.read.speech.sentences import Sentence
from narrate2report.records.transcript import Word
from narrate2report.records.weighing import LONGEST_S, Passage, Place, Weight

SURE_READ, SURE_ASKED = 0.7, 0.4

CONTRADICTED = -6.0
"""Nats: where what the neighbours call for is this much less likely by its sound, the reviewer is asked instead."""

SAME_SOUND = 0.05
"""How far apart the sounds of two words may be that are the same to the ear."""

READ_FROM, ASK_FROM = 0.5, 0.25
"""The least probability with which other words are read, and with which the reviewer is asked."""

CLEAR = 0.65
"""Mean probability of the words of a sentence: where it is lower, the model was guessing all along, and nothing is read
otherwise without asking."""


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

    None where the words cannot be told again in the whole sentence, or other words are no plain words.
    """
    start, end = tokens[change.start].start, tokens[change.end - 1].end
    words = fluent[start:end]
    if not change.read.replace(" ", "").isalpha():
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
    """A doubt as a change of its sentence, with the whole text that the sound is asked of."""

    doubt: Doubt
    change: Change
    reading: str


class BySound:
    """Asks the sound of a sentence, and settles its changes by the answer."""

    def __init__(self, doubts: Doubts, sounds: Sounds) -> None:
        self._doubts, self._sounds = doubts, sounds

    def ask(
        self, sentence: Sentence, fluent: str, tokens: Sequence[Token], changes: Sequence[Change]
    ) -> Passage | None:
        """What the sound is asked of a sentence: the changes that its text alone admits, and what it casts doubt on.

        None where there is nothing to ask, or nothing that could be weighed.
        """
        if sentence.doubt or not sentence.words or sentence.end - sentence.start > LONGEST_S:
            return None
        by_text = [reading_of(sentence.text, fluent, tokens, change) for change in changes if _as_many(change, tokens)]
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
            weight = weight_of(reading_of(sentence.text, fluent, tokens, change)) if _as_many(change, tokens) else None
            may_tell = not self._sound_alike(tokens[change.start].norm, change.read)
            settled.append(_by_its_sound(change, weight, may_tell=may_tell))
        clear = sum(word.probability for word in sentence.words) >= CLEAR * len(sentence.words)
        for chance, change in _chances(self.proposals(sentence, fluent, tokens, changes), weight_of):
            if chance < ASK_FROM:
                break
            if not any(change.overlaps(other) for other in settled):
                settled.append(change if chance >= READ_FROM and clear else _asked(change))
        return sorted(settled, key=lambda one: one.start)

    def proposals(
        self, sentence: Sentence, fluent: str, tokens: Sequence[Token], changes: Sequence[Change]
    ) -> list[Proposal]:
        """Every doubt that no change stands in the way of."""
        if sentence.doubt or not sentence.words:
            return []
        found = []
        for doubt in self._doubts.find(tokens, chances_of(tokens, sentence.words)):
            change = Change(doubt.start, doubt.end, doubt.words, _why(doubt), SURE_READ)
            reading = reading_of(sentence.text, fluent, tokens, change)
            if reading is not None and not any(change.overlaps(other) for other in changes):
                found.append(Proposal(doubt, change, reading))
        return found

    def _sound_alike(self, one: str, other: str) -> bool:
        """Whether two words are said so nearly alike that no recording tells them apart: `cock` and `caulk`."""
        words = one.isalpha() and other.isalpha()
        return words and apart(self._sounds.of(other), self._sounds.of(one)) <= SAME_SOUND


def _chances(proposals: Sequence[Proposal], weight_of: Callable[[str], Weight | None]) -> list[tuple[float, Change]]:
    """How probable each change is, the likeliest first: beside what was heard, and beside the others in its place.

    What speaks for one of several that are equally likely speaks for none of them.
    """
    weighed = [(one, weight) for one in proposals if (weight := weight_of(one.reading)) is not None]
    odds = [(replace(one.change, sound=weight), odds_asked(one.doubt.signs, weight)) for one, weight in weighed]
    chances = [
        (own / (1 + sum(other for rival, other in odds if rival.overlaps(change))), change) for change, own in odds
    ]
    return sorted(chances, key=lambda one: -one[0])


def _as_many(change: Change, tokens: Sequence[Token]) -> bool:
    """Whether other words take the place of as many: written together or apart, they sound the same."""
    return len(change.read.split()) == sum(token.is_word for token in tokens[change.start : change.end])


def _asked(change: Change) -> Change:
    return replace(change, asked=True, sureness=SURE_ASKED)


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


def _why(doubt: Doubt) -> str:
    if doubt.signs.mined:
        return f"the recording allows '{doubt.words}', which is often heard so"
    return f"the recording allows '{doubt.words}', which is likelier to be said here on a walk"
