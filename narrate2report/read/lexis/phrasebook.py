"""The vocabulary's longest matches in a sentence.

Its trees (`phrase_forest`) hold what is not what it looks like (idioms), terms, and cues. An idiom shields its
words from the terms; a phrase in which a word is not one certain term (`crack the window`) shields them
from that term only.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from narrate2report.read.lexis.phrase_forest import Trees
from narrate2report.read.lexis.phrase_tree import COMPONENT_ROLES, Mention, Sense, Senses
from narrate2report.read.lexis.similes import likenesses
from narrate2report.read.lexis.vocabulary import Vocabulary
from narrate2report.read.lexis.words import Token, Tokenizer

KIND_OF = {"near": "component", "in": "component", "else": "component", "works": "component", "rooms": "room"}
"""Roles of which a phrase that is not the term forbids all."""


def _allowed(mention: Mention, forbidden: Sequence[Mention]) -> Mention | None:
    """A match without the meanings that phrases around it forbid; None where none is left.

    A phrase inside a longer one of the same term forbids it nothing: `coming off the` is not loose, but
    `coming off the wall` is.
    """
    length = mention.end - mention.start
    banned = {
        (sense.form, sense.id)
        for phrase in forbidden
        if phrase.start < mention.end
        and mention.start < phrase.end
        and not (mention.start <= phrase.start and phrase.end <= mention.end and phrase.end - phrase.start < length)
        for sense in phrase.senses
    }
    if not banned:
        return mention
    senses = Senses(s for s in mention.senses if (KIND_OF.get(s.role, s.role), s.id) not in banned)
    return Mention(mention.start, mention.end, senses) if senses else None


def _says_of_anything(term: Mention) -> bool:
    """`come away`, where `has come away` is known of wallpaper alone: a flaw of any component."""
    return any(not sense.beside for sense in term.of("condition"))


ARTICLES = frozenset({"the", "a", "an"})
HELPING = frozenset({"has", "have", "is", "are", "'s"})


def _with_first(found: Sequence[Mention]) -> Mention:
    """The longest match; `slide home`, which is known of drawers, says of a bolt that it slides."""
    longest = found[-1]
    doers = {sense.id for sense in longest.of("works")}
    if not doers or any(sense.role != "works" or sense.form != "verb" for sense in longest.senses):
        return longest
    more = [sense for one in found[:-1] for sense in one.of("works") if sense.form == "verb" and sense.id not in doers]
    return Mention(longest.start, longest.end, Senses((*longest.senses, *dict.fromkeys(more)))) if more else longest


@dataclass(frozen=True)
class Found:
    """All vocabulary matches of one sentence."""

    terms: tuple[Mention, ...]
    cues: tuple[Mention, ...]
    shielded: frozenset[int]
    idioms: tuple[Mention, ...] = ()
    """What shields words, from all terms or from one, and what implies a room."""
    implied_rooms: tuple[str, ...] = ()
    within: Mapping[int, tuple[Mention, ...]] = field(default_factory=dict)
    """The component words inside a condition phrase (`hair in the drain`), by the token that the phrase starts at."""
    opening: Mapping[int, Mention] = field(default_factory=dict)
    """The component word that opens a condition phrase (`light flickers`), by the token that the phrase starts at."""


def _counts_what_follows(mention: Mention, tokens: Sequence[Token]) -> bool:
    """`there is not one spot on it`: the phrase is cut off before its noun, and says nothing by itself."""
    if mention.end - mention.start < 3 or tokens[mention.end - 1].norm != "one" or mention.end >= len(tokens):
        return False
    return tokens[mention.end].tag in {"NN", "NNS", "JJ"}


class PhraseBook:
    """The vocabulary, ready to be matched."""

    def __init__(self, vocabulary: Vocabulary, tokenizer: Tokenizer) -> None:
        grown = Trees(vocabulary, tokenizer)
        self._terms, self._cues, self._idioms = grown.terms, grown.cues, grown.idioms

    def find(self, tokens: Sequence[Token]) -> Found:
        """All matches in a sentence: idioms first, then terms outside them, and cues everywhere."""
        norms = [token.norm for token in tokens]
        shielded: set[int] = set()
        forbidden: list[Mention] = []
        implied: list[str] = []
        idioms = (*self._idioms.all_matches(norms), *self._similes(tokens, norms))
        for idiom in idioms:
            for sense in idiom.senses:
                if sense.role == "implies":
                    implied.append(sense.id)
                    continue
                if sense.id:
                    forbidden.append(Mention(idiom.start, idiom.end, Senses([sense])))
                else:
                    shielded.update(range(idiom.start, idiom.end))
        open_norms = ["" if at in shielded else norm for at, norm in enumerate(norms)]
        terms = [term for term in self._meant(open_norms, forbidden) if not _counts_what_follows(term, tokens)]
        within = {term.start: inner for term in terms if (inner := self._components_within(term, open_norms))}
        opening = {term.start: one for term in terms if (one := self._opens_with(term, open_norms)) is not None}
        return Found(
            tuple(terms),
            tuple(self._cues_in(norms, terms)),
            frozenset(shielded),
            idioms,
            tuple(implied),
            within,
            opening,
        )

    def _similes(self, tokens: Sequence[Token], norms: Sequence[str]) -> Iterator[Mention]:
        """What a quality is likened to, where the vocabulary does not know the saying as a whole."""
        for likened in likenesses(tokens):
            if not any(one.end > likened.start for one in self._terms.matches_at(norms, likened.start - 2)):
                yield Mention(likened.start, likened.stop, Senses([Sense("idiom", "")]))

    def _cues_in(self, norms: Sequence[str], terms: Sequence[Mention]) -> Iterator[Mention]:
        """The longest cues; of `no heat` only the `no` where a longer flaw is denied."""
        flawed = {term.start: term.end for term in terms if term.of("condition")}
        for cue in self._cues.matches(norms, overlapping=True):
            flaw = max(flawed.get(cue.start + 1, 0), flawed.get(cue.end, 0) if cue.end == cue.start + 2 else 0)
            longer = norms[cue.start] == "no" and flaw > max(cue.end, cue.start + 2)
            yield self._cues.matches_at(norms, cue.start)[0] if longer else cue

    def _meant(self, norms: Sequence[str], forbidden: Sequence[Mention]) -> list[Mention]:
        """The longest terms that may mean something here; one that may mean nothing hides no shorter one."""
        terms: list[Mention] = []
        at = 0
        while at < len(norms):
            found = [mention for one in self._terms.matches_at(norms, at) if (mention := _allowed(one, forbidden))]
            if found and self._yields(norms, found[-1]):
                found = []
            if found and norms[at] == "no" and self._denies_what_follows(norms, at, found[-1].end):
                found = []
            if found and norms[at] in ARTICLES and self._goes_further(norms, at + 1, found[-1].end, *COMPONENT_ROLES):
                found = []  # the air conditioner
            if found:
                found[-1] = _with_first(found)
            terms += found[-1:]
            at = found[-1].end if found else at + 1
        return terms

    def _yields(self, norms: Sequence[str], term: Mention) -> bool:
        """`the blind is in pieces`, `the doors are on the track`: what means something of single components hides no
        longer phrase."""
        states = all(sense.beside or (sense.role, sense.form) == ("works", "adjective") for sense in term.senses)
        if term.end - term.start < 2 or not states:
            return False
        inside = range(term.start + 1, term.end)
        helped = norms[term.start] in HELPING
        return any(
            (one.end > term.end and one.of("condition")) or (helped and one.end == term.end and _says_of_anything(one))
            for at in inside
            for one in self._terms.matches_at(norms, at)
        )

    def _goes_further(self, norms: Sequence[str], at: int, end: int, *roles: str) -> bool:
        """Whether a phrase (in one of these roles, if any are named) that begins at a token reaches beyond `end`."""
        found = self._terms.matches_at(norms, at) if at < len(norms) else []
        return any(one.end > end and (not roles or one.of(*roles)) for one in found)

    def _denies_what_follows(self, norms: Sequence[str], at: int, end: int) -> bool:
        """`no water stains`, `no light scratches`: the denial is of the longer thing, and there is water or light."""
        if self._goes_further(norms, at + 1, end):
            return True
        following = self._terms.matches_at(norms, end) if end < len(norms) and norms[end] else []
        return any(sense.form == "noun" for one in following for sense in one.of("condition"))

    def _components_within(self, term: Mention, norms: Sequence[str]) -> tuple[Mention, ...]:
        if term.end - term.start < 2 or not term.of("condition") or term.of(*COMPONENT_ROLES):
            return ()
        inner = self._terms.matches(norms[term.start + 1 : term.end])
        return tuple(
            Mention(one.start + term.start + 1, one.end + term.start + 1, one.senses)
            for one in inner
            if one.of(*COMPONENT_ROLES) and not one.of("condition")
        )

    def _opens_with(self, term: Mention, norms: Sequence[str]) -> Mention | None:
        """The component that a phrase opens with."""
        if term.end - term.start < 2 or "phrase" not in [sense.form for sense in term.of("condition")[:1]]:
            return None
        shorter = [one for one in self._terms.matches_at(norms, term.start) if one.end < term.end]
        return next((one for one in reversed(shorter) if one.of(*COMPONENT_ROLES) and not one.of("condition")), None)
