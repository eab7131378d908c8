"""Checks told in brief: `the cord works, the fan does not`, `window locks.`, `fan: on`; and the check draft itself."""

from __future__ import annotations

from collections.abc import Sequence

from narrate2report.read.drafts.draft import Draft
from narrate2report.read.lexis.phrase_tree import Mention
from narrate2report.read.meant.negations import negation_before
from narrate2report.read.meant.scene import Scene
from narrate2report.read.speech.clauses import Clause
from narrate2report.read.speech.spoken import Named, Spoken
from narrate2report.read.things.operated import is_operated
from narrate2report.records.findings import Outcome

ADVERBS = frozenset(
    "good fine well okay ok great perfectly perfect smoothly nicely properly normally quickly fast".split()
)

PLURALS = frozenset({"locks", "latches"})
"""Verbs that may as well be plurals: `window locks`, `gate latches`."""

WITH_ADVERB = PLURALS | {"cranks", "drains"}
"""Verbs at the head of a clause that an adverb tells from plurals: `cranks fine`."""


def from_ellipsis(scene: Scene) -> list[Draft]:
    """`the cord works, the fan does not`: the verb of the clause before, taken back for another component."""
    spoken, drafts = scene.spoken, []
    alone = spoken.clauses[0] if len(spoken.clauses) == 1 else None
    if alone is not None and spoken.norms(alone.end - 2, alone.end) in (["does", "not"], ["do", "not"]):
        drafts += [
            check_of(scene, Mention(alone.end - 2, alone.end), one.component, "nothing more is said", fails=True)
            for one in spoken.named
            if one.relation == "topic" and is_operated(one.component, scene.vocabulary) and scene.is_said(one.start)
        ]
    for clause in spoken.clauses[1:]:
        last = spoken.norms(clause.end - 2, clause.end)
        if _it_does_not(spoken, clause):
            told = scene.bearers.subjects_of(clause) or spoken.named[:1]
            at = Mention(clause.start, clause.end)
            meant = [one.component for one in told if is_operated(one.component, scene.vocabulary)]
            meant = meant[:1] if scene.is_said(clause.start) else []
            drafts += [check_of(scene, at, one, "the verb before it", fails=True) for one in meant]
            continue
        left_out = last in (["does", "not"], ["do", "not"], ["did", "not"], ["one", "not"], ["other", "not"])
        if not left_out or not _follows_a_trial(spoken, clause) or not scene.is_said(clause.end - 2):
            continue
        told = () if _names_another(spoken, clause) else scene.bearers.subjects_of(clause)
        for one in spoken.named_in(clause) or told:
            if one.relation == "topic" and is_operated(one.component, scene.vocabulary):
                does_not = Mention(clause.end - 2, clause.end)
                drafts.append(check_of(scene, does_not, one.component, "the verb before it", fails=True))
        subject = scene.place.subject
        unnamed = not spoken.named_in(clause) and not scene.bearers.subjects_of(clause)
        if unnamed and subject and is_operated(subject, scene.vocabulary) and _is_another_of_them(spoken, clause):
            drafts.append(check_of(scene, Mention(clause.end - 2, clause.end), subject, "another of them", fails=True))
    return drafts


TRAILING = frozenset("but now today anymore here yet at all for me us though".split())
NOT_SO = tuple([aux, "not"] for aux in ("is", "'s", "does", "did", "would", "will"))


def _follows_a_trial(spoken: Spoken, clause: Clause) -> bool:
    """Whether the clause before has a word of working, whatever is said of it."""
    before = spoken.clauses[clause.index - 1]
    return spoken.has_cue("operates", within=before) or spoken.has_term("works", within=before)


def _it_does_not(spoken: Spoken, clause: Clause) -> bool:
    """`it should be working but it isn't`, `she says it works, but it didn't for me`."""
    core = [norm for norm in spoken.norms(clause.start, clause.end) if norm not in TRAILING]
    contrasts = clause.link in {"but", ","} and bool(spoken.named) and _follows_a_trial(spoken, clause)
    return contrasts and core[:1] in (["it"], ["they"], ["she"], ["he"]) and core[1:] in NOT_SO


OF_THE_SAME = frozenset("side one other rest hand half end part".split())


