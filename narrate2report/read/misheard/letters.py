"""How a word that stands in no dictionary would be said, from its letters: rough, and enough to compare by.

A recogniser that does not know `escutcheon` writes what it heard by the habits of English spelling, so reading
it back by those habits gives the sounds again.
"""

from __future__ import annotations

_RULES: dict[str, str] = {
    "tion": "SH AH N", "sion": "ZH AH N", "cheon": "CH AH N", "chin": "CH IH N", "ture": "CH ER",
    "ought": "AO T", "augh": "AO", "eigh": "EY", "igh": "AY", "tch": "CH", "dge": "JH",
    "sch": "S K", "sce": "S EH", "sci": "S IH", "scy": "S AY", "ear": "IH R", "eer": "IH R", "air": "EH R",
    "oor": "AO R", "our": "AO R", "are": "EH R", "ore": "AO R", "ire": "AY R", "ier": "IH R",
    "ck": "K", "ch": "CH", "sh": "SH", "ph": "F", "th": "TH", "wh": "W", "qu": "K W", "kn": "N", "wr": "R",
    "gh": "G", "ng": "NG", "nk": "NG K", "mb": "M", "dj": "JH", "ai": "EY", "ay": "EY", "ea": "IY", "ee": "IY",
    "ei": "EY", "ey": "IY", "ie": "IY", "oa": "OW", "oe": "OW", "oi": "OY", "oy": "OY", "oo": "UW", "ou": "AW",
    "ow": "AW", "au": "AO", "aw": "AO", "eu": "UW", "ew": "UW", "ue": "UW", "ui": "UW",
    "ar": "AA R", "er": "ER", "ir": "ER", "or": "AO R", "ur": "ER", "yr": "ER", "ce": "S EH", "ci": "S IH",
    "cy": "S IY", "ge": "JH EH", "gi": "JH IH", "gy": "JH IY",
    "a": "AE", "b": "B", "c": "K", "d": "D", "e": "EH", "f": "F", "g": "G", "h": "HH", "i": "IH", "j": "JH",
    "k": "K", "l": "L", "m": "M", "n": "N", "o": "AA", "p": "P", "q": "K", "r": "R", "s": "S", "t": "T",
    "u": "AH", "v": "V", "w": "W", "x": "K S", "y": "IY", "z": "Z",
}  # fmt: skip
_LONG = {"a": "EY", "e": "IY", "i": "AY", "o": "OW", "u": "UW", "y": "AY"}
_LAST = {
    "ue": "UW", "ie": "IY", "ee": "IY", "oe": "OW",
    "e": "", "ed": "D", "le": "AH L", "al": "AH L", "el": "AH L", "en": "AH N", "on": "AH N", "an": "AH N",
    "et": "AH T", "it": "AH T", "am": "AH M", "um": "AH M", "em": "AH M", "us": "AH S", "is": "AH S", "a": "AH",
    "age": "IH JH", "ice": "AH S", "ace": "AH S", "ent": "AH N T", "ant": "AH N T", "y": "IY", "o": "OW",
    "ge": "JH", "ce": "S", "se": "S",
}  # fmt: skip
"""Endings that are not stressed, of words with a vowel before them."""
_VOWELS = frozenset("aeiouy")


def letters_to_phones(word: str) -> tuple[str, ...]:
    """ARPAbet phones of a lower-case word, longest rule first; letters that are none are passed over."""
    stem, ending = word, ""
    for length in (3, 2, 1):
        last = word[-length:]
        before = word[:-length]
        if last in _LAST and len(before) > 1 and _VOWELS & set(before):
            stem, ending = before, _LAST[last]
            break
    phones: list[str] = []
    at = 0
    while at < len(stem):
        letter = stem[at]
        if at and letter == stem[at - 1] and letter not in _VOWELS:
            at += 1
            continue
        if _is_long(word, at):
            phones.append(_LONG[letter])
            at += 1
            continue
        for length in (5, 4, 3, 2, 1):
            rule = _RULES.get(stem[at : at + length])
            if rule is not None and at + length <= len(stem):
                phones += rule.split()
                at += length
                break
        else:
            at += 1
    return (*phones, *ending.split())


def _is_long(word: str, at: int) -> bool:
    """The vowel before one consonant and a silent last e: the a of `rale`."""
    return (
        at + 3 == len(word)
        and word[-1] == "e"
        and word[at] in _VOWELS
        and word[at + 1] not in _VOWELS
        and word[at + 1] not in "rwx"
        and (at == 0 or word[at - 1] not in _VOWELS)
    )
