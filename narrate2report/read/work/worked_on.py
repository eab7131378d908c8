"""What a piece of work is done on, and whose work it is."""

from __future__ import annotations

from narrate2report.read.drafts.draft import Draft
from narrate2report.read.lexis.phrase_tree import Mention
from narrate2report.read.meant.scene import Scene
from narrate2report.read.speech.clauses import Clause
from narrate2report.read.speech.modes import Mode
from narrate2report.read.speech.spoken import Named, Spoken
from narrate2report.read.things.pointing import POINTING, determines
from narrate2report.read.things.whereabouts import ROOM_GENERAL
from narrate2report.records.findings import Action, Party

NOT_TO_COME = frozenset(set(Mode) - {Mode.ASSERTED, Mode.FUTURE})
"""How words are meant that plan nothing, where they do not name the work."""

STAFF = frozenset(
    "maintenance maint technician plumber electrician handyman contractor exterminator locksmith facilities somebody"
    " someone guys guy crew chap man welder cleaner cleaners painter painters roofer office team they he she i we"
    " my our 'll landlord me us fellow bloke colleague people company".split()
)
RESIDENT = frozenset("tenant tenants resident residents you".split())
OWN_SELVES = frozenset("yourself yourselves themselves".split())
"""With these it is they who do it: `tenants to swap that themselves`."""

OWNER = frozenset("owner owners landlord".split())
BROUGHT = frozenset("send bring get".split())
"""What is sent or brought to `you` is not the resident's work."""

TILL = frozenset("once when until till after while".split())
"""What is named behind one of these tells when it is done: `bleed it once the boiler is on`."""

SOON = 4
"""How many words after the work its object may stand in a clause of its own."""


def worked_on(scene: Scene, mention: Mention, clause: Clause, flaw: str | None) -> tuple[str, str]:
    """The component of the work: named after the action, pointed to, named before it, or spoken of before."""
    spoken = scene.spoken
    meant = [
        one
        for one in spoken.named
        if scene.mode(one.start) is not Mode.HYPOTHETICAL
        and (one.relation != "place" or _is_looked_at(spoken, mention, one) or _is_asked_for(spoken, mention, one))
    ]
    after = [one for one in meant if one.start in clause and one.start >= mention.end]
    before = [one for one in meant if one.start in clause and one.end <= mention.start]
    after = [one for one in after if not TILL & set(spoken.norms(mention.end, one.start))]
    soon = [one for one in meant if one.relation == "topic" and 0 <= one.start - mention.end < SOON]
    if any(one.relation == "topic" for one in before):
        after = [one for one in after if one.relation == "topic"]  # the screen needs re-fixing on that window
    pointed = _points(spoken, mention, clause)
    if pointed and not before and not any(one.relation == "topic" for one in after):
        earlier = [one for one in meant if one.relation == "topic" and one.start < clause.start]
        earlier = [one for one in earlier if not flaw or one.component != ROOM_GENERAL]  # that's common property
        if earlier and flaw not in {one.component for one in spoken.named}:
            return earlier[-1].component, "what 'it' points to"
    else:
        found: Named | None = next(iter([*after[:1], *before[-1:], *soon[:1]]), None)
        if found is not None:
            return found.component, f"'{spoken.words(found.start, found.end)}' is named"
        subjects = [one for one in scene.bearers.subjects_of(clause) if one in meant]
        if subjects:
            return subjects[-1].component, "still about it"
    first = spoken.tokens[mention.start].norm
    if mention.end - mention.start > 1 and first in scene.vocabulary.components:
        return first, f"'{spoken.words(mention.start, mention.end)}'"  # carpet cleaners
    only = None if pointed else _all_that_is_named(scene, mention, clause)
    if only is not None:
        return only.component, f"'{spoken.words(only.start, only.end)}' is all that is named"
    if not flaw and (usual := _usual_of_flaw_after(scene, mention)) is not None:
        return usual
    if not flaw and (led := _led_up_to(scene, mention)) is not None:
        return led, "what the sentence began with"
    focus = flaw or scene.place.subject
    return (focus, "the flaw spoken of before") if focus else (ROOM_GENERAL, "no component in focus")


def _led_up_to(scene: Scene, mention: Mention) -> str | None:
    """`the plan for the toilet is, we swap it out`: the one thing that was named before, however."""
    named = {one.component for one in scene.spoken.named if one.end <= mention.start}
    return named.pop() if len(named) == 1 else None