def _names_another(spoken: Spoken, clause: Clause) -> bool:
    """`the oven works but the light in it doesn't`: something else, though the vocabulary does not know it there."""
    tokens = spoken.tokens[clause.start : clause.end]
    return any(token.tag in {"NN", "NNS"} and token.norm not in OF_THE_SAME for token in tokens)


def _is_another_of_them(spoken: Spoken, clause: Clause) -> bool:
    """`one works, one doesn't`, `... the other does not`."""
    return bool({"one", "other", "others", "second", "rest"} & set(spoken.norms(clause.start, clause.start + 3)))


def from_plurals(scene: Scene) -> list[Draft]:
    """`window locks.`: two words that may be a plural; with nothing more said of it, a noun and its verb. After
    `itself` it is a verb."""
    spoken, drafts = scene.spoken, []
    for one in spoken.named:
        clause = spoken.clause_of(one.start)
        ends = one.end == clause.end or set(spoken.norms(one.end, clause.end)) <= ADVERBS
        bare = ends and one.end - one.start > 1 and spoken.tokens[one.end - 1].norm in PLURALS
        bare = bare and one.relation == "topic" and "for" not in spoken.norms(clause.start, one.start)
        flawed = any(scene.flaws(within=clause))
        itself = spoken.norms(one.start - 1, one.start) in (["itself"], ["themselves"])
        itself = itself and spoken.norms(one.start, one.end)[0] in PLURALS
        if (bare or itself or _has_adverb(spoken, one, clause)) and not flawed and scene.is_said(one.start):
            drafts.append(check_of(scene, Mention(one.end - 1, one.end), one.component, "with nothing more said"))
    return drafts


def _has_adverb(spoken: Spoken, one: Named, clause: Clause) -> bool:
    """`window in here, cranks fine`: a plural or verb that heads a clause with an adverb as all the rest."""
    if one.start != clause.start or one.end - one.start > 1 or not clause.index or one.end + 1 != clause.end:
        return False
    return spoken.tokens[one.start].norm in WITH_ADVERB and spoken.tokens[one.end].norm in ADVERBS


AUXILIARY = frozenset("do does did will would can could".split())

MEASURES = frozenset("holding holds reads reading showing shows temperature temp".split())
"""`the fridge is holding thirty-eight`: what may stand for `at`."""
DEGREES = frozenset(
    "minus degrees degree celsius fahrenheit centigrade c f below above zero about around roughly bang on at and a half"
    " point is it 's it's".split()
)
"""Words beside a number in a clause that tells a temperature: `freezer, minus eighteen`."""
ARTICLES = frozenset("the this that a and so".split())
AT_TIMES = frozenset("o'clock am pm percent least most once".split())
"""With these, `at` and a number tell no temperature."""


def from_notes(scene: Scene) -> list[Draft]:
    """`fridge on, 4 C`, `fan: on / noisy`, `freezer cold`: what a thing is meant to be, noted with no verb; and
    `fridge at thirty-eight`, of what is meant to be cold."""
    spoken, drafts = scene.spoken, []
    for clause in spoken.clauses:
        named = spoken.named_in(clause)
        if not named and clause.end - clause.start == 1 and clause.index:
            named = spoken.named_in(spoken.clauses[clause.index - 1])
        if not named or not _opens(spoken, named[-1]):
            continue
        term = scene.vocabulary.components.get(named[-1].component)
        noted = Mention(clause.end - 1, clause.end)
        if _is_noted(spoken, clause, named[-1], term.works_adj if term else ()) and scene.is_said(noted.start):
            following = spoken.clauses[clause.index + 1 : clause.index + 2]
            read = following[0] if _reads_next(spoken, clause, named[-1]) else noted
            how = f"noted as {spoken.words(read.start, read.end)}"
            drafts.append(check_of(scene, noted, named[-1].component, how))
    return drafts


def _opens(spoken: Spoken, one: Named) -> bool:
    """Whether a clause begins with the component."""
    return set(spoken.norms(spoken.clause_of(one.start).start, one.start)) <= ARTICLES


