"""Whether a word of working is the result of a trial: `opens` is, `leaves it open` and `open the window` are not."""

from __future__ import annotations

from itertools import pairwise

from narrate2report.read.lexis.phrase_tree import Mention
from narrate2report.read.speech.clauses import Clause
from narrate2report.read.speech.spoken import Spoken

BARE = frozenset("come run turn work start operate function test".split())
"""Bare verbs that open a clause as an order or invitation: `come on in`."""

INFINITIVE = frozenset("to for will can please you i we me us would should must let may might could".split())

ARTICLES = frozenset("the a an".split())
"""Before a verb they make a noun of it: `plywood over the opening`."""

NOUNS = frozenset("lock latch switch drain light".split())
"""Verbs that are nouns before `on the`, `of`: `lock on the bathroom door`."""

TOLD_APART = frozenset({"on", "of", "in", "for", "at"})

ANYTHING = frozenset("nothing anything everything all each every both any".split())
"""`opening everything`, `light nothing in it`: what something is done to."""

SEEN_TO = (["see", "that", "it"], ["sure", "that", "it"], ["make", "sure", "it"], ["see", "if", "it"])
"""`and see that it runs`: what is to come of somebody's work."""

AT_ONCE = frozenset("right straight immediately instantly down below every each first when as by no nice".split())
BY_MEANS_OF = frozenset("with from off via through using both upstairs downstairs throughout everywhere".split())
"""Words after `comes on` that tell from where it was worked, or where: `with the cord`, `from both ends`."""
EXCEPTED = frozenset("bar except excepting apart barring".split())
"""`they all came on bar one`."""
SPANS = frozenset("second seconds sec secs minute minutes moment bit beat while".split())
"""Words after `comes on` that tell when it did."""

GLOWING = frozenset("red orange green blue white yellow amber bright dim low high full strong".split())
"""How what came on looks: `they all come on red`."""

WELL = frozenset({"well", "good", "smoothly", "fine", "freely"})

STANDING_FOR = frozenset("one ones others rest lot sides side pair pairs self".split())
"""`the two side ones open`, `the rest work`, `the door self-closes`: these stand for what was named."""

WARMED = (["hot"], ["warm"], ["cold"], ["up"], ["through"])
"""Before `quick` they say of what it is said: of the water that comes, and of no drain."""

NONE_OF_THEM = frozenset({"neither", "none"})
"""`neither of them will stay up`."""

GOING = frozenset({"go", "goes", "going"})
SOMEWHERE = frozenset("on in into to under with over behind around against".split())

BY_HABIT = frozenset({"when", "whenever", "until", "before"})

NOT_ENOUGH = frozenset("too partly half barely only".split())

BADLY = frozenset("hard heavy heavily rough roughly stiff stiffly badly poorly slowly unevenly crooked".split())
"""`the slider rolls heavy`, `shuts very badly`: it does so, and not as it should."""

LEFT_SO = frozenset(
    "leave leaves left leaving keep keeps kept found painted stuck nailed screwed sealed propped wedged forget forgets"
    " forgot forgotten forgetting wants want".split()
)

FALLS = frozenset("drop drops fall falls pop pops fly flies creep creeps sag sags flop flops".split())

DOING = (["i", "am"], ["i", "'m"], ["we", "are"], ["we", "'re"])

BEING = frozenset("is 's are was were been".split())

WORKING = frozenset("work works worked working operates responds".split())
ON_AND_ON = frozenset("continuously constantly nonstop forever down onto into along from across corner".split())
"""Words after a verb that make a flaw of it: `refilling continuously`, `running down the wall`."""


