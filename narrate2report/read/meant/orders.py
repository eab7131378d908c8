"""Where a clause gives an order: `wipe it down`, `you don't use that one`, and what only looks like one."""

from __future__ import annotations

from narrate2report.read.lexis.phrase_tree import COMPONENT_ROLES
from narrate2report.read.speech.clauses import LEADING, Clause
from narrate2report.read.speech.spoken import Spoken

SELF_TALK = frozenset(
    "notice observe follow see look let listen say call guess hang hold wait give come thank thanks bear excuse sorry"
    " start hand move go make mark flip press push try hit turn open check show get got pull note watch welcome stop"
    " following okay compare count add test need have has be looks seems appears same hurry done run runs"
    " work ask tell call text ring email phone works lock locks light lights flush drain opens close latch"
    " ran took gave came went saw found held felt shook"
    " missing worn loose stained draw feel smell hear bump bill throw slide watch imagine picture"
    " hand bless god".split()
)


SAME_FORM = frozenset({"put", "cut", "set", "shut", "let"})
"""Verbs whose past looks like the order."""


OBJECTS = frozenset("the your it them this that these those".split())


def _acts_on(spoken: Spoken, at: int) -> bool:
    """`clean the tub regularly`: work that opens a clause, and its object."""
    opens = next((one for one in spoken.terms("action") if one.start == at), None)
    return opens is not None and bool(OBJECTS & set(spoken.norms(opens.end, opens.end + 1)))


def _goes_on_doing(spoken: Spoken, clause: Clause) -> bool:
    """`let me hit the reset and use the wrench`: the second half of what the speaker does."""
    if clause.link not in {"and", "then"} or not clause.index:
        return False
    before = spoken.clauses[clause.index - 1]
    begins = [norm for norm in spoken.norms(before.start, before.end) if norm not in LEADING]
    return begins[:2] in (["let", "me"], ["i", "will"], ["i", "am"]) or begins[:1] == ["i"]


def ordered_at(spoken: Spoken, clause: Clause) -> int | None:
    """Where the clause gives an order: it opens with a bare verb, `don't`, `never`, or `you wash them each month`."""
    tokens = spoken.tokens
    at = clause.start
    while at < clause.end and (tokens[at].norm in LEADING or not tokens[at].is_word):
        at += 1
    at = _after_the_time(spoken, clause, start := at)
    cares = at > start and set(spoken.norms(at, at + 1)) & (CARE_VERBS | {"leave", "open", "shut", "close", "turn"})
    if cares and OBJECTS & set(spoken.norms(at + 1, at + 2)):
        return at  # after a bath leave it running
    if spoken.norms(at, at + 1) == ["do"] and at + 1 < clause.end and tokens[at + 1].tag in {"VB", "VBP"}:
        at += 1
    if _is_no_order(spoken, clause, at) or _only_looks_so(spoken, clause, at):
        return None
    if _goes_on_telling(spoken, clause, at):
        return None
    if bans_something(spoken, clause, at) or _keeps_out(spoken, at):
        return at
    if at >= clause.end or any(cue.start == at for cue in spoken.cues("withdrawal", "slip", within=clause)):
        return None
    if any(cue.start == at for cue in spoken.cues("imperative", within=clause)):
        return None if _goes_on_doing(spoken, clause) else at
    if spoken.has_cue("often") and _acts_on(spoken, at):
        return at
    if at < clause.end and tokens[at].tag == "VB" and GENTLY & set(spoken.norms(at + 1, at + 7)):
        return at
    names = any(
        mention.start <= at < mention.end
        and (mention.of("room", *COMPONENT_ROLES) or (mention.of("condition") and mention.end - at > 1))
        for mention in spoken.found.terms
    )
    if names or at + 1 >= clause.end or _is_past_or_flaw(spoken, at):
        return None
    if _goes_on_doing(spoken, clause):
        return None
    token, after = tokens[at], tokens[at + 1]
    if token.norm == "you" and after.tag in {"VB", "VBP"} and spoken.has_cue("often"):
        return at
    if _is_told(spoken, clause, at):
        return at
    if token.norm in SELF_TALK:
        return at if spoken.has_cue("often") and token.tag == "VB" else None
    if token.tag == "VBG" or token.norm in {"going", "got"}:
        return None  # gonna swing by, gotta check
    does = any(mention.start == at for mention in spoken.terms("action"))
    past = token.tag in {"VBD", "VBN"} and token.norm not in SAME_FORM
    if token.tag == "VB" or (
        does and not past and after.norm in {"the", "your", "it", "them", "this", "that", "these", "those", "any"}
    ):
        return at
    return None


