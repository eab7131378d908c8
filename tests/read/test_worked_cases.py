"""The worked and settled cases of how sentences are read, each told in more than one way.

A case that the reading does not master fails here: none is weakened, skipped or expected to fail.
"""

from __future__ import annotations

from dataclasses import dataclass

import pytest

from tests.read.told import Narrator, transcript_of
from tests.read.wanted import (
    Want,
    advice,
    check,
    condition,
    description,
    difference,
    follow_up,
    handover,
)


@dataclass(frozen=True)
class Case:
    """Lines told in a room after `before`, and the entries that they should give."""

    room: str
    said: str | tuple[str, ...]
    gives: tuple[Want | tuple[Want, ...], ...] = ()
    before: tuple[str, ...] = ()
    optional: tuple[Want, ...] = ()
    unused: str = ""
    """The reason for which the lines stand unused, where they give nothing; several as `talk|policy`."""

    @property
    def lines(self) -> tuple[str, ...]:
        return (self.said,) if isinstance(self.said, str) else self.said

    def __str__(self) -> str:
        return " / ".join(self.lines)[:70]


def _cases(*cases: Case) -> pytest.MarkDecorator:
    return pytest.mark.parametrize("case", cases, ids=str)


def _holds(case: Case, entries: Narrator) -> None:
    told = entries(*case.before, *case.lines, room=case.room)
    first = len(case.before) + 1
    wrong = difference(told.said_from(first), case.gives, case.optional)
    assert not wrong, f"{wrong}\n{told.told()}"
    if not case.gives and case.unused:
        reasons = told.reasons_from(first)
        assert reasons, told.told()
        assert set(reasons) <= set(case.unused.split("|")), told.told()


MARBLE = description("vanity", "material", "cultured marble")


@_cases(
    Case("hall bath", "The vanity top is cultured marble.", (MARBLE,)),
    Case("primary bathroom", "Vanity top's cultured marble.", (MARBLE,)),
    Case("kitchen", "The countertop is granite.", (description("countertop", "material", "granite"),)),
    Case("bedroom", "The blinds are vinyl.", (description("blinds", "material|type", "vinyl"),)),
    Case("kitchen", "The backsplash is subway tile.", (description("backsplash", "material|type", "subway tile"),)),
    Case("kitchen", "Five burners, gas.", (
        description("range|cooktop|burner", "count", "5"), description("range|cooktop|burner", "type", "gas"),
    ), before=("The cooktop is next.",)),
    Case("kitchen", "It's an electric stove with four burners.", (
        description("range|cooktop|burner", "count", "4"), description("range|cooktop|burner", "type", "electric"),
    )),
)  # fmt: skip
def test_what_a_component_is_is_described(case: Case, entries: Narrator) -> None:
    _holds(case, entries)


@_cases(
    Case("hall bath", "There's a chip on the front edge, maybe a quarter inch.", (
        condition("vanity", "chip", where="on the front edge", size=0.25, unit="in"),
    ), before=("The vanity top is cultured marble.",)),
    Case("kitchen", "It's got a crack along the left side, about three inches.", (
        condition("countertop", "crack", where="left side", size=3.0, unit="in"),
    ), before=("The counter is laminate.",)),
    Case("bathroom", "The caulk here has pulled away a bit.", (
        condition("caulk", "failed_sealant", severity="slight"),
    )),
    Case("kitchen", "The caulking behind the sink has come away slightly.", (
        condition("caulk", "failed_sealant", severity="slight"),
    )),
    Case("bedroom", "Two of the slats are broken.", (condition("blinds", "broken", quantity=2),),
         before=("Now the blinds.",)),
    Case("living room", "Three of the slats are bent.", (condition("blinds", "bent", quantity=3),)),
    Case("kitchen", "It's filthy, the filter up in the hood.", (condition("hood_filter|air_filter", "dirty"),)),
    Case("kitchen", "The filter in the range hood is really dirty.", (
        condition("hood_filter|air_filter", "dirty", severity="severe"),
    )),
)  # fmt: skip
def test_a_flaw_is_read_with_its_place_size_number_and_degree(case: Case, entries: Narrator) -> None:
    _holds(case, entries)


