"""What is asked and what is looked for: `is that a crack`, `checking the tub for chips`."""

from __future__ import annotations

from narrate2report.read.speech.clauses import LEADING, Clause, bare_start
from narrate2report.read.speech.sayings import first_saying
from narrate2report.read.speech.spoken import Spoken

AUXILIARIES = frozenset("is are was were does do did has have can could will would should am".split())

SUBJECTS = frozenset(
    "that this it these those there you i they we he she the a any anything anybody anyone your".split()
)

LOOKING = frozenset({"looking", "checking", "inspecting"})
"""`I'm looking at the trim, because the last people let a parrot chew it`: why somebody looks."""

SEARCHING = frozenset(
    "check checking checks checked look looking looked search searching searched inspecting inspected scanning scanned"
    " examining examined hunted scoured scouring".split()
)
MOVING = frozenset(
    "go going run running walk walking feel feeling hunt hunting scan shine shining sniff sniffing tap tapping rub"
    " press pressing open opening test poke poking peek peeking comb combing sweep sweeping went ran walked felt shone"
    " sniffed tapped rubbed pressed poked peeked combed swept peered crawled got".split()
)
"""What is done to find something: a search only where what it is done `for` is a flaw of no number."""


BE = frozenset("is 's are was were".split())
SOUGHT = (
    *(("worried", "about"), ("concerned", "about"), ("look", "for"), ("looking", "for"), ("look", "out")),
    *(("check", "for"), ("checking", "for"), ("watch", "for"), ("watching", "for"), ("hunting", "for")),
    *(("interested", "in"), ("keen", "on"), ("asked", "about"), ("wondering", "about"), ("i", "am", "after")),
    *(("we", "are", "after"), ("am", "here", "for"), ("i", "'m", "after"), ("we", "'re", "after")),
)
"""What one does about a flaw that nobody has seen yet."""
NAMING = frozenset({("what",), ("the", "thing"), ("the", "one", "thing"), ("the", "main", "thing"), ("all",)})


def is_sought(spoken: Spoken, clause: Clause) -> bool:
    """`mould is what the owner is worried about`, `what I'm looking for is damp`: named as what one looks for."""
    flaws, norms = spoken.terms("condition", within=clause), spoken.norms()
    head = first_saying(norms, NAMING) if flaws else None
    seeks = None if head is None else first_saying(norms, SOUGHT, head)
    if head is None or seeks is None:
        return False
    being = next((at for at in range(seeks + 2, len(norms)) if norms[at] in BE), len(norms))
    for flaw in flaws:
        leads = flaw.end == head - 1 and norms[head - 1] in BE
        follows = being < flaw.start <= being + 3
        if leads or follows:
            return True
    return False


def looks_for(spoken: Spoken, clause: Clause) -> int | None:
    """`checking the tub for chips`, `going along the baseboards for scuffs`: a verb with its `for` a few words on."""
    norms = spoken.norms(clause.start, clause.end)
    for at, norm in enumerate(norms):
        if (
            norm in WORRIED
            and norms[at + 1 : at + 2] == ["about"]
            and _is_unseen(spoken, clause, clause.start + at + 2)
        ):
            return clause.start + at
        if norm in SEARCHING and "for" in norms[at + 1 : at + 6]:
            return clause.start + at
        if norm in MOVING and _is_sought(spoken, clause, clause.start + at):
            return clause.start + at
        if norm in {"hunt", "hunting"} and at and norms[at - 1] in {"the", "a", "my"}:
            return None
    return None


WORRIED = frozenset("worried concerned nervous anxious".split())


def _is_unseen(spoken: Spoken, clause: Clause, at: int) -> bool:
    """`they're worried about damp`: of no flaw that one could point at (`about that crack`)."""
    return any(term.start == at for term in spoken.terms("condition", within=clause))


def _is_sought(spoken: Spoken, clause: Clause, at: int) -> bool:
    """Whether what follows the `for` of a verb is a flaw without an article, said of the speaker's own doing."""
    before = [token.norm for token in spoken.tokens[clause.start : at] if token.tag != "RB"]
    own = at == clause.start or spoken.tokens[at].tag in {"VBG", "VB"} or before[-1:] in (["i"], ["we"])
    later = [here for here in range(at + 1, min(at + 8, clause.end)) if spoken.tokens[here].norm == "for"]
    if not own or not later:
        return False
    flaw = next((term for term in spoken.terms("condition", within=clause) if term.start > later[0]), None)
    if flaw is None or flaw.start - later[0] > 2:
        return False
    return not any(token.tag in {"DT", "CD", "PRP$"} for token in spoken.tokens[later[0] + 1 : flaw.start])


