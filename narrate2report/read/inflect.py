"""Regular English inflection for vocabulary words; irregular forms stand in the vocabulary itself."""

from __future__ import annotations

VOWELS = frozenset("aeiou")


def noun_forms(phrase: str) -> tuple[str, ...]:
    """A noun phrase and its plural: `nail hole` gives `nail hole`, `nail holes`."""
    head, _, last = phrase.rpartition(" ")
    return tuple(dict.fromkeys((phrase, f"{head} {_with_s(last)}".strip())))


def verb_forms(phrase: str) -> tuple[str, ...]:
    """A verb phrase in its regular forms: `peel off` gives `peel off`, `peels off`, `peeled off`, `peeling off`."""
    first, _, rest = phrase.partition(" ")
    stem = first[:-1] if first.endswith("e") and not first.endswith("ee") else first
    if _doubles(first):
        stem += first[-1]
    past = f"{first[:-1]}ied" if _consonant_y(first) else f"{stem}ed"
    forms = (first, _with_s(first), past, f"{stem}ing")
    return tuple(dict.fromkeys(f"{form} {rest}".strip() for form in forms))


def _with_s(word: str) -> str:
    if _consonant_y(word):
        return f"{word[:-1]}ies"
    return word + ("es" if word.endswith(("s", "x", "z", "ch", "sh")) else "s")


def _consonant_y(word: str) -> bool:
    return len(word) > 2 and word.endswith("y") and word[-2] not in VOWELS


def _doubles(word: str) -> bool:
    """One-syllable consonant-vowel-consonant verbs double their last letter: sag, drip, jam."""
    return (
        3 <= len(word) <= 5
        and word[-1] not in "aeiouwxy"
        and word[-2] in VOWELS
        and word[-3] not in VOWELS
        and sum(letter in VOWELS for letter in word) == 1
    )
