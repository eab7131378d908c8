"""Component words that name no component here: `it drains`, `the floor is vinyl plank`, `a light scratch`."""

from __future__ import annotations

from narrate2report.read.lexis.phrase_tree import COMPONENT_ROLES, Mention
from narrate2report.read.speech.spoken import Spoken


def is_material_of(spoken: Spoken, mention: Mention, chosen: dict[int, tuple[Mention, str]]) -> bool:
    """`the floor is vinyl plank`: after a component, a word that is both is what it is made of."""
    if not mention.of("material", "type"):
        return False
    if mention.start and mention.of("material") and spoken.tokens[mention.start - 1].norm == "of":
        return True  # the shelf of glass
    clause = spoken.clause_of(mention.start)
    before = [other for start, (other, _) in chosen.items() if start < mention.start and start >= clause.start]
    if not before:
        flawed = spoken.has_term("condition", within=clause)
        headed = clause.link == ":" and clause.index == 1 and bool(chosen) and not flawed
        return headed or _only_tells_what(spoken, mention, chosen)
    between = spoken.norms(before[-1].end, mention.start)
    if {"the", "this", "that"} & set(between[-2:]):
        return False
    return bool(set(between) & {"is", "'s", "are", "was", ":", "in"}) and "on" not in between


ONLY_BE = frozenset("it 's is they are a an all of the kind well and".split())


def _only_tells_what(spoken: Spoken, mention: Mention, chosen: dict[int, tuple[Mention, str]]) -> bool:
    """`the counter is fine, it's granite`, `stove, electric, glass top`: a clause that only says what the one named
    before is."""
    clause = spoken.clause_of(mention.start)
    if clause.link not in {",", "and", ""} or not clause.index or mention.end != clause.end:
        return False
    if not set(spoken.norms(clause.start, mention.start)) <= ONLY_BE:
        return False
    earlier = [component for start, (_, component) in sorted(chosen.items()) if start < mention.start]
    own = {sense.id for sense in mention.of(*COMPONENT_ROLES)}
    types = {sense.beside for sense in mention.of("type") if sense.beside}
    return bool(earlier) and (earlier[-1] in types or (bool(mention.of("material")) and earlier[-1] in own))


def _follows_component(spoken: Spoken, mention: Mention) -> bool:
    """`the tub drains fine`: right after another component and with no other verb to come, it is the verb."""
    if not any(other.end == mention.start and other.of(*COMPONENT_ROLES) for other in spoken.found.terms):
        return False
    clause = spoken.clause_of(mention.start)
    return not any(token.is_finite for token in spoken.tokens[mention.end : clause.end])


def _opens_a_note(spoken: Spoken, mention: Mention) -> bool:
    """`Lock good.`: a first word followed by what is said of it is a noun, whatever else it could be."""
    if mention.start != spoken.clause_of(mention.start).start:
        return False
    return any(term.start == mention.end for term in spoken.terms("condition"))


def _is_sole(spoken: Spoken, mention: Mention) -> bool:
    """`front door opens, closes, locks`: alone in its clause, in a list of what a component does."""
    for clause in reversed(spoken.clauses[: spoken.clause_of(mention.start).index + 1]):
        words = [at for at in range(clause.start, clause.end) if spoken.tokens[at].norm != "and"]
        if clause.start <= mention.start < clause.end:
            if words != [mention.start]:
                return False
        elif spoken.named_terms(clause) and (len(words) > 1 or not spoken.has_term("works", within=clause)):
            return True
        elif not spoken.has_term("works", within=clause):
            return False
    return False


def _is_of_pronoun(spoken: Spoken, at: int) -> bool:
    """`light of it`; `the door of this room` is a door."""
    if spoken.norms(at, at + 2) not in (["of", "it"], ["of", "that"], ["of", "this"]):
        return False
    following = spoken.tokens[at + 2 : at + 3]
    return not following or not following[0].tag.startswith("NN")


NUMBERED = frozenset("first second third fourth fifth sixth last next one two three four five six".split())
POINTED_OUT = frozenset({"the", "this", "that", "one", "and", "number", "burner", "ring"})


def _is_of_numbered(spoken: Spoken, mention: Mention) -> bool:
    """`the second lights`, `two, lights`: what one of a row does; `two lights` are two."""
    clause = spoken.clause_of(mention.start)
    if mention.end != clause.end:
        return False
    before = spoken.norms(clause.start, mention.start)
    label = spoken.clauses[clause.index - 1] if not before and clause.index and clause.link == "," else None
    told = spoken.norms(label.start, label.end) if label is not None else before
    ordinal = label is not None or (before[-1:] != [] and before[-1] in NUMBERED and before[-1].endswith(ORDINAL))
    return ordinal and bool(NUMBERED & set(told)) and set(told) <= NUMBERED | POINTED_OUT


