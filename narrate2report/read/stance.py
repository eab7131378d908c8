"""How a stretch of a sentence is meant: said of this place now, or only talked about.

In the manner of NegEx and ConText (Chapman et al. 2001; Harkema et al. 2009): cue words with a reach.
Each token gets exactly one mode, with the words that decided it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum

from narrate2report.read.clauses import Clause
from narrate2report.read.phrasebook import COMPONENT_ROLES
from narrate2report.read.spoken import Spoken


class Mode(Enum):
    """What a stretch of speech is: only ASSERTED says that something is so."""

    ASSERTED = "said of this place now"
    HYPOTHETICAL = "what would be, not what is"
    SEARCH = "looked for, not found"
    INSTRUCTION = "said to the resident"
    POLICY = "about charges or rules"
    PAST = "about another time"
    ELSEWHERE = "about another place"
    QUOTED = "somebody's words"
    QUESTION = "asked, not said"
    FUTURE = "work to come"


@dataclass(frozen=True)
class Stance:
    """The mode of a token and the words that decided it (empty for ASSERTED)."""

    mode: Mode
    cue: str = ""


PLAIN = Stance(Mode.ASSERTED)

LEADING = frozenset(
    "and so only just then also now okay ok well but or please kindly again yes oh right alright look um uh"
    " plus then".split()
)
SELF_TALK = frozenset(
    "see look let listen say call guess hang hold wait give come thank thanks bear excuse sorry start"
    " hand move go make mark flip press push try hit turn open check show get got pull note watch welcome stop"
    " following okay compare count add test need have has be looks seems appears same hurry done run runs"
    " work ask tell call text ring email phone works lock locks light lights flush drain opens close latch"
    " missing worn loose stained draw feel smell hear bump bill throw slide watch imagine picture"
    " hand bless god".split()
)
AUXILIARIES = frozenset("is are was were does do did has have can could will would should am".split())
SUBJECTS = frozenset(
    "that this it these those there you i they we he she the a any anything anybody anyone your".split()
)
OPENERS = (
    ("there", "is"), ("there", "'s"), ("there", "are"), ("i", "see"), ("we", "have"), ("it", "is"), ("it", "'s"),
    ("i", "have"), ("this", "is"), ("this", "one"), ("that", "is"), ("that", "'s"), ("they", "are"), ("it", "has"),
    ("here", "is"), ("here", "'s"), ("you", "have"), ("has", "a"), ("i", "can"), ("and", "it"), ("looks", "like"),
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
JUDGED_AS = frozenset("wear damage normal chargeable billable expected".split())
BACK_TO_NOW = frozenset({"but", "though", "although", "now"})

CUE_MODES = (
    ("quotation", Mode.QUOTED),
    ("condition", Mode.HYPOTHETICAL),
    ("policy", Mode.POLICY),
    ("search", Mode.SEARCH),
    ("instruction", Mode.INSTRUCTION),
    ("elsewhere", Mode.ELSEWHERE),
    ("past", Mode.PAST),
)


def read_stances(spoken: Spoken) -> tuple[Stance, ...]:
    """The stance of every token of a sentence."""
    stances = [PLAIN] * len(spoken.tokens)
    carried = PLAIN
    for clause in spoken.clauses:
        carried = _carried_into(spoken, clause, carried)
        own_start, own = _own_stance(spoken, clause)
        for at in range(clause.start, clause.end):
            stances[at] = own if own.mode is not Mode.ASSERTED and at >= own_start else carried
        listing = own.mode is Mode.SEARCH and own.cue.lower() in LISTING
        ruled = own.mode is Mode.POLICY or (own.mode is Mode.HYPOTHETICAL and clause.link == ":")
        if listing or (ruled and not _is_waived(spoken, clause)):
            _reach_back(spoken, clause, own, stances, listing=listing)
        if own.mode is Mode.QUOTED and own_start == clause.start and clause.end - clause.start <= 2:
            for at in range(clause.start):
                stances[at] = stances[at] if stances[at].mode is not Mode.ASSERTED else own
        if own.mode is not Mode.ASSERTED:
            passing = own.mode in {Mode.QUESTION, Mode.FUTURE} or _tries_whether(spoken, own_start)
            carried = carried if passing else own
    for clause in _forbidden_row(spoken):
        for at in range(clause.start, clause.end):
            if stances[at].mode is Mode.ASSERTED:
                stances[at] = Stance(Mode.INSTRUCTION, spoken.words(clause.start, clause.end))
    liable = next(spoken.cues("liability"), None)
    if liable is not None:
        charged = Stance(Mode.POLICY, spoken.words(liable.start, liable.end))
        for clause in spoken.clauses:
            if spoken.has_term("condition", within=clause):
                for at in range(clause.start, clause.end):
                    stances[at] = charged if stances[at].mode is Mode.ASSERTED else stances[at]
    return tuple(stances)


def _forbidden_row(spoken: Spoken) -> list[Clause]:
    """`no bones, no grease, no rice`: of things in a row that are to stay out, one at least is no flaw of a home."""
    row = [
        clause
        for clause in spoken.clauses
        if spoken.norms(clause.start, clause.end)[:1] == ["no"]
        and 1 < clause.end - clause.start <= 3
        and not any(spoken.tokens[at].is_finite for at in range(clause.start, clause.end))
    ]
    known = [clause for clause in row if spoken.has_term("condition", *COMPONENT_ROLES, within=clause)]
    ruled = len(row) > 2 or spoken.has_cue("instruction", "imperative") or "down" in spoken.norms()
    return row if len(row) > 1 and ruled and len(known) < len(row) and not spoken.has_cue("found_none") else []


SEARCHING = frozenset(
    "check checking checks checked look looking looked search searching inspecting scanning examining".split()
)

LISTING = frozenset({"that sort of thing", "that kind of thing", "anything like that", "things like"})
"""Words that end a list of examples."""


def _is_waived(spoken: Spoken, clause: Clause) -> bool:
    """`nothing I'd charge for`: a judgement on what was just seen, which stays seen."""
    if spoken.norms(clause.start, clause.end)[:2] == ["no", "charge"]:
        return False
    own = {at for cue in spoken.cues("policy", within=clause) for at in range(cue.start, cue.end)}
    return any(cue.start not in own for cue in spoken.cues("negation", "not_negation", within=clause))


def _carried_into(spoken: Spoken, clause: Clause, carried: Stance) -> Stance:
    """What the clause before still means for this one."""
    norms = [norm for norm in spoken.norms(clause.start, clause.end) if norm not in LEADING]
    opens = any(tuple(norms[at : at + 2]) in OPENERS for at in range(2))
    match carried.mode:
        case Mode.PAST:
            mended = spoken.has_cue("repaired_since", within=clause)
            present = any(spoken.tokens[at].tag == "VBZ" for at in range(clause.start, clause.end))
            now = clause.link in BACK_TO_NOW or "now" in norms or present or mended
            return PLAIN if now else carried
        case Mode.ELSEWHERE:
            here = {"here", "now", "this"} & set(norms)
            return PLAIN if clause.link in BACK_TO_NOW and here else carried
        case Mode.INSTRUCTION:
            own_doing = bool(norms) and norms[0] in {"i", "we"}
            return PLAIN if own_doing or clause.link == "..." or _states(spoken, clause) else carried
        case Mode.SEARCH:
            sees = any(tuple(norms[at : at + 2]) in SEES for at in range(2))
            named = _states(spoken, clause) and bool(spoken.named_terms(clause))
            return PLAIN if sees or named or spoken.has_cue("found_none", within=clause) else carried
        case Mode.HYPOTHETICAL | Mode.POLICY | Mode.QUOTED:
            now = clause.link in {"but", "because"} and (opens or "now" in norms)
            return PLAIN if now else carried
    return PLAIN


def _tries_whether(spoken: Spoken, at: int) -> bool:
    """`let me see if I can snap it back`, `if I can reach it`: the `if` of a trial, which ends with its clause."""
    if spoken.tokens[at].norm != "if":
        return False
    asked = at > 0 and spoken.tokens[at - 1].norm in {"see", "check", "tell", "know", "ask"}
    return asked or spoken.norms(at + 1, at + 3) in (["i", "can"], ["we", "can"], ["i", "could"])


def _states(spoken: Spoken, clause: Clause) -> bool:
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


def _own_stance(spoken: Spoken, clause: Clause) -> tuple[int, Stance]:
    """The first cue of the clause that changes how it is meant, and where it starts."""
    if _asks(spoken, clause):
        return clause.start, Stance(
            Mode.QUESTION,
            "?" if spoken.ends_with_question() else spoken.words(clause.start, clause.start + 2),
        )
    best: tuple[int, Stance] | None = None
    if _was_mended(spoken, clause):
        best = clause.start, Stance(Mode.PAST, spoken.words(clause.start, clause.end))
    supposed = _supposed_at(spoken, clause)
    if supposed is not None:
        best = supposed, Stance(Mode.HYPOTHETICAL, spoken.words(supposed, supposed + 1))
    looking = clause.start if _looks_whether(spoken, clause) else _looks_for(spoken, clause)
    if looking is not None and (best is None or looking <= best[0]):
        best = looking, Stance(Mode.SEARCH, spoken.words(looking, looking + 1))
    for kind, mode in CUE_MODES:
        for cue in spoken.cues(kind, within=clause):
            if mode is Mode.QUOTED and _speaker_means_it(spoken, cue.start):
                continue
            if mode is Mode.ELSEWHERE and spoken.norms(max(0, cue.start - 1), cue.start) in (
                ["as"],
                ["than"],
                ["like"],
            ):
                continue
            if mode is Mode.HYPOTHETICAL and _is_plan(spoken, cue.start, cue.end):
                continue
            if mode is Mode.INSTRUCTION and _is_own_deed(spoken, clause, cue.start):
                continue
            if mode is Mode.ELSEWHERE and spoken.norms(cue.start - 1, cue.start) == ["you"]:
                continue
            if mode is Mode.PAST and "always" in spoken.norms(clause.start, cue.start):
                continue
            if mode is Mode.INSTRUCTION and _only_tells(spoken, cue.start, cue.end):
                continue
            reach = _reach_start(spoken, clause, mode, cue.start, cue.end)
            if best is None or reach < best[0]:
                best = reach, Stance(mode, spoken.words(cue.start, cue.end))
            break
    ordered = _ordered_at(spoken, clause)
    if ordered is not None and (best is None or ordered <= best[0]):
        best = ordered, Stance(Mode.INSTRUCTION, spoken.words(ordered, ordered + 1))
    future = _future_at(spoken, clause)
    if future is not None and best is None:
        best = future, Stance(Mode.FUTURE, spoken.words(future, future + 1))
    if best is None and _allows(spoken, clause):
        return clause.start, Stance(Mode.POLICY, spoken.words(clause.start, clause.end))
    return best or (clause.start, PLAIN)


def _was_mended(spoken: Spoken, clause: Clause) -> bool:
    """`the drain was blocked, it was cleaned on Saturday`: a flaw that was, and what was done about it."""
    finite = {token.norm for token in spoken.tokens[clause.start : clause.end] if token.is_finite}
    if not finite or not finite <= {"was", "were", "had"} or not spoken.has_term("condition", within=clause):
        return False
    return any(
        spoken.has_cue("repaired_since", within=later) for later in spoken.clauses[clause.index + 1 : clause.index + 3]
    )


def _is_own_deed(spoken: Spoken, clause: Clause, at: int) -> bool:
    """`I put the fan in`, `the entry report it says`: a bare verb gives an order only where nobody stands before it."""
    if spoken.tokens[at].norm not in BARE_VERBS:
        return False
    before = [norm for norm in spoken.norms(clause.start, at) if norm not in LEADING]
    return bool(before) and before[-1] not in {"to", "you", "not", "n't", "do", "never", "always"}


BARE_VERBS = frozenset("put use let report call text email ring phone tell give".split())


def _allows(spoken: Spoken, clause: Clause) -> bool:
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
    return spoken.tokens[flaw.end - 1].tag == "NNS" and any(
        sense.id == "good" for term in praised for sense in term.of("condition")
    )


def _supposed_at(spoken: Spoken, clause: Clause) -> int | None:
    """`a hot pan would leave a mark`, `when the filter gets greasy you should wash it`: what would be."""
    tokens = spoken.tokens
    for at in range(clause.start, clause.end - 1):
        if tokens[at].norm in {"would", "'d"} and tokens[at + 1].tag == "VB" and tokens[at + 1].norm not in OWN_VIEW:
            advises = at > clause.start and tokens[at - 1].norm in {"i", "we"} and tokens[at + 1].norm in OWN_PLAN
            where = "where" in spoken.norms(clause.start, at)
            return None if where or advises else clause.start
        if tokens[at].norm in {"could", "would", "should"} and tokens[at + 1].norm in {"have", "'ve"}:
            return clause.start
    if _speaks_of_any(spoken, clause) or _supposes(spoken, clause):
        return clause.start
    told = spoken.has_cue("addressee", "instruction", "imperative")
    last = clause.index == len(spoken.clauses) - 1 and clause.index > 0
    if last and clause.link in {"when", "whenever"} and spoken.norms(clause.start + 1, clause.start + 3) in WHENEVER:
        return clause.start
    past = any(tokens[at].tag == "VBD" for at in range(clause.start, clause.end))
    if clause.link in {"when", "whenever"} and told and not past and "is" not in spoken.norms(clause.start, clause.end):
        return clause.start
    return None


MISHAPS = frozenset("smell lose break drop spill burn crack clog scratch stain dent chip move want hear".split())


def _supposes(spoken: Spoken, clause: Clause) -> bool:
    """`you smell gas, get out`, `you lose a key, that's a new lock`, `shut it, or it bangs`: an `if` left out."""
    tokens, norms = spoken.tokens, spoken.norms(clause.start, clause.end)
    if clause.link == "or" and norms[1:2] in (["it"], ["they"]) and len(norms) > 2:
        verb = tokens[clause.start + 2]
        return verb.tag in {"VBZ", "VBP"} and verb.norm not in {"is", "'s", "are", "has"}
    if norms[:1] != ["you"] or len(norms) < 3 or norms[1] not in MISHAPS:
        return False
    following = spoken.clauses[clause.index + 1 : clause.index + 2]
    return bool(following) and following[0].link == "," and not spoken.ends_with_question()


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

OWN_VIEW = frozenset("say call guess bet note put describe like love think estimate".split())


def _looks_for(spoken: Spoken, clause: Clause) -> int | None:
    """`checking the tub for chips`: a searching verb with its `for` a few words on."""
    norms = spoken.norms(clause.start, clause.end)
    for at, norm in enumerate(norms):
        if norm in SEARCHING and "for" in norms[at + 1 : at + 6]:
            return clause.start + at
    return None


def _looks_whether(spoken: Spoken, clause: Clause) -> bool:
    """`I look against the light if it is scratched`."""
    if clause.link not in {"if", "whether"} or not clause.index:
        return False
    before = spoken.clauses[clause.index - 1]
    return bool(
        {"look", "looking", "check", "checking", "checked", "looked"} & set(spoken.norms(before.start, before.end))
    )


def _reach_start(spoken: Spoken, clause: Clause, mode: Mode, start: int, end: int) -> int:
    """Where a cue begins to reach: a rule takes its whole clause, `three years back` the noun before it."""
    norms = spoken.norms(clause.start, start)
    if mode is Mode.POLICY and not {"there", "'s", "has"} & set(norms):
        return clause.start
    dated = spoken.norms(start, start + 1)[0] in {"in", "last"}
    if mode is Mode.PAST and norms and dated and _is_all_past(spoken, clause):
        return clause.start
    if mode is Mode.PAST and spoken.norms(end - 1, end)[0] in {"ago", "back"}:
        return clause.start + norms.index("from") if "from" in norms else max(clause.start, start - 2)
    return start


SENSED = frozenset("see tell feel hear even really find get hardly barely quite miss".split())


def _only_tells(spoken: Spoken, start: int, end: int) -> bool:
    """`you can't see it from here`: no prohibition."""
    return spoken.norms(start, end) == ["you", "can", "not"] and bool(SENSED & set(spoken.norms(end, end + 1)))


def _is_all_past(spoken: Spoken, clause: Clause) -> bool:
    """`the frame was split in March`: every verb of the clause tells of then."""
    finite = [token for token in spoken.tokens[clause.start : clause.end] if token.is_finite]
    return bool(finite) and all(token.tag == "VBD" or token.norm in {"was", "were", "had"} for token in finite)


def _is_plan(spoken: Spoken, start: int, end: int) -> bool:
    """`I'll get that replaced`, `it won't drain`: a `will` that is a plan, or a denial of what is now."""
    norms = spoken.norms(start, end)
    if "will" not in norms:
        return False
    return spoken.norms(end, end + 1) == ["not"] or (
        set(spoken.norms(max(0, start - 1), start)) <= {"i", "we", "they", "somebody", "someone"} and start > 0
    )


def _asks(spoken: Spoken, clause: Clause) -> bool:
    """`is that a crack`, or the last clause before a question mark."""
    norms = [norm for norm in spoken.norms(clause.start, clause.end) if norm not in LEADING | {"or"}]
    if len(norms) > 2 and norms[0] in {"have", "has", "had"} and norms[1] in {"a", "the", "any", "your"}:
        return spoken.ends_with_question()
    if len(norms) > 2 and norms[0] in AUXILIARIES and norms[1] in SUBJECTS:
        return norms[:2] not in (["is", "there"],) or spoken.ends_with_question()
    if not spoken.ends_with_question():
        return False
    last = clause.index == len(spoken.clauses) - 1
    if last:
        return True
    opens = norms[:1] and norms[0] in {"what", "when", "did", "was", "does"}
    return (
        clause.index == 0 and len(norms) > 1 and bool(opens or (norms[0] == "that" and norms[1] in {"a", "an", "the"}))
    )


def _speaker_means_it(spoken: Spoken, at: int) -> bool:
    """`I'd say it's cracked`: the speaker's own view, not a quotation."""
    before = spoken.norms(max(0, at - 2), at)
    return "'d" in before or "would" in before or "let" in before


