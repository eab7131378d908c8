"""Trials told by their course: `goes down strong, fills back up, stops`, `tissue sticks to it`, and by what they set
going: `I nudge the thermostat and the furnace kicks on`.

Each finder gives the checks of one sentence; what a single verb says of its component is left to `checks`.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Final

from narrate2report.read.drafts.draft import Draft
from narrate2report.read.lexis.phrase_tree import Mention
from narrate2report.read.meant.negations import negation_before
from narrate2report.read.meant.outsiders import is_outside
from narrate2report.read.meant.scene import Scene
from narrate2report.read.speech.clauses import Clause
from narrate2report.read.speech.spoken import Spoken
from narrate2report.records.findings import Outcome

FLUSHED: Final = re.compile(
    r"\b(?:(?:goes|went|going|swirls?|swirled|whooshes|washes|washed|gulps|sucks) (?:\w+ )?(?:down|away|clear|round)"
    r"|all gone|clears|empties|tank (?:'s |is )?(?:filling|full|fills)|(?:re)?fill(?:s|ed|ing)(?: back)?(?: up)?"
    r"|(?:quits?|stops?|stopped|shuts?|cuts?)(?: itself| its ?self)?(?: filling| running| off)?)\b"
)
CYCLED: Final = re.compile(
    r"\b(?:fill(?:s|ed)|spray(?:s|ed)|turn(?:s|ed)|tumbl(?:es|ed)|drain(?:s|ed)|empti(?:es|ed)|pump(?:s|ed)(?: it)? out"
    r"|spins|spun|wash(?:es|ed)|rinse[sd]|swish(?:es|ed)|sloshe[sd]|agitate[sd]|heat(?:s|ed)|dr(?:ies|ied)|stop(?:s|ped)"
    r"|shuts (?:itself )?off|finish(?:es|ed))\b"
)
GROUND: Final = re.compile(
    r"\b(?:spins?|spun|growls?|roars?|grinds|ground|whirs?|purrs?|chews?|chewed|munche[sd]|swallow(?:s|ed)"
    r"|gobble[sd]|chomp(?:s|ed))\b"
)
COURSES: Final = {
    "toilet": FLUSHED, "toilet_tank": FLUSHED, "dishwasher": CYCLED, "washer": CYCLED, "dryer": CYCLED,
    "garbage_disposal": GROUND,
}  # fmt: skip
"""What such a thing goes through while it works: two of these, one after the other, tell that it did."""

ENOUGH: Final = 2

TISSUE: Final = re.compile(
    r"\b(?:tissue|paper|towel|napkin|sheet|kleenex|dollar bill|square)(?: \w+){0,4}? ?,? ?"
    r"(?:(?P<holds>(?:sticks|stuck|clings|holds|held|stays|stayed|hangs on|gets sucked|is sucked|flattens|flies up"
    r"|sucks|(?<=not )(?:even |really )?(?:stick|cling|hold|stay|hang on))"
    r"\b(?! out))|(?P<drops>(?:just |only )?(?:falls|fell|drops|dropped|flutters|slides|slid)\b))"
)
"""A square of paper that is held against what draws air."""

WARMED: Final = re.compile(
    r"\b(?:cup|mug|glass|bowl|jug|water|coffee|tea|soup)\b.*\b(?:hot|steaming|boiling|boiled|warm|piping)\b"
    r"|\b(?:after|in|within) (?:\w+ ){0,2}(?:seconds?|minutes?|secs?)\b.*\b(?:hot|steaming|boiling|boiled|warm)\b"
)
"""What was put into a microwave and came out hot."""

DRAWING: Final = frozenset({"exhaust_fan", "range_hood", "vent"})

MOVED: Final = frozenset(
    "bump bumped nudge nudged turn turned set setting crank cranked push pushed raise raised lower lowered dial put"
    " drop dropped up down kick kicked run ran".split()
)
"""What is done to a thermostat to see whether the heat or the cold comes."""

HEATS: Final = frozenset({"furnace", "heater", "radiator", "air_conditioner", "vent"})


def find_courses(scene: Scene, checks: Sequence[Draft]) -> list[Draft]:
    """The checks that a sentence tells by the course of a trial, beside the `checks` that single verbs told."""
    found = [*_gone_through(scene), *_drawn(scene), *_warmed(scene), *_ran_clean(scene)]
    return [*found, *_set_going(scene, [*checks, *found])]


def _gone_through(scene: Scene) -> list[Draft]:
    """`fills, sprays, drains`: the stages of what runs by itself."""
    spoken = scene.spoken
    component = _running(scene)
    if component is None:
        return []
    told = [clause for clause in spoken.clauses if _stage(scene, clause, component) is not None]
    if len(told) < ENOUGH:
        return []
    spoken.used.update(at for clause in told for at in range(clause.start, clause.end))
    return [_told(scene, component, told[-1].start, "works", f"{len(told)} stages of its course")]


def _stage(scene: Scene, clause: Clause, component: str) -> re.Match[str] | None:
    """The stage that a clause tells, with nothing else named in it, denied, or said otherwise than as a fact."""
    spoken = scene.spoken
    match = COURSES[component].search(" ".join(spoken.norms(clause.start, clause.end)))
    if match is None or not scene.is_said(clause.start):
        return None
    if negation_before(spoken, clause, clause.end - 1) or {"never", "keeps", "will", "not"} & set(
        spoken.norms(clause.start, clause.end)
    ):
        return None
    others = {one.component for one in spoken.named_in(clause) if one.relation == "topic"}
    return match if others <= {component, *scene.vocabulary.components[component].part_of, *_parts(component)} else None


def _parts(component: str) -> frozenset[str]:
    return frozenset({"toilet_tank", "door_stop"}) if component == "toilet" else frozenset()


def _running(scene: Scene) -> str | None:
    """What goes through a course: named first in the sentence, else in focus."""
    named = [one.component for one in scene.spoken.named if one.component in COURSES]
    focus = scene.place.subject if scene.place.subject in COURSES else None
    return named[0] if named else focus


def _drawn(scene: Scene) -> list[Draft]:
    """`exhaust fan, tissue sticks to it`: paper that is drawn and held, or falls."""
    spoken = scene.spoken
    match = TISSUE.search(" ".join(norm for norm in spoken.norms()))
    named = [one for one in spoken.named if one.component in DRAWING]
    component = named[0].component if named else scene.place.subject
    if match is None or component not in DRAWING or not scene.is_said(0):
        return []
    denied = {"not", "barely", "hardly"} & set(match.group().split())
    at = len(match.string[: match.start()].split())
    outcome: Outcome = "fails" if match["drops"] or denied else "works"
    spoken.used.update(range(at, at + len(match.group().split())))
    return [_told(scene, component, at, outcome, "what becomes of a sheet of paper")]


def _ran_clean(scene: Scene) -> list[Draft]:
    """`I ran a cycle, no leaks`: it ran, and nothing came of it that should not."""
    spoken = scene.spoken
    norms = spoken.norms()
    ran = next((at for at, norm in enumerate(norms) if norm == "ran"), None)
    named = [one.component for one in spoken.named if one.component in COURSES]
    component = named[0] if named else scene.place.subject
    if ran is None or component not in COURSES or not scene.is_said(ran) or is_outside(spoken, Mention(ran, ran + 1)):
        return []
    if {"not", "never"} & set(norms[:ran]):
        return []
    for clause in spoken.clauses[1:]:
        said = norms[clause.start : clause.end]
        leaks = any("leak" in term.senses.ids for term in spoken.terms("condition", within=clause))
        if clause.start > ran and leaks and said[0] == "no" and len(said) <= ENOUGH and scene.is_said(clause.start):
            return [_told(scene, component, ran, "works", "it ran, and nothing leaked")]
    return []


def _warmed(scene: Scene) -> list[Draft]:
    """`microwave, I put a cup of water in, and after a minute it's hot`."""
    spoken = scene.spoken
    match = WARMED.search(" ".join(spoken.norms()))
    named = {one.component for one in spoken.named}
    spoken_of = bool(named & {"microwave", "microwave_plate"}) or (scene.place.subject == "microwave" and not named)
    denied = {"not", "never", "still", "barely", "hardly", "too", "if"} & set(spoken.norms())
    if match is None or not spoken_of or denied or spoken.ends_with_question():
        return []
    at = len(match.string[: match.start()].split())
    clause = spoken.clause_of(len(spoken.tokens) - 1)
    return [_told(scene, "microwave", at, "works", "what was warmed in it")] if scene.is_said(clause.start) else []


def _set_going(scene: Scene, checks: Sequence[Draft]) -> list[Draft]:
    """The thermostat that was turned works when what it commands does."""
    spoken = scene.spoken
    if any(draft.component == "thermostat" for draft in checks):
        return []
    turned = next((one for one in spoken.named if one.component == "thermostat"), None)
    start = turned.start if turned is not None else 0
    if turned is None and scene.place.subject != "thermostat":
        return []
    comes = next((draft for draft in checks if draft.component in HEATS and draft.outcome == "works"), None)
    clause = spoken.clause_of(start)
    said = [term for term in spoken.terms("condition", within=clause) if spoken.tokens[term.start].norm not in MOVED]
    if turned is not None and said:
        return []  # the thermostat is fine
    if comes is None or comes.at <= start or not MOVED & set(spoken.norms(clause.start, comes.at)):
        return []
    return [_told(scene, "thermostat", start, "works", f"it set going the {comes.component.replace('_', ' ')}")]


def only_tried_of(spoken: Spoken, at: int, expected: Sequence[str]) -> str | None:
    """What a verb is done to that is done to one thing alone, where such a thing is expected: `flush` to a toilet."""
    doers = {
        sense.id
        for term in spoken.found.terms
        if term.start == at
        for sense in term.of("works")
        if sense.form == "verb"
    }
    return next(iter(doers)) if len(doers) == 1 and doers <= set(expected) else None


def _told(scene: Scene, component: str, at: int, outcome: Outcome, why: str) -> Draft:
    clause = scene.spoken.clause_of(at)
    return Draft(
        kind="check",
        room=scene.room,
        component=component,
        at=at,
        outcome=outcome,
        because=(f"'{scene.spoken.words(clause.start, clause.end)}': {why}",),
        confidence=0.7,
    )
