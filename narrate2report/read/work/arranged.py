"""Work that somebody else is to do: had done, asked of somebody, or called about.

`let's get the oven fixed`, `I asked Sam to patch that`, `I'll call somebody about the disposal`, `I'll have a man out`.
"""

from __future__ import annotations

from narrate2report.read.drafts.draft import Draft
from narrate2report.read.lexis.phrase_tree import Mention
from narrate2report.read.meant.negations import negation_before
from narrate2report.read.meant.scene import Scene
from narrate2report.read.speech.clauses import LEADING, Clause
from narrate2report.read.speech.spoken import Spoken
from narrate2report.read.things.pointing import POINTING
from narrate2report.read.work.remedies import to_mend
from narrate2report.read.work.trades import trades_in
from narrate2report.read.work.under_way import IS_AT_IT
from narrate2report.read.work.worked_on import NOT_TO_COME, RESIDENT, STAFF, is_only_supposed, worked_on

HAVING = frozenset("have having get getting want need see like wanting needing".split())
PLANNING = frozenset("can will 'll 'd going am 'm are 're must should shall let is 's to".split())
WISHING = frozenset("want need like".split())
ASKING = frozenset("ask asked asking tell told telling have having get getting want need like remind reminded".split())
SPEAKER = frozenset("me us you myself".split())
THIRD = frozenset("him her them somebody someone".split())
INQUIRY = frozenset(
    "call calling ring ringing phone phoning email emailing text texting message messaging contact contacting speak"
    " speaking talk talking chase chasing follow following notify notifying see get getting reach check"
    " checking".split()
)
CHASED = frozenset("chase chasing see check checking text ask".split())
"""Verbs after which `for` tells what is to be had: `I'll chase them for the fob`."""

ABOUT = frozenset("about on for regarding over re".split())
FETCHED = frozenset("have having get getting send sending".split())
HITHER = frozenset("out over in round around by back up here down".split())


def is_had_done(spoken: Spoken, mention: Mention, clause: Clause) -> bool:
    """`let's get the oven fixed`, `have the oven cleaned`, `I want this sink re-caulked`: said of work to come."""
    if spoken.tokens[mention.start].tag not in {"VBN", "VBD", "JJ"} or spoken.has_cue("often"):
        return False
    start = clause.start
    if clause.index and not clause.link and spoken.norms(start - 1, start)[0] in WISHING:
        start = spoken.clauses[clause.index - 1].start  # I'd want | it looked at
    for at in range(mention.start - 2, start - 1, -1):
        token = spoken.tokens[at]
        if token.norm in HAVING:
            lead = [norm for norm in spoken.norms(start, at) if norm not in LEADING]
            held = any(at < one.start and one.end <= mention.start for one in spoken.named)
            held = held or bool((POINTING | {"one"}) & set(spoken.norms(at + 1, mention.start)))
            return held and _plans(spoken, lead, token.norm)
        if token.is_finite or token.tag in {"WDT", "CC"}:
            return False
    return False


def _plans(spoken: Spoken, lead: list[str], having: str) -> bool:
    if {"you", "your", "if", "had"} & set(lead):
        return False
    if not lead:
        return not spoken.has_cue("addressee") and having in {"have", "get", "getting", "having", "want", "need"}
    wished = having in WISHING and bool({"i", "we"} & set(lead))
    return wished or bool(set(lead) & PLANNING)


def is_asked_of_somebody(spoken: Spoken, mention: Mention, clause: Clause) -> bool:
    """`have Sam tighten the tap`, `I've asked the electrician to check it`, `told maintenance to replace that`."""
    if spoken.tokens[mention.start].tag not in {"VB", "VBP", "NN"} or negation_before(spoken, clause, mention.start):
        return False
    to = mention.start - 1 if spoken.norms(mention.start - 1, mention.start) == ["to"] else mention.start
    for at in range(to - 2, max(clause.start - 1, to - 6), -1):
        if spoken.tokens[at].norm not in ASKING:
            continue
        who = set(spoken.norms(at + 1, to))
        if who & SPEAKER or who & RESIDENT or not _is_somebody(spoken, at + 1, to):
            return False
        lead = {norm for norm in spoken.norms(clause.start, at) if norm not in LEADING}
        return not lead & {"you", "they", "he", "she", "if", "had"} or bool(lead & {"will", "'ll"})
    return False