def _keeps_out(spoken: Spoken, at: int) -> bool:
    """`grease doesn't go down this drain`: what people bring is to stay out of something."""
    cue = next((one for one in spoken.cues("brought") if one.start == at), None)
    rest = spoken.norms(cue.end, cue.end + 4) if cue is not None else []
    return rest[:3] in (["do", "not", "go"], ["does", "not", "go"]) and rest[3:] in (["down"], ["in"], ["on"], ["into"])


CHATTER = frozenset("ask worry laugh judge panic".split())
MEASURED = frozenset("thick deep wide long high".split())


def _only_looks_so(spoken: Spoken, clause: Clause, at: int) -> bool:
    """`toilet, don't ask, it flushes`: said in passing. `grease an inch thick`: a noun, and how much of it."""
    norms = spoken.norms(at, clause.end)
    if norms[:2] == ["do", "not"] and len(norms) == len(("do", "not", "ask")):
        return norms[-1] in CHATTER
    flaw = any(term.start == at for term in spoken.terms("condition", within=clause))
    return flaw and norms[1:2] in (["a"], ["an"], ["half"]) and bool(MEASURED & set(norms))


def _after_the_time(spoken: Spoken, clause: Clause, at: int) -> int:
    """`after a shower leave it open`, `in the winter do open them`: an order begins behind the time that it is for."""
    timed = next((cue for cue in spoken.cues("often", within=clause) if cue.start == at and cue.end - at > 1), None)
    if timed is None:
        return at
    at = timed.end
    while at < clause.end - 1 and (spoken.tokens[at].norm in LEADING or not spoken.tokens[at].is_word):
        at += 1
    return at


GENTLY = frozenset("gently carefully slowly softly lightly sparingly".split())
"""How a thing is to be used, where a bare verb says so."""


def _is_no_order(spoken: Spoken, clause: Clause, at: int) -> bool:
    """`always is in October`, `let me hit the reset and use the wrench`: no order though it looks so."""
    tokens = spoken.tokens
    if at + 1 >= clause.end:
        return False
    told = tokens[at + 1].tag in {"VBZ", "VBD", "VBN", "MD"} and tokens[at + 1].norm not in SAME_FORM
    goes_on = bool(clause.index) and clause.link in {"and", "but"} and not spoken.has_cue("addressee")
    told = told or (goes_on and tokens[at + 1].tag == "NNS")  # the igniter ticks and never lights
    if tokens[at].norm in {"always", "never"} and (told or _is_tag(spoken, clause, at)):
        return True
    if clause.link != "and" or not clause.index or tokens[at].norm in {"do", "never", "always"}:
        return False
    earlier = spoken.clauses[clause.index - 1]
    if spoken.norms(earlier.end - 1, earlier.end) == ["gone"]:
        return True  # the handle's gone and put a hole in the wall
    asked = spoken.has_cue("addressee", "instruction", "imperative", within=earlier)
    asked = asked or spoken.has_cue("addressee", within=clause)
    return spoken.has_cue("future", within=earlier) and not asked


def _is_tag(spoken: Spoken, clause: Clause, at: int) -> bool:
    """`I don't charge for those, never have`: what was said once more, and no order."""
    tags = {"have", "has", "had", "did", "do", "does", "will", "would", "am", "is", "was", "were"}
    return at + 2 == clause.end and spoken.tokens[at + 1].norm in tags


