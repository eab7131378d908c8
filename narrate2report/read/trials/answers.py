"""The answer that a trial gets: `there it goes`, `nothing at all`, `that's woken the whole street`."""

from __future__ import annotations

import re
from typing import Final

from narrate2report.read.lexis.inflect import infinitive
from narrate2report.read.meant.scene import Scene
from narrate2report.read.speech.clauses import Clause
from narrate2report.read.speech.spoken import Spoken
from narrate2report.records.findings import Outcome

WAKES = frozenset(
    "wake wakes woke woken waking deafen deafened scare scared frighten frightened startle startled".split()
)
WOKEN = frozenset("the everybody everyone anybody anyone you me us".split())
"""Who is woken by what sounds as it should."""

AS_MEANT: Final = re.compile(
    r"(?:that|this|it|they|there) (?:(?:is|'s|are|sounds?|runs?|goes) )?(?P<denied>not )?(?:more |just |exactly )*"
    r"(?:how|what|like|as|the (?:way|sound|noise|hum))\b(?! you (?:should|ought|are|'re|have|need|must))"
    r".*\b(?:supposed|meant|should|ought|wants?|like|expect)\b"
)
"""`that's how it's supposed to sound`, `that's the sound we want`, `that's not how it should run`."""

RUNNING: Final = frozenset("sound sounds hear hearing run runs running go goes work noise".split())
"""What a thing does that can be heard, where it is as it is meant to be: `like to see` may as well be cleanliness."""

ASKS: Final = frozenset("do did can could you hear heard that it this her him they us go ring sound beep okay".split())
"""`You hear that?`, `did you hear it go?`: who asks so heard it."""

SOUND = frozenset({"good", "clean", "present", "new"})
YES = frozenset({"yes", "yeah", "yep", "yup", "okay", "ok", "oh", "well"})

HEARD = frozenset("smoke_alarm co_alarm doorbell intercom emergency_exit".split())
"""What is there to be heard: of a fan, loud is a flaw."""

STOPS = frozenset({"toilet", "toilet_tank"})
"""What is tried by whether it stops."""

NOISES = frozenset("beep bleep chirp ring chime shriek squawk ding click".split())
"""What only some things answer with."""

SUPPOSING = frozenset({"if", "when", "whenever", "unless"})

MERE = frozenset(
    "there righto rightio that 's better now both the sides side times no nope nah yes yep yeah okay ok oh right"
    " alright nice perfect lovely good great".split()
)
SORRY = frozenset("sorry oh ow wow ouch whoa well sheesh ha".split())

FILLING = frozenset(
    "and okay ok oh so now well it she he that they we this 's is are was am just at all right then yep yes yeah"
    " good i a the nice mm um uh of off for you enough like there again both also too now plenty thank nicely"
    " clearly very sides only itself me us obviously righto rightio them".split()
)
"""Words beside an answer that do not change it."""


def answer_of(spoken: Spoken, clause: Clause) -> Outcome | None:
    """The result that a short clause gives, if it is one."""
    if wakes(spoken, clause):
        return "works"
    if (meant := AS_MEANT.search(" ".join(_as_meant(spoken, clause)))) is not None:
        return "fails" if meant["denied"] else "works"
    for kinds, outcome in ((("no_response",), "fails"), (("response", "sounds"), "works")):
        heard = {at for cue in spoken.cues(*kinds, within=clause) for at in range(cue.start, min(cue.end, clause.end))}
        rest = [norm for at, norm in enumerate(spoken.norms()) if at in clause and at not in heard]
        merely = _is_mere_no(spoken, clause) or _leads_to_flaw(spoken, clause)
        if heard and set(rest) <= FILLING and not merely:
            return outcome  # type: ignore[return-value]
    return None