def _goes_on_doing(spoken: Spoken, clause: Clause) -> bool:
    """`let me hit the reset and use the wrench`: the second half of what the speaker does."""
    if clause.link not in {"and", "then"} or not clause.index:
        return False
    before = spoken.clauses[clause.index - 1]
    begins = [norm for norm in spoken.norms(before.start, before.end) if norm not in LEADING]
    return begins[:2] in (["let", "me"], ["i", "will"], ["i", "am"]) or begins[:1] == ["i"]


def _ordered_at(spoken: Spoken, clause: Clause) -> int | None:
    """Where the clause gives an order: it opens with a bare verb, `don't`, `never`, or `you wash them each month`."""
    tokens = spoken.tokens
    at = clause.start
    while at < clause.end and (tokens[at].norm in LEADING or not tokens[at].is_word):
        at += 1
    if spoken.norms(at, at + 1) == ["do"] and at + 1 < clause.end and tokens[at + 1].tag in {"VB", "VBP"}:
        at += 1
    if _is_no_order(spoken, clause, at):
        return None
    if at >= clause.end or any(cue.start == at for cue in spoken.cues("withdrawal", "slip", within=clause)):
        return None
    if any(cue.start == at for cue in spoken.cues("imperative", within=clause)):
        return None if _goes_on_doing(spoken, clause) else at
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
    if token.tag == "VBG":
        return None
    does = any(mention.start == at for mention in spoken.terms("action"))
    past = token.tag in {"VBD", "VBN"} and token.norm not in {"put", "cut", "set", "shut"}
    if token.tag == "VB" or (
        does and not past and after.norm in {"the", "your", "it", "them", "this", "that", "these", "those", "any"}
    ):
        return at
    return None


