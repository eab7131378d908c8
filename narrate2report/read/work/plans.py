"""What makes an action word a plan: somebody will do it, it must be done, or a note orders it."""

from __future__ import annotations

from itertools import pairwise

from narrate2report.read.lexis.phrase_tree import Mention
from narrate2report.read.meant.doings import is_also_to_be_done
from narrate2report.read.meant.negations import negation_before
from narrate2report.read.speech.clauses import Clause, bare_start
from narrate2report.read.speech.modes import Mode
from narrate2report.read.speech.spoken import Spoken
from narrate2report.read.work.arranged import is_asked_of_somebody, is_had_done
from narrate2report.read.work.requested import is_requested
from narrate2report.read.work.trades import LEADING, tells_past, trades_in
from narrate2report.read.work.under_way import is_under_way
from narrate2report.read.work.worked_on import OWN_SELVES, RESIDENT

NOTE_ITSELF = "the note itself"
"""The planning words of an order that opens a note: `Replace.`"""

ORDER_LEAD = frozenset(
    "quick little proper decent light thorough bit of needed a the and then full good so that one 's is it this those"
    " are just".split()
)
POINTED = frozenset("it this that those".split())
OBJECTS = frozenset("the your it this that these those them all both and".split())
JUDGED = frozenset("'s is".split())
STREAMS = frozenset("off away loose out apart through from up down undone".split())
BOOKED = frozenset("down booked due scheduled pencilled planned".split())
LATER = frozenset(
    "later tomorrow tonight monday tuesday wednesday thursday friday saturday sunday week soon today afternoon".split()
)
AFTERWARDS = LATER - {"today"} | frozenset("month months weeks visit inspection".split())
"""When a look is no part of the walk: `I'll check it again in a month`."""

FINISHED = frozenset("finished complete completed closed".split())

LISTED = frozenset("is are 's one job put down in schedule list noted flagging flagged marked marking".split())
"""Before `for repair` they plan it: `those are for clearance`, `I put the switch down for replacement`."""

TAKES = frozenset("takes taking take took long more much needs need".split())

CAUSING = frozenset("have having get getting send sending someone somebody back ask asking".split())
SOMEBODY = frozenset("somebody someone owner landlord office".split())
TRIED = frozenset("flush flushes flushing test testing run up".split())
"""What the walk itself does to see whether something works."""

ADVISING = frozenset("recommend suggest recommending suggesting advise propose".split())

WEIGHED = frozenset("easier easiest simpler simplest quicker quickest cheaper cheapest best".split())
MENDS = frozenset("replace repair touch_up secure".split())
UNCHANGED = frozenset("put cut set reset shut split".split())
"""Verbs whose past is no other word."""

LONGEST_ORDER = 9
"""Words of a clause that can still be an order in a note."""


