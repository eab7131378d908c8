"""Regular English inflection for vocabulary words; irregular forms stand in the vocabulary itself."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

REMEMBERED = 4096
"""Words whose verb is kept at hand: a walk says the same ones over and over."""

VOWELS = frozenset("aeiou")

IRREGULAR_VERBS = {
    verb: tuple(forms.split())
    for verb, forms in {
        "go": "goes went going",
        "come": "comes came coming",
        "run": "runs ran running",
        "get": "gets got getting",
        "do": "does did doing",
        "shut": "shuts shutting",
        "hold": "holds held holding",
        "spin": "spins spun spinning",
        "ring": "rings rang ringing",
        "break": "breaks broke breaking",
        "bend": "bends bent bending",
        "tear": "tears tore tearing",
        "stick": "sticks stuck sticking",
        "swell": "swells swelled swelling",
        "shine": "shines shone shining",
        "blow": "blows blew blowing",
        "light": "lights lit lighting",
        "stink": "stinks stank stinking",
        "weep": "weeps wept weeping",
        "split": "splits splitting",
        "put": "puts putting",
        "cut": "cuts cutting",
        "hang": "hangs hung hanging",
        "make": "makes made making",
        "take": "takes took taking",
        "bring": "brings brought bringing",
        "buy": "buys bought buying",
        "send": "sends sent sending",
        "find": "finds found finding",
        "grind": "grinds ground grinding",
        "sweep": "sweeps swept sweeping",
        "keep": "keeps kept keeping",
        "see": "sees saw seeing",
        "give": "gives gave giving",
        "deal": "deals dealt dealing",
        "wear": "wears wore wearing",
        "have": "has had having",
        "bleed": "bleeds bled bleeding",
    }.items()
}
"""Their forms beside the base: third person, past, -ing."""

ENDINGS = frozenset("|s|es|ed|d|ing|er|ers|y|ies|ied|ier|ly".split("|"))
"""What regular forms of a word end in."""


PARTICLES = frozenset("up down off out back in on away over through".split())
HANDLED = ("it", "that", "this", "them", "those", "these", "one", "both")


def around_pronouns(phrases: Sequence[str]) -> tuple[str, ...]:
    """Verbs with a particle, taken apart by what they are done to: `cut off` gives `cut it off`, `cut that off`."""
    return tuple(
        f"{first} {pronoun} {rest}"
        for phrase in phrases
        for first, _, rest in (phrase.partition(" "),)
        if rest and set(rest.split()) <= PARTICLES
        for pronoun in HANDLED
    )


def noun_forms(phrase: str) -> tuple[str, ...]:
    """A noun phrase and its plural: `nail hole` gives `nail hole`, `nail holes`."""
    head, _, last = phrase.rpartition(" ")
    return tuple(dict.fromkeys((phrase, f"{head} {_with_s(last)}".strip())))


VERB_PREFIXES = frozenset("re de un deep steam power pressure spot".split())
"""Words written apart from the verb that they belong to: `re caulk`, `deep clean`."""


def verb_forms(phrase: str) -> tuple[str, ...]:
    """A verb phrase in its regular forms: `peel off` gives `peel off`, `peels off`, `peeled off`, `peeling off`."""
    first, _, rest = phrase.partition(" ")
    if first in VERB_PREFIXES and rest:
        return tuple(f"{first} {form}" for form in verb_forms(rest))
    if first in IRREGULAR_VERBS:
        return tuple(f"{form} {rest}".strip() for form in (first, *IRREGULAR_VERBS[first]))
    stem = first[:-1] if first.endswith("e") and not first.endswith("ee") else first
    if _doubles(first):
        stem += first[-1]
    past = f"{first[:-1]}ied" if _consonant_y(first) else f"{stem}ed"
    forms = (first, _with_s(first), past, f"{stem}ing")
    return tuple(dict.fromkeys(f"{form} {rest}".strip() for form in forms))


def same_word(one: str, other: str) -> bool:
    """Whether they are forms of one word: `label` and `labelled`."""
    short, long = sorted((one, other), key=len)
    if (
        short[-1] in "ey"
        and len(short) > 3
        and long.startswith(short[:-1])
        and long[len(short) - 1 :] in ENDINGS | {"e"}
    ):
        return True
    return long.startswith(short) and long[len(short) :].lstrip(short[-1]) in ENDINGS


def _with_s(word: str) -> str:
    if _consonant_y(word):
        return f"{word[:-1]}ies"
    return word + ("es" if word.endswith(("s", "x", "z", "ch", "sh", "o")) else "s")


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


def singular(word: str) -> str:
    """The noun of which a word is the regular plural; the word itself where it is none."""
    if not word.endswith("s") or word.endswith("ss"):
        return word
    short = word[:-2] if word.endswith(("xes", "zes", "ches", "shes", "sses", "oes")) else word[:-1]
    found = f"{word[:-3]}y" if word.endswith("ies") and len(word) > 4 else short
    return found if noun_forms(found)[-1] == word else word


@lru_cache(maxsize=REMEMBERED)
def infinitive(word: str) -> str:
    """The verb of which a word is a form; the word itself where no rule says so."""
    irregular = next((verb for verb, forms in IRREGULAR_VERBS.items() if word in forms), None)
    if irregular is not None:
        return irregular
    stems = [word.removesuffix(ending) for ending in ("ed", "ing", "es", "s") if word.endswith(ending)]
    tried = [
        form
        for stem in stems
        if len(stem) > 1
        for form in ([stem[:-1]] if stem[-2:-1] == stem[-1:] and stem[-1] not in "ls" else [])
        + [stem, f"{stem}e"]
        + ([f"{stem[:-1]}y"] if stem.endswith("i") else [])
    ]
    return next((verb for verb in tried if word in verb_forms(verb)), word)
