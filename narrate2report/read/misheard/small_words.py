"""Small words that a recogniser takes for others of the same sound: `patch that in touch up the paint` is `and`.

A small word stands in every sentence and says nothing of the trade; only its grammar tells that it was another. Each
rule holds where the word as it was heard makes no sentence.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from narrate2report.read.lexis.words import Token
from narrate2report.read.speech.changes import Change
from narrate2report.read.speech.clauses import MARKS

SURE = 0.75

HANDED = frozenset("keys fobs remotes passes openers clickers cards".split())
OWNERS = frozenset(
    "house door apartment flat mailbox mail front back garage gate unit patio shed pool gym closet storage".split()
)
"""`to house keys`: nobody goes to keys of no certain house."""

LEADS_ON = frozenset("on down next over now moving come comes get gets got going goes due thanks access back".split())
"""`moving on to house keys`: before `to` they lead there."""

COUNTING = frozenset("are were with missing".split())
"""Before a plural these want a number: `there are to holes`."""

DONE = frozenset("touch patch repaint replace repair fix wipe sand caulk seal tighten re".split())
OBJECTS = frozenset("the it that this them those up".split())

TRIED = frozenset("tested tried checked ran opened pressed flushed turned plugged did".split())

ROOMS = frozenset("bath bathroom closet".split())
AFTER_ROOMS = frozenset("is 's has light lights smoke and".split())

MOVES = frozenset("open close shut work lock latch light heat slide turn run line flush drain spin".split())


WEARING = frozenset("has have show shows some normal heavy light no little much beyond regular usual".split())
PLACES = frozenset("in on at along near by around from down".split())


def small_words(tokens: Sequence[Token]) -> Iterator[Change]:
    """The small words of a sentence that were others."""
    norms = [token.norm for token in tokens]
    for at, norm in enumerate(norms):
        rule = RULES.get(norm)
        if rule is not None and (read := rule(tokens, norms, at)) is not None:
            begin, meant, why = read
            yield Change(begin, at + 1, meant, why, SURE)


Read = tuple[int, str, str] | None
"""From which token on, what was meant, and why."""


def _two(tokens: Sequence[Token], norms: Sequence[str], at: int) -> Read:
    """`I got back to house keys`, `to of the slats are bent`, `there are to holes`."""
    before, after = norms[at - 1] if at else "", norms[at + 1 : at + 4]
    opens = not at or tokens[at - 1].text in MARKS
    keys = next((place for place, norm in enumerate(after) if norm in HANDED), 0)
    handed = bool(keys) and set(after[:keys]) <= OWNERS
    if handed and (opens or before not in LEADS_ON or norms[max(0, at - 2) : at] == ["got", "back"]):
        return at, "two", "sounds like 'two', which the keys after it call for"
    if opens and after[:2] in (["of", "the"], ["of", "them"], ["of", "these"], ["of", "those"]):
        return at, "two", "sounds like 'two', as it takes 'of'"
    counted = at + 1 < len(tokens) and tokens[at + 1].tag == "NNS" and before in COUNTING
    return (at, "two", f"sounds like 'two', as a plural stands after '{before} to'") if counted else None


def _four(tokens: Sequence[Token], norms: Sequence[str], at: int) -> Read:
    """`there are for burners`, `for of them lock`."""
    before, after = norms[at - 1] if at else "", norms[at + 1 : at + 3]
    opens = not at or tokens[at - 1].text in MARKS
    if opens and after in (["of", "the"], ["of", "them"], ["of", "these"], ["of", "those"]):
        return at, "four", "sounds like 'four', as it takes 'of'"
    counted = after[:1] and tokens[at + 1].tag == "NNS" and norms[max(0, at - 2) : at] in (["there", "are"],)
    return (at, "four", f"sounds like 'four', as a plural stands after '{before} for'") if counted else None


def _and(tokens: Sequence[Token], norms: Sequence[str], at: int) -> Read:
    """`patch that in touch up the paint`: work goes on after other work."""
    after = norms[at + 1 : at + 3]
    if len(after) < 2 or after[0] not in DONE or after[1] not in OBJECTS or not at or after == ["touch", "the"]:
        return None
    worked = any(token.tag in {"VB", "VBP"} or token.norm in DONE for token in tokens[:at])
    return (at, "and", f"sounds like 'and', which '{after[0]}' after other work calls for") if worked else None


def _in(tokens: Sequence[Token], norms: Sequence[str], at: int) -> Read:
    """`one of the shelves and the fridge has a crack`: one alone has it. `on the floor and two pieces`: broken."""
    broken = norms[at + 1 : at + 3] in (["two", "pieces"], ["three", "pieces"], ["two", "halves"])
    if broken and norms[at + 3 : at + 4] != ["of"] and at and tokens[at - 1].tag in {"NN", "IN", "RB", "VBN"}:
        return at, "in", f"sounds like 'in', as '{norms[at + 2]}' tell what became of it"
    lead = norms[max(0, at - 5) : at]
    if "one" not in lead or lead[lead.index("one") + 1 : lead.index("one") + 3] != ["of", "the"]:
        return None
    after = tokens[at + 1 : at + 4]
    named = len(after) == 3 and after[0].norm == "the" and after[1].tag == "NN" and after[2].tag == "VBZ"
    plural = tokens[at - 1].tag == "NNS"
    return (at, "in", f"sounds like 'in', as '{after[2].norm}' is said of one") if named and plural else None


def _every_one(tokens: Sequence[Token], norms: Sequence[str], at: int) -> Read:
    """`I plugged my lamp in everyone, they all work`: things that were tried, and no people."""
    closes = at + 1 == len(tokens) or tokens[at + 1].text in MARKS
    before = norms[at - 1] if at else ""
    tried = before in TRIED or (before in {"in", "into", "on"} and bool(TRIED & set(norms[:at])))
    all_of_them = before == "," and "all" in norms[: at - 1] and any(one.tag == "NNS" for one in tokens[: at - 1])
    if closes and (tried or all_of_them):
        return at, "every one", "sounds like 'every one', of things and not of people"
    return None


def _hall(tokens: Sequence[Token], norms: Sequence[str], at: int) -> Read:
    """`All bath.`: a room of which there is one, and a corridor that it is on."""
    after = tokens[at + 1 : at + 3]
    if not after or after[0].norm not in ROOMS or (at and tokens[at - 1].text not in MARKS and norms[at - 1] != "the"):
        return None
    alone = len(after) == 1 or after[1].text in MARKS or after[1].norm in AFTER_ROOMS
    return (at, "hall", f"sounds like 'hall', as '{after[0].norm}' is one room") if alone else None


def _plural(tokens: Sequence[Token], norms: Sequence[str], at: int) -> Read:
    """`the door's all close`: several doors, and what they do."""
    after = norms[at + 1 : at + 3]
    if not at or len(after) < 2 or after[0] not in {"all", "both"} or after[1] not in MOVES:
        return None
    if not tokens[at - 1].tag.startswith("NN"):
        return None
    return at - 1, f"{tokens[at - 1].text}s", f"sounds alike, as '{after[0]} {after[1]}' is said of several"


def _wear(tokens: Sequence[Token], norms: Sequence[str], at: int) -> Read:
    """`some where on the carpet`, `damage beyond where.`: a noun, as there is no place that it leads to."""
    ends = at + 1 == len(tokens) or tokens[at + 1].text in MARKS
    if at > 1 and norms[at - 1] in WEARING and (ends or norms[at + 1] in PLACES):
        return at, "wear", f"sounds like 'wear', which '{norms[at - 1]}' calls for"
    return None


RULES = {
    "where": _wear,
    "to": _two,
    "too": _two,
    "for": _four,
    "in": _and,
    "and": _in,
    "everyone": _every_one,
    "all": _hall,
    "'s": _plural,
}