def planned_by(spoken: Spoken, mention: Mention, clause: Clause) -> str | None:
    """The words that plan the action; None where it is only spoken of, denied, or already done."""
    if clause.link == "or" or negation_before(spoken, clause, mention.start):
        return None
    if (
        is_requested(spoken, mention, clause)
        or is_seen_about(spoken, mention, clause)
        or is_had_done(spoken, mention, clause)
        or is_asked_of_somebody(spoken, mention, clause)
    ):
        return spoken.words(clause.start, mention.end)
    if is_also_to_be_done(spoken, mention.start):
        return spoken.words(mention.start, mention.end)
    if (coming := _comes_for_it(spoken, mention, clause)) is not None:
        return spoken.words(coming, mention.end)
    if _is_own_look(spoken, mention, clause) or FINISHED & set(spoken.norms(mention.end, clause.end)):
        return None
    if clause.link in {"until", "till"} and spoken.norms(mention.start - 1, mention.start) == ["been"]:
        return spoken.words(clause.start, mention.end)  # don't relet until it has been repaired
    token = spoken.tokens[mention.start]
    before = spoken.norms(clause.start, mention.start)
    if {"was", "were"} & set(before) and "supposed" in before:
        return None
    if ("had", "to") in pairwise(before):
        return None  # had to have them sanded
    past = token.norm.endswith("ed")
    if before[-1:] == ["to"] and WEIGHED & set(before[-3:-1]) and mention.of("action")[0].id in MENDS:
        return spoken.words(clause.start, mention.end)  # easier to replace the whole thing
    if past and before[-2:-1] == ["time"]:
        return spoken.words(mention.start - 2, mention.end)  # it's time we changed it
    if past and before[-1:] == ["being"] and {"is", "'s", "are", "'re"} & set(before[-2:]):
        return spoken.words(mention.start - 1, mention.end)
    if past and before[-1:] and before[-1] in {"get", "gets", "getting"}:
        return spoken.words(mention.start - 1, mention.end)
    if _was_ordered(spoken, mention, clause):
        return spoken.words(clause.start, mention.end)
    if past and before[-1:] and before[-1] in {"i", "we", "they", "was", "were", "been", "just", "and"}:
        return None
    if _is_pending(spoken, mention, clause):
        return spoken.words(clause.start, mention.end)
    for cue in spoken.cues("future", within=clause):
        if tells_past(spoken, clause.start, mention.start) and not _is_participle(cue, mention):
            continue
        if _is_dated(spoken, cue, mention, clause):
            continue
        if spoken.norms(cue.start, cue.end) == ["time", "to"] and TAKES & set(spoken.norms(cue.start - 3, cue.start)):
            continue  # it takes a long time to fill
        now = spoken.norms(cue.start, cue.end) == ["let", "me"]
        if spoken.norms(cue.end - 1, cue.end) in (["coming"], ["comes"]) and STREAMS & set(
            spoken.norms(cue.end, cue.end + 1)
        ):
            continue
        if (cue.start < mention.start or cue.start >= mention.end) and not now:
            return spoken.words(cue.start, cue.end)
    if is_on_paper(mention) or is_promised(spoken, mention):
        return spoken.words(mention.start, mention.end)
    if is_assigned(spoken, mention, clause):
        return spoken.words(clause.start, mention.start)
    if is_order(spoken, mention, clause):
        return NOTE_ITSELF
    does = _somebody_does(spoken, mention, clause) or _i_do_it(spoken, mention, clause)
    if does or is_under_way(spoken, mention, clause):
        return spoken.words(clause.start, mention.end)
    return _planned_before(spoken, mention, clause)


NEW_ONE = frozenset("new one another fresh replacement part".split())


def _was_ordered(spoken: Spoken, mention: Mention, clause: Clause) -> bool:
    """`we ordered one already`: what was ordered has still to come, unless something is told of it since."""
    before = spoken.norms(max(clause.start, mention.start - 1), mention.start)
    once = sum(token.tag == "VBD" for token in spoken.tokens) <= 1 and not spoken.has_cue("past")
    ordered = spoken.norms(mention.start, mention.start + 1) == ["ordered"] and before in (["we"], ["i"], ["they"])
    return ordered and once and bool(NEW_ONE & set(spoken.norms(mention.start, clause.end)))


def _comes_for_it(spoken: Spoken, mention: Mention, clause: Clause) -> int | None:
    """`the guys are coming Thursday to sort it out`, `we're sending somebody to repair it`: where their coming is told,
    whose purpose is the work."""
    if spoken.norms(mention.start - 1, mention.start) not in (["to"], ["and"]):
        return None
    for at in range(clause.start + 1, mention.start - 1):
        begun = spoken.tokens[at - 1].norm in BEING and spoken.tokens[at].norm in MOVING
        if spoken.tokens[at].norm == "coming" and spoken.tokens[at - 1].tag in {"NN", "NNP"}:  # I've got a guy coming
            begun = begun or bool({"got", "have", "'ve"} & set(spoken.norms(clause.start, at)))
        if begun and not {"you", "resident", "tenant"} & set(spoken.norms(clause.start, at)):
            return at
    return None


BEING = frozenset("is 's are 're am 'm be".split())
MOVING = frozenset("coming sending bringing calling booking arranging heading popping returning".split())
BOUND_TO = frozenset("be being to get gets getting booked scheduled due will 'll".split())


def _is_dated(spoken: Spoken, cue: Mention, mention: Mention, clause: Clause) -> bool:
    """`professionally cleaned on Friday`: the day on which it was done."""
    day = spoken.norms(cue.start, cue.start + 1) == ["on"] and cue.start >= mention.end
    done = spoken.tokens[mention.end - 1].norm.endswith("ed")
    return day and done and not BOUND_TO & set(spoken.norms(clause.start, mention.start))


def is_seen_about(spoken: Spoken, mention: Mention, clause: Clause) -> bool:
    """`I'll see whether our seamstress can fix that`, `I'll ask if he can do it`: work that is looked into."""
    joined = clause.index and clause.link in {"if", "whether"}
    start = spoken.clauses[clause.index - 1].start if joined else clause.start
    norms = spoken.norms(start, mention.start)
    at = next((at for at, norm in enumerate(norms) if norm in {"if", "whether"}), 0)
    if norms[:1] == ["see"] and at == 1:
        return bool({"i", "we"} & set(norms[2:3]) and {"can", "could"} & set(norms[3:4]))
    asks = {"will", "'ll", "going"} & set(norms[:at]) and norms[at - 1] in {"see", "ask", "out"}
    return bool(asks and {"i", "we"} & set(norms[:2]) and {"can", "could", "will"} & set(norms[at:]))