@_cases(
    Case("hall bath", "Tub looks great, no rust around the drain.", (
        condition("bathtub", "good"), condition("bathtub|drain", "rust", "absent", where="around the drain"),
    )),
    Case("kitchen", "The sink is in good shape, no chips or stains.", (
        condition("sink", "good"), condition("sink", "chip", "absent"), condition("sink", "stain", "absent"),
    )),
    Case("kitchen", "No chips or cracks on the counter.", (
        condition("countertop", "chip", "absent"), condition("countertop", "crack", "absent"),
    )),
    Case("bedroom", "The carpet doesn't have any stains, burns or tears.", (
        condition("carpet", "stain", "absent"), condition("carpet", "burn", "absent"),
        condition("carpet", "tear", "absent"),
    )),
    Case("kitchen", "The dishwasher drains fine, no leaks.", (
        check("dishwasher", "works"), condition("dishwasher", "leak", "absent"),
    )),
    Case("kitchen", "The faucet runs fine, no drips.", (
        check("faucet", "works"), condition("faucet", "leak", "absent"),
    )),
)  # fmt: skip
def test_a_denied_list_gives_one_absent_entry_each(case: Case, entries: Narrator) -> None:
    _holds(case, entries)


@_cases(
    Case("bathroom", "I'm checking for any cracks or loose tile.", unused="checking_for"),
    Case("kitchen", "Looking for dents or scratches on the fridge here.", unused="checking_for"),
    Case("bathroom", "We're going to check the tub for chips and rust.", unused="checking_for"),
    Case("bedroom", "Let me see if there are any stains on the carpet.", unused="checking_for"),
    Case("kitchen", "I'm looking for dents or scratches.", before=("Now the fridge.",), unused="checking_for"),
)  # fmt: skip
def test_what_is_looked_for_is_not_there_yet(case: Case, entries: Narrator) -> None:
    _holds(case, entries)


@_cases(
    Case("hall bath", "If this grout gets dark you'll want to scrub it.", (advice("grout"),)),
    Case("kitchen", "When the hood filter gets greasy you should wash it.", (advice("hood_filter|range_hood"),)),
    Case("bathroom", "If you drop something and crack this tile, that's on you.", (advice("tile"),)),
    Case("living room", "If you scratch this floor, that's your responsibility.", (advice("floor"),)),
    Case("bathroom", "Please keep scouring pads off this glass.", (advice("shower_door|shower"),),
         before=("The shower door is glass.",)),
    Case("kitchen", "Please don't cut right on this counter.", (advice("countertop"),)),
    Case("kitchen", "Never put hot pans on the counter.", (advice("countertop"),)),
    Case("laundry room", "Make sure you empty the lint trap after every load.", (advice("lint_trap"),)),
)  # fmt: skip
def test_care_and_responsibility_are_advice_and_no_flaw(case: Case, entries: Narrator) -> None:
    _holds(case, entries)


@_cases(
    Case("bathroom", "I'll have someone re-caulk that.", (follow_up("caulk|bathtub", "repair", party="manager"),),
         before=("The caulk along the tub has pulled away.",)),
    Case("bathroom", "I'll get somebody to fix that.", (follow_up("toilet", "repair", party="manager"),),
         before=("The toilet is loose.",)),
    Case("kitchen", "We'll replace that burner.", (follow_up("burner", "replace", party="manager"),)),
    Case("bedroom", "The walls need to be repainted.", (follow_up("wall", "touch_up", party=None),)),
)  # fmt: skip
def test_work_to_be_done_is_a_follow_up(case: Case, entries: Narrator) -> None:
    _holds(case, entries)


@_cases(
    Case("bedroom", "Might be a water stain up there on the ceiling, hard to tell.", (
        condition("ceiling", "stain", "possible"),
    )),
    Case("bathroom", "That could be mold on the grout, I'm not sure.", (condition("grout", "mold", "possible"),)),
    Case("basement", "Looks like there may have been water damage on that wall.", (
        condition("wall", "water_damage", "possible"),
    )),
)  # fmt: skip
def test_a_hedged_flaw_is_possible(case: Case, entries: Narrator) -> None:
    _holds(case, entries)


NOT_LIT = (check("burner", "fails"), condition("burner", "not_working"))


