"""How a stretch of a sentence is meant: said of this place now, or only talked about.

In the manner of NegEx and ConText (Chapman et al. 2001; Harkema et al. 2009): cue words with a reach.
Each token gets exactly one mode, with the words that decided it.
"""

from __future__ import annotations

from collections.abc import Sequence

from narrate2report.read.lexis.phrase_tree import Mention
from narrate2report.read.meant.carried import carried_into, is_seen, states
from narrate2report.read.meant.cue_limits import (
    is_a_measure,
    is_all_past,
    is_of_now,
    is_own_deed,
    is_plan,
    only_looks,
    only_tells,
    speaker_means_it,
    tells_what_it_does,
    tries_whether,
)
from narrate2report.read.meant.elsewhere import elsewhere_at, reach_of_place
from narrate2report.read.meant.generalities import is_general
from narrate2report.read.meant.hearsay import is_admitted, quotes_before, reported_at
from narrate2report.read.meant.mended import mended_at
from narrate2report.read.meant.orders import forbidden_row, ordered_at
from narrate2report.read.meant.questions import asks, is_sought, looks_for, looks_whether
from narrate2report.read.meant.suppositions import allows, supposed_at
from narrate2report.read.speech.clauses import Clause
from narrate2report.read.speech.modes import PLAIN, Mode, Stance
from narrate2report.read.speech.spoken import Spoken

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
        carried = carried_into(spoken, clause, carried)
        own_start, own = _own_stance(spoken, clause)
        now = _comes_to_now(spoken, clause, own_start) if own.mode is Mode.PAST else clause.end
        for at in range(clause.start, clause.end):
            stances[at] = own if own.mode is not Mode.ASSERTED and own_start <= at < now else carried
        listing = own.mode is Mode.SEARCH and own.cue.lower() in LISTING
        ruled = own.mode is Mode.POLICY or (own.mode is Mode.HYPOTHETICAL and clause.link == ":")
        if listing or (ruled and not _is_waived(spoken, clause)):
            _reach_back(spoken, clause, own, stances, listing=listing)
        short = own_start == clause.start and clause.end - clause.start <= 2
        if own.mode is Mode.QUOTED and (short or quotes_before(spoken, clause)):
            for at in range(clause.start):
                stances[at] = stances[at] if stances[at].mode is not Mode.ASSERTED else own
        if own.mode is not Mode.ASSERTED:
            passing = own.mode in {Mode.QUESTION, Mode.FUTURE} or tries_whether(spoken, own_start)
            passing = passing or is_general(spoken, clause)
            carried = carried if passing else own
    for clause in forbidden_row(spoken):
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


LISTING = frozenset({"that sort of thing", "that kind of thing", "anything like that", "things like"})
"""Words that end a list of examples."""


def _is_waived(spoken: Spoken, clause: Clause) -> bool:
    """`nothing I'd charge for`: a judgement on what was just seen, which stays seen."""
    if spoken.norms(clause.start, clause.end)[:2] == ["no", "charge"]:
        return False
    own = {at for cue in spoken.cues("policy", within=clause) for at in range(cue.start, cue.end)}
    return any(cue.start not in own for cue in spoken.cues("negation", "not_negation", within=clause))


def _own_stance(spoken: Spoken, clause: Clause) -> tuple[int, Stance]:
    """The first cue of the clause that changes how it is meant, and where it starts."""
    if asks(spoken, clause):
        return clause.start, Stance(
            Mode.QUESTION,
            "?" if spoken.ends_with_question() else spoken.words(clause.start, clause.start + 2),
        )
    if only_looks(spoken, clause) and any(
        states(spoken, later) or is_seen(spoken, later) for later in spoken.clauses[clause.index + 1 :][:1]
    ):
        return clause.start, PLAIN
    if tells_what_it_does(spoken, clause):
        return clause.start, PLAIN
    best: tuple[int, Stance] | None = None
    mended = mended_at(spoken, clause)
    if mended is not None:
        best = mended, Stance(Mode.PAST, spoken.words(clause.start, clause.end))
    supposed = supposed_at(spoken, clause)
    if supposed is not None:
        best = supposed, Stance(Mode.HYPOTHETICAL, spoken.words(supposed, supposed + 1))
    whole = looks_whether(spoken, clause) or is_sought(spoken, clause)
    looking = clause.start if whole else looks_for(spoken, clause)
    if looking is not None and (best is None or looking <= best[0]):
        best = looking, Stance(Mode.SEARCH, spoken.words(looking, looking + 1))
    reported = None if is_admitted(spoken, clause) else reported_at(spoken, clause)
    if reported is not None and (best is None or reported < best[0]) and not speaker_means_it(spoken, reported):
        best = reported, Stance(Mode.QUOTED, spoken.words(reported, reported + 1))
    for kind, mode in CUE_MODES:
        for cue in spoken.cues(kind, within=clause):
            if _does_not_count(spoken, clause, mode, cue):
                continue
            reach = _reach_start(spoken, clause, mode, cue.start, cue.end)
            if best is None or reach < best[0]:
                best = reach, Stance(mode, spoken.words(cue.start, cue.end))
            break
    other = elsewhere_at(spoken, clause)
    if other is not None and (best is None or other < best[0]):
        best = other, Stance(Mode.ELSEWHERE, spoken.words(clause.start, clause.end))
    ordered = ordered_at(spoken, clause)
    if ordered is not None and (best is None or ordered <= best[0]):
        best = ordered, Stance(Mode.INSTRUCTION, spoken.words(ordered, ordered + 1))
    future = _future_at(spoken, clause)
    if future is not None and (best is None or (best[1].mode is Mode.PAST and future < best[0])):
        best = future, Stance(Mode.FUTURE, spoken.words(future, future + 1))
    noting = next(spoken.cues("noting", within=clause), None)
    flawed = spoken.has_term("condition", within=clause)
    if (
        best is not None
        and noting is not None
        and flawed
        and best[1].mode in {Mode.FUTURE, Mode.INSTRUCTION}
        and noting.start <= best[0] + 2
    ):
        return clause.start, PLAIN
    if best is None and allows(spoken, clause):
        return clause.start, Stance(Mode.POLICY, spoken.words(clause.start, clause.end))
    return best or (clause.start, PLAIN)


