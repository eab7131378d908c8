"""Whose a care is, told with no order: `servicing is in your scope`, `to be cleaned by the tenant`, `tenant's meant to
wash those`, `you mow, we do the gutters`.

Gives the token at which a clause tells it; what the care is of is left to `cared_for`.
"""

from __future__ import annotations

from typing import Final

from narrate2report.read.resident.unmarked import DONE_BY_THEM, OURS, ROUTINE
from narrate2report.read.speech.clauses import Clause
from narrate2report.read.speech.spoken import Spoken
from narrate2report.read.things.pointing import POINTING

THEY: Final = frozenset(
    "tenant tenants resident residents renter renters occupier occupiers occupant occupants lodger lodgers".split()
)
THEIRS: Final = THEY | frozenset("you yourself yourselves".split())
BE: Final = frozenset("is 's are 're be".split())
OVER: Final = frozenset("the all also really still just always strictly entirely purely then".split())
LED_BY: Final = (("down", "to"), ("up", "to"), ("in",), ("under",), ("within",), ("on",), ("for",), ("part", "of"))
DUTY: Final = frozenset(
    "job responsibility responsibilities scope duty duties lookout task tasks side concern department remit care"
    " chore chores part end business".split()
)
MEANT: Final = frozenset("meant supposed expected required obliged bound".split())
BOUND: Final = frozenset("has have needs need ought".split())
CARES: Final = ROUTINE | DONE_BY_THEM | frozenset("rake salt squeegee shovel trim prune service treat oil".split())
LATELY: Final = frozenset("was were been had".split())
LEADING: Final = frozenset("and so just then also now or but the a our any every".split())


def told_as_duty(spoken: Spoken, clause: Clause) -> int | None:
    """Where a clause tells whose a care is that is the resident's; None where it tells of none."""
    if spoken.ends_with_question() or clause.link in {"if", "unless", "when"}:
        return None
    told = _is_their_duty(spoken, clause) or _is_done_by_them(spoken, clause) or _stays_off(spoken, clause)
    return clause.start if told or _they_are_to(spoken, clause) or _shares_out(spoken, clause) else None


OFF: Final = (["off"], ["away", "from"], ["clear", "of"], ["out", "of"])


def _stays_off(spoken: Spoken, clause: Clause) -> bool:
    """`the sofa stays off this wall please`: what is to keep clear of something, said to somebody."""
    if not spoken.has_cue("addressee"):
        return False
    return any(
        spoken.tokens[at].norm in {"stays", "stay"}
        and any(spoken.norms(at + 1, at + 1 + len(words)) == words for words in OFF)
        for at in range(clause.start + 1, clause.end - 2)
    )


def _is_their_duty(spoken: Spoken, clause: Clause) -> bool:
    """`servicing of the AC is in your scope`, `bulbs are the tenant's responsibility`, `that's your department`."""
    norms = spoken.norms(clause.start, clause.end)
    for at, norm in enumerate(norms):
        if norm not in BE or not at:
            continue
        rest = [one for one in norms[at + 1 :] if one not in OVER]
        lead = next((words for words in LED_BY if tuple(rest[: len(words)]) == words), ())
        whose = rest[len(lead) :]
        named = any(one.end <= clause.start + at for one in spoken.named_in(clause))
        if not named and not (POINTING & set(norms[:at]) and at <= 1):
            return False
        if _is_owned(whose):
            return True
        plain = whose[:1] and whose[0] in THEIRS and len(whose) == 1
        return bool(plain and named and lead and lead[0] in {"down", "up", "on"})
    return False


def _is_owned(whose: list[str]) -> bool:
    """`your scope`, `tenant 's responsibility`, `tenants job`."""
    if whose[:1] == ["your"]:
        return bool(DUTY & set(whose[1:3]))
    if not whose or whose[0] not in THEY:
        return False
    rest = whose[2:] if whose[1:2] in (["'s"], ["'"]) else whose[1:]
    return bool(DUTY & set(rest[:1]))


def _is_done_by_them(spoken: Spoken, clause: Clause) -> bool:
    """`is to be cleaned by the tenant`, `must be emptied by you`, `gets descaled by the residents every spring`."""
    norms = spoken.norms(clause.start, clause.end)
    for at in range(2, len(norms) - 1):
        who = [one for one in norms[at + 1 : at + 3] if one not in {"the", "each", "every"}]
        if norms[at] != "by" or not (who and who[0] in THEIRS):
            continue
        done = spoken.tokens[clause.start + at - 1]
        while done.tag in {"RB", "RP", "IN"} and at > 2:  # cleaned out by the tenant
            at -= 1
            done = spoken.tokens[clause.start + at - 1]
        lead = norms[: at - 1]
        if done.tag not in {"VBN", "VBD"} or LATELY & set(lead) or not (BE | {"get", "gets"}) & set(lead):
            return False
        flaw = any(term.start == clause.start + at - 1 for term in spoken.terms("condition"))
        due = bool({"to", "must", "should", "will", "'ll"} & set(lead)) or spoken.has_cue("often")
        return due and not (flaw and not spoken.has_term("action", within=clause))
    return False


def _they_are_to(spoken: Spoken, clause: Clause) -> bool:
    """`tenant's meant to wash those`, `you're supposed to descale it`, `the tenant has to water the lawn in summer`,
    `tenant to rinse those every month`."""
    if _needs_them_to(spoken, clause):
        return True
    at = clause.start
    while at < clause.end and spoken.tokens[at].norm in LEADING:
        at += 1
    if spoken.norms(at, at + 1)[:1] == [] or spoken.tokens[at].norm not in THEIRS:
        return False
    meant = spoken.norms(at + 1, at + 2) in (["is"], ["'s"], ["are"], ["'re"]) and bool(
        MEANT & set(spoken.norms(at + 2, at + 3))
    )
    bound = bool(BOUND & set(spoken.norms(at + 1, at + 2)))
    to = at + (3 if meant else 2 if bound else 1)
    if spoken.norms(to, to + 1) != ["to"] or to + 1 >= clause.end or not (meant or spoken.has_cue("often")):
        return False
    verb = spoken.tokens[to + 1]
    return verb.norm in CARES or (spoken.tokens[at].norm in THEY and spoken.has_term("action", within=clause))


def _needs_them_to(spoken: Spoken, clause: Clause) -> bool:
    """`the filter needs you to empty it every month`: what a thing asks of the resident, again and again."""
    return spoken.has_cue("often") and any(
        spoken.tokens[at].norm in {"needs", "need", "wants"}
        and spoken.tokens[at + 1].norm in THEIRS
        and spoken.norms(at + 2, at + 3) == ["to"]
        and spoken.tokens[at + 3].norm in CARES
        for at in range(clause.start + 1, clause.end - 3)
    )


def _shares_out(spoken: Spoken, clause: Clause) -> bool:
    """`you mow, you shovel, and I take care of the gutters`: who does what, of which one half is the resident's."""
    norms = [one for one in spoken.norms(clause.start, clause.end) if one not in {"and", "so", "then"}]
    if norms[:1] != ["you"] or norms[1:2] == [] or norms[1] not in CARES or spoken.has_cue("policy"):
        return False
    ours = (spoken.norms(one.start, one.end) for one in spoken.clauses if one.index != clause.index)
    heads = [[norm for norm in words if norm not in {"and", "but", "the", "so"}][:1] for words in ours]
    return any(head and head[0] in OURS for head in heads)
