"""What may lead a walk into another room, and what shows whether it does.

A room that is named, a thing that a room is called by (`into the loo`), and whatever the rules take for a step into
the next room. Only observes; what each sign weighs was learned from narrations that were marked by hand (`course`).
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from narrate2report.read.lexis.learned import Sign
from narrate2report.read.lexis.phrase_tree import COMPONENT_ROLES, Mention
from narrate2report.read.speech.modes import Stance
from narrate2report.read.speech.spoken import Named, Spoken
from narrate2report.read.walk.implied_rooms import goes_back
from narrate2report.read.walk.place import OUT_OF_DOORS, kind_of
from narrate2report.read.walk.room_numbers import numbered
from narrate2report.read.walk.rooms import CALLED_BY
from narrate2report.read.walk.told_of import has_a_door, is_beside, is_called_by, is_ruled_out, is_told_from_elsewhere
from narrate2report.read.walk.ways import before_name, heads_a_noun

BY_RULE: Final = "the rules go there"

OUT_HERE: Final = "unnamed out here"
IN_THE_OPEN: Final = "unnamed in the open"

CALLED: Final = {**CALLED_BY, "deck": "patio", "shed": "storage"}
"""Things by which the room that they are in, or are, is called."""

LENGTHS: Final = ((4, "4"), (8, "8"), (13, "13"), (20, "20"))
"""Words of a sentence, and how they are told; more is `more`."""

MOST: Final = 3
"""Beyond this, how many rooms a sentence names is not told more precisely."""

SAID_BEFORE: Final = {
    "denied": frozenset("not n't never no nor without cannot".split()),
    "past": frozenset("was were had did used got took saw came went said".split()),
    "own": frozenset("i we us me let".split()),
    "others": frozenset("you your he she they people tenant tenants".split()),
}
"""Words of the clause, before the room's name, and what each group of them is a sign of."""

CONDITIONS: Final = frozenset("if when before once until till unless where because after".split())

WITH_THE_RULES: Final = ("kind ", "opens", "ends", "alone", "rooms ", "-1 ")
"""Signs that may weigh otherwise where the rules do not go there."""


@dataclass(frozen=True)
class Lead:
    """A room that a sentence may lead into."""

    room: str
    signs: frozenset[Sign]

    @property
    def kind(self) -> str:
        """The room without its number or name."""
        return kind_of(self.room)

    @property
    def by_rule(self) -> bool:
        """Whether the rules go there."""
        return BY_RULE in self.signs


def leads_of(
    spoken: Spoken,
    stances: Sequence[Stance],
    named: Collection[Named],
    before: str,
    entered: str | None,
    been: Collection[str],
) -> tuple[Lead, ...]:
    """The rooms that a sentence may lead into; `stances` tell how its words are meant.

    `before` is the kind of room that was walked, `entered` the room that the rules go to, if they go; `been` are the
    kinds of rooms that they went to earlier.
    """
    found: dict[str, set[Sign]] = {}
    for room, signs in _mentioned(spoken, stances):
        ours = entered if entered is not None and kind_of(entered) == kind_of(room) else room
        found.setdefault(ours, set()).update(signs)
    if entered is not None and entered not in found:
        found[entered] = set(_without_a_name(spoken, named, before, kind_of(entered)))
    leads = []
    for room, signs in found.items():
        if room != entered and kind_of(room) in {before, "whole_unit"}:
            continue
        known = {"been there"} if kind_of(room) in been else set[Sign]()
        if room == entered:
            signs |= {BY_RULE, *known}
        else:
            stay = {sign for sign in signs if sign.startswith(WITH_THE_RULES)} | known
            signs |= known | {f"{sign}, not by rule" for sign in stay}
            signs.add("the rules stay" if entered is None else "the rules go elsewhere")
        leads.append(Lead(room, frozenset(signs)))
    return tuple(leads)


def calls_a_room(spoken: Spoken, one: Named) -> bool:
    """`the stairs`, `the deck`: whether a component is a room, or a word that one is called by."""
    if one.end - one.start == 1 and spoken.tokens[one.start].norm in CALLED:
        return True
    return any(one.start < term.end and term.start < one.end for term in spoken.terms("room"))


def _mentioned(spoken: Spoken, stances: Sequence[Stance]) -> Iterator[tuple[str, set[Sign]]]:
    """The rooms that are named and those that are called by a thing, with the signs of each."""
    words = _words(spoken)
    for mention in spoken.terms("room"):
        room, end = numbered(spoken, mention, mention.of("room")[0].id)
        if not (is_ruled_out(spoken, mention) or has_a_door(spoken, end)):
            yield room, _signs(spoken, stances, words, kind_of(room), mention, end)
    for mention in spoken.terms(*COMPONENT_ROLES):
        called = CALLED.get(spoken.tokens[mention.start].norm) if mention.end - mention.start == 1 else None
        if called is not None and not is_ruled_out(spoken, mention):
            signs = _signs(spoken, stances, words, called, mention, mention.end)
            yield called, signs | {"called", f"called {called}"}


