"""Condition words that say nothing of a component here: somebody's doing, small words, names, praise in passing."""

from __future__ import annotations

from narrate2report.read.lexis.phrase_tree import Mention
from narrate2report.read.meant.by_design import says_design
from narrate2report.read.meant.doings import (
    is_done,
    is_listed_work,
    is_own_doing,
    is_planned,
    is_somebodys_verb,
    is_to_come_off,
)
from narrate2report.read.meant.empty_praise import is_a_breath, is_cleaned_in_vain, is_how_bad_it_is, is_new_to_come
from narrate2report.read.meant.orders import CARE_VERBS
from narrate2report.read.meant.outsiders import is_about_people, is_called, is_outside, is_the_speakers
from narrate2report.read.meant.seeming import (
    became,
    is_cause,
    is_exclaimed,
    is_filled_since,
    is_how_bad,
    is_no_quality,
    is_proof_against,
    is_what_is_left,
    is_yet_to_be_bought,
    only_looks_like,
    praises_another,
)
from narrate2report.read.speech.spoken import Spoken
from narrate2report.read.things.standing import is_said_of_one

PARTICLES = frozenset("in up out off on down".split())


INTERJECTIONS = frozenset(
    "okay ok good great fine right alright perfect lovely nice excellent beautiful wonderful gone knock".split()
)


def says_nothing(spoken: Spoken, mention: Mention) -> bool:
    """Whether a condition word is something else here."""
    return any(
        reads(spoken, mention)
        for reads in (
            _is_interjection,
            _has_had_it_done,
            is_planned,
            _is_particle,
            is_done,
            is_about_people,
            is_called,
            is_outside,
            _is_of_a_noun,
            _is_location,
            is_own_doing,
            became,
            _holds_a_flaw,
            _is_said_of_itself,
            _is_compared_with,
            _leads_to_soil,
            is_to_come_off,
            is_somebodys_verb,
            _is_all_good,
            _is_of_nothing_known,
            _tells_how,
            is_listed_work,
            _answers_the_button,
            is_the_speakers,
            _is_switched_off,
            _is_long_ago,
            _is_explained,
            _stands_under,
            _is_tended,
            is_how_bad,
            is_proof_against,
            is_what_is_left,
            is_exclaimed,
            is_yet_to_be_bought,
            is_filled_since,
            is_no_quality,
            only_looks_like,
            is_cause,
            praises_another,
            is_a_breath,
            is_cleaned_in_vain,
            is_how_bad_it_is,
            is_new_to_come,
        )
    )


def _is_long_ago(spoken: Spoken, mention: Mention) -> bool:
    """`painted fifteen years ago`: no longer fresh."""
    if not any(sense.id in {"freshly_painted", "new"} for sense in mention.of("condition")):
        return False
    after = spoken.norms(mention.end, mention.end + 5)
    return "ago" in after and bool({"years", "decades", "ages"} & set(after))


LOOKS = frozenset({"discoloration", "stain", "mark"})


def _is_explained(spoken: Spoken, mention: Mention) -> bool:
    """`that pink ain't mold, that's the colour of the grout`: what it looks like is told with what it is not."""
    clause = spoken.clause_of(mention.start)
    if not {sense.id for sense in mention.of("condition")} <= LOOKS or not spoken.has_cue("negation", within=clause):
        return False
    following = spoken.clauses[clause.index + 1 : clause.index + 2]
    denied = next(spoken.cues("negation", within=clause))
    return mention.start < denied.start and bool(following) and says_design(spoken, following[0])


def _stands_under(spoken: Spoken, mention: Mention) -> bool:
    """`I put a bucket under for one night and the bucket is dry`: how it was tried, and no leak."""
    said = spoken.norms(mention.start, mention.end)
    return said[:1] in (["bucket"], ["pan"], ["bowl"], ["towel"]) and bool(
        {"dry", "empty"} & set(spoken.norms(mention.end))
    )


def _is_tended(spoken: Spoken, mention: Mention) -> bool:
    """`empty the lint every load`: what is to be taken away again and again."""
    start = spoken.clause_of(mention.start).start
    opens = spoken.norms(start, start + 1)
    return bool(opens) and opens[0] in CARE_VERBS and mention.start - start <= 2 and spoken.has_cue("often")


