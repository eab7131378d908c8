"""Care and responsibility said to the resident about a component. Advice about nothing in particular is talk."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from itertools import pairwise

from narrate2report.read.cared_for import PLAIN, CaredFor, cared_for
from narrate2report.read.clauses import Clause
from narrate2report.read.draft import Draft
from narrate2report.read.focus import Focus
from narrate2report.read.scene import Scene
from narrate2report.read.spoken import Spoken
from narrate2report.read.stance import Mode, Stance
from narrate2report.read.whereabouts import ROOM_GENERAL

LEADING = frozenset("and so just then also now please kindly or but do not never always you guys folks all".split())
INDEFINITE = frozenset("something anything things stuff".split())
"""What a rule for everything is about: `if you scratch something, we charge`."""

REMOVALS = frozenset("take remove move roll clear pick bring get".split())
COMPANIONS = frozenset(
    "worry worried sweat ask quote mind blame blaming tell bother thank ignore excuse"
    " answer shoot joke kid come follow wait sit panic laugh judge forget"
    " stress fret apologize apologise start even".split()
)
"""Verbs of orders that ask for no care of a home: `don't worry about it`, `don't quote me`."""

ASIDES = (
    ["look", "for"],
    ["call", "it"],
    ["be", "able"],
    ["mail", "it"],
    ["for", "what"],
    ["bear", "with"],
    ["your", "breath"],
)
"""Pairs of words that ask for no care: `don't look for one`, `take that for what it's worth`."""

TRIED = frozenset("press push hit flip test try run flush turn pull open hold crack let".split())
ALWAYS_TRIED = frozenset("hit flip try push".split())
EXPLAINS = frozenset("it they there that this he she i we".split())


def find_advice(scene: Scene, focus: Focus, others: Sequence[Draft]) -> list[Draft]:
    """At most one advice draft a sentence: the care that is asked, of the component it is about.

    `others` are the drafts of the sentence so far: what is tried on the walk is no advice, nor is planned work.
    """
    spoken, stances = scene.spoken, scene.stances
    orders = _orders(scene, others)
    if orders and not any(_is_addressed(spoken, clause, stances[at].cue) for clause, at in orders):
        return []
    warned = _consequence(spoken, stances)
    if not orders and warned is None:
        return []
    for_all = not orders and INDEFINITE & set(spoken.norms())
    if not orders and warned is not None:
        orders = [(spoken.clause_of(warned), warned)]
    asks_word = bool(orders) and _asks_word(spoken, orders[0][0])
    found = _reported(scene, warned, focus) if warned is not None and asks_word else cared_for(scene, orders, focus)
    if found is None or (found.trust == 0 and for_all) or (found.trust <= PLAIN and asks_word and warned is None):
        return []
    at = orders[0][1]
    return [
        Draft(
            kind="advice",
            room=scene.room,
            component=found.component,
            at=at,
            because=(f"said to the resident: '{stances[at].cue}'", found.how),
            confidence=0.7,
        )
    ]


def _orders(scene: Scene, others: Sequence[Draft]) -> list[tuple[Clause, int]]:
    """The clauses that ask for care, each with the token its order starts at."""
    spoken, stances = scene.spoken, scene.stances
    noted = any(draft.kind == "follow_up" and "the note itself" in draft.because[0] for draft in others)
    planned = {spoken.clause_of(draft.at).index for draft in others if draft.kind == "follow_up"}
    tried = any(draft.kind == "check" for draft in others)
    if any(cue for cue in spoken.cues("quotation") if spoken.norms(cue.start, cue.start + 1) == ["you"]):
        return []
    found = []
    for clause in spoken.clauses:
        at = next((at for at in range(clause.start, clause.end) if stances[at].mode is Mode.INSTRUCTION), None)
        at = clause.start if at is None and _wants_often(spoken, clause) else at
        if at is not None and _only_goes_on(scene, clause, at, planned):
            continue
        if at is None or clause.index in planned or _is_for_the_walk(spoken, clause, at, tried=tried):
            continue
        if noted and not spoken.has_cue("instruction", "addressee", "imperative", "often", within=clause):
            continue
        found.append((clause, at))
    return found


def _only_goes_on(scene: Scene, clause: Clause, at: int, planned: Collection[int]) -> bool:
    """`put down replace, facilities does that`: the order of the clause before reaches here, but none is given."""
    spoken, stances = scene.spoken, scene.stances
    if not clause.index or at != clause.start or stances[at].cue == spoken.words(at, at + 1):
        return False
    earlier = spoken.clauses[clause.index - 1]
    if stances[earlier.end - 1] != stances[at]:
        return False
    tags = [token.tag for token in spoken.tokens[clause.start : clause.end]]
    asks = {"VB", "VBP"} & set(tags) or spoken.norms(at, at + 1) in (["not"], ["only"], ["never"], ["or"])
    return "VBZ" in tags or not asks or earlier.index in planned


def _asks_word(spoken: Spoken, clause: Clause) -> bool:
    """`please call me`, `let us know`: what is asked for is a word and no care."""
    return any(spoken.norms(cue.start, cue.end)[:1] != ["would"] for cue in spoken.cues("contact", within=clause))


def _is_for_the_walk(spoken: Spoken, clause: Clause, at: int, *, tried: bool) -> bool:
    """`don't worry about it`, `hit the switch for me`, `press it again`: said to whoever walks along."""
    words = [norm for norm in spoken.norms(at, clause.end) if norm not in LEADING]
    if not words or set(words[:2]) & COMPANIONS or any([one, two] in ASIDES for one, two in pairwise(words)):
        return True
    if spoken.norms(at, clause.end)[-2:] == ["for", "me"]:
        return True
    if words[0] in {"i", "we"} and {"expect", "say", "know", "call", "charge", "count"} & set(words[:5]):
        return True
    if any(cue.start == at for cue in spoken.cues("contact", "future", within=clause)) and words[0] in {"put", "note"}:
        return True
    if clause.start == at and words[0] in EXPLAINS and spoken.tokens[at + 1].is_finite and words[1:2] != ["'re"]:
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


def _wants_often(spoken: Spoken, clause: Clause) -> bool:
    """`they do want oiling every few months`: care that comes round again."""
    return spoken.has_cue("often", within=clause) and any(
        spoken.tokens[at].norm in {"want", "wants", "need", "needs"}
        and (spoken.tokens[at + 1].tag == "VBG" or spoken.norms(at + 1, at + 3) == ["to", "be"])
        for at in range(clause.start, clause.end - 1)
    )


def _is_addressed(spoken: Spoken, clause: Clause, cue: str) -> bool:
    """Whether somebody is spoken to; a bare imperative may be the speaker's own `pull that out`."""
    if cue.lower() in REMOVALS:
        return True
    listed = any(spoken.words(one.start, one.start + 1) == cue for one in spoken.cues("imperative"))
    handles = bool({"it", "them", "that", "those"} & set(spoken.norms(clause.start + 1, clause.start + 4)))
    return listed or handles or spoken.has_cue("instruction", "addressee", "often")