def _is_noted(spoken: Spoken, clause: Clause, one: Named, meant: Sequence[str]) -> bool:
    """Whether the last word of a note is what the component is meant to be, or its temperature."""
    last = spoken.norms(clause.end - 1, clause.end)
    near = clause.end - one.end <= 1 + len(":") and clause.end > one.end
    if near and last and f"is {last[0]}" in meant:
        return True
    reads = spoken.norms(one.end, one.end + 5)
    measured = bool(MEASURES & set(reads[:2]))
    while reads[:1] and reads[0] in {"is", "'s", "running", "sitting", "still"} | MEASURES:
        reads = reads[1:]
    counted = any(token.tag == "CD" for token in spoken.tokens[one.end : clause.end])
    degrees = (
        (measured or reads[:1] == ["at"]) and counted and set(spoken.norms(one.end, clause.end)).isdisjoint(AT_TIMES)
    )
    return (degrees or _reads_next(spoken, clause, one)) and "cold" in meant


def _reads_next(spoken: Spoken, clause: Clause, one: Named) -> bool:
    """`fridge temperature, three degrees`, `freezer, minus eighteen`: a clause that is nothing but the reading."""
    following = spoken.clauses[clause.index + 1 : clause.index + 2]
    rest = set(spoken.norms(one.end, clause.end))
    if not following or following[0].link not in {",", ":"} or not rest <= MEASURES | {"is", "'s"}:
        return False
    tokens = spoken.tokens[following[0].start : following[0].end]
    words = {token.norm for token in tokens if token.tag != "CD" and token.is_word}
    counted = any(token.tag == "CD" for token in tokens) and words <= DEGREES
    return counted and bool(rest & MEASURES or words & {"minus", "degrees", "degree"})


def _denied_with(spoken: Spoken, clause: Clause, mention: Mention) -> str | None:
    """`they don't open and close right`, `it won't open or shut`: the second of two bare verbs under one denial."""
    if clause.link not in {"and", "or", "nor"} or not clause.index or mention.start > clause.start + 1:
        return None
    before = spoken.clauses[clause.index - 1]
    verb = spoken.tokens[mention.start]
    if verb.norm.endswith(("s", "ed", "ing")) or verb.tag == "VBD":
        return None
    norms = spoken.norms(before.start, before.end)
    at = next((at for at in range(1, len(norms)) if norms[at] == "not" and norms[at - 1] in AUXILIARY), None)
    return spoken.words(before.start + at - 1, before.start + at + 1) if at is not None else None


NOT_QUITE = frozenset("quite fully completely entirely properly really always even".split())
"""`the latch doesn't quite catch`: of a flaw that would still leave some of it; of what should be done, it was not."""


def _hardly(spoken: Spoken, mention: Mention) -> str | None:
    """`you can hardly see through it`: as good as not."""
    before = spoken.norms(max(0, mention.start - 2), mention.start)
    if before[:1] == ["not"] and before[1:] and before[1] in NOT_QUITE:
        return " ".join(before)
    before = spoken.norms(max(0, mention.start - 1), mention.start)
    return before[0] if before in (["hardly"], ["barely"], ["scarcely"]) else None


def _none_of_them(spoken: Spoken, clause: Clause, mention: Mention) -> str | None:
    """`neither window stays up`, `none of these light`."""
    before = spoken.norms(clause.start, mention.start)
    return next((norm for norm in before[:2] if norm in {"neither", "none"}), None)


def check_of(scene: Scene, mention: Mention, component: str, how: str, *, fails: bool = False) -> Draft:
    """The check draft of a word of working or failing: `fails` also where it is denied."""
    spoken = scene.spoken
    clause = spoken.clause_of(mention.start)
    denied = negation_before(spoken, clause, mention.start) or _denied_with(spoken, clause, mention)
    denied = denied or _hardly(spoken, mention) or _none_of_them(spoken, clause, mention)
    outcome: Outcome = "fails" if fails or denied else "works"
    for at in range(mention.start + 1, min(mention.end + 2, clause.end)):
        if spoken.tokens[at].norm in ADVERBS:
            spoken.used.add(at)
    words = spoken.words(mention.start, mention.end)
    because = [f"'{words}' tells of a trial", how]
    if denied:
        because.append(f"fails because of '{denied}'")
    return Draft(
        kind="check",
        room=scene.room,
        component=component,
        at=mention.start,
        outcome=outcome,
        because=tuple(because),
    )
