"""What is said of flaws of a kind and of none in particular: what they cost, who pays, how they come about.

`torn screens are thirty-five apiece`, `a clogged lint trap voids the warranty`, `dragging it is how floors get
gouged`. A flaw that is here is pointed at or counted (`this burn is four hundred`), or its place is told
(`burns in the left corner`): of a kind only the verb tells what becomes of all such flaws.
"""

from __future__ import annotations

from typing import Final

from narrate2report.read.lexis.numbers import UNITS
from narrate2report.read.lexis.phrase_tree import Mention
from narrate2report.read.speech.clauses import Clause, bare_start
from narrate2report.read.speech.spoken import Spoken

POINTING: Final = frozenset(
    "the this that these those my our your his her their its it there here one some another".split()
)
"""Words that point at a thing of this place: what they open is of no kind."""

MONEY: Final = frozenset("dollar dollars buck bucks pound pounds euro euros quid cent cents grand".split())
AFTER_PRICE: Final = frozenset("to apiece each per a an flat plus minimum even and or for".split()) | MONEY
CHARGED: Final = frozenset("billed charged deducted prorated itemized itemised withheld docked invoiced".split())
DONE_TO: Final = CHARGED | frozenset("replaced patched filled repaired noted photographed reglazed repainted".split())
BLAME: Final = frozenset("responsibility problem bill dime expense job cost fault business doing".split())
BILLS: Final = frozenset(
    "charge fee fine violation deduction repaint replacement callout patch claim strike nightmare no dealbreaker"
    " write-up eviction emergency disaster headache".split()
)
BAD_FOR: Final = frozenset("hard rough tough murder hell death brutal deadly bad terrible poison".split())
LASTS: Final = frozenset("forever permanent".split())
NOT_SO: Final = frozenset("cheap life normal okay ok fine wear covered allowed acceptable".split())
BEING: Final = frozenset("is are 's 're will".split())
ARTICLES: Final = (["the"], ["your"], ["you"], ["a"])
COSTING: Final = frozenset("cost costs void voids mean means".split())
BECOMING: Final = frozenset(
    "get gets end ends start starts become becomes happen happens lose loses wind winds go goes".split()
)
RULED: Final = frozenset("let fill patch charge bill fix deduct ignore replace write take do forgive".split())
UP_TO: Final = (["up", "to"], ["as", "many"], ["the", "first"])


def is_of_a_kind(spoken: Spoken, clause: Clause) -> bool:
    """Whether a clause tells what becomes of flaws of a kind, wherever they are."""
    if _is_how(spoken, clause) or _is_what(spoken, clause) or _up_to_some(spoken, clause):
        return True
    flaw = _kind_of_flaw(spoken, clause)
    if flaw is None or spoken.has_cue("policy", within=clause):
        return False
    end = _end_of_statement(spoken, clause)
    verb = _verb_after(spoken, flaw.end, end)
    if verb is None:
        return False
    return _ruled_by_us(spoken, flaw, verb) or _becomes(spoken, verb, end)


def _end_of_statement(spoken: Spoken, clause: Clause) -> int:
    """Where a subject that is a clause of its own (`mold | that comes from ... is ...`) has its verb."""
    end = clause.end
    for later in spoken.clauses[clause.index + 1 : clause.index + 3]:
        opens = spoken.tokens[later.start]
        if (
            opens.tag in {"PRP", "EX"}
            or later.link not in {"", ","}
            or any(token.is_finite for token in spoken.tokens[clause.start : end])
        ):
            break
        end = later.end
    return end


def _kind_of_flaw(spoken: Spoken, clause: Clause) -> Mention | None:
    """The flaw in the subject of a clause that opens with no word that points or counts."""
    start = bare_start(spoken.tokens, clause)
    if spoken.norms(start, start + 2) == ["these", "days"]:
        start += 2
    flaw = next((one for one in spoken.terms("condition", within=clause) if one.start >= start), None)
    if flaw is None:
        return None
    lead = spoken.tokens[start : flaw.end]
    if any(token.norm in POINTING or token.is_finite or token.tag in {"CD", "PRP", "EX", "MD"} for token in lead):
        return None
    return flaw


def _verb_after(spoken: Spoken, start: int, end: int) -> int | None:
    """The verb of a subject; that of `mold that comes from ...` stands after the one of the aside."""
    for at in range(start, end):
        token = spoken.tokens[at]
        aside = at > start and spoken.tokens[at - 1].norm in {"that", "which", "who"}
        following = spoken.tokens[at + 1 : at + 3]
        priced = spoken.norms(at + 1, at + 2) in ARTICLES or any(one.tag in {"CD", "VBG"} for one in following)
        if (token.is_finite and not aside) or (token.norm in COSTING and priced):
            return at
    return None


def _ruled_by_us(spoken: Spoken, flaw: Mention, verb: int) -> bool:
    """`a hole smaller than that we let slide`."""
    ours = spoken.norms(verb - 1, verb) in (["we"], ["i"]) and spoken.tokens[verb].tag in {"VBP", "VB", "VBD"}
    return ours and spoken.tokens[verb].norm in RULED and verb - flaw.end > 1