@_cases(
    Case("hallway", "Pressing the smoke alarm... there it goes, it works.", (check("smoke_alarm", "works"),)),
    Case("bathroom", "Flushing the toilet... and it flushes fine.", (check("toilet", "works"),)),
    Case("kitchen", "I'm not going to run the dishwasher today.", (check("dishwasher", "not_tested"),)),
    Case("laundry room", "I didn't try the dryer.", (check("dryer", "not_tested"),)),
    Case("living room", "The fireplace was not tested.", (check("fireplace", "not_tested"),)),
    Case("bathroom", "Hot water comes up fine.", (check("faucet|water_heater", "works"),)),
    Case("kitchen", "This burner does not light.", (NOT_LIT,)),
    Case("kitchen", "The back left burner won't come on.", (NOT_LIT,)),
    Case("bathroom", "The fan doesn't turn on.", ((
        check("exhaust_fan", "fails"), condition("exhaust_fan", "not_working"),
    ),)),
)  # fmt: skip
def test_what_was_operated_is_a_check_and_what_was_not_is_not_tested(case: Case, entries: Narrator) -> None:
    _holds(case, entries)


@_cases(
    Case("bedroom", "Those two nail holes were here when the last people left.", (
        condition("wall", "nail_hole", quantity=2, pre_existing=True),
    ), before=("Now this wall.",)),
    Case("living room", "That burn on the carpet was there before you moved in.", (
        condition("carpet", "burn", pre_existing=True),
    )),
)  # fmt: skip
def test_what_was_there_before_is_said_to_be_so(case: Case, entries: Narrator) -> None:
    _holds(case, entries)


@_cases(
    Case("kitchen", "Last year we had a leak under here but it's been fixed.",
         before=("Under the sink now.",), optional=(condition("pipe|sink", "repaired"),)),
    Case("bathroom", "The toilet used to run but they replaced the valve.",
         optional=(condition("toilet|toilet_tank|shutoff_valve", "repaired|new"),)),
    Case("bedroom", "The last tenant had a big stain on the carpet, we cleaned it out.",
         optional=(condition("carpet", "repaired|clean"),)),
    Case("bedroom", "The unit next door has cracks all over the ceiling."),
    Case("bathroom", "You'd get mold on this ceiling without the fan."),
)  # fmt: skip
def test_another_time_another_place_and_the_imagined_are_no_flaws_of_today(case: Case, entries: Narrator) -> None:
    _holds(case, entries)


@_cases(
    Case("entry", "You've got two door keys and one mailbox key.", (handover("key", 2), handover("mailbox_key", 1))),
    Case("entry", "I'm giving you three keys and a garage remote.", (
        handover("key", 3), handover("garage_remote", 1),
    )),
    Case("entry", "Here are two fobs.", (handover("fob", 2),)),
)  # fmt: skip
def test_what_is_handed_over_is_counted(case: Case, entries: Narrator) -> None:
    _holds(case, entries)


@_cases(
    Case("kitchen", "Looks good.", (condition("oven", "good"),), before=("This is the oven.",)),
    Case("bathroom", "That's in good shape.", (condition("vanity", "good"),), before=("Here's the vanity.",)),
    Case("kitchen", "Nothing else in here.", unused="talk"),
    Case("kitchen", "Okay, that's about it for this.", unused="talk"),
)  # fmt: skip
def test_praise_goes_to_the_component_in_focus_and_talk_to_none(case: Case, entries: Narrator) -> None:
    _holds(case, entries)


@_cases(
    *(
        Case("kitchen", said, optional=(
            description("floor|carpet|refrigerator|tile|countertop", "type|material",
                        "scratch-resistant|stain-resistant|crackle glaze|dent-free"),
        ))
        for said in (
            "It's a scratch-resistant floor.", "The carpet is stain-resistant.", "The fridge has a dent-free finish.",
            "The tile has a crackle glaze.", "This is a rust-proof rack.", "That's fade-resistant paint.",
            "It's a stain resistant countertop.",
        )
    ),
)  # fmt: skip
def test_words_that_only_look_like_damage_give_none(case: Case, entries: Narrator) -> None:
    _holds(case, entries)


def test_the_same_flaws_again_stand_in_this_room(entries: Narrator) -> None:
    told = entries(
        "Bedroom one. There are scuffs on the wall.",
        "Bedroom two.",
        "Same scuffs in this bedroom as in the other one.",
    )
    wrong = difference(told.said_from(2), [condition("wall", "scuff", room="bedroom.2")])
    assert not wrong, f"{wrong}\n{told.told()}"


