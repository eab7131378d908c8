"""A sentence in its place: what every finder of statements is given."""

from __future__ import annotations

from dataclasses import dataclass

from narrate2report.read.bearers import Bearers
from narrate2report.read.place import Place
from narrate2report.read.spoken import Spoken
from narrate2report.read.stance import Mode, Stance
from narrate2report.read.vocabulary import Vocabulary


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

    def mode(self, at: int) -> Mode:
        """How the token `at` is meant."""
        return self.stances[at].mode

    def is_said(self, at: int) -> bool:
        """Whether the token `at` is said of this place now."""
        return self.mode(at) is Mode.ASSERTED
