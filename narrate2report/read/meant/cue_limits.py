"""When a cue does not mean what it says: a `will` that is a plan, an `if` of a trial."""

from __future__ import annotations

from collections.abc import Sequence

from narrate2report.read.speech.clauses import LEADING, Clause
from narrate2report.read.speech.spoken import Spoken


def tries_whether(spoken: Spoken, at: int) -> bool:
    """`let me see if I can snap it back`, `if I can reach it`: the `if` of a trial, which ends with its clause."""
    if spoken.tokens[at].norm != "if":
        return False
    asked = at > 0 and spoken.tokens[at - 1].norm in {"see", "check", "tell", "know", "ask"}
    return asked or spoken.norms(at + 1, at + 3) in (["i", "can"], ["we", "can"], ["i", "could"])


def is_own_deed(spoken: Spoken, clause: Clause, at: int) -> bool:
    """`I put the fan in`, `the entry report it says`: a bare verb gives an order only where nobody stands before it."""
    cared = spoken.norms(at, at + 3) == ["take", "care", "of"]
    if cared and {"i", "we", "they", "he", "she"} & set(spoken.norms(clause.start, at)):
        return True
    if spoken.tokens[at].norm not in BARE_VERBS:
        return False
    before = [norm for norm in spoken.norms(clause.start, at) if norm not in LEADING]
    return bool(before) and before[-1] not in {"to", "you", "not", "n't", "do", "never", "always"}


BARE_VERBS = frozenset("put use let report call text email ring phone tell give".split())

SENSED = frozenset("see tell feel hear even really find get hardly barely quite miss".split())


HINDERED = frozenset({"sticking", "not_working", "misaligned", "loose"})
"""Faults that are told by what one has to do about them."""


def only_tells(spoken: Spoken, start: int, end: int) -> bool:
    """`you can't see it from here`, `you can't make out a face`, `you have to lift it to shut it`, `I wouldn't fancy
    two of us in here`: what it is like, and neither prohibition nor order."""
    said, after = spoken.norms(start, end), spoken.norms(end, end + 4)
    if said[:1] == ["i"] and said[-1:] == ["not"] and after[:1] and after[0] in OWN_FEELING:
        return True
    if said[:1] in (["is"], ["'s"]) and said[-2:] == ["no", "no"] and spoken.norms(start - 1, start) == ["that"]:
        return not any(token.tag == "VBG" for token in spoken.tokens[:start])
    if said == ["you", "can", "not"] and (
        SENSED & set(after[:1]) or (after[:1] == ["make"] and "out" in spoken.norms(end))
    ):
        return True
    told = any(
        start < term.start <= end and HINDERED & {one.id for one in term.of("condition")}
        for term in spoken.terms("condition")
    )
    return told and said[:1] == ["you"] and "want" not in said  # you don't want to be dragging things over it


PASSED = frozenset("put fit stick get see poke push pass slide drop lose walk reach run".split())
PASSED_THROUGH = frozenset(
    "fist hand arm finger fingers thumb foot leg head coin pencil pen card cat dog light".split()
)


def is_a_measure(spoken: Spoken, start: int, end: int) -> bool:
    """`a hole you could put your fist through`, `a gap you can get a finger in`: how large it is."""
    said, near = spoken.norms(start, end + 1), spoken.norms(end - 1, end + 5)
    could = said[:1] == ["you"] and said[1:2] in (["could"], ["can"], ["'d"], ["would"])
    return could and bool(PASSED & set(said)) and bool(PASSED_THROUGH & set(near)) and bool(THROUGH & set(near))


THROUGH = frozenset("through in into inside under underneath behind".split())

OWN_FEELING = frozenset(
    "fancy say call mind know think bet guess be have want expect like describe trust believe blame swear see".split()
)
"""After `I wouldn't`: what the speaker feels or thinks, and no advice."""


