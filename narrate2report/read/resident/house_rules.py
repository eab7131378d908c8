"""Rules of the house that no word of order tells: what to do when something happens, whose job a thing is, what only
may touch it. `if the breaker trips, flip it back`, `call me if the fridge stops`, `the lawn's on you`.

Asked only where nothing else in the sentence is advice. Gives the component, and the token that tells of it.
"""

from __future__ import annotations

from collections.abc import Sequence

from narrate2report.read.lexis.words import Token
from narrate2report.read.meant.cue_limits import only_looks
from narrate2report.read.meant.scene import Scene
from narrate2report.read.resident.keeping import SINGLE
from narrate2report.read.resident.requests import ASIDES, COMPANIONS
from narrate2report.read.resident.to_others import LEADING
from narrate2report.read.speech.clauses import Clause
from narrate2report.read.speech.modes import Mode
from narrate2report.read.speech.spoken import Named, Spoken
from narrate2report.read.things.focus import Focus
from narrate2report.read.things.whereabouts import ROOM_GENERAL

HAPPENS = frozenset({"if", "when", "whenever", "once", "should"})
YOURS = (
    ["on", "you"],
    ["down", "to", "you"],
    ["up", "to", "you"],
    ["your", "job"],
    ["your", "department"],
    ["your", "responsibility"],
    ["yours", "to"],
    ["for", "you", "to"],
)
ONLY = frozenset({"just", "only"})
MONEY = frozenset("dollar dollars buck bucks pound pounds euro euros quid".split())
WALKED = frozenset("see look let come go wait watch say call note count".split())
"""Orders that are said to whoever walks along."""

OBJECTS = frozenset("the it them that your".split())
"""What a bare verb is done to: `jiggle the handle`."""


def ruled(scene: Scene, focus: Focus) -> tuple[int, str, str] | None:
    """Where a rule is told, the component it is for, and how that was found; None where no rule is told."""
    spoken = scene.spoken
    if spoken.ends_with_question():
        return None
    for clause in spoken.clauses:
        found = _on_mishap(scene, clause, focus) or _is_yours(spoken, clause) or _only_touched_by(spoken, clause)
        found = found or _pays_for(spoken, clause) or _any_trouble(spoken, clause) or _best_way(spoken, clause)
        found = found or _loses(spoken, clause) or _never_goes(spoken, clause)
        found = found or _goes_to_be_washed(scene, clause, focus) or _in_need(spoken, clause)
        if found is not None:
            return found
    return None


def _on_mishap(scene: Scene, clause: Clause, focus: Focus) -> tuple[int, str, str] | None:
    """`if the toilet runs, jiggle the handle`, `text me if it drips again`, `if you lose the key it's fifty`."""
    spoken = scene.spoken
    if clause.link not in HAPPENS and spoken.tokens[clause.start].norm not in HAPPENS:
        return None
    if scene.mode(clause.start) is not Mode.HYPOTHETICAL or only_looks(spoken, clause):
        return None
    if tells_when(scene, clause):
        return None
    later = spoken.clauses[clause.index + 1 :]
    told = _remedied_within(spoken, clause)
    told = told or any(_is_remedy(spoken, one) or _costs(spoken, clause, one) or _helps(spoken, one) for one in later)
    if not (told or any(_calls(spoken, one) for one in spoken.clauses if one is not clause)):
        return None
    return _meant(scene, clause, focus)


def tells_when(scene: Scene, clause: Clause) -> bool:
    """`it drips if you don't crank it`: when the flaw shows that was just told; `it beeps when you press it`."""
    said = scene.spoken.norms(clause.start, clause.end)
    if clause.index and said[:2] == ["when", "you"]:
        before = scene.spoken.clauses[clause.index - 1]
        cues = scene.spoken.cues("operates", "response", within=before)
        return any(scene.is_said(one.start) for one in (*cues, *scene.spoken.terms("works", within=before)))
    if not clause.index or said[:1] != ["if"] or "you" not in said[:3] or "not" not in said:
        return False
    before = scene.spoken.clauses[clause.index - 1]
    return any(scene.is_said(term.start) for term, _ in scene.flaws(within=before))


