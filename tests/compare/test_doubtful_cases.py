"""How doubtful cases are judged: the lines of the contract, one test each, and what lies beside them."""

from __future__ import annotations

import pytest

from tests.compare.walks import became, told

CASES = {
    "only general praise of the room before": (
        "[kitchen]\n1 room_general good | Whole room looks good.",
        "[kitchen]\n1 wall hole | A hole in the wall.",
        ["no_baseline >1"],
    ),
    "a named component over the whole unit": (
        "[whole_unit]\n1 wall freshly_painted | All walls painted.",
        "[kitchen]\n1 wall hole | A hole in the wall.",
        ["new >1"],
    ),
    "only general praise of the room after": (
        "[kitchen]\n1 wall hole | A hole in the wall.",
        "[kitchen]\n1 room_general good | Whole room looks good.",
        ["not_mentioned 1>"],
    ),
    "a named component over the whole unit after": (
        "[kitchen]\n1 wall hole | A hole in the wall.",
        "[whole_unit]\n1 wall good | All walls are fine.",
        ["gone 1>"],
    ),
    "another flaw of the component": (
        "[kitchen]\n1 wall nail_hole @by the door@ | Nail holes by the door.",
        "[kitchen]\n1 wall stain @by the window@ | A stain by the window.",
        ["gone 1>", "new >1"],
    ),
    "a named part of a praised appliance": (
        "[kitchen]\n1 refrigerator good | Fridge is good.",
        "[kitchen]\n1 crisper_drawer crack | Crisper is cracked.",
        ["no_baseline >1"],
    ),
    "a part that was named with its appliance": (
        "[kitchen]\n1 range good | The stove and all its burners are good.",
        "[kitchen]\n1 burner fails | This burner won't light.",
        ["new >1"],
    ),
    "not tested before": (
        "[kitchen]\n1 dishwasher not_tested | Did not run the dishwasher.\n2 dishwasher clean | It is clean.",
        "[kitchen]\n1 dishwasher fails | Dishwasher won't start.",
        ["no_baseline >1"],
    ),
    "failing before and not tested after": (
        "[kitchen]\n1 dishwasher fails | Dishwasher won't start.",
        "[kitchen]\n1 dishwasher not_tested | Did not run the dishwasher.",
        ["not_mentioned 1>"],
    ),
    "uncertain before and certain after": (
        "[kitchen]\n1 ceiling stain possible slight | Might be a slight stain on the ceiling.",
        "[kitchen]\n1 ceiling stain severe | That is a bad stain on the ceiling.",
        ["unchanged 1>1"],
    ),
    "nail holes filled and visible": (
        "[kitchen]\n1 wall nail_hole x3 @over the desk@ | Three nail holes over the desk.",
        "[kitchen]\n1 wall patched x3 @above the desk@ | The holes above the desk are filled, you see it.",
        ["better 1>1"],
    ),
    "repaired with no trace": (
        "[kitchen]\n1 wall nail_hole x3 @over the desk@ | Three nail holes over the desk.",
        "[kitchen]\n1 wall repaired @over the desk@ | Holes repaired, you would never know.",
        ["gone 1>"],
    ),
    "a flaw that grew into another": (
        "[kitchen]\n1 window_screen tear | The screen is torn.",
        "[kitchen]\n1 window_screen missing | The screen is gone.",
        ["worse 1>1"],
    ),
    "what was missing is there and broken": (
        "[kitchen]\n1 window_screen missing | There is no screen.",
        "[kitchen]\n1 window_screen tear | The screen is torn.",
        ["gone 1>", "new >1"],
    ),
    "a quantity that has grown": (
        "[kitchen]\n1 tile crack | There's a crack in a tile.",
        "[kitchen]\n1 tile crack x4 | Four cracked tiles.",
        ["worse 1>1"],
    ),
    "inches and centimetres that agree": (
        "[kitchen]\n1 floor gouge ~2in | A gouge, two inches.",
        "[kitchen]\n1 floor gouge ~5cm | A gouge, five centimeters.",
        ["unchanged 1>1"],
    ),
    "the same flaw in another room": (
        "[bedroom.1]\n1 wall hole | A hole in the wall.\n[bedroom.2]\n2 wall good | Walls are good.",
        "[bedroom.1]\n1 wall good | Walls are good.\n[bedroom.2]\n2 wall hole | A hole in the wall.",
        ["gone 1>", "new >2"],
    ),
    "a check and its fault in one sentence": (
        "[yard]\n1 gate works | Gate latches.",
        "[yard]\n1 gate fails | The gate drags and won't latch.\n2 gate misaligned | The gate drags and won't latch.",
        ["new >2+1"],
    ),
    "one more beside the one that was there": (
        "[kitchen]\n1 countertop burn @by the stove@ | A burn by the stove.",
        """[kitchen]
        1 countertop burn @by the stove@ | The burn by the stove.
        2 countertop burn @by the sink@ | Another burn by the sink.""",
        ["new >2", "unchanged 1>1"],
    ),
    "told at large before, of two places after": (
        "[kitchen]\n1 wall scuff | Walls are scuffed.",
        """[kitchen]
        1 wall scuff @by the door@ | Scuffs by the door.
        2 wall scuff @by the window@ | Scuffs by the window.""",
        ["unchanged 1>1+2"],
    ),
    "counted before, told one by one after": (
        "[kitchen]\n1 floor stain x2 @by the stove@ | Two stains by the stove.",
        """[kitchen]
        1 floor stain @by the stove@ | A stain by the stove.
        2 floor stain @beside the range@ | A stain beside the range.""",
        ["unchanged 1>1+2"],
    ),
    "one more than were counted": (
        "[kitchen]\n1 floor stain x1 @by the stove@ | One stain by the stove.",
        """[kitchen]
        1 floor stain @by the stove@ | A stain by the stove.
        2 floor stain @beside the range@ | A stain beside the range.""",
        ["new >2", "unchanged 1>1"],
    ),
    "two words for one place of wear": (
        """[kitchen]
        1 floor scratch @by the door@ | Scratches and scuffs by the door.
        2 floor scuff @by the door@ | Scratches and scuffs by the door.""",
        "[kitchen]\n1 floor scuff @at the doorway@ | Scuffs at the doorway.",
        ["unchanged 2+1>1"],
    ),
    "opposite sides": (
        "[kitchen]\n1 wall hole @left of the window@ | Hole left of the window.",
        "[kitchen]\n1 wall hole @right of the window@ | Hole right of the window.",
        ["gone 1>", "new >1"],
    ),
    "work to do is no baseline": (
        "[bathroom]\n1 caulk follow_up:repair | We will redo the caulk.",
        "[bathroom]\n1 caulk failed_sealant | Caulk has come away.",
        ["no_baseline >1"],
    ),
    "advice is no baseline": (
        "[bathroom]\n1 grout advice | Scrub this grout now and then.",
        "[bathroom]\n1 grout mold | Mold on the grout.",
        ["no_baseline >1"],
    ),
    "keys that were handed over": (
        "[entry]\n1 key handover:given x2 | Two keys.",
        "[whole_unit]\n1 key missing x1 | One key is missing.",
        ["new >1"],
    ),
    "it is said not to have grown": (
        "[kitchen]\n1 floor scratch ~6in | A scratch, six inches.",
        "[kitchen]\n1 floor scratch | The scratch is the same, it hasn't grown.",
        ["unchanged 1>1"],
    ),
    "a component that a home has once, under another room": (
        "[laundry]\n1 water_heater rust | Water heater is rusty.",
        "[basement]\n1 water_heater rust | There is rust on the water heater.",
        ["unchanged 1>1"],
    ),
}


