"""A sentence in its place: what every finder of statements is given."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from narrate2report.read.lexis.phrase_tree import Mention, Sense
from narrate2report.read.lexis.vocabulary import Vocabulary
from narrate2report.read.meant.lookalikes import says_nothing
from narrate2report.read.speech.clauses import Clause
from narrate2report.read.speech.modes import Mode, Stance
from narrate2report.read.speech.spoken import Spoken
from narrate2report.read.things.bearers import Bearers
from narrate2report.read.walk.place import Place


@dataclass(frozen=True)
class Scene:
    """One sentence with how each of its words is meant, where the walk is, and what bears what."""

    spoken: Spoken
    stances: tuple[Stance, ...]
    bearers: Bearers
    place: Place
    number: int
    vocabulary: Vocabulary

    @property
    def room(self) -> str:
        """The room that the sentence was spoken in."""
        return self.spoken.room

    def says_nothing(self, mention: Mention) -> bool:
        """Whether a word for a condition or for working is something else here."""
        return mention.start in self._lookalikes

    @cached_property
    def _lookalikes(self) -> frozenset[int]:
        terms = self.spoken.terms("condition", "works")
        return frozenset(mention.start for mention in terms if says_nothing(self.spoken, mention))

    def flaws(self, within: Clause | None = None) -> Iterator[tuple[Mention, Sense]]:
        """The words for what is wrong, each with what it says: also where they are denied or only talked about."""
        for term in self.spoken.terms("condition", within=within):
            for sense in term.of("condition"):
                if not self.vocabulary.is_sound(sense.id):
                    yield term, sense

    def mode(self, at: int) -> Mode:
        """How the token `at` is meant."""
        return self.stances[at].mode

    def is_said(self, at: int) -> bool:
        """Whether the token `at` is said of this place now."""
        return self.mode(at) is Mode.ASSERTED
