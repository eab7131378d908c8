"""How a sentence was read, word by word: what each phrase of the vocabulary means in it, and how each part is meant.

For people who want to see whether their words were understood; no entry depends on it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from narrate2report.read.across.corrections import Corrections
from narrate2report.read.lexis.phrase_tree import Mention, Sense
from narrate2report.read.meant.stance import read_stances
from narrate2report.read.speech.clauses import JOINERS
from narrate2report.read.speech.modes import Stance
from narrate2report.read.speech.spoken import Named, Spoken
from narrate2report.records.findings import Heard

RELATIONS = {"topic": "what is spoken of", "of": "what it is on", "place": "only tells where"}
NEEDS = {"near": "only beside", "in": "only in", "else": "where nothing else fits"}


NOT_HERE = "only of components that are not named here"


@dataclass(frozen=True)
class Word:
    """A phrase of the vocabulary as it stands in the sentence, its kind, the id it means, and what else to know."""

    said: str
    kind: str
    means: str
    notes: tuple[str, ...] = ()


@dataclass(frozen=True)
class Part:
    """A stretch of a sentence with how it is meant, and the words that decided it."""

    said: str
    meant: str
    cue: str = ""


@dataclass(frozen=True)
class Trace:
    """A sentence as it was read: the text after repairs, the repairs, the words found, the parts."""

    read: str
    heard: tuple[Heard, ...]
    words: tuple[Word, ...]
    parts: tuple[Part, ...]


def trace(spoken: Spoken) -> Trace:
    """The trace of a sentence that has been read."""
    found: dict[tuple[int, str, str, str], list[str]] = {}
    for at, said, kind, means, note in sorted((*_terms(spoken), *_cues(spoken), *_set_aside(spoken)), key=_place):
        found.setdefault((at, said, kind, means), []).extend([note] if note else [])
    words = tuple(
        Word(said, kind, means, tuple(dict.fromkeys(notes))) for (_, said, kind, means), notes in found.items()
    )
    stances = Corrections(spoken).apply(read_stances(spoken))
    return Trace(spoken.text, spoken.heard, words, tuple(_parts(spoken, stances)))


_Found = tuple[int, str, str, str, str]
"""Where a phrase starts, the phrase, its kind, the id it means, and a note or nothing."""


def _place(found: _Found) -> int:
    return found[0]


def _terms(spoken: Spoken) -> Iterator[_Found]:
    named = {one.start: one for one in spoken.named}
    here = {one.component for one in spoken.named}
    for mention in spoken.found.terms:
        said = spoken.words(mention.start, mention.end)
        one = named.get(mention.start)
        if one is not None:
            yield mention.start, said, "component", one.component, RELATIONS[one.relation]
        for kind, means, note in _senses(mention, named=one, here=here):
            yield mention.start, said, kind, means, note


def _senses(mention: Mention, named: Named | None, here: set[str]) -> Iterator[tuple[str, str, str]]:
    """The meanings of a phrase: those as a component only where the sentence did not settle which it is, and those
    that need a component beside them in full only where it is one of those `here`."""
    choice = any(_is_open(sense, here) for sense in mention.of("condition"))
    works = any(sense.id in here for sense in mention.of("works"))
    for sense in mention.senses:
        match sense.role:
            case "component" | "near" | "in" | "else":
                if named is None:
                    yield "component", sense.id, _unsettled(sense)
            case "works":
                if sense.id in here:
                    yield "works", sense.id, ""
                elif not works:
                    yield "works", "", NOT_HERE
            case "rooms":
                yield "room", sense.id, "several"
            case "condition" if not _is_open(sense, here):
                if not choice:
                    yield "condition", sense.id, NOT_HERE
            case "condition" if sense.beside:
                yield "condition", sense.id, f"of {_plain(sense.beside)}"
            case "material" | "colour" | "type":
                if _is_open(sense, here):
                    yield sense.role, sense.id, ""
            case _:
                yield sense.role, sense.id, "says it is not there" if sense.form == "denies" else sense.form


def _is_open(sense: Sense, here: set[str]) -> bool:
    """Whether a meaning needs no component beside it, or one that is there."""
    return not sense.beside or sense.beside in here


def _unsettled(sense: Sense) -> str:
    need = NEEDS.get(sense.role, "not read as one here")
    return f"{need} {_plain(sense.beside)}".strip()


def _plain(identifier: str) -> str:
    return identifier.replace("_", " ")


def _cues(spoken: Spoken) -> Iterator[_Found]:
    for mention in spoken.found.cues:
        for sense in mention.senses:
            yield mention.start, spoken.words(mention.start, mention.end), "cue", sense.id, ""


def _set_aside(spoken: Spoken) -> Iterator[_Found]:
    """Phrases whose words are not read, or not as one certain thing, and things that tell which room this is."""
    known = (*spoken.found.terms, *spoken.found.cues)
    read = {at for mention in known for at in range(mention.start, mention.end)}
    for mention in spoken.found.idioms:
        said, is_read = spoken.words(mention.start, mention.end), bool(read & set(range(mention.start, mention.end)))
        for sense in mention.senses:
            if sense.role == "implies":
                yield mention.start, said, "room", sense.id, "where none was named yet"
            elif not sense.id:
                yield mention.start, said, "idiom", "", "its words are not read"
            elif not is_read:
                yield mention.start, said, "idiom", "", f"not read as {_plain(sense.id)}"


def _parts(spoken: Spoken, stances: tuple[Stance, ...]) -> Iterator[Part]:
    """Neighbouring words of a clause that are meant alike, as one."""
    for clause in spoken.clauses:
        start = clause.start
        for at in range(clause.start, clause.end):
            if at + 1 < clause.end and stances[at + 1] == stances[at]:
                continue
            if at > start or spoken.tokens[at].norm not in JOINERS:
                yield Part(spoken.words(start, at + 1), stances[at].mode.value, stances[at].cue)
            start = at + 1