def _is_participle(cue: Mention, mention: Mention) -> bool:
    """`wants raked out`, taken for a past tense by the tagger."""
    return 0 <= mention.start - cue.end <= 1


def _somebody_does(spoken: Spoken, mention: Mention, clause: Clause) -> bool:
    """`somebody tighten that grille`, `maintenance can change it`, `the plumber opens that wall`."""
    if spoken.tokens[mention.start].tag not in {"VB", "VBP", "VBZ", "NNS"}:
        return False
    who = [one for one in trades_in(spoken) if one.start in clause and one.end <= mention.start]
    norms = spoken.norms(clause.start, mention.start)
    some = [clause.start + at for at, norm in enumerate(norms) if norm in SOMEBODY]
    first = min([one.start for one in who] + some, default=None)
    if first is None or set(spoken.norms(clause.start, first)) - LEADING:
        return False
    last = max([one.end for one in who] + [at + 1 for at in some])
    tags = [token.tag for token in spoken.tokens[last : mention.start]]
    return not {"VBD", "VBN"} & set(tags) and not spoken.has_cue("often")


def _is_pending(spoken: Spoken, mention: Mention, clause: Clause) -> bool:
    """`I've already ordered a new one`: what was ordered has still to come. `Those are for clearance`."""
    before = spoken.norms(clause.start, mention.start)
    if spoken.tokens[mention.start].norm in {"ordered", "ordering"}:
        return not before or bool({"have", "'ve", "already", "just", "is", "'s", "'m", "am"} & set(before))
    noun = any(sense.form == "noun" for sense in mention.of("action"))
    after = spoken.norms(mention.end, clause.end)
    named_work = noun or spoken.tokens[mention.start].tag == "VBG"
    if named_work and any(
        after[at - 1] in {"is", "are", "'s"} for at, norm in enumerate(after) if at and norm in BOOKED
    ):
        return True  # resealing the granite is down for next spring
    if noun and "due" in before[-3:] and "to" not in before[-2:]:
        return True
    finished = mention.of("action")[0].id not in {"repair", "inspect", "secure"}
    if noun and finished and JUDGED & set(before[:3]) and ({"a", "an"} & set(before[1:4])) and "old" not in before:
        return True
    if noun and before[:1] in (["gets"], ["get"], ["needs"], ["wants"]):
        return True
    given = [norm for norm in before if norm not in {"a", "an", "its", "some", "the"}][-2:]
    if given[:1] == ["off"]:
        return False  # the water is off for repairs
    return noun and given[-1:] == ["for"] and (bool(LISTED & set(before)) or _is_put_down(spoken, mention, clause))


def _is_put_down(spoken: Spoken, mention: Mention, clause: Clause) -> bool:
    """`faucet for replacement`, `for repair, this faucet`: the work of a thing, with no verb."""
    if any(token.is_finite for token in spoken.tokens[clause.start : clause.end]):
        return False
    mends = mention.of("action")[0].id in MENDS and bool(spoken.named)
    return mends and (mention.end == clause.end or mention.start - 1 == bare_start(spoken.tokens, clause))


def _i_do_it(spoken: Spoken, mention: Mention, clause: Clause) -> bool:
    """`I clean it later`, `we change that on Friday`: one's own present tense with a time to come."""
    lead = [norm for norm in spoken.norms(clause.start, mention.start) if norm not in LEADING]
    if not lead and spoken.tokens[mention.start].tag == "VBG" and not clause.index:
        return bool(LATER & set(spoken.norms(mention.end, clause.end + 3)))
    doing = spoken.tokens[mention.start].tag == "VBG" and lead[-2:] in (
        ["i", "'m"],
        ["i", "am"],
        ["we", "are"],
        ["we", "'re"],
    )
    when = {"before", *LATER} & set(spoken.norms(mention.end, clause.end))
    if doing and mention.of("action")[0].id != "inspect" and when:
        return True
    if lead not in (["i"], ["we"]) or spoken.tokens[mention.start].tag not in {"VBP", "VB"}:
        return False
    if mention.of("action")[0].id == "inspect" or spoken.has_cue("often"):
        return False
    after = spoken.norms(mention.end, clause.end)
    inside = spoken.norms(mention.start, mention.end)
    timed = bool(set(after) & LATER)
    return timed or (bool({"it", "them", "that"} & set(after[:1] + inside)) and len(after) <= 1)


