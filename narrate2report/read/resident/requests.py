"""Which clauses of a sentence ask the resident for care, and which orders are said to whoever walks along."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from itertools import pairwise

from narrate2report.read.drafts.draft import Draft
from narrate2report.read.lexis.phrase_tree import Mention
from narrate2report.read.meant.scene import Scene
from narrate2report.read.resident.duties import told_as_duty
from narrate2report.read.resident.to_others import LEADING, is_for_staff, only_shows, tells_how_it_goes
from narrate2report.read.resident.unmarked import ROUTINE, unmarked_order
from narrate2report.read.speech.clauses import Clause, bare_start
from narrate2report.read.speech.modes import Mode
from narrate2report.read.speech.spoken import Spoken
from narrate2report.read.work.worked_on import OWN_SELVES, RESIDENT

COMPANIONS = frozenset(
    "worry worried sweat ask quote mind blame blaming tell bother thank ignore excuse"
    " answer shoot joke kid come follow wait sit panic laugh judge forget"
    " stress fret apologize apologise start even believe trust step walk head squint"
    " hunt pretend swear fuss think bet count know understand recall".split()
)
"""Verbs of orders that ask for no care of a home: `don't worry about it`, `don't quote me`."""

ASIDES = (
    ["look", "for"],
    ["call", "it"],
    ["be", "able"],
    ["mail", "it"],
    ["for", "what"],
    ["go", "looking"],
    ["slide", "it"],
    ["a", "fuss"],
    ["bring", "yourself"],
    ["your", "own"],
    ["mind", "me"],
    ["bear", "with"],
    ["a", "favour"],
    ["a", "favor"],
    ["ask", "you"],
    ["your", "breath"],
    ["see", "this"],
    ["stand", "there"],
    ["see", "here"],
    ["rest", "of"],
)
"""Pairs of words that ask for no care: `don't look for one`, `take that for what it's worth`."""

TOLD_OF = frozenset({Mode.PAST, Mode.QUOTED, Mode.ELSEWHERE, Mode.SEARCH, Mode.QUESTION})
"""How words are meant that tell of a duty of others or of another time."""

TRIED = frozenset("press push hit flip test try run flush turn pull open hold crack let".split())
ALWAYS_TRIED = frozenset("hit flip try push".split())
EXPLAINS = frozenset("it they there that this he she i we".split())


def find_orders(scene: Scene, others: Sequence[Draft]) -> list[tuple[Clause, int]]:
    """The clauses that ask for care, each with the token its order starts at."""
    spoken, stances = scene.spoken, scene.stances
    noted = any(draft.kind == "follow_up" and "the note itself" in draft.because[0] for draft in others)
    work = [(draft.at, spoken.clause_of(draft.at)) for draft in others if draft.kind == "follow_up"]
    planned = {clause.index for _, clause in work}
    planned |= {clause.index - 1 for at, clause in work if clause.link == "and" and at == clause.start + 1}
    tried = any(draft.kind == "check" for draft in others)
    found: list[tuple[Clause, int]] = []
    for clause in spoken.clauses:
        duty = told_as_duty(spoken, clause)
        if duty is not None and clause.index not in planned and scene.mode(duty) not in TOLD_OF:
            found.append((clause, duty))
            continue
        at = next((at for at in range(clause.start, clause.end) if stances[at].mode is Mode.INSTRUCTION), None)
        at = clause.start if at is None and _wants_often(spoken, clause) else at
        at = clause.start if at is None and _is_left_to_them(spoken, clause) else at
        at = unmarked_order(spoken, clause) if at is None else at
        if found and _only_begs(spoken, clause):
            continue
        if at is not None and spoken.norms(at, clause.end) == ["please"] and _bars(spoken, clause):
            at = bare_start(spoken.tokens, clause)
        if at is not None and (is_for_staff(spoken, clause, at) or only_shows(spoken, clause, at)):
            continue
        if at is not None and _only_begs(spoken, clause) and clause.index and _cares(spoken, clause.index - 1):
            clause = spoken.clauses[clause.index - 1]
            at = clause.start
        if at is None or _is_told_of(spoken, clause, at) or _is_asked(spoken, clause):
            continue
        if _only_goes_on(scene, clause, at, planned) or tells_how_it_goes(scene, at):
            continue
        if clause.index in planned or is_for_the_walk(spoken, clause, at, tried=tried):
            continue
        if noted and not spoken.has_cue("instruction", "addressee", "imperative", "often", within=clause):
            continue
        found.append((clause, at))
    return found


def _bars(spoken: Spoken, clause: Clause) -> bool:
    """`so no fires please`: what is to stay out, with the `please` behind it."""
    return spoken.norms(bare_start(spoken.tokens, clause), clause.end)[:1] == ["no"]


def _is_left_to_them(spoken: Spoken, clause: Clause) -> bool:
    """`you'll be changing those yourself`, `tenants are responsible for cleaning it`: who does it, told as a rule."""
    norms = spoken.norms(clause.start, clause.end)
    theirs = bool(OWN_SELVES & set(norms)) or "responsible" in norms
    return theirs and bool(RESIDENT & set(norms[:3])) and spoken.has_term("action", within=clause)


def _only_goes_on(scene: Scene, clause: Clause, at: int, planned: Collection[int]) -> bool:
    """`put down replace, facilities does that`: the order of the clause before reaches here, but none is given."""
    spoken, stances = scene.spoken, scene.stances
    if not clause.index or at != clause.start or stances[at].cue == spoken.words(at, at + 1):
        return False
    earlier = spoken.clauses[clause.index - 1]
    if stances[earlier.end - 1] != stances[at]:
        return False
    tags = [token.tag for token in spoken.tokens[clause.start : clause.end]]
    first = [norm for norm in spoken.norms(at, clause.end) if norm not in {"and", "so", "please"}][:1]
    asks = {"VB", "VBP"} & set(tags) or first in (["not"], ["only"], ["never"], ["or"], ["no"])
    return "VBZ" in tags or not asks or earlier.index in planned


def asks_word(spoken: Spoken, clause: Clause) -> bool:
    """`please call me`, `let us know`: what is asked for is a word and no care."""
    return any(
        spoken.norms(cue.start, cue.end)[:1] != ["would"] and not _asks_leave(spoken, cue)
        for cue in spoken.cues("contact", within=clause)
    )


def _asks_leave(spoken: Spoken, cue: Mention) -> bool:
    """`we ask that you don't hang things there`, `ask before you paint`: no word is asked for."""
    if spoken.norms(cue.start, cue.start + 1) != ["ask"]:
        return False
    after = spoken.norms(cue.end, cue.end + 3)
    return after[:1] in (["that"], ["before"], ["you"]) or spoken.norms(cue.end - 1, cue.end) == ["before"]


def is_for_the_walk(spoken: Spoken, clause: Clause, at: int, *, tried: bool) -> bool:
    """`don't worry about it`, `hit the switch for me`, `press it again`: said to whoever walks along."""
    words = [norm for norm in spoken.norms(at, clause.end) if norm not in LEADING]
    if _is_not_to_be_forgotten(spoken, at, clause):
        return False
    begs = next((cue for cue in spoken.cues("instruction", within=clause) if cue.start == at), None)
    said = words if begs is None or cue_is_contact(spoken, begs) else spoken.norms(begs.end, clause.end)
    if not words or set(said[:3]) & COMPANIONS or any([one, two] in ASIDES for one, two in pairwise(words)):
        return True
    if spoken.norms(at, clause.end)[-2:] == ["for", "me"] and words[0] not in ROUTINE - TRIED - {
        "crack",
        "shut",
        "close",
    }:
        return True
    if spoken.norms(clause.end, clause.end + 3) in (
        ["if", "you", "like"],
        ["if", "you", "want"],
        ["if", "you", "wish"],
    ):
        return True
    if words[0] in LAYS and HAND & set(words[1:4]) and not _supposes(spoken):
        return "not" not in spoken.norms(clause.start, clause.end)  # put your hand here
    if words[0] == "leave" and words[-2:] in (["with", "me"], ["to", "me"], ["with", "us"], ["to", "us"]):
        return True  # leave it with me
    if words[0] in {"leave", "put", "mark", "call"} and "as" in words:
        return True  # leave that as unknown
    if words[-3:] in (["it", "'s", "yours"], ["that", "'s", "yours"]) and clause.end == len(spoken.tokens) - 1:
        return True  # the mailbox is this black one, and it's yours
    if words[:2] == ["take", "this"] and not GONE & set(words):
        return True
    if spoken.norms(clause.end + 1, clause.end + 2) in (["thanks"], ["ta"]):
        return True
    if words[0] in {"i", "we"} and {"expect", "say", "know", "call", "charge", "count"} & set(words[:5]):
        return True
    if any(cue.start == at for cue in spoken.cues("contact", "future", within=clause)) and words[0] in {"put", "note"}:
        return True
    asked = any(
        cue.start == at and ("yours" not in spoken.norms(at, cue.end) or _is_to_do(spoken, clause, cue.end))
        for cue in spoken.cues("instruction", within=clause)
    )
    if (
        not asked
        and clause.start == at
        and not _wants_often(spoken, clause)
        and words[0] in EXPLAINS
        and words[1:2] != ["likes"]
        and spoken.tokens[at + 1].is_finite
        and words[1:2] != ["'re"]
    ):
        return True
    followed = spoken.clauses[clause.index + 1 : clause.index + 2]
    waited = bool(followed) and followed[0].link == "..."
    if (
        words[0] not in TRIED
        or spoken.has_cue("often")
        or spoken.has_cue("condition")
        or spoken.has_cue("addressee", within=clause)
    ):
        return False
    return tried or waited or words[0] in ALWAYS_TRIED or "again" in words


LAYS = frozenset("put stick run lay hold place rest feel".split())
"""What one does with a hand to feel what is there, not to take care of it."""

HAND = frozenset("hand hands finger fingers ear".split())


def _supposes(spoken: Spoken) -> bool:
    return bool({"if", "before", "when", "until"} & set(spoken.norms()))


def cue_is_contact(spoken: Spoken, begs: Mention) -> bool:
    """`let us know`: an order that is itself a word asked for."""
    return any(cue.start == begs.start and not _asks_leave(spoken, cue) for cue in spoken.cues("contact"))


def _is_not_to_be_forgotten(spoken: Spoken, at: int, clause: Clause) -> bool:
    """`don't forget the lint trap`, `try not to slam the door`: care, though the verb is one of the walk."""
    norms = spoken.norms(at, clause.end)
    if norms[:2] in (["try", "not"], ["please", "try"]) or norms[:3] == ["do", "not", "let"]:
        return True
    forgets = norms[:3] == ["do", "not", "forget"] and norms[3:4] in (["the"], ["your"], ["to"], ["about"])
    return forgets and any(one.start >= at for one in spoken.named_in(clause))


def _is_to_do(spoken: Spoken, clause: Clause, end: int) -> bool:
    """`that's yours to change`, `it's yours, every three months`; `room two, that's yours` is no care."""
    return "to" in spoken.norms(end - 1, min(end + 1, clause.end)) or spoken.has_cue("often")


def _wants_often(spoken: Spoken, clause: Clause) -> bool:
    """`they do want oiling every few months`: care that comes round again."""
    if spoken.has_cue("often") and {"likes", "like"} & set(spoken.norms(clause.start + 1, clause.start + 3)):
        return spoken.norms(clause.start, clause.start + 1)[0] in {"it", "they", "that", "this", "those", "the"}
    return spoken.has_cue("often", within=clause) and any(
        spoken.tokens[at].norm in {"want", "wants", "need", "needs"}
        and (spoken.tokens[at + 1].tag == "VBG" or spoken.norms(at + 1, at + 3) == ["to", "be"])
        for at in range(clause.start, clause.end - 1)
    )


GONE = frozenset("away out down off with off home".split())
BEGGING = frozenset("please okay today tonight tomorrow now and then so just".split())
SUPPOSERS = frozenset("somebody someone nobody they he she lease installer tenant".split())


def says_back(spoken: Spoken) -> bool:
    """`you told me you'd keep it on a stand`: what the resident said, and no care that is asked."""
    return any(cue for cue in spoken.cues("quotation") if spoken.norms(cue.start, cue.start + 1) == ["you"])


def _only_begs(spoken: Spoken, clause: Clause) -> bool:
    """`please`, `today`: said to the order beside it, and none of its own."""
    return set(spoken.norms(clause.start, clause.end)) <= BEGGING


def _cares(spoken: Spoken, index: int) -> bool:
    """`felt pads under everything, please`: what was begged for is usual care of a component."""
    clause = spoken.clauses[index]
    return any(cue.start in clause and any(sense.role == "care" for sense in cue.senses) for cue in spoken.found.cues)


def _is_told_of(spoken: Spoken, clause: Clause, at: int) -> bool:
    """`somebody didn't put the mat down`, `the lease has no pets on it`, `I'm not allowed`: told, and not asked."""
    before = spoken.norms(clause.start, at)
    begins = spoken.norms(at, at + 2)
    if begins[:1] == ["not"] and before[-2:] in (["i", "am"], ["i", "'m"]):
        return True
    if begins[:1] == ["do"] and before[-1:] and before[-1] in {"i", "we", "they", "he", "she"}:
        return True  # so I don't forget
    if clause.link == "and" and begins == ["do", "not"] and _tells_on(spoken, clause, at):
        return True
    if begins[:1] == ["no"] and {"has", "have", "says", "said"} & set(before):
        return True
    if begins == ["you", "cut"]:
        return "grass" not in spoken.norms(clause.start, clause.end)
    past = any(token.tag == "VBD" and token.norm != "put" for token in spoken.tokens[clause.start : at])
    if past and SUPPOSERS & set(before):
        return True
    if not clause.index:
        return False
    earlier = spoken.clauses[clause.index - 1]
    told = spoken.norms(earlier.start, earlier.end)
    if told[-3:] in (["i", "tell", "them"], ["i", "told", "them"], ["we", "tell", "them"]):
        return True
    planned = bool({"will", "'ll"} & set(told[:4]) and {"i", "we"} & set(told[:3]))
    return planned and clause.link == "or" and not spoken.has_cue("addressee", within=clause)


def _tells_on(spoken: Spoken, clause: Clause, at: int) -> bool:
    """`the disposal hums and don't turn`: what a thing does not do, told on; `it's hot and don't touch it` is said."""
    earlier = spoken.clauses[clause.index - 1]
    does = any(token.tag in {"VBZ", "VBP", "NNS"} for token in spoken.tokens[earlier.start + 1 : earlier.end])
    told = does and not {"you", "it", "is", "'s"} & set(spoken.norms(earlier.start, earlier.end))
    return told and at + 3 == clause.end


def _is_asked(spoken: Spoken, clause: Clause) -> bool:
    """`anything you want to say yourself, Sam?`: a question, though the name comes last."""
    wanted = any(
        spoken.norms(cue.start, cue.end) == ["you", "want", "to"] for cue in spoken.cues("instruction", within=clause)
    )
    if not wanted:
        return False
    text = spoken.text[spoken.tokens[clause.end - 1].end :]
    marks = [char for char in text if char in ".?!"]
    return marks[:1] == ["?"]