def _is_somebody(spoken: Spoken, start: int, end: int) -> bool:
    """A name, a trade, a pronoun, or one of the staff."""
    inside = spoken.tokens[start:end]
    if not inside or any(one.start in range(start, end) for one in spoken.named):
        return False
    if any(start <= trade.start < end for trade in trades_in(spoken)) or set(spoken.norms(start, end)) & THIRD:
        return True
    capital = inside[-1].text[:1].isupper() and not inside[-1].text.isupper() and start > 0
    return (
        capital
        or inside[-1].tag in {"NNP", "NNPS"}
        or inside[-1].norm in STAFF - {"we", "i", "they", "he", "she", "my", "our"}
    )


def called_about(scene: Scene, flaw: str | None, *, owner_speaks: bool) -> list[Draft]:
    """At most one follow-up: somebody is called about it, or sent for."""
    spoken = scene.spoken
    if spoken.ends_with_question():
        return []
    for clause in spoken.clauses:
        found = _called(spoken, clause) or (_fetched(spoken, clause) if flaw else None)
        if found is None or scene.mode(found.start) in NOT_TO_COME or negation_before(spoken, clause, found.start):
            continue
        if is_only_supposed(scene, clause):
            continue
        after = [one for one in spoken.named if one.start >= found.end and one.start in clause]
        on = (after[0].component, "what the call is about") if after else worked_on(scene, found, clause, flaw)
        told = f"'{spoken.words(found.start, found.end)}' calls somebody"
        return [to_mend(scene, clause, found.start, on, told, owner_speaks=owner_speaks, confidence=0.6)]
    return []


def _speaker_plans(spoken: Spoken, clause: Clause, at: int) -> bool:
    lead = [norm for norm in spoken.norms(clause.start, at) if norm not in LEADING]
    if {"you", "your", "they", "he", "she", "if", "let"} & set(lead):
        return False
    if not lead:
        return spoken.tokens[at].tag in {"VBG", "VB", "NN"} and not spoken.has_cue("addressee")
    return bool({"i", "we"} & set(lead) and set(lead) & (PLANNING | {"have", "'ve", "need", "got"}))


def _called(spoken: Spoken, clause: Clause) -> Mention | None:
    """`I'll call somebody about the disposal`, `following up with the plumber on the tap`, `I'll follow up on it`."""
    for at in range(clause.start, clause.end - 2):
        if spoken.tokens[at].norm not in INQUIRY or not _speaker_plans(spoken, clause, at):
            continue
        for about in range(at + 1, min(clause.end - 1, at + 7)):
            if spoken.tokens[about].norm not in (ABOUT - {"for"} if spoken.tokens[at].norm in CHASED else ABOUT):
                continue
            who = spoken.norms(at + 1, about)
            follows = spoken.tokens[at].norm.startswith("follow") and who[:1] == ["up"]
            if set(who) & SPEAKER or not (follows or _is_somebody(spoken, at + 1, about)):
                break
            if POINTING & set(spoken.norms(about + 1, about + 2)) or any(
                one.start > about and one.start in clause for one in spoken.named
            ):
                return Mention(at, about + 1)
    return None


