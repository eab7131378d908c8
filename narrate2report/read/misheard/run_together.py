"""Two words of a name run together: a `gatefob` is a gate fob. Recognisers write so, and people in a hurry."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from rapidfuzz import fuzz, process

from narrate2report.read.lexis.inflect import noun_forms
from narrate2report.read.lexis.vocabulary import Vocabulary
from narrate2report.read.misheard.sounds import english_sounds
from narrate2report.read.speech.changes import Change

SURE = 0.9

NEAR = 85
"""RapidFuzz's ratio from which a word is rather another name misspelt: a `basebored` is a baseboard."""

ANSWERS = ("yep", "yeah", "nope")
"""What a recogniser glues to what is tried: `doorbellyep`."""

SHORTEST = 5
"""Letters that two words must have together: fewer may be an abbreviation."""


class RunTogether:
    """The names of components and rooms that are two words, by their letters alone."""

    def __init__(self, vocabulary: Vocabulary) -> None:
        """What is a name or an English word by itself as well (`doorknob`) is left alone."""
        names = {name for component in vocabulary.components.values() for name in component.say}
        names |= {name for room in vocabulary.rooms.values() for name in room.say}
        self._single = sorted(name for name in names if " " not in name)
        self._names = frozenset(self._single)
        self._apart: Mapping[str, str] = {
            form.replace(" ", ""): form
            for name in names
            if name.count(" ") == 1 and name.replace(" ", "").isalpha()
            for form in noun_forms(name)
            if form.replace(" ", "") not in names and len(form) > SHORTEST
        }

    def find(self, norms: Sequence[str]) -> Iterator[Change]:
        """Each word of a sentence that is such a name, or one with the answer to its trial."""
        for at, norm in enumerate(norms):
            answer = next(word for word in ANSWERS if norm.endswith(word)) if norm.endswith(ANSWERS) else ""
            if answer and norm.removesuffix(answer) in self._names:
                read = f"{norm.removesuffix(answer)}... {answer}"
                yield Change(at, at + 1, read, f"is no word by itself and has the letters of '{read}'", SURE)
                continue
            apart = self._apart.get(norm)
            if apart is None or english_sounds().is_word(norm):
                continue
            if process.extractOne(norm, self._single, scorer=fuzz.ratio, score_cutoff=NEAR) is None:
                yield Change(at, at + 1, apart, f"is no word by itself and has the letters of '{apart}'", SURE)