SWITCHED_OFF = frozenset("off unplugged defrosted defrosting".split())


def _is_switched_off(spoken: Spoken, mention: Mention) -> bool:
    """`the fridge is switched off, so of course it's warm`: no fault."""
    if "not_working" not in {sense.id for sense in mention.of("condition")}:
        return False
    said = {"warm", "cold", "running", "cool"} & set(spoken.norms(mention.start, mention.end))
    clause = spoken.clause_of(mention.start)
    return bool(said) and bool(clause.index) and bool(SWITCHED_OFF & set(spoken.norms(0, clause.start)))


def _has_had_it_done(spoken: Spoken, mention: Mention) -> bool:
    """`the owner has had it painted`; `the seat's had it` is the end of the seat."""
    if spoken.norms(mention.end - 2, mention.end) != ["had", "it"]:
        return False
    clause = spoken.clause_of(mention.start)
    return mention.end != clause.end or not any(one.end == mention.start for one in spoken.named_in(clause))


RINGS = frozenset("buzz buzzing ding beep ring ringing chirp chime".split())
"""Words that by themselves only say what is heard."""

PRESSES = frozenset("press pressed push pushed hit test tested".split())


def _answers_the_button(spoken: Spoken, mention: Mention) -> bool:
    """`it chirped when I pressed it`: what an alarm is meant to do."""
    if not {sense.id for sense in mention.of("condition")} & {"dead_battery", "noise"}:
        return False
    clause = spoken.clause_of(mention.start)
    words = [token for token in spoken.tokens if token.is_word]
    alone = len(words) == 1 and words[0].norm in RINGS
    if alone or spoken.norms(max(0, mention.start - 1), mention.start) in (["she"], ["he"]):
        return True  # Buzz. Works.
    following = spoken.clauses[clause.index + 1 :][:1]
    if any(one.link == "when" and bool(PRESSES & set(spoken.norms(one.start, one.end))) for one in following):
        return True
    before = set(spoken.norms(0, mention.start))
    return bool({"press", "pressed", "pushed", "pushing", "pressing"} & before) and clause.link != "but"


def _is_of_a_noun(spoken: Spoken, mention: Mention) -> bool:
    """`black points in the corner`, `a good dog`: a word that is a flaw of a component, here said of another noun."""
    clause = spoken.clause_of(mention.start)
    praise = any(sense.id in {"good", "new", "clean"} for sense in mention.of("condition"))
    if praise and any(cue.start == mention.end for cue in spoken.cues("outsider", within=clause)):
        return True
    loosely = all(
        sense.beside or (sense.id == "damp" and sense.form == "adjective") for sense in mention.of("condition")
    )
    if mention.end - mention.start > 1 or not loosely:
        return False
    noun = mention.end < clause.end and spoken.tokens[mention.end].tag in {"NN", "NNS"}
    return noun and not any(term.start == mention.end and not term.of("condition") for term in spoken.found.terms)


def _is_location(spoken: Spoken, mention: Mention) -> bool:
    """`one spot by the soap dish that's crumbling`: a spot that is only where the flaw is."""
    if mention.end - mention.start > 1 or spoken.tokens[mention.start].norm not in {"spot", "spots"}:
        return False
    norms = spoken.norms(mention.end, mention.end + 7)
    return any(norm in {"that", "where", "which"} for norm in norms)


def _leads_to_soil(spoken: Spoken, mention: Mention) -> bool:
    """`caked with grease`: the noun tells what it is."""
    if {sense.id for sense in mention.of("condition")} != {"dirty"}:
        return False
    joined = spoken.norms(mention.end, mention.end + 1) in (["with"], ["in"], ["from"])
    return joined and any(mention.end < term.start <= mention.end + 3 for term in spoken.terms("condition"))


GUESSED = frozenset("looks look looked something seems sounds sound smells smell feels is 's was".split())


def _is_compared_with(spoken: Spoken, mention: Mention) -> bool:
    """`a scratch about like a hair`: how big it is, after a flaw."""
    norms = spoken.norms(max(0, mention.start - 3), mention.start)
    article = spoken.norms(mention.start, mention.start + 1) == ["a"]
    if "like" not in norms or mention.end - mention.start - article > 1:
        return False
    at = max(0, mention.start - 3) + norms.index("like")
    earlier = any(term.start < at for term in spoken.terms("condition"))
    return earlier and at > 0 and spoken.tokens[at - 1].norm not in GUESSED


