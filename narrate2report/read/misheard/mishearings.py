"""Words that make no sense where they stand, and the trade word of the same sound that their neighbours call for.

The sound proposes and the neighbourhood decides. A word of the vocabulary, a very common word and a name are not
doubted, and what nothing beside it calls for is left as it was heard.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass

from rapidfuzz import fuzz, process

from narrate2report.read.lexis.inflect import same_word
from narrate2report.read.lexis.words import Token
from narrate2report.read.misheard.neighbours import Neighbours
from narrate2report.read.misheard.sound_index import SoundIndex
from narrate2report.read.misheard.sounds import Sounds, apart
from narrate2report.read.misheard.surroundings import BE, NOUN, PASSED, PLACED, Call, Kind, Surroundings

COMMON, USUAL = 2_500, 1_500
"""In a million sentences: a word that is doubted only for another of the very same sound, and one that is too usual
to have been misheard (but as half of a phrase)."""

FIRM = frozenset("MD IN TO PRP PRP$ WDT WP WRB DT CC RB EX UH".split())
"""Tags of words that are hardly ever a misheard noun."""

APPEARS = frozenset("looks feels seems sounds smells".split())
"""Before an adjective these say how a thing is, whatever the tagger makes of them."""

LIKE_SPELLING = 75
"""RapidFuzz's ratio that a string of letters needs to a word, to be compared with it by sound."""

FARTHEST = 0.36
OTHER_NUMBER, ONLY_SAID, EACH_CALL = 0.08, 0.12, 0.05
"""How much farther a word counts that is singular where its sentence has a plural, or that only a condition of
other things speaks for; and how much nearer for each neighbour that calls for it."""

LONG = 5
"""Sounds that a word must have, to be known again by them alone."""

SINGULAR = frozenset("is was 's has a an one this".split())
PLURAL = frozenset("are were have two three four few some these".split())


@dataclass(frozen=True)
class Limits:
    """How far the trade word's sound may be, by what calls for it."""

    pair: float
    place: float
    places: float
    state: float
    said: float
    alone: float


KNOWN = Limits(pair=0.27, place=0.13, places=0.25, state=0.1, said=0.03, alone=-1.0)
UNKNOWN = Limits(pair=0.36, place=0.22, places=0.34, state=0.16, said=0.16, alone=0.1)
WRITTEN_APART = Limits(pair=0.12, place=0.12, places=0.12, state=0.12, said=0.09, alone=-1.0)
"""For a word of English, for a string of letters that is none, and for two or three words that are one."""

ONE_OF_OURS, PART, SHORT, SHORT_PAIR = 0.06, 0.12, 0.0, 0.2
"""The limit where one of those two is itself a word of the trade (`mantle pees`), for a word that stands in phrases
of the vocabulary or is meant to be a very usual one, and for a word of three sounds that one neighbour calls for, or
two or the other half of its phrase."""


@dataclass(frozen=True)
class Misheard:
    """Tokens `start` to `end` (exclusive), what was meant, the neighbour that calls for it (or none), how far it is."""

    start: int
    end: int
    meant: str
    neighbour: str
    apart: float


