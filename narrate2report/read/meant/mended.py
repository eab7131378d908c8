"""A flaw that was, and what was done about it: `the steps had crumbled, so the mason rebuilt them`."""

from __future__ import annotations

from itertools import pairwise
from typing import Final

from narrate2report.read.meant.cue_limits import is_all_past
from narrate2report.read.meant.seeming import FILLED
from narrate2report.read.speech.clauses import PARTICLES, Clause, bare_start
from narrate2report.read.speech.spoken import Spoken

WAS: Final = frozenset("was were had".split())
DID: Final = frozenset(
    "fixed repaired replaced rebuilt patched changed redid resealed reglazed refinished repainted installed sealed"
    " treated rewired rehung cleaned swapped remodeled renovated retiled relined cured cleared mended sorted felted"
    " refelted refilled relaid regrouted recaulked filled straightened tightened unblocked plastered"
    " replastered".split()
)
WORKED_OUT: Final = frozenset("hammered knocked buffed popped sanded ironed steamed beaten pulled polished".split())
SAW_TO: Final = {"took": ("care", "of"), "taken": ("care", "of"), "saw": ("to",), "dealt": ("with",)}
"""Verbs that with these words tell of a deed that mends, whatever it was: `the painters took care of that`."""

FITTED: Final = frozenset("put had got".split())
DOERS: Final = frozenset(
    "i we they he she it that this both them somebody someone lads guys boys men fellas team maintenance".split()
)
TIPS: Final = frozenset("skip dumpster tip dump landfill bin".split())
SINCE: Final = frozenset("since anymore".split())


def mended_at(spoken: Spoken, clause: Clause) -> int | None:
    """The token from which on a clause tells of a flaw that was mended since: what bore it is still spoken of."""
    if (out := _worked_out(spoken, clause)) is not None:
        return out
    if (gone := _is_no_more(spoken, clause)) is not None:
        return gone
    finite = {token.norm for token in spoken.tokens[clause.start : clause.end] if token.is_finite}
    finite |= {"was"} if _once(spoken, clause) else set()
    if not finite or not _has_flaw(spoken, clause) or "still" in spoken.norms():
        return None
    later = spoken.clauses[clause.index + 1 : clause.index + 4]
    then = finite <= WAS or (finite <= {"let"} and is_all_past(spoken, clause))
    if then and any(spoken.has_cue("repaired_since", within=one) for one in later[:2]):
        return clause.start
    past = is_all_past(spoken, clause) or finite <= WAS | {"could", "did"} or _had_had(spoken, clause)
    if not past or not any(_tells_of_repair(spoken, one) for one in later):
        return None
    flaw = spoken.terms("condition", within=clause)[0].start
    return min(flaw, next((at for at in range(clause.start, clause.end) if spoken.tokens[at].is_finite), flaw))


def _is_no_more(spoken: Spoken, clause: Clause) -> int | None:
    """`the crack on the basin has been repaired`, `that stain is gone now`: the flaw is the subject of its own end."""
    start = bare_start(spoken.tokens, clause)
    flaw = next((one for one in spoken.terms("condition", within=clause) if one.start <= start + 2), None)
    pointed = spoken.norms(start, start + 1) in (["the"], ["that"], ["those"], ["this"])
    described = flaw is not None and any(one.start == flaw.end for one in spoken.named_terms(clause))
    if flaw is None or not pointed or not (described or spoken.tokens[flaw.end - 1].tag in {"NN", "NNS"}):
        return None
    norms = spoken.norms(flaw.end, clause.end)
    if {"not", "badly", "poorly", "partly"} & set(norms):
        return None
    mended = any(
        norm in DID - FILLED and {"been", "was", "were", "got", "is", "are"} & set(norms[max(0, at - 2) : at])
        for at, norm in enumerate(norms)
    )
    gone = norms[-2:] in (["gone", "now"], ["is", "gone"], ["'s", "gone"], ["has", "gone"], ["are", "gone"])
    return flaw.start if mended or gone else None


def _once(spoken: Spoken, clause: Clause) -> bool:
    """`the roof leaked once`: of the past, though the tagger takes the verb for a participle."""
    return any(spoken.norms(term.end, term.end + 1) == ["once"] for term in spoken.terms("condition", within=clause))


