"""What a flaw is on, where the sentence could be read in several ways, and the room that a fixture gives away."""

from __future__ import annotations

import pytest

from narrate2report.read.lexis.befalls import Befalls
from narrate2report.read.lexis.lexicon import load_vocabulary
from narrate2report.read.state.sign_weights import WEIGHTS
from tests.read.told import Narrator

BORNE = [
    (
        "kitchen",
        "In the sink there's a chip and on the counter are two burns.",
        {("sink", "chip"), ("countertop", "burn")},
    ),
    ("bathroom", "The vanity is new. On the mirror there are black spots.", {("mirror", "discoloration")}),
    ("living room", "The curtain rod came off and left two holes.", {("wall", "hole")}),
    ("kitchen", "Worktop, a burn next to the hob.", {("countertop", "burn")}),
    ("bathroom", "The brass on the handle has lost its shine.", {("door_knob", "discoloration")}),
    ("living room", "The paint is fresh. There's a scuff by the switch.", {("wall", "scuff")}),
    ("kitchen", "The caulk along the back of the counter is peeling.", {("caulk", "failed_sealant")}),
    ("bathroom", "The door won't latch and the knob is loose.", {("door", "misaligned"), ("door_knob", "loose")}),
    ("kitchen", "Cabinet under the sink, the bottom is swollen.", {("cabinet", "warp")}),
    ("living room", "The window opens. There's condensation running down it.", {("window", "damp")}),
    (
        "kitchen",
        "There are scratches, scuffs and a burn on the counter.",
        {("countertop", "scuff"), ("countertop", "burn")},
    ),
]


@pytest.mark.parametrize(("room", "said", "flaws"), BORNE, ids=[said for _, said, _ in BORNE])
def test_a_flaw_is_on_what_most_speaks_for(
    room: str, said: str, flaws: set[tuple[str, str]], entries: Narrator
) -> None:
    told = entries(said, room=room).entries
    assert flaws <= {(one.component, one.condition) for one in told if one.assertion == "present"}


def test_what_is_gone_is_not_laid_on_a_thing_nobody_named(entries: Narrator) -> None:
    told = entries("The tub is spotless.", "The handle is gone.", room="bathroom").said_from(2)
    assert not [one for one in told if one.component == "bathtub" and one.condition == "missing"]


def test_a_toilet_room_with_a_tub_is_a_bathroom(entries: Narrator) -> None:
    told = entries("Now the toilet room.", "The caulk around the bathtub is black.", "The shower head drips.")
    assert {one.room for one in told.entries if one.component in {"caulk", "shower_head"}} <= {"bathroom", "half_bath"}
    assert [one.room for one in told.entries if one.component == "shower_head"] == ["bathroom"]


def test_a_powder_room_without_one_stays_a_half_bath(entries: Narrator) -> None:
    told = entries("Now the powder room.", "The toilet flushes.", "The mirror is cracked.")
    assert {one.room for one in told.entries} == {"half_bath"}


def test_what_was_counted_speaks_for_a_thing_and_silence_says_little() -> None:
    known = Befalls({"leak": {"faucet": 40, "window": 2}, "crack": {"window": 30, "wall": 30, "gate": 1}})
    assert known.speaks_for("leak", "faucet") > 0 > known.speaks_for("leak", "wall")
    assert known.speaks_for("leak", "wall") < known.speaks_for("leak", "gate") < 0
    assert known.speaks_for("leak", "fence") == known.speaks_for("dent", "wall") == 0


def test_the_signs_count_for_what_is_named_and_against_what_tells_where() -> None:
    assert WEIGHTS["usual of it"] > 0 > WEIGHTS["never of it"]
    assert WEIGHTS["earlier clause, topic"] > WEIGHTS["earlier clause, place"]
    vocabulary = load_vocabulary()
    assert vocabulary.befalls.speaks_for("leak", "faucet") > vocabulary.befalls.speaks_for("leak", "carpet")


@pytest.mark.parametrize(
    ("line", "borne"),
    [
        ("Over by the glass door somebody gouged the floor.", ("floor", "gouge")),
        ("Next to the tub they scratched this wall.", ("wall", "scratch")),
        ("By the window someone cracked the tile.", ("tile", "crack")),
        ("Exposed wires at this outlet.", ("outlet", "exposed_wiring")),
    ],
)
def test_what_somebody_did_it_to_and_what_it_usually_befalls(
    line: str, borne: tuple[str, str], entries: Narrator
) -> None:
    told = entries(line, room="bathroom").entries
    assert [(one.component, one.condition) for one in told if one.kind == "condition"] == [borne]


@pytest.mark.parametrize(
    ("room", "lines", "borne"),
    [
        ("bathroom", ["The lid of the tank has a crack."], ("toilet_tank", "crack")),
        ("bathroom", ["The lid's chipped on the tank."], ("toilet_tank", "chip")),
        ("bathroom", ["The towel bar's pulled clean out of the plaster."], ("towel_bar", "loose")),
        ("bathroom", ["The towel bar's been pulled out of the wall."], ("towel_bar", "loose")),
        ("bathroom", ["The caulk is brand new all the way around."], ("caulk", "new")),
        ("kitchen", ["Cabinet door above the fridge, the hinge is bent."], ("hinge", "bent")),
        ("bedroom", ["The bed's got a broken slat."], ("furniture", "broken")),
        ("bedroom", ["Ceilin' in here, there's a stain runs from the light over to the window."], ("ceiling", "stain")),
        ("bedroom", ["The wall color's the same, there's scuffs."], ("wall", "scuff")),
        ("bedroom", ["The radiator's on.", "Mold behind where the wardrobe was."], ("wall", "mold")),
        (
            "kitchen",
            ["The drawers, I'm opening all of them.", "They left some old pens in this one."],
            ("drawer", "debris"),
        ),
        ("living_room", ["The walls are done.", "They got paint on this switch plate."], ("cover_plate", "paint_drip")),
        ("basement", ["There's water on the floor by the furnace."], ("furnace", "leak")),
        ("porch", ["We laid the decking new last spring."], ("deck", "new")),
        ("bathroom", ["Under the vanity, clean."], ("vanity", "clean")),
    ],
)
def test_whose_a_flaw_is_by_the_words_around_it(
    room: str, lines: list[str], borne: tuple[str, str], entries: Narrator
) -> None:
    told = entries(*lines, room=room).entries
    assert borne in [(one.component, one.condition) for one in told if one.assertion == "present"]


def test_otherwise_is_said_of_the_whole_and_both_of_two(entries: Narrator) -> None:
    told = entries("The sink.", "It has rust around the drain, otherwise good.", room="kitchen").entries
    assert ("sink", "good") in [(one.component, one.condition) for one in told]
    told = entries("Washer and dryer, those stay.", "Both of them are fine.", room="laundry").entries
    assert {one.component for one in told if one.condition == "good"} == {"washer", "dryer"}


def test_what_was_not_done_does_not_deny_what_a_thing_is_full_of(entries: Narrator) -> None:
    told = entries("The window tracks haven't been cleaned, full of dirt.", room="bedroom").entries
    assert {one.assertion for one in told if one.condition == "dirty"} == {"present"}


def test_how_large_a_hole_is_leaves_what_follows_as_it_is(entries: Narrator) -> None:
    told = entries(
        "The door has a hole you could put your fist through, and it's dented at the bottom.", room="bedroom"
    )
    assert {"hole", "dent"} <= {one.condition for one in told.entries if one.component == "door"}
