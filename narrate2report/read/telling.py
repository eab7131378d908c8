"""What one sentence tells: from its place in the walk over its statements to entries in the ledger, with reasons.

A new way of saying something is a word or a rule in one finder; here stands only in which order they are asked, and
which gives way to which.
"""

from __future__ import annotations

from collections.abc import Sequence

from narrate2report.read.across.corrections import Corrections
from narrate2report.read.across.echoes import find_echoes
from narrate2report.read.across.left_out import fill_in
from narrate2report.read.across.memory import Walk, is_in_passing, remember, spoken_of_since
from narrate2report.read.across.one_more import find_one_more
from narrate2report.read.across.second_looks import look_again
from narrate2report.read.credible.weighing import Weighing
from narrate2report.read.drafts.draft import Draft
from narrate2report.read.drafts.entries import Ledger
from narrate2report.read.lexis.phrase_tree import Mention
from narrate2report.read.lexis.vocabulary import Vocabulary
from narrate2report.read.makeup.descriptions import find_descriptions
from narrate2report.read.meant.scene import Scene
from narrate2report.read.meant.stance import mode_reason
from narrate2report.read.resident.advice import find_advice
from narrate2report.read.speech.modes import Mode, Stance
from narrate2report.read.speech.spoken import Spoken
from narrate2report.read.state.conditions import Flaw, find_flaws, is_reference, observe
from narrate2report.read.state.lacking import lacked
from narrate2report.read.state.leavings import left_behind
from narrate2report.read.state.missing import is_not_ours, missing_parts, taken_away
from narrate2report.read.state.painted import find_painted
from narrate2report.read.state.present_parts import find_present_parts
from narrate2report.read.state.shortfalls import find_shortfalls
from narrate2report.read.state.spilt import find_spilt
from narrate2report.read.things.bearers import Bearers
from narrate2report.read.things.details import size_alone
from narrate2report.read.things.focus import is_adverse
from narrate2report.read.things.naming import name_components
from narrate2report.read.trials.after_all import not_overtaken
from narrate2report.read.trials.checks import find_checks
from narrate2report.read.walk.implied_rooms import glanced_room
from narrate2report.read.walk.room_by_rule import room_by_rule
from narrate2report.read.walk.told_room import in_their_rooms
from narrate2report.read.work.follow_ups import as_planned, find_follow_ups
from narrate2report.read.work.remedies import as_flawed
from narrate2report.read.work.suited import also_new, for_both, suited_flaw
from narrate2report.records.findings import Reason

START_ROOM = "whole_unit"

REASONS: dict[Mode, Reason] = {
    Mode.HYPOTHETICAL: "hypothetical",
    Mode.SEARCH: "checking_for",
    Mode.INSTRUCTION: "talk",
    Mode.POLICY: "policy",
    Mode.PAST: "talk",
    Mode.ELSEWHERE: "talk",
    Mode.QUOTED: "talk",
    Mode.QUESTION: "talk",
    Mode.FUTURE: "talk",
}


def read_sentence(
    spoken: Spoken,
    stances: tuple[Stance, ...],
    number: int,
    walk: Walk,
    ledger: Ledger,
    vocabulary: Vocabulary,
    weighing: Weighing,
) -> tuple[Reason | None, tuple[str, ...]]:
    """Read one sentence, whose words are meant as `stances` say, into the ledger; gives the reason it would stand
    unused for, with the words."""
    if spoken.sentence.doubt:
        spoken.room = walk.place.room or START_ROOM
        return "unclear", (spoken.sentence.doubt,)
    turn = walk.turn
    scene, corrections = _in_its_place(spoken, stances, number, walk, vocabulary)
    drafts = _with_work(scene, walk, _settled(scene, walk, *_statements(scene, walk, ledger)))
    drafts += find_advice(scene, walk.focus, drafts)
    drafts += find_descriptions(scene)
    drafts, doubted = weighing.weigh(scene, drafts, walk.focus, owner_speaks=walk.owner_speaks)
    if planned := tuple(draft for draft in drafts if draft.kind == "follow_up"):
        walk.planned, walk.planned_at = planned, walk.turn
    drafts = in_their_rooms(spoken, walk.place, drafts, walk.turn)
    if (way := walk.ways.get(number)) is not None and way.because is not None:
        drafts = [draft.with_reason(way.because) for draft in drafts]
    size = size_alone(spoken) if not drafts and _is_plainly_said(scene.stances) else None
    if size is not None and ledger.measure(spoken, turn, size):
        return None, ("tells the size of what was said before",)
    if corrections.correct_place(drafts, ledger, turn):
        return None, ("corrects the place of what was said before",)
    walk.withdrawing = corrections.withdraw(drafts, ledger, turn, pending=walk.withdrawing)
    walk.pausing = look_again(scene, walk.pausing, drafts, ledger, turn)
    for at, draft in enumerate(drafts):
        if draft.kind != "condition" or not any(draft.same_statement(other) for other in drafts[:at]):
            ledger.add(draft, spoken, turn)
    in_passing = is_in_passing(spoken, drafts, scene.stances)
    walk.said = walk.said.after(spoken, drafts, in_passing=in_passing)
    if not in_passing:
        remember(spoken, drafts, scene.stances, turn, walk)
        walk.turn += 1
    return _unused_reason(spoken, scene.stances, drafts, doubted)