def _told_of(spoken: Spoken, mention: Mention, end: int) -> Iterator[Sign]:
    """What the rules see that tells of a room from elsewhere."""
    if is_called_by(spoken, mention, end) or heads_a_noun(spoken, end):
        yield "a thing is called by it"
    if is_beside(spoken, mention):
        yield "beside it"
    if is_told_from_elsewhere(spoken, mention, end):
        yield "told from elsewhere"


def _words(spoken: Spoken) -> list[str]:
    """The words of a sentence; what the vocabulary knows stands as what it is."""
    words = ["#" if token.norm.isdigit() else token.norm for token in spoken.tokens]
    for name, roles in (
        ("<works>", ("works",)), ("<flaw>", ("condition",)), ("<thing>", COMPONENT_ROLES), ("<room>", ("room",)),
    ):  # fmt: skip
        for term in spoken.terms(*roles):
            words[term.start : term.end] = [name] * (term.end - term.start)
    return words


def _signs(
    spoken: Spoken, stances: Sequence[Stance], words: list[str], kind: str, mention: Mention, end: int
) -> set[Sign]:
    """What shows whether the speaker goes to the room of `mention`, whose name (with its number) ends before token
    `end`."""
    start, clause = mention.start, spoken.clause_of(mention.start)
    at = before_name(spoken, clause, start)
    padded = ["<<<", "<<", *words, ">>", ">>>"]
    before, after = padded[at : at + 2], padded[end + 2 : end + 4]
    signs = {
        f"kind {kind}",
        f"meant {stances[start].mode.name}",
        *_told_of(spoken, mention, end),
        f"-1 {before[-1]}",
        f"-2 {' '.join(before)}",
        f"+1 {after[0]}",
        f"+2 {' '.join(after)}",
        f"described {' '.join(words[at:start])}",
        f"first {words[0]}",
        f"first {' '.join(words[:2])}",
        f"link {clause.link}",
        f"clause {min(clause.index, 2)}",
        f"said {spoken.tokens[end - 1].norm}",
        f"rooms {min(MOST, len(spoken.terms('room')))}",
        f"words {_length(words)}",
        f"verb {any(token.is_verb for token in spoken.tokens)}",
    }
    places = {
        "opens clause": at == clause.start,
        "opens": at == 0,
        "ends clause": end >= clause.end,
        "ends": end >= len(words) - 1,
        "alone": at == 0 and end >= len(words) - 1,
        "back to": goes_back(spoken),
        "conditioned": bool(CONDITIONS & set(spoken.norms(0, start))),
    }
    signs |= {sign for sign, so in places.items() if so}
    signs |= {f"before {word}" for word in words[clause.start : at]}
    signs |= {f"after {word}" for word in words[end : clause.end]}
    signs |= {f"lead {word}" for word in words[:at]}
    said = set(spoken.norms(clause.start, start))
    signs |= {sign for sign, group in SAID_BEFORE.items() if group & said}
    for where, span in (("before", range(clause.start, at)), ("after", range(end, clause.end))):
        finite = [spoken.tokens[one].tag for one in span if spoken.tokens[one].is_finite]
        nearest = finite[-1 if where == "before" else 0] if finite else "none"
        signs.add(f"finite {where} {nearest}")
    for what, roles in (("things", COMPONENT_ROLES), ("flaws", ("condition", "works"))):
        terms = spoken.terms(*roles)
        signs.add(f"{what} before {any(term.end <= at for term in terms)}")
        signs.add(f"{what} after {any(term.start >= end for term in terms)}")
    return signs


def _without_a_name(spoken: Spoken, named: Collection[Named], before: str, kind: str) -> Iterator[Sign]:
    """What shows whether a walk goes to a room that no word names: a toilet is spoken of, in a kitchen."""
    words = _words(spoken)
    yield from ("unnamed", f"unnamed {kind}", f"unnamed first {words[0]}", f"unnamed first {' '.join(words[:2])}")
    yield f"unnamed words {_length(words)}"
    if goes_back(spoken):
        yield "unnamed back to"
    if ("out", "here") in pairwise(spoken.norms()):
        yield OUT_HERE
    if {before, kind} <= OUT_OF_DOORS:
        yield IN_THE_OPEN
    for one in list(named)[:1]:
        yield from (f"unnamed thing {one.component}", f"unnamed {one.relation}")


def _length(words: list[str]) -> str:
    return next((name for most, name in LENGTHS if len(words) <= most), "more")