def _calls(spoken: Spoken, clause: Clause) -> bool:
    """`call me`, `you let us know`: a word that is asked for, at the head of a clause."""
    lead = clause.start
    while lead < clause.end and spoken.tokens[lead].norm in LEADING:
        lead += 1
    return any(
        cue.start == lead and spoken.norms(cue.end, cue.end + 1) not in (["how"], ["why"])  # ask me how I know
        for cue in spoken.cues("contact", within=clause)
    )


def _meant(scene: Scene, clause: Clause, focus: Focus) -> tuple[int, str, str] | None:
    """The component of what may happen: the one named there, else what `it` points to."""
    spoken = scene.spoken
    named = [one for one in spoken.named_in(clause) if one.component != ROOM_GENERAL]
    plain = [one for one in named if one.relation == "topic"] or named
    if plain:
        return clause.start, plain[0].component, _how(spoken, plain[0])
    if {"anything", "something"} & set(spoken.norms(clause.start, clause.start + 3)):
        topics = [one for one in spoken.named if one.end <= clause.start and one.relation != "place"]
        if topics:
            return clause.start, topics[-1].component, _how(spoken, topics[-1])
    helping = [one for one in spoken.named if one.component in HELPFUL and one.start >= clause.end]
    helping = [one for one in helping if _helps(spoken, spoken.clause_of(one.start))]
    if helping:
        return clause.start, helping[0].component, _how(spoken, helping[0])
    pointed = {"it", "that", "this"} & set(spoken.norms(clause.start + 1, clause.start + 3))
    target = focus.flaw(scene.number) or focus.told(scene.number)
    if pointed and target and target != ROOM_GENERAL:
        return clause.start, target, "what 'it' points to"
    return None


def _how(spoken: Spoken, one: Named) -> str:
    return f"'{spoken.words(one.start, one.end)}' is named"


def _is_remedy(spoken: Spoken, clause: Clause) -> bool:
    """`hit the reset`, `just jiggle it`: a bare verb that opens a clause, said to the resident."""
    end = clause.end
    if clause.index + 1 < len(spoken.clauses) and not spoken.clauses[clause.index + 1].link:
        end = spoken.clauses[clause.index + 1].end  # pull | this red cord
    words = [at for at in range(clause.start, end) if spoken.tokens[at].norm not in LEADING]
    if len(words) < 2 or clause.link in HAPPENS | {"because", "which", "and"}:
        return False
    first, pair = spoken.tokens[words[0]], spoken.norms(words[0], words[0] + 2)
    verb = first.tag in {"VB", "VBP"} or (first.norm not in WALKED and spoken.tokens[words[1]].norm in OBJECTS)
    return verb and first.norm not in COMPANIONS | WALKED and pair not in ASIDES


def _remedied_within(spoken: Spoken, clause: Clause) -> bool:
    """`if anything trips just push it back`: the remedy, where no mark parts it from what may happen."""
    return any(
        spoken.tokens[at].norm in ONLY and spoken.tokens[at + 1].tag in {"VB", "VBP"}
        and spoken.tokens[at + 1].norm not in COMPANIONS | WALKED and OBJECTS & set(spoken.norms(at + 2, at + 3))
        for at in range(clause.start + 3, clause.end - 2)
    )  # fmt: skip


HELPERS = frozenset("reset stopcock shutoff isolator breaker fuse plunger override valve trip".split())
"""Words for what helps when something goes wrong: `there's a reset button underneath`."""

HELPFUL = frozenset({"shutoff_valve", "breaker_panel", "fire_extinguisher"})
"""Components that do."""


