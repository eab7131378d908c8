"""What is told by how words stand together and not by a saying: left untried, tried in vain, claimed and found, work
that somebody comes for, and rooms that one asks to go to.
"""

from __future__ import annotations

import pytest

from tests.read.told import Narrator


@pytest.mark.parametrize(
    ("said", "component"),
    [
        ("The dishwasher is untested.", "dishwasher"),
        ("The oven has not been checked.", "oven"),
        ("I don't have time to run the dishwasher.", "dishwasher"),
        ("We haven't actually had a chance to try the oven yet.", "oven"),
        ("No one has switched the oven on yet.", "oven"),
        ("I'd rather not start the dishwasher without anyone here.", "dishwasher"),
        ("The dishwasher still needs to be tested.", "dishwasher"),
        ("We'll have to test the oven another day.", "oven"),
        ("The oven is disconnected, so no test.", "oven"),
        ("Tested everything in here except the oven.", "oven"),
        ("Dishwasher is full of the tenant's dishes, so not run.", "dishwasher"),
    ],
)
def test_what_nobody_tried_is_not_tested(said: str, component: str, entries: Narrator) -> None:
    told = entries(said, room="kitchen")
    assert told.checks() == [(component, "not_tested")], told.told()


@pytest.mark.parametrize(
    "said",
    [
        "Never run the dishwasher empty.",
        "Please don't turn the oven on at night.",
        "Never put hot pans on the counter.",
        "Somebody should try the oven one day, but that isn't on the list.",
    ],
)
def test_an_order_leaves_nothing_untried(said: str, entries: Narrator) -> None:
    told = entries(said, room="kitchen")
    assert "not_tested" not in {outcome for _, outcome in told.checks()}, told.told()


def test_of_both_machines_neither_was_run(entries: Narrator) -> None:
    told = entries("Washer and dryer are in here. I didn't run either one today.", room="laundry")
    assert told.checks() == [("washer", "not_tested"), ("dryer", "not_tested")], told.told()


@pytest.mark.parametrize(
    "said",
    [
        "I couldn't get the oven to light.",
        "I've had a go at the oven. Can't get it to run.",
        "Can't get anything out of the oven.",
        "This is the oven. It never got going.",
        "Something's wrong with the oven.",
        "Let me try the oven. No, nothing.",
        "Oven next. I've pressed the button and nothing happens.",
    ],
)
def test_what_was_tried_in_vain_fails(said: str, entries: Narrator) -> None:
    told = entries(said, room="kitchen")
    assert told.checks() == [("oven", "fails")], told.told()


@pytest.mark.parametrize(
    ("said", "found"),
    [
        ("They told me the counter was stained. And they're right, it is.", ("countertop", "stain", "present")),
        ("The tenant did mention the counter was stained and yes, it is.", ("countertop", "stain", "present")),
        ("They said the counter isn't scratched. It is.", ("countertop", "scratch", "present")),
        ("I thought the counter was scratched. It isn't.", ("countertop", "scratch", "absent")),
        ("I was told the tap leaks. It does.", ("faucet", "leak", "present")),
        ("If the tap drips, call me. It doesn't.", ("faucet", "leak", "absent")),
    ],
)
def test_a_claim_is_settled_by_the_short_sentence_after_it(
    said: str, found: tuple[str, str, str], entries: Narrator
) -> None:
    told = entries(said, room="kitchen")
    assert told.conditions() == {found}, told.told()


@pytest.mark.parametrize(
    ("said", "outcome"),
    [
        ("Someone told me the oven was dead. It isn't, I've just had it on.", "works"),
        ("They said the oven was working. I've just tried it, and it is not.", "fails"),
        ("I'd love to say the oven works. It doesn't.", "fails"),
        ("Wasn't sure if the oven would come on. It has, so we're good.", "works"),
    ],
)
def test_a_claimed_trial_is_settled_too(said: str, outcome: str, entries: Narrator) -> None:
    told = entries(said, room="kitchen")
    assert told.checks() == [("oven", outcome)], told.told()


@pytest.mark.parametrize(
    "said",
    [
        "If that glass ever gets scratched, it's because somebody dragged a pan.",
        "If there's a burn at the end, that comes out of the deposit. It does.",
    ],
)
def test_what_would_follow_is_no_claim(said: str, entries: Narrator) -> None:
    told = entries("The oven door is clean.", said, room="kitchen")
    assert all(entry.condition == "clean" or entry.kind == "advice" for entry in told.entries), told.told()


@pytest.mark.parametrize(
    ("said", "work"),
    [
        ("The guys are coming Thursday to sort out the mirror.", ("mirror", "repair")),
        ("You won't have to do anything about the fridge. We're sending somebody to repair it.", None),
        ("The owner has agreed to pay for a new worktop.", ("countertop", "replace")),
        ("Remind me to swap out the tap.", ("faucet", "replace")),
        ("So the plan for the toilet is, we swap it out.", ("toilet", "replace")),
        ("The hood filter is greasy. I'll have the cleaner come back and do it.", ("hood_filter", "clean")),
    ],
)
def test_work_is_planned_by_whoever_comes_for_it(said: str, work: tuple[str, str] | None, entries: Narrator) -> None:
    told = entries(said, room="kitchen")
    assert told.follow_ups() == [work or ("refrigerator", "repair")], told.told()


@pytest.mark.parametrize(
    ("said", "component"),
    [
        ("The air filter is here. You'll be changing those yourself.", "air_filter"),
        ("Tenants are responsible for cleaning the oven.", "oven"),
        ("Any damage to the worktop comes out of your deposit.", "countertop"),
        ("Any problem with the oven, you send me a text.", "oven"),
        ("My advice with the fridge is a little soap and nothing else.", "refrigerator"),
    ],
)
def test_whose_job_it_is_is_a_rule_and_no_work_of_ours(said: str, component: str, entries: Narrator) -> None:
    told = entries(said, room="kitchen")
    assert [(one.kind, one.component) for one in told.entries] == [("advice", component)], told.told()


@pytest.mark.parametrize(
    "said", ["Shall we go through to the bathroom?", "Want to head into the bathroom?", "Shall we do the bathroom?"]
)
def test_one_goes_where_one_asks_to_go(said: str, entries: Narrator) -> None:
    told = entries(said, "The ceiling is stained.", room="hallway")
    assert {entry.room for entry in told.entries} == {"bathroom"}, told.told()


@pytest.mark.parametrize(
    "said",
    [
        "Got some frayed edges too over at the hall.",
        "Found a crack over towards the hall.",
        "The peephole's in there and you can see clear out to the stairwell.",
    ],
)
def test_one_stays_where_a_thing_is_only_found_over_there(said: str, entries: Narrator) -> None:
    told = entries(said, "The ceiling is stained.", room="living room")
    assert {entry.room for entry in told.said_from(2)} == {"living_room"}, told.told()