def _planned_before(spoken: Spoken, mention: Mention, clause: Clause) -> str | None:
    """`I'll patch that and touch up the paint`: the plan of the clause before goes on; what is not going to be done
    plans nothing: `I'm not going to test that, the boiler is off for service`."""
    if not clause.index or clause.link not in {"and", ","}:
        return None
    earlier = spoken.clauses[clause.index - 1]
    bare = not spoken.tokens[mention.start].norm.endswith(("ed", "ing"))
    if {"let", "me"} <= set(spoken.norms(earlier.start, earlier.start + 4)):
        return None
    denied = spoken.has_cue("not_tested", within=earlier) or negation_before(spoken, earlier, earlier.end) is not None
    if bare and not denied and spoken.has_cue("future", within=earlier):
        return spoken.words(earlier.start, earlier.end)
    return None


def is_on_paper(mention: Mention) -> bool:
    """`a work order`, `getting a quote`: words that plan work by themselves."""
    return any(sense.form == "phrase" for sense in mention.of("action"))


def _is_own_look(spoken: Spoken, mention: Mention, clause: Clause) -> bool:
    """`let me check the gasket`, `I'm gonna flush it`: the walk itself, and no work to come."""
    action = mention.of("action")[0].id
    if (
        action == "supply"
        or is_on_paper(mention)
        or (action != "inspect" and spoken.tokens[mention.start].norm not in TRIED)
    ):
        return False
    if spoken.tokens[mention.start].tag == "VBN" or spoken.tokens[mention.start].norm.endswith("ed"):
        return False
    before = set(spoken.norms(clause.start, mention.start))
    if action == "inspect" and " let you know " in f" {' '.join(spoken.norms(mention.end))} ":
        return False  # I'll check that and let you know
    if action == "inspect" and AFTERWARDS & set(spoken.norms(mention.end, clause.end)):
        return False
    if not before - {"and", "then"} and clause.index and clause.link in {"and", "then"}:
        earlier = spoken.clauses[clause.index - 1]
        before = set(spoken.norms(earlier.start, earlier.end))
        walked = bool(before & {"i", "me"}) and bool(before & {"will", "'ll", "let"}) and not before & AFTERWARDS
        return walked and action == "inspect"
    return bool(before & {"i", "me"}) and not before & CAUSING


def is_promised(spoken: Spoken, mention: Mention) -> bool:
    """`they said they'd snake it Monday`, `that'll get swapped out`: work of which somebody else gave word."""
    clause = spoken.clause_of(mention.start)
    before = spoken.norms(max(0, clause.start - 5), mention.start)
    gets = before[-2:] in (["will", "get"], ["'ll", "get"]) and spoken.tokens[mention.start].norm.endswith("ed")
    if gets and not spoken.has_cue("addressee") and "if" not in spoken.norms():
        return bool({"it", "that", "this", "those", "they", "these"} & set(before[-3:-2]))
    if before[-1:] not in (["would"], ["'d"], ["will"], ["'ll"]) or not {"they", "he", "she"} & set(before[-2:-1]):
        return False
    later = spoken.norms(mention.end)
    if "did" in later and "not" not in later:
        return False  # they said they'd clean it, and they did
    return bool({"said", "says", "say", "told", "promised", "promises", "swore"} & set(before[:-2]))


def is_assigned(spoken: Spoken, mention: Mention, clause: Clause) -> bool:
    """`electrician to check`, `landlord to renew that`: somebody, to, and the work."""
    tokens = spoken.tokens
    if {"not", "no", "nothing"} & set(spoken.norms(clause.start, mention.start)):
        return False
    for at in range(mention.start - 1, max(clause.start, mention.start - 4), -1):
        if tokens[at].norm == "to":
            finite = any(token.is_finite for token in tokens[clause.start : at])
            bound = tokens[at - 1].norm in {"'s", "is", "are"} and trades_in(spoken)  # the painter's to scrape it
            return (tokens[at - 1].tag in {"NN", "NNS", "NNP", "NNPS"} and not finite) or bool(bound)
    return False


