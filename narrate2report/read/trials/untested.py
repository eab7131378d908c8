"""What the speaker says was not operated: `I'm not running a cycle today`, `gas fire not lit`."""

from __future__ import annotations

from narrate2report.read.drafts.draft import Draft
from narrate2report.read.lexis.phrase_tree import Mention
from narrate2report.read.lexis.vocabulary import Vocabulary
from narrate2report.read.meant.scene import Scene
from narrate2report.read.speech.clauses import Clause
from narrate2report.read.speech.modes import Mode
from narrate2report.read.speech.spoken import Spoken
from narrate2report.read.things.operated import is_device, is_operated
from narrate2report.read.trials.untried import find_untried

NOT_OURS = frozenset({Mode.HYPOTHETICAL, Mode.QUESTION, Mode.ELSEWHERE, Mode.POLICY})
NEAR = 2
"""Tokens within which what was left untried follows: `not running the dryer`."""

INTO = frozenset("in into up inside down near out there to".split())
"""`I didn't go in`: of somebody, and nothing was left untried."""

HEARD = frozenset("told assume assuming".split())
WORKING = frozenset("works working work does do fine good ok okay functional serviced".split())

HEATED = frozenset("radiator heater furnace thermostat".split())
"""What `the heat is off` is said of, whatever valve was spoken of before."""

PUT_ON = frozenset("wash load cycle rinse".split())
WASHED = frozenset("washer dishwasher dryer".split())
"""`I'm not putting a load on`: of what one does that with."""

TOUCHED = frozenset("touched touching".split())
"""A fire or boiler is not touched because it is somebody else's to light; anything else, for disgust or neglect."""

HOOKED = frozenset("hooked plumbed piped wired connected commissioned".split())
HOOKED_UP = HEATED | frozenset(
    "washer dryer dishwasher ice_maker refrigerator freezer range cooktop oven garbage_disposal water_heater fireplace"
    " air_conditioner doorbell intercom microwave".split()
)
"""What nobody can try before it is hooked up; a duct or hose that is not has come off."""

FIRED = HEATED | frozenset("water_heater fireplace range cooktop burner oven".split())
"""What can be fired or lit."""
BURNERS = HEATED | {"water_heater", "fireplace"}

GOES = frozenset("run running go going turn open operate operating switch starting lighting light used".split())
"""What a thing does by itself: denied of it, they tell of a failure."""

DOES = frozenset("does do did will would is are".split())
"""Before `not run` they make a failure of it: `the fan does not run`."""


def find_untested(scene: Scene) -> list[Draft]:
    """Check drafts for what the speaker says was not operated: the first such statement of a sentence."""
    spoken = scene.spoken
    for cue in (*spoken.cues("not_tested"), *find_untried(spoken)):
        clause = spoken.clause_of(cue.start)
        if (
            (scene.mode(cue.start) in NOT_OURS and not _is_so_all_the_same(scene, cue, clause))
            or _is_failure(spoken, cue)
            or _is_of_else(scene, cue)
            or _is_forbidden(scene, cue)
        ):
            continue
        words = spoken.words(cue.start, cue.end)
        return [
            Draft(
                kind="check",
                room=scene.room,
                component=component,
                at=cue.start,
                outcome="not_tested",
                because=(f"'{words}': not operated",),
            )
            for component in dict.fromkeys(_left_untried(scene, cue, clause))
        ]
    return []


def _is_so_all_the_same(scene: Scene, cue: Mention, clause: Clause) -> bool:
    """`I'd have tried it but ...`, `put it down as not tried`, `I can't say if it works, I didn't try it`: among words
    that suppose something, and a fact."""
    spoken = scene.spoken
    if spoken.norms(cue.start, cue.start + 2) in (["would", "have"], ["'d", "have"]):
        return True
    if {"as", "rather"} & set(spoken.norms(max(0, cue.start - 1), cue.start + 1)):
        return True
    own = spoken.norms(clause.start, clause.start + 1) in (["i"], ["we"]) and clause.link in {",", "and"}
    return (own or clause.link == "so") and scene.mode(cue.start) is Mode.HYPOTHETICAL


