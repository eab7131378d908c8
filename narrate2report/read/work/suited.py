"""Which of the flaws spoken of lately a work is for: one patches a wall and not the missing door stop named since,
one snakes a drain, a battery is for an alarm."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from narrate2report.read.drafts.draft import Draft
from narrate2report.read.lexis.phrase_tree import COMPONENT_ROLES
from narrate2report.read.lexis.vocabulary import Vocabulary
from narrate2report.read.meant.scene import Scene
from narrate2report.read.speech.modes import Mode
from narrate2report.read.speech.spoken import Named, Spoken
from narrate2report.read.work.worked_on import NOT_TO_COME, to_do

SUITED: Final[tuple[tuple[frozenset[str], frozenset[str]], ...]] = tuple(
    (frozenset(words.split()), frozenset(things.split()))
    for words, things in (
        (
            "patch patching spackle mud skim plaster paint repaint painting painter painters",
            "surfaces door closet_door",
        ),
        ("snake snaking unclog plunge rod jet", "drain sink bathtub shower toilet condensate_drain"),
        (
            "recaulk re-caulk caulk silicone recaulking",
            "caulk bathtub sink shower countertop tub_surround backsplash window",
        ),
        ("regrout grout regrouting", "grout tile"),
        ("rekey rekeying", "lock door key"),
        ("defrost thaw", "freezer refrigerator"),
        ("mow mowing mower weed gardener", "lawn"),
        ("battery batteries volt", "smoke_alarm co_alarm thermostat doorbell remote_control intercom"),
        ("bulb bulbs relamp", "light_bulb light_fixture range_hood oven refrigerator ceiling_fan"),
        ("plumber plumbers", "plumbing dishwasher garbage_disposal washer ice_maker floor ceiling cabinet"),
        ("electrician electricians sparky", "electrical safety exhaust_fan oven range cooktop burner range_hood"),
        ("exterminator", "room_general"),
        ("locksmith", "lock door door_knob key mailbox window_lock"),
        ("tiler tilers", "tile grout floor backsplash tub_surround"),
        ("roofer roofers", "roof gutter siding ceiling"),
        ("glazier", "window shower_door mirror sliding_door"),
        ("appliance appliances", "appliances"),
        ("shampoo", "carpet furniture"),
    )
)
"""Words of a work and a trade, and the components or groups of components they are for."""


def for_both(spoken: Spoken, drafts: list[Draft], together: Sequence[str]) -> list[Draft]:
    """`the bin is cracked and the handle is gone, I'll order both`: one piece of work for each of two flawed things."""
    two = tuple(dict.fromkeys(together))
    named = any(one.relation == "topic" for one in spoken.named)
    if len(drafts) != 1 or len(two) != len(("this", "that")) or "both" not in spoken.norms() or named:
        return drafts
    return [replace(drafts[0], component=one) for one in two]


LED_BY: Final = frozenset("and plus then so a an just also both probably one two three".split())
MADE_NEW: Final = frozenset("new another fresh replacement".split())


def also_new(scene: Scene, drafts: Sequence[Draft], lately: Sequence[str]) -> list[Draft]:
    """`patch and paint there, plus a new stop`, `new filter, and somebody tighten that grille`: a new one of what was
    flawed lately, or beside other work, with no verb of its own."""
    spoken, found = scene.spoken, list[Draft]()
    for one in (*spoken.named, *_unnamed(spoken, lately)):
        clause = spoken.clause_of(one.start)
        at = one.start - 1
        lead = spoken.norms(clause.start, at)
        verbless = not any(token.is_finite for token in spoken.tokens[clause.start : clause.end])
        if not verbless or at < clause.start or spoken.tokens[at].norm not in MADE_NEW or set(lead) - LED_BY:
            continue
        beside = any(spoken.clause_of(draft.at).index < clause.index for draft in drafts)
        known = one.component in {draft.component for draft in (*drafts, *found)}
        if (
            known
            or not drafts
            or not (beside or one.component in lately)
            or scene.mode(at) in NOT_TO_COME - {Mode.INSTRUCTION}
        ):
            continue
        told = f"'{spoken.words(at, one.end)}' is work beside other work"
        how = f"'{spoken.words(one.start, one.end)}' is named"
        found.append(to_do(scene, at, (one.component, how), told, "replace", drafts[0].party, confidence=0.6))
    return found


def _unnamed(spoken: Spoken, lately: Sequence[str]) -> list[Named]:
    """`a new stop`: words that mean a thing only beside another, or after its flaw was told."""
    taken = spoken.named_tokens()
    return [
        Named(sense.id, term.start, term.end, "topic")
        for term in spoken.found.terms
        for sense in term.senses
        if sense.role in COMPONENT_ROLES and sense.id in lately and term.start not in taken
    ]


def suited_flaw(spoken: Spoken, flaws: Sequence[str], vocabulary: Vocabulary) -> str | None:
    """The newest of the flawed components that the work told of in a sentence is for; None where nothing tells.

    `flaws` are those spoken of lately, the newest first.
    """
    norms = set(spoken.norms())
    for words, things in SUITED:
        if not words & norms:
            continue
        for component in flaws:
            group = vocabulary.components[component].group if component in vocabulary.components else ""
            if component in things or group in things:
                return component
    return None