def is_order(spoken: Spoken, mention: Mention, clause: Clause) -> bool:
    """`Replace.`, `Re-caulk the tub, maintenance`: an action word that opens a note."""
    words = spoken.norms(clause.start, mention.start)
    if set(words) - ORDER_LEAD or (set(words) & POINTED and "a" not in words):
        return False
    if {"never", "always"} & set(spoken.norms()):
        return False
    if spoken.has_cue("addressee", "often") or spoken.has_cue("imperative", within=clause) or _is_warned(spoken):
        return False
    if clause.index and spoken.has_cue("imperative", within=spoken.clauses[clause.index - 1]) and clause.link == ",":
        return False  # don't yank on that cord, just ease it down
    if spoken.tokens[mention.start].norm in TRIED or any(
        cue.start <= mention.start < cue.end for cue in spoken.cues("not_tested", within=clause)
    ):
        return False
    following = set(spoken.norms(mention.end, mention.end + 1))
    if mention.of("condition") and not following & OBJECTS:
        return False
    bare = not spoken.tokens[mention.start].norm.endswith(("ed", "ing"))
    if spoken.tokens[mention.start].tag == "VBD" and spoken.tokens[mention.start].norm not in UNCHANGED:
        return False  # had a look myself
    if spoken.tokens[mention.start].tag in {"NNS", "VBZ"} and spoken.tokens[mention.start].norm != "re":
        return False
    if spoken.tokens[mention.start].tag == "JJ" and not following & OBJECTS and mention.end < clause.end:
        return False
    return bare and clause.end - clause.start <= LONGEST_ORDER


def _is_warned(spoken: Spoken) -> bool:
    """`defrost it before it gets thick or the drawers will crack`: what happens otherwise is said to a resident."""
    return any(
        clause.link in {"or", "before"} and any(t.tag == "MD" for t in spoken.tokens[clause.start : clause.end])
        for clause in spoken.clauses[1:]
    ) or any(spoken.norms(cue.start, cue.end) == ["before", "it"] for cue in spoken.cues("condition"))


def is_care(spoken: Spoken, mention: Mention, clause: Clause, mode: Mode) -> bool:
    """Whether the resident is told to do it, now or again and again: that is advice and no work order."""
    if spoken.has_cue("often"):
        return True
    if _is_to_be_arranged(spoken, mention, clause) or _is_to_be_renewed(spoken, mention, clause):
        return False
    before = spoken.norms(clause.start, mention.start)
    theirs = "responsible" in before and bool(RESIDENT & set(before))
    if theirs or OWN_SELVES & set(spoken.norms(mention.end, clause.end)):
        return True  # you'll be changing those yourself, tenants are responsible for cleaning it
    on_paper = is_on_paper(mention) and not spoken.has_cue("addressee", "condition")
    return mode is Mode.INSTRUCTION and not (on_paper or is_order(spoken, mention, clause) or _advises(spoken, mention))


RENEWS = frozenset("replace repaint regrout recaulk rebuild refit retile resurface reglaze renew".split())


def _is_to_be_renewed(spoken: Spoken, mention: Mention, clause: Clause) -> bool:
    """`you have to replace that`, `you have to take all that out and put new`: whoever does it, a thing is renewed
    once, which is no care; `you change the bulbs yourself` is, and so is what comes round again."""
    inside = spoken.norms(mention.start, mention.end)
    if not (RENEWS | {"put"}) & set(inside) or ("put" in inside and not NEW_ONE & set(inside)):
        return False
    before = spoken.norms(spoken.clauses[max(0, clause.index - 1)].start, mention.start)
    bound = {"have", "need", "got"} & set(before) and ("you", "should") not in pairwise(before)
    what = spoken.norms(mention.end, mention.end + 1) + inside
    once = not OWN_SELVES & set(spoken.norms()) and not spoken.has_cue("often", "condition")
    return bool(bound) and once and bool((POINTED | {"new", "one", "all", "whole", "them"}) & set(what))


ARRANGING = frozenset("arrange organise organize book schedule raise log forget".split())


def _is_to_be_arranged(spoken: Spoken, mention: Mention, clause: Clause) -> bool:
    """`please arrange a repair`, `don't let me forget to have it fixed`, `make sure it gets fixed`: for the staff."""
    before = spoken.norms(clause.start, mention.start)
    if before[:2] in (["remind", "me"], ["remind", "us"]):
        return True
    gets = before[-1:] in (["gets"], ["get"]) and before[:2] == ["make", "sure"]
    return gets or bool(ARRANGING & set(before))


def _advises(spoken: Spoken, mention: Mention) -> bool:
    """`recommend replacing the counter`: said to the owner; `I'd recommend wiping it` is care."""
    mended = mention.of("action")[0].id != "clean" or any(one.form == "noun" for one in mention.of("action"))
    before = set(spoken.norms(0, mention.start))
    return mended and bool(ADVISING & before) and "you" not in before and not spoken.has_cue("addressee")