def _in_its_place(
    spoken: Spoken, stances: tuple[Stance, ...], number: int, walk: Walk, vocabulary: Vocabulary
) -> tuple[Scene, Corrections]:
    """The sentence with its room, its components and how its words are meant."""
    place = walk.place
    walk.owner_speaks = walk.owner_speaks or _is_owner(spoken)
    way = walk.ways.get(number)
    room = room_by_rule(spoken, place, stances, vocabulary) if way is None else way.room
    if room:
        place.enter(room, number)
        spoken.moved = True
    spoken.room = (None if room else glanced_room(spoken)) or place.room or START_ROOM
    spoken.named = name_components(spoken, place, walk.turn, vocabulary)
    corrections = Corrections(spoken)
    stances = corrections.apply(stances)
    bearers = Bearers(spoken, place, _predicates(spoken), vocabulary)
    return Scene(spoken, stances, bearers, place, walk.turn, vocabulary), corrections


def _statements(scene: Scene, walk: Walk, ledger: Ledger) -> tuple[list[Draft], tuple[Flaw, ...]]:
    """What the sentence says by itself of things tried, handed over and seen; with the flaws it tells of."""
    spoken = scene.spoken
    checks = find_checks(scene, walk.trials)
    if walk.waiting.is_answered_by(scene):
        checks = [check for check in checks if check.outcome != "fails"]
    handovers = walk.handing.find(scene)
    flaws = not_overtaken(spoken, find_flaws(scene), checks)
    flawed = any(is_adverse(draft, scene.vocabulary) for draft in walk.last_conditions)
    if (not walk.last_conditions and _is_bare_praise(spoken)) or (flawed and _plays_down(spoken)):
        flaws = ()
    flaws = walk.asked.sift(scene, flaws)
    flaws = tuple(
        f for f in flaws if not (is_reference(spoken, f) and ledger.knows(f.condition, spoken.room, walk.turn))
    )
    taken = {draft.at for draft in handovers}
    drafts = [
        *checks,
        *handovers,
        *observe(scene, [flaw for flaw in flaws if flaw.mention.start not in taken]),
        *find_painted(scene),
        *left_behind(scene),
        *taken_away(scene),
        *(draft for draft in missing_parts(scene) if not any(_is_of_the_trial(spoken, draft, one) for one in checks)),
        *lacked(scene),
        *find_shortfalls(scene),
        *find_spilt(scene),
    ]
    drafts = [draft for draft in drafts if not _is_qualified(spoken, draft, drafts, scene.vocabulary)]
    return drafts + find_present_parts(scene, drafts), flaws


def _is_of_the_trial(spoken: Spoken, draft: Draft, check: Draft) -> bool:
    """`no burner works`: what is denied there is the trial; in `it goes up, and there is no screen in it` it is not."""
    clause = spoken.clause_of(draft.at)
    apart = "there" in spoken.norms(clause.start, draft.at) and clause != spoken.clause_of(check.at)
    return draft.component == check.component or not apart


def _is_qualified(spoken: Spoken, draft: Draft, drafts: Sequence[Draft], vocabulary: Vocabulary) -> bool:
    """`the closer is there but it does not hold`: only leads to what is wrong with it; nothing is there and missing."""
    if draft.condition != "present":
        return False
    said = spoken.norms(draft.at, draft.at + 2)
    same = [other for other in drafts if other.component == draft.component and is_adverse(other, vocabulary)]
    return any(
        other.condition == "missing"
        or ("there" in said and other.at > draft.at and spoken.clause_of(other.at).link == "but")
        for other in same
    )


def _settled(scene: Scene, walk: Walk, drafts: list[Draft], flaws: Sequence[Flaw]) -> list[Draft]:
    """The statements with what neighbouring sentences settle of them."""
    drafts += find_echoes(scene, drafts, walk.last_conditions)
    drafts += find_one_more(scene, drafts, walk.last_conditions)
    drafts = fill_in(scene, drafts, walk.said)
    found, ended = walk.waiting.turn_up(scene, drafts)
    drafts = [draft for draft in drafts if draft not in ended] + found
    drafts += walk.waiting.settle(scene, flaws)
    answers = walk.asked.answer(scene, flaws, drafts)
    drafts = [draft for draft in drafts if not any(one.settles(draft) for one in answers)] + answers
    drafts += walk.claims.settle(scene, flaws, drafts)
    if is_not_ours(scene.spoken):
        drafts = [draft for draft in drafts if draft.condition != "missing"]
    walk.focus.remember(drafts, walk.turn, scene.vocabulary)
    return walk.mending.put_right(scene, drafts, walk.focus.lately(walk.turn), walk.turn)