@_cases(
    Case("bedroom", "All four walls and the ceiling are freshly painted.", (
        condition("wall", "freshly_painted"), condition("ceiling", "freshly_painted"),
    )),
    Case("living room", "The walls and the trim have just been painted.", (
        condition("wall", "freshly_painted"), condition("trim", "freshly_painted"),
    )),
    Case("kitchen", "There are scratches, scuffs and a burn on the counter.", (
        condition("countertop", "scratch"), condition("countertop", "scuff"), condition("countertop", "burn"),
    )),
    Case("hallway", "The baseboard has dents, chips and a crack.", (
        condition("baseboard", "dent"), condition("baseboard", "chip"), condition("baseboard", "crack"),
    )),
    Case("kitchen", "There's scratches, scrapes, a kind of a mark on the cabinet.", (
        condition("cabinet", "scratch"), condition("cabinet", "scuff"), condition("cabinet", "mark"),
    )),
    Case("bathroom", "The tub and the sink are both stained.", (
        condition("bathtub", "stain"), condition("sink", "stain"),
    )),
)  # fmt: skip
def test_a_list_gives_one_entry_for_each_that_is_named(case: Case, entries: Narrator) -> None:
    _holds(case, entries)


@_cases(
    Case("kitchen", "Otherwise it looks good.", (condition("floor", "good"),),
         before=("There's a scratch on the floor.",)),
    Case("bathroom", ("The vanity has a chip.", "Other than that it's fine."), (
        condition("vanity", "chip"), condition("vanity", "good"),
    )),
)  # fmt: skip
def test_praise_after_particulars_stands_beside_them(case: Case, entries: Narrator) -> None:
    _holds(case, entries)


@_cases(
    Case("kitchen", "The drip pan is burnt.", (condition("drip_pan", "burn"),)),
    Case("kitchen", "The oven door is greasy.", (condition("oven_door", "grease"),)),
    Case("kitchen", "One crisper drawer is cracked.", (condition("crisper_drawer", "crack"),)),
    Case("kitchen", "A shelf in the fridge is missing.", (condition("refrigerator_shelf", "missing"),)),
)  # fmt: skip
def test_a_named_part_is_its_own_component(case: Case, entries: Narrator) -> None:
    _holds(case, entries)


@_cases(
    Case("bathroom", "It's loose.", (condition("towel_bar", "loose"),), before=("Here's the towel bar.",)),
    Case("bathroom", "This has a scratch on it.", (condition("mirror", "scratch"),), before=("Now the mirror.",)),
    Case("kitchen", "That one's chipped.", (condition("drawer", "chip"),), before=("The drawers are here.",)),
    Case("living room", "There's a musty smell.", (condition("room_general", "odor|damp"),)),
)  # fmt: skip
def test_it_and_this_are_what_was_spoken_of_last(case: Case, entries: Narrator) -> None:
    _holds(case, entries)


@_cases(
    Case("kitchen", "It's spotless.", (condition("microwave", "clean"),), before=("Now the microwave.",)),
    Case("kitchen", "The range hood is a bit greasy.", (condition("range_hood", "grease", severity="slight"),)),
    Case("bathroom", "The toilet is very clean.", (condition("toilet", "clean"),)),
)  # fmt: skip
def test_cleanliness_is_a_condition(case: Case, entries: Narrator) -> None:
    _holds(case, entries)


@_cases(
    Case("kitchen", "Dense scratches on the fridge.", (
        condition("refrigerator", "dent", heard="dents"), condition("refrigerator", "scratch"),
    )),
    Case("bathroom", "The cock around the tub is cracked.", (
        condition("caulk", "crack|failed_sealant", heard="caulk"),
    )),
    Case("bedroom", "The base bored is scuffed.", (condition("baseboard", "scuff", heard="baseboard"),)),
)  # fmt: skip
def test_a_mishearing_is_read_as_it_was_meant_and_shown(case: Case, entries: Narrator) -> None:
    _holds(case, entries)


