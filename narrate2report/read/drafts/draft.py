"""An entry in the making: what it says and why, before it has an id, evidence and a place in the record."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

from narrate2report.read.speech.sentences import Sentence
from narrate2report.read.speech.spoken import Named
from narrate2report.records.findings import Action, Assertion, Attribute, Kind, Outcome, Party, Severity, Size


@dataclass(frozen=True)
class Draft:
    """One statement found in a sentence. `at` is the token it hangs on, `because` the rules and words."""

    kind: Kind
    room: str
    component: str
    at: int
    because: tuple[str, ...]
    condition: str | None = None
    assertion: Assertion | None = None
    outcome: Outcome | None = None
    action: Action | None = None
    party: Party | None = None
    quantity: int | None = None
    direction: Literal["given", "returned"] | None = None
    attribute: Attribute | None = None
    where: str | None = None
    size: Size | None = None
    severity: Severity | None = None
    pre_existing: bool = False
    confidence: float = 0.8
    retries: bool = False
    """Whether it is the result of trying once more, which stands for the result just before."""
    restates: bool = False
    """Whether it is the work of the sentence before, told once more."""
    unsaid: bool = False
    """Whether no word says what the work does, so that it follows from the flaw."""
    also: tuple[Sentence, ...] = ()
    """Earlier sentences that are evidence too."""

    @classmethod
    def of_named(
        cls,
        one: Named,
        room: str,
        condition: str,
        because: str,
        *,
        confidence: float = 0.8,
        quantity: int | None = None,
    ) -> Draft:
        """A condition that is there, of a component that the sentence names."""
        return cls(
            "condition",
            room,
            one.component,
            one.start,
            (because,),
            condition=condition,
            assertion="present",
            quantity=quantity,
            confidence=confidence,
        )

    def with_reason(self, reason: str) -> Draft:
        """The same draft with one more reason."""
        return replace(self, because=(*self.because, reason))

    def same_statement(self, other: Draft) -> bool:
        """Whether two drafts of one breath say the same."""
        return (self.kind, self.room, self.component, self.condition, self.assertion, self.outcome, self.action) == (
            other.kind, other.room, other.component, other.condition, other.assertion, other.outcome, other.action,
        ) and self.attribute == other.attribute  # fmt: skip

    def settles(self, doubt: Draft) -> bool:
        """Whether this says plainly what another draft only holds possible."""
        same = (self.kind, self.component, self.condition) == (doubt.kind, doubt.component, doubt.condition)
        return same and doubt.assertion == "possible" != self.assertion
