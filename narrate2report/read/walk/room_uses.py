"""Rooms that are told by what people do there: `through here is where you'd eat`, `down the step to where they cook`.

What is done in which room, and who lives in a home, stand in the vocabulary: `uses` in rooms.yaml, `dwellers` in
cues.yaml.
"""

from __future__ import annotations

from collections.abc import Sequence

from narrate2report.read.lexis.phrase_tree import COMPONENT_ROLES, Mention
from narrate2report.read.lexis.vocabulary import Vocabulary
from narrate2report.read.speech.clauses import MARKS, Clause
from narrate2report.read.speech.modes import Mode, Stance
from narrate2report.read.speech.spoken import Spoken
from narrate2report.read.walk.led_in import LEADING
from narrate2report.read.walk.ways import PASSED

NOT_HERE = frozenset({Mode.PAST, Mode.ELSEWHERE, Mode.QUOTED, Mode.QUESTION, Mode.SEARCH})
"""How a use may be meant that leads nowhere: `they used to cook in here`."""

BEING = frozenset("is 's are be have got find comes".split())
TOWARDS = frozenset("to into in through and inside at".split())
SPOTS = frozenset("room place one bit part area space spot corner end side".split())
"""What may be said for a room before `where`: `the bit where you eat`."""

ON_THE_WAY = PASSED | {"other"}
"""What is passed on the way there: `down the step to where they cook`."""

ANYBODY = frozenset("i we you they he she one everyone everybody people folks".split())
DONE = frozenset("happens happen done goes gets".split())
LIVES = frozenset("lives live".split())
AFTER_USE = frozenset({"IN", "RB", "WRB", "CC", "TO", "UH", "DT"})
"""Tags of words that may follow what is done: `where you eat in the winter`, and not `where you eat your words`."""

SLEEPERS = {"kids": "kids", "children": "kids", "child": "kids", "parents": "primary", "guests": "guest"}
"""Whose bedroom it is, as rooms are told apart by it."""


def used_room(spoken: Spoken, stances: Sequence[Stance], vocabulary: Vocabulary) -> str | None:
    """The room that is told by its use, if the sentence walks there or tells that it stands there."""
    for at, token in enumerate(spoken.tokens):
        if stances[at].mode in NOT_HERE:
            continue
        if token.norm == "where" and _leads_to(spoken, at):
            room = _done_after(spoken, at + 1) or _lives_there(spoken, at + 1, vocabulary)
        elif token.norm in SPOTS and _leads_to(spoken, at + 1):
            room = _done_after(spoken, at + 1, ending="in")
        elif token.norm == "here":
            room = _done_here(spoken, at)
        else:
            continue
        if room is not None:
            return room
    return _whose(spoken, stances)


def _leads_to(spoken: Spoken, at: int) -> bool:
    """Whether what stands before token `at` leads there: `this is`, `and down to`, `now the room`."""
    end = at
    while end > 0 and (spoken.tokens[end - 1].text in MARKS or spoken.tokens[end - 1].norm in SPOTS):
        end -= 1
    spot = end < at
    before = [token.norm for token in spoken.tokens[:end] if token.text not in MARKS]
    flaws = (term for term in spoken.terms("condition") if term.start < end)
    if any(not sense.beside for term in flaws for sense in term.of("condition")):
        return False  # there's a stain where they eat
    led = all(word in LEADING | TOWARDS | ON_THE_WAY | {"behind", "along"} for word in before)
    last = before[-1] if before else ""
    things = [term for term in spoken.terms(*COMPONENT_ROLES) if term.end <= end]
    if last in BEING:
        return led or not any(spoken.tokens[term.end - 1].norm not in ON_THE_WAY for term in things)
    return led and (spot or not before or last in TOWARDS) and before[-2:-1] not in (["next"], ["close"])


def _done_after(spoken: Spoken, start: int, ending: str = "") -> str | None:
    """The room of what is done, by somebody, in the words from token `start` on: `they cook`, `to wash`."""
    for cue in _uses(spoken):
        if not start < cue.end <= start + 7:
            continue
        room, between = _room_of(cue), spoken.norms(start, cue.start)
        if not _is_complete(spoken, cue, ending):
            continue
        if {"not", "never", "used", "if", ","} & set(between):
            return None
        if between[:1] == ["to"] or ANYBODY & set(between):
            return room
        who = _dweller(spoken, start, cue.start)
        if who is not None:
            return _of(room, who)
        if spoken.tokens[cue.end - 1].norm.endswith("ing") and DONE & set(spoken.norms(cue.end, cue.end + 2)):
            return room
    return None


