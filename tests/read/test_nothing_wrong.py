"""What people say on a walk that names a flaw and tells of none: causes, rules, other people's things, what came after
all. And beside it the same words where they do tell of one."""

from __future__ import annotations

import pytest

from narrate2report.records.findings import Entry
from tests.read.told import Narrator


def _wrong(entries: tuple[Entry, ...]) -> list[tuple[str, str]]:
    """Component and condition of whatever is said to be wrong, checks that failed among them."""
    return [
        (one.component, one.condition or one.outcome or "")
        for one in entries
        if (one.kind == "condition" and one.is_adverse) or (one.kind == "check" and one.outcome == "fails")
    ]


@pytest.mark.parametrize(
    ("room", "line"),
    [
        # what such things do, and why they come about
        ("kitchen", "Standing water ruins this wood, wipe it up."),
        ("bathroom", "Water sitting on that sill will rot it."),
        ("living room", "A wet carpet rots the pad."),
        ("living room", "Candles leave soot on that ceiling."),
        ("kitchen", "Bleach takes the color out of this floor."),
        ("bathroom", "Hair clogs this drain, so use the little catcher."),
        ("laundry room", "Leave that door open, it's the moisture that makes it smell."),
        ("bathroom", "It's the steam that makes the paint peel."),
        ("bathroom", "Keep the fan on, it's the damp that causes it."),
        # what is done about such flaws
        ("living room", "We have a man who fills those holes for us."),
        ("living room", "Nail holes I fill for free, big holes you pay for."),
        ("living room", "Small scuffs we let go, deep gouges we bill."),
        ("living room", "Anything bigger than a nail hole, we'll talk about it."),
        ("bedroom", "Anything torn, stained or missing at the end comes off the deposit."),
        ("bathroom", "You might hear a knocking when the heat comes on."),
        # a look that was wanted
        ("living room", "These boards are distressed on purpose."),
        ("living room", "They're supposed to look worn, that's the style."),
        ("living room", "The brick's meant to look rough like that."),
        ("bathroom", "It looks like mold but it's only the color of the grout."),
        # what is asked of the one who lives there
        ("kitchen", "You don't burn trash in that stove, do you?"),
        ("living room", "You haven't been smoking in here, have you?"),
        # what never belonged to the home
        ("kitchen", "There's no microwave, that was theirs and they took it along."),
        ("kitchen", "No fridge in here, you bring your own."),
        ("kitchen", "Fridge space is clean, no fridge, it was theirs."),
        # switched off, and so not cold
        ("kitchen", "The freezer's switched off, so of course it's warm."),
        ("kitchen", "I unplugged the fridge last week, so it isn't cold."),
        # the speaker's own things
        ("kitchen", "I've got a stain on my shirt, don't film that."),
        ("hallway", "That chirping you hear is my phone."),
        # over and done with
        ("bathroom", "We had water on the floor in October, we repaired the seal, now it's dry."),
        ("kitchen", "There were mice in here, that's over, pest control came twice."),
        ("living room", "The stove, you're not burning wet turf in it, are you?"),
        ("living room", "Curtain I don't give, you bring yours."),
        ("kitchen", "The fridge was the tenant's own, so there isn't one."),
        ("kitchen", "Last year cockroaches were there, that is finished, the pest people came two times."),
        ("kitchen", "Sink no leak, I put bucket under for one night and bucket is dry."),
        ("kitchen", "You smell gas, don't light nothing, get out."),
        ("hallway", "smoke alarm i'm pressing it there it is loud"),
        ("entry", "Intercom. Press talk. Yeah, she buzzed, it works."),
        ("laundry room", "Empty the lint every single load."),
        ("bathroom", "That pink ain't mold, that's the color of the grout."),
        ("exterior", "Stay round the front till they've been, no lighters, no switches."),
        ("dining room", "I'm looking at the trim, because the last bunch let a parrot chew it."),
        # none of them
        ("living room", "Tiles, none chipped, none cracked, none loose."),
        ("kitchen", "Handles, none of them loose."),
        # did not come at once, and came
        ("bathroom", "Exhaust fan, flip it... it's not coming on... there it goes, it just took a second."),
        ("bathroom", "Light's not coming on... hang on... now it is."),
        # a month, and no mark
        ("living room", "The walls were all painted in March."),
        ("living room", "The walls got painted in May, all four of them."),
        # what is to be taken down
        ("balcony", "Those pots come off the ledge today, please."),
    ],
)  # fmt: skip
def test_nothing_is_wrong(entries: Narrator, room: str, line: str) -> None:
    told = entries(line, room=room)
    assert _wrong(told.entries) == [], told.told()


@pytest.mark.parametrize(
    ("room", "line", "component", "condition"),
    [
        ("kitchen", "Standing water on the floor by the dishwasher.", "floor", "damp"),
        ("bathroom", "There are water stains on the ceiling.", "ceiling", "stain"),
        ("living room", "Candles have left soot on the ceiling.", "ceiling", "dirty"),
        ("living room", "Nail holes, I'm counting, four.", "wall", "nail_hole"),
        ("bathroom", "Door does not latch.", "door", "fails"),
        ("kitchen", "There's no microwave.", "microwave", "missing"),
        ("kitchen", "The fridge is on, and it's warm.", "refrigerator", "not_working"),
        ("bathroom", "The light's not coming on.", "light_fixture", "not_working"),
        ("living room", "Tiles, one chipped, one cracked.", "tile", "crack"),
        ("living room", "There's a mark on the wall.", "wall", "mark"),
        ("bathroom", "The drain is clogged with hair.", "drain", "clog"),
        ("bedroom", "The sill's chipped, isn't it?", "window_sill", "chip"),
        ("kitchen", "The disposal works. Noisy.", "garbage_disposal", "noise"),
        ("kitchen", "There's a bucket under the sink, and it's full.", "sink", "leak"),
        ("bathroom", "The grout is pink.", "grout", "discoloration"),
        ("bedroom", "The trim's chewed, because they had a parrot.", "trim", "pet_damage"),
    ],
)
def test_the_same_words_where_something_is_wrong(
    entries: Narrator, room: str, line: str, component: str, condition: str
) -> None:
    told = entries(line, room=room)
    assert (component, condition) in _wrong(told.entries), told.told()


@pytest.mark.parametrize(
    "lines",
    [
        ("One of the doors has no knob.", "No, I am wrong, it's on the other side."),
        ("There's a scratch on the sill.", "Nope, I'm wrong, it's a hair."),
    ],
)
def test_what_the_speaker_was_wrong_about_is_taken_back(entries: Narrator, lines: tuple[str, ...]) -> None:
    told = entries(*lines, room="bedroom")
    assert _wrong(told.entries) in ([], [("window_sill", "debris")], [("window_sill", "dirty")]), told.told()
