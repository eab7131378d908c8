"""Which of the flaws spoken of lately a work is for: one patches a wall and not the missing door stop named since,
one snakes a drain, a battery is for an alarm."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from narrate2report.read.drafts.draft import Draft
from narrate2report.read.lexis.vocabulary import Vocabulary
from narrate2report.read.speech.spoken import Spoken

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