def _uses(spoken: Spoken) -> list[Mention]:
    return [cue for cue in spoken.found.cues if cue.of("use")]


def _room_of(cue: Mention) -> str:
    return cue.of("use")[0].id


def _of(room: str, who: str) -> str:
    """`where the kids sleep`: a bedroom that is told apart by who sleeps there."""
    return f"{room}.{SLEEPERS[who]}" if room == "bedroom" and who in SLEEPERS else room


def _is_complete(spoken: Spoken, cue: Mention, ending: str) -> bool:
    """Whether nothing follows that what is done is done to: `wash the dog`."""
    following = spoken.tokens[cue.end : cue.end + 2]
    if ending:
        return spoken.norms(cue.end, cue.end + 1) == [ending] and (len(following) < 2 or following[1].text in MARKS)
    if not following or following[0].text in MARKS or following[0].norm in DONE:
        return True
    return following[0].tag in AFTER_USE and (following[0].tag != "DT" or following[0].norm in {"all", "every", "each"})


def _dweller(spoken: Spoken, start: int, end: int) -> str | None:
    """Who of those who live in a home is spoken of between two tokens."""
    for cue in spoken.cues("dwellers"):
        if start <= cue.start and cue.end <= end:
            return spoken.tokens[cue.end - 1].norm
    return None


def _lives_there(spoken: Spoken, start: int, vocabulary: Vocabulary) -> str | None:
    """`where the washing machine lives`: the room that has such a thing."""
    for term in spoken.terms("component"):
        if start <= term.start <= start + 2 and LIVES & set(spoken.norms(term.end, term.end + 1)):
            owned = term.of("component")[0].id
            return next((room for room, known in vocabulary.rooms.items() if owned in known.owns), None)
    return None


def _done_here(spoken: Spoken, at: int) -> str | None:
    """`here I cook`, `in here you eat`, `we eat in here`."""
    clause = spoken.clause_of(at)
    before = spoken.norms(clause.start, at)
    if all(word in {"in", "and", "so", "now", "then", "up", "down", "out", "over"} for word in before):
        first = spoken.norms(at + 1, at + 2)
        person = bool(ANYBODY & set(first)) or _dweller(spoken, at + 1, at + 3) is not None
        return _done_after(spoken, at + 1) if person else None
    for cue in _uses(spoken):
        if cue.end in {at, at - 1} and spoken.norms(cue.end, at) in ([], ["in"]) and _says_who(spoken, clause, cue):
            return _room_of(cue) if at + 1 >= clause.end else None
    return None


def _says_who(spoken: Spoken, clause: Clause, cue: Mention) -> bool:
    """`we eat`, at the start of its clause."""
    before = spoken.norms(clause.start, cue.start)
    return bool(before) and before[-1] in ANYBODY and all(word in LEADING for word in before[:-1])


def _whose(spoken: Spoken, stances: Sequence[Stance]) -> str | None:
    """`first door on the left is for your child`, `the one at the end is my daughter's`: a bedroom."""
    for cue in spoken.cues("dwellers"):
        clause = spoken.clause_of(cue.start)
        at = cue.start
        while at > clause.start and spoken.norms(at - 1, at)[0] in {"for", "my", "your", "her", "his", "the", "our"}:
            at -= 1
        subject = spoken.norms(clause.start, at - 1)
        said = spoken.norms(at - 1, at) in (["is"], ["'s"]) and at < cue.start
        known = LEADING | ON_THE_WAY | SPOTS | {"hand", "landing", "hall", "corridor"}
        placed = {"room", "door", "one"} & set(subject) and all(word in known for word in subject)
        ends = cue.end + (spoken.norms(cue.end, cue.end + 1) == ["'s"])
        if said and placed and ends >= clause.end and stances[cue.start].mode not in NOT_HERE:
            return _of("bedroom", spoken.tokens[cue.end - 1].norm)
    return None
