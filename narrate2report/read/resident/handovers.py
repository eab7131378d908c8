"""Keys, fobs, papers and spare parts given to the resident or returned by them; `missing` for what did not come back.

Lists that leave the word `key` out are read by `key_lists`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from narrate2report.read.drafts.draft import Draft
from narrate2report.read.lexis.numbers import whole_number
from narrate2report.read.meant.negations import negation_before
from narrate2report.read.meant.scene import Scene
from narrate2report.read.resident.keeping import (
    comes_from_others,
    counted_after,
    heads_list,
    is_held_back,
    is_lacked,
    is_priced,
    is_tally,
    is_to_follow,
    left_by_them,
    the_one,
    told_behind,
)
from narrate2report.read.resident.key_lists import fall_short, find_lent, find_listed, handed, missing
from narrate2report.read.speech.clauses import Clause
from narrate2report.read.speech.modes import Mode
from narrate2report.read.speech.spoken import Named, Spoken
from narrate2report.read.things.details import quantity_before

LENT = frozenset({"air_filter", "light_bulb", "curtain"})
"""Components of other groups that are handed over when the speaker says so."""

LEAVES = frozenset("leaving leave left giving give given gave handed handing here".split())
"""Words of a giving cue with which parts of that kind change hands."""

KEPT_OUT = frozenset({Mode.HYPOTHETICAL, Mode.QUESTION, Mode.QUOTED, Mode.ELSEWHERE, Mode.POLICY, Mode.SEARCH})

EXPECTED = frozenset("minus short should supposed meant expecting expected due owed promised issued".split())
"""`there should've been three keys`: what ought to have been is not what was."""

NOT_BACK = frozenset("returned return back here handed hand give given gave come came got see seen".split())
STILL_TOLD = 3
"""For how many sentences a handover goes in the direction told before."""

HEADING = 5
"""Tokens of a sentence that only announces what is handed over: `Okay, keys then.`"""

OPENERS = frozenset({"opener", "openers", "remote", "remotes", "clicker"})
COUNTED_AS = frozenset(
    "returned back handed in over given gave got have has there is are 's only just i you we they me us total".split()
)
ALONG = frozenset({"along", "together", "plus"})
"""`along with one fob`: given with the rest, and no place."""

LYING = frozenset({"in", "on", "with", "inside", "under", "here", "there"})


@dataclass
class Handing:
    """What was handed over last, so that the next sentence can go on with it."""

    component: str | None = None
    returned: bool = False
    since: int = field(default=-2)

    def find(self, scene: Scene) -> list[Draft]:
        """Handover drafts of a sentence, and `missing` for what was not returned."""
        spoken = scene.spoken
        goes_on = scene.number - self.since <= 1
        left = any(left_by_them(spoken, one) for one in spoken.named if _is_handed(scene, one))
        gives, returns = spoken.has_cue("giving"), left or spoken.has_cue("returning")
        lately = scene.number - self.since <= STILL_TOLD
        returned = (returns and not _gives_only(spoken)) or (lately and self.returned and not gives)
        named = _named(scene, gives=gives, returns=returns, returned=returned, goes_on=goes_on)
        keys_before = goes_on and self.component in {"key", "mailbox_key"}
        listed = find_listed(scene, named, keys_before=keys_before, returned=returned)
        drafts = _without_heading([*named, *listed, *find_lent(scene, LENT)])
        drafts += fall_short(scene, drafts, self.component if goes_on else None)
        told = [one.component for one in drafts]
        brief = len(spoken.tokens) <= HEADING
        heading = [one.component for one in spoken.named if brief and _is_handed(scene, one)]
        if told or heading:
            self.component, self.returned, self.since = (told or heading)[-1], returned, scene.number
        return drafts


def _named(scene: Scene, *, gives: bool, returns: bool, returned: bool, goes_on: bool) -> list[Draft]:
    """What is handed over under its own name."""
    spoken, drafts = scene.spoken, list[Draft]()
    counted = [one for one in spoken.named if _is_handed(scene, one) and (_quantity(spoken, one) or 0) > 0]
    context = gives or returns or goes_on or len(counted) > 1
    for one in spoken.named:
        clause, quantity = spoken.clause_of(one.start), _quantity(spoken, one)
        listed = bool(counted or gives or returns) or (goes_on and _is_bare(spoken, clause))
        meant = _meant(scene, one, listed=listed and quantity is not None)
        along = quantity is not None and ALONG & set(spoken.norms(clause.start, one.start))
        if meant is not None and meant.component not in LENT and is_held_back(spoken, one):
            drafts.append(missing(spoken, meant, scene.room, quantity))
            continue
        placed = one.relation == "place" and not along and not _right_behind(spoken, one)
        if meant is None or _is_kept_out(scene, one) or placed or one.start in spoken.used:
            continue
        if is_lacked(spoken, one) and meant.component not in LENT:
            drafts.append(missing(spoken, meant, scene.room, quantity))
            continue
        yours = _is_left_for_you(spoken, one)
        if not context and not yours and not quantity_before(spoken, one.start, clause) and _has_article(spoken, one):
            continue
        if one.component == "manual" and quantity is None and spoken.has_cue("not_tested") and not gives:
            continue  # I didn't run it, the manual's still inside
        due = EXPECTED & set(spoken.norms(clause.start, one.start)) or "supposed" in spoken.norms(one.end, clause.end)
        if due and not _not_back(spoken, one):
            continue
        if negation_before(spoken, clause, one.start) or quantity == 0:
            if returned and meant.component not in LENT:
                drafts.append(missing(spoken, meant, scene.room, quantity or None))
        elif _not_back(spoken, one):
            drafts.append(missing(spoken, meant, scene.room, quantity))
        elif _is_flawed(scene, one, clause):
            continue
        elif meant.component in LENT:
            if quantity is not None and _leaves(spoken):
                drafts.append(handed(spoken, meant, scene.room, quantity, returned=False))
        elif (
            quantity is not None or gives or returns or one.component == "manual" or (goes_on and _goes_on(spoken, one))
        ):
            several = one.component == "key" and spoken.tokens[one.end - 1].tag == "NNS"
            ordered = scene.mode(one.start) is Mode.INSTRUCTION and not _right_behind(spoken, one)
            if quantity is None and (ordered or several or one.relation != "topic"):
                continue
            quantity = the_one(spoken, one) if quantity is None else quantity
            if any(draft.component == meant.component and draft.quantity == quantity for draft in drafts) and is_tally(
                spoken, one
            ):
                continue
            drafts.append(handed(spoken, meant, scene.room, quantity, returned=returned))
        elif yours or (
            (counted or drafts or heads_list(spoken)) and (_lies(spoken, one) or _ends_list(spoken, one, clause))
        ):
            drafts.append(handed(spoken, meant, scene.room, _one(spoken, one), returned=returned))
    return drafts


def _right_behind(spoken: Spoken, one: Named) -> bool:
    """`dropped off both keys`, `take this clicker`: the object of the word that gives or returns it."""
    return any(
        cue.start < one.start <= cue.end + 1 and not {"in", "on"} & set(spoken.norms(cue.end, one.start))
        for cue in spoken.cues("giving", "returning")
    )


def _is_kept_out(scene: Scene, one: Named) -> bool:
    """`your fob's not ready`, `if you lose the key`; `I was expecting three, I've been given two` is told."""
    spoken, clause = scene.spoken, scene.spoken.clause_of(one.start)
    if {"lose", "losing", "misplace"} & set(spoken.norms(clause.start, one.start)):
        return True  # lose the fob and it's fifty
    if comes_from_others(spoken, one) or is_priced(spoken, one) or is_to_follow(spoken, one):
        return True
    if scene.mode(one.start) is Mode.SEARCH:
        return not spoken.has_cue("returning", "giving")
    after = spoken.norms(one.end, clause.end)
    late = "not" in after and after[: after.index("not")][-1:] != ["do"] and not _not_back(spoken, one)
    return scene.mode(one.start) in KEPT_OUT or late


def _has_article(spoken: Spoken, one: Named) -> bool:
    """`there's a key for it`: one of its kind, and none that is counted."""
    return bool({"a", "an", "your"} & set(spoken.norms(max(0, one.start - 3), one.start)))


def _is_handed(scene: Scene, one: Named) -> bool:
    return scene.vocabulary.components[one.component].group == "handed_over"


def _meant(scene: Scene, one: Named, *, listed: bool) -> Named | None:
    """What is handed over under a name: among counted things an opener of the garage is its remote."""
    if _is_handed(scene, one) or one.component in LENT:
        return one
    opener = one.component == "garage_door" and scene.spoken.tokens[one.end - 1].norm in OPENERS
    return Named("garage_remote", one.start, one.end, one.relation) if opener and listed else None


def _is_flawed(scene: Scene, one: Named, clause: Clause) -> bool:
    """`the key is bent`: what is said of its shape hands nothing over."""
    spoken = scene.spoken
    return any(
        mention.start in clause
        and mention.start not in spoken.used
        and scene.is_said(mention.start)
        and not scene.says_nothing(mention)
        and (
            any(
                sense.beside in {"", one.component} and not scene.vocabulary.is_sound(sense.id)
                for sense in mention.of("condition")
            )
            or any(one.component in {sense.id, sense.beside} for sense in mention.of("works"))
        )
        for mention in spoken.found.terms
    )


def _leaves(spoken: Spoken) -> bool:
    return any(LEAVES & set(spoken.norms(cue.start, cue.end)) for cue in spoken.cues("giving"))


def _lies(spoken: Spoken, one: Named) -> bool:
    """`the fob's in there too`, `the manual is on the counter`."""
    after = spoken.norms(one.end, one.end + 3)
    return bool(after) and after[0] in {"'s", "is", "are"} and bool(LYING & set(after[1:]))


HANDY = frozenset({"remote_control", "garage_remote", "fob", "gate_card", "parking_pass"})
"""What lies about a home only to be handed over."""


def _is_left_for_you(spoken: Spoken, one: Named) -> bool:
    """`your parking permit is on the counter`, `the remote is here, with new batteries`: handed over by lying there."""
    if not _lies(spoken, one) or "not" in spoken.norms(one.end, one.end + 3):
        return False
    theirs = one.start == 1 and spoken.norms(0, 1) == ["your"]
    return theirs or (one.component in HANDY and spoken.norms(one.end + 1, one.end + 2)[:1] in (["here"], ["on"]))


def _goes_on(spoken: Spoken, one: Named) -> bool:
    """`Parking permit, space forty.`: a bare item after others that were handed over."""
    bare = not any(token.is_finite for token in spoken.tokens[: one.end + 1])
    return _lies(spoken, one) or (bare and one.component != "key" and spoken.clause_of(one.start).index == 0)


def _ends_list(spoken: Spoken, one: Named, clause: Clause) -> bool:
    """`three keys and the clicker`: a last item with its article, and no verb."""
    listed = clause.link in {"and", ",", "plus"} and "the" in spoken.norms(clause.start, one.start)
    return listed and _is_bare(spoken, clause)


def _is_bare(spoken: Spoken, clause: Clause) -> bool:
    """Whether a clause has no verb: `one garage opener`."""
    return not any(spoken.tokens[at].is_finite for at in range(clause.start, clause.end))


def _one(spoken: Spoken, one: Named) -> int | None:
    return None if spoken.tokens[one.end - 1].tag == "NNS" else 1


def _without_heading(drafts: Sequence[Draft]) -> list[Draft]:
    """`the keys came back: two door keys, one fob`: keys without a number announce the counted ones."""
    if not any(draft.kind == "handover" and draft.quantity is not None for draft in drafts):
        return list(drafts)
    return [
        draft
        for draft in drafts
        if not (draft.kind == "handover" and draft.component == "key" and draft.quantity is None)
    ]


def _gives_only(spoken: Spoken) -> bool:
    return any(
        cue
        for cue in spoken.cues("giving")
        if spoken.words(cue.start, cue.end).lower() in {"here's", "here is", "you've got", "you get", "here are"}
    )


def _quantity(spoken: Spoken, one: Named) -> int | None:
    """`two front door keys`; also `keys: two`, `keys returned, two` and `two of three keys`."""
    clause = spoken.clause_of(one.start)
    for at in range(clause.start, one.start - 2):
        first, last = whole_number(spoken.tokens, at), whole_number(spoken.tokens, at + 2)
        if first and last and first[1] == at + 1 and spoken.norms(at + 1, at + 2) == ["of"]:
            return first[0]
    before = quantity_before(spoken, one.start, clause)
    if before is not None:
        return before
    if spoken.norms(one.end, one.end + 1) == ["("]:
        bracketed = whole_number(spoken.tokens, one.end + 1)
        if bracketed is not None:
            return bracketed[0]
    if "both" in spoken.norms(max(clause.start, one.start - 3), one.start):
        return 2
    for at in range(one.end, clause.end):
        number = whole_number(spoken.tokens, at)
        told = set(spoken.norms(one.end, at)) <= COUNTED_AS
        if number is not None and number[1] == clause.end and told:
            return number[0]
    if (after := counted_after(spoken, one)) is not None:
        return after
    if (left := left_by_them(spoken, one)) is not None:
        return left
    if (behind := told_behind(spoken, one)) is not None:
        return behind
    for later in spoken.clauses[clause.index + 1 : clause.index + 2]:
        number = whole_number(spoken.tokens, later.start)
        if later.link in {":", ","} and number is not None and number[1] == later.end:
            return number[0]
    determiner = spoken.norms(max(clause.start, one.start - 3), one.start)
    return 1 if {"a", "an", "your"} & set(determiner) and spoken.tokens[one.end - 1].tag not in {"NNS"} else None


def _not_back(spoken: Spoken, one: Named) -> bool:
    """`remote: not returned`, `the mailbox key is ... you lost it`, `the mail key he did not return yet`."""
    clause = spoken.clause_of(one.start)
    for later in spoken.clauses[clause.index : clause.index + 3]:
        if later.index > clause.index and any(other.start in later for other in spoken.named):
            return False
        words = spoken.norms(max(one.end, later.start), later.end)
        if later.index > clause.index and words in (["no"], ["nope"], ["not", "here"]):
            return True
        comes_on = ("come", "on") in pairwise(words)  # the oven light doesn't come on
        if {"lost", "outstanding"} & set(words) or ("not" in words and NOT_BACK & set(words) and not comes_on):
            return True
    return False