def _does_not_count(spoken: Spoken, clause: Clause, mode: Mode, cue: Mention) -> bool:
    """Whether a cue does not mean what its kind says."""
    match mode:
        case Mode.QUOTED:
            return speaker_means_it(spoken, cue.start)
        case Mode.HYPOTHETICAL:
            came = spoken.tokens[cue.end : cue.end + 1]
            then = spoken.norms(cue.start, cue.end) == ["before", "you"] and bool(came) and came[0].tag == "VBD"
            return then or is_plan(spoken, cue.start, cue.end) or is_a_measure(spoken, cue.start, cue.end)
        case Mode.INSTRUCTION:
            if spoken.norms(cue.start, cue.end) == ["i", "ask", "you"] and cue.end == clause.end:
                return True  # who does that, I ask you
            return is_own_deed(spoken, clause, cue.start) or only_tells(spoken, cue.start, cue.end)
        case Mode.ELSEWHERE:
            if spoken.norms(cue.start, cue.end) == ["folks"] and spoken.has_cue("returning"):
                return True  # folks turned in two door keys
            return cue.start > 0 and spoken.tokens[cue.start - 1].norm in {"as", "than", "like", "you", "where", "when"}
        case Mode.PAST:
            always = "always" in spoken.norms(clause.start, cue.start)
            absent_then = spoken.norms(max(0, cue.start - 2), cue.start) == ["not", "there"]
            each = any(often.start == cue.start for often in spoken.cues("often", within=clause))
            tells_then = any(token.tag == "VBD" for token in spoken.tokens[clause.start : clause.end])
            if each and not tells_then:
                return True  # in the winter do open the windows
            return always or absent_then or _goes_back_in(spoken, cue.start, cue.end)
    return False


def _comes_to_now(spoken: Spoken, clause: Clause, start: int) -> int:
    """Where a clause leaves the past: at the last verb of `the handle, which we put in last year, is loose`."""
    following = range(start + 1, clause.end)
    return next(
        (at for at in following if spoken.tokens[at].norm in {"is", "are"} and clause.link == "which"), clause.end
    )


def _goes_back_in(spoken: Spoken, start: int, end: int) -> bool:
    """`back in the living room`: a place, and no time."""
    rooms = {term.start for term in spoken.terms("room")}
    return spoken.norms(start, end) == ["back", "in"] and bool(rooms & set(range(end, end + 3)))


def _reach_start(spoken: Spoken, clause: Clause, mode: Mode, start: int, end: int) -> int:
    """Where a cue begins to reach: a rule takes its whole clause, `three years back` the noun before it."""
    norms = spoken.norms(clause.start, start)
    if mode is Mode.POLICY and not {"there", "'s", "has"} & set(norms):
        return clause.start
    dated = spoken.norms(start, start + 1)[0] in {"in", "last"}
    if mode is Mode.PAST and norms and dated and is_all_past(spoken, clause):
        return clause.start
    if mode is Mode.PAST and spoken.norms(end - 1, end)[0] in {"ago", "back"}:
        return clause.start + norms.index("from") if "from" in norms else max(clause.start, start - 2)
    if mode is Mode.ELSEWHERE:
        return reach_of_place(spoken, clause, Mention(start, end))
    return start


def _future_at(spoken: Spoken, clause: Clause) -> int | None:
    """`I'll fix it`, `until it's mended`: where what is still to come begins."""
    norms = spoken.norms(clause.start, clause.end)
    for at, norm in enumerate(norms):
        if norm in {"until", "till"} and any(
            token.tag in {"VBZ", "VBP"} for token in spoken.tokens[clause.start + at : clause.end]
        ):
            return clause.start + at
        if norms[at + 1 : at + 2] == ["not"] or (norm == "will" and is_of_now(norms, at, clause.link)):
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