def is_no_result(spoken: Spoken, mention: Mention) -> bool:
    """`when it comes up`, `too hot`, `painted it shut`, `leaves the window open`, `drains slowly`: no trial passed."""
    clause = spoken.clause_of(mention.start)
    before = set(spoken.norms(max(0, mention.start - 4), mention.start))
    after = spoken.norms(mention.end, min(clause.end, mention.end + 3))
    said = spoken.norms(mention.start, mention.end)
    ends = {"bottom", "top"} & set(spoken.norms(mention.end))
    goes_to = said[0] in GOING and after[:1] == ["to"]  # not going down to the garage
    if goes_to or (said == ["all", "going"] and after == ["well"]):
        return True
    throughout = len(ends) > 1 and "cold" not in spoken.norms(mention.end)  # hot at the top and at the bottom
    partly = after[:1] == ["at"] and bool(ends) and not throughout
    if clause.link in BY_HABIT or NOT_ENOUGH & set(spoken.norms(max(clause.start, mention.start - 1), mention.start)):
        return True
    if spoken.norms(max(0, mention.start - 1), mention.start) == ["no"] and said in (["heat"], ["light"], ["draw"]):
        return True  # the radiator gives no heat
    if BADLY & set(after[:1]) or (BADLY & set(after[1:2]) and spoken.tokens[mention.end].tag == "RB"):
        return True
    if {"only", "halfway", "partway", "half"} & set(after[:2]):
        return True
    if said[-1] == "on" and mention.end != clause.end and not _tells_when(spoken, mention.end):
        return True
    state = spoken.norms(max(clause.start, mention.start - 1), mention.start)[:1]
    if len(said) == 1 and said[0] in GOING and after[:1] and after[0] in SOMEWHERE and mention.end + 1 < clause.end:
        return True
    if spoken.norms(max(0, mention.start - 3), mention.start) in SEEN_TO or _falls_open(spoken, mention):
        return True
    if said[0] in {"open", "shut", "closed"} and (LEFT_SO & before or (state and state[0] in BEING)):
        return True
    if said in (["open"], ["shut"], ["closed"]) and before & {"get", "getting"}:
        return True  # you have to force it to get it shut
    if said[-1] in {"empty", "drained"} and after[:1] == ["again"]:
        return True  # the plug won't hold water
    if said[-2:] == ["stays", "open"] and mention.end < clause.end and spoken.tokens[mention.end].tag in {"CD", "DT"}:
        return True  # it stays open an inch
    if said in (["quick"], ["fast"]) and spoken.norms(max(0, mention.start - 1), mention.start)[:1] in WARMED:
        return True  # it gets hot quick
    if said == ["check", "out"] and {"the", "last", "a", "this", "at", "on", "before", "since"} & before:
        return True  # it was there at the last check-out
    if _is_enjoined(spoken, clause, mention.start):
        return True
    if "should" in before and "be" in spoken.norms(max(0, mention.start - 1), mention.start):
        return True  # it should be working
    if said == ["work"] and spoken.norms(max(0, mention.start - 1), mention.start) in (["is"], ["'s"], ["are"]):
        return True  # there's work to be done on it
    turned_off = said[0] == "turned" and "off" in after[:2]  # even when it's turned hard off
    on_and_on = bool(ON_AND_ON & set(after[:1])) and said[0] not in WORKING  # but it works from both switches
    on_and_on = on_and_on and said[-1] != "on"  # kicks on down below
    flows = turned_off or on_and_on
    return flows or partly or _is_slow(spoken, mention, clause)


def _is_enjoined(spoken: Spoken, clause: Clause, at: int) -> bool:
    """`check that the oven works before you leave`: told to the resident to do."""
    opening = spoken.tokens[clause.start]
    to_see = opening.norm in {"check", "see", "ensure", "verify", "test"} and opening.tag in {"VB", "VBP", "NN"}
    return to_see and at > clause.start + 1 and bool({"you", "your"} & set(spoken.norms(at)))


def _tells_when(spoken: Spoken, at: int) -> bool:
    """`kicks on a minute later`, `comes on in ten seconds`, `clicks on down below`, `come on red`: what follows is no
    object, but tells when, where or how it went on."""
    following = spoken.norms(at, at + 6)
    clause = spoken.clause_of(at)
    how = spoken.tokens[at].tag in {"JJ", "RB"} or following[0] in GLOWING
    if how and at + 1 == clause.end and spoken.tokens[at - 2].norm not in BEING:
        return True
    if following[:1] and following[0] in AT_ONCE | BY_MEANS_OF | EXCEPTED:
        return True
    return following[0] in {"in", "within", "after", "about", "a", "one", "two", "ten"} and bool(SPANS & set(following))


