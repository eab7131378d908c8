"""Parts to be fitted or bought, with no word of work: `I'll put a set in`, `I buy a new one`, `a new seat today`.

Such words are work only where a flaw was spoken of shortly before or the thing itself is named.
"""

from __future__ import annotations

from narrate2report.read.drafts.draft import Draft
from narrate2report.read.lexis.phrase_tree import Mention
from narrate2report.read.meant.negations import negation_before
from narrate2report.read.meant.scene import Scene
from narrate2report.read.speech.clauses import Clause
from narrate2report.read.speech.spoken import Spoken
from narrate2report.read.things.pointing import POINTING
from narrate2report.read.work.remedies import ANOTHER
from narrate2report.read.work.worked_on import NOT_TO_COME, party_of, to_do, worked_on
from narrate2report.records.findings import Action

FITTING = frozenset("put putting snap stick slap pop throw screw sticking popping throwing snapping".split())
INTO_PLACE = frozenset("in on up down over back".split())
FINDING = frozenset({"find", "source"})
BUYING = FINDING | frozenset("buy buying purchase pick grab getting".split())
NEW = frozenset("new fresh another bigger".split())
SOME = frozenset("a an another new fresh one some two three".split())
OWN = frozenset("i we he she they owner landlord office maintenance us".split())
BEFORE_NEW = frozenset("so and then a just".split())
SOON = frozenset(
    "today tonight tomorrow monday tuesday wednesday thursday friday saturday sunday week weekend afternoon".split()
)
PASSING = frozenset(
    "plug tester charger load light lights lamp towel note line picture photo stopper coin level flashlight torch foot"
    " hand finger meter timer sticker mark pin word request ticket offer bucket cup pan pot kettle wash rag"
    " bid claim name call".split()
)
"""What is put somewhere for the time of the walk, or on paper."""


def parts_fitted(scene: Scene, flaw: str | None, *, owner_speaks: bool) -> list[Draft]:
    """At most one follow-up: a part that is to be fitted or had, of the flaw that was spoken of."""
    spoken = scene.spoken
    if spoken.ends_with_question():
        return []
    for clause in spoken.clauses:
        at = _fitted(spoken, clause)
        at = _bought(spoken, clause) if at is None else at
        at = _listed_new(spoken, clause) if at is None else at
        at = _new_in_place(scene, clause, flaw) if at is None else at
        at = _goes_into_place(spoken, clause) if at is None and flaw else at
        for_that = _is_for_that(spoken) if flaw and not clause.index else None
        at = for_that if at is None else at
        if at is None or scene.mode(at) in NOT_TO_COME or negation_before(spoken, clause, at):
            continue
        named = any(one.start in clause and one.relation == "topic" for one in spoken.named)
        if flaw is None and not named:
            continue
        on = worked_on(scene, Mention(at, at + 1), clause, flaw)
        if flaw and for_that is not None:
            on = flaw, "the flaw spoken of before"
        norms = set(spoken.norms(clause.start, clause.end)) | (ANOTHER & set(spoken.norms()))
        back = "back" in norms and "new" not in norms
        action: Action = (
            "secure" if back else "replace" if norms & ANOTHER | norms & {"set", "one"} | SPARES & norms else "repair"
        )
        told = f"'{spoken.words(clause.start, clause.end)}' plans a part"
        party = party_of(spoken, clause, owner_speaks=owner_speaks)
        return [to_do(scene, at, on, told, action, party, confidence=0.5)]
    return []


def _fitted(spoken: Spoken, clause: Clause) -> int | None:
    """`I'll put a set in tomorrow`, `I'll snap one on`, `they're putting a new counter in`: a part goes into place."""
    norms = spoken.norms(clause.start, clause.end)
    for at, norm in enumerate(norms):
        if norm in SMEARING and _is_smeared(norms[at + 1 :]) and {"will", "'ll", "going", "gon"} & set(norms[:at]):
            return None if {"you", "not"} & set(norms[:at]) else clause.start + at
        if norm not in FITTING or not _is_planned(spoken, clause, clause.start + at):
            continue
        rest = norms[at + 1 :]
        thing = rest[1:] if rest[:1] and rest[0] in INTO_PLACE else rest
        placed = bool(set(rest) & INTO_PLACE)
        if placed and thing and thing[0] in SOME and not set(rest) & PASSING:
            return clause.start + at
        if thing and (thing[0] in {"new", "fresh"}) and not set(rest) & PASSING:
            return clause.start + at
    return None


