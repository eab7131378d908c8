"""Trials whose result is told by what comes of them: an alarm that chirps when tested, a furnace that `there goes`,
air that comes out of a vent."""

from __future__ import annotations

import re
from typing import Final

from narrate2report.read.drafts.draft import Draft
from narrate2report.read.meant.negations import negation_before
from narrate2report.read.meant.scene import Scene
from narrate2report.read.speech.clauses import Clause
from narrate2report.read.speech.spoken import Spoken
from narrate2report.read.things.operated import is_device
from narrate2report.read.trials.answers import FILLING, HEARD, is_plain

PRESSED: Final = frozenset("press pressed push pushed hit test tested tried try prodded poked held".split())
SOUNDS: Final = frozenset(
    "chirp beep buzz ring sound scream holler shriek squeal yell blare wail howl bleep chime sing hoot squawk".split()
)
GOES: Final = (("there", "goes"), ("there", "go"), ("and", "goes"))
"""`I bump it to seventy-two, and there goes the furnace`."""

AIR: Final = re.compile(
    r"\b(?:heat|warmth|(?:warm|hot|cold|cool|conditioned) air)(?: is| 's| are)? "
    r"(?:comes?|coming|blows?|blowing|pours?|pouring|flows?|flowing|rises?|out)\b"
    r"|\bair (?:(?:at|in|from|out of|through|coming|off) (?:\w+ ){1,4})?(?:is|'s|feels|gets) "
    r"(?:\w+ (?:and )?){0,2}(?:cold|cool|warm|hot)\b"
    r"|\b(?:feel|feels|felt|feeling|get|getting|got) (?:the |some |nice |good |plenty of )*"
    r"(?:heat|warmth|(?:warm|hot|cold|cool|conditioned) air)\b"
)
"""What comes out of a vent or register where what blows it works."""

BLOWING: Final = frozenset({"vent", "air_conditioner", "heater", "furnace"})


def find_told_by_sound(scene: Scene) -> list[Draft]:
    """The checks of a sentence that are told by what was heard or felt of them."""
    return [*_sounds_when_pressed(scene), *_is_loud(scene), *_there_goes(scene), *_air_comes(scene)]


def _is_loud(scene: Scene) -> list[Draft]:
    """`smoke alarm, okay, plenty loud`, `the doorbell is good and loud`: what is there to be heard, and was."""
    spoken = scene.spoken
    for clause in spoken.clauses:
        heard = [one.component for one in spoken.named if one.start < clause.end and one.relation == "topic"]
        told = _only_loud(spoken, clause) if spoken.named_in(clause) else is_plain(spoken, clause)
        if heard[-1:] and heard[-1] in HEARD and told and scene.is_said(clause.start):
            spoken.used.update(range(clause.start, clause.end))
            return [_works(scene, heard[-1], clause.start, clause)]
    return []


def _sounds_when_pressed(scene: Scene) -> list[Draft]:
    """`the alarm chirped when I pressed it`, `beeps when tested`."""
    spoken = scene.spoken
    for clause in spoken.clauses[1:]:
        before = spoken.clauses[clause.index - 1]
        pressed = PRESSED & set(spoken.norms(clause.start, clause.end))
        if clause.link not in {"when", "as", "once"} or not pressed:
            continue
        at = next((at for at in range(before.start, before.end) if _sounds(spoken.tokens[at].norm)), None)
        heard = [one for one in spoken.named if one.component in HEARD and one.start < clause.start]
        if at is None or not heard or negation_before(spoken, before, at) or not scene.is_said(at):
            continue
        return [_works(scene, heard[-1].component, at, before)]
    return []


def _only_loud(spoken: Spoken, clause: Clause) -> bool:
    """Whether a clause says of what it names that it is loud, and nothing more."""
    told = {at for cue in spoken.cues("sounds", within=clause) for at in range(cue.start, cue.end)}
    told |= {at for one in spoken.named_in(clause) for at in range(one.start, one.end)}
    rest = {spoken.tokens[at].norm for at in range(clause.start, clause.end) if at not in told}
    return spoken.has_cue("sounds", within=clause) and rest <= FILLING


def _sounds(norm: str) -> bool:
    stem = norm
    for ending in ("ed", "es", "s", "ing"):
        if norm.endswith(ending) and norm[: -len(ending)] in SOUNDS:
            stem = norm[: -len(ending)]
    return stem in SOUNDS or norm in {"rang", "sang", "went"}


def _there_goes(scene: Scene) -> list[Draft]:
    """`there goes the furnace`: what starts while one stands by."""
    spoken = scene.spoken
    for clause in spoken.clauses:
        for at in range(clause.start, clause.end - 2):
            if tuple(spoken.norms(at, at + 2)) not in GOES or not scene.is_said(at):
                continue
            starts = next((one for one in spoken.named_in(clause) if at + 2 <= one.start <= at + 3), None)
            if starts is not None and is_device(starts.component, scene.vocabulary):
                return [_works(scene, starts.component, at, clause), *_set_going(scene, clause)]
    return []


def _set_going(scene: Scene, clause: Clause) -> list[Draft]:
    """The thermostat that was turned up works when the heat comes."""
    turned = [one for one in scene.spoken.named if one.component == "thermostat" and one.start < clause.start]
    return [_works(scene, "thermostat", turned[-1].start, clause)] if turned else []


def _air_comes(scene: Scene) -> list[Draft]:
    """`warm air comes out of the vent`, `AC vent, I can feel the cold air`, and no draft of a window."""
    spoken = scene.spoken
    for clause in spoken.clauses:
        blowing = [one.component for one in spoken.named if one.start < clause.end and one.component in BLOWING]
        inside = [one.component for one in spoken.named_in(clause)]
        told = AIR.search(" ".join(spoken.norms(clause.start, clause.end)))
        denied = {"no", "not", "never", "hardly", "barely"} & set(spoken.norms(clause.start, clause.end))
        if told and blowing and set(inside) <= BLOWING and scene.is_said(clause.start) and not denied:
            spoken.used.update(range(clause.start, clause.end))
            return [_works(scene, blowing[-1], clause.start, clause)]
    return []


def _works(scene: Scene, component: str, at: int, clause: Clause) -> Draft:
    return Draft(
        kind="check",
        room=scene.room,
        component=component,
        at=at,
        outcome="works",
        because=(f"'{scene.spoken.words(clause.start, clause.end)}' tells that it does",),
        confidence=0.7,
    )
