"""Which of the things that change hands do, and how many: not `the card you buy from the machine`."""

from __future__ import annotations

from itertools import pairwise
from typing import Final

from narrate2report.read.lexis.numbers import whole_number
from narrate2report.read.speech.spoken import Named, Spoken

SINGLE = frozenset("key mailbox_key fob gate_card garage_remote remote_control".split())
"""What is handed over singly: `the fob for the side gate` is one."""

DEFINITE = frozenset({"the", "that", "this", "my", "old", "spare", "other"})
ANOTHER = frozenset("second third replacement another extra lost additional new".split())
MONEY = frozenset("dollar dollars euro euros pound pounds bucks quid each cents $ € £".split())
BOUGHT = frozenset({"buy", "bought", "purchase"})
GIVERS = frozenset("office society machine shop company agency concierge".split())


def the_one(spoken: Spoken, one: Named) -> int | None:
    """`the chip for the garage door`, `this book is for the boiler`: one, where it is named in the singular as a
    certain one."""
    clause = spoken.clause_of(one.start)
    before = spoken.norms(max(clause.start, one.start - 3), one.start)
    singular = spoken.tokens[one.end - 1].tag not in {"NNS", "NNPS"}
    told = spoken.norms(one.end, one.end + 2) == ["is", "for"]
    here = spoken.norms(one.end, one.end + 2) in (["'s", "here"], ["is", "here"], ["'s", "back"], ["is", "back"])
    if one.component in SINGLE and singular and here:
        return 1  # garage clicker's here
    if one.component == "manual" and told and "this" in spoken.norms(max(clause.start, one.start - 1), one.end):
        return 1
    return 1 if one.component in SINGLE and singular and DEFINITE & set(before) else None


TALLIES: Final = frozenset(
    "they that this it 's is so and just only the all in makes i make there are have got left".split()
)
OF_THEM: Final = (["of", "them"], ["of", "those"], ["of", "these"])


def counted_after(spoken: Spoken, one: Named) -> int | None:
    """`garage remotes, two of them`, `gate cards, so that's three cards`, `a fob, just the one`: the number that a
    later clause tells of what was named, where only one kind of thing is handed over."""
    if any(other.component in SINGLE and other.component != one.component for other in spoken.named):
        return None
    for clause in spoken.clauses[spoken.clause_of(one.start).index + 1 :]:
        for at in range(clause.start, clause.end):
            number = whole_number(spoken.tokens, at)
            if number is None:
                continue
            end = number[1]
            same = any(other.start <= end < other.end and other.component == one.component for other in spoken.named)
            led = set(spoken.norms(clause.start, at)) <= TALLIES
            if led and (end == clause.end or same or spoken.norms(end, end + 2) in OF_THEM):
                return number[0]
            break
    return None


BEHIND: Final = frozenset(
    "only just number numbers nos piece pieces pcs of them those back is are here in there total all accounted for"
    " returned present both".split()
)
HAVING: Final = frozenset("i we have got has with me us also too he she they gave returned".split())


def told_behind(spoken: Spoken, one: Named) -> int | None:
    """`keys, all three are back`, `mailbox key one only`, `gate remote also I have, one number`: the number behind."""
    for clause in spoken.clauses[spoken.clause_of(one.start).index + 1 :][:2]:
        norms = spoken.norms(clause.start, clause.end)
        lead = 0
        while lead < len(norms) and norms[lead] in {"all", "only", "just"}:
            lead += 1
        number = whole_number(spoken.tokens, clause.start + lead) if lead < len(norms) else None
        if number is not None:
            return number[0] if set(spoken.norms(number[1], clause.end)) <= BEHIND else None
        if not set(norms) <= HAVING:
            return None
    return None


HELD: Final = frozenset("had given issued".split())
HOLDERS: Final = frozenset("they he she you tenant tenants resident residents".split())
NOT_ONE: Final = frozenset("none not no never neither nothing".split())
CAME_BACK: Final = frozenset("have got back returned return gave give came here see seen".split())


def is_held_back(spoken: Spoken, one: Named) -> bool:
    """`they had two fobs and I don't have any of them`, `he was given three keys and gave none back`: what was handed
    out once and is denied to be here since."""
    clause = spoken.clause_of(one.start)
    before = set(spoken.norms(clause.start, one.start))
    if not (HELD & before and HOLDERS & before):
        return False
    for later in spoken.clauses[clause.index + 1 : clause.index + 3]:
        if any(other.start in later for other in spoken.named):
            return False
        norms = set(spoken.norms(later.start, later.end))
        if NOT_ONE & norms and CAME_BACK & norms:
            return True
    return False