@_cases(
    Case("bathroom", ("Is that a crack?", "No, a hair."), before=("Here's the sink.",), optional=(
        condition("sink", "crack", "absent"), condition("sink", "debris"),
    )),
    Case("kitchen", ("Is that a burn mark? No, it's just coffee.",), before=("Here's the counter.",), optional=(
        condition("countertop", "burn", "absent"), condition("countertop", "stain|dirty|residue"),
    )),
    Case("kitchen", ("Fridge is cold.",), ((check("refrigerator", "works"), condition("refrigerator", "good")),)),
    Case("bedroom", ("The outlets are all good.",), ((check("outlet", "works"), condition("outlet", "good")),)),
    Case("living room", ("It smells fine in here.",), ((
        condition("room_general", "odor", "absent"), condition("room_general", "good"),
    ),)),
    Case("bathroom", ("The sink drains quickly.",), ((
        check("sink|drain", "works"), condition("sink|drain", "slow_drain", "absent"), condition("sink|drain", "good"),
    ),)),
    Case("stairs", ("The railing has no wobble.",), ((
        condition("railing", "loose", "absent"), condition("railing", "good"),
    ),)),
    Case("stairs", ("The rail is solid.",), ((
        condition("railing", "loose", "absent"), condition("railing", "good"),
    ),)),
    Case("bathroom", ("The toilet seat is tight.",), ((
        condition("toilet_seat", "loose", "absent"), condition("toilet_seat", "good"),
    ),)),
)  # fmt: skip
def test_one_fact_in_other_words_is_one_entry(case: Case, entries: Narrator) -> None:
    _holds(case, entries)


def test_not_finding_what_was_looked_for_denies_it_with_both_sentences(entries: Narrator) -> None:
    told = entries("Now the fridge.", "I'm looking for dents or scratches.", "I don't see any.", room="kitchen")
    wanted = [condition("refrigerator", "dent", "absent"), condition("refrigerator", "scratch", "absent")]
    wrong = difference(told.entries, wanted)
    assert not wrong, f"{wrong}\n{told.told()}"
    for entry in told.entries:
        quotes = [piece.quote for piece in entry.evidence]
        assert quotes == ["I'm looking for dents or scratches.", "I don't see any."]


def test_what_is_put_right_on_camera_is_two_facts_in_order(entries: Narrator) -> None:
    told = entries("The smoke alarm is dead.", "I put a new battery in, and now it chirps up.", room="hallway")
    outcomes = [entry.outcome for entry in told.entries if entry.kind == "check"]
    adverse = [one for one in told.conditions() if one[1] in {"not_working", "dead_battery"}]
    assert outcomes[-1:] == ["works"], told.told()
    assert "fails" in outcomes or adverse, told.told()


def test_a_trial_that_succeeds_on_the_second_go_works(entries: Narrator) -> None:
    told = entries("The disposal... nothing. Trying again... there it goes.", room="kitchen")
    assert [entry.outcome for entry in told.entries if entry.kind == "check"][-1:] == ["works"], told.told()


@_cases(
    Case("balcony", "Take that bag off the balcony tonight.", ((
        advice("trash_bin|deck|railing|room_general"),
        follow_up("trash_bin|deck|railing|room_general", "clean|secure", party="resident"),
    ),)),
    Case("stairs", "Watch your toes.", optional=(advice("stair|room_general"),), unused="talk"),
    Case("kitchen", "Five nail holes, no charge.", unused="policy"),
    Case("living room", "Anything bigger than a dime we charge for.", unused="policy"),
    Case("kitchen", "The laminate counter looks good.", (condition("countertop", "good"),),
         optional=(description("countertop", "material", "laminate"),)),
)  # fmt: skip
def test_orders_policy_and_mere_attributes(case: Case, entries: Narrator) -> None:
    _holds(case, entries)


@_cases(
    Case("entry", "You returned two keys.", (handover("key", 2, "returned"),)),
    Case("entry", "I got both mailbox keys back from you.", (handover("mailbox_key", 2, "returned"),)),
    Case("entry", "The garage remote was not returned.", (condition("garage_remote", "missing"),)),
)  # fmt: skip
def test_what_comes_back_and_what_does_not(case: Case, entries: Narrator) -> None:
    _holds(case, entries)


