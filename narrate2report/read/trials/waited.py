"""What is named, waited for, and answered: `Doorbell, hang on. There it goes`; and which two are answered for."""

from __future__ import annotations

from collections.abc import Sequence

from narrate2report.read.drafts.draft import Draft
from narrate2report.read.meant.scene import Scene
from narrate2report.read.speech.clauses import Clause
from narrate2report.read.things.operated import is_device, is_operated
from narrate2report.read.trials.answers import is_mere_word, is_started

HEADING = 3
"""Tokens of a clause that only names what is tried: `Doorbell, nothing.`"""

WAITING = frozenset(
    tuple(saying.split())
    for saying in (
        "hang on", "hold on", "hold up", "wait", "wait for it", "one sec", "one second", "one moment", "one minute",
        "just a sec", "just a second", "just a minute", "a sec", "a second", "bear with me", "let us see", "let me see",
        "let us try it", "let us have a go", "let me try it", "let me have a go", "give me a sec", "give me a second",
        "give it a sec", "give it a second", "give it a minute", "give it a moment", "listen", "here goes", "watch",
        "okay", "right", "okay so", "ready", "now then",
    )
)  # fmt: skip
"""What is said while one goes to try what was named."""

BOTH = frozenset({"both", "they", "them"})
"""Words of an answer for more than one thing."""


def only_named(scene: Scene) -> str | None:
    """`Doorbell.`, and then `Nothing.`: what a sentence names and says nothing of, where it can be tried; that one
    waits for it says no more: `Doorbell, hang on.`"""
    spoken = scene.spoken
    rest = spoken.clauses[1:]
    waits = all(tuple(spoken.norms(one.start, one.end)) in WAITING for one in rest)
    heads = len(spoken.named) == 1 and waits and bool(spoken.clauses) and spoken.clauses[0].end <= HEADING
    if not heads or spoken.named[0].end != spoken.clauses[0].end:
        return None
    component = spoken.named[0].component
    return component if is_operated(component, scene.vocabulary) else None


def goes_on_badly(scene: Scene, clause: Clause) -> bool:
    """`there it goes, but it's rattling`: then the flaw is told, and whether it passes is left to the words for it."""
    return any(mention.start >= clause.start and not scene.says_nothing(mention) for mention, _ in scene.flaws())


def begins_with_start(scene: Scene, drafts: Sequence[Draft]) -> bool:
    """`Doorbell. There it goes.`: no praise, but the trial itself."""
    said = [one for one in scene.spoken.clauses if not is_mere_word(scene.spoken, one)]
    return bool(said) and all(is_started(scene.spoken, said[0], draft.component) for draft in drafts)


def told_together(scene: Scene, clause: Clause) -> list[str]:
    """`washer and dryer, I ran them both and they're fine`: what is answered for at once, where it is two devices."""
    named = [one for one in scene.spoken.named if one.start < clause.end and one.relation == "topic"]
    here = dict.fromkeys(one.component for one in named if is_device(one.component, scene.vocabulary))
    last = max((when for _, when in scene.place.lately), default=None)
    before = dict.fromkeys(one for one, when in scene.place.lately if when == last and is_device(one, scene.vocabulary))
    found = list(here or before)
    return found if len(found) == len(("one", "other")) else []