SMEARING = frozenset("get put squirt dab run spray rub pop stick pour".split())


def _is_smeared(rest: list[str]) -> bool:
    """`get some wood glue in that`, `put a bit of filler in those`: stuff, and what it goes on."""
    some = rest[:1] == ["some"] or rest[:3] in (["a", "bit", "of"], ["a", "drop", "of"], ["a", "dab", "of"])
    tail = rest[-3:-1] if rest[-1:] == ["one"] else rest[-2:]
    onto = len(tail) == len(("on", "that")) and tail[0] in {"in", "on", "into", "over", "under", "behind", "round"}
    return some and onto and tail[1] in POINTING | {"there", "here"} and not PASSING & set(rest)


def _is_planned(spoken: Spoken, clause: Clause, at: int) -> bool:
    """`I'll put`, `the office is putting`, `we put ... tomorrow`, and the second half of `I'll cut it out and put`."""
    before = spoken.norms(clause.start, at)
    if {"let", "you", "your", "had", "just", "not", "never"} & set(before) or spoken.tokens[at - 1].norm in {
        "have",
        "has",
        "been",
    }:
        return False
    who = set(before) & OWN
    if spoken.tokens[at].norm.endswith("ing"):
        return bool(who and set(before) & {"is", "'s", "are", "'re", "'m", "am"}) and not _now(spoken, clause)
    if {"will", "'ll", "shall", "must"} & set(before) or (before[-1:] == ["to"] and who):
        return bool(who)
    soon = bool(SOON & set(spoken.norms(at, clause.end)))
    goes_on = not before or before == ["and"]
    if goes_on and clause.index:
        earlier = spoken.clauses[clause.index - 1]
        return {"will", "'ll"} & set(spoken.norms(earlier.start, earlier.end)) != set() and clause.link == "and"
    return bool(who) and len(before) <= 2 and soon


def _now(spoken: Spoken, clause: Clause) -> bool:
    return "now" in spoken.norms(clause.start, clause.end)


def _bought(spoken: Spoken, clause: Clause) -> int | None:
    """`I buy a new one`, `I'll ask the owner to buy a gasket`, `I'll pick up a new one`."""
    norms = spoken.norms(clause.start, clause.end)
    fetched = _fetched(spoken, clause)
    if fetched is not None:
        return fetched
    for at, norm in enumerate(norms[1:], 1):
        if norm not in BUYING or not set(norms[:at]) & OWN or {"you", "had", "if", "before"} & set(norms[:at]):
            continue
        rest = [one for one in norms[at + 1 : at + 4] if one != "up"]
        some = rest[:1] and rest[0] in SOME
        planned = {"will", "'ll", "to", "am", "'m", "going", "must"} & set(norms[:at]) or spoken.tokens[
            clause.start + at
        ].tag in {"VBP", "VB"}
        exact = norm.startswith("buy") or norm in FINDING | {"purchase"} or bool((NEW | SPARES) & set(rest))
        if some and planned and exact and spoken.tokens[clause.start + at].tag != "VBD":
            return clause.start + at
    return None


def _new_in_place(scene: Scene, clause: Clause, flaw: str | None) -> int | None:
    """`the carpet is stained. New carpet.`, `all of that comes up, new carpet goes down`: a new one of what was said
    to be bad, with no verb that says it is there."""
    spoken = scene.spoken
    lead = clause.start
    while lead < clause.end and (spoken.tokens[lead].norm in BEFORE_NEW or spoken.tokens[lead].tag == "CD"):
        lead += 1
    if flaw is None or spoken.norms(lead, lead + 1) != ["new"]:
        return None
    same = any(one.component == flaw and one.start == lead + 1 for one in spoken.named)
    same = same or (not clause.index and spoken.norms(lead + 1, lead + 2) in (["one"], ["ones"], ["set"], ["pair"]))
    rest = spoken.norms(lead + 2, clause.end)
    asked = {"please", "here", "asap", "required", "needed", "wanted"} >= set(rest)
    goes = asked or rest[:1] in (["goes"], ["go"], ["going"], ["gets"])
    verbless = not any(token.is_finite for token in spoken.tokens[: clause.start]) or clause.index > 0
    return lead if same and goes and verbless else None


