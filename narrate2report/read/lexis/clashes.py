"""Words of a layer that mean something else already: what they meant, and what that does to the reading.

Words are compared in all their regular forms, in small letters and without hyphens. A clash is no mistake: a manager
may well want a word of the shipped vocabulary for something else, but should know it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from narrate2report.read.lexis.inflect import noun_forms, verb_forms
from narrate2report.read.lexis.word_files import Layer
from narrate2report.records.yaml_lines import LinedYaml, Location

Reach = Literal["anywhere", "beside", "last"]
"""Where a word means its block: anywhere, beside a component or in a room, or where nothing else fits."""

KINDS = {"rooms": "room", "components": "component", "conditions": "condition", "actions": "kind of work"}
NOUNS = frozenset({"say", "else", "nouns", "near", "in"})
LISTS = frozenset({"say", "else", "nouns", "adjectives", "verbs", "phrases", "denies"})
"""Fields that are lists of spoken words."""

BLOCKS_OF_LISTS = frozenset({"near", "in", "only", "named"})
"""Fields that hold lists of spoken words by what must stand beside them, or by the room they name."""


@dataclass(frozen=True)
class Meaning:
    """What a word means: a block of a kind, and how far that reaches."""

    kind: str
    id: str
    reach: Reach = "anywhere"
    beside: str = ""

    @property
    def name(self) -> str:
        """The meaning for people: `the component range hood`."""
        return f"the {self.kind} {self.id.replace('_', ' ')}" if self.id else f"a {self.kind}"


@dataclass(frozen=True)
class Clash:
    """A word of a layer, where it stands, and what it means besides."""

    path: Path
    line: int
    word: str
    told: str


def find_clashes(layers: Sequence[Layer]) -> tuple[Clash, ...]:
    """The clashes of all layers but the first with what lies below them, and with their own other words."""
    known: dict[str, list[Meaning]] = {}
    clashes: dict[Clash, None] = {}
    for number, layer in enumerate(layers):
        for name, file in layer.files.items():
            for at, word, meaning in meanings(name, file):
                forms = _forms(word, at)
                for other in dict.fromkeys(one for form in forms for one in known.get(form, ())) if number else ():
                    if told := _clash(meaning, other):
                        clashes[Clash(file.path, file.line(at), word, told)] = None
                for form in forms:
                    known.setdefault(form, []).append(meaning)
    return tuple(clashes)


WITHOUT_MEANING = frozenset({"misheard", "likeness"})
"""Files that say what is heard for a word, and which names are alike: they give no word a meaning."""


def meanings(name: str, file: LinedYaml) -> Iterator[tuple[Location, str, Meaning]]:
    """Every spoken word of a file with where it stands and what it means."""
    if name == "sound_alikes":
        yield from _mishearings(file)
        return
    if name in WITHOUT_MEANING:
        return
    for at, word in file.words():
        if meaning := _meaning(name, at):
            yield at, word, meaning


def _meaning(name: str, at: Location) -> Meaning | None:
    steps = [step for step in at if isinstance(step, str)]
    if name == "idioms":
        return Meaning("idiom", "")
    if name == "cues":
        return Meaning("cue", steps[0])
    if name == "descriptions":
        return None if steps[0] == "count_of" else Meaning(steps[0], "")
    term, field, *beside = steps
    if field == "not_in":
        return Meaning("not", f"{KINDS[name]} {term}")
    if field == "named":
        return Meaning("room", beside[0])
    if field in BLOCKS_OF_LISTS:
        return Meaning(KINDS[name], term, "beside", f"{field} {beside[0]}")
    if field in LISTS:
        return Meaning(KINDS[name], term, "last" if field == "else" else "anywhere")
    return None


def _mishearings(file: LinedYaml) -> Iterator[tuple[Location, str, Meaning]]:
    """Only those that are repaired whatever stands beside them."""
    for wrong, rights in file.data.items():
        for right, neighbours in rights.items():
            if not neighbours:
                yield (wrong, right), wrong, Meaning("mishearing", right)


def _forms(word: str, at: Location) -> tuple[str, ...]:
    fields = {step for step in at[1:] if isinstance(step, str)}
    plain = " ".join(word.lower().replace("-", " ").split())
    if fields & NOUNS:
        return noun_forms(plain)
    return verb_forms(plain) if "verbs" in fields else (plain,)


def _clash(own: Meaning, other: Meaning) -> str | None:
    """What a word of the manager's own does beside its other meaning, or None where both can stand."""
    kinds = {own.kind, other.kind}
    if own == other or "not" in kinds:
        never = other.kind == "not" and other.id == f"{own.kind} {own.id}"
        return f"never read: it stands in not_in of {own.name}" if never else None
    if "idiom" in kinds:
        if "cue" in kinds or "mishearing" in kinds:
            return None
        return "never read: it is an idiom" if other.kind == "idiom" else f"{_was(other)}; now it is read as nothing"
    if "mishearing" in kinds:
        wrong = other if other.kind == "mishearing" else own
        return f"never read: it is taken for a misheard '{wrong.id}' first"
    if own.kind != other.kind and own.reach == "beside":
        return None
    if own.kind != other.kind:
        return f"is {other.name} as well; both are read"
    if own.id == other.id:
        return None
    return _clash_of_one_kind(own, other)


def _clash_of_one_kind(own: Meaning, other: Meaning) -> str | None:
    if "beside" in (own.reach, other.reach):
        return f"means {other.name} there already" if own.beside == other.beside else None
    if own.kind in {"cue", "kind of work"}:
        return f"is {other.name} as well; both count"
    if own.reach == "last":
        return f"never read: it is {other.name} already"
    return f"{_was(other)}; now it is {own.name}"


def _was(other: Meaning) -> str:
    return f"was {other.name}"