def _falls_open(spoken: Spoken, mention: Mention) -> bool:
    """`drops open by itself`: what does not stay shut has not passed."""
    before = spoken.norms(max(0, mention.start - 1), mention.start)
    return spoken.tokens[mention.start].norm == "open" and bool(FALLS & set(before))


TAKES_LONG = (["takes", "its"], ["takes", "a"], ["takes", "ages"], ["takes", "forever"], ["taking", "its"])


def _is_slow(spoken: Spoken, mention: Mention, clause: Clause) -> bool:
    """`drains, slowly`, `drains a bit slow`: a drain that takes its time has a flaw and has not passed."""
    if not spoken.norms(mention.start, mention.start + 1)[0].startswith(("drain", "go", "empt")):
        return False
    following = spoken.clauses[clause.index + 1 : clause.index + 2]
    near = (clause, *(one for one in following if not spoken.named_terms(one)))
    earlier = spoken.clauses[max(0, clause.index - 2) : clause.index]
    norms = spoken.norms()
    slow = [at for at, norm in enumerate(norms) if norm in {"slow", "slowly"} or norms[at : at + 2] in TAKES_LONG]
    return any(at in one for at in slow for one in (*near, *(one for one in earlier if not spoken.named_terms(clause))))


def is_explained(spoken: Spoken) -> bool:
    """`press this and the light comes on, that's how you start it`: told so that it is known."""
    norms = spoken.norms()
    how = [at for at, norm in enumerate(norms) if norm == "how" and norms[at - 1 : at] in (["is"], ["'s"])]
    return any(norms[at + 1 : at + 2] in (["you"], ["it"], ["they"], ["this"]) for at in how if at) and not (
        {"supposed", "should", "meant", "ought"} & set(norms)
    )


def is_counted_short(spoken: Spoken, cue: Mention) -> bool:
    """`only two came on`, `that's the works`."""
    clause = spoken.clause_of(cue.start)
    before = spoken.norms(max(clause.start, cue.start - 2), cue.start)
    return before[:1] == ["only"] or before[-1:] == ["the"]


def is_predicate(spoken: Spoken, mention: Mention) -> bool:
    """Whether a verb is said of something as a fact, and not wanted, allowed or done by somebody."""
    before = spoken.norms(max(0, mention.start - 1), mention.start)
    if before and before[0] == "not":
        return True
    if before and before[0] in ARTICLES:
        return False
    if (
        before
        and before[0] == "will"
        and NONE_OF_THEM & set(spoken.norms(spoken.clause_of(mention.start).start, mention.start))
    ):
        return True
    if before and before[0] in INFINITIVE:
        return (before[0] == "to" and _is_in_vain(spoken, mention)) or _does_all_the_same(spoken, mention)
    first = spoken.tokens[mention.start]
    if _is_noun(spoken, mention) or _somebody_is_at_it(spoken, mention) or _tells_of_dirt(spoken, mention):
        return False
    opening = spoken.clause_of(mention.start).start
    while opening < mention.start and spoken.tokens[opening].norm in {"and", "then", "so"}:
        opening += 1
    told_how = spoken.tokens[mention.end - 1].norm in WELL and mention.end - mention.start > 1
    if mention.start == opening and first.norm in BARE and not told_how:
        return False
    return not _done_by_somebody(spoken, mention) and not _takes_object(spoken, mention)


def _is_noun(spoken: Spoken, mention: Mention) -> bool:
    """`lock on the bathroom door`, `roll-in shower`, `some light scratching`: no verb, whatever its tag."""
    after = spoken.tokens[mention.end : mention.end + 1]
    if not after or mention.end - mention.start > 1:
        return False
    first, begins = spoken.tokens[mention.start], spoken.clause_of(mention.start).start == mention.start
    if spoken.text[first.end : first.end + 1] == "-" or (
        begins and first.norm in NOUNS and after[0].norm in TOLD_APART
    ):
        return True
    flaw = any(term.start == mention.end and term.of("condition") for term in spoken.found.terms)
    heads = begins and first.tag in {"NN", "VB", "NNP"} and after[0].tag == "NN"  # spin cycle is loud
    run_through = first.tag == "NN" and first.norm == "cycle"  # the short cycle
    if _is_found(spoken, mention):
        return True
    return heads or run_through or (first.tag in {"JJ", "NN"} and first.norm == "light" and flaw)


