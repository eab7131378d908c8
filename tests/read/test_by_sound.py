"""Misheard words of a recording, decided by what the sound gave: read, asked, or left."""

from __future__ import annotations

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from narrate2report.read.lexis.lexicon import load_vocabulary
from narrate2report.read.lexis.words import Tokenizer
from narrate2report.read.misheard.by_sound import CONTRADICTED
from narrate2report.read.reading import Reader
from narrate2report.records.files import record_json
from narrate2report.records.findings import Heard
from narrate2report.records.transcript import Engine, Recording, Stretch, Transcript, Word
from narrate2report.records.weighing import LONGEST_S, Passage, Weighed, Weight

CLIP = Recording(file="walk.mp4", sha256="0" * 64, bytes=1)
SURE, UNSURE = 0.99, 0.4


@pytest.fixture(scope="module")
def reader(tokenizer: Tokenizer) -> Reader:
    return Reader(load_vocabulary(), tokenizer)


def heard(*lines: str, chance: float = UNSURE, timed: bool = True) -> Transcript:
    """Lines as they were listened to, half a second a word; a word in capitals was heard with little confidence."""
    stretches, at = [], 0.0
    for line in lines:
        words = [
            Word(
                text=word.lower(),
                start=at + 0.5 * k,
                end=at + 0.5 * k + 0.4,
                probability=chance if word.isupper() else SURE,
            )
            for k, word in enumerate(line.split())
        ]
        text = " ".join(word.text for word in words)
        end = words[-1].end
        stretches.append(
            Stretch(recording=CLIP.file, start=at, end=end, text=text, words=tuple(words) if timed else ())
        )
        at = end + 2
    return Transcript(recordings=(CLIP,), engine=Engine(name="test"), time_precision="word", stretches=tuple(stretches))


def with_sound(reader: Reader, transcript: Transcript, weight: Weight | None, of: str) -> tuple[Heard, ...]:
    """All repairs and questions, where the sound gives `weight` for readings with the word `of` and no other."""
    weighed = [
        Weighed(
            passage=one,
            weights=tuple(weight if weight and of in text.split() else Weight(plain=-30) for text in one.readings),
        )
        for one in reader.ask(transcript)
    ]
    read = reader.read(transcript, weighed=weighed)
    return tuple(repair for sentence in read.sentences for repair in sentence.spoken.heard)


LINE = "the HUT water in the shower takes a minute"


def test_what_the_sound_bears_out_is_read_and_both_words_are_kept_with_the_measure(reader: Reader) -> None:
    weight = Weight(plain=1.0, context=1.2)
    [repair] = with_sound(reader, heard(LINE), weight, "hot")
    assert (repair.heard, repair.read, repair.sound, repair.asked) == ("hut", "hot", weight, False)


def test_what_the_sound_leaves_open_is_asked_and_read_as_heard(reader: Reader) -> None:
    transcript = heard(LINE)
    [asked] = reader.ask(transcript)
    weights = tuple(
        Weight(plain=-4.5, context=-3.5) if " hot " in text else Weight(plain=-30) for text in asked.readings
    )
    read = reader.read(transcript, weighed=[Weighed(passage=asked, weights=weights)])
    [sentence] = read.sentences
    [question] = sentence.spoken.heard
    assert (question.heard, question.read, question.asked) == ("hut", "hot", True)
    assert sentence.spoken.text == asked.text
    told = [entry.heard for entry in read.findings.entries] + [one.heard for one in read.findings.unused]
    assert told
    assert all(one == (question,) for one in told)


def test_what_the_sound_speaks_against_is_left(reader: Reader) -> None:
    assert with_sound(reader, heard(LINE), Weight(plain=-12), "hot") == ()


def test_a_repair_by_the_text_is_asked_instead_where_the_sound_speaks_against_it(reader: Reader) -> None:
    transcript = heard("the trike plate is loose")
    [by_text] = [one for sentence in reader.read(transcript).sentences for one in sentence.spoken.heard]
    assert (by_text.read, by_text.asked, by_text.sound) == ("strike", False, None)
    [borne_out] = with_sound(reader, transcript, Weight(plain=-1.0, context=0.0), "strike")
    assert (borne_out.read, borne_out.asked) == ("strike", False)
    [against] = with_sound(reader, transcript, Weight(plain=CONTRADICTED - 1), "strike")
    assert (against.read, against.asked) == ("strike", True)