LACKED: Final = frozenset("missing lacking short down".split())
LATER: Final = frozenset(
    "later tomorrow monday tuesday wednesday thursday friday saturday sunday next once after when week ready".split()
)


def is_lacked(spoken: Spoken, one: Named) -> bool:
    """`we're missing one fob`, `still short a key`: what should have come back, with the word for that before it."""
    clause = spoken.clause_of(one.start)
    before = list(spoken.norms(max(clause.start, one.start - 5), one.start))
    at = next((at for at, norm in enumerate(before) if norm in LACKED), None)
    if at is None or {"not", "n't", "nothing"} & set(before[:at]):
        return False
    between = set(before[at + 1 :]) - {"the", "a", "of", "their", "his", "her", "your", "door", "back", "front", "one"}
    return all(word.isdigit() or word in NUMBERS for word in between)


NUMBERS: Final = frozenset("two three four five six".split())


def is_to_follow(spoken: Spoken, one: Named) -> bool:
    """`the remote I don't have yet`, `I'll give you the fob tomorrow`: what has not changed hands so far."""
    clause = spoken.clause_of(one.start)
    after = spoken.norms(one.end)
    if "not" in after[:5] and "yet" in after[:7] and {"have", "got"} & set(after[:5]):
        return {"i", "we"} & set(after[:3]) != set()
    promised = {"will", "'ll"} & set(spoken.norms(clause.start, one.start))
    return bool(promised) and bool(LATER & set(after[:6]))


def is_tally(spoken: Spoken, one: Named) -> bool:
    """`gate cards for each of you, so that's three cards`: the second name only tells how many there were."""
    clause = spoken.clause_of(one.start)
    return bool(clause.index) and set(spoken.norms(clause.start, one.start - 1)) <= TALLIES


def comes_from_others(spoken: Spoken, one: Named) -> bool:
    """`the gate card you will get from the office, not from me`: what the speaker does not hand over."""
    others = [other.start for other in spoken.named if other.start >= one.end and other.component in SINGLE]
    after = spoken.norms(one.end, others[0] if others else None)
    if ("from", "me") in pairwise(after) and "not" in after:
        return True
    if BOUGHT & set(after[:4]):
        return True
    getting = "get" in after[:4] and "from" in after
    return getting and bool(GIVERS & set(after[after.index("from") : after.index("from") + 4]))


def is_priced(spoken: Spoken, one: Named) -> bool:
    """`a second card's twenty-five dollars if you lose it`: what another one would cost."""
    clause = spoken.clause_of(one.start)
    before = spoken.norms(max(clause.start, one.start - 3), one.start)
    return bool(ANOTHER & set(before)) and bool(MONEY & set(spoken.norms(one.end, clause.end)))


def heads_list(spoken: Spoken) -> bool:
    """`Keys: two for the front door, and the fob`: a list under the heading of keys, whose items are numbered."""
    heads = [one for one in spoken.named if one.component == "key" and spoken.tokens[one.end - 1].tag == "NNS"]
    return bool(heads) and any(
        whole_number(spoken.tokens, clause.start) for clause in spoken.clauses if clause.start >= heads[0].end
    )


def left_by_them(spoken: Spoken, one: Named) -> int | None:
    """`keys, they left three on the counter`: the number told in the clause after the heading."""
    clause = spoken.clause_of(one.start)
    following = spoken.clauses[clause.index + 1 : clause.index + 2]
    if one.end != clause.end or not spoken.tokens[one.end - 1].norm.endswith("s") or not following:
        return None
    later = following[0]
    norms = spoken.norms(later.start, later.end)
    gave = {"left", "returned", "gave", "dropped", "handed", "brought"} & set(norms[1:3])
    if norms[:1] not in (["they"], ["he"], ["she"], ["you"]) or not gave:
        return None
    for at in range(later.start + 2, min(later.end, later.start + 5)):
        number = whole_number(spoken.tokens, at)
        if number is not None:
            noun = spoken.tokens[number[1] : number[1] + 1]
            return None if noun and noun[0].tag in {"NN", "NNS"} else number[0]
    return None
