"""Trade words that the recogniser misheard: read what was meant where the neighbourhood makes it plain.

Four ways, in this order: the table of sound-alikes, two words that written together are one, one that is two run
together, and words that make no sense where they stand and sound like what their neighbours call for (`mishearings`).

The transcript is never touched. A repaired sentence is read from its repaired text, and its entries show both.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from rapidfuzz import fuzz, process

from narrate2report.read.lexis.inflect import noun_forms, verb_forms
from narrate2report.read.lexis.phrase_tree import Mention, PhraseTree, Sense, Senses
from narrate2report.read.lexis.vocabulary import Vocabulary
from narrate2report.read.lexis.words import Token, Tokenizer
from narrate2report.read.misheard.by_sound import BySound, Proposal
from narrate2report.read.misheard.doubts import Doubts
from narrate2report.read.misheard.headings import Headings
from narrate2report.read.misheard.mishearings import Mishearings
from narrate2report.read.misheard.neighbours import neighbours_of
from narrate2report.read.misheard.run_together import RunTogether
from narrate2report.read.misheard.small_words import small_words
from narrate2report.read.misheard.sounds import english_sounds
from narrate2report.read.speech.changes import Change, Reread, reread
from narrate2report.read.speech.fillers import without_fillers
from narrate2report.read.speech.sentences import Sentence
from narrate2report.records.findings import Heard
from narrate2report.records.weighing import Passage, Place, Weight

Repaired = tuple[str, tuple[Token, ...], tuple[Heard, ...]]

SURE_ALONE, SURE_BY_NEIGHBOUR, SURE_BY_SOUND = 0.9, 0.75, 0.65

SHORTEST_NEAR, NEAREST = 8, 92
"""Letters that two words need together, and RapidFuzz's ratio, to be taken for one misspelt word."""

COMMON = frozenset(
    "the a an and or of in on at is it its to for with by no not my your this that there some any all".split()
)

PARTICLES = frozenset("up off out in on down over".split())
"""`shut off` is said of a thing, where `shutoff` is one."""
MONTHS, DATED = (
    frozenset({"march", "may"}),
    frozenset("in since last this next by until till early late of from".split()),
)
WANTS_A_VERB = frozenset("to not will can would could should did do does may might must".split())


def _single_words(vocabulary: Vocabulary) -> frozenset[str]:
    """Long one-word names of components and conditions: what two heard words may be together."""
    words = {word for component in vocabulary.components.values() for word in component.say}
    for condition in vocabulary.conditions.values():
        words.update((*condition.nouns, *condition.adjectives))
    forms = {form for word in words if word.isalpha() and len(word) >= 6 for form in noun_forms(word)}
    return frozenset(forms)


def _own_words(vocabulary: Vocabulary) -> frozenset[str]:
    """Words of the trade that make sense by themselves: two of them in a row are two words."""
    words = {word for component in vocabulary.components.values() for word in (*component.say, *component.else_)}
    words.update(
        word for component in vocabulary.components.values() for near in component.near.values() for word in near
    )
    words.update((*vocabulary.descriptions.material, *vocabulary.descriptions.colour))
    for condition in vocabulary.conditions.values():
        words.update((*condition.nouns, *condition.adjectives, *condition.verbs))
    return frozenset(word for word in words if " " not in word)


