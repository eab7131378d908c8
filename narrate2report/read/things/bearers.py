"""What a flaw is on, what a verb is said of: from a predicate in a sentence to the component that bears it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from narrate2report.read.lexis.phrase_tree import Mention
from narrate2report.read.lexis.vocabulary import Vocabulary
from narrate2report.read.speech.clauses import Clause
from narrate2report.read.speech.spoken import Named, Spoken
from narrate2report.read.things.standing import both_of, is_otherwise
from narrate2report.read.things.subjects import Subjects
from narrate2report.read.things.whereabouts import ROOM_GENERAL, WALL, Whereabouts
from narrate2report.read.walk.place import Place

PARTICIPLES = frozenset({"JJ", "JJR", "JJS", "NN", "NNS", "CD", "VBN", "NNP"})
DOERS = frozenset("it they he she somebody someone dog cat that".split())
BEFORE_OBJECT = frozenset("up off out down the this that our all a through every each both these those".split())
STANDS_FREE = frozenset({"water_heater", "furnace", "toilet", "radiator", "heater"})
BY = frozenset("by near beside around round behind beneath underneath under below".split())
BEHIND = frozenset("behind beneath underneath under".split())
MEANS = frozenset("switch control_panel remote_control".split())
WHOLE_SIDES = frozenset("side sides top back front base".split())


@dataclass(frozen=True)
class Bearer:
    """A component that a predicate is said of, and how it was found.

    `direct` tells that the clause itself names it, so that the vocabulary's usual bearers need not be asked.
    """

    component: str
    how: str
    direct: bool
    named: Named | None = None
    room: str | None = None
    """The room it is in, where that is not the one that is walked."""
    link: str = ""
    """What ties it to the predicate: a name in `sign_weights`."""


A_HOME = frozenset("apartment flat house home property condo townhouse bungalow".split())

OF_THE_PLACE = Bearer(ROOM_GENERAL, "said of the place as a whole", True, room="whole_unit", link="whole")


class Bearers:
    """The subjects of each clause of one sentence, and from them the bearer of each predicate."""

    def __init__(self, spoken: Spoken, place: Place, predicates: Sequence[Mention], vocabulary: Vocabulary) -> None:
        self._spoken = spoken
        self._vocabulary = vocabulary
        self._place = place
        self._predicates = sorted(predicates, key=lambda mention: mention.start)
        self._where = Whereabouts(spoken, self._predicates, place)
        self._subjects = Subjects(spoken, self._predicates, self._where).of_clauses()
        self._last: dict[int, Named] = {}

    def of(self, predicate: Mention, *, adjective: bool, noun: bool) -> tuple[Bearer, ...]:
        """All bearers of a predicate, best reading first found: several only where a list shares it."""
        spoken, clause = self._spoken, self._spoken.clause_of(predicate.start)
        named = spoken.named_in(clause)
        if adjective and (done_to := self._done_to(predicate, named, clause)):
            return self._each((done_to, *self._where.also_done_to(clause)), "described", since=predicate.start)
        if adjective and (after := self._described_by(predicate, named, clause)):
            if self._is_a_home(after) and set(self._subjects[clause.index]) <= {after}:
                return (OF_THE_PLACE,)
            return self._each((after,), "described", since=predicate.start)
        topics = [
            one
            for one in named
            if one.relation == "topic" and one.end <= predicate.start and not self._where.modifies_next(one, named)
        ]
        on = self._where.lies_on(predicate, clause)
        pronoun = {"it", "they", "that", "this", "one"} & set(spoken.norms(clause.start, predicate.start))
        stated = not pronoun or self._where.ends_before(predicate, on)
        if on is not None and (noun or (not topics and stated and not self._is_means(on, clause))):
            self._last[clause.index] = on
            return self._each((on, *self._where.spread_over(clause)), "follows", "{} follows it")
        if topics and topics[-1].component == ROOM_GENERAL and (self._sums_up(clause) or self._is_a_home(topics[-1])):
            return (OF_THE_PLACE,)
        subjects = self._subjects[clause.index]
        if self._place.subject and not (noun or self._subjects[clause.index]) and is_otherwise(spoken, clause):
            return (Bearer(self._place.subject, "what was spoken of, but for that", False, link="otherwise"),)
        if topics:
            shared = subjects if topics[-1] in subjects else (topics[-1],)
            return self._each(self._without_owners(shared), "subject", "said of {}")
        if not subjects and (moved := self._said_after(clause)) is not None:
            return self._each((moved,), "at the end", "the sentence ends with {}")
        if noun and self._is_in_here(clause):
            return (Bearer(ROOM_GENERAL, "said of the room", True, link="in here"),)
        if noun and self._place.subject and not subjects and self._where.is_of_it(predicate, clause):
            return (Bearer(self._place.subject, "a part of it", True, link="of it"),)
        if noun and (spread := self._where.spread_over(clause)):
            return self._each(spread, "spread", "{} tells where")
        if noun and subjects and self._where.is_on_it(predicate, clause):
            return self._each(subjects, "on it", "on {}")
        if (whole := self._side_of(predicate, clause)) is not None:
            return (Bearer(whole, "its side", True, link="side"),)
        if noun and not subjects and (wall := self._on_wall(predicate, clause)) is not None:
            return (wall,)
        if not subjects and not pronoun - {"one"} and (told := self._by_place(predicate, clause, noun=noun)):
            return told
        if subjects:
            carried = subjects if "it" in pronoun else self._without_owners(subjects)
            return self._each(carried, "carried", "still about {}", direct=False)
        if noun and clause.index and clause.link in {",", "and", "or"} and clause.index - 1 in self._last:
            before = self._last[clause.index - 1]
            return (Bearer(before.component, "listed with it", True, before, link="listed"),)
        if not pronoun and (stood := self._lies_behind(predicate, clause)) is not None:
            return self._each((stood,), "side", "behind or under {}")
        if noun and (near := self._where.lies_at(predicate, clause)):
            return self._each((near,), "at", "{} tells where")
        if noun and (listed := self._where.list_lies_on(clause)):
            return self._each((listed,), "listed", "{} ends the list")
        if pronoun & {"it", "they", "that"} and (named_after := self._where.named_after(clause)):
            return self._each((named_after,), "named after", "{} names it")
        if self._sums_up(clause):
            return (OF_THE_PLACE,)
        if self._is_about_all(clause):
            return (Bearer(ROOM_GENERAL, "said of the room as a whole", True, link="all"),)
        if self._place.subject:
            both = both_of(spoken, clause, self._place) or (self._place.subject,)
            return tuple(Bearer(one, "the component last in focus", False, link="focus") for one in both)
        return ()

    def _each(
        self, named: Sequence[Named], link: str, how: str = "{}", *, since: int | None = None, direct: bool = True
    ) -> tuple[Bearer, ...]:
        """A bearer for each component named; `how` tells it with the words that name it, or those from `since` on."""
        spoken = self._spoken
        return tuple(
            Bearer(
                one.component,
                how.format(f"'{spoken.words(one.start if since is None else since, one.end)}'"),
                direct,
                one,
                link=link,
            )
            for one in named
        )

    def _by_place(self, predicate: Mention, clause: Clause, *, noun: bool) -> tuple[Bearer, ...]:
        """What a clause without a subject of ours tells by where it is: a height of the wall, a plate on the door."""
        if noun:
            focus = self._vocabulary.components.get(self._place.subject or "")
            upright = focus is not None and focus.group != "surfaces"
            if self._where.is_behind_furniture(predicate):
                return (Bearer(WALL, "behind what stands along a wall", True, link="on the wall"),)
            high = not upright and self._where.is_at_a_height(clause)
            return (Bearer(WALL, "at a height where only a wall is", True, link="on the wall"),) if high else ()
        owner = self._where.owner_of_subject(predicate, clause)
        return self._each((owner,), "side", "said of what is on {}") if owner is not None else ()

    def _lies_behind(self, predicate: Mention, clause: Clause) -> Named | None:
        """`there's lint all down behind the dryer`, `water on the floor by the furnace`: soil behind, water by what
        stands free of the wall, whatever was in focus."""
        wet = {sense.id for sense in predicate.of("condition")} <= {"leak", "damp"}
        classes = {self._vocabulary.conditions[sense.id].class_ for sense in predicate.of("condition")}
        for one in self._spoken.named_in(clause):
            between = set(self._spoken.norms(predicate.end, one.start))
            group = self._vocabulary.components[one.component].group
            free = group == "appliances" or one.component in STANDS_FREE
            if one.relation == "place" and free and (between & BEHIND if classes == {"soil"} else wet and between & BY):
                return one
        return None

    def _said_after(self, clause: Clause) -> Named | None:
        """`very tidy, that window`, `works like a charm, this fan`: a sentence that ends with what it is about."""
        spoken = self._spoken
        last = spoken.clauses[-1]
        named = spoken.named_in(last)
        if clause.index or len(named) != 1 or last is clause or any(one.start < last.start for one in spoken.named):
            return None
        lead = spoken.norms(last.start, named[0].start)
        alone = named[0].end == last.end and lead in (["the"], ["this"], ["that"], ["these"], ["those"])
        return named[0] if alone and last.link in {",", ""} else None

    def _is_means(self, one: Named, clause: Clause) -> bool:
        """`the door won't come down on the button`: what it was tried with, where something is spoken of."""
        return one.component in MEANS and bool(self._subjects[clause.index])

    def _on_wall(self, predicate: Mention, clause: Clause) -> Bearer | None:
        """The wall behind a door or above a window, of a flaw that walls have."""
        around = self._where.on_wall_beside(predicate, clause)
        usual = any(self._vocabulary.afflicts(sense.id, WALL) for sense in predicate.of("condition"))
        if around is None or not usual:
            return None
        told = f"on the wall: '{self._spoken.words(around.start, around.end)}' tells where"
        return Bearer(WALL, told, True, link="on the wall")

    def _side_of(self, predicate: Mention, clause: Clause) -> str | None:
        """`the drip pans are black, there's grease down both sides`: sides, top and back are those of the whole."""
        sides = [at for at in range(predicate.start + 1, clause.end) if self._spoken.tokens[at].norm in WHOLE_SIDES]
        if not sides or any(at + 1 < clause.end and self._spoken.tokens[at + 1].norm in {"of", "one"} for at in sides):
            return None
        if any(
            at + 1 < clause.end and self._spoken.tokens[at + 1].tag.startswith("NN") for at in sides
        ) or self._spoken.named_in(clause):
            return None
        wholes = [one.component for one in self._spoken.named] + [one for one, _ in self._place.lately]
        terms = self._vocabulary.components
        focus = self._place.subject
        parts = [one.component for one in self._subjects[clause.index]] or ([focus] if focus else [])
        for part in parts:
            for owner in terms[part].part_of:
                if owner in wholes and terms[owner].group == terms[part].group:
                    return owner
        return None

    def _without_owners(self, shared: Sequence[Named]) -> tuple[Named, ...]:
        """`the bottom shelf and the refrigerator has a crack`: of a part and its owner it is said of the part."""
        owners = {owner for one in shared for owner in self._vocabulary.components[one.component].part_of}
        return tuple(one for one in shared if one.component not in owners) or tuple(shared)

    def _done_to(self, predicate: Mention, named: Sequence[Named], clause: Clause) -> Named | None:
        """`it clawed up the door trim`: a past verb of somebody's doing, and what it was done to."""
        tokens = self._spoken.tokens
        if tokens[predicate.start].tag not in {"VBD", "VBN"} or predicate.start == clause.start:
            return None
        before = self._spoken.norms(max(clause.start, predicate.start - 2), predicate.start)
        have_done = before[:1] in (["i"], ["we"], ["they"]) and before[1:] in (["have"], ["'ve"], ["had"])
        if not have_done and (tokens[predicate.start].tag != "VBD" or before[-1] not in DOERS):
            return None
        for one in named:
            between = {token.norm for token in tokens[predicate.end : one.start]}
            if one.start >= predicate.end and between <= BEFORE_OBJECT:
                return one
        return None

    def _described_by(self, predicate: Mention, named: Sequence[Named], clause: Clause) -> Named | None:
        """The noun right after an adjective: `cracked floor tile`."""
        tokens = self._spoken.tokens
        at = predicate.end
        while at < clause.end and at - predicate.end <= 2:
            for one in named:
                if one.start == at:
                    return one
            lacks = tokens[predicate.end - 1].norm == "missing" and tokens[at].norm in {
                "a",
                "an",
                "its",
                "the",
                "one",
                "two",
            }
            if tokens[at].tag not in PARTICIPLES and not lacks:
                return None
            at += 1
        return None

    def _is_in_here(self, clause: Clause) -> bool:
        """`no mold in here`: of the room, and not of what was spoken of before."""
        norms = self._spoken.norms(clause.start, clause.end)
        last = norms[-2:] == ["in", "here"] or norms[-2:] == ["down", "here"]
        return last and not self._subjects[clause.index]

    def _sums_up(self, clause: Clause) -> bool:
        """`Overall: decent shape.`, near the end of the walk and with nothing named."""
        rooms = any(m.of("room", "rooms") for m in self._spoken.found.terms)
        opens = (
            self._spoken.norms(0, 1) in (["overall"], ["altogether"])
            or self._spoken.norms(0, 3)
            in (
                ["all", "in", "all"],
                ["on", "the", "whole"],
                ["by", "and", "large"],
            )
            or self._spoken.norms(0, 2)
            in (
                ["all", "up"],
                ["all", "told"],
                ["in", "short"],
                ["in", "total"],
            )
        )
        named = [one for one in self._spoken.named_in(clause) if one.component != ROOM_GENERAL]
        return self._place.closing and opens and not rooms and not named

    def _is_a_home(self, one: Named) -> bool:
        """`it's a nice clean unit`, `the house is sound`: the whole of it, in whatever room it is said."""
        if one.component != ROOM_GENERAL:
            return False
        called = self._spoken.tokens[one.end - 1].norm  # a stove is a unit too
        return called in A_HOME or (called == "unit" and "overall" in self._spoken.norms())

    def _is_about_all(self, clause: Clause) -> bool:
        if any(not self._is_the_others(cue) for cue in self._spoken.cues("whole", within=clause)):
            return True
        if clause.index and clause.link in {":", ""}:
            before = self._spoken.clauses[clause.index - 1]
            if self._spoken.has_cue("whole", within=before) and before.end - before.start <= 3:
                return True
        rooms = self._spoken.terms("room", within=clause)
        return any(not {"a", "an"} & set(self._spoken.norms(max(clause.start, m.start - 3), m.start)) for m in rooms)

    def _is_the_others(self, cue: Mention) -> bool:
        """`one has a hole, the rest are fine`: the others of what was spoken of, and not the rest of the room."""
        if self._spoken.norms(cue.end - 1, cue.end) != ["rest"] or not self._place.subject:
            return False
        following = self._spoken.norms(cue.end, cue.end + 2)
        return following[:1] in (["are"], ["were"], ["look"], ["work"], ["open"]) or following == ["of", "them"]

    def subjects_of(self, clause: Clause) -> tuple[Named, ...]:
        """The components that a clause is about."""
        return self._subjects[clause.index]
