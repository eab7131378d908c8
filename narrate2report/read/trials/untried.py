"""Words that say, however they are put together, that nobody tried a thing: `haven't had a chance to test it`, `no
one's switched it on yet`, `still to be tried`.

What a verb of trying is denied by may stand some words before it; which thing was meant is settled by `untested`.
"""

from __future__ import annotations

from collections.abc import Iterator

from narrate2report.read.lexis.inflect import infinitive
from narrate2report.read.lexis.phrase_tree import Mention
from narrate2report.read.speech.clauses import LEADING, Clause
from narrate2report.read.speech.sayings import first_saying
from narrate2report.read.speech.spoken import Spoken
from narrate2report.read.things.pointing import POINTING

TRIES = frozenset("test try check operate prove verify commission".split())
"""What people do to a thing, so that denying it leaves the thing untried."""

STARTS = frozenset("run start light flush".split())
"""What a thing does as well: `the fan doesn't start` is a failure, `we didn't start the fan` is none."""

SWITCHES = {
    "turn": {"on"}, "switch": {"on"}, "put": {"on"}, "power": {"on", "up"}, "fire": {"up"}, "start": {"up"},
    "try": {"out"}, "have": {"on", "going", "running"},
}  # fmt: skip
"""The same told by a verb and its particle, which may stand behind what it is done to."""

REACH = 4
"""Tokens between a verb and its particle: `turn the big oven on`."""

DENIES = frozenset("not never without nobody unable rather instead".split())
LACKS = frozenset({"no"})

BETWEEN = frozenset(
    "to be been being get got gotten getting able going gonna have had has having did do does a an the any enough much"
    " chance time round around bother bothered bothering with want wanted allowed possible point power way opportunity"
    " need reason means actually really even ever yet just properly fully personally it that them this one 's was were"
    " is are of for about plan planning trying attempt manage managed going i we anyone anybody safe worth in here"
    " able authority permission electricity electric gas water had's 'd electrics key currently today"
    " occasion call moving shifting emptying unloading unpacking dragging climbing lifting clearing all those his her"
    " their stuff things boxes dishes furniture".split()
)
"""What may stand between a denial and the verb that it denies."""

SPEAKERS = frozenset("i we nobody".split())
PASSIVE = frozenset("been be being was were is are get got 's".split())
AUXILIARY = frozenset("did do does have has had was were is are am could can will would 'd".split())

TESTS = frozenset("test tests testing trial".split())
AFTER_TEST = frozenset("on of for today done carried possible this time there here made".split())
TESTABLE = frozenset("test try check".split())
LATER = (
    ["another", "day"], ["another", "time"], ["next", "time"], ["later"], ["when"], ["once"], ["tomorrow"],
    ["some", "other"], ["on", "another"], ["next", "visit"],
)  # fmt: skip
"""Put off, so that it was not tried today."""

WHEN = frozenset("today tonight yet now".split())
AT_HAND = {
    ("with", "me"), ("on", "me"), ("to", "hand"), ("to", "try"), ("to", "test"), ("for", "it"), ("to", "put"),
    ("on", "today"), ("on", "yet"),
}  # fmt: skip
"""What one has to try a thing with, or has not."""

LEFT = frozenset("left leave leaving".split())
AS_IT_IS = frozenset("alone be off today there as is was for now".split())
TELLS = frozenset("tell say judge show prove".split())
ABOUT_IT = frozenset("about that it this you for to now today really sorry".split())

STILL = frozenset("still yet".split())


def find_untried(spoken: Spoken) -> Iterator[Mention]:
    """The stretches that say so, from the word that denies to the verb, in order."""
    for clause in spoken.clauses:
        for at in range(clause.start, clause.end):
            found = next((mention for reads in WAYS if (mention := reads(spoken, clause, at)) is not None), None)
            if found is not None:
                yield found
                break


def _verb_at(spoken: Spoken, clause: Clause, at: int) -> tuple[str, int] | None:
    """The verb of trying at a token, and the token after it: `test` for `tested`, `turn on` for `turned it on`."""
    token = spoken.tokens[at]
    if not token.norm.isalpha():
        return None
    verb = infinitive(token.norm)
    for here in range(at + 1, min(clause.end, at + 1 + REACH)):
        if spoken.tokens[here].norm in SWITCHES.get(verb, set()) and not _leads_on(spoken, here):
            return f"{verb} on", here + 1
    return (verb, at + 1) if verb in TRIES | STARTS else None


def _leads_on(spoken: Spoken, at: int) -> bool:
    """`put pans on the counter`: a preposition, and no part of the verb."""
    after = spoken.tokens[at + 1 : at + 2]
    return any(token.tag in {"DT", "NN", "NNS", "PRP$"} and token.norm not in WHEN for token in after)


def _denied(spoken: Spoken, clause: Clause, at: int) -> Mention | None:
    """`haven't tested it`, `couldn't get to try it`, `has not been switched on`, `no time to run it`."""
    found = _verb_at(spoken, clause, at)
    if found is None or (spoken.tokens[at].tag in {"NN", "NNS"} and spoken.norms(at - 1, at) in (["the"], ["a"])):
        return None
    denial = at - 1
    while denial >= clause.start and spoken.tokens[denial].norm in BETWEEN:
        denial -= 1
    norms = spoken.norms()
    if denial < clause.start:
        return None
    by = norms[denial]
    if norms[denial : denial + 2] == ["no", "one"]:
        by = "nobody"
    if by in {"rather", "instead"} and not {"than", "of", "not"} & set(norms[denial + 1 : at]):
        return None
    if by in LACKS:
        if "to" not in norms[denial:at] and "of" not in norms[denial:at]:
            return None
    elif by not in DENIES:
        return None
    if _is_of_else(spoken, clause, at):
        return None
    verb, end = found
    return Mention(denial, end) if _is_somebodys(spoken, clause, denial, at, verb) else None


