"""English as other grammars build it, in the forms that the rest of reading knows.

In go the tokens of a sentence, out come tokens of the same text: `lock not work` is read as `lock does not work`,
`there is not soap dish` as `there is no soap dish`, `near of the tub` as `near the tub`. A token that is only
understood takes no room in the text, so that every quote stays as it was spoken. Words for things belong to `vocab/`;
here is only how sentences are put together.
"""

from __future__ import annotations

from collections.abc import Sequence

from narrate2report.read.lexis.inflect import verb_forms
from narrate2report.read.lexis.vocabulary import Vocabulary
from narrate2report.read.lexis.words import FINITE, Token
from narrate2report.read.speech.clauses import MARKS
from narrate2report.read.speech.existence import FOCUS, Rewrite, flaw_names, subject_last, there_first, understood
from narrate2report.read.speech.lost_is import LostIs
from narrate2report.read.speech.progressives import is_not_getting, states_having

NOUN_TAGS = frozenset({"NN", "NNS", "NNP", "NNPS"})

NOUNS_TOO = frozenset("light lock drain switch latch seal heat trip power fire draw vent catch slide fan sound".split())
"""Working verbs that are things as well: `stove no light`, `sink no drain` may tell that there is none."""

NO_AUXILIARY = frozenset("run put set cut hit let read test try check".split())
"""Verbs whose bare form is a participle or a note of what was left alone: `dishwasher not run`."""

PREPOSITIONS = frozenset("near behind under below above beside inside outside between around underneath".split())
"""`near of the tub`: prepositions that English lets stand without `of`."""

JOINED_BY_TO = frozenset({"next", "close"})

NO_NOUN_FOLLOWS = frozenset(
    "a an the any one much many enough nothing no anything anybody really even only just so too that this there yet"
    " all every always good bad".split()
)
"""After `there is not` these leave the denial as it is."""

BE = frozenset("is 's are was were".split())

DOUBLED = frozenset("small little big tiny long thin black white many different".split())
"""What is said twice of many: `small small holes`."""

SOUNDS = frozenset("sound sounds noise noises".split())

LIT = frozenset("light lights tubelight tubelights bulb bulbs lamp lamps flame burner burners".split())

DOES = frozenset("close work lock turn start drain spin stop heat cool function".split())
"""`is not work`: verbs that say in their bare form what they would say with `-ing`."""

PARTICIPLES = {
    "burn": "burnt", "break": "broken", "block": "blocked", "clog": "clogged", "damage": "damaged",
    "crack": "cracked", "scratch": "scratched", "stain": "stained", "bend": "bent", "tear": "torn",
    "dent": "dented", "chip": "chipped", "fade": "faded", "melt": "melted",
}  # fmt: skip
"""Bare forms that stand for what has become of a thing, and the forms that the vocabulary knows."""

BEFORE_THING = frozenset("and but so then this that".split())
AFTER_THING = frozenset("is 's was has i we does not also works no it only and".split())
"""After these the `flush` of a toilet is a thing: `flush is fine`, `flush also`, `flush and tap`."""


BACK = 4
"""Tokens before a place that a rule sees."""


class Grammars:
    """What other grammars leave out or put otherwise, supplied or put as the vocabulary has it."""

    def __init__(self, vocabulary: Vocabulary) -> None:
        self._verbs = _working_verbs(vocabulary)
        self._lost_is = LostIs(vocabulary)
        names = flaw_names(vocabulary)
        self._rules: tuple[Rewrite, ...] = (
            _without_half,
            _about_to,
            _without_ain,
            _with_no,
            _without_of,
            _with_article,
            _without_doubles,
            _with_participle,
            _coming_on,
            _with_does,
            _without_numbers,
            _with_verb,
            there_first(names),
            subject_last(names),
            states_having,
            is_not_getting,
            self._with_auxiliary,
        )

    def plain(self, tokens: Sequence[Token]) -> tuple[Token, ...]:
        """The tokens with each rule applied once at each place, from left to right."""
        tokens = self._lost_is.plain(tokens)
        told: list[Token] = []
        at = 0
        while at < len(tokens):
            ahead = [*told[-BACK:], *tokens[at:]]
            here = min(BACK, len(told))
            found = next((one for rule in self._rules if (one := rule(ahead, here)) is not None), None)
            replaced, instead = found or (1, [tokens[at]])
            told += instead
            at += replaced
        return tuple(told)

    def _with_auxiliary(self, tokens: Sequence[Token], at: int) -> tuple[int, list[Token]] | None:
        """`lock not work`, `blind no go down`, `I not try it`: a bare verb denied without its auxiliary."""
        token, verb = tokens[at], tokens[at + 1 : at + 2]
        if token.norm not in {"not", "no"} or not verb or not self._is_bare(token, verb[0]):
            return None
        before = _as_subject(tokens, at)
        after = tokens[at + 2] if at + 2 < len(tokens) else None
        auxiliary = self._auxiliary(before, verb[0], after) if token.norm == "not" else _of_noun(before)
        if auxiliary is None or (verb[0].norm in NO_AUXILIARY and auxiliary != "must"):
            return None
        return 1, [understood(auxiliary, token), token._replace(norm="not")]

    def _is_bare(self, denial: Token, verb: Token) -> bool:
        if not verb.norm.isalpha() or verb.tag == "VBN":
            return False
        known = verb.norm in self._verbs or verb.norm == "have"
        return known and verb.norm not in NOUNS_TOO if denial.norm == "no" else known or verb.tag in {"VB", "VBP"}

    def _auxiliary(self, before: Token | None, verb: Token, after: Token | None) -> str | None:
        ends = after is None or not after.is_word or after.tag in {"RB", "JJ", "IN", "RP", "CC"} or after.norm == "all"
        told = verb.norm in self._verbs and ends
        if before is None:
            return "does" if told else "do"
        if before.text in MARKS or before.norm in {"and", "but"}:
            return "does" if told else None
        return _of_noun(before) or {"i": "did", "we": "did", "you": "must"}.get(before.norm)