def _fetched(spoken: Spoken, clause: Clause) -> Mention | None:
    """`I'll have somebody out here this week`, `I'm getting a man in`: sent for, the work goes unsaid."""
    for at in range(clause.start, clause.end - 2):
        if spoken.tokens[at].norm not in FETCHED or not _speaker_plans(spoken, clause, at):
            continue
        for here in range(at + 2, min(clause.end, at + 6)):
            if spoken.tokens[here].norm in HITHER and _is_somebody(spoken, at + 1, here):
                return Mention(at, here + 1)
    return _sent(spoken, clause) or _is_aware(spoken, clause) or (_is_seen_to(spoken, clause) if clause.index else None)


TOLD = frozenset("emailed told informed notified contacted alerted texted messaged rung phoned called asked".split())
THEIRS = STAFF - {"i", "he", "she", "they", "me", "us", "my", "our", "'ll"} | frozenset(
    "management owner owners agent agents agency council builder builders manager caretaker concierge board".split()
)
"""Those who see to what they are told of."""


def _have_been_told(spoken: Spoken, clause: Clause) -> Mention | None:
    """`building management have been emailed`, `the owner's been told`: those who have it mended know of it."""
    for at in range(clause.start + 3, clause.end):
        if spoken.tokens[at].norm not in TOLD or spoken.tokens[at - 1].norm != "been":
            continue
        who = spoken.norms(max(clause.start, at - 4), at - 2)
        if THEIRS & set(who[-1:] + who[-2:-1]) and spoken.norms(at - 2, at - 1)[0] in {"has", "have", "'s", "'ve"}:
            return None if spoken.norms(at + 1, at + 2) == ["to"] else Mention(at - 1, at + 1)
    return None


def _is_aware(spoken: Spoken, clause: Clause) -> Mention | None:
    """`maintenance is aware`, `the plumber knows about it`: those who mend have been told."""
    norms = spoken.norms(clause.start, clause.end)
    at = next((at for at, norm in enumerate(norms) if norm not in LEADING | {"the", "our", "my"}), 0)
    if (told := _have_been_told(spoken, clause)) is not None:
        return told
    after = norms[at + 1 : at + 4]
    aware = after[-1:] == ["aware"] or "aware" in after[1:3]
    knows = after[:2] in (["knows", "about"], ["know", "about"]) and bool(POINTING & set(after[2:]))
    if not (aware or knows):
        return None
    mends = norms[at : at + 1] == ["maintenance"] or any(one.start == clause.start + at for one in trades_in(spoken))
    return Mention(clause.start + at, clause.start + at + 2) if mends else None


DOING_NOW = frozenset(
    "requesting ordering emailing texting booking arranging chasing sourcing welding fitting mending bringing sending"
    " rigging building hanging".split()
)

SENDING = frozenset("is are 's 're the will be".split())
"""What stands between those who send somebody and that they do."""


def _is_seen_to(spoken: Spoken, clause: Clause) -> Mention | None:
    """`I'm requesting a quote`, `Hank is welding a new catch for it`: what is being done about a flaw."""
    for at in range(clause.start + 2, clause.end):
        if spoken.tokens[at].norm not in DOING_NOW or spoken.tokens[at - 1].norm not in IS_AT_IT:
            continue
        subject = spoken.tokens[at - 2]
        if spoken.tokens[at].norm == "hanging" and spoken.norms(at + 1, at + 2)[:1] not in (["a"], ["the"], ["it"]):
            continue  # they're hanging properly
        if subject.norm in {"i", "we", "he", "she", "they"} or subject.tag in {"NNP", "NNPS"} or subject.norm in STAFF:
            return Mention(at - 1, at + 1)
    return None


def _sent(spoken: Spoken, clause: Clause) -> Mention | None:
    """`the warranty people are sending a man`: sent by others."""
    for at in range(clause.start + 1, clause.end):
        if spoken.tokens[at].norm not in {"sending", "send"}:
            continue
        who = [norm for norm in spoken.norms(clause.start, at) if norm not in LEADING | SENDING]
        if who and who[-1] in STAFF - {"i", "we", "you"}:
            sent = spoken.norms(at + 2, at + 3)
            return Mention(at, at + 2) if STAFF & set(sent) else None
    return None
