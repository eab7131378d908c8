"""What speaks for or against a breath between two words: the words around it, their tags, what the vocabulary makes
of them, what was said since the last breath and what comes next.

Only observes; what each sign weighs was learned from narrations that were written down with their marks (`breaths`).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

from narrate2report.read.lexis.phrase_tree import COMPONENT_ROLES, Mention
from narrate2report.read.lexis.phrasebook import Found
from narrate2report.read.lexis.words import Token

Sign = str

WINDOWS: tuple[tuple[tuple[str, int], ...], ...] = tuple(
    tuple((part[0], int(part[1:])) for part in window.split())
    for window in (
        "w-2", "w-1", "w+0", "w+1", "w-2 w-1", "w-1 w+0", "w+0 w+1",
        "t-1", "t+0", "t-2 t-1", "t-1 t+0", "t+0 t+1", "t-2 t-1 t+0", "t-1 t+0 t+1", "t+0 t+1 t+2",
        "t-2 t-1 t+0 t+1",
        "w-1 t+0", "t-1 w+0", "w+0 t+1", "t-2 w-1",
        "r-1", "r+0", "r-1 r+0", "r-1 r+0 r+1", "r-2 r-1 r+0 r+1",
        "r-1 t+0", "t-1 r+0", "r-1 w+0", "w-1 r+0",
    )
)  # fmt: skip
"""Which neighbours are looked at together: words (w), tags (t) and roles (r), counted from the word after the gap."""

REACH = 2
"""How far a window looks beyond either end."""

ROLES = (("d", ("material", "colour", "type")), ("w", ("works",)), ("x", ("condition",)), ("R", ("room",)))
"""Letters for what the vocabulary makes of a word; the later one wins, and a component over all of them."""

NAMES = {"NNP": "NN", "NNPS": "NNS"}
"""Without capitals the tagger's guess at a name says nothing."""

SINCE = {"CB": "C", "xB": "X", "wB": "W", "RB": "R"}
SAID_OF, LEADING_ON, JOINING = frozenset({"PRP", "EX"}), frozenset({"IN", "TO"}), "CC"

AHEAD, AHEAD_PARTS = 10, 3
"""How many words are looked at for what comes next, and how many parts of it are told."""

LENGTHS = ((1, "1"), (2, "2"), (3, "3"), (5, "5"), (8, "8"), (12, "12"))
"""Words since the last breath, and how they are told; more is `more`."""


@dataclass(frozen=True)
class Breath:
    """A mark that a speaker would have set before token `at`; `is_stop` where the sentence ends there."""

    at: int
    is_stop: bool


class Observed:
    """The tokens of a run of speech, ready to be asked about each gap; all lists are as long as the tokens."""

    def __init__(self, tokens: Sequence[Token], found: Found) -> None:
        self._tokens = tokens
        self._words = [token.norm for token in tokens]
        self._tags = [NAMES.get(token.tag, token.tag) for token in tokens]
        self._roles = _roles(len(tokens), found)
        self._cues: dict[int, set[str]] = {}
        for cue in found.cues:
            self._cues.setdefault(cue.start, set()).update(cue.senses.ids)

    def signs(self, at: int, last: Breath) -> list[Sign]:
        """The signs of the gap before token `at`, when the last breath was `last`."""
        coming = self._coming(at)
        signs = [*self._around(at), *(f"cue {cue}" for cue in sorted(self._cues.get(at, ())))]
        signs += [
            f"next {coming}",
            f"next2 {coming[:2]}",
            f"next2 t-1 {coming[:2]} {self._tags[at - 1]}",
            f"next2 r-1 {coming[:2]} {self._roles[at - 1]}",
        ]
        return signs + self._since(at, last, coming[:2])

    def says_something(self, begin: int, end: int) -> bool:
        """Whether these words can be a sentence; `last year`, `next door`, `okay` only lead to what follows."""
        return any(self._part(at) not in {"", "n"} for at in range(begin, end))

    def _around(self, at: int) -> list[Sign]:
        rows = self._padded
        return [
            f"{name} {' '.join(rows[kind][at + REACH + off] for kind, off in window)}"
            for name, window in zip(WINDOW_NAMES, WINDOWS, strict=True)
        ]

    @cached_property
    def _padded(self) -> Mapping[str, list[str]]:
        return {
            kind: ["<<"] * REACH + row + [">>"] * (REACH + 1)
            for kind, row in (("w", self._words), ("t", self._tags), ("r", self._roles))
        }

    def _since(self, at: int, last: Breath, coming: str) -> list[Sign]:
        """What was said since the last breath: its parts in order, its length, its first word."""
        told = [self._part(word) for word in range(last.at, at)]
        named = [part for part in told if part]
        parts = "".join(part for before, part in pairwise(["", *named]) if part != before)
        length = next((name for most, name in LENGTHS if at - last.at <= most), "more")
        whole = f"{'F' in parts} {'C' in parts} {'X' in parts or 'W' in parts}"
        return [
            f"since {parts[:6]}",
            f"since2 {parts[-2:]}",
            f"since4 {parts[-4:]}",
            f"since3 next {parts[-3:]} {coming}",
            f"since first next {parts[:4]} {coming}",
            f"since t-1 {parts[-2:]} {self._tags[at - 1]}",
            f"since t+0 {parts[-2:]} {self._tags[at]}",
            f"since length {parts[-2:]} {length}",
            f"whole {whole} {coming}",
            f"length {length}",
            f"first w {self._words[last.at]}",
            f"first t {self._tags[last.at]} {length}",
            f"last {'begin' if last.at == 0 else 'stop' if last.is_stop else 'comma'}",
        ]

    def _part(self, at: int) -> str:
        """What a word adds to a statement: a finite verb (F), a component, a flaw, a pronoun, or nothing."""
        if self._tokens[at].is_finite:
            return "F"
        return SINCE.get(self._roles[at]) or ("n" if self._tags[at] in SAID_OF else "")

    def _coming(self, at: int) -> str:
        """The next parts of what is said, in order."""
        parts = ""
        for word in range(at, min(len(self._tokens), at + AHEAD)):
            tag = self._tags[word]
            parts += self._part(word) or ("p" if tag in LEADING_ON else "c" if tag == JOINING else "")
            if len(parts) >= AHEAD_PARTS:
                break
        return parts


WINDOW_NAMES = tuple("".join(kind + f"{off:+d}" for kind, off in window) for window in WINDOWS)


def _roles(count: int, found: Found) -> list[str]:
    """For each token the letter of its role, and whether it begins (B) or goes on (I)."""
    roles = ["-"] * count

    def write(letter: str, mentions: Sequence[Mention]) -> None:
        for mention in mentions:
            for at in range(mention.start, mention.end):
                roles[at] = letter + ("B" if at == mention.start else "I")

    write("q", found.cues)
    for letter, wanted in (*ROLES, ("C", COMPONENT_ROLES)):
        write(letter, [term for term in found.terms if term.of(*wanted)])
    return roles
