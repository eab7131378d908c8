"""What is asked and what is looked for: `is that a crack`, `checking the tub for chips`."""

from __future__ import annotations

from narrate2report.read.clauses import LEADING, Clause
from narrate2report.read.spoken import Spoken

AUXILIARIES = frozenset("is are was were does do did has have can could will would should am".split())

SUBJECTS = frozenset(
    "that this it these those there you i they we he she the a any anything anybody anyone your".split()
)

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
    if clause.link not in {"if", "whether"} or not clause.index:
        return False
    before = spoken.clauses[clause.index - 1]
    return bool(
        {"look", "looking", "check", "checking", "checked", "looked"} & set(spoken.norms(before.start, before.end))
    )


def _has_tag(spoken: Spoken, clause: Clause) -> bool:
    """`you don't burn rubbish in it, do you?`: asked of the one who lives there, and told of nothing."""
    following = spoken.clauses[clause.index + 1 : clause.index + 2]
    if not following or following[0].index != len(spoken.clauses) - 1 or not spoken.ends_with_question():
        return False
    tag = spoken.norms(following[0].start, following[0].end)
    asked = len(tag) in {2, 3} and tag[0] in AUXILIARIES and tag[-1] == "you"
    return asked and "you" in spoken.norms(clause.start, clause.end)


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