def _is_no_order(spoken: Spoken, clause: Clause, at: int) -> bool:
    """`always is in October`, `let me hit the reset and use the wrench`: no order though it looks so."""
    tokens = spoken.tokens
    if at + 1 >= clause.end:
        return False
    if tokens[at].norm in {"always", "never"} and tokens[at + 1].tag in {"VBZ", "VBD", "VBN", "MD"}:
        return True
    if clause.link != "and" or not clause.index or tokens[at].norm in {"do", "never", "always"}:
        return False
    earlier = spoken.clauses[clause.index - 1]
    asked = spoken.has_cue("addressee", "instruction", "imperative", within=earlier)
    asked = asked or spoken.has_cue("addressee", within=clause)
    return spoken.has_cue("future", within=earlier) and not asked


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
    flaw = next((term for term in spoken.found.terms if term.start == at and term.of("condition")), None)
    if flaw is None or not any(sense.form == "noun" for sense in flaw.of("condition")):
        return False
    return flaw.end - at > 1 or (flaw.end < len(tokens) and tokens[flaw.end].tag in {"IN", "RP", "RB"})


def _future_at(spoken: Spoken, clause: Clause) -> int | None:
    norms = spoken.norms(clause.start, clause.end)
    for at, norm in enumerate(norms):
        if norms[at + 1 : at + 2] == ["not"]:
            continue
        if norm in {"will", "shall"} or (norm == "going" and norms[at + 1 : at + 2] == ["to"]):
            return clause.start + at
    return None


def _reach_back(spoken: Spoken, clause: Clause, own: Stance, stances: list[Stance], *, listing: bool) -> None:
    """A rule takes its list with it: `a burn, a tear, a hole, this we charge`."""
    for earlier in reversed(spoken.clauses[: clause.index]):
        inside = range(earlier.start, earlier.end)
        finite = any(spoken.tokens[at].is_finite for at in inside)
        heads = clause.link == ":" and earlier.index == clause.index - 1
        if (finite and not listing) or (spoken.named_terms(earlier) and not heads):
            return
        if spoken.has_cue("negation", within=earlier):
            return
        for at in inside:
            stances[at] = own


def mode_reason(stances: Sequence[Stance]) -> Stance | None:
    """The first stance that is not plain assertion, for a sentence that gave nothing."""
    return next((stance for stance in stances if stance.mode is not Mode.ASSERTED), None)