def _consequence(spoken: Spoken, stances: Sequence[Stance]) -> int | None:
    """`if you crack this tile, that's on you`: where a warning to the resident starts that tells what follows."""
    hypothetical = [at for at, stance in enumerate(stances) if stance.mode is Mode.HYPOTHETICAL]
    if not hypothetical or not spoken.has_cue("addressee", "contact"):
        return None
    first = hypothetical[0]
    ordered = any(cue for cue in spoken.cues("instruction", "imperative", "policy") if cue.start >= first)
    verbs = any(
        clause.start > first and (_opens_with_verb(spoken, clause) or _you_do(spoken, clause))
        for clause in spoken.clauses
    )
    return first if ordered or verbs else None


def _opens_with_verb(spoken: Spoken, clause: Clause) -> bool:
    opening = [at for at in range(clause.start, clause.end) if spoken.tokens[at].norm not in LEADING]
    return bool(opening) and spoken.tokens[opening[0]].tag == "VB"


def _you_do(spoken: Spoken, clause: Clause) -> bool:
    """`you get out`, `then you call me`: what the resident does when it happens."""
    norms = [norm for norm in spoken.norms(clause.start, clause.end) if norm not in {"then", "and", "so"}]
    if len(norms) < 2 or norms[0] != "you":
        return False
    verb = spoken.tokens[clause.start + spoken.norms(clause.start, clause.end).index("you") + 1]
    return verb.tag in {"VBP", "VB"} and verb.norm not in {"are", "have", "can", "will", "see", "might"}


GASSY = frozenset("gas burning smoke".split())


def _reported(scene: Scene, at: int, focus: Focus) -> CaredFor | None:
    """`if it grows past the line, text me`: what is to be reported is the flaw spoken of, or what the `if` names."""
    spoken = scene.spoken
    if GASSY & set(spoken.norms()) and "smell" in spoken.norms():
        return CaredFor(ROOM_GENERAL, "a smell of the whole place", 2)
    clause = spoken.clause_of(at)
    named = [one for one in spoken.named if one.start in clause and one.relation != "place" and one.start > at]
    if named:
        return CaredFor(named[0].component, f"'{spoken.words(named[0].start, named[0].end)}' is named", 3)
    pointed = {"it", "that", "this", "they", "those", "these"} & set(spoken.norms(clause.start, clause.end))
    target = focus.flaw(scene.number) or focus.told(scene.number) or scene.place.subject
    if pointed and target:
        return CaredFor(target, "what 'it' points to", 2)
    later = [one for one in spoken.named if one.start >= clause.end and one.component != ROOM_GENERAL]
    if later:
        return CaredFor(later[0].component, f"'{spoken.words(later[0].start, later[0].end)}' is named", 3)
    earlier = [one for one in spoken.named if one.end <= at and one.relation != "place"]
    if earlier and earlier[-1].component != ROOM_GENERAL:
        return CaredFor(earlier[-1].component, f"'{spoken.words(earlier[-1].start, earlier[-1].end)}' was named", 2)
    known = target and "you" not in spoken.norms(at, at + 3) and scene.number - focus.told_at <= 1
    return CaredFor(target, "the flaw spoken of before", 1) if known and target else None