class Repairer:
    """The table of sound-alikes, ready to be applied to sentences."""

    def __init__(self, vocabulary: Vocabulary, tokenizer: Tokenizer, *, by_sound: bool = True) -> None:
        """Without `by_sound`, the table alone decides."""
        self._tokenizer = tokenizer
        self._tree = PhraseTree()
        self._single = _single_words(vocabulary)
        self._by_size: dict[tuple[str, int], list[str]] = {}
        for word in sorted(self._single):
            self._by_size.setdefault((word[0], len(word)), []).append(word)
        self._words = _own_words(vocabulary)
        self._run_together = RunTogether(vocabulary)
        self._headings = Headings(vocabulary)
        self._neighbours: dict[tuple[str, str], frozenset[str]] = {}
        for wrong, rights in vocabulary.sound_alikes.items():
            for right, neighbours in rights.items():
                self._tree.add(tokenizer.phrase(wrong), Sense("sound_alike", right, wrong))
                words = {form for word in neighbours for form in (*noun_forms(word), *verb_forms(word))}
                self._neighbours[wrong, right] = frozenset(words)

        self._mishearings = self._by_sound = None
        if by_sound:
            near, sounds = neighbours_of(vocabulary), english_sounds()
            self._mishearings = Mishearings(near, sounds)
            self._by_sound = BySound(Doubts(vocabulary, near, sounds), sounds)

    def repair(self, texts: Sequence[str]) -> list[Repaired]:
        """Each text with its tokens, repaired where that is plain, and the repairs that were made."""
        plain = list(self._tokenizer.sentences(texts))
        changes = [_with_small_words(tokens, self._changes(tokens)) for tokens in plain]
        return self._repaired(texts, plain, changes)

    def reread(self, texts: Sequence[str]) -> list[Reread]:
        """Each text as it is read without its fillers and repaired, and where its words stood."""
        fluent = [without_fillers(text) for text in texts]
        plain = list(self._tokenizer.sentences(fluent))
        changes = [_with_small_words(tokens, self._changes(tokens)) for tokens in plain]
        repaired = self._repaired(fluent, plain, changes)
        wholes = iter(
            self._tokenizer.sentences([text for text, left in zip(texts, fluent, strict=True) if text != left])
        )
        return [
            reread(tokens, heard, changed).among(next(wholes) if text != left else heard, heard)
            for (_, tokens, _), heard, changed, text, left in zip(repaired, plain, changes, texts, fluent, strict=True)
        ]

    def ask(self, sentences: Sequence[Sentence]) -> list[Passage]:
        """What must be asked of the sound of sentences, to repair them by it."""
        if self._by_sound is None:
            return []
        texts = [without_fillers(sentence.marked) for sentence in sentences]
        asked = [
            self._by_sound.ask(sentence, text, tokens, self._changes(tokens))
            for sentence, text, tokens in zip(sentences, texts, self._tokenizer.sentences(texts), strict=True)
        ]
        return [passage for passage in asked if passage is not None]

    def proposals(self, sentence: Sentence) -> list[Proposal]:
        """What the sound of a sentence may be asked beyond what its text alone admits; for choosing limits."""
        if self._by_sound is None:
            return []
        text = without_fillers(sentence.marked)
        [tokens] = self._tokenizer.sentences([text])
        return self._by_sound.proposals(sentence, text, tokens, self._changes(tokens))

    def repair_spoken(self, sentences: Sequence[Sentence], weights: Mapping[Place, Weight]) -> list[Repaired]:
        """As `repair`, without the fillers of the sentences, and by what their sound gave where it was asked."""
        texts = [without_fillers(sentence.marked) for sentence in sentences]
        if not weights or self._by_sound is None:
            return self.repair(texts)
        plain = list(self._tokenizer.sentences(texts))
        changes = [
            _with_small_words(tokens, self._by_sound.settle(sentence, text, tokens, self._changes(tokens), weights))
            for sentence, text, tokens in zip(sentences, texts, plain, strict=True)
        ]
        return self._repaired(texts, plain, changes)

    def _repaired(
        self, texts: Sequence[str], plain: Sequence[tuple[Token, ...]], changes: Sequence[Sequence[Change]]
    ) -> list[Repaired]:
        told = [_changed(*one) for one in zip(texts, plain, changes, strict=True)]
        again = iter(
            self._tokenizer.sentences([text for (text, _), was in zip(told, texts, strict=True) if text != was])
        )
        return [
            (text, next(again) if text != was else tokens, heard)
            for (text, heard), was, tokens in zip(told, texts, plain, strict=True)
        ]

    def _joined(self, tokens: Sequence[Token], norms: Sequence[str]) -> list[Mention]:
        """`car pet`, `thresh hold`: words that written together are one word of the trade and apart make no pair."""
        found: list[Mention] = []
        for at in range(len(norms) - 1):
            first, second = norms[at], norms[at + 1]
            if (
                not (first.isalpha() and second.isalpha())
                or (found and at < found[-1].end)
                or min(len(first), len(second)) < 2
                or second in PARTICLES
                or tokens[at + 1].hyphen_before
            ):
                continue
            joined = first + second
            if {first, second} & self._words:
                continue
            if joined in self._single:
                found.append(Mention(at, at + 2, Senses([Sense("joined", joined)])))
            elif len(joined) >= SHORTEST_NEAR and min(len(first), len(second)) > 2 and not {first, second} & COMMON:
                near = self._spelled_like(joined)
                if near is not None:
                    found.append(Mention(at, at + 2, Senses([Sense("joined", near)])))
        return found

    def _spelled_like(self, joined: str) -> str | None:
        """The word that two words together misspell: one letter more or less, and seldom the first."""
        for length in (len(joined), len(joined) - 1, len(joined) + 1):
            words = self._by_size.get((joined[0], length))
            near = process.extractOne(joined, words, scorer=fuzz.ratio, score_cutoff=NEAREST) if words else None
            if near is not None:
                return str(near[0])
        return None

    def _changes(self, tokens: Sequence[Token]) -> list[Change]:
        """What is read otherwise, left to right: the table before words written apart, and both before the sound."""
        norms = [token.norm for token in tokens]
        found: list[Change] = []
        for mention in self._tree.matches(norms):
            meant = self._meant(mention, norms)
            if meant and not _makes_sense(mention.start, tokens, by_neighbour=bool(meant[1])):
                found.append(_change(mention.start, mention.end, *meant, SURE_BY_NEIGHBOUR if meant[1] else SURE_ALONE))
        ways = [
            [_change(one.start, one.end, one.senses[0].id, "", SURE_ALONE) for one in self._joined(tokens, norms)],
            list(self._run_together.find(norms)),
            list(self._headings.find(tokens)),
            [
                _change(one.start, one.end, one.meant, one.neighbour, SURE_BY_SOUND)
                for one in (self._mishearings.find(tokens) if self._mishearings else ())
            ],
        ]
        for changes in ways:
            found += [change for change in changes if not any(change.overlaps(other) for other in found)]
        return sorted(found, key=lambda change: change.start)

    def _meant(self, mention: Mention, norms: Sequence[str]) -> tuple[str, str] | None:
        """The right words and the neighbour that admits them; an empty neighbour where none is needed."""
        around = [norm for at, norm in enumerate(norms) if not mention.start <= at < mention.end]
        for sense in mention.senses:
            wanted = self._neighbours[sense.form, sense.id]
            if not wanted:
                return sense.id, ""
            neighbour = next((norm for norm in around if norm in wanted), None)
            if neighbour:
                return sense.id, neighbour
        return None