STARTED: Final = re.compile(
    r"^(?:oh |okay |ah |and |yep |yeah |now |, )*(?:(?:there|here|off|away|up|down|round) (?:it|she|he|they) "
    r"(?:goes|go|comes|come|is|blows)|(?:there|here|off|away) we go|(?:it|she|he|they) (?:is |are |'s |'re )?"
    r"(?:going|running|ringing|fires up|starts up|kicks in|kicks on|comes on))\b"
)
STOPPED: Final = re.compile(
    r"^(?:okay |and |yep |yeah |now |there |so )*(?:it|she) (?:has |'s )?(?:stopped|shut off)\b"
)
"""`okay, it stopped`: of what fills and has to stop."""


def is_started(spoken: Spoken, clause: Clause, component: str) -> bool:
    """`there it goes, you can hear it in there`, `there she goes, nice and strong`: what was just tried has begun, or
    has stopped as it should, whatever is said after it."""
    said = " ".join(spoken.norms(clause.start, clause.end))
    if component in STOPS:
        return STOPPED.search(said) is not None
    return STARTED.search(said) is not None and not spoken.has_cue("negation", within=clause)


def is_plain(spoken: Spoken, clause: Clause) -> bool:
    """`that's how it should sound`, `loud enough`, `that'll wake you`: an answer that could be nothing else, whatever
    is said after it, and whether or not a trial was told."""
    if wakes(spoken, clause) or (spoken.has_cue("sounds", within=clause) and answer_of(spoken, clause) == "works"):
        return True
    norms = _as_meant(spoken, clause)
    return bool(RUNNING & set(norms)) and AS_MEANT.search(" ".join(norms)) is not None


def _as_meant(spoken: Spoken, clause: Clause) -> list[str]:
    """The words of a clause, with `we want` that goes on with it: `that's the sound we want`."""
    following = spoken.clauses[clause.index + 1 : clause.index + 2]
    goes_on = following and not following[0].link and following[0].end - following[0].start <= len(("you", "want"))
    return spoken.norms(clause.start, following[0].end if goes_on else clause.end)


def asks_if_heard(spoken: Spoken, clause: Clause) -> bool:
    """`Hear that?`, `did you hear it ring?`"""
    norms = spoken.norms(clause.start, clause.end)
    return spoken.ends_with_question() and {"hear", "heard"} & set(norms) != set() and set(norms) <= ASKS


def is_others_noise(scene: Scene, clause: Clause, component: str) -> bool:
    """`I gave it a press and it beeped`, where the blinds were spoken of last: what cannot sound has not answered; and
    loud is an answer of what is there to be heard alone."""
    term = scene.vocabulary.components.get(component)
    if component not in HEARD and scene.spoken.has_cue("sounds", within=clause):
        return answer_of(scene.spoken, clause) == "works"
    if component in HEARD or term is None or not NOISES.isdisjoint(term.works):
        return False
    return any(infinitive(norm) in NOISES for norm in scene.spoken.norms(clause.start, clause.end))


def is_told(scene: Scene, clause: Clause) -> bool:
    """Whether an answer is said as a fact; `that would wake the dead` is one all the same, and no `if` is."""
    return scene.is_said(clause.start) or (wakes(scene.spoken, clause) and not SUPPOSING & set(scene.spoken.norms()))


def is_only_sorry(spoken: Spoken, clause: Clause) -> bool:
    """`Sorry, that's loud`: a word in passing before the answer."""
    return set(spoken.norms(clause.start, clause.end)) <= SORRY


def is_mere_word(spoken: Spoken, clause: Clause) -> bool:
    """`No, nothing`, `okay, there it goes`: a word before the answer that says the same or nothing."""
    return set(spoken.norms(clause.start, clause.end)) <= MERE


def wakes(spoken: Spoken, clause: Clause) -> bool:
    """`that's woken the whole street`, `that'd wake the dead`, `that'll wake you`."""
    norms = spoken.norms(clause.start, clause.end)
    woken = [at for at, norm in enumerate(norms) if norm in WAKES and norms[at + 1 : at + 2] != ["up"]]
    would = bool(woken) and bool({"that", "it", "this"} & set(norms[: woken[0]]))
    told = WOKEN if would else {"the", "everybody", "everyone"}
    return bool(woken) and bool(told & set(norms[woken[0] :]))


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
