"""Care and responsibility said to the resident about a component. Advice about nothing in particular is talk."""

from __future__ import annotations

from collections.abc import Sequence

from narrate2report.read.drafts.draft import Draft
from narrate2report.read.meant.orders import GENTLY, bans_something
from narrate2report.read.meant.scene import Scene
from narrate2report.read.resident.cared_for import PLAIN, REMOVALS, CaredFor, also_cared_for, cared_for
from narrate2report.read.resident.house_rules import HELPFUL, ruled, tells_when
from narrate2report.read.resident.requests import COMPANIONS, asks_word, find_orders, says_back
from narrate2report.read.resident.to_others import LEADING
from narrate2report.read.speech.clauses import Clause
from narrate2report.read.speech.modes import Mode, Stance
from narrate2report.read.speech.spoken import Spoken
from narrate2report.read.things.focus import Focus
from narrate2report.read.things.whereabouts import ROOM_GENERAL

INDEFINITE = frozenset("something anything things stuff".split())
"""What a rule for everything is about: `if you scratch something, we charge`."""


def find_advice(scene: Scene, focus: Focus, others: Sequence[Draft]) -> list[Draft]:
    """The care that a sentence asks, or the rule of the house that it tells.

    `others` are the drafts of the sentence so far: what is tried on the walk is no advice, nor is planned work.
    """
    asked = _asked_care(scene, focus, others)
    rule = None if asked or any(draft.kind == "follow_up" for draft in others) else ruled(scene, focus)
    if rule is None:
        return asked
    at, component, how = rule
    told = f"a rule of the house: '{scene.spoken.words(at, min(at + 4, scene.spoken.clause_of(at).end))}'"
    return [
        Draft(kind="advice", room=scene.room, component=component, at=at, because=(told, how), confidence=0.6),
    ]


def _asked_care(scene: Scene, focus: Focus, others: Sequence[Draft]) -> list[Draft]:
    """The care that words of order ask, of the component it is about; two where a second order names another."""
    spoken, stances = scene.spoken, scene.stances
    if says_back(spoken):
        return []
    orders = find_orders(scene, others)
    if orders and not any(_is_addressed(spoken, clause, stances[at].cue) for clause, at in orders):
        return []
    warned = _consequence(spoken, stances)
    if warned is not None and tells_when(scene, spoken.clause_of(warned)):
        warned = None
    if not orders and warned is None:
        return []
    supposed = not orders
    for_all = not orders and INDEFINITE & set(spoken.norms())
    if not orders and warned is not None:
        orders = [(spoken.clause_of(warned), warned)]
    word = _asks_a_word(spoken, orders, warned=warned is not None, supposed=supposed)
    found = _reported(scene, warned, focus) if warned is not None and word else cared_for(scene, orders, focus)
    if (
        found is None
        or (found.trust == 0 and (for_all or (supposed and not spoken.has_cue("instruction"))))
        or (found.trust <= PLAIN and word and warned is None)
    ):
        return []
    asked = [(orders[0][1], found)]
    if not word:
        asked += [(at, one) for at, one in also_cared_for(scene, orders, focus) if one.component != found.component][:1]
    return [
        Draft(
            kind="advice",
            room=scene.room,
            component=one.component,
            at=at,
            because=(f"said to the resident: '{stances[at].cue or spoken.words(at, at + 2)}'", one.how),
            confidence=0.7,
        )
        for at, one in asked
    ]


def _bans(spoken: Spoken, clause: Clause) -> bool:
    """`no cutting on it`, `no shoes on the carpet`."""
    opening = spoken.norms(clause.start, clause.start + 2)
    return opening[:1] == ["no"] and (opening[-1].endswith("ing") or bans_something(spoken, clause, clause.start))


def _asks_a_word(spoken: Spoken, orders: Sequence[tuple[Clause, int]], *, warned: bool, supposed: bool) -> bool:
    """Whether it is a word that is asked for (`text me`), or a way out (`you smell gas, get out`), and no care."""
    if warned and GASSY & set(spoken.norms()) and "smell" in spoken.norms():
        return True
    asked = [clause for clause, _ in orders[:1]] + (list(spoken.clauses) if supposed else [])
    return bool(orders) and any(asks_word(spoken, clause) for clause in asked)