def _with_small_words(tokens: Sequence[Token], changes: Sequence[Change]) -> list[Change]:
    """The changes with those of small words, which no sound decides: they are told apart by grammar alone."""
    small = [one for one in small_words(tokens) if not any(one.overlaps(other) for other in changes)]
    return sorted((*changes, *small), key=lambda change: change.start)


def _changed(text: str, tokens: Sequence[Token], changes: Sequence[Change]) -> tuple[str, tuple[Heard, ...]]:
    """A text with its changes made, but for those that are asked, and all of them as they are told."""
    pieces: list[str] = []
    heard: list[Heard] = []
    done = 0
    for change in changes:
        start, end = tokens[change.start].start, tokens[change.end - 1].end
        heard.append(change.told(text[start:end]))
        if not change.asked:
            pieces += [text[done:start], change.read]
            done = end
    return "".join((*pieces, text[done:])), tuple(heard)


def _change(start: int, end: int, read: str, neighbour: str, sureness: float) -> Change:
    why = f"makes no sense by itself and sounds like '{read}'"
    if neighbour:
        why = f"sounds like '{read}', which '{neighbour}' beside it calls for"
    return Change(start, end, read, why, sureness)


def _makes_sense(at: int, tokens: Sequence[Token], *, by_neighbour: bool) -> bool:
    """`don't lose them`, `out of its track`: what stands before wants the word as it is."""
    if not at:
        return False
    before, token = tokens[at - 1].norm, tokens[at]
    if token.norm in MONTHS and before in DATED:
        return True  # painted in March
    if token.norm == "of":
        return before == "out"
    return by_neighbour and token.tag == "VB" and before in WANTS_A_VERB