def _is_failure(spoken: Spoken, cue: Mention) -> bool:
    """`the fan is not running`, `it didn't go`, `I didn't go in`; `we're not running it` is no failure."""
    before, told = spoken.norms(max(0, cue.start - 2), cue.start), set(spoken.norms(cue.start, cue.end))
    went = spoken.norms(cue.start, cue.end) in (["did", "not", "go"], ["did", "not", "run"], ["did", "not", "turn"])
    if went and (before[-1:] == ["it"] or spoken.norms(cue.end, cue.end + 1)[:1] in ([norm] for norm in INTO)):
        return True
    return bool(before) and before[-1] in DOES and not {"i", "we"} & set(before) and bool(GOES & told)


def _is_of_else(scene: Scene, cue: Mention) -> bool:
    """`I'm told there was a burst pipe`, `where I assume a bicycle stood`: told of something else than a trial."""
    spoken = scene.spoken
    asks = spoken.norms(cue.end - 1, cue.end) in (["if"], ["whether"])
    if not (asks or HEARD & set(spoken.norms(cue.start, cue.end))):
        return False
    if spoken.norms(cue.end, cue.end + 1) in (["you"], ["we"], ["i"], ["he"], ["she"], ["anyone"]):
        return True  # I don't know if you can see it
    told = spoken.has_cue("operates", "fails", "response") or spoken.has_term("works")
    return not told and not WORKING & set(spoken.norms(cue.end))


def _is_forbidden(scene: Scene, cue: Mention) -> bool:
    """`please don't light anything in it`: what the resident must not do."""
    return scene.mode(cue.start) is Mode.INSTRUCTION and scene.spoken.norms(cue.start, cue.start + 2) == ["do", "not"]


def _is_named_after(spoken: Spoken, cue: Mention, clause: Clause, later: Clause) -> bool:
    """`Not tested, the water heater`: a clause that only names what was left alone."""
    alone = not clause.index and clause.end == cue.end and later.index == 1 and later.link == ","
    return alone and not any(token.is_finite for token in spoken.tokens[later.start : later.end])


def _left_untried(scene: Scene, cue: Mention, clause: Clause) -> list[str]:
    """The components meant: named in the clause, carried on from before, listed after a colon, or in focus."""
    spoken = scene.spoken
    named = spoken.named_in(clause)
    inside = [one.component for one in named if one.start < cue.start]
    behind = [one.component for one in named if one.start >= cue.start]
    carried = [one.component for one in scene.bearers.subjects_of(clause)]
    earlier = [one.component for one in reversed(spoken.named) if one.start < cue.start and one.relation == "topic"]
    following = [
        one.component
        for later in spoken.clauses[clause.index + 1 :]
        if clause.link == ":" or later.link == ":" or _is_named_after(spoken, cue, clause, later)
        for one in spoken.named_in(later)
    ]
    around = [one.component for one in reversed(spoken.named) if one.start < cue.start]  # nothing plugged into these
    focus = [scene.place.subject] if scene.place.subject else []
    if _is_of_several(spoken, cue, clause):
        focus = _lately_together(scene) or focus
    object_named = any(one.start - cue.end <= NEAR for one in named if one.start >= cue.start)
    others = [one for one in carried if one not in behind]
    after = [behind, carried] if object_named else [others, earlier[:1], behind]
    groups = [inside, *after, following, earlier, around, focus]
    if spoken.norms(cue.end, cue.end + 1) == ["that"] or spoken.norms(cue.end - 1, cue.end) == ["that"]:
        because = {clause.index for clause in spoken.clauses if clause.link in BECAUSE}
        nearest = [one for one in reversed(spoken.named) if one.start < cue.start]
        told = [one.component for one in nearest if spoken.clause_of(one.start).index not in because]
        groups.insert(1, told[:1])
    if clause.link == "" and clause.index:
        groups.insert(1, earlier[:1])
    if clause.link == "so" and NOTED & set(spoken.norms(clause.start, cue.start)):
        groups.insert(1, earlier[-1:])
    walked_past = any(mention.of("room") for mention in spoken.found.terms)
    said = set(spoken.norms(cue.start, cue.end))
    if PUT_ON & set(spoken.norms(cue.start, cue.end + NEAR)):
        lately = [component for component, _ in reversed(scene.place.lately) if component in WASHED]
        return [one for one in (*inside, *earlier, *behind) if one in WASHED][:1] or lately[:1] or ["washer"]
    if _is_of_warmth(spoken, cue):
        lately = [component for component, _ in reversed(scene.place.lately) if component in HEATED]
        groups = [[one for one in group if one in HEATED] for group in groups[:-1]] + [lately[:1], focus]
    if {"fired", "firing", "fire"} & said or TOUCHED & said:
        burning = FIRED
        if TOUCHED & said:  # not touched in years: nobody cleaned it
            dirty = spoken.has_term("condition", within=clause) or ("touched" in said and cue.end < clause.end)
            burning = frozenset() if dirty else BURNERS
        groups = [[one for one in group if one in burning] for group in groups]
    if HOOKED & said:
        groups = [[one for one in group if one in HOOKED_UP] for group in groups if group][:1]
    for group in groups[: -1 if walked_past else None]:
        found = [one if one in inside or one in behind else _that_runs(one, scene.vocabulary) for one in group]
        found = [one for one in found if is_operated(one, scene.vocabulary)]
        wholes = {whole for one in found for whole in scene.vocabulary.components[one].part_of}
        if found and wholes & set(earlier) and not any(scene.vocabulary.components[one].works for one in found):
            found = [one for one in earlier if one in wholes]  # sockets, faceplates sound, not tested
        if found:
            return [one for one in found if scene.vocabulary.components[one].works] or found
    return []


