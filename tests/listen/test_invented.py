"""Words that a speech model makes up are told from words that were said, and the reason is given."""

from __future__ import annotations

import pytest

from narrate2report.listen.hearing import Hearing
from narrate2report.listen.invented import doubt, find_loop
from narrate2report.records.transcript import Word


def judged(
    text: str,
    *,
    probability: float = 0.9,
    likelihood: float = -0.3,
    silence: float = 0.05,
    speech: tuple[tuple[float, float], ...] = ((0.0, 60.0),),
    pace_s: float = 0.35,
) -> str | None:
    words = tuple(
        Word(text=each, start=number * pace_s, end=(number + 0.9) * pace_s, probability=probability)
        for number, each in enumerate(text.split())
    )
    hearing = Hearing(words=words, likelihood=likelihood, silence=silence, speech=speech)
    return doubt(words, hearing)


@pytest.mark.parametrize(
    "text",
    [
        "The sink has a chip.",
        "Looks good, looks good, no damage, no damage here.",
        "No, no, no, that's not it.",
        "Good.",
        "Thank you for walking with me.",
        "Knock knock knock, hello?",
        "Test, test, test.",
        "Okay, thanks.",
        "The music room is clean.",
    ],
)
def test_plain_talk_is_believed(text: str) -> None:
    assert judged(text) is None


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("Thanks for watching!", "stock phrase"),
        ("Thank you so much for watching.", "stock phrase"),
        ("Please subscribe to my channel.", "stock phrase"),
        ("Subtitles by the community", "stock phrase"),
        ("[Music]", "stock phrase"),
        ("the tile the tile the tile the tile the tile the tile", "loop"),
        ("I'm going to go to the " * 4, "loop"),
        ("so so so so so so so so", "loop"),
        ("... -- ♪", "only marks"),
    ],
)
def test_what_models_make_up_is_doubted(text: str, reason: str) -> None:
    told = judged(text)
    assert told is not None
    assert reason in told


def test_words_where_nobody_speaks_are_doubted() -> None:
    assert "nobody" in (judged("The sink is clean.", speech=((20.0, 21.0),)) or "")


def test_a_filler_is_believed_only_where_someone_speaks() -> None:
    assert judged("Thank you.") is None
    assert judged("Thank you.", silence=0.9) is not None
    assert judged("You", probability=0.3) is not None


def test_guesses_are_doubted() -> None:
    assert "guess" in (judged("Mabel tongues across", probability=0.1) or "")


def test_silence_with_unlikely_words_is_doubted() -> None:
    assert judged("The sink", likelihood=-1.4, silence=0.8) is not None
    assert judged("The sink", likelihood=-0.4, silence=0.8) is None


def test_words_faster_than_speech_are_doubted() -> None:
    assert "faster" in (judged("one two three four five six seven eight nine ten", pace_s=0.02) or "")


@pytest.mark.parametrize(
    ("words", "loop"),
    [
        ("a b a b a b a b a b", "a b"),
        ("a b a b a b c", None),
        ("x a b c d a b c d a b c d a b c d", "a b c d"),
        ("", None),
        ("no no no no", None),
    ],
)
def test_a_loop_is_words_that_follow_on_themselves(words: str, loop: str | None) -> None:
    assert find_loop(words.split()) == loop
