"""Words for flaws that tell how bad another one is, what a thing does not suffer, and what only looked like one."""

from __future__ import annotations

from narrate2report.read.lexis.phrase_tree import Mention
from narrate2report.read.speech.spoken import Spoken

BAD = frozenset("nasty gross vile ugly rotten filthy mean sorry good decent fine fair proper beautiful lovely".split())
SOUND = frozenset({"good", "clean", "new", "present", "repaired", "freshly_painted"})


def is_how_bad(spoken: Spoken, mention: Mention) -> bool:
    """`a nasty scrape`, `one good gouge`: how bad the flaw is, and neither dirt nor praise."""
    if mention.end - mention.start > 1 or spoken.tokens[mention.start].norm not in BAD:
        return False
    described = [token.tag for token in spoken.tokens[mention.end : mention.end + 1]] == ["JJ"]
    starts = {mention.end, mention.end + described}  # a nasty deep scrape
    return any(
        term.start in starts and any(sense.form == "noun" and sense.id not in SOUND for sense in term.of("condition"))
        for term in spoken.terms("condition")
    )


NEAR = frozenset("near beside by".split())


def is_no_quality(spoken: Spoken, mention: Mention) -> bool:
    """`a crack clean across it`, `none that I can see or smell`, `near the coat hooks`: how far it goes, what somebody
    does, and where it is."""
    said, after = spoken.norms(mention.start, mention.end), spoken.norms(mention.end, mention.end + 1)
    beside = spoken.norms(max(0, mention.start - 3), mention.start)
    if {sense.id for sense in mention.of("condition")} == {"debris"} and NEAR & set(beside) and "the" in beside:
        return True  # scuffs near the coat hooks
    if said == ["clean"] and after and after[0] in {"across", "through", "off"}:
        return True
    return said == ["smell"] and spoken.norms(max(0, mention.start - 2), mention.start) == ["see", "or"]


FILLED = frozenset("filled patched puttied plugged spackled plastered".split())
FILLABLE = frozenset({"hole", "nail_hole", "crack", "dent", "gouge"})
BEEN = frozenset("been was were got is are 's have has had all".split())


def is_filled_since(spoken: Spoken, mention: Mention) -> bool:
    """`where a hole's been filled`: a patch is there, and no hole."""
    if not {sense.id for sense in mention.of("condition") if not sense.beside} <= FILLABLE:
        return False
    after = spoken.norms(mention.end, mention.end + 4)
    at = next((at for at, norm in enumerate(after) if norm in FILLED), 0)
    return at > 0 and set(after[:at]) <= BEEN


ASKING = frozenset("measure measuring ask asked asking quote shop order ordering ordered".split())
CARRIED = frozenset("van truck car boot trunk pickup".split())


def is_yet_to_be_bought(spoken: Spoken, mention: Mention) -> bool:
    """`that's a whole new counter`, `you're buying a new one`, `it's not new`: what would have to be had."""
    if spoken.norms(mention.start, mention.start + 1) == ["is"] and "my" in spoken.norms(mention.end, mention.end + 1):
        return bool(CARRIED & set(spoken.norms(mention.end, mention.end + 2)))
    if "new" not in spoken.norms(mention.start, mention.end):
        return False
    before = spoken.norms(max(0, mention.start - 3), mention.start)
    after = spoken.norms(mention.end, mention.end + 4)
    if after[1:3] == ["to", "go"] or (before[-1:] == ["for"] and ASKING & set(spoken.norms(0, mention.start))):
        return True  # a new stop to go on there, asked the office for a new rail
    if {"might", "may", "could"} & set(spoken.norms(max(0, mention.start - 5), mention.start)):
        return True  # I might put a new vanity in
    if CARRIED & set(spoken.norms(mention.end)) and "my" in spoken.norms(mention.end):
        return True  # a new plate is in my van
    paid = {"buy", "buying", "bringing", "fetching"} & set(before) or before[:2] == ["paying", "for"]
    return bool(paid) or before[-1:] in (["whole"], ["not"])


PRAISE = frozenset({"good", "new", "clean"})
FOR_SOMEBODY = (["for", "her"], ["for", "him"], ["for", "them"], ["for", "you"], ["for", "me"], ["for", "us"])
STANDS_FOR = frozenset(
    "side sides end ends part parts piece bit unit one ones set pair thing things stuff job work finish order shape"
    " condition nick state repair fit fitting model kind sort type colour color area area surface inside outside top"
    " bottom front back half face edge edges corner clean coat look working running deal buy quality stone wood metal"
    " brick concrete plastic rubber glass timber action motion seal runners hardware order standard go lot all nothing"
    " something anything everything press click beep flush spin run".split()
)
"""Nouns whose praise is that of the component, or of how it goes."""


def praises_another(spoken: Spoken, mention: Mention) -> bool:
    """`a good six inches`, `four great craters`, `two grand easy`: praise of a noun that is no part of a home."""
    if mention.end - mention.start > 1 or not {sense.id for sense in mention.of("condition")} <= PRAISE:
        return False
    word = spoken.tokens[mention.start].norm
    if word == "grand" and mention.start and spoken.tokens[mention.start - 1].tag == "CD":
        return True  # eleven grand
    if word == "good" and spoken.norms(mention.end, mention.end + 2) in FOR_SOMEBODY:
        return True
    if spoken.tokens[mention.start].tag not in {"JJ", "NN", "NNP", "RB"}:
        return False
    clause, at = spoken.clause_of(mention.start), mention.end
    while at < clause.end and spoken.tokens[at].tag in {"JJ", "CD", "VBN"} and not _is_term(spoken, at):
        at += 1
    if at >= clause.end or spoken.tokens[at].tag not in {"NN", "NNS"} or _is_term(spoken, at):
        return False
    if at + 1 < clause.end and (_is_term(spoken, at + 1) or spoken.tokens[at + 1].tag in {"NN", "NNS"}):
        return False
    return spoken.tokens[at].norm not in STANDS_FOR and not _is_said_first(spoken, mention)