class Mishearings:
    """Finds misheard words in the tokens of a sentence."""

    def __init__(self, neighbours: Neighbours, sounds: Sounds) -> None:
        self._near = neighbours
        self._sounds = sounds
        trade = (neighbours.things | neighbours.flaws | neighbours.adjectives) - neighbours.wrong
        trade = frozenset(word for word in trade if len(word) > 2 and sounds.common(word) < USUAL)
        halves = frozenset().union(*neighbours.after.values(), *neighbours.before.values()) - neighbours.wrong
        self._codes = {word: sounds.of(word) for word in sorted(trade | halves)}
        self._index = SoundIndex({word: self._codes[word] for word in sorted(trade)})
        self._spelled = sorted(trade)
        same = {self._codes[word] for word in halves}
        self._fits = neighbours.words | {
            word for word, count in sounds.per_million.items() if count >= COMMON and sounds.of(word) not in same
        }
        self._ours = neighbours.things | neighbours.flaws
        self._alike: dict[str, dict[str, float]] = {}

    def find(self, tokens: Sequence[Token]) -> list[Misheard]:
        """The mishearings that are plain, left to right, none overlapping."""
        norms = [token.norm for token in tokens]
        around = Surroundings(tokens, norms, self._near)
        found: list[Misheard] = []
        done = 0
        for at, norm in enumerate(norms):
            if at < done or norm in self._fits or len(norm) < 3 or not norm.isalpha():
                continue
            if not self._is_doubtful(norm, tokens[at].tag, around.before(at), around.after(at + 1)):
                continue
            spans = ((at, at + 1), (at, at + 2), (at - 1, at + 1), (at - 1, at + 2), (at, at + 3), (at - 2, at + 1))
            ones = [
                one
                for start, end in spans
                if start >= done and end <= len(norms) and (one := self._judged(start, end, tokens, norms, around))
            ]
            if ones:
                best = min(ones, key=lambda one: (one.apart, one.start - one.end))
                found.append(best)
                done = best.end
        return found

    def _is_doubtful(self, norm: str, tag: str, left: str, right: str) -> bool:
        near = self._near
        if norm in APPEARS and right in near.adjectives:
            return False  # the window looks scratched
        if tag in FIRM or (norm in near.deeds and tag not in NOUN):
            return False
        if norm in near.after.get(left, ()) or norm in near.before.get(right, ()):
            return False
        if (left, norm) in near.sensible or (norm, right) in near.sensible:
            return False
        return not tag.startswith("VB") or right in BE or left in BE or left in PASSED

    def _judged(
        self, start: int, end: int, tokens: Sequence[Token], norms: Sequence[str], around: Surroundings
    ) -> Misheard | None:
        words, single = norms[start:end], end - start == 1
        if around.after(end) == "of" or not (single or self._may_be_one(words)):
            return None
        calls = list(around.calls(start, end))
        pairs = [call for call in calls if call.kind == "pair"]
        if _is_name(start, end, tokens, paired=bool(pairs)):
            return None
        if not calls and (not single or self._sounds.is_word(words[0])):
            return None
        spelled, heard = "".join(words), "".join(self._sounds.of(word) for word in words)
        alike = self._sounding_like(spelled, heard) if single else self._index.near(heard, WRITTEN_APART.pair)
        wanted = self._wanted(calls, alike, heard)
        if single and not self._sounds.is_word(spelled):
            wanted = {word: [] for word in alike} | wanted
        ranked = []
        for meant, callers in wanted.items():
            distance = alike.get(meant)
            distance = apart(heard, self._codes[meant]) if distance is None else distance
            if (single and same_word(meant, spelled)) or distance > self._limit(words, heard, meant, callers):
                continue
            kinds = {call.kind for call in callers}
            distance += 0.0 if _is_plural(start, end, norms) == meant.endswith("s") else OTHER_NUMBER
            distance -= EACH_CALL * len(kinds - {"said"})
            distance += ONLY_SAID if kinds == {"said"} and self._sounds.is_word(spelled) else 0.0
            ranked.append((distance, meant, callers[0].neighbour if callers else ""))
        if not ranked:
            return None
        distance, meant, neighbour = min(ranked)
        return Misheard(start, end, meant, neighbour, distance)

    def _may_be_one(self, words: Sequence[str]) -> bool:
        """Whether two or three words could be one word of the trade that was written apart."""
        if sum(word in self._near.words for word in words) > 1:
            return False
        return not any(word in PASSED or word in PLACED or word in BE or not word.isalpha() for word in words)

    def _sounding_like(self, spelled: str, heard: str) -> dict[str, float]:
        """Trade words that a single word may have been, by its sound and, where it is no word, by its spelling."""
        found = self._alike.get(spelled)
        if found is None:
            unknown = not self._sounds.is_word(spelled)
            found = self._index.near(heard, FARTHEST if unknown else KNOWN.pair)
            if unknown:
                for word, _, _ in process.extract(
                    spelled, self._spelled, scorer=fuzz.ratio, score_cutoff=LIKE_SPELLING, limit=3
                ):
                    found.setdefault(word, apart(heard, self._codes[word]))
            self._alike[spelled] = found
        return found

    def _wanted(self, calls: Sequence[Call], alike: dict[str, float], heard: str) -> dict[str, list[Call]]:
        """The words called for that it may have been, each with what calls for it."""
        found: dict[str, list[Call]] = defaultdict(list)
        for call in calls:
            if call.kind == "pair":
                for word in call.words & self._codes.keys():
                    if abs(len(self._codes[word]) - len(heard)) <= 2:
                        found[word].append(call)
        for call in calls:
            if call.kind != "pair":
                for word in {*alike, *found} & call.words:
                    found[word].append(call)
        return found

    def _limit(self, words: Sequence[str], heard: str, meant: str, callers: Sequence[Call]) -> float:
        """How far what is called for may be from the sound of what was heard; below 0 where it may not be at all."""
        code, spelled = self._codes[meant], words[0]
        kinds = {call.kind for call in callers}
        if len(words) > 1:
            limit = _by_kind(WRITTEN_APART, kinds) if len(code) >= 5 else -1.0
            return min(limit, ONE_OF_OURS) if self._near.words & set(words) else limit
        if not self._sounds.is_word(spelled):
            return _by_kind(UNKNOWN, kinds) if callers or len(code) >= LONG else -1.0
        if kinds == {"pair"} and not any(call.neighbour in self._ours for call in callers):
            return -1.0  # `hard word`: half of a phrase, but nothing else here speaks of the trade
        if self._sounds.common(spelled) >= COMMON:
            return 0.0 if "pair" in kinds else -1.0
        limit = _by_kind(KNOWN, kinds)
        if max(len(code), len(heard)) < 4:
            limit = SHORT_PAIR if limit in (KNOWN.pair, KNOWN.places) else SHORT
        if self._sounds.common(meant) >= COMMON:
            limit = min(limit, PART)
        return min(limit, PART) if spelled in self._near.parts else limit


def _is_name(start: int, end: int, tokens: Sequence[Token], *, paired: bool) -> bool:
    """Letters for themselves, or a capital within the sentence; a name takes its neighbour's capital along."""
    if not any(token.text.islower() for token in tokens):
        return False  # all in capitals, which then say nothing
    if len(tokens[start].text) > 1 and tokens[start].text.isupper():
        return True
    if not start or not tokens[start].text[0].isupper():
        return False
    return not paired or any(token.text[0].isupper() for token in (*tokens[1:start][-1:], *tokens[end : end + 1]))


def _by_kind(limits: Limits, kinds: set[Kind]) -> float:
    if not kinds:
        return limits.alone
    if kinds == {"said"}:
        return limits.said
    if "pair" in kinds:
        return limits.pair
    if kinds <= {"state", "said"}:
        return limits.state
    return limits.places if len(kinds - {"said"}) > 1 else limits.place


def _is_plural(start: int, end: int, norms: Sequence[str]) -> bool:
    """What the verb or the number beside it says, else its own last letter."""
    for norm in (norms[end] if end < len(norms) else "", norms[start - 1] if start else ""):
        if norm in SINGULAR or norm in PLURAL:
            return norm in PLURAL
    return norms[end - 1].endswith("s")