LONGEST_QUALITY = 2
"""Words of a quality that is said of itself."""


def _is_said_of_itself(spoken: Spoken, mention: Mention) -> bool:
    """`cold's cold`: as it should be."""
    clause = spoken.clause_of(mention.start)
    last = spoken.tokens[mention.end - 1]
    negated = bool({"not", "no", "never"} & set(spoken.norms(mention.start, mention.end)))
    if last.tag in {"DT", "IN", "TO", "PRP"} or negated or mention.end - mention.start > LONGEST_QUALITY:
        return False  # the ice maker doesn't make ice, the water heater is passing water
    return last.norm in spoken.norms(clause.start, mention.start) and mention.start - clause.start <= 5


def _holds_a_flaw(spoken: Spoken, mention: Mention) -> bool:
    """`a crack in it`: where a flaw is, and not that something is in its place."""
    present = all(sense.id == "present" for sense in mention.of("condition"))
    return present and any(term.end == mention.start for term in spoken.terms("condition"))


def _is_particle(spoken: Spoken, mention: Mention) -> bool:
    """`down in the corner`: of the small words only the last of a clause says something (`lamp out`, `rod in`)."""
    small = mention.end - mention.start == 1 and spoken.tokens[mention.start].norm in PARTICLES
    is_there = spoken.norms(mention.start, mention.end) in (["is", "there"], ["are", "there"])
    return (small or is_there) and mention.end != spoken.clause_of(mention.start).end


def _is_of_nothing_known(spoken: Spoken, mention: Mention) -> bool:
    """`the geyser is fine, one sticker is there`: a thing that is no component is there, and not the geyser."""
    said = spoken.norms(mention.start, mention.end)
    if said not in (["is", "there"], ["are", "there"]) or mention.start == spoken.clause_of(mention.start).start:
        return False
    before = mention.start - 1
    noun = spoken.tokens[before].tag in {"NN", "NNS"} and spoken.tokens[before].norm not in {"everything", "all"}
    return noun and before not in spoken.named_tokens()


def _tells_how(spoken: Spoken, mention: Mention) -> bool:
    """`it doesn't flush good`: how it does not, and no praise."""
    if spoken.norms(mention.start, mention.end) not in (["good"], ["nice"], ["fine"]):
        return False
    earlier = [term for term in spoken.terms("condition") if term.end == mention.start]
    return any("not" in spoken.norms(term.start, term.end) for term in earlier)


def _is_all_good(spoken: Spoken, mention: Mention) -> bool:
    """`by email, so that's all good`: nothing is named in the sentence that it could be said of."""
    clause = spoken.clause_of(mention.start)
    said = spoken.norms(clause.start, mention.end)
    so_far = said[-4:] in (["so", "that", "'s", "all"], ["so", "that", "is", "all"]) or said[:1] == ["so"]
    alone = {"so", "that", "'s", "is", "it", "all", "good", "fine"} >= set(said)
    return so_far and alone and not spoken.named


def _is_interjection(spoken: Spoken, mention: Mention) -> bool:
    """`Okay, ...`, `let it run ... good`: a word of praise alone in its clause that is said of nothing.

    As a sentence of its own (`Counter: quartz. No chips. Good.`) it is a remark, unless it is `okay`.
    """
    clause = spoken.clause_of(mention.start)
    if is_said_of_one(spoken, mention.start):
        return False  # left: ok; the other okay
    if spoken.norms(clause.start, clause.end) == ["all", "right"] and clause.link != ":":
        return True
    named = any(one.end == mention.start for one in spoken.named)
    if spoken.tokens[mention.start].tag == "UH" and mention.end - mention.start == 1 and not named:
        return True
    if not set(spoken.norms(clause.start, clause.end)) <= INTERJECTIONS or clause.link == ":":
        return False
    if clause.index and not clause.link and len(spoken.clauses) > clause.index + 1:
        return True  # said in passing between two statements
    if (
        clause.index
        and not any(t.is_finite for t in spoken.tokens[: clause.start])
        and spoken.named_in(spoken.clauses[clause.index - 1])
    ):
        return False
    return len(spoken.clauses) > 1 or bool({"okay", "ok", "right", "alright"} & set(spoken.norms()))