@_cases(
    Case("bedroom", "The closet door is off its track.", (condition("closet_door", "misaligned"),)),
    Case("bedroom", "The knob came off in my hand.", (condition("door_knob", "broken|loose"),)),
    Case("yard", "They left that couch here.", (condition("room_general", "debris"),)),
    Case("yard", "The tenant left those boxes here.", (condition("room_general", "debris"),)),
    Case("bedroom", "The last tenant left those.", before=("The wall has two nail holes.",)),
    Case("bedroom", "The wall has two nail holes, the last tenant left those.", (condition("wall", "nail_hole"),)),
    Case("bedroom", "There are hooks and tape left up on the wall.", (condition("wall", "debris|residue"),),
         optional=(condition("wall", "debris|residue"),)),
    Case("bedroom", "There are claw marks on the door.", (condition("door", "pet_damage|scratch"),)),
    Case("living room", "The dog chewed the baseboard.", (condition("baseboard", "pet_damage|gouge|broken"),)),
)  # fmt: skip
def test_turns_of_phrase_for_a_flaw(case: Case, entries: Narrator) -> None:
    _holds(case, entries)


@_cases(
    Case("bathroom", "The ceiling is stained, maybe from a leak upstairs.", (condition("ceiling", "stain"),),
         optional=(condition("ceiling|pipe|room_general|toilet", "leak", "possible"),)),
    Case("bathroom", "I'd bet it's wet behind there.", (condition("tile|wall|room_general", "damp", "possible"),),
         before=("Now the tile.",)),
    Case("bathroom", ("Could be a crack in the sink.", "Yes, it is, it's cracked."), (condition("sink", "crack"),),
         optional=(condition("sink", "crack"),)),
)  # fmt: skip
def test_a_guess_stays_one_until_it_is_resolved(case: Case, entries: Narrator) -> None:
    _holds(case, entries)


def test_a_recap_says_no_other_fact(entries: Narrator) -> None:
    told = entries("The carpet has a burn.", "To recap, a burn on the bedroom carpet.", room="bedroom")
    assert told.conditions() == {("carpet", "burn", "present")}, told.told()


def test_a_room_that_was_not_entered_is_not_walked(entries: Narrator) -> None:
    told = entries("We did not go into the attic.", room="bedroom")
    wrong = difference(told.entries, [], [check("room_general", "not_tested", room="attic|bedroom")])
    assert not wrong, told.told()
    assert [visit.room for visit in told.findings.rooms] == ["bedroom"]


@pytest.mark.parametrize(
    ("said", "room"),
    [
        ("Okay, on into the hall bath.", "bathroom.hall"),
        ("Alright, let's head into the kitchen.", "kitchen"),
        ("Next is bedroom two.", "bedroom.2"),
        ("Now the primary bedroom.", "bedroom.primary"),
        ("And out onto the balcony.", "balcony"),
    ],
)
def test_moving_on_changes_the_room_and_says_nothing_else(said: str, room: str, entries: Narrator) -> None:
    told = entries(said, "The wall is scuffed.", room="garage")
    assert [one.reason for one in told.findings.unused][1:] == ["moving"], told.told()
    assert [one.room for one in told.entries] == [room], told.told()


@pytest.mark.parametrize("slip", ["No, sorry, not the left door, the right one.", "Sorry, the right door, I mean."])
def test_a_slip_of_place_corrects_the_entry_before(slip: str, entries: Narrator) -> None:
    told = entries("There's a scratch on the left door.", slip, room="entry")
    wrong = difference(told.entries, [condition("door", "scratch", where="right")])
    assert not wrong, f"{wrong}\n{told.told()}"
    assert "left" not in (told.entries[0].where or "")


@pytest.mark.parametrize("words", ["Scratch that, that's just dust.", "No, scratch that, it's only dust."])
def test_scratch_that_withdraws_the_entry_before(words: str, entries: Narrator) -> None:
    told = entries("There's a chip on the window sill.", words, room="bedroom")
    assert told.conditions() == {("window_sill", "dust", "present")}, told.told()


def test_what_may_not_have_been_said_stays_unclear(entries: Narrator) -> None:
    """A sentence that listening doubts is for the person to decide."""
    transcript = transcript_of(["Kitchen.", "The counter is burnt."])
    doubted = transcript.stretches[1].model_copy(update={"doubt": "said over silence"})
    told = entries.read(transcript.model_copy(update={"stretches": (transcript.stretches[0], doubted)}))
    assert told.entries == ()
    assert [(one.text, one.reason) for one in told.findings.unused][1:] == [("The counter is burnt.", "unclear")]