def _helps(spoken: Spoken, clause: Clause) -> bool:
    """`there's a reset button underneath`, `the stopcock is under here`: where to find what helps."""
    norms = spoken.norms(clause.start, clause.end)
    told = {"is", "'s", "are"} & set(norms)
    return bool(told) and any(norm in HELPERS or norm.startswith(("shut-off", "stop-cock")) for norm in norms)


def _costs(spoken: Spoken, supposed: Clause, clause: Clause) -> bool:
    """`if you lose the key, it's fifty bucks`: said of what was handed over."""
    norms = spoken.norms(clause.start, clause.end)
    lost = {"lose", "lost", "misplace"} & set(spoken.norms(supposed.start, supposed.end))
    return bool(lost) and (bool(MONEY & set(norms)) or any(token.tag == "CD" for token in _tokens(spoken, clause)))


def _loses(spoken: Spoken, clause: Clause) -> tuple[int, str, str] | None:
    """`lose the fob and it's fifty`, `tell us at once if you lose it`: of what was just handed over."""
    norms = spoken.norms(clause.start, clause.end)
    if "lose" not in norms[:4] or not ({"you"} & set(norms[:4]) or norms[0] == "lose"):
        return None
    named = [one for one in spoken.named if one.component in SINGLE and one.relation != "place"]
    told = spoken.has_cue("contact") or any(_costs(spoken, clause, one) for one in spoken.clauses[clause.index :])
    return (clause.start, named[-1].component, _how(spoken, named[-1])) if named and told else None


def _tokens(spoken: Spoken, clause: Clause) -> Sequence[Token]:
    return spoken.tokens[clause.start : clause.end]


PAYS = (
    ["you", "are", "paying", "for"],
    ["you", "pay", "for"],
    ["you", "will", "pay", "for"],
    ["have", "to", "pay", "for"],
)


def _pays_for(spoken: Spoken, clause: Clause) -> tuple[int, str, str] | None:
    """`you drop a bottle in it, you're paying for the sink`: who breaks it pays."""
    for at in range(clause.start, clause.end):
        words = next((one for one in PAYS if spoken.norms(at, at + len(one)) == one), None)
        named = words and next((one for one in spoken.named if 0 < one.start - at <= len(words) + 1), None)
        if words and named and (clause.index or spoken.has_cue("condition")) and not spoken.ends_with_question():
            return at, named.component, _how(spoken, named)
    return None


def _any_trouble(spoken: Spoken, clause: Clause) -> tuple[int, str, str] | None:
    """`any problem with the toilet, you text me`, `any damage to the hob comes out of your deposit`."""
    norms = spoken.norms(clause.start, clause.end)
    if norms[:1] != ["any"] or not TROUBLE & set(norms[1:3]):
        return None
    charged = {"deposit", "charged", "bill", "billed"} & set(spoken.norms(clause.start))
    if not (charged or spoken.has_cue("contact", "liability")):
        return None
    named = [
        one for one in spoken.named_in(clause) if one.start - clause.start <= len(("any", "problem", "with", "the"))
    ]
    return (clause.start, named[0].component, _how(spoken, named[0])) if named else None


def _best_way(spoken: Spoken, clause: Clause) -> tuple[int, str, str] | None:
    """`best thing for the worktop is a damp cloth`, `my advice with the fridge is to leave it open`."""
    norms = spoken.norms(clause.start, clause.end)
    for at in range(len(norms) - 2):
        if tuple(norms[at : at + 2]) not in RECOMMENDED or norms[at + 2 : at + 3] not in (["for"], ["with"], ["to"]):
            continue
        named = [one for one in spoken.named_in(clause) if one.start > clause.start + at]
        if named:
            return clause.start + at, named[0].component, _how(spoken, named[0])
    return None


TROUBLE = frozenset("problem problems trouble damage issue issues fault faults leak leaks".split())
RECOMMENDED = frozenset({("best", "thing"), ("best", "way"), ("my", "advice"), ("the", "trick"), ("my", "tip")})


