"""What is asked and what is looked for: `is that a crack`, `checking the tub for chips`."""

from __future__ import annotations

from narrate2report.read.clauses import LEADING, Clause
from narrate2report.read.spoken import Spoken

AUXILIARIES = frozenset("is are was were does do did has have can could will would should am".split())

SUBJECTS = frozenset(
    "that this it these those there you i they we he she the a any anything anybody anyone your".split()
)

LOOKING = frozenset({"looking", "checking", "inspecting"})
"""`I'm looking at the trim, because the last people let a parrot chew it`: why somebody looks."""

SEARCHING = frozenset(
    "check checking checks checked look looking looked search searching inspecting scanning examining".split()
)


def looks_for(spoken: Spoken, clause: Clause) -> int | None:
    """`checking the tub for chips`: a searching verb with its `for` a few words on."""
    norms = spoken.norms(clause.start, clause.end)
    for at, norm in enumerate(norms):
        if norm in SEARCHING and "for" in norms[at + 1 : at + 6]:
            return clause.start + at
    return None


def looks_whether(spoken: Spoken, clause: Clause) -> bool:
    """`I look against the light if it is scratched`."""
    before = spoken.clauses[clause.index - 1] if clause.index else clause
    if clause.link == "because" and LOOKING & set(spoken.norms(before.start, before.end)):
        tokens = spoken.tokens[clause.start : clause.end]
        return all(token.tag == "VBD" for token in tokens if token.is_finite) and "not" not in spoken.norms(
            before.start, before.end
        )
    if clause.link not in {"if", "whether"} or not clause.index:
        return False
    return bool(
        {"look", "looking", "check", "checking", "checked", "looked"} & set(spoken.norms(before.start, before.end))
    )


def _has_tag(spoken: Spoken, clause: Clause) -> bool:
    """`you don't burn rubbish in it, do you?`: asked of the one who lives there, and told of nothing."""
    last = spoken.clauses[-1]
    tag = spoken.norms(last.start, last.end)
    if not spoken.ends_with_question() or len(tag) not in {2, 3} or tag[0] not in AUXILIARIES or tag[-1] != "you":
        return False
    first = last.index - 1
    while first > 0 and not spoken.clauses[first].link:
        first -= 1
    return first <= clause.index < last.index and "you" in spoken.norms(spoken.clauses[first].start, last.start)


def asks(spoken: Spoken, clause: Clause) -> bool:
    """`is that a crack`, or the last clause before a question mark."""
    norms = [norm for norm in spoken.norms(clause.start, clause.end) if norm not in LEADING | {"or"}]
    if len(norms) > 2 and norms[0] in {"have", "has", "had"} and norms[1] in {"a", "the", "any", "your"}:
        return spoken.ends_with_question()
    if spoken.norms(clause.start, clause.end)[:1] == ["so"] and norms[:1] and norms[0] in AUXILIARIES:
        return spoken.ends_with_question()  # and so is the freezer
    if len(norms) > 2 and norms[0] in AUXILIARIES and norms[1] in SUBJECTS:
        return norms[:2] not in (["is", "there"],) or spoken.ends_with_question()
    wonders = norms[:1] == ["who"] and clause.link in {",", "...", "and"} and len(norms) in {2, 3, 4}
    if wonders and not spoken.named_terms(clause):
        return True  # ha, who nicks that
    if _has_tag(spoken, clause):
        return True
    if not spoken.ends_with_question() or (norms[:1] == ["see"] and "if" not in norms):
        return False  # `see that scratch?` shows it
    last = clause.index == len(spoken.clauses) - 1
    if last:
        return True
    opens = norms[:1] and norms[0] in {"what", "when", "did", "was", "does"}
    return (
        clause.index == 0 and len(norms) > 1 and bool(opens or (norms[0] == "that" and norms[1] in {"a", "an", "the"}))
    )