@pytest.mark.parametrize("case", CASES)
def test_a_doubtful_case_is_judged_as_the_contract_says(case: str) -> None:
    before, after, outcomes = CASES[case]
    assert became(before, after) == sorted(outcomes)


def test_said_to_be_old_changes_no_outcome_and_the_contradiction_is_told() -> None:
    before = "[exterior]\n1 siding good | Siding is good."
    after = "[exterior]\n1 siding crack pre | Siding is cracked, that was there before."
    (change,) = told(before, after).changes
    assert change.outcome == "new"
    assert any("look at both" in why for why in change.because)


def test_a_flaw_without_a_baseline_says_that_it_is_not_chargeable_on_this_alone() -> None:
    (change,) = told("[kitchen]\n1 sink good | Sink is good.", "[kitchen]\n1 oven dirty | Oven is dirty.").changes
    assert change.outcome == "no_baseline"
    assert "on them alone it is not chargeable" in " ".join(change.because)


def test_why_it_is_worse_is_told_with_both_measures() -> None:
    before = "[kitchen]\n1 carpet stain @by the slider@ ~3in | A stain by the slider."
    after = "[kitchen]\n1 floor stain @next to the sliding door@ ~6in | A stain next to the sliding door."
    (change,) = told(before, after).changes
    assert change.outcome == "worse"
    because = " ".join(change.because)
    assert "3in then, 6in now" in because
    assert "by the slider; next to the sliding door" in because