ORDINAL = ("st", "nd", "rd", "th")

SAID_OF = frozenset("'s is are was were works has looks turns feels".split())
"""Verbs right after which a word is what they are said of: `lock works`."""


def _is_state(spoken: Spoken, mention: Mention) -> bool:
    """`freezer cold`, `the oven's hot`: what a thing is, and no side of a tap."""
    clause = spoken.clause_of(mention.start)
    if mention.start == clause.start or mention.end != clause.end:
        return False
    before = spoken.tokens[mention.start - 1]
    return before.norm in {"is", "'s", "are", "gets", "runs", "blows", "nice", "still"} or (
        before.tag in {"NN", "NNS", "NNP"} and before.norm not in {"tap", "water", "hot", "cold", "side"}
    )


def _is_second_work(spoken: Spoken, mention: Mention) -> bool:
    """`patch and paint`: the second of two works, and no paint."""
    clause = spoken.clause_of(mention.start)
    bare = mention.end == clause.end and mention.start == clause.start + 1
    if not bare or clause.link not in {"and", "then"} or not clause.index:
        return False
    before = spoken.clauses[clause.index - 1]
    return any(term.of("action") and term.start in before for term in spoken.found.terms)


def is_other_word(spoken: Spoken, mention: Mention) -> bool:
    """Whether a component word is used as a verb (`it drains`) or adjective (`a light scratch`)."""
    if mention.end - mention.start > 1:
        return False
    tokens = spoken.tokens
    token = tokens[mention.start]
    if token.norm in {"hot", "cold"} and _is_state(spoken, mention):
        return True
    if token.norm == "paint" and _is_second_work(spoken, mention):
        return True
    if token.norm in {"stops", "books"} and token.tag == "VBZ":
        return True  # if the fridge stops
    if spoken.norms(mention.end, mention.end + 1) in ([one] for one in SAID_OF) or _opens_a_note(spoken, mention):
        return False
    if token.tag == "JJ" and spoken.norms(mention.end, mention.end + 1) in (["ones"], ["one"]):
        return True  # a couple of scuffs, light ones
    before = tokens[mention.start - 1].norm if mention.start else ""
    counted = (
        bool(mention.start)
        and tokens[mention.start - 1].tag == "CD"
        and mention.end == spoken.clause_of(mention.start).end
        and (
            token.tag.startswith("VB")
            or token.norm in {"lock", "light", "drain"}
            or tokens[max(0, mention.start - 2)].norm in {"all", "both"}
        )
    )
    agrees = before == "each" or not token.norm.endswith("s")
    if (before in {"them", "all", "both", "they", "each"} or counted) and mention.of("works") and agrees:
        return True
    if before in {
        "to",
        "will",
        "not",
        "please",
        "you",
        "i",
        "we",
        "they",
        "it",
        "would",
        "can",
        "must",
        "should",
    } and token.tag.startswith("VB"):
        return True
    if (
        mention.of("works", "action", "condition")
        and token.tag in {"VBZ", "VBP", "VBD", "VB"}
        and before not in {"the", "a", "this", "that", "no"}
    ):
        return True
    if mention.of("works") and token.norm.endswith("s") and _is_of_numbered(spoken, mention):
        return True
    after = tokens[mention.end] if mention.end < len(tokens) else None
    sole = _is_sole(spoken, mention)
    if mention.of("works") and token.norm.endswith("s") and sole:
        return True
    if (
        mention.of("works")
        and mention.start
        and tokens[mention.start - 1].tag in {"NNS", "NNP", "NNPS"}
        and tokens[mention.start - 1].norm.endswith("s")
        and _follows_component(spoken, mention)
    ):
        return True
    if mention.of("works") and token.norm.endswith("s") and _follows_component(spoken, mention):
        return True
    if mention.of("works") and before in {"is", "'s", "are", "was"} and token.tag in {"VBG", "NN", "JJ"}:
        return True
    if _is_of_pronoun(spoken, mention.end):
        return True
    if token.norm == "light" and after is not None:
        following = [other for other in spoken.found.terms if other.start == mention.end and other.of("condition")]
        plain = [sense for one in following for sense in one.of("condition") if not sense.beside]
        if before in {"the", "this", "that"} and plain and all(sense.form == "phrase" for sense in plain):
            return False  # the light flickers
        return after.tag in {"JJ"} or any(
            other.start == mention.end and other.of("condition", "colour") for other in spoken.found.terms
        )
    return False
