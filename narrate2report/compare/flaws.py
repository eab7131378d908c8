"""The flaws of one record: every adverse entry stands in exactly one of them.

A failed check and the fault that is told in the same sentence (`the gate will not latch`) are one flaw of two entries;
two conditions told in one sentence stay two.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache

from narrate2report.compare.measures import count_told, size_told
from narrate2report.compare.phrases import has_words, says
from narrate2report.compare.places import Place
from narrate2report.compare.terms import FAILS, Terms
from narrate2report.records.findings import Entry, Findings


@dataclass(frozen=True)
class Flaw:
    """One flaw with the entries that tell it (the first leads), and what its words say of where and how much."""

    entries: tuple[Entry, ...]
    kind: str
    """A condition's id, or FAILS."""
    place: Place
    objects: frozenset[str]
    """Which pieces of furniture and the like, where its component covers many."""
    quote: str
    """All that was said of it, in small letters."""
    points_back: bool
    """Whether its words take it as known: `that stain`, `still`."""
    is_across: bool
    """Whether its words have it run through all of its component: then it passes every place on it."""
    adds: bool
    """Whether its words add one to those told of: `another burn`."""
    count: int | None
    size_cm: float | None
    number: int
    """Its place among the flaws of its record, in the order said."""

    @property
    def entry(self) -> Entry:
        """The entry that leads."""
        return self.entries[0]

    @property
    def ids(self) -> tuple[str, ...]:
        """The ids of all its entries."""
        return tuple(entry.id for entry in self.entries)

    def __hash__(self) -> int:
        return hash(self.entries[0].id)


def counting(findings: Findings) -> tuple[Entry, ...]:
    """The entries that a person has not dropped or merged into others, in the order said, whatever the file's order."""
    numbers = findings.numbers()

    def said_at(entry: Entry) -> tuple[int, float, str]:
        first = entry.evidence[0]
        return numbers.get(first.recording, len(numbers)), first.start, entry.id

    return tuple(
        sorted((entry for entry in findings.entries if entry.stands and entry.merged_into is None), key=said_at)
    )


def flaws_of(entries: Sequence[Entry], terms: Terms) -> tuple[Flaw, ...]:
    """The flaws among entries that are in the order said."""
    adverse = [entry for entry in entries if entry.is_adverse]
    joined = _joined(adverse, terms)
    return tuple(_flaw(group, number, terms) for number, group in enumerate(joined))


def _joined(adverse: Sequence[Entry], terms: Terms) -> list[tuple[Entry, ...]]:
    """Entries by flaw: a check that failed goes with the fault of the same sentence and component."""
    groups: list[list[Entry]] = []
    by_sentence: dict[tuple[object, ...], list[list[Entry]]] = {}
    for entry in adverse:
        key = (entry.room, entry.evidence[0].recording, entry.evidence[0].start, entry.evidence[0].quote)
        fitting = next((group for group in by_sentence.get(key, ()) if _is_one_fact(group, entry, terms)), None)
        if fitting is not None:
            fitting.append(entry)
            continue
        groups.append([entry])
        by_sentence.setdefault(key, []).append(groups[-1])
    return [tuple(group) for group in groups]


def _is_one_fact(group: Sequence[Entry], entry: Entry, terms: Terms) -> bool:
    if len(group) > 1:
        return False
    if group[0].kind == entry.kind:
        return group[0].condition == entry.condition and _is_told_at(group[0], entry, terms)
    fault = next(one.condition for one in (group[0], entry) if one.kind == "condition")
    near = bool(terms.component_grade(group[0].component, entry.component))
    return near and (terms.class_of(fault) == "fault" or terms.tie(FAILS, fault or "") is not None)


def _is_told_at(one: Entry, other: Entry, terms: Terms) -> bool:
    """Whether two entries of one sentence place one flaw on each other: on the grout, and on the tub `on the grout`."""
    if one.kind != "condition" or not terms.is_near(one.component, other.component):
        return False
    read, things = terms.gazetteer.read, terms.gazetteer.things_of
    return any(
        first.where is not None and read(first.where, True).things & things(second.component)
        for first, second in ((one, other), (other, one))
    )


def _flaw(entries: tuple[Entry, ...], number: int, terms: Terms) -> Flaw:
    # What fails says more than that it fails.
    entries = tuple(sorted(entries, key=lambda entry: entry.kind == "check"))
    lead = entries[0]
    quote = " ".join(piece.quote for entry in entries for piece in entry.evidence).lower()
    kind = FAILS if lead.kind == "check" else lead.condition or ""
    cues = terms.likeness.cues
    many = lead.component in terms.likeness.components.many
    return Flaw(
        entries=entries,
        kind=kind,
        place=_place(lead, quote, terms),
        objects=_objects(lead.where, quote, terms) if many else frozenset(),
        quote=quote,
        points_back=has_words(quote, cues.known) or _is_definite(quote, terms.nouns.get(kind, ())),
        is_across=says(quote, cues.across),
        adds=says(quote, cues.further),
        count=count_told(lead, quote, terms.nouns.get(kind, ())),
        size_cm=size_told(lead, quote, terms.likeness.sizes),
        number=number,
    )


def _place(entry: Entry, quote: str, terms: Terms) -> Place:
    own = terms.gazetteer.things_of(entry.component)
    return terms.gazetteer.read(entry.where or quote, bool(entry.where)).without(own)


def _objects(where: str | None, quote: str, terms: Terms) -> frozenset[str]:
    """Which pieces of furniture are named: in the place as it was told, else anywhere in the sentence."""
    objects = terms.likeness.places.objects
    for text in filter(None, (where, quote)):
        found = frozenset(name for name, words in objects.items() if has_words(text.lower(), words))
        if found:
            return found
    return frozenset()


@cache
def _definite(nouns: tuple[str, ...]) -> re.Pattern[str]:
    choices = "|".join(re.escape(noun) for noun in sorted(nouns, key=len, reverse=True))
    return re.compile(rf"\b(?:the|that|those|these|this)\s+(?:[\w-]+\s+){{0,2}}(?:{choices})(?:s|es)?\b")


def _is_definite(quote: str, nouns: tuple[str, ...]) -> bool:
    """`that two inch stain`: spoken of as something that is known."""
    return bool(nouns) and _definite(nouns).search(quote) is not None