def _is_addressed(spoken: Spoken, clause: Clause, cue: str) -> bool:
    """Whether somebody is spoken to; a bare imperative may be the speaker's own `pull that out`."""
    if cue.lower() in REMOVALS or _bans(spoken, clause) or GENTLY & set(spoken.norms(clause.start, clause.start + 9)):
        return True
    listed = any(spoken.words(one.start, one.start + 1) == cue for one in spoken.cues("imperative"))
    handles = bool({"it", "them", "that", "those"} & set(spoken.norms(clause.start + 1, clause.start + 4)))
    return listed or handles or spoken.has_cue("instruction", "addressee", "often")


def _consequence(spoken: Spoken, stances: Sequence[Stance]) -> int | None:
    """`if you crack this tile, that's on you`: where a warning to the resident starts that tells what follows."""
    hypothetical = [at for at, stance in enumerate(stances) if stance.mode is Mode.HYPOTHETICAL]
    if not hypothetical or not spoken.has_cue("addressee", "contact"):
        return None
    first = hypothetical[0]
    ordered = any(
        cue
        for cue in spoken.cues("instruction", "imperative", "policy")
        if cue.start >= first and not (COMPANIONS | {"have"}) & set(spoken.norms(cue.start, cue.start + 4))
    )
    verbs = any(
        clause.start > first and (_opens_with_verb(spoken, clause) or _you_do(spoken, clause))
        for clause in spoken.clauses
    )
    return first if ordered or verbs else None


def _opens_with_verb(spoken: Spoken, clause: Clause) -> bool:
    opening = [at for at in range(clause.start, clause.end) if spoken.tokens[at].norm not in LEADING]
    if not opening or COMPANIONS & set(spoken.norms(opening[0], opening[0] + 1)):
        return False  # ask me how I know
    return spoken.tokens[opening[0]].tag == "VB"


def _you_do(spoken: Spoken, clause: Clause) -> bool:
    """`you get out`, `then you call me`: what the resident does when it happens."""
    norms = [norm for norm in spoken.norms(clause.start, clause.end) if norm not in {"then", "and", "so"}]
    if len(norms) < 2 or norms[0] != "you":
        return False
    verb = spoken.tokens[clause.start + spoken.norms(clause.start, clause.end).index("you") + 1]
    return verb.tag in {"VBP", "VB"} and verb.norm not in {"are", "do", "have", "can", "will", "see", "might", "know"}


GASSY = frozenset("gas burning smoke".split())


def _reported(scene: Scene, at: int, focus: Focus) -> CaredFor | None:
    """`if it grows past the line, text me`: what is to be reported is the flaw spoken of, or what the `if` names."""
    spoken = scene.spoken
    if GASSY & set(spoken.norms()) and "smell" in spoken.norms():
        shut = [one for one in spoken.named if one.component in HELPFUL and one.start > at]
        if shut:
            return CaredFor(shut[0].component, f"'{spoken.words(shut[0].start, shut[0].end)}' is to be used", 3)
        return CaredFor(ROOM_GENERAL, "a smell of the whole place", 2)
    clause = spoken.clause_of(at)
    named = [one for one in spoken.named if one.start in clause and one.relation != "place" and one.start > at]
    if named:
        return CaredFor(named[0].component, f"'{spoken.words(named[0].start, named[0].end)}' is named", 3)
    pointed = {"it", "that", "this", "they", "those", "these"} & set(spoken.norms(clause.start, clause.end))
    target = focus.flaw(scene.number) or focus.told(scene.number) or scene.place.subject
    if pointed and target:
        return CaredFor(target, "what 'it' points to", 2)
    later = [one for one in spoken.named if one.start >= clause.end and one.component != ROOM_GENERAL]
    if later:
        return CaredFor(later[0].component, f"'{spoken.words(later[0].start, later[0].end)}' is named", 3)
    earlier = [one for one in spoken.named if one.end <= at and one.relation != "place"]
    if earlier and earlier[-1].component != ROOM_GENERAL:
        return CaredFor(earlier[-1].component, f"'{spoken.words(earlier[-1].start, earlier[-1].end)}' was named", 2)
    known = target and "you" not in spoken.norms(at, at + 3) and scene.number - focus.told_at <= 1
    return CaredFor(target, "the flaw spoken of before", 1) if known and target else None