def _is_found(spoken: Spoken, mention: Mention) -> bool:
    """`there's one ding in the wall`: a flaw that was counted, and no sound; `the other one slides` is none."""
    clause, at = spoken.clause_of(mention.start), mention.start
    noun = spoken.tokens[at].tag.startswith("NN") and bool(mention.of("condition"))
    counted = at > clause.start and spoken.tokens[at - 1].tag in {"CD", "JJ"}
    return noun and counted and any(token.is_finite for token in spoken.tokens[clause.start : at])


def _tells_of_dirt(spoken: Spoken, mention: Mention) -> bool:
    """`there's carbon baked on the floor of it`: how the dirt before it came to be there, and nothing that it does."""
    done = spoken.tokens[mention.end - 1].tag in {"VBN", "VBD"} and mention.end - mention.start == 1
    return done and any(term.end == mention.start and term.of("condition") for term in spoken.found.terms)


def _somebody_is_at_it(spoken: Spoken, mention: Mention) -> bool:
    """`I'm filling two inches`, `I am running it`: a trial that is only begun."""
    at = mention.start - 1
    while at > 0 and spoken.tokens[at].tag == "RB":
        at -= 1
    return spoken.tokens[mention.start].tag == "VBG" and spoken.norms(at - 1, at + 1) in DOING


def _does_all_the_same(spoken: Spoken, mention: Mention) -> bool:
    """`it wobbles, but it'll run`: told of what it does, whatever is wrong with it."""
    clause = spoken.clause_of(mention.start)
    said = [norm for norm in spoken.norms(clause.start, mention.start) if norm not in {"but", "still"}]
    return clause.link == "but" and said in (["it", "will"], ["she", "will"], ["he", "will"], ["they", "will"])


def _is_in_vain(spoken: Spoken, mention: Mention) -> bool:
    """`I can't get the window to close`."""
    clause = spoken.clause_of(mention.start)
    norms = spoken.norms(clause.start, mention.start)
    named = [one for one in spoken.named_in(clause) if one.end == mention.start - 1]
    return bool(named) and any(pair in {("not", "get"), ("never", "get")} for pair in pairwise(norms))


def _takes_object(spoken: Spoken, mention: Mention) -> bool:
    """`I'm flipping the switch`, `turning this off`, `and open the window`: what follows is what it is done to."""
    clause, tag = spoken.clause_of(mention.start), spoken.tokens[mention.start].tag
    after = spoken.norms(mention.end, min(clause.end, mention.end + 1))
    before = spoken.norms(max(clause.start, mention.start - 1), mention.start)
    by_somebody = tag == "VBG" or not before or before[0] in {"i", "we", "you", "and", "then", "so", "kindly", "just"}
    if tag in {"VBZ", "VBD", "VBN"} or not after or not by_somebody:
        return False
    if after[0] in {"it", "them"} | ANYTHING or (
        after[0] in {"this", "that"} and spoken.tokens[mention.start].tag == "VBG"
    ):
        return True
    taken = any(mention.end < one.start <= mention.end + 3 and one.start in clause for one in spoken.named)
    return after[0] in {"the", "this", "that", "each"} and taken


def _done_by_somebody(spoken: Spoken, mention: Mention) -> bool:
    """`the plumber opens that wall`: the word before the verb is a noun that names no component."""
    clause = spoken.clause_of(mention.start)
    at = mention.start - 1
    while at >= clause.start and spoken.tokens[at].tag in {"RB", "RBR"}:
        at -= 1
    if at < clause.start or spoken.tokens[at].tag not in {"NN", "NNS", "NNP", "NNPS"}:
        return False
    if any(one.start <= at < one.end for one in spoken.named) or spoken.tokens[at].norm in STANDING_FOR:
        return False
    return not any(term.start <= at < term.end for term in spoken.found.terms)