BECAUSE = frozenset({"because", "since", "as"})
"""What these lead in is why a thing was left alone: `because the heating is off, I shan't test that`."""


def _is_of_warmth(spoken: Spoken, cue: Mention) -> bool:
    """`the heat is off`; `I'm not going to heat it up` is said of what is heated."""
    heats = {"heat", "heating"}
    return any(
        token.norm in heats and spoken.norms(at - 1, at) not in (["to"], ["not"])
        for at, token in enumerate(spoken.tokens[cue.start : cue.end], cue.start)
    )


NOTED = frozenset("mark marking marked put putting call calling note noting say saying".split())
"""`the ice maker won't do anything, the line might be off, so I'm marking that one not tested`: what it began with."""


EACH = frozenset("either neither both".split())


def _is_of_several(spoken: Spoken, cue: Mention, clause: Clause) -> bool:
    """`I didn't run either one`, `didn't test them`: of all that were spoken of together."""
    after = spoken.norms(cue.end, clause.end)[:2]
    if spoken.norms(cue.end - 1, cue.end) in (["them"], ["either"], ["neither"], ["both"]):
        return True
    return bool(EACH & set(after)) or after[:1] in (["them"], ["these"], ["those"])


def _lately_together(scene: Scene) -> list[str]:
    """The devices that the last sentence to name any spoke of."""
    devices = [(one, when) for one, when in scene.place.lately if is_device(one, scene.vocabulary)]
    return [one for one, when in devices if when == devices[-1][1]]


MOVES = frozenset("open close shut slide glide roll seal swing pull push".split())
"""What a part does by hand alone, so that nobody turns it on."""


def _that_runs(component: str, vocabulary: Vocabulary) -> str:
    """`the racks are clean, I didn't turn it on`: what a part that does nothing is part of, or is moved by hand."""
    if component not in vocabulary.components:
        return component
    moved = all(verb.split()[0] in MOVES for verb in vocabulary.components[component].works)
    if is_device(component, vocabulary) and not moved:
        return component
    wholes = [one for one in vocabulary.components[component].part_of if is_device(one, vocabulary)]
    return wholes[0] if len(wholes) == 1 or (wholes and moved) else component