def _as_subject(tokens: Sequence[Token], at: int) -> Token | None:
    """The word before; the first of a sentence is taken for a noun: `Lock not turn`."""
    if not at:
        return None
    before = tokens[at - 1]
    first = at == 1 and before.tag in {"VB", "VBP", "JJ"} and before.norm not in FINITE
    return before._replace(tag="NN") if first or before.norm in NOUNS_TOO else before


def _of_noun(before: Token | None) -> str | None:
    """The auxiliary that goes with the word before it, where that can be a subject."""
    if before is None:
        return None
    if before.norm in {"it", "she", "he", "this", "one"} or before.tag in {"NN", "NNP"}:
        return "does"
    return "do" if before.tag in {"NNS", "NNPS"} or before.norm in {"they", "these"} else None


def _working_verbs(vocabulary: Vocabulary) -> frozenset[str]:
    """What things do when they work, in the bare form: `turn`, `heat`, `close`."""
    phrases = [phrase for component in vocabulary.components.values() for phrase in component.works]
    firsts = {phrase.split()[0] for phrase in phrases}
    return frozenset(word for word in firsts if word.isalpha()) | {"work", "start", "turn", "come", "go", "run"}


def _without_half(tokens: Sequence[Token], at: int) -> tuple[int, list[Token]] | None:
    """`the window doesn't half stick`: it sticks very much."""
    norms = [token.norm for token in tokens[at : at + 3]]
    if norms[1:] != ["not", "half"] or norms[0] not in {"does", "do", "did", "is", "are", "was"}:
        return None
    following = tokens[at + 3] if at + 3 < len(tokens) else None
    if following is None or not following.is_word or following.tag in {"DT", "IN", "CD"}:
        return None  # it isn't half of it
    return 3, [tokens[at]] if norms[0] in BE else []


def _about_to(tokens: Sequence[Token], at: int) -> tuple[int, list[Token]] | None:
    """`I'm fixing to walk it`: going to."""
    norms = [token.norm for token in tokens[at : at + 2]]
    being = at and tokens[at - 1].norm in {*BE, "am", "'m", "'re", "was", "were", "i", "we"}
    return (1, [tokens[at]._replace(norm="going")]) if norms == ["fixing", "to"] and being else None


def _with_no(tokens: Sequence[Token], at: int) -> tuple[int, list[Token]] | None:
    """`there is not soap dish`, `not there is any leak`."""
    norms = [token.norm for token in tokens[at : at + 3]]
    if norms[:2] == ["not", "there"] and norms[2:3] and norms[2] in BE:
        return 3, [*tokens[at + 1 : at + 3], tokens[at]]
    if norms[:1] != ["not"] or at < 2 or tokens[at - 2].norm != "there" or tokens[at - 1].norm not in BE:
        return None
    following = tokens[at + 1] if at + 1 < len(tokens) else None
    if following is None or following.norm in NO_NOUN_FOLLOWS or following.tag not in NOUN_TAGS | {"JJ"}:
        return None
    return 1, [tokens[at]._replace(norm="no", tag="DT")]


def _without_ain(tokens: Sequence[Token], at: int) -> tuple[int, list[Token]] | None:
    """`ain't nothing wrong with it`: one denial told twice."""
    norms = [token.norm for token in tokens[at : at + 3]]
    return (2, []) if norms in (["ai", "not", "nothing"], ["ai", "not", "no"]) else None


def _with_participle(tokens: Sequence[Token], at: int) -> tuple[int, list[Token]] | None:
    """`the lamp is burn`, `the handle is already break`: the participle; `there is crack` names a flaw."""
    done = PARTICIPLES.get(tokens[at].norm)
    if (
        done is None
        or at < 2
        or (at + 1 < len(tokens) and (tokens[at + 1].tag in NOUN_TAGS | {"JJ"} or tokens[at + 1].norm == "by"))
    ):
        return None
    being = [token for token in tokens[at - 2 : at] if token.norm not in {"already", "also", "all"}]
    if being[-1:] and being[-1].norm in BE and tokens[at - 2].norm not in {"there", "here", "what", "that"}:
        return 1, [tokens[at]._replace(norm=done, tag="VBN")]
    return None


