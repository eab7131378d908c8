"""What a speaker takes back a moment later, in whatever words, and what looks like taking back and is none."""

from __future__ import annotations

import pytest

from tests.read.told import Narrator, Told

MISTAKEN = [
    ("bathroom", ("There's a crack in the tub.", "Wait, no, that's a hair."), "crack"),
    ("bathroom", ("There's a crack in the tub, wait, no, that's a hair.",), "crack"),
    ("bathroom", ("Sink's got a chip.", "No.", "Toothpaste."), "chip"),
    ("bathroom", ("Rust in the tub.", "Actually, it comes off with my thumb."), "rust"),
    ("bathroom", ("The toilet's loose.", "Let me feel it again.", "No, it's solid."), "loose"),
    ("living room", ("There's a stain on the ceiling.", "Hang on, it's just a shadow."), "stain"),
    ("living room", ("There's a stain on the ceiling.", "Oh wait.", "It's a shadow."), "stain"),
    ("living room", ("Scratch on the floor here.", "Nope, it wipes off."), "scratch"),
    ("living room", ("Scratch on the floor here.", "Never mind, it rubs right out."), "scratch"),
    ("living room", ("Burn on the carpet.", "No, wait.", "It's a leaf."), "burn"),
    ("living room", ("Big stain on the couch.", "No, hang on, that's the pattern."), "stain"),
    ("living room", ("That looks like a burn, but it's only chocolate.",), "burn"),
    ("living room", ("I was going to say the carpet's stained, but no, it's the light.",), "stain"),
    ("living room", ("There's a tear in the screen.", "No tear, it's a leaf stuck on it."), "tear"),
    ("kitchen", ("The dishwasher's leaking.", "No, hang on, that's off my mop."), "leak"),
    ("kitchen", ("There's a leak under the sink.", "Oh hold on, that's from when I washed my hands."), "leak"),
    ("kitchen", ("Dishwasher, there's water coming out the bottom.", "Hold on.", "That's my own drink, so no leak."),
     "leak"),
    ("kitchen", ("The counter's cracked.", "Ah, no, that's where two pieces meet."), "crack"),
    ("kitchen", ("There's a scratch on the counter.", "Not a scratch, a seam."), "scratch"),
    ("kitchen", ("There's a dent in the fridge.", "False alarm, it's a magnet."), "dent"),
    ("kitchen", ("Water stain on the ceiling.", "My bad, it's a shadow from the fan."), "stain"),
    ("bedroom", ("The window's cracked.", "My mistake, it's a cobweb."), "crack"),
    ("bedroom", ("Hole in the wall.", "I'm wrong, that's the cable outlet."), "hole"),
    ("bedroom", ("There's a dent in the door.", "I take that back, it's the panel."), "dent"),
    ("bedroom", ("One closet door is missing its handle.", "No, I'm wrong, it's on the inside, both doors are fine."),
     "missing"),
    ("bedroom", ("Looks like mold in the corner.", "Let me look closer.", "It's dust."), "mold"),
    ("hallway", ("There's a hole in the ceiling.", "Sorry, that's the sprinkler."), "hole"),
]  # fmt: skip


@pytest.mark.parametrize(("room", "lines", "flaw"), MISTAKEN)
def test_a_flaw_that_was_none_is_taken_back(room: str, lines: tuple[str, ...], flaw: str, entries: Narrator) -> None:
    told = entries(*lines, room=room)
    assert flaw not in _flaws(told), told.told()


STANDS = [
    ("kitchen", ("There's a crack in the sink.", "No, it's not huge."), "crack"),
    ("kitchen", ("There's a crack in the sink.", "No, don't touch it."), "crack"),
    ("kitchen", ("The counter's burned.", "Wait, let me get a picture of that."), "burn"),
    ("kitchen", ("The counter's burned.", "Hold on, that's my phone."), "burn"),
    ("kitchen", ("The counter's burned.", "Hold on, it's the office calling."), "burn"),
    ("kitchen", ("The faucet drips.", "No, that's not normal."), "leak"),
    ("kitchen", ("The faucet drips.", "No leak underneath."), "leak"),
    ("living room", ("The wall has a hole.", "Actually, it's two holes."), "hole"),
    ("living room", ("The wall has a hole.", "Oh, and it's a big one."), "hole"),
    ("living room", ("The wall has a hole.", "No idea how that happened."), "hole"),
    ("living room", ("The wall has a hole.", "No, that's on them."), "hole"),
    ("living room", ("The wall has a hole.", "Actually, that's a fist."), "hole"),
    ("bathroom", ("The tub's chipped.", "No rust though."), "chip"),
    ("bathroom", ("The tub's chipped.", "Nope, not happy with that."), "chip"),
    ("bathroom", ("The tub's chipped.", "Fan, pull the cord, and again... no.", "Dead as a doornail."), "chip"),
    ("bathroom", ("The toilet leaks.", "Wait, there's more."), "leak"),
    ("bathroom", ("Mold on the ceiling.", "No, it's the real thing."), "mold"),
    ("bedroom", ("Carpet's torn.", "Nah, that's the tenant's, not wear."), "tear"),
    ("bedroom", ("Door's cracked.", "Let me see, it's a hollow core."), "crack"),
    ("bedroom", ("The floor's dusty, and the left closet door, no, the right one, is cracked.",), "dust"),
]  # fmt: skip


@pytest.mark.parametrize(("room", "lines", "flaw"), STANDS)
def test_a_word_in_passing_takes_nothing_back(room: str, lines: tuple[str, ...], flaw: str, entries: Narrator) -> None:
    told = entries(*lines, room=room)
    assert flaw in _flaws(told), told.told()


def test_a_fault_of_another_component_goes_over_to_it(entries: Narrator) -> None:
    told = entries("The trap's dripping.", "No, it's the shutoff valve.", room="kitchen")
    leaks = [one.component for one in told.entries if one.condition == "leak"]
    assert leaks == ["shutoff_valve"], told.told()


def test_what_works_after_all_has_not_failed(entries: Narrator) -> None:
    told = entries("Smoke alarm's dead.", "No, wait, it just beeped, it's working.", room="hallway")
    assert [one.outcome for one in told.entries if one.kind == "check"] == ["works"], told.told()
    assert "not_working" not in _flaws(told), told.told()


@pytest.mark.parametrize(
    ("lines", "assertion"),
    [
        (("Might be a leak under there.", "I felt it, it's bone dry."), "absent"),
        (("Possibly a leak.", "Checked it.", "Dry."), "absent"),
        (("There might be a crack in the window.", "Yes, that's definitely a crack."), "present"),
    ],
)
def test_a_doubt_that_is_settled_is_one_entry_with_both_sentences(
    lines: tuple[str, ...], assertion: str, entries: Narrator
) -> None:
    told = entries(*lines, room="kitchen")
    found = [one for one in told.entries if one.condition in {"leak", "damp", "crack"}]
    assert [one.assertion for one in found] == [assertion], told.told()
    assert len(found[0].evidence) == 2, told.told()


def _flaws(told: Told) -> set[str]:
    """The conditions that are said to be there, or perhaps to be there."""
    return {one.condition or "" for one in told.entries if one.kind == "condition" and one.assertion != "absent"}
