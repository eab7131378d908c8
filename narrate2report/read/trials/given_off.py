"""Trials told by what a thing gives: `there, now we have light`, `there's power in all of them`, `the flame comes
straight away`.

The clause says nothing else, and what it is said of is one of the things that give this: a window gives light as well.
"""

from __future__ import annotations

from typing import Final

from narrate2report.read.drafts.draft import Draft
from narrate2report.read.meant.scene import Scene
from narrate2report.read.speech.clauses import Clause
from narrate2report.read.speech.spoken import Spoken
from narrate2report.read.trials.answers import FILLING

LIT: Final = ("light_fixture", "switch", "light_bulb")
LIVE: Final = ("outlet", "gfci_outlet", "breaker_panel")
BURNING: Final = ("burner", "cooktop", "range", "oven", "fireplace", "furnace", "water_heater", "heater")
WARM: Final = ("radiator", "heater", "furnace", "oven", "fireplace", "thermostat", "vent", "water_heater")
COOL: Final = ("air_conditioner", "vent")

GIVES: Final = {
    "light": LIT, "lights": LIT, "power": LIVE, "juice": LIVE, "electricity": LIVE, "current": LIVE,
    "flame": BURNING, "flames": BURNING, "fire": BURNING, "heat": WARM, "warmth": WARM, "cooling": COOL,
    "ice": ("ice_maker",), "suction": ("exhaust_fan", "range_hood"), "draft": ("exhaust_fan", "range_hood"),
}  # fmt: skip
"""What gives this, where it works."""

OF_A_STOVE: Final = frozenset({"flame", "flames"})
"""What comes of nothing in a kitchen but its burners."""

HAVE: Final = frozenset("have has got get gets getting gives giving gave see feel".split())
COME: Final = frozenset("comes come came coming catches caught appears jumps pops".split())
BESIDE: Final = FILLING | frozenset(
    "ah aha hey finally i 've 'm there some straight away immediately quickly quick every each time one ones first"
    " them your out up here everywhere four three two in at from to on strong blue big"
    " after second seconds moment".split()
)
"""Words beside what is given that do not change it."""


WHAT: Final = ("what it gives", "that it gives none")


def find_given_off(scene: Scene) -> list[Draft]:
    """The passed checks that a sentence tells so."""
    drafts: list[Draft] = []
    for clause in scene.spoken.clauses:
        given = _given(scene.spoken, clause)
        lacks = given is None and (given := _not_given(scene.spoken, clause)) is not None
        component = _giver(scene, clause, given) if given and scene.is_said(clause.start) else None
        if component is None or any(one.component == component for one in drafts):
            continue
        scene.spoken.used.update(range(clause.start, clause.end))
        drafts.append(
            Draft(
                kind="check",
                room=scene.room,
                component=component,
                at=clause.start,
                outcome="fails" if lacks else "works",
                because=(f"'{scene.spoken.words(clause.start, clause.end)}' tells {WHAT[lacks]}",),
                confidence=0.7,
            )
        )
    return drafts


def _given(spoken: Spoken, clause: Clause) -> str | None:
    """What a clause tells that one has, or that comes, and nothing more."""
    norms = spoken.norms(clause.start, clause.end)
    at = next((at for at, norm in enumerate(norms) if norm in GIVES), None)
    if at is None or spoken.ends_with_question():
        return None
    here = clause.start + at
    names = [one for one in spoken.named_in(clause) if not one.start <= here < one.end]
    if any(one.end - one.start > 1 for one in spoken.named_in(clause) if one.start <= here < one.end):
        return None  # we have light switches
    if spoken.tokens[here - 1].tag == "CD":
        return None  # the cooker has four flames
    told = {other for one in names for other in range(one.start, one.end)}
    rest = [norm for other, norm in enumerate(norms, clause.start) if other not in told and other != here]
    has = bool((HAVE | {"there"}) & set(norms[:at]))
    comes = bool(COME & set(norms[at + 1 :]))
    return norms[at] if (has or comes) and set(rest) <= BESIDE | HAVE | COME else None


def _not_given(spoken: Spoken, clause: Clause) -> str | None:
    """`the lamp gives no light`, `no light from the lamp`: what is named gives none."""
    norms = spoken.norms(clause.start, clause.end)
    for at, norm in enumerate(norms[1:], 1):
        if norm not in GIVES or norms[at - 1] not in {"no", "any"}:
            continue
        gives = {"give", "gives", "giving", "gave"} & set(norms[max(0, at - 4) : at])
        comes_from = norms[at + 1 : at + 2] in (["from"], ["off"]) or norms[at + 1 : at + 3] == ["out", "of"]
        denied = norms[at - 1] == "no" or "not" in norms[:at]
        if denied and (gives or comes_from):
            return norm
    return None


def _giver(scene: Scene, clause: Clause, given: str) -> str | None:
    """Which of the things that give this is spoken of: named here or before, or in focus."""
    at = [at for at in range(clause.start, clause.end) if scene.spoken.tokens[at].norm == given][:1]
    named = [one.component for one in scene.spoken.named if one.start < clause.end and one.start not in at]
    own = [one.component for one in scene.spoken.named_in(clause) if one.component not in GIVES[given]]
    if own:
        return None
    focus = scene.place.subject or ""
    for component in (*reversed(named), focus):
        if component in GIVES[given]:
            return component
    return "burner" if given in OF_A_STOVE and scene.room.startswith("kitchen") else None
