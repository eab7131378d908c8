"""Random narrations put together from fragments of talk, each known for what it is.

A fragment says which components it may be about, so that a test can tell who was never spoken of.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import product

from hypothesis import strategies as st

THINGS: dict[str, frozenset[str]] = {
    "bathtub": frozenset({"bathtub"}),
    "toilet seat": frozenset({"toilet_seat"}),
    "counter": frozenset({"countertop", "vanity"}),
    "refrigerator": frozenset({"refrigerator"}),
    "oven door": frozenset({"oven_door"}),
    "carpet": frozenset({"carpet"}),
    "ceiling": frozenset({"ceiling"}),
    "window sill": frozenset({"window_sill"}),
    "closet door": frozenset({"closet_door"}),
    "mirror": frozenset({"mirror"}),
    "baseboard": frozenset({"baseboard"}),
    "backsplash": frozenset({"backsplash"}),
}
"""What is spoken of, with the components it may be read as."""

DEVICES: dict[str, frozenset[str]] = {
    "dishwasher": frozenset({"dishwasher"}),
    "garbage disposal": frozenset({"garbage_disposal"}),
    "smoke alarm": frozenset({"smoke_alarm"}),
    "microwave": frozenset({"microwave"}),
    "dryer": frozenset({"dryer"}),
    "furnace": frozenset({"furnace"}),
    "ceiling fan": frozenset({"ceiling_fan"}),
    "doorbell": frozenset({"doorbell"}),
    "air conditioner": frozenset({"air_conditioner"}),
}
"""What can be operated."""

FLAWS = ("scratch", "dent", "crack", "stain", "burn mark", "chip", "hole", "tear", "scuff", "gouge")
PLURALS = {flaw: f"{flaw}es" if flaw.endswith("ch") else f"{flaw}s" for flaw in FLAWS}

ROOMS = ("kitchen", "hall bath", "primary bedroom", "living room", "garage", "laundry room", "hallway", "balcony")

SUPPOSED = (
    "If the {thing} gets a {flaw}, call me.",
    "If you put a {flaw} in the {thing}, that's on you.",
    "If that {thing} ever has a {flaw}, you'd pay for it.",
    "Should you find a {flaw} on the {thing}, let us know.",
    "Any {flaw} on the {thing} would come out of your deposit.",
    "In case there's ever a {flaw} on this {thing}, tell us.",
    "A hot pan would leave a {flaw} on the {thing}.",
    "You could easily get a {flaw} in the {thing} with that.",
    "Unless you want a {flaw} on the {thing}, use a mat.",
    "I'd hate to see a {flaw} on that {thing}.",
    "Put a {flaw} in the {thing} and you'll pay for it.",
    "Somebody drops a pan and there's a {flaw} in the {thing}, that's on them.",
    "A {flaw} in the {thing}, we charge for that.",
    "Imagine a {flaw} on the {thing}.",
)
SOUGHT = (
    "I'm looking for any {flaw} on the {thing}.",
    "Checking the {thing} for {flaws}.",
    "Let me see if there are any {flaws} on the {thing}.",
    "We always check the {thing} for a {flaw}.",
    "I want to see whether the {thing} has a {flaw}.",
    "Looking over the {thing} here for {flaws}.",
    "What I look for on a {thing} is {flaws}.",
    "Running my hand over the {thing}, feeling for {flaws}.",
    "Is there a {flaw} on the {thing}?",
)
FORBIDDEN = (
    "Please don't put a {flaw} in the {thing}.",
    "Never drag things, you'll get a {flaw} on the {thing}.",
    "You must not leave a {flaw} on the {thing}.",
    "Be careful not to make a {flaw} on the {thing}.",
    "Try not to get {flaws} on the {thing}.",
    "Keep it from getting a {flaw}, that {thing}.",
    "I don't want to see any {flaws} on the {thing} when you leave.",
    "You're not allowed to leave a {flaw} on the {thing}.",
    "No {flaws} on the {thing}, please.",
)
NOT_OPERATED = (
    "I'm not going to run the {device} today.",
    "I didn't test the {device}.",
    "The {device} was not tested.",
    "We can't try the {device}, the power is off.",
    "I won't turn on the {device}.",
    "I haven't tried the {device}.",
    "The {device}, not tested.",
    "I'll skip the {device} for now.",
)
ONLY_SHOWN = (
    "Here's the {device}.",
    "The {device} is white.",
    "You've got a {device} in here.",
    "This {device} is about five years old.",
    "The {device} should work.",
    "Now the {device}.",
)
SEEN = (
    "There's a {flaw} on the {thing}.",
    "The {thing} has a couple of {flaws}.",
    "Two {flaws} in the {thing}, maybe three inches long.",
    "No {flaws} on the {thing}.",
    "The {thing} looks fine.",
    "Might be a {flaw} on the {thing}, hard to tell.",
    "The {thing} is dirty, I'll have someone clean it.",
    "{flaws}, and more {flaws}, all over the {thing}",
)
MOVES = ("Okay, into the {room}.", "Now the {room}.", "Let's head to the {room}")
NOISE = (
    "Um.", "So, yeah, anyway.", "", "   ", "...", "?!", "— —", "Hello, can you hear me?", "Scratch that.",
    "No, wait, sorry.", "Looks good.", "I don't see any.", "Same here.", "Ça va, señor — très bien.", "😀 👍",
    "東京の部屋です。", "Zoë said naïve things.", "Mr. Abel was here. Mrs. Abel too.", "It's 3.5 inches, e.g. this.",
    "\u200bzero\u200bwidth\u00a0blanks", "a" * 300, "1/0 of an inch", "“Quoted,” she said; 'twice' (or not).",
    "it is is is the the the", "THE TUB IS CRACKED", "tub tub tub tub", "\tTabbed\ttext. \r More.", "e\u0301tat",
)  # fmt: skip


@dataclass(frozen=True)
class Fragment:
    """A piece of talk: what sort it is, and what it may speak of."""

    sort: str
    text: str
    about: frozenset[str] = frozenset()


def every(sort: str, templates: Sequence[str]) -> list[Fragment]:
    """Each template with each thing, and with two flaws for each: all of them come up."""
    return [
        Fragment(sort, template.format(thing=thing, flaw=flaw, flaws=PLURALS[flaw]), about)
        for template in templates
        for at, (thing, about) in enumerate(THINGS.items())
        for flaw in (FLAWS[at % len(FLAWS)], FLAWS[(at + 3) % len(FLAWS)])
    ]


def operated(sort: str, templates: Sequence[str]) -> list[Fragment]:
    """Each template with each device."""
    return [
        Fragment(sort, template.format(device=device), about)
        for template, (device, about) in product(templates, DEVICES.items())
    ]


_OBSERVED = st.sampled_from(every("seen", SEEN))
_UNSEEN = st.sampled_from(
    every("supposed", SUPPOSED) + every("sought", SOUGHT[:-1]) + every("forbidden", FORBIDDEN[:-1])
)
_IDLE = st.sampled_from(operated("not operated", NOT_OPERATED) + operated("only shown", ONLY_SHOWN))
_MOVE = st.sampled_from([Fragment("move", move.format(room=room)) for move, room in product(MOVES, ROOMS)])
_NOISE = st.sampled_from([Fragment("noise", noise) for noise in NOISE])
_ANYTHING = st.builds(Fragment, st.just("anything"), st.text(max_size=30).filter(lambda text: "\x00" not in text))

fragments = st.one_of(_OBSERVED, _UNSEEN, _IDLE, _MOVE, _NOISE, _ANYTHING)
known_fragments = st.one_of(_OBSERVED, _UNSEEN, _IDLE, _MOVE)
unseen_fragments = st.one_of(_UNSEEN, _MOVE)

Line = tuple[Fragment, ...]


def narrations(
    pieces: st.SearchStrategy[Fragment], longest: int = 12, a_line: int = 4
) -> st.SearchStrategy[list[Line]]:
    """Lines of one to `a_line` fragments each."""
    return st.lists(st.lists(pieces, min_size=1, max_size=a_line).map(tuple), min_size=1, max_size=longest)


def texts(narration: Sequence[Line]) -> list[str]:
    """The narration as lines of text."""
    return [" ".join(fragment.text for fragment in line) for line in narration]