def _without_doubles(tokens: Sequence[Token], at: int) -> tuple[int, list[Token]] | None:
    """`small small scratches`: small ones; `a tak-tak sound`: a sound."""
    token = tokens[at]
    end = at + 1
    while end < len(tokens) and (tokens[end].norm == token.norm or tokens[end].text == "-"):
        end += 1
    if end - at < 2 or end >= len(tokens) or not token.norm.isalpha() or tokens[end - 1].norm != token.norm:
        return None
    if tokens[end].norm in SOUNDS:
        return end - at, []
    return (end - at, [token]) if token.norm in DOUBLED and tokens[end].tag in NOUN_TAGS | {"JJ"} else None


def _coming_on(tokens: Sequence[Token], at: int) -> tuple[int, list[Token]] | None:
    """`the fridge light is coming`: it comes on; what somebody brings is coming too, and light comes in."""
    if tokens[at].norm != "coming" or at < 2 or tokens[at - 1].norm not in BE | FOCUS:
        return None
    ends = at + 1 >= len(tokens) or tokens[at + 1].text in MARKS or tokens[at + 1].norm in {"also", "now", "and", "but"}
    lit = [token.norm for token in tokens[max(0, at - 3) : at] if token.norm not in BE | FOCUS][-1:]
    return (1, [tokens[at]._replace(norm="working")]) if ends and lit and lit[0] in LIT else None


def _with_does(tokens: Sequence[Token], at: int) -> tuple[int, list[Token]] | None:
    """`the door is not close`, `the fan is not work`: it does not."""
    if tokens[at].norm != "not" or not at or at + 1 >= len(tokens) or tokens[at - 1].norm not in {"is", "are"}:
        return None
    verb, after = tokens[at + 1], tokens[at + 2] if at + 2 < len(tokens) else None
    ends = after is None or after.text in MARKS or after.norm in {"well", "good", "properly", "fully", "anymore"}
    if verb.norm not in DOES or not ends:
        return None
    return 2, [tokens[at], verb._replace(norm=verb_forms(verb.norm)[-1], tag="VBG")]


def _without_numbers(tokens: Sequence[Token], at: int) -> tuple[int, list[Token]] | None:
    """`one no.`, `2 nos`, `three numbers I am giving`: how many, and no number of a thing."""
    if tokens[at].norm not in {"no", "nos", "numbers"} or not at or tokens[at - 1].tag != "CD":
        return None
    following = tokens[at + 1] if at + 1 < len(tokens) else None
    ends = following is None or following.text in MARKS or following.norm in {"and", "i", "we"}
    return (1, []) if ends else None


def _with_verb(tokens: Sequence[Token], at: int) -> tuple[int, list[Token]] | None:
    """`the oven works but the light no`: it does not."""
    if tokens[at].norm != "no" or at < 2 or (at + 1 < len(tokens) and tokens[at + 1].text not in MARKS):
        return None
    before = tokens[at - 1]
    if before.tag not in NOUN_TAGS and before.norm not in {"inside", "outside", "one"}:
        return None
    if "but" not in [token.norm for token in tokens[max(0, at - BACK) : at]]:
        return None
    return 1, [understood("does", tokens[at]), tokens[at]._replace(norm="not", tag="RB")]


def _with_article(tokens: Sequence[Token], at: int) -> tuple[int, list[Token]] | None:
    """`flush is not working`, `flush I am pressing`: the thing, and nobody's flushing."""
    token = tokens[at]
    if token.norm != "flush" or (at and tokens[at - 1].text not in MARKS and tokens[at - 1].norm not in BEFORE_THING):
        return None
    following = tokens[at + 1] if at + 1 < len(tokens) else None
    if following is None or following.norm not in AFTER_THING:
        return None
    thing = token._replace(text="flush", tag="NN")
    return 1, [thing] if at and tokens[at - 1].tag == "DT" else [understood("the", token), thing]


def _without_of(tokens: Sequence[Token], at: int) -> tuple[int, list[Token]] | None:
    """`near of the tub`, `next of the stove`; `the inside of the oven` is a thing."""
    token = tokens[at]
    if token.norm not in {"of", "from"} or not at or at + 1 >= len(tokens) or not tokens[at + 1].is_word:
        return None
    before = tokens[at - 1].norm
    led = at >= 2 and tokens[at - 2].tag in {"DT", "PRP$", "JJ", "CD"}
    if before in JOINED_BY_TO and not led:
        return 1, [token._replace(norm="to", tag="IN")]
    if before in PREPOSITIONS and not led and token.norm == "of":
        return 1, []
    return None
