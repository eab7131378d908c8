"""A narration falls into the sentences that a listener hears, each with its own words and times."""

from __future__ import annotations

from collections.abc import Sequence

import pytest

from narrate2report.records.transcript import Engine, Stretch, Transcript, Word
from tests.read.told import CLIP, LINE_S, SPOKEN_S, Narrator, recording


@pytest.mark.parametrize(
    ("line", "sentences"),
    [
        ("The tub is clean. The sink is chipped.", ["The tub is clean.", "The sink is chipped."]),
        ("Is that a crack? No! It's a hair.", ["Is that a crack?", "No!", "It's a hair."]),
        ("Is that a crack? No. It's a hair.", ["Is that a crack?", "No.", "It's a hair."]),
        ("It's door No. 4 here.", ["It's door No. 4 here."]),
        ("Trying the fan... there it goes, it works.", ["Trying the fan... there it goes, it works."]),
        ("Mr. Abel and Mrs. Abel moved out on the first.", ["Mr. Abel and Mrs. Abel moved out on the first."]),
        ("It's 2.5 inches long.", ["It's 2.5 inches long."]),
        ('She said "it leaks." I looked.', ['She said "it leaks."', "I looked."]),
        ("  Spaces around.   Wide gaps between.  ", ["Spaces around.", "Wide gaps between."]),
        ("no marks at all", ["no marks at all"]),
        ("... and the wall is scuffed", ["... and the wall is scuffed"]),
        ("Zoë's room is fine. Ça va.", ["Zoë's room is fine.", "Ça va."]),
    ],
)
def test_a_line_falls_into_sentences(line: str, sentences: list[str], entries: Narrator) -> None:
    assert [one.text for one in entries(line).sentences] == sentences


@pytest.mark.parametrize("line", ["", "   ", "...", "?!", "— —"])
def test_a_line_without_words_is_no_sentence(line: str, entries: Narrator) -> None:
    assert [one.text for one in entries("Here we go.", line, "The tub is clean.").sentences] == [
        "Here we go.",
        "The tub is clean.",
    ]


def test_sentences_of_a_line_share_its_time_in_order(entries: Narrator) -> None:
    one, two, three = entries("The tub is clean.  The sink is chipped. The mirror is cracked.").sentences
    assert one.start == 0.0
    assert one.end <= two.start < two.end <= three.start
    assert three.end == pytest.approx(SPOKEN_S, abs=0.01)


@pytest.mark.parametrize(
    ("first", "second", "joined"),
    [
        ("the baseboard here is coming away from the", "wall over there", True),
        ("the closet door is off of", "its track", True),
        ("The tub is clean", "The sink is chipped", False),
        ("The tub is clean.", "of course", False),
    ],
)
def test_a_statement_that_a_caption_cuts_in_two_is_read_as_one(
    first: str, second: str, joined: bool, entries: Narrator
) -> None:
    """Captions end where the line is full, not where the speaker stops."""
    texts = [one.text for one in entries.read(_captions(first, second, pause=0.0)).sentences]
    assert texts == ([f"{first} {second}"] if joined else [first, second])


def test_a_statement_is_not_taken_up_again_after_a_long_silence(entries: Narrator) -> None:
    told = entries.read(_captions("the closet door is off of", "its track", pause=30.0))
    assert [one.text for one in told.sentences] == ["the closet door is off of", "its track"]


def _captions(first: str, second: str, pause: float) -> Transcript:
    stretches = (
        Stretch(recording=CLIP, start=0, end=2, text=first),
        Stretch(recording=CLIP, start=2 + pause, end=4 + pause, text=second),
    )
    return Transcript(
        recordings=(recording(60),),
        engine=Engine(name="captions"),
        time_precision="line",
        stretches=stretches,
    )


def _words(timed: Sequence[tuple[str, float]]) -> tuple[Word, ...]:
    return tuple(Word(text=text, start=start, end=start + 0.15, probability=0.9) for text, start in timed)


def _listened(*stretches: Stretch) -> Transcript:
    return Transcript(
        recordings=(recording(20),), engine=Engine(name="listening"), time_precision="word", stretches=stretches
    )


def test_a_breath_parts_two_statements_though_a_comma_stands_between_them(entries: Narrator) -> None:
    timed = [("No", 3.0), ("dents,", 3.2), ("deadbolt", 3.8), ("turns.", 4.1)]
    told = entries.read(
        _listened(
            Stretch(recording=CLIP, start=1, end=2, text="Okay, into the hallway."),
            Stretch(recording=CLIP, start=3, end=4.3, text="No dents, deadbolt turns.", words=_words(timed)),
            Stretch(recording=CLIP, start=6, end=8, text="The door is fine."),
        )
    )
    assert [one.text for one in told.sentences][1:3] == ["No dents,", "deadbolt turns."]


def test_timed_words_give_each_sentence_its_own_time(entries: Narrator) -> None:
    timed = [("The", 3.0), ("tub", 3.2), ("is", 3.4), ("clean.", 3.6), ("The", 8.0), ("sink", 8.2), ("leaks.", 8.5)]
    text = " ".join(text for text, _ in timed)
    told = entries.read(_listened(Stretch(recording=CLIP, start=3, end=9, text=text, words=_words(timed))))
    tub, sink = told.sentences
    assert 2.5 <= tub.start <= 3.0
    assert tub.end == pytest.approx(3.75)
    assert 7.5 <= sink.start <= 8.0
    assert sink.end == pytest.approx(8.65)


def test_the_time_of_a_line_is_the_time_of_its_entries(entries: Narrator) -> None:
    told = entries("The tub is chipped.", "The sink is cracked.", room="bathroom")
    assert [entry.evidence[0].start for entry in told.entries] == [LINE_S, 2 * LINE_S]