def _is_term(spoken: Spoken, at: int) -> bool:
    """Whether the token belongs to a word that the vocabulary knows, but for the flaws of single components."""
    return any(
        term.start <= at < term.end and any(not sense.beside for sense in term.senses) for term in spoken.found.terms
    )


def _is_said_first(spoken: Spoken, mention: Mention) -> bool:
    """`blinds good no damage`: praise right after what it is of."""
    return any(one.end == mention.start for one in spoken.named)


LIKENED = (["looks", "like"], ["looked", "like"], ["look", "like"])


def only_looks_like(spoken: Spoken, mention: Mention) -> bool:
    """`it looks like mould but it wipes straight off`: taken for a flaw, and gone with a finger."""
    clause = spoken.clause_of(mention.start)
    before = spoken.norms(clause.start, mention.start)
    if not any(before[at : at + 2] in LIKENED for at in range(len(before))):
        return False
    following = spoken.clauses[clause.index + 1 : clause.index + 2]
    return (
        bool(following)
        and following[0].link in {"but", ",", "and"}
        and spoken.has_cue("comes_off", within=following[0])
    )


SUFFERED = frozenset(
    "scratch stain chip dent fade warp rot rust peel crack tear burn scuff mark swell fray tarnish".split()
)


def is_proof_against(spoken: Spoken, mention: Mention) -> bool:
    """`this quartz won't stain`: what such a thing does not suffer, and nothing that was looked at."""
    before = spoken.norms(max(0, mention.start - 2), mention.start)
    single = mention.end - mention.start == 1 and spoken.tokens[mention.start].norm in SUFFERED
    return single and before in (["will", "not"], ["can", "not"], ["would", "not"], ["should", "not"])


def is_what_is_left(spoken: Spoken, mention: Mention) -> bool:
    """`the detector's gone, just the bracket hanging there`: what is left of what is missing."""
    clause = spoken.clause_of(mention.start)
    opens = spoken.norms(clause.start, clause.start + 1)
    holds = any(sense.id in {"loose", "present", "good"} for sense in mention.of("condition"))
    if not holds or not clause.index or opens not in (["just"], ["only"], ["nothing"]):
        return False
    before = spoken.terms("condition", within=spoken.clauses[clause.index - 1])
    return any(sense.id == "missing" for term in before for sense in term.of("condition"))


def is_exclaimed(spoken: Spoken, mention: Mention) -> bool:
    """`how good's that view`: praise cried out of what is no part of a home."""
    clause = spoken.clause_of(mention.start)
    cried = spoken.norms(mention.start - 1, mention.start) == ["how"]
    verb = spoken.norms(mention.end, mention.end + 1)
    return cried and verb in (["is"], ["'s"], ["are"]) and not spoken.named_in(clause)


AMOUNTS = frozenset("rather quite very a bit all really so pretty slightly somewhat totally completely".split())

GONE_AND = frozenset(
    "put knocked made done punched ripped torn cracked broken broke split burnt burned scratched snapped bent dented"
    " stained bled got smashed worn chipped blown come let pulled fallen leaked burst".split()
)
"""`the handle's gone and put a hole in the wall`: what somebody or something did, to one's regret."""


def became(spoken: Spoken, mention: Mention) -> bool:
    """`the brass has gone rather dull`, `gone into its spin`: what it became and not that it is gone; so is what it has
    `gone and done`."""
    if spoken.norms(mention.start, mention.end) != ["gone"]:
        return False
    did = spoken.tokens[mention.end + 1 : mention.end + 2]
    if spoken.norms(mention.end, mention.end + 1) == ["and"] and did and did[0].norm in GONE_AND:
        return True
    after = spoken.tokens[mention.end : mention.end + 2]
    if not after or mention.end >= spoken.clause_of(mention.start).end:
        return False
    return (
        after[0].tag in {"JJ", "VBN", "CD"} or after[0].norm in AMOUNTS or after[0].norm in {"into", "over", "through"}
    )


CAUSES = frozenset({"damp", "leak", "water_damage"})
LEADS_TO_CAUSE = (["from"], ["due", "to"], ["because", "of"])


def is_cause(spoken: Spoken, mention: Mention) -> bool:
    """`black edges from the damp`, `swollen due to a leak`: what a flaw that was just told came of."""
    if not {sense.id for sense in mention.of("condition") if not sense.beside} <= CAUSES:
        return False
    clause = spoken.clause_of(mention.start)
    before = [norm for norm in spoken.norms(clause.start, mention.start) if norm not in {"the", "a", "that", "all"}]
    if not any(before[-len(one) :] == one for one in LEADS_TO_CAUSE):
        return False
    told = [term for term in spoken.terms("condition", within=clause) if term.end < mention.start]
    return any(not sense.beside for term in told for sense in term.of("condition"))