def _all_that_is_named(scene: Scene, mention: Mention, clause: Clause) -> Named | None:
    """`someone has to come out and look at the tap`: the one thing named after the work, in its clause or the next;
    not the spare part of `I'll run to the store for a bulb`."""
    spoken = scene.spoken
    named = [
        one
        for one in spoken.named
        if one.start >= mention.end
        and scene.mode(one.start) is not Mode.HYPOTHETICAL
        and spoken.tokens[one.start - 1].norm not in {"a", "an", "some"}
    ]
    near = len(named) == 1 and spoken.clause_of(named[0].start).index - clause.index <= 1
    return named[0] if near else None


def _usual_of_flaw_after(scene: Scene, mention: Mention) -> tuple[str, str] | None:
    """`I'll fill those holes`: what the flaw right after the work is usual of, and how that was found."""
    flaw = next((term for term in scene.spoken.terms("condition") if 0 <= term.start - mention.end < SOON), None)
    usual = scene.vocabulary.conditions[flaw.of("condition")[0].id].default if flaw is not None else None
    if flaw is None or not usual or usual == ROOM_GENERAL:
        return None
    return usual, f"'{scene.spoken.words(flaw.start, flaw.end)}' are usual of it"


def to_do(
    scene: Scene, at: int, on: tuple[str, str], told: str, action: Action, party: Party | None, confidence: float
) -> Draft:
    """The draft of work to come: on a component (with how it was found), told by these words."""
    component, how = on
    return Draft(
        kind="follow_up",
        room=scene.room,
        component=component,
        at=at,
        because=(told, how),
        action=action,
        party=party,
        confidence=confidence,
    )


def _is_looked_at(spoken: Spoken, mention: Mention, one: Named) -> bool:
    """`look at that oven`: the word of place belongs to the work, and what follows is its object."""
    around = spoken.norms(mention.end, mention.end + 1) in (["round"], ["around"], ["along"])
    if around and 0 < one.start - mention.end <= SOON:
        return True  # touch up round the door frame
    last = spoken.norms(mention.end - 1, mention.end)
    ends = mention.end - mention.start > 1 and last in (["at"], ["on"], ["into"], ["for"])
    return ends and 0 <= one.start - mention.end <= 2


def _is_asked_for(spoken: Spoken, mention: Mention, one: Named) -> bool:
    """`a work order for the tap`, `a ticket on the fridge`: the word of place belongs to the noun of the work."""
    if one.start < mention.end or not any(sense.form in {"phrase", "noun"} for sense in mention.of("action")):
        return False
    lead = [norm for norm in spoken.norms(mention.end, one.start) if norm not in {"the", "that", "this", "your", "a"}]
    return len(lead) <= 2 and bool({"for", "on", "about", "to"} & set(lead[:1]))


def _points(spoken: Spoken, mention: Mention, clause: Clause) -> bool:
    """`I'll fix that`, `snug that up`, `that gets done`: the work is on what was just spoken of."""
    inside = spoken.norms(mention.start, min(clause.end, mention.end + 1))
    if POINTING & set(inside) and not determines(spoken, mention.end):
        return True
    return any(
        spoken.tokens[at].norm in POINTING and not determines(spoken, at) for at in range(clause.start, mention.start)
    )


SUPPOSING = frozenset({"if", "unless"})


def depends(scene: Scene, clause: Clause) -> bool:
    """`if it breaks we'll fix it`, `no tape on it, because then we have to do it again`: work that comes only if
    something happens first."""
    clauses = scene.spoken.clauses
    since = {one.link for one in clauses[1 : clause.index + 1]}
    if {"because", "then"} & since and scene.mode(clauses[0].start) is Mode.INSTRUCTION:
        return True
    earlier = scene.spoken.clauses[max(0, clause.index - 2) : clause.index]
    supposed = [one for one in earlier if one.link in SUPPOSING and scene.mode(one.start) is Mode.HYPOTHETICAL]
    return bool(supposed) and not any(
        one.link in {"but", "so"} for one in scene.spoken.clauses[supposed[0].index + 1 :]
    )


def is_only_supposed(scene: Scene, clause: Clause) -> bool:
    """`if it goes again we'll get the plumber back`; `if that doesn't shift them I'll send pest control` is a plan."""
    return depends(scene, clause) and "not" not in scene.spoken.norms(0, clause.start)


def party_of(spoken: Spoken, clause: Clause, *, owner_speaks: bool) -> Party | None:
    """Who does the work that a clause plans; None where nobody is named."""
    norms = set(spoken.norms(clause.start, clause.end))
    if norms & OWNER:
        return "owner"
    if norms & RESIDENT and not norms & BROUGHT:
        return "resident"
    if norms & STAFF:
        return "owner" if owner_speaks else "manager"
    return None