def is_all_past(spoken: Spoken, clause: Clause) -> bool:
    """`the frame was split in March`: every verb of the clause tells of then."""
    finite = [token for token in spoken.tokens[clause.start : clause.end] if token.is_finite]
    return bool(finite) and all(token.tag == "VBD" or token.norm in {"was", "were", "had"} for token in finite)


def is_plan(spoken: Spoken, start: int, end: int) -> bool:
    """`I'll get that replaced`, `it won't drain`: a `will` that is a plan, or a denial of what is now."""
    norms = spoken.norms(start, end)
    if "will" not in norms:
        return False
    return spoken.norms(end, end + 1) == ["not"] or (
        set(spoken.norms(max(0, start - 1), start)) <= {"i", "we", "they", "somebody", "someone"} and start > 0
    )


DOES = frozenset("run work start open close shut lock latch light drain flush turn".split())


def is_of_now(norms: Sequence[str], at: int, link: str) -> bool:
    """`neither of them will stay up`, `it wobbles, but it'll run`: a `will` of what a thing does now."""
    if {"neither", "none"} & set(norms[:2]):
        return True
    said = [norm for norm in norms[:at] if norm not in {"but", "still"}]
    alone = len(norms) == at + 2
    return link == "but" and said in (["it"], ["she"], ["he"], ["they"]) and alone and norms[-1] in DOES


def speaker_means_it(spoken: Spoken, at: int) -> bool:
    """`I'd say it's cracked`, `like I said, it's cracked`: the speaker's own view, not a quotation."""
    before = spoken.norms(max(0, at - 2), at)
    repeats = {"as", "like"} & set(before) and "i" in {*before[-1:], spoken.tokens[at].norm}
    return "'d" in before or "would" in before or "let" in before or bool(repeats)


GOES_TO_SEE = frozenset("look come get stand step crouch bend kneel squat peek zoom shine walk move go".split())
HANDLES = frozenset("open close lift pull slide push press turn run flip try touch feel wipe".split())
WORKS_IT = (HANDLES - frozenset("run wipe feel touch".split())) | frozenset(
    "shut lock unlock flush wiggle switch crank step stand sit walk lean".split()
)
WOULD_BE = frozenset("you your will would can could may might should must shall please".split())
"""In these is what would be, or what is asked of somebody: `when you close it, you have to lift it`."""

LIGHT = frozenset({"light", "sun", "sunlight", "flash", "flashlight", "torch"})


def only_looks(spoken: Spoken, clause: Clause) -> bool:
    """`if you look closely`, `when the light hits it`, `if I open this`: what is done to see what is there, and no
    supposition."""
    norms = spoken.norms(clause.start, clause.end)
    if norms[:1] not in (["if"], ["when"], ["once"]) or any(
        term.start > clause.start + 2 for term in spoken.terms("condition", within=clause)
    ):
        return False
    subject, acts = norms[1:2], norms[2:3]
    if set(norms[1:4]) & LIGHT and {"hits", "hit", "catches", "shines", "is", "comes"} & set(norms[2:5]):
        return "on" not in norms and "off" not in norms
    if acts and subject in (["i"], ["we"]):
        return acts[0] in GOES_TO_SEE | HANDLES
    return subject == ["you"] and bool(acts) and acts[0] in GOES_TO_SEE


def tells_what_it_does(spoken: Spoken, clause: Clause) -> bool:
    """`when you open the tap, it leaks`: what follows is what a thing does then, each time, and so does today."""
    following = spoken.clauses[clause.index + 1 : clause.index + 2]
    opens = spoken.norms(clause.start, clause.start + 3)
    worked = opens[:2] == ["when", "you"] and opens[2:] != [] and opens[2] in WORKS_IT
    if not worked or not following or spoken.has_cue("instruction", "liability", "often"):
        return False
    norms = set(spoken.norms(following[0].start, following[0].end))
    told = spoken.has_term("condition", within=following[0]) or spoken.has_cue("fails", within=following[0])
    orders = spoken.tokens[following[0].start].tag == "VB" or spoken.has_cue("imperative", within=following[0])
    return told and not orders and norms.isdisjoint(WOULD_BE)