def _worked_out(spoken: Spoken, clause: Clause) -> int | None:
    """`that dent got hammered out in spring`: the flaw, and its end in one clause."""
    for at in range(clause.start + 1, clause.end):
        if spoken.tokens[at].norm in WORKED_OUT and spoken.norms(at + 1, at + 2) in (["out"], ["off"]):
            passive = spoken.norms(at - 1, at) in (["got"], ["was"], ["were"], ["been"])
            flaw = next((one for one in spoken.terms("condition", within=clause) if one.end < at), None)
            return flaw.start if passive and flaw is not None else None
    return None


def _has_flaw(spoken: Spoken, clause: Clause) -> bool:
    """Whether a clause has a condition word that is more than `out` or `in`."""
    return any(
        term.end - term.start > 1 or spoken.tokens[term.start].norm not in PARTICLES
        for term in spoken.terms("condition", within=clause)
    )


def _had_had(spoken: Spoken, clause: Clause) -> bool:
    """`we'd had mice`."""
    pairs = pairwise(spoken.tokens[clause.start : clause.end])
    return any(first.norm in {"'d", "had"} and second.tag == "VBN" for first, second in pairs)


def _tells_of_repair(spoken: Spoken, clause: Clause) -> bool:
    """`so the mason rebuilt them`, `we put the sump in right after`, `now it doesn't`, `not a sign since`."""
    norms = spoken.norms(clause.start, clause.end)
    if "nobody" in norms or ("never" in norms and not SINCE & set(norms)):
        return False
    if _is_over(spoken, clause):
        return True
    if clause.link not in {"so", "and", "but", "which", "then", ",", ""} or spoken.has_cue("negation", within=clause):
        return False
    return _did(spoken, clause) or _is_new_now(spoken, clause)


def _is_over(spoken: Spoken, clause: Clause) -> bool:
    """`now it doesn't`, `it hasn't since`, `not a sign since`."""
    norms = spoken.norms(bare_start(spoken.tokens, clause), clause.end)
    if "went" in norms and TIPS & set(norms):
        return True  # but that carpet went in the skip
    if norms[:1] in (["i"], ["we"], ["you"]) or "not" not in norms + spoken.norms(clause.start, clause.start + 1):
        return False
    ends = norms[-1:] in (["since"], ["anymore"]) or norms[-2:] == ["any", "more"]
    now = norms[-1:] == ["not"] and "now" in spoken.norms(max(0, clause.start - 2), clause.end)
    return ends or now


def _did(spoken: Spoken, clause: Clause) -> bool:
    """Somebody's deed that mends, in the past."""
    for at in range(bare_start(spoken.tokens, clause), clause.end):
        token = spoken.tokens[at]
        by_whom = spoken.norms(clause.start, at)
        acts = bool(DOERS & set(by_whom)) or spoken.has_cue("trade", within=clause)
        if token.norm in DID and acts and not (token.norm == "filled" and by_whom[-1:] == ["it"]):
            return True
        saw_to = SAW_TO.get(token.norm)
        if acts and saw_to is not None and tuple(spoken.norms(at + 1, at + 1 + len(saw_to))) == saw_to:
            return True
        if token.norm in FITTED and acts and {"in", "on", "up", "new"} & set(spoken.norms(at + 1, clause.end)):
            return {"the", "a", "new", "another"} & set(spoken.norms(at + 1, at + 3)) != set()
    return False


def _is_new_now(spoken: Spoken, clause: Clause) -> bool:
    """`so it's all new wood now`, `which is why you've got a new one`, `this is its replacement`."""
    start = bare_start(spoken.tokens, clause)
    norms = spoken.norms(start, clause.end)
    points = norms[:1] and norms[0] in DOERS | {"which", "you", "is", "these"}
    fresh = any(
        sense.id in {"new", "repaired", "freshly_painted"}
        for term in spoken.terms("condition", within=clause)
        for sense in term.of("condition")
    )
    stands_for = norms[:2] in (["that", "is"], ["that", "'s"], ["this", "is"]) and "replacement" in norms
    newer = norms[-2:] == ["new", "one"] or norms[-2:] == ["new", "ones"] or "brand" in norms
    return bool(points) and (fresh or stands_for or newer)
