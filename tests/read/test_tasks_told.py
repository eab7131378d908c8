"""Tasks told by all of a sentence: what is said to a colleague is no advice, and work needs no word of a rule."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from narrate2report.read.credible.tasks import Tasks
from narrate2report.read.credible.weighing import Weighing
from narrate2report.read.lexis.learned import ALWAYS, Weights
from narrate2report.read.lexis.vocabulary import Vocabulary
from narrate2report.read.lexis.words import Tokenizer
from narrate2report.read.reading import Reader
from tests.read.told import Narrator, Told, transcript_of

NO_TASK: Weights = {
    "follow_up told": {ALWAYS: -1},
    "follow_up of": {},
    "advice told": {ALWAYS: -1},
    "advice of": {},
    "action": {},
}


@pytest.mark.parametrize(
    ("room", "said"),
    [
        ("kitchen", "Grab the back of the stove and tip it a hair."),
        ("bathroom", "Shine your light behind the toilet and tell me what you see."),
        ("living room", "Take your time with the walls, that's where they get you."),
    ],
)
def test_what_is_said_to_a_colleague_is_no_advice_and_says_why(room: str, said: str, entries: Narrator) -> None:
    told = entries(said, room=room)
    assert [one for one in told.entries if one.kind == "advice"] == []
    assert said in [one.text for one in told.findings.unused]


@pytest.mark.parametrize(
    ("room", "said", "component"),
    [
        ("bathroom", ("The caulk is moldy.", "That's got to be redone before they move in."), "caulk"),
        ("bedroom", ("The towel bar is loose.", "Remind me to bring the big drill for that on Friday."), "towel_bar"),
    ],
)
def test_work_is_told_of_the_flaw_just_seen(
    room: str, said: tuple[str, ...], component: str, entries: Narrator
) -> None:
    assert [one for one, _ in entries(*said, room=room).follow_ups()] == [component]


Weigher = Callable[..., Told]


@pytest.fixture(scope="module")
def weighed(vocabulary: Vocabulary, tokenizer: Tokenizer) -> Weigher:
    """Tell lines in a kitchen, get what is read of them by these weights."""

    def read(weights: Weights, *lines: str) -> Told:
        reader = Reader(vocabulary, tokenizer, weighing=Weighing(tasks=Tasks({**NO_TASK, **weights})))
        return Told(reader.read(transcript_of(["Okay, into the kitchen.", *lines])))

    return read


def test_a_task_that_the_rules_drafted_stands_unused_where_all_speaks_against_it(weighed: Weigher) -> None:
    told = weighed({"follow_up told": {ALWAYS: 1, "w plumber": -90}}, "The plumber will fix the faucet on Monday.")
    assert told.follow_ups() == []
    (unused,) = [one for one in told.findings.unused if "plumber" in one.text]
    assert unused.because == "faucet: worded as talk ('plumber')"


def test_a_task_that_no_rule_drafted_is_told_with_its_words_and_of_what_most_speaks_for(
    weighed: Weigher,
) -> None:
    told = weighed(
        {
            "follow_up told": {ALWAYS: -60, "w zorb": 200},
            "follow_up of": {"flaw 0 ago": 100},
            "action": {"clean: w zorb": 50},
        },
        "The faucet leaks.",
        "Zorb.",
    )
    (task,) = [one for one in told.entries if one.kind == "follow_up"]
    assert (task.component, task.action) == ("faucet", "clean")
    assert "worded as work to come ('zorb')" in task.because


@pytest.mark.parametrize(("more", "component"), [(150, "sink"), (170, "faucet")])
def test_another_component_is_taken_only_where_far_more_speaks_for_it(
    more: int, component: str, weighed: Weigher
) -> None:
    weights = {"follow_up told": {ALWAYS: 1}, "follow_up of": {"flaw 0 ago": more}}
    told = weighed(weights, "The faucet leaks.", "Somebody has to repair the sink.")
    assert [one for one, _ in told.follow_ups()][-1:] == [component]


def test_work_that_was_left_out_is_not_meant_by_the_next_sentence(weighed: Weigher) -> None:
    weights: Weights = {"follow_up told": {ALWAYS: 1, "w plumber": -90}}
    told = weighed(weights, "The faucet leaks.", "The plumber will replace the sink.", "I'll do it before I leave.")
    assert told.follow_ups() == [("faucet", "repair")]
