"""What each clause of a sentence is about: the components it names itself, or those carried on from before."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from narrate2report.read.lexis.phrase_tree import Mention
from narrate2report.read.speech.clauses import Clause
from narrate2report.read.speech.spoken import Named, Spoken
from narrate2report.read.things.whereabouts import Whereabouts

PLURAL_WORDS = frozenset("are were both all they have everything do these those none nothing".split())

INTO = frozenset("under underneath beneath inside".split())
LOOKED_INTO = frozenset(
    "vanity sink cabinet oven dishwasher refrigerator freezer microwave washer dryer drawer".split()
)


@dataclass(frozen=True)
class Subjects:
    """The subjects of one sentence; `predicates` are the words that say something of a component, in order."""

    spoken: Spoken
    predicates: Sequence[Mention]
    where: Whereabouts

    def of_clauses(self) -> dict[int, tuple[Named, ...]]:
        """For each clause the components it is about, own or carried on from the clauses before."""
        subjects: dict[int, tuple[Named, ...]] = {}
        pending: tuple[Named, ...] = ()
        current: tuple[Named, ...] = ()
        for clause in self.spoken.clauses:
            own = self._own_subjects(clause)
            predicated = self._is_predicated(clause)
            if own and predicated:
                joined = clause.link in {"and", ",", "or", "plus"} and (
                    self._is_plural(clause) or self._is_coordinated(clause)
                )
                current = (*pending, *own) if joined else own
                pending = ()
            elif own:
                pending = (*pending, *own) if clause.link in {"and", ",", "or", "plus"} else own
                current = pending
            elif predicated:
                fronted = bool(pending) and (clause.link == "" or self._is_told_of_it(clause))
                current, pending = (pending if fronted else current), ()
            subjects[clause.index] = current
        return subjects

    def _own_subjects(self, clause: Clause) -> tuple[Named, ...]:
        named = self.spoken.named_in(clause)
        first = next((mention.start for mention in self.predicates if mention.start in clause), clause.end)
        heads = [one for one in named if one.relation == "topic" and not self.where.modifies_next(one, named)]
        before = tuple(one for one in heads if one.start < first or self._is_counted(one, first))
        if before or heads:
            return before or tuple(heads)
        if self.spoken.norms(clause.start, clause.start + 1) in (["up"], ["down"]):
            return ()  # up the stairs
        if (looked := self._looked_into(clause, named)) is not None:
            return (looked,)
        return tuple(
            one for one in named if one.relation == "of" and one.start < first and one.start - clause.start <= 4
        )[:1]

    def _looked_into(self, clause: Clause, named: Sequence[Named]) -> Named | None:
        """`under the vanity, dry, clean`: a sentence that opens with no more than where somebody looks."""
        if clause.index or len(named) != 1 or named[0].end != clause.end or named[0].component not in LOOKED_INTO:
            return None
        lead = self.spoken.norms(clause.start, named[0].start)
        return named[0] if lead[:1] and lead[0] in INTO and set(lead[1:]) <= {"the", "this", "that", "my"} else None

    def _is_counted(self, one: Named, first: int) -> bool:
        """`two bent slats`, `a loose hinge`: the noun after its adjective is the subject too."""
        between = self.spoken.tokens[first : one.start]
        return not any(token.is_finite or token.tag in {"IN", "DT"} for token in between)

    def _is_predicated(self, clause: Clause) -> bool:
        if any(mention.start in clause for mention in self.predicates):
            return True
        return any(token.is_finite for token in self.spoken.tokens[clause.start : clause.end])

    def _is_told_of_it(self, clause: Clause) -> bool:
        """`ceiling in here, there's a crack`: what goes on so is told of what was named first."""
        opens = self.spoken.norms(clause.start, clause.start + 2)
        return clause.link == "," and opens in (["there", "is"], ["there", "'s"], ["there", "are"])

    def _is_plural(self, clause: Clause) -> bool:
        norms = set(self.spoken.norms(clause.start, clause.end))
        if norms & PLURAL_WORDS:
            return True
        return not any(token.is_finite for token in self.spoken.tokens[clause.start : clause.end])

    def _is_coordinated(self, clause: Clause) -> bool:
        """`the wall and the trim got painted`: two subjects of one verb, where no comma parts them."""
        before = self.spoken.clauses[clause.index - 1]
        short = before.end - before.start <= 3 and before.link not in {",", "and"} and self.spoken.named_in(before)
        return clause.link == "and" and before.end == clause.start and bool(short)
