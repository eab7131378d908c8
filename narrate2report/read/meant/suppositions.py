"""What would be and what is a rule: `a hot pan would leave a mark`, `small holes are fine`."""

from __future__ import annotations

from typing import Final

from narrate2report.read.meant.generalities import is_general
from narrate2report.read.speech.clauses import LEADING, Clause, bare_start
from narrate2report.read.speech.spoken import Spoken

JUDGED_AS = frozenset("wear damage normal chargeable billable expected".split())


def allows(spoken: Spoken, clause: Clause) -> bool:
    """`small nail holes are fine`, `a hairline crack is wear`: what counts as sound or as wear is a rule, and no
    flaw of this place."""
    flaw = next(iter(spoken.terms("condition", within=clause)), None)
    if flaw is None or flaw.of("component") or spoken.norms(flaw.end, flaw.end + 1) not in (["is"], ["are"]):
        return False
    lead = spoken.tokens[clause.start : flaw.start]
    if any(token.tag not in {"JJ", "RB", "JJR"} and token.norm not in {*LEADING, "a", "an"} for token in lead):
        return False
    if set(spoken.norms(flaw.end + 1, clause.end)) & JUDGED_AS:
        return True
    praised = [term for term in spoken.found.terms if term.start in range(flaw.end + 1, clause.end)]
    general = spoken.tokens[flaw.end - 1].tag == "NNS" or {"a", "an", "one"} & set(
        spoken.norms(clause.start, flaw.start)
    )
    return bool(general) and any(sense.id == "good" for term in praised for sense in term.of("condition"))


def supposed_at(spoken: Spoken, clause: Clause) -> int | None:
    """`a hot pan would leave a mark`, `when the filter gets greasy you should wash it`: what would be."""
    tokens = spoken.tokens
    for at in range(clause.start, clause.end - 1):
        if tokens[at].norm in {"would", "'d"} and tokens[at + 1].tag == "VB" and tokens[at + 1].norm not in OWN_VIEW:
            advises = at > clause.start and tokens[at - 1].norm in {"i", "we"} and tokens[at + 1].norm in OWN_PLAN
            if any(cue.start <= at < cue.end for cue in spoken.cues("instruction", within=clause)):
                return None  # ideally you'd descale it every few months
            where = "where" in spoken.norms(clause.start, at)
            return None if where or advises else clause.start
        if tokens[at].norm in {"could", "would", "should"} and tokens[at + 1].norm in {"have", "'ve"}:
            return clause.start
    if (
        _imagines(spoken, clause)
        or _speaks_of_any(spoken, clause)
        or _supposes(spoken, clause)
        or _says_what(spoken, clause)
    ):
        return clause.start
    if is_general(spoken, clause):
        return clause.start
    told = spoken.has_cue("addressee", "instruction", "imperative")
    last = clause.index == len(spoken.clauses) - 1 and clause.index > 0
    if last and clause.link in {"when", "whenever"} and spoken.norms(clause.start + 1, clause.start + 3) in WHENEVER:
        return clause.start
    past = any(tokens[at].tag == "VBD" for at in range(clause.start, clause.end))
    if clause.link in {"when", "whenever"} and told and not past and "is" not in spoken.norms(clause.start, clause.end):
        return clause.start
    return None


SENSED = frozenset("fall trip hurt cut see feel hear tell notice smell find still even just".split())
MISHAPS = frozenset("smell lose break drop spill burn crack clog scratch stain dent chip move want hear".split())
TAKES_OFF = frozenset("take pull remove disconnect cover unplug forget leave disable block paint touch".split())


def _supposes(spoken: Spoken, clause: Clause) -> bool:
    """`you smell gas, get out`, `you lose a key, that's a new lock`, `shut it, or it bangs`: an `if` left out."""
    tokens, norms = spoken.tokens, spoken.norms(clause.start, clause.end)
    if clause.link == "or" and norms[1:2] in (["it"], ["they"]) and len(norms) > 2:
        verb = tokens[clause.start + 2]
        return verb.tag in {"VBZ", "VBP"} and verb.norm not in {"is", "'s", "are", "has"}
    bare = [norm for norm in norms if norm not in LEADING]
    if bare[:1] in (["any"], ["every"]) and _opens_with_flaw(spoken, clause):
        return True
    if norms[:2] in (["you", "can"], ["you", "could"]) and norms[2:3] != ["not"]:
        acts = next((norm for norm in norms[2:] if not norm.endswith("ly") and norm != "also"), None)
        measures = norms[1] == "could" and acts in {"put", "fit", "stick", "drive"}  # a hole you could put a fist in
        if acts is not None and acts not in SENSED and not measures:
            return True
    following = spoken.clauses[clause.index + 1 : clause.index + 2]
    costs = any(spoken.norms(one.start, one.start + 3)[1:] in (["is", "a"], ["'s", "a"]) for one in following)
    if bare[:1] != ["you"] or len(bare) < 3 or bare[1] not in (MISHAPS | TAKES_OFF if costs else MISHAPS):
        return False
    return bool(following) and following[0].link == "," and not spoken.ends_with_question()