def _goes_on_telling(spoken: Spoken, clause: Clause, at: int) -> bool:
    """`both taps run and don't drip`, `they open but don't latch`: the second half of what several things do."""
    if clause.link not in {"and", "but"} or not clause.index or spoken.norms(at, at + 2) != ["do", "not"]:
        return False
    before = spoken.clauses[clause.index - 1]
    if "you" in spoken.norms(before.start, before.end) or spoken.has_cue("addressee", "instruction", within=before):
        return False
    several = any(
        spoken.tokens[one.end - 1].tag == "NNS" or spoken.norms(one.start, one.end)[-1].endswith("s")
        for one in spoken.named_terms(before)
    )
    several = several or bool({"they", "these", "those", "both", "all"} & set(spoken.norms(before.start, before.end)))
    tells = spoken.has_term("works", "condition", within=before) or spoken.has_cue("operates", within=before)
    return several and tells


CARE_VERBS = frozenset(
    "use keep clean mow cut change wipe wash empty replace sweep shovel rinse descale defrost vacuum water".split()
)

YOU_ALL = frozenset("you folks guys all both two just only always not do n't".split())


def _is_told(spoken: Spoken, clause: Clause, at: int) -> bool:
    """`you don't use it`, `you folks mow your side`, `you put it on three`: said as a rule for the resident."""
    tokens = spoken.tokens
    if tokens[at].norm != "you" or clause.link in {
        "if",
        "when",
        "because",
        "that",
        "which",
        "where",
        "whenever",
        "before",
    }:
        return False
    verb = at + 1
    while verb < clause.end and tokens[verb].norm in YOU_ALL:
        verb += 1
    if verb + 1 >= clause.end or tokens[verb].tag not in {"VB", "VBP", "NN"}:
        return False
    sets = tokens[verb].norm in {"put", "set", "take"} and tokens[verb + 1].norm in {"it", "them", "out"}
    return tokens[verb].norm in CARE_VERBS or sets


def _is_past_or_flaw(spoken: Spoken, at: int) -> bool:
    """`pushed the button`, `cobwebs up on the ceiling`, `burn mark on the vinyl`: past verbs and flaws, which the
    tagger takes for bare verbs where they open a sentence."""
    tokens = spoken.tokens
    if tokens[at].norm.endswith("ed") and any(cue.start == at for cue in spoken.cues("trial")):
        return True
    flaw = next((term for term in spoken.terms("condition") if term.start == at), None)
    if flaw is None or not any(sense.form == "noun" for sense in flaw.of("condition")):
        return False
    return flaw.end - at > 1 or (flaw.end < len(tokens) and tokens[flaw.end].tag in {"IN", "RP", "RB"})


def forbidden_row(spoken: Spoken) -> list[Clause]:
    """`no bones, no grease, no rice`: of things in a row that are to stay out, one at least is no flaw of a home."""
    row = [
        clause
        for clause in spoken.clauses
        if spoken.norms(clause.start, clause.end)[:1] == ["no"]
        and 1 < clause.end - clause.start <= 3
        and not any(spoken.tokens[at].is_finite for at in range(clause.start, clause.end))
    ]
    known = [clause for clause in row if spoken.has_term("condition", *COMPONENT_ROLES, within=clause)]
    ruled = len(row) > 2 or spoken.has_cue("instruction", "imperative", "brought") or "down" in spoken.norms()
    return row if len(row) > 1 and ruled and len(known) < len(row) and not spoken.has_cue("found_none") else []


def bans_something(spoken: Spoken, clause: Clause, at: int) -> bool:
    """`no shoes on the carpet`, `no stickers on the cabinets, please`: what people bring is to stay off something.

    Where the thing would be a flaw, only a `please` tells the rule from the finding that there is none.
    """
    if spoken.norms(at, at + 1) != ["no"] or any(token.is_finite for token in spoken.tokens[at : clause.end]):
        return False
    brought = next((cue for cue in spoken.cues("brought", within=clause) if at < cue.start <= at + 2), None)
    if brought is None or brought.end >= clause.end or spoken.tokens[brought.end].tag not in {"IN", "TO", "RP"}:
        return False
    flaw = any(term.start < brought.end and term.end > brought.start for term in spoken.terms("condition"))
    return not flaw or "please" in spoken.norms()
