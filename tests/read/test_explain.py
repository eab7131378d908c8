"""Every entry and every sentence left over can say why."""

from __future__ import annotations

from typing import get_args

import pytest

from narrate2report.records.findings import Reason
from tests.read.told import Narrator, Told

REASONS = set(get_args(Reason))

WALK = """\
This is the move-in walk, unit nine.
Okay, on into the kitchen.
The counter's got a chip, and a couple of scratches. No burns.
Checking for dents on the fridge here. Don't see any.
Running the dishwasher... it runs. I'm not testing the oven.
If this filter gets greasy you want to wash it. We charge for holes bigger than a quarter.
Might be a leak under there, I'm not sure.
Somebody's at the door, hang on.
I'll have someone tighten that faucet.
Now the hall bath. The tub is enamel.
Is that a crack? No, it's a hair.
Last year this ceiling was stained.
You've got two keys. Thanks, that's it.
""".splitlines()


@pytest.fixture(scope="module")
def told(entries: Narrator) -> Told:
    return entries(*WALK)


def test_every_entry_says_why_and_how_sure(told: Told) -> None:
    assert len(told.entries) > 8
    for entry in told.entries:
        assert entry.because, entry
        assert all(reason.strip() for reason in entry.because)
        assert 0 < entry.confidence <= 1


def test_a_reason_cites_the_words_that_led_to_it(told: Told) -> None:
    chip = next(entry for entry in told.entries if entry.condition == "chip")
    assert any("chip" in reason for reason in chip.because)


def test_every_sentence_left_over_has_one_of_the_reasons(told: Told) -> None:
    assert told.findings.unused
    for one in told.findings.unused:
        assert one.reason in REASONS
        assert one.because.strip()


def test_every_sentence_tells_its_fate(told: Told) -> None:
    ids = {entry.id for entry in told.entries}
    unused = {one.id: one.reason for one in told.findings.unused}
    for sentence in told.sentences:
        assert sentence.because, sentence.text
        if sentence.entries:
            assert sentence.fate == "entries"
            assert set(sentence.entries) <= ids
            assert sentence.id not in unused
        else:
            assert sentence.fate == unused[sentence.id]
    assert {entry for sentence in told.sentences for entry in sentence.entries} == ids


@pytest.mark.parametrize(
    ("said", "reason"),
    [
        ("Okay, on into the kitchen.", "moving"),
        ("Checking the counter for burns.", "checking_for"),
        ("If the counter gets burnt, the kitchen smells for days.", "hypothetical"),
        ("A burn that big, we charge for it.", "policy"),
        ("Somebody's at the door, hang on.", "talk"),
        ("My phone is ringing.", "talk"),
        ("It gets dark early these days.", "talk"),
    ],
)
def test_a_sentence_is_left_over_for_the_reason_that_a_person_would_give(
    said: str, reason: str, entries: Narrator
) -> None:
    told = entries("Now the counter.", said, room="hallway")
    assert told.said_from(2) == (), told.told()
    assert told.reasons_from(2) == [reason], told.told()


def test_a_repair_says_what_was_heard_why_and_how_sure(entries: Narrator) -> None:
    (entry,) = entries("The base bored is scuffed.", room="hallway").entries
    (repair,) = entry.heard
    assert "baseboard" in repair.why
    assert 0 < repair.sureness < 1
