"""What stands around a word in its sentence, and which trade words that calls for."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

from narrate2report.read.lexis.words import Token
from narrate2report.read.misheard.neighbours import Neighbours

Kind = Literal["pair", "flaw", "said", "deed", "place", "row", "owner", "state"]
"""pair: the two words of a phrase; flaw: a condition said of it that befalls the trade word, or (said) any
condition; deed: what it does when it works; place: where it is; row: named along with conditions; owner: the thing
that has it; state: how the thing before is said to be."""

BE = frozenset("is are was were 's be been looks seems has have had got gets looking".split())
HAVE = frozenset("has have had got with".split())
PRONOUNS = frozenset("i you he she we they it who that which there".split())
PASSED = frozenset(
    "a an the some any two three four few couple of bit little very really pretty quite kind all also still badly"
    " slightly coming come just so too already completely totally half starting started there this that these"
    " those my our your its one small big large deep tiny long short".split()
)
"""Words that stand between a thing and what is said of it."""
PLACED = frozenset("around along behind between in on under over above by at near inside against across below".split())
DOES = frozenset({"VBZ", "VBP", "VBD", "NNS"})
"""Tags of `flushes`, which behind a word that is none is taken for a plural as well."""
NOUN = frozenset({"NN", "NNS", "NNP", "NNPS"})


@dataclass(frozen=True)
class Call:
    """A neighbour and the words that it calls for."""

    kind: Kind
    neighbour: str
    words: frozenset[str]


class Surroundings:
    """The neighbourhoods of the words of one sentence."""

    def __init__(self, tokens: Sequence[Token], norms: Sequence[str], near: Neighbours) -> None:
        self._tokens = tokens
        self._norms = norms
        self._near = near

    def before(self, start: int) -> str:
        """The word before, or nothing."""
        return self._norms[start - 1] if start else ""

    def after(self, end: int) -> str:
        """The word after, or nothing."""
        return self._norms[end] if end < len(self._norms) else ""

    def calls(self, start: int, end: int) -> Iterator[Call]:
        """All that calls for something in the place of the words `start` to `end`."""
        near, left, right = self._near, self.before(start), self.after(end)
        if left in near.after:
            yield Call("pair", left, near.after[left])
        if right in near.doers and self._tag(end) in DOES:
            yield Call("deed", right, near.doers[right])
        if right in near.before:
            yield Call("pair", right, near.before[right])
        elif self._tag(end) in NOUN and right not in near.words:
            return  # `coffee grinder`: the word belongs to the next
        if left in near.sufferers and left not in near.things:
            yield Call("flaw", left, near.sufferers[left])
        said = self._said_of(end)
        if said:
            yield Call("flaw", said, near.sufferers.get(said, frozenset()))
            yield Call("said", said, near.things)
        yield from self._place(end, left)
        yield from self._row(start, end, left, right)
        yield from self._subject(start, followed=self._tag(end) in NOUN or self._tag(end).startswith("JJ"))

    def _tag(self, at: int) -> str:
        return self._tokens[at].tag if at < len(self._tokens) else ""

    def _said_of(self, end: int) -> str:
        """The condition that is said of the thing that ends here: `... is badly torn`, `... by the door is loose`."""
        norms, at = self._norms, end
        if self.after(end) in PLACED:
            at = next((k for k in range(end + 1, min(end + 7, len(norms))) if norms[k] in BE), len(norms))
        for norm in norms[at : at + 6]:
            if norm in self._near.sufferers or norm in self._near.praise:
                return norm
            if norm not in BE and norm not in PASSED:
                return ""
        return ""

    def _place(self, end: int, left: str) -> Iterator[Call]:
        """`around the shower base` calls for what belongs there; for a flaw only where one is brought up (`a ...`)."""
        if self.after(end) not in PLACED:
            return
        place = ""
        for norm in self._norms[end + 1 : end + 6]:
            if norm in BE or not norm.isalpha() or norm in PLACED:
                break
            if norm in self._near.things:
                place = norm
        if place:
            yield Call("place", place, self._near.kin.get(place, frozenset()))
            if left != "the" and left not in BE:
                yield Call("place", place, self._near.marks.get(place, frozenset()))

    def _row(self, start: int, end: int, left: str, right: str) -> Iterator[Call]:
        """`... and scratches` calls for another flaw."""
        for beside in (start - 2 if left == "and" else -1, end + 1 if right == "and" else -1):
            if 0 <= beside < len(self._norms) and self._norms[beside] in self._near.flaws:
                yield Call("row", self._norms[beside], self._near.flaws)

    def _subject(self, start: int, *, followed: bool) -> Iterator[Call]:
        """What the thing before calls for: `the carpet is ...` a state, `the door has a ...` a mark."""
        norms, at = self._norms, start - 1
        while at >= 0 and norms[at] in PASSED:
            at -= 1
        if at < 1 or norms[at] not in BE:
            return
        for norm in reversed(norms[max(at - 5, 0) : at]):
            if norm in PRONOUNS or not norm.isalpha():
                return
            if norm in self._near.things and norms[at] in HAVE:
                yield Call("owner", norm, self._near.marks.get(norm, frozenset()))
            if norm in self._near.things and not followed:
                yield Call("state", norm, self._near.states.get(norm, frozenset()))