GOES = frozenset("going goes".split())
PLACED = frozenset("up in on".split())
WALKED = frozenset("i we you they he she who".split())


def _goes_into_place(spoken: Spoken, clause: Clause) -> int | None:
    """`I've got a spare in the truck, it's going up today`: what is to come into place, and when."""
    for at in range(clause.start + 1, clause.end - 2):
        if spoken.tokens[at].norm not in GOES or spoken.tokens[at + 1].norm not in PLACED:
            continue
        lead = spoken.norms(clause.start, at)
        if not (WALKED | {"not", "was", "were"}) & set(lead) and SOON & set(spoken.norms(at + 2, clause.end)):
            return at
    return None


def _is_for_that(spoken: Spoken) -> int | None:
    """`new seat and a flapper for that one`: parts with no verb, for what was spoken of before."""
    norms = spoken.norms()
    words = [norm for norm in norms if norm.isalpha() and norm not in BEFORE_NEW]
    if words[:1] != ["new"] and words[1:2] != ["new"]:
        return None
    tail = words[-3:-1] if words[-1:] == ["one"] else words[-2:]
    pointed = len(tail) == len(("for", "that")) and tail[0] in {"for", "on", "in"} and tail[1] in POINTING | {"there"}
    return norms.index("new") if pointed and not any(token.is_finite for token in spoken.tokens) else None


SPARES = frozenset(
    "battery batteries bulb bulbs filter gasket seal part parts screw screws bolt bolts washer flapper kit fuse"
    " cartridge volt hinge latch strainer stopper".split()
)
"""What one goes and gets for a repair."""


def _fetched(spoken: Spoken, clause: Clause) -> int | None:
    """`I'll run and get a battery`, `I'll run to the hardware store for a bulb`: a part that is still to be had."""
    norms = spoken.norms(clause.start, clause.end)
    earlier = spoken.clauses[clause.index - 1] if clause.index and clause.link == "and" else clause
    planned = {"will", "'ll", "going", "gon", "gotta"} & set(spoken.norms(earlier.start, clause.end))
    for at, norm in enumerate(norms[:-1]):
        goes = norm in {"get", "grab", "fetch"} or (
            norm == "for" and {"store", "shop", "truck", "van"} & set(norms[:at])
        )
        thing = norms[at + 1 : at + 5]
        if planned and goes and thing[:1] and thing[0] in SOME and SPARES & set(thing):
            return clause.start + at
    return None


def _listed_new(spoken: Spoken, clause: Clause) -> int | None:
    """`so a new handle on there today`, `put me down for a new seat`: a new part with no verb, and a day or a list."""
    norms = spoken.norms(clause.start, clause.end)
    if "new" not in norms:
        return None
    at = norms.index("new")
    lead = [norm for norm in norms[:at] if norm not in {"so", "and", "then", "a", "an", "the", "just", "or"}]
    asked = lead[-3:] in (["me", "down", "for"], ["us", "down", "for"]) or lead in (
        ["i", "recommend"],
        ["i", "'d", "say"],
    )
    verbless = not lead and not any(token.is_finite for token in spoken.tokens[clause.start : clause.end])
    rest = norms[at + 1 :]
    coming = bool(rest) and (
        set(rest[1:4]) & {"coming", "comes", "arrives", "due"} or rest[1:3] in (["goes", "in"], ["go", "in"])
    )
    comes = (
        not lead and coming and not {"not", "was", "came"} & set(rest) and (SOON | {"month", "next", "in"}) & set(rest)
    )
    if asked or comes or (verbless and SOON & set(norms[at:]) and at + 1 < len(norms)):
        return clause.start + at
    return None
