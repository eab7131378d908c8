"""Heard words come together into stretches, at their place in the clip; nothing heard is left out."""

from __future__ import annotations

from narrate2report.listen.hearing import Hearing
from narrate2report.listen.stretches import Placed, find_gaps, to_stretches
from narrate2report.records.transcript import Word


def placed(start: float, words: list[tuple[str, float, float]], speech: tuple[tuple[float, float], ...]) -> Placed:
    return Placed(
        start,
        Hearing(
            words=tuple(Word(text=text, start=a, end=b, probability=0.9) for text, a, b in words),
            likelihood=-0.2,
            silence=0.01,
            speech=speech,
        ),
    )


def test_pauses_and_full_stops_part_stretches() -> None:
    window = placed(
        100.0,
        [
            ("The", 0.5, 0.7),
            ("sink", 0.7, 1.0),
            ("is", 1.0, 1.1),
            ("clean.", 1.1, 1.5),
            ("The", 1.8, 1.9),
            ("tub", 1.9, 2.2),
            ("has", 3.2, 3.4),
            ("3.5", 3.4, 3.8),
            ("chips", 3.8, 4.2),
        ],
        ((0.5, 4.2),),
    )
    stretches = to_stretches([window], "walk.mp4")
    assert [(each.start, each.end, each.text) for each in stretches] == [
        (100.5, 101.5, "The sink is clean."),
        (101.8, 102.2, "The tub"),
        (103.2, 104.2, "has 3.5 chips"),
    ]
    assert [word.start for word in stretches[0].words] == [100.5, 100.7, 101.0, 101.1]


def test_every_word_stands_in_one_stretch_in_order() -> None:
    windows = [
        placed(0.0, [("a.", 0.5, 0.7), ("b", 0.7, 1.0)], ((0.5, 1.0),)),
        placed(9.0, [("Thanks", 0.5, 0.9), ("for", 0.9, 1.0), ("watching.", 1.0, 1.5)], ((0.5, 1.5),)),
    ]
    stretches = to_stretches(windows, "walk.mp4")
    assert " ".join(each.text for each in stretches) == "a. b Thanks for watching."
    assert [each.doubt is not None for each in stretches] == [False, True]


def test_speech_without_words_is_a_gap() -> None:
    windows = [
        placed(10.0, [("sink", 1.0, 1.4)], ((0.5, 1.5), (4.0, 7.0))),
        placed(30.0, [], ((0.4, 1.0),)),
    ]
    (gap,) = find_gaps(windows, "walk.mp4")
    assert (gap.recording, gap.start, gap.end) == ("walk.mp4", 14.0, 17.0)
