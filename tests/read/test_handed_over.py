"""What changes hands, as people tell it: lists without the noun, what is short, what ought to have been."""

from __future__ import annotations

import pytest

from tests.read.told import Narrator
from tests.read.wanted import Want, condition, difference, handover


@pytest.mark.parametrize(
    ("lines", "wanted"),
    [
        (("Keys, then.", "Three front door, two side gate, one letterbox."),
         [handover("key", 3), handover("key", 2), handover("mailbox_key", 1)]),
        (("Keys: two of the street door, and of the letterbox only one.",),
         [handover("key", 2), handover("mailbox_key", 1)]),
        (("You get two keys for the door one for the post box one for the shed",),
         [handover("key", 2), handover("mailbox_key", 1), handover("key", 1)]),
        (("Keys.", "Front door, two.", "Mailbox, one."), [handover("key", 2), handover("mailbox_key", 1)]),
        (("Three house keys and the clicker for the gate.",), [handover("key", 3), handover("garage_remote", 1)]),
        (("You've got two keys and one garage door opener.",), [handover("key", 2), handover("garage_remote", 1)]),
        (("Two door keys in the envelope, and the fob's in there too.",), [handover("key", 2), handover("fob", 1)]),
        (("Your furnace filter goes in here.", "I'll leave you a box of three."), [handover("air_filter", 3)]),
        (("Now, here's the spare fob you asked for.",), [handover("fob", 1)]),
        (("One parking pass for you, and the gate card you will get from the office, not from me.",),
         [handover("parking_pass", 1)]),
        (("You get two keys and one gate card, and a second card's twenty-five dollars.",),
         [handover("key", 2), handover("gate_card", 1)]),
        (("Keys: two for the front door, one for the back, and the fob for the gate.",),
         [handover("key", 2), handover("key", 1), handover("fob", 1)]),
        (("This booklet is for the boiler.",), [handover("manual", 1)]),
        (("I'll give you the remote for the ceiling fan.",), [handover("remote_control", 1)]),
        (("The remote is here, with new batteries.",), [handover("remote_control", 1)]),
        (("Take this clicker, it's for the garage.",), [handover("garage_remote", 1)]),
        (("That's your fob.",), [handover("fob", 1)]),
    ],
)  # fmt: skip
def test_what_is_given(lines: tuple[str, ...], wanted: list[Want], entries: Narrator) -> None:
    _holds(lines, wanted, entries)


@pytest.mark.parametrize(
    ("lines", "wanted"),
    [
        (("They handed in two front door keys and one garage remote.",),
         [handover("key", 2, "returned"), handover("garage_remote", 1, "returned")]),
        (("I've been given two keys, and no fob.",), [handover("key", 2, "returned"), condition("fob", "missing")]),
        (("Keys handed back, two.", "No mailbox key."),
         [handover("key", 2, "returned"), condition("mailbox_key", "missing")]),
        (("Keys, they left three on the counter.", "Mailbox key, no."),
         [handover("key", 3, "returned"), condition("mailbox_key", "missing")]),
        (("She gave back two of three keys.",), [handover("key", 2, "returned")]),
        (("He returned two keys, but the mailbox key he did not return yet.",),
         [handover("key", 2, "returned"), condition("mailbox_key", "missing")]),
        (("They returned one remote.", "They were meant to have two remotes, so we're one short."),
         [handover("remote_control|garage_remote", 1, "returned"),
          condition("remote_control|garage_remote", "missing", quantity=1)]),
        (("Keys, all three are back.",), [handover("key", 3, "returned")]),
        (("Three door keys came back, along with one fob.",),
         [handover("key", 3, "returned"), handover("fob", 1, "returned")]),
        (("Two keys returned.", "Mailbox key one only, gate remote also I have, one number."),
         [handover("key", 2, "returned"), handover("mailbox_key", 1, "returned"),
          handover("garage_remote", 1, "returned")]),
        (("The outgoing tenant dropped off both keys this morning.",), [handover("key", 2, "returned")]),
        (("We're missing one fob.",), [condition("fob", "missing")]),
        (("They had two fobs and I don't have none of them.",), [condition("fob", "missing", quantity=2)]),
        (("He was given three keys and gave none back.",), [condition("key", "missing", quantity=3)]),
        (("They had two keys and both are back.",), [handover("key", 2, "returned")]),
        (("They returned two keys.", "There was supposed to be a mailbox key too, and I don't see it."),
         [handover("key", 2, "returned"), condition("mailbox_key", "missing")]),
        (("Folks turned in their stuff yesterday, two door keys and one fob.",),
         [handover("key", 2, "returned"), handover("fob", 1, "returned")]),
        (("And the remote for the television you give me also.",), [handover("remote_control", 1, "returned")]),
        (("0 fobs returned.",), [condition("fob", "missing")]),
        (("Keys returned: two.", "Fob: one.", "Scratch that.", "Three keys."),
         [handover("fob", 1, "returned"), handover("key", 3, "returned")]),
    ],
)  # fmt: skip
def test_what_comes_back_and_what_does_not(lines: tuple[str, ...], wanted: list[Want], entries: Narrator) -> None:
    _holds(lines, wanted, entries)


@pytest.mark.parametrize(
    "said",
    [
        "There should have been three keys.",
        "There's a key for it in the drawer.",
        "If you lose the keys it's fifty dollars.",
        "The residents turned in their keys already.",
        "The laundry card you buy from the machine.",
        "Garage remote I don't have yet, so I'll drop it off Monday.",
        "I'll give you the fob tomorrow.",
        "Lose the fob and it's fifty, because they stopped making those.",
        "I didn't turn it on today because the manual's still sitting inside.",
        "The lock works with both keys.",
        "There's cake in the lobby at four.",
        "The residents are told in the handbook to air the rooms.",
    ],
)
def test_what_is_no_handover(said: str, entries: Narrator) -> None:
    _holds(("We're done with the rooms.", said), [], entries)


def _holds(lines: tuple[str, ...], wanted: list[Want], entries: Narrator) -> None:
    told = entries(*lines, room="kitchen")
    found = tuple(one for one in told.entries if one.kind == "handover" or one.condition == "missing")
    wrong = difference(found, wanted)
    assert not wrong, f"{wrong}\n{told.told()}"