def looks_whether(spoken: Spoken, clause: Clause) -> bool:
    """`I look against the light if it is scratched`."""
    before = spoken.clauses[clause.index - 1] if clause.index else clause
    if clause.link == "because" and LOOKING & set(spoken.norms(before.start, before.end)):
        tokens = spoken.tokens[clause.start : clause.end]
        return all(token.tag == "VBD" for token in tokens if token.is_finite) and "not" not in spoken.norms(
            before.start, before.end
        )
    if clause.link not in {"if", "whether"} or not clause.index:
        return False
    return bool(
        {"look", "looking", "check", "checking", "checked", "looked"} & set(spoken.norms(before.start, before.end))
    )


def _has_tag(spoken: Spoken, clause: Clause) -> bool:
    """`you don't burn rubbish in it, do you?`: asked of the one who lives there, and told of nothing."""
    last = spoken.clauses[-1]
    tag = spoken.norms(last.start, last.end)
    if not spoken.ends_with_question() or len(tag) not in {2, 3} or tag[0] not in AUXILIARIES or tag[-1] != "you":
        return False
    first = last.index - 1
    while first > 0 and not spoken.clauses[first].link:
        first -= 1
    return first <= clause.index < last.index and "you" in spoken.norms(spoken.clauses[first].start, last.start)


def _is_open(spoken: Spoken, clause: Clause) -> bool:
    """`let me check the tap is leaking or not`: it is not known yet."""
    following = spoken.clauses[clause.index + 1 : clause.index + 2]
    return bool(following) and spoken.norms(following[0].start, following[0].end) == ["or", "not"]


REQUESTING = frozenset("could can may might would".split())


def _requests(spoken: Spoken, clause: Clause) -> bool:
    """`could I ask you to keep the bed off the wall?`: care asked for in the form of a question."""
    start = bare_start(spoken.tokens, clause)
    return any(cue.start == start and cue.end - start > 1 for cue in spoken.cues("instruction", within=clause))


def asks(spoken: Spoken, clause: Clause) -> bool:
    """`is that a crack`, or the last clause before a question mark."""
    norms = [norm for norm in spoken.norms(clause.start, clause.end) if norm not in LEADING | {"or"}]
    if norms[:1] and norms[0] in REQUESTING and _requests(spoken, clause):
        return False
    if len(norms) > 2 and norms[0] in {"have", "has", "had"} and norms[1] in {"a", "the", "any", "your"}:
        return spoken.ends_with_question()
    if spoken.norms(clause.start, clause.end)[:1] == ["so"] and norms[:1] and norms[0] in AUXILIARIES:
        return spoken.ends_with_question()  # and so is the freezer
    if norms[:2] in (["do", "it"], ["do", "that"], ["do", "this"]) and clause.link in {"and", ",", "then"}:
        return False  # I'll leave the descaler and do it myself
    if len(norms) > 2 and norms[0] in AUXILIARIES and norms[1] in SUBJECTS:
        return norms[:2] not in (["is", "there"],) or spoken.ends_with_question()
    wonders = norms[:1] == ["who"] and clause.link in {",", "...", "and"} and len(norms) in {2, 3, 4}
    if wonders and not spoken.named_terms(clause):
        return True  # ha, who nicks that
    if _has_tag(spoken, clause) or _is_open(spoken, clause):
        return True
    if not spoken.ends_with_question() or (norms[:1] == ["see"] and "if" not in norms):
        return False  # `see that scratch?` shows it
    last = clause.index == len(spoken.clauses) - 1
    if last:
        return True
    opens = norms[:1] and norms[0] in {"what", "when", "did", "was", "does", "anybody", "anyone"}
    if clause.index == 0 and norms[:1] in (["who"], ["how"]) and norms[1:2] in (["would"], ["'d"], ["will"], ["could"]):
        return True
    return (
        clause.index == 0 and len(norms) > 1 and bool(opens or (norms[0] == "that" and norms[1] in {"a", "an", "the"}))
    )
