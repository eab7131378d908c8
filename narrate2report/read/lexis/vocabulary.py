"""The words of the trade as values: what vocab/*.yaml holds once it has been read and checked.

Each model below is one entry of the file that its docstring names; lists hold lower-case spoken words.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from itertools import dropwhile
from typing import Literal

from pydantic import Field, PositiveInt

from narrate2report.read.lexis.befalls import Befalls
from narrate2report.records.base import Value
from narrate2report.records.likeness import Likeness

Words = tuple[str, ...]

DENIED_PRAISE = {"clean": "dirty", "present": "missing"}
"""What denying a sound condition comes to in whatever words."""

BEING = frozenset("is are 's was were all both".split())
"""Words before praise that are no part of it: `is straight`."""

SEVERAL = frozenset({"bedroom", "bathroom", "closet", "office", "half_bath", "balcony", "living_room", "storage"})
"""Rooms of which a unit has more than one, so that they are told apart by numbers."""


class RoomTerm(Value):
    """rooms.yaml: how a room is called, and what is usually in it."""

    label: str = ""
    say: Words = ()
    qualifiers: dict[str, Words] = {}
    named: dict[str, Words] = {}
    implied_by: Words = ()
    uses: Words = ()
    not_in: Words = ()
    expects: Words = ()
    owns: Words = ()
    known_by: Words = ()


class ComponentTerm(Value):
    """components.yaml: how a component is called, alone or beside another, and how it shows that it works."""

    label: str = ""
    group: str = ""
    say: Words = ()
    near: dict[str, Words] = {}
    in_: dict[str, Words] = Field(default={}, alias="in")
    else_: Words = Field(default=(), alias="else")
    not_in: Words = ()
    works: Words = ()
    works_adj: Words = ()
    part_of: Words = ()
    care: Words = ()

    @property
    def names(self) -> Words:
        """All that it is called anywhere, alone or beside another or in one room."""
        return tuple(
            name for names in (self.say, *self.near.values(), *self.in_.values(), self.else_) for name in names
        )


class ConditionTerm(Value):
    """conditions.yaml: the words for a condition, what it afflicts, and phrases that only look like it."""

    label: str = ""
    class_: Literal["damage", "soil", "fault", "hazard", "sound", ""] = Field(default="", alias="class")
    nouns: Words = ()
    adjectives: Words = ()
    verbs: Words = ()
    phrases: Words = ()
    not_in: Words = ()
    usual: Words = ()
    not_of: Words = ()
    lies_on: dict[str, Words] = {}
    denies: Words = ()
    default: str = ""
    only: dict[str, Words] = {}


class ActionTerm(Value):
    """actions.yaml: words for a piece of work."""

    label: str = ""
    verbs: Words = ()
    nouns: Words = ()
    phrases: Words = ()


class DescriptionTerms(Value):
    """descriptions.yaml: words for what a component is."""

    material: Words = ()
    colour: Words = ()
    type: dict[str, Words] = {}
    count_of: Words = ()

    @cached_property
    def types(self) -> frozenset[str]:
        """The words for a type of whatever component."""
        return frozenset(word for words in self.type.values() for word in words)


class Mined(Value):
    """misheard.yaml: how often a word was heard as another one when it was spoken, and by how many voices."""

    times: PositiveInt
    voices: PositiveInt


@dataclass(frozen=True)
class Vocabulary:
    """All words that the reading knows, and the SHA-256 that names this version of them."""

    rooms: Mapping[str, RoomTerm]
    components: Mapping[str, ComponentTerm]
    conditions: Mapping[str, ConditionTerm]
    actions: Mapping[str, ActionTerm]
    descriptions: DescriptionTerms
    cues: Mapping[str, Words]
    idioms: Words
    sound_alikes: Mapping[str, Mapping[str, Words]]
    misheard: Mapping[str, Mapping[str, Mined]]
    version: str
    likeness: Likeness = field(default_factory=Likeness)
    befalls: Befalls = field(default_factory=lambda: Befalls({}))

    def is_sound(self, condition: str) -> bool:
        """Whether a condition is nothing to complain of."""
        return self.conditions[condition].class_ == "sound"

    def denied_praise(self, condition: str, words: Sequence[str], component: str) -> str | None:
        """The flaw that denying a sound condition comes to, by the words it was told in: `straight` denied is
        misaligned where the vocabulary knows `not straight`. None where denying it names no flaw."""
        words = [*dropwhile(BEING.__contains__, words)]
        for count in range(len(words), 0, -1):
            told = " ".join(words[:count])
            flaw = self._not_so.get((told, component)) or self._not_so.get((told, ""))
            if flaw is not None:
                return flaw
        return DENIED_PRAISE.get(condition)

    @cached_property
    def _not_so(self) -> Mapping[tuple[str, str], str]:
        """What follows `not` in the words for a flaw, with the component that it is a flaw of: empty for any."""
        told: dict[tuple[str, str], str] = {}
        for condition, term in self.conditions.items():
            if term.class_ == "sound":
                continue
            by_component = {"": (*term.adjectives, *term.phrases), **term.only}
            for component, said in by_component.items():
                for words in said:
                    if words.startswith("not "):
                        told.setdefault((words.removeprefix("not "), component), condition)
        return told

    def excludes(self, condition: str, component: str) -> bool:
        """Whether the condition cannot be a flaw of the component: an alarm is meant to be loud."""
        never = self.conditions[condition].not_of
        return component in never or f"group:{self.components[component].group}" in never

    def afflicts(self, condition: str, component: str) -> bool | None:
        """Whether the condition is usual of the component; None where the vocabulary does not say."""
        term = self.conditions[condition]
        if not term.usual and not term.only:
            return None
        group = f"group:{self.components[component].group}"
        return component in term.usual or group in term.usual or component in term.only