def _with_work(scene: Scene, walk: Walk, drafts: list[Draft]) -> list[Draft]:
    """The statements and the work to come; what is praised only as the end of that work is no statement."""
    suited = suited_flaw(scene.spoken, walk.focus.lately(walk.turn), scene.vocabulary)
    flaw = walk.focus.flaw(walk.turn, first=_begins_with_it(scene.spoken))
    flaw = spoken_of_since(walk, flaw) if suited is None else suited
    follow_ups = find_follow_ups(scene, flaw=flaw, owner_speaks=walk.owner_speaks)
    follow_ups = [as_flawed(draft, walk.focus.suffers(draft.component, walk.turn)) for draft in follow_ups]
    follow_ups = for_both(scene.spoken, follow_ups, walk.focus.together(walk.turn))
    follow_ups += also_new(scene, follow_ups, walk.focus.lately(walk.turn))
    follow_ups = as_planned(scene.spoken, follow_ups, walk.planned if walk.planned_at == walk.turn - 1 else ())
    if walk.mending.at >= 0:
        done = scene.spoken.clause_of(walk.mending.at)
        follow_ups = [draft for draft in follow_ups if draft.at not in done]
    worked = {draft.at for draft in follow_ups}
    kept = [d for d in drafts if d.at not in worked or d.kind != "condition" or is_adverse(d, scene.vocabulary)]
    kept = [d for d in kept if not any(_is_its_end(scene.spoken, d, work) for work in follow_ups)]
    return kept + follow_ups


ENDS: dict[str, frozenset[str]] = {
    "clean": frozenset({"clean"}),
    "new": frozenset({"replace", "supply"}),
    "freshly_painted": frozenset({"touch_up", "repair"}),
    "patched": frozenset({"repair", "touch_up"}),
}
"""What a thing is once the work is done on it."""


def _is_its_end(spoken: Spoken, draft: Draft, work: Draft) -> bool:
    """`I'm booking a gutter clean`, `the owner is sending a new one`: what the work in the same clause will bring."""
    if draft.component != work.component or work.action not in ENDS.get(draft.condition or "", ()):
        return False
    if draft.condition == "new" and spoken.norms(draft.at - 1, draft.at) == ["the"]:
        return False  # I'm hanging the new one
    verbless = not any(token.is_finite for token in spoken.tokens)  # filler and a lick of paint
    return verbless or (draft.condition != "patched" and spoken.clause_of(draft.at) == spoken.clause_of(work.at))


def _is_plainly_said(stances: Sequence[Stance]) -> bool:
    return all(stance.mode is Mode.ASSERTED for stance in stances)


def _begins_with_it(spoken: Spoken) -> bool:
    """`It's twelve years old, so the owner replaces it`: it is what the sentence before was about."""
    norms = [norm for norm in spoken.norms(0, 3) if norm not in {"so", "and", "but", "well"}]
    return norms[:1] in (["it"], ["they"])


PRAISE = frozenset("good fine great perfect excellent lovely nice beautiful".split())


def _is_bare_praise(spoken: Spoken) -> bool:
    """`Good.`: a remark on what was just described, and only talk after anything else."""
    words = [token for token in spoken.tokens if token.is_word]
    return len(words) == 1 and words[0].norm in PRAISE


MILD = frozenset("bad terrible awful serious major tragic much".split())


def _plays_down(spoken: Spoken) -> bool:
    """`Not bad.`, `Not too terrible.`: after a flaw it says how little of one it is, and praises nothing."""
    norms = [token.norm for token in spoken.tokens if token.is_word]
    lead = [norm for norm in norms if norm not in {"it", "is", "'s", "but", "too", "that", "so", "really"}]
    return lead[:1] == ["not"] and lead[1:] != [] and set(lead[1:]) <= MILD


def _predicates(spoken: Spoken) -> list[Mention]:
    named_at = spoken.named_tokens()
    telling = spoken.terms("condition", "works", "material", "colour", "type")
    terms = [term for term in telling if term.start not in named_at and not spoken.leads_on(term)]
    cues = [cue for cue in spoken.cues("operates", "fails") if cue.start not in named_at]
    return [*terms, *cues]


def _is_owner(spoken: Spoken) -> bool:
    text = f" {' '.join(spoken.norms())} "
    return any(words in text for words in (" i own ", " i am the owner ", " my house ", " my property "))


def _unused_reason(
    spoken: Spoken, stances: Sequence[Stance], drafts: Sequence[Draft], doubted: tuple[str, ...]
) -> tuple[Reason | None, tuple[str, ...]]:
    if drafts:
        return None, tuple(reason for draft in drafts for reason in draft.because)
    if doubted:
        return "talk", doubted
    stance = mode_reason(stances)
    if spoken.moved:
        return "moving", (f"walks into {spoken.room.replace('_', ' ')}",)
    if stance is not None:
        return REASONS[stance.mode], (f"{stance.mode.value}: '{stance.cue}'",)
    if spoken.named and spoken.terms("condition"):
        return "unclear", ("names a component and a condition, but how they belong together is not plain",)
    return "talk", ("no statement about a component",)
