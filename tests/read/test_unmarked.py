"""Speech that was written down without marks and capitals is read in the statements that a listener hears."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from narrate2report.read.speech.sentences import Pause, split_sentences
from narrate2report.records.transcript import Stretch, Word
from tests.read.retold import Retelling, changes, under_one_time
from tests.read.told import CLIP, Narrator, transcript_of

SOUND = "present"


@pytest.mark.parametrize(
    ("line", "flaws"),
    [
        (
            "the toilet flushes fine the seat is loose and the tank lid has a crack in it",
            {("toilet_seat", "loose"), ("toilet_tank", "crack")},
        ),
        (
            "hand rail is solid the carpet on the stairs is worn in the middle",
            {("carpet", "worn"), ("railing", "good")},
        ),
        ("blinds are good outlet by the couch has a crack in it", {("blinds", "good"), ("outlet", "crack")}),
        (
            "mirror is fine towel bar is loose on one end the caulk by the tub is cracked",
            {("mirror", "good"), ("towel_bar", "loose"), ("caulk", "failed_sealant")},
        ),
        (
            "i pulled the drawers out they all slide good the front of one of them is scratched",
            {("drawer", "scratch")},
        ),
        (
            "the carpet was cleaned on tuesday the stain by the closet did not come out",
            {("carpet", "stain")},
        ),
        (
            "no chips in the sink the sprayer leaks at the handle the backsplash is clean",
            {("sink", "chip"), ("sprayer", "leak"), ("backsplash", "clean")},
        ),
        (
            "screen is torn window lock is broken sill has water stains on it",
            {("window_screen", "tear"), ("window_lock", "broken"), ("window_sill", "stain")},
        ),
        (
            "ceiling is good one wall has two nail holes the baseboard is scuffed by the door",
            {("ceiling", "good"), ("wall", "nail_hole"), ("baseboard", "scuff")},
        ),
        (
            "fridge is cold a shelf in it is cracked the gasket is dirty freezer is clean",
            {("refrigerator_shelf", "crack"), ("door_gasket", "dirty"), ("freezer", "clean")},
        ),
    ],
)
def test_statements_that_run_into_each_other_are_told_apart(
    line: str, flaws: set[tuple[str, str]], entries: Narrator
) -> None:
    told = entries("okay so this is the walk through", line)
    assert flaws <= {(component, condition) for component, condition, _ in told.conditions()}, told.told()


@pytest.mark.parametrize(
    ("line", "room", "component"),
    [
        ("okay laundry room the washer is dented on the side", "laundry", "washer"),
        ("alright next is the kitchen the sink has a chip in it", "kitchen", "sink"),
        ("that's it for in here now the garage the door is dented at the bottom", "garage", "garage_door"),
        ("bathroom the tub has a chip by the drain", "bathroom", "bathtub"),
        ("and then the patio the fence is broken at the corner", "patio", "fence"),
    ],
)
def test_a_room_that_is_named_in_the_middle_of_a_run_is_entered(
    line: str, room: str, component: str, entries: Narrator
) -> None:
    told = entries("okay starting in the living room the walls are good", line)
    assert (room, component) in {(one.room, one.component) for one in told.said_from(1)}, told.told()


@pytest.mark.parametrize(
    "line",
    [
        "if you scratch the floor you pay for it and if the screen gets torn you pay for that too",
        "i'm looking for cracks and stains and anything that is loose in here",
        "please don't put grease down the disposal it'll clog and don't use bleach on the counter",
        "we charge forty dollars for a broken blind and twenty for a missing key",
        "last year the dishwasher leaked we put a new one in",
        "next door they had roaches we never had any in here",
    ],
)
def test_what_is_not_said_of_this_place_stays_unsaid_without_marks(line: str, entries: Narrator) -> None:
    told = entries("okay so this is the walk through", "in the kitchen now", line)
    adverse = {
        (component, condition)
        for component, condition, assertion in told.conditions()
        if assertion == "present" and condition not in {"new", "good", "repaired", "clean"}
    }
    assert not adverse, told.told()


@pytest.mark.parametrize(
    ("line", "component", "outcome"),
    [
        ("smoke detector let me push it yep it works", "smoke_alarm", "works"),
        ("the disposal i'm flipping the switch okay it's running", "garbage_disposal", "works"),
        ("dishwasher i did not run it the racks are clean", "dishwasher", "not_tested"),
        ("garage door i press the button and nothing it won't open", "garage_door", "fails"),
    ],
)
def test_what_is_named_first_and_tried_after_is_what_was_tried(
    line: str, component: str, outcome: str, entries: Narrator
) -> None:
    told = entries("okay so this is the walk through", line)
    assert (component, outcome) in {(one.component, one.outcome) for one in told.entries}, told.told()


RUNS = [
    "okay this is the kitchen the counter has a burn by the stove the sink is good no chips",
    "the faucet drips i turned it off hard and it still drips under the sink is dry no leaks",
    "bathroom the toilet runs you have to jiggle it the fan works it's just loud",
    "bed room two carpet is new walls are painted closet door is off the track",
    "outside the gutter is hanging down the fence is missing two boards the gate won't latch",
]


@given(lines=st.lists(st.sampled_from(RUNS), min_size=1, max_size=4))
def test_no_word_is_lost_where_speech_is_parted(lines: list[str], entries: Narrator) -> None:
    told = entries(*lines)
    assert " ".join(one.text for one in told.sentences) == " ".join(lines)
    starts = [one.sentence.start for one in told.sentences]
    assert starts == sorted(starts)
    accounted = {i for entry in told.entries for e in entry.evidence for i in e.sentences}
    accounted |= {one.id for one in told.findings.unused}
    assert accounted == {one.sentence.id for one in told.sentences}


@given(text=st.text("ab c", min_size=1, max_size=30), seed=st.data())
def test_pauses_part_a_text_into_its_words_in_order(text: str, seed: st.DataObject) -> None:
    text = text.strip()
    offsets = [at for at in range(1, len(text)) if text[at - 1] == " " and text[at] != " "]
    kinds = seed.draw(st.lists(st.sampled_from(["", ",", "."]), min_size=len(offsets), max_size=len(offsets)))
    pauses = [Pause(at, is_stop=kind == ".") for at, kind in zip(offsets, kinds, strict=True) if kind]
    sentences = split_sentences(transcript_of([text]), lambda texts: [pauses for _ in texts])
    assert " ".join(" ".join(one.marked.replace(",", "").split()) for one in sentences) == " ".join(text.split())


def test_a_part_has_the_times_of_its_own_words(entries: Narrator) -> None:
    text = "the toilet flushes fine okay next is the kitchen the sink has a chip in it"
    words = [Word(text=word, start=float(at), end=at + 0.8, probability=0.9) for at, word in enumerate(text.split())]
    walk = transcript_of([text])
    walk = walk.model_copy(
        update={"stretches": (Stretch(recording=CLIP, start=0.0, end=16.0, text=text, words=tuple(words)),)}
    )
    told = entries.read(walk)
    [chip] = [one for one in told.entries if one.condition == "chip"]
    assert chip.room == "kitchen"
    assert chip.evidence[0].start >= text.split().index("okay") - 0.5
    assert "toilet" not in chip.evidence[0].quote


def test_text_with_marks_is_not_parted(entries: Narrator) -> None:
    line = "The hand rail, which is solid here the carpet is worn."
    assert [one.text for one in entries(line).sentences] == [line]


def test_speech_without_marks_is_read_alike_however_it_is_cut_into_lines(entries: Narrator) -> None:
    walk = transcript_of(RUNS)
    told = changes(lambda one: entries.read(one).reading, [walk], Retelling(under_one_time(2)))
    assert told.agreement >= 0.8, told.told