WASHED = frozenset("dishwasher wash washer sink tap hoover skip bin outside".split())
"""Where a part goes to be cleaned or emptied."""


def _goes_to_be_washed(scene: Scene, clause: Clause, focus: Focus) -> tuple[int, str, str] | None:
    """`the filters go in the dishwasher every couple of months`: what is done with a part again and again."""
    spoken = scene.spoken
    if not spoken.has_cue("often"):
        return None
    for one in spoken.named_in(clause):
        after = spoken.norms(one.end, one.end + 6)
        goes = after[:1] in (["go"], ["goes"], ["come"], ["comes"]) and bool(WASHED & set(after) or "out" in after)
        if one.relation != "topic" or not goes:
            continue
        where = {other.component for other in spoken.named_in(clause) if other.start > one.start}
        component = focus.told(scene.number) if one.component in where else one.component
        if component is not None:
            return one.start, component, _how(spoken, one)
    return None


NEED = (["in", "an", "emergency"], ["in", "case", "of"], ["in", "any", "emergency"])


WHERE = frozenset("down in into on onto near up through over".split())


def _never_goes(spoken: Spoken, clause: Clause) -> tuple[int, str, str] | None:
    """`grease doesn't go down this drain`, `hot pans never go on the worktop`: what is to be kept out of a thing."""
    for cue in spoken.cues("brought", within=clause):
        rest = spoken.norms(cue.end, cue.end + 4)
        goes = rest[:3] in (["do", "not", "go"], ["does", "not", "go"]) or rest[:2] in (
            ["never", "go"],
            ["never", "goes"],
        )
        end = cue.end + (3 if rest[1:2] == ["not"] else 2)
        named = [one for one in spoken.named_in(clause) if one.start >= end]
        if goes and named and WHERE & set(spoken.norms(end, named[0].start + 1)) and cue.start - clause.start <= 2:
            return cue.start, named[0].component, _how(spoken, named[0])
    return None


def _in_need(spoken: Spoken, clause: Clause) -> tuple[int, str, str] | None:
    """`the shut-off is back there, in an emergency you turn it right`: what to do when it matters."""
    if not any(spoken.norms(clause.start, clause.start + len(words)) == words for words in NEED):
        return None
    acts = spoken.norms(clause.start + 3)
    before = [one for one in spoken.named if one.end <= clause.start and one.relation == "topic"]
    if not before or not {"you", "turn", "pull", "push", "press", "use", "shut", "hit"} & set(acts[:5]):
        return None
    return clause.start, before[0].component, _how(spoken, before[0])


def _is_yours(spoken: Spoken, clause: Clause) -> tuple[int, str, str] | None:
    """`the lawn's on you`, `filters are your job`: the component right before the word of being."""
    for one in spoken.named_in(clause):
        if one.relation != "topic" or spoken.norms(one.end, one.end + 1) not in (["is"], ["'s"], ["are"]):
            continue
        if any(spoken.norms(one.end + 1, one.end + 1 + len(words)) == words for words in YOURS):
            return one.start, one.component, _how(spoken, one)
    return None


def _only_touched_by(spoken: Spoken, clause: Clause) -> tuple[int, str, str] | None:
    """`just a damp mop on the floor`, `only toilet paper in the toilet`, `warm soapy water only on the counter`."""
    if any(token.is_finite and token.norm not in {"goes", "go"} for token in _tokens(spoken, clause)):
        return None
    means = next(spoken.cues("care_with", within=clause), None)
    if means is None:
        return None
    opens = (ONLY | {"nothing"}) & set(spoken.norms(clause.start, means.start))
    if not opens and not ONLY & set(spoken.norms(means.end, means.end + 1)):
        return None
    after = next((one for one in spoken.named_in(clause) if one.start >= means.end), None)
    return None if after is None else (clause.start, after.component, _how(spoken, after))
