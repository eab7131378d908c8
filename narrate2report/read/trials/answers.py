"""The answer that a trial gets: `there it goes`, `nothing at all`, `that's woken the whole street`."""

from __future__ import annotations

from narrate2report.read.lexis.inflect import infinitive
from narrate2report.read.meant.scene import Scene
from narrate2report.read.speech.clauses import Clause
from narrate2report.read.speech.spoken import Spoken
from narrate2report.records.findings import Outcome

WAKES = frozenset("wake wakes woke woken waking deafen deafened".split())

SOUND = frozenset({"good", "clean", "present", "new"})
YES = frozenset({"yes", "yeah", "yep", "yup", "okay", "ok", "oh", "well"})

HEARD = frozenset("smoke_alarm co_alarm doorbell intercom emergency_exit".split())
"""What is there to be heard: of a fan, loud is a flaw."""

NOISES = frozenset("beep bleep chirp ring chime shriek squawk ding".split())
"""What only some things answer with."""

FILLING = frozenset(
    "and okay ok oh so now well it she he that they we this 's is are was am just at all right then yep yes yeah"
    " good i a the nice mm um uh of off for you enough like there again both also too now plenty thank nicely"
    " clearly very sides only itself".split()
)
"""Words beside an answer that do not change it."""


def answer_of(spoken: Spoken, clause: Clause) -> Outcome | None:
    """The result that a short clause gives, if it is one."""
    if wakes(spoken, clause):
        return "works"
    for kinds, outcome in ((("no_response",), "fails"), (("response", "sounds"), "works")):
        heard = {at for cue in spoken.cues(*kinds, within=clause) for at in range(cue.start, min(cue.end, clause.end))}
        rest = [norm for at, norm in enumerate(spoken.norms()) if at in clause and at not in heard]
        merely = _is_mere_no(spoken, clause) or _leads_to_flaw(spoken, clause)
        if heard and set(rest) <= FILLING and not merely:
            return outcome  # type: ignore[return-value]
    return None


def is_others_noise(scene: Scene, clause: Clause, component: str) -> bool:
    """`I gave it a press and it beeped`, where the blinds were spoken of last: what cannot sound has not answered; and
    loud is an answer of what is there to be heard alone."""
    term = scene.vocabulary.components.get(component)
    if component not in HEARD and scene.spoken.has_cue("sounds", within=clause):
        return answer_of(scene.spoken, clause) == "works"
    if component in HEARD or term is None or not NOISES.isdisjoint(term.works):
        return False
    return any(infinitive(norm) in NOISES for norm in scene.spoken.norms(clause.start, clause.end))


def wakes(spoken: Spoken, clause: Clause) -> bool:
    """`that's woken the whole street`, `that'd wake the dead`."""
    norms = spoken.norms(clause.start, clause.end)
    woken = [at for at, norm in enumerate(norms) if norm in WAKES and norms[at + 1 : at + 2] != ["up"]]
    return bool(woken) and {"the", "everybody", "everyone"} & set(norms[woken[0] :]) != set()


def _leads_to_flaw(spoken: Spoken, clause: Clause) -> bool:
    """`yeah, pretty dusty`: a yes that only leads into a flaw."""
    following = spoken.clauses[clause.index + 1 : clause.index + 2]
    if not following or not set(spoken.norms(clause.start, clause.end)) <= YES or spoken.named_in(following[0]):
        return False
    flawed = spoken.terms("condition", within=following[0])
    return any(not sense.beside and sense.id not in SOUND for term in flawed for sense in term.of("condition"))


def _is_mere_no(spoken: Spoken, clause: Clause) -> bool:
    """`no, the tab's broken`: a no that only leads into what is said next."""
    norms = set(spoken.norms(clause.start, clause.end))
    return norms <= {"no", "nope", "well", "oh"} and clause.index + 1 < len(spoken.clauses)