AS_SOON: Final = (
    ("as", "soon", "as"), ("the", "minute"), ("the", "moment"), ("the", "second"), ("the", "day"), ("the", "instant"),
    ("the", "first", "time"), ("next", "time"), ("every", "time"), ("any", "time"), ("the", "first", "sign"),
)  # fmt: skip
ENTERS: Final = frozenset("walk come step open enter get look sit turn".split())


def _imagines(spoken: Spoken, clause: Clause) -> bool:
    """`say the tub backs up`, `had there been mice I'd know`, `worst case it leaks`, `the minute you see a roach`."""
    start = bare_start(spoken.tokens, clause)
    norms = spoken.norms(start, clause.end)
    if norms[:1] == ["say"] and norms[1:2] and spoken.tokens[start + 1].tag in {"DT", "PRP", "EX"}:
        return len(spoken.clauses) > 1 and norms[1] not in {"this", "that"}
    if norms[:2] in (["worst", "case"], ["god", "forbid"], ["heaven", "forbid"]):
        return True
    if norms[:1] in (["had"], ["were"]) and norms[1:2] and not spoken.ends_with_question():
        told = norms[:2] in (["had", "a"], ["had", "another"])  # had a good look
        anyone = norms[1] in {"anyone", "anybody", "someone", "somebody"}
        return (anyone or spoken.tokens[start + 1].tag in {"EX", "PRP", "DT"}) and start == clause.start and not told
    opens = any(tuple(norms[: len(words)]) == words for words in AS_SOON) or _was_opened(spoken, clause)
    if not opens or any(token.tag == "VBD" for token in spoken.tokens[clause.start : clause.end]):
        return False
    asked = spoken.has_cue("contact", "instruction", "imperative")
    return asked and spoken.has_term("condition", within=clause) and not ENTERS & set(norms)


def _was_opened(spoken: Spoken, clause: Clause) -> bool:
    """`the minute | you see a roach`: where the words that open it are a clause of their own."""
    before = spoken.clauses[clause.index - 1] if clause.index else None
    return before is not None and tuple(spoken.norms(before.start, before.end)) in AS_SOON


def _says_what(spoken: Spoken, clause: Clause) -> bool:
    """`I say what is good and what is not good`: what will be told, and nothing told yet."""
    norms = spoken.norms(clause.start, clause.end)
    if "what" not in norms or spoken.named_terms(clause):
        return False
    after = norms[norms.index("what") + 1 :]
    told = [norm for norm in after[1:] if norm not in {"not", "already", "still"}]
    flaw = any(term.end == clause.end for term in spoken.terms("condition"))
    return after[:1] in (["is"], ["'s"], ["are"]) and flaw and 0 < len(told) <= 2


def _opens_with_flaw(spoken: Spoken, clause: Clause) -> bool:
    """`any scratch goes on your sheet`: the flaw right after the word that makes it general."""
    return any(term.start - clause.start <= 2 for term in spoken.terms("condition", within=clause))


def _speaks_of_any(spoken: Spoken, clause: Clause) -> bool:
    """`an anchor leaves a hole`: what any such thing does, after `because`, `so` or a rule."""
    norms = spoken.norms(clause.start, clause.end)
    if norms[:1] in (["a"], ["an"]) and norms[2:4] == ["one", "is"]:
        return True  # a clogged one is how fires start
    for at in range(clause.start + 2, min(clause.end - 1, clause.start + 5)):
        acts = spoken.tokens[at].tag == "VBZ" and spoken.tokens[at].norm not in {"is", "'s", "has", "needs", "wants"}
        general = spoken.norms(clause.start, clause.start + 1) in (["a"], ["an"]) or norms[1:2] in (["a"], ["an"])
        if acts and general and spoken.tokens[at + 1].norm in {"the", "your", "this", "these", "a"}:
            return True  # a wet rug rots the boards
    if clause.link not in {"because", "so", "if", "when"}:
        return False
    lead = [at for at in range(clause.start, clause.end) if spoken.tokens[at].norm in {"a", "an"}][:1]
    return (
        bool(lead)
        and lead[0] - clause.start <= 1
        and any(
            spoken.tokens[at].tag == "VBZ" and spoken.tokens[at].norm not in {"is", "'s", "has"}
            for at in range(lead[0] + 2, min(clause.end, lead[0] + 5))
        )
    )


WHENEVER = (["it", "is"], ["it", "'s"])
"""`the heater works when it's cold`: the weather, and nothing of the heater."""

OWN_PLAN = frozenset("get have want send replace".split())
"""`I'd get somebody to look at that`, `I'd want that fixed`: what the speaker thinks is to be done."""

OWN_VIEW = frozenset(
    "avoid recommend suggest appreciate ask prefer advise say call guess bet note put describe like love think"
    " estimate".split()
)