def _becomes(spoken: Spoken, verb: int, end: int) -> bool:
    """Whether the verb, with what follows it, tells of a price, of who pays or of what such things do."""
    norm, after = spoken.tokens[verb].norm, _without_adverbs(spoken, verb + 1, end)
    if norm in COSTING:
        return True
    if norm in {"run", "runs"}:
        return after[:1] in (["you"], ["about"], ["around"], ["upwards"]) or _is_price(spoken, verb + 1, end)
    if norm in {"go", "goes", "come", "comes"}:
        return after[:2] in (["back", "to"], ["out", "of"], ["off", "the"], ["on", "the"], ["on", "your"])
    if norm in {"get", "gets"}:
        return bool(after) and after[0] in DONE_TO
    return norm in BEING and _is_so(spoken, after, verb, end)


def _is_so(spoken: Spoken, after: list[str], verb: int, end: int) -> bool:
    if not after:
        return False
    if after[0] == "not":
        return len(after) == 1 or bool(NOT_SO & set(after[1:3]))
    if after[0] in CHARGED | LASTS or after[:2] == ["for", "good"] or _is_price(spoken, verb + 1, end):
        return True
    if after[0] == "on" and after[1:2] in (["you"], ["them"], ["us"]):
        return True
    if after[0] in BAD_FOR and after[1:2] in (["on"], ["to"], ["for"], ["news"]):
        return True
    if after[0] in {"your", "their", "his", "her", "our", "my"}:
        return bool(BLAME & set(after[1:3]))
    return after[0] in {"a", "an"} and bool(BILLS & set(after[1:4]))


def _without_adverbs(spoken: Spoken, start: int, end: int) -> list[str]:
    """What follows a verb: `is always billed` as `is billed`."""
    at = start
    while at < end and spoken.tokens[at].tag == "RB" and spoken.tokens[at].norm not in {"not", "back", "forever"}:
        at += 1
    return spoken.norms(at, end)


def _is_price(spoken: Spoken, start: int, end: int) -> bool:
    """`four hundred to reglaze`, `thirty-five apiece`, `$40`; not `two inches long`."""
    at = start
    while at < end and spoken.tokens[at].norm in {"about", "around", "usually", "like", "all", "$", "a"}:
        at += 1
    first = at
    while at < end and (spoken.tokens[at].tag == "CD" or spoken.tokens[at].norm in {"-", "$", "hundred"}):
        at += 1
    if at == first:
        return False
    after = spoken.tokens[at].norm if at < end else ""
    return not after or (after in AFTER_PRICE and after not in UNITS)


def _is_how(spoken: Spoken, clause: Clause) -> bool:
    """`dragging it is how these floors end up gouged`, `a packed one is how you get a fire`; not `how it got there`."""
    norms = spoken.norms(clause.start, clause.end)
    how = next((at for at, norm in enumerate(norms) if norm == "how" and at and norms[at - 1] in {"is", "'s"}), None)
    if how is None and clause.index:
        before = spoken.clauses[clause.index - 1]
        how = -1 if spoken.norms(before.start, before.end)[-2:] in (["is", "how"], ["'s", "how"]) else None
    if how is None:
        return bool(_leads_to_how(spoken, clause))
    return any(
        norm in BECOMING and spoken.tokens[clause.start + how + 1 + at].tag in {"VBZ", "VBP", "VB"}
        for at, norm in enumerate(norms[how + 1 :])
    )


def _is_what(spoken: Spoken, clause: Clause) -> bool:
    """`grease is what ruins a kitchen`, `a cracked step is how my father broke his hip`, `you know what rots it`."""
    norms = spoken.norms(bare_start(spoken.tokens, clause), clause.end)
    if norms[:3] == ["you", "know", "what"]:
        return len(norms) > 3 and norms[3].endswith("s")
    subject = spoken.tokens[clause.end - len(norms) + 1 : clause.end - len(norms) + 2]
    if norms[:1] == ["what"] and norms[2:3] in (["do"], ["does"]) and subject[0].tag in {"NN", "NNS"}:
        return True  # what cracks do on such a wall is follow the steps
    asks = next(
        (at for at, norm in enumerate(norms) if norm in {"what", "how"} and at and norms[at - 1] in BEING), None
    )
    if asks is None or asks + 1 >= len(norms):
        return False
    first = [norm for norm in norms[: asks - 1] if norm not in {"i", "always", "say", "you", "know", "see"}][:1]
    if norms[asks] == "how":
        return first in (["a"], ["an"])
    verb = spoken.tokens[clause.end - len(norms) + asks + 1]
    return verb.tag in {"VBZ", "NNS"} and not set(first) & POINTING


def _leads_to_how(spoken: Spoken, clause: Clause) -> bool:
    """`a burner with a pot left on | is how you get a ...`: the subject, where the clause ends before its verb."""
    following = spoken.clauses[clause.index + 1 : clause.index + 2]
    opens = following and spoken.norms(following[0].start, following[0].start + 2) in (["is", "how"], ["'s", "how"])
    return bool(opens) and _is_how(spoken, following[0])


def _up_to_some(spoken: Spoken, clause: Clause) -> bool:
    """`up to ten nail holes I'll fill for nothing`: how many would be let pass."""
    start = bare_start(spoken.tokens, clause)
    if spoken.norms(start, start + 2) not in UP_TO or not spoken.has_term("condition", within=clause):
        return False
    rest = [*spoken.norms(start + 2, clause.end)]
    following = spoken.clauses[clause.index + 1 : clause.index + 2]
    rest += [norm for one in following for norm in spoken.norms(one.start, one.end)]
    return bool({"i", "we"} & set(rest))
