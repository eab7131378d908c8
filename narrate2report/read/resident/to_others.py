"""Orders that are said to colleagues or to whoever looks on, and what one has to do to a thing that sticks: no care."""

from __future__ import annotations

from narrate2report.read.meant.scene import Scene
from narrate2report.read.speech.clauses import Clause
from narrate2report.read.speech.spoken import Spoken

LEADING = frozenset("and so just then also now please kindly or but do not never always you guys folks all".split())

MUST = tuple(
    words.split() for words in ("you have to", "you got to", "you have got to", "you need to", "you just have to")
)
WANTS = (["you", "should"], ["you", "want", "to"], ["you", "will", "want", "to"], ["you", "must"])

JOBS = frozenset("order orders ticket tickets job request note picture pictures photo photos".split())
PUT_IN = frozenset("put raise log open write make take submit file enter add place schedule".split())


def is_for_staff(spoken: Spoken, clause: Clause, at: int) -> bool:
    """`please put in a work order`, `raise a ticket for that`, `take a photo`: said to colleagues, and no care."""
    words = [norm for norm in spoken.norms(at, clause.end) if norm not in LEADING | {"in", "up", "down", "a", "me"}]
    return (words[:1] and words[0] in PUT_IN and bool(JOBS & set(words[1:4]))) or False


TO_SEE = frozenset("see hear smell feel know".split())


def only_shows(spoken: Spoken, clause: Clause, at: int) -> bool:
    """`you need to see this`, `you have to look closely`: what somebody is shown, and no care."""
    must = next((words for words in (*MUST, *WANTS) if spoken.norms(at, at + len(words)) == words), None)
    if must is None or not TO_SEE & set(spoken.norms(at + len(must), at + len(must) + 1)):
        return False
    return not spoken.has_cue("often", within=clause)


HANDLED = frozenset(
    "lift give push pull jiggle wiggle hold shove slam bump press lean turn twist yank tug kick thump force"
    " work".split()
)
"""What one does to a thing that does not go by itself."""


BODY = frozenset("hip shoulder knee elbow weight foot back".split())
"""What one puts into a thing that sticks."""


def tells_how_it_goes(scene: Scene, at: int) -> bool:
    """`it sticks, you have to give it a bump`, `it locks but you have to lift it`: how it works, and no care."""
    spoken = scene.spoken
    must = next((words for words in MUST if spoken.norms(at, at + len(words)) == words), None)
    if must is None:
        return False
    leans = BODY & set(spoken.norms(at + len(must) + 1, at + len(must) + 4))
    if not leans and not set(spoken.norms(at + len(must), at + len(must) + 1)) & HANDLED:
        return False
    told = [term for term, _ in scene.flaws()] + [*spoken.terms("works"), *spoken.cues("operates", "fails")]
    return any(term.start < at and scene.is_said(term.start) for term in told)