def _is_of_else(spoken: Spoken, clause: Clause, at: int) -> bool:
    """`nobody's lit a cigarette`: what was left alone is no component."""
    following = spoken.tokens[at + 1 : min(clause.end, at + 4)]
    if not following or following[0].tag not in {"DT", "PRP$"} or following[0].norm in POINTING:
        return False
    return any(token.tag in {"NN", "NNS"} for token in following) and not spoken.named_in(clause)


def _is_somebodys(spoken: Spoken, clause: Clause, denial: int, at: int, verb: str) -> bool:
    """Whether somebody left it untried, where `the fan doesn't start` would be the fan's failure."""
    norms = spoken.norms()
    if norms[denial] in LACKS | {"nobody"}:
        return True
    before, between = norms[clause.start : denial], set(norms[denial + 1 : at])
    if not SPEAKERS & set(before) and (before[-1:] == ["do"] or (norms[denial] == "never" and not between)):
        return False  # don't try that, never run it empty
    if spoken.tokens[at].tag in {"VBN", "VBD", "JJ"} and PASSIVE & (between | set(before[-1:])):
        return True
    named = spoken.named_tokens()
    noted = {norm for here, norm in enumerate(before, clause.start) if here not in named} <= LEADING | {"the"}
    if noted and not between and spoken.tokens[at].tag != "VBG":
        return True  # dishwasher: not run
    helped = before[-1:] != [] and before[-1] in {"can", "could"}
    if verb in TRIES or (verb == "run" and before[-1:] == ["can"] and SPEAKERS & set(before)):
        return True  # the AC I can't run, it's too cold out
    if helped or "get" in between or "unable" in norms[denial : denial + 1]:
        return bool({"chance", "time", "round", "around"} & between)
    return bool(SPEAKERS & set(before)) or (all(norm in AUXILIARY for norm in before) and at + 1 < clause.end)


def _no_test(spoken: Spoken, clause: Clause, at: int) -> Mention | None:
    """`so no test on that`, `no testing today`."""
    norms = spoken.norms(at, clause.end)
    if norms[:1] != ["no"] or norms[1:2] == [] or norms[1] not in TESTS:
        return None
    if norms[2:] and norms[2] not in AFTER_TEST:
        return None
    return Mention(at, at + 2)


def _put_off(spoken: Spoken, clause: Clause, at: int) -> Mention | None:
    """`still needs to be tested`, `have to test it another day`: not today."""
    found = _verb_at(spoken, clause, at)
    norms = spoken.norms()
    if found is None or found[0] not in TESTABLE:
        return None
    before = norms[clause.start : at]
    if STILL & set(before) and before[-1:] in (["be"], ["needs"], ["need"]):
        return Mention(at, at + 1)
    if before[-1:] == ["to"] or {"will", "'ll"} & set(before):
        rest = norms[at + 1 : clause.end]
        for words in LATER:
            if any(rest[here : here + len(words)] == words for here in range(len(rest))):
                return Mention(at, at + 1)
    return None


def _lacks_means(spoken: Spoken, clause: Clause, at: int) -> Mention | None:
    """`I didn't bring a lamp with me`, `no batteries on me`: nothing at hand to try it with."""
    norms = spoken.norms(at, clause.end)
    brought = norms[:1] == ["not"] and norms[1:2] != [] and norms[1] in {"bring", "have", "got", "get"}
    if not brought and norms[:1] != ["no"]:
        return None
    for here in range(2, min(len(norms) - 1, REACH + 2)):
        if tuple(norms[here : here + 2]) in AT_HAND:
            return Mention(at, at + here + 2)
    return None


def _left_so(spoken: Spoken, clause: Clause, at: int) -> Mention | None:
    """`there's stuff in it, so I left it`: left as it was, and so not run."""
    norms = [norm for norm in spoken.norms(at, clause.end) if norm not in AUXILIARY | {"'ve", "'m", "just", "so"}]
    left = norms[:1] != [] and norms[0] in SPEAKERS and norms[1:2] != [] and norms[1] in LEFT
    if clause.link != "so" or not left or norms[2:3] == [] or norms[2] not in {"it", "them", "that"}:
        return None
    return Mention(at, clause.end) if set(norms[3:]) <= AS_IT_IS else None


def _cannot_tell(spoken: Spoken, clause: Clause, at: int) -> Mention | None:
    """`the ice maker was off, so I can't tell`: what is off shows nobody whether it works."""
    norms = spoken.norms(at, clause.end)
    if norms[:1] not in (["can"], ["could"]) or norms[1:2] != ["not"] or norms[2:3] == [] or norms[2] not in TELLS:
        return None
    off = any(
        {"off", "unplugged", "disconnected"} & set(spoken.norms(other.start, other.end))
        or first_saying(spoken.norms(other.start, other.end), (["not", "on"],)) is not None
        for other in spoken.clauses
        if other.index != clause.index
    )
    return Mention(at, at + 3) if off and set(norms[3:]) <= ABOUT_IT else None


WAYS = (_denied, _no_test, _put_off, _lacks_means, _left_so, _cannot_tell)
"""The ways to say so, in the order they are asked at each token."""