def test_without_its_sound_a_transcript_asks_nothing_and_reads_as_ever(reader: Reader) -> None:
    captions = heard(LINE, "the strike plait is loose", timed=False)
    assert reader.ask(captions) == ()
    assert [one.spoken.heard for one in reader.read(captions).sentences] == [
        one.spoken.heard for one in reader.read(heard(LINE, "the strike plait is loose")).sentences
    ]


def test_words_that_fit_are_not_doubted_however_the_recogniser_hesitates(reader: Reader) -> None:
    assert reader.ask(heard("THE WINDOW OPENS AND THE SCREEN IS TORN", "THERE ARE TWO KEYS AND A REMOTE")) == ()


WORDS = "the cock hut drip dense fog on in tub wall is cracked grout league and a nail foals door".split()


@settings(max_examples=25)
@given(
    lines=st.lists(st.lists(st.sampled_from(WORDS), min_size=2, max_size=12), min_size=1, max_size=4),
    plain=st.floats(-12, 12),
    context=st.floats(-12, 12),
)
def test_whatever_the_sound_gives_the_transcript_and_every_quote_stay(
    reader: Reader, lines: list[list[str]], plain: float, context: float
) -> None:
    transcript = heard(*(" ".join(line).upper() for line in lines))
    before = record_json(transcript)
    asked = reader.ask(transcript)
    weight = Weight(plain=plain, context=context)
    weighed = [Weighed(passage=one, weights=tuple(weight for _ in one.readings)) for one in asked]
    reading = reader.read(transcript, weighed=weighed)
    assert record_json(transcript) == before
    assert asked == reader.ask(transcript)
    quotes = [piece.quote for entry in reading.findings.entries for piece in entry.evidence]
    texts = {one.text for one in reading.sentences}
    assert texts == {one.text for one in reader.read(transcript).sentences}
    assert set(quotes) <= texts
    for one in asked:
        assert all(len(text.split()) == len(one.text.split()) for text in one.readings)
        assert all(0 < _changed(one, text) <= 3 for text in one.readings)
        assert one.end - one.start <= LONGEST_S


def _changed(one: Passage, text: str) -> int:
    pairs = zip(re.findall(r"\S+", one.text), re.findall(r"\S+", text), strict=True)
    return sum(left != right for left, right in pairs)


def test_a_very_usual_word_is_not_doubted_for_what_it_was_once_mined_as(reader: Reader) -> None:
    """`there` was heard for `stair`, and `things` for `dings`: by itself that says nothing of either."""
    assert load_vocabulary().misheard["stair"]["there"]
    asked = reader.ask(heard("okay THERE it goes", "I say some THINGS twice"))
    assert [text for one in asked for text in one.readings] == []


@pytest.mark.parametrize(("line", "other"), [("the CENTER of it", "centre"), ("an ELECTRIC one", "electrical")])
def test_another_spelling_or_form_is_no_question(reader: Reader, line: str, other: str) -> None:
    assert [text for one in reader.ask(heard(line)) for text in one.readings if other in text] == []


def test_a_word_that_was_heard_surely_is_not_given_up_without_asking(reader: Reader) -> None:
    """A real tent: the same sound as `dent`, and the model was sure of it."""
    weight = Weight(plain=5.0, context=2.0)
    surely = with_sound(reader, heard("there is a TENT in the closet", chance=SURE), weight, "dent")
    assert all(one.asked for one in surely)
    [guessed] = with_sound(reader, heard("front door no TENT", chance=0.3), weight, "dent")
    assert (guessed.read, guessed.asked) == ("dent", False)


def test_the_sound_does_not_speak_against_a_word_of_the_very_same_sound(reader: Reader) -> None:
    """`Cock` and `caulk` are one to the ear: that the model finds the rare word unlikely says nothing."""
    transcript = heard("the cock around the tub is black")
    [repair] = with_sound(reader, transcript, Weight(plain=-15), "caulk")
    assert (repair.heard, repair.read, repair.asked) == ("cock", "caulk", False)
