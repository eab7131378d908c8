"""What a clause hands on to the next one: how long an order, a rule or a memory goes on."""

from __future__ import annotations

from narrate2report.read.lexis.phrase_tree import COMPONENT_ROLES
from narrate2report.read.meant.hearsay import admits
from narrate2report.read.speech.clauses import LEADING, Clause
from narrate2report.read.speech.modes import PLAIN, Mode, Stance
from narrate2report.read.speech.spoken import Spoken

OPENERS = (
    ("there", "is"), ("there", "'s"), ("there", "are"), ("i", "see"), ("we", "have"), ("it", "is"), ("it", "'s"),
    ("i", "have"), ("this", "is"), ("this", "one"), ("that", "is"), ("that", "'s"), ("they", "are"), ("it", "has"),
    ("here", "is"), ("here", "'s"), ("you", "have"), ("has", "a"), ("i", "can"), ("and", "it"), ("looks", "like"),
    ("it", "did"), ("it", "does"), ("it", "would"),
)  # fmt: skip

SEES = (
    ("there", "is"),
    ("there", "'s"),
    ("there", "are"),
    ("i", "see"),
    ("i", "found"),
    ("we", "have"),
    ("i", "can"),
    ("here", "is"),
    ("here", "'s"),
    ("i", "do"),
)

ALLOWED = frozenset("fine okay ok allowed permitted".split())
LONGEST = 5
"""Words of a clause that only says what else is allowed."""

NOT_FOUND = (["missing"], ["gone"], ["not", "there"], ["none"])
"""`anti-tip bracket, looked for it, missing`: what came of a search."""

BACK_TO_NOW = frozenset({"but", "though", "although", "now"})


ARE_NOW = frozenset("look are feel seem sit hold work run open close still".split())

TIMES = frozenset("morning week month year time spring summer fall winter".split())


def carried_into(spoken: Spoken, clause: Clause, carried: Stance) -> Stance:
    """What the clause before still means for this one."""
    norms = [norm for norm in spoken.norms(clause.start, clause.end) if norm not in LEADING]
    opens = any(tuple(norms[at : at + 2]) in OPENERS for at in range(2))
    match carried.mode:
        case Mode.PAST:
            mended = spoken.has_cue("repaired_since", within=clause)
            present = any(_is_present(spoken, at, clause) for at in range(clause.start, clause.end))
            present = present or norms[:2] in (["they", "have"], ["it", "tested"], ["they", "tested"])
            present = present or _are_now(spoken, clause)
            now = clause.link in BACK_TO_NOW or {"now", "still"} & set(norms) or present or mended
            return PLAIN if now else carried
        case Mode.ELSEWHERE:
            here = {"here", "now", "this"} & set(norms)
            points = norms[:1] in (["this"], ["these"], ["ours"], ["here"]) and not TIMES & set(norms[1:2])
            return PLAIN if points or (clause.link in BACK_TO_NOW and here) else carried
        case Mode.INSTRUCTION:
            own_doing = bool(norms) and norms[0] in {"i", "we"}
            if norms[-1:] and norms[-1] in ALLOWED and norms[-2:-1] in (["are"], ["is"]) and len(norms) <= LONGEST:
                return carried  # no nails in the walls, sticky hooks are fine
            told = own_doing or clause.link == "..." or _answers(spoken, clause) or states(spoken, clause)
            return PLAIN if told else carried
        case Mode.SEARCH:
            sees = any(tuple(norms[at : at + 2]) in SEES for at in range(2))
            named = states(spoken, clause) and bool(spoken.named_terms(clause))
            return (
                PLAIN
                if sees
                or named
                or norms[:2] in (["this", "one"], ["here", "are"])
                or spoken.has_cue("found_none", within=clause)
                or norms in NOT_FOUND
                else carried
            )
        case Mode.QUOTED if admits(spoken, clause):
            return PLAIN
        case Mode.HYPOTHETICAL | Mode.POLICY | Mode.QUOTED:
            now = clause.link in {"but", "because"} and (opens or "now" in norms)
            return PLAIN if now or (clause.link == "but" and states(spoken, clause)) else carried
    return PLAIN


def _is_present(spoken: Spoken, at: int, clause: Clause) -> bool:
    """A verb of now: `the cabinet's swollen` has one too, though its 's may be taken for an owner's."""
    token = spoken.tokens[at]
    state = token.tag == "POS" and at + 1 < clause.end and spoken.tokens[at + 1].tag in {"VBN", "RB", "JJ"}
    named = state and any(one.start == at + 1 for one in spoken.terms("condition"))
    return token.tag == "VBZ" or named


def _are_now(spoken: Spoken, clause: Clause) -> bool:
    """`I painted these boards in April, they look good`: what several things are like is told of today."""
    start = clause.start + (spoken.norms(clause.start, clause.start + 1) in (["and"], ["but"], ["so"]))
    several, verb = spoken.norms(start, start + 1), spoken.norms(start + 1, start + 2)
    return several in (["they"], ["these"], ["those"]) and set(verb) <= ARE_NOW and len(verb) == 1


def _answers(spoken: Spoken, clause: Clause) -> bool:
    """`press it again, nothing`: what a thing answered is told by the one who presses."""
    bare = (clause.start, clause.end)
    return any((cue.start, cue.end) == bare for cue in spoken.cues("no_response", "response", within=clause))


def is_seen(spoken: Spoken, clause: Clause) -> bool:
    """`you can see the rail is loose`."""
    norms = [norm for norm in spoken.norms(clause.start, clause.end) if norm not in {*LEADING, "can"}]
    return norms[:1] in (["you"], ["i"], ["we"]) and norms[1:2] in (["see"], ["notice"], ["find"], ["get"])


def states(spoken: Spoken, clause: Clause) -> bool:
    """Whether the clause has its own subject and a plain present verb: `the rail is loose`, `there's a chip`."""
    tokens = spoken.tokens
    if clause.link in {"because", "so", "or"} or any(tokens[at].tag == "MD" for at in range(clause.start, clause.end)):
        return False
    starts = {mention.start for mention in spoken.terms(*COMPONENT_ROLES)}
    for at in range(clause.start + 1, clause.end):
        if tokens[at].norm in {"is", "'s", "are", "has", "have", "looks", "works", "needs"}:
            return any(
                here in starts or tokens[here].norm in {"it", "there", "this", "they", "these", "one"}
                for here in range(clause.start, at)
            )
    return False