ONLY = "The earlier record only says that the"


@pytest.mark.parametrize(
    ("before", "after", "said"),
    [
        ("oven works | All four burners light and the oven heats up.", "oven dirty | The oven is dirty.", "oven works"),
        ("washer works | Washer runs.", "washer scratch | A scratch on the washer.", "washer works"),
        ("key handover:given | One key for you.", "key rust | The key is rusty.", "key was handed over"),
    ],
)
def test_what_was_only_used_before_is_new_and_says_that_its_state_was_not_told(
    before: str, after: str, said: str
) -> None:
    """Whether a trial is enough of a baseline for its looks is a person's to say; the reasons point to it."""
    (change,) = told(f"[kitchen]\n1 {before}", f"[kitchen]\n1 {after}").changes
    assert change.outcome == "new"
    assert [because for because in change.because if because.startswith(f"{ONLY} {said}")]


@pytest.mark.parametrize(
    ("before", "after"),
    [
        ("oven works | The oven heats up.", "oven fails | The oven does not heat."),
        ("faucet works | Tap runs.", "faucet leak | The tap leaks."),
        ("smoke_alarm works | Alarm tested.", "smoke_alarm missing | No alarm."),
        ("oven clean | The oven is clean.", "oven dirty | The oven is dirty."),
        ("oven works | The oven heats.\n2 oven good | And looks good.", "oven grease | Grease in the oven."),
        ("oven works | The oven heats.\n2 oven scratch @on the door@ | A scratch.", "oven dirty | It is dirty."),
    ],
)
def test_a_failure_after_a_trial_and_dirt_after_praise_need_no_such_word(before: str, after: str) -> None:
    changes = told(f"[kitchen]\n1 {before}", f"[kitchen]\n1 {after}").changes
    came = [change for change in changes if change.after]
    assert [change.outcome for change in came] == ["new"]
    assert not any(because.startswith(ONLY) for because in came[0].because)


def test_what_runs_through_all_of_a_thing_passes_the_place_that_was_named_before() -> None:
    before = "[bathroom]\n1 mirror scratch @in the low part@ | The mirror is scratched in the low part."
    for across in ("from top to bottom", "from one corner to the other", "right across"):
        after = f"[bathroom]\n1 mirror crack | The mirror is cracked {across}."
        assert became(before, after) == ["worse 1>1"], across


def test_what_is_all_over_a_thing_is_no_growth_of_another_kind_of_flaw_at_one_place_of_it() -> None:
    assert became(
        "[bedroom]\n1 wall nail_hole @by the door@ | There's a nail hole by the door.",
        "[bedroom]\n1 wall crack | The wall is cracked all over.",
    ) == ["gone 1>", "new >1"]
    assert became(
        "[bedroom]\n1 ceiling stain @by the window@ | A stain by the window on the ceiling.",
        "[bedroom]\n1 ceiling peeling | The paint is peeling everywhere.",
    ) == ["gone 1>", "new >1"]
