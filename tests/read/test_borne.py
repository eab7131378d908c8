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
