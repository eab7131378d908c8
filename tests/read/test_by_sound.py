"""Misheard words of a recording, decided by what the sound gave: read, asked, or left."""

from __future__ import annotations

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
    weights = tuple(Weight(plain=-9, context=-4) if " hot " in text else Weight(plain=-30) for text in asked.readings)
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
        assert all(text != one.text and 0 <= _given_up(one, text) <= 3 for text in one.readings)
        assert one.end - one.start <= LONGEST_S


def _given_up(one: Passage, text: str) -> int:
    """How many words of what was heard stand between the parts that a reading leaves as they were."""
    heard, read = one.text.split(), text.split()
    pairs = list(zip(heard, read, strict=False))
    same_before = next((at for at, (left, right) in enumerate(pairs) if left != right), len(pairs))
    rest = list(zip(reversed(heard[same_before:]), reversed(read[same_before:]), strict=False))
    same_after = next((at for at, (left, right) in enumerate(rest) if left != right), len(rest))
    return len(heard) - same_before - same_after


def test_a_very_usual_word_is_not_doubted_for_what_it_was_once_mined_as(reader: Reader) -> None:
    """`there` was heard for `stair`, and `things` for `dings`: by itself that says nothing of either."""
    assert load_vocabulary().misheard["stair"]["there"]
    asked = reader.ask(heard("okay THERE it goes", "I say some THINGS twice"))
    assert [text for one in asked for text in one.readings] == []


@pytest.mark.parametrize(("line", "other"), [("the CENTER of it", "centre"), ("an ELECTRIC one", "electrical")])
def test_another_spelling_or_form_is_no_question(reader: Reader, line: str, other: str) -> None:
    assert [text for one in reader.ask(heard(line)) for text in one.readings if other in text] == []


def test_a_word_that_was_heard_surely_is_not_doubted(reader: Reader) -> None:
    """A real tent: nearly the sound of `dent`, and the model was sure of it."""
    assert reader.ask(heard("there is a TENT in the closet", "the BEAN bag stays", chance=SURE)) == ()


def test_the_sound_does_not_speak_against_a_word_of_the_very_same_sound(reader: Reader) -> None:
    """`Cock` and `caulk` are one to the ear: that the model finds the rare word unlikely says nothing."""
    transcript = heard("the cock around the tub is black")
    [repair] = with_sound(reader, transcript, Weight(plain=-15), "caulk")
    assert (repair.heard, repair.read, repair.asked) == ("cock", "caulk", False)


@pytest.mark.parametrize(
    ("line", "heard_as", "said"),
    [
        ("FAM works no rust on it", "fam", "fan"),
        ("the HEAP HOME is missing", "heap home", "peephole"),
        ("ENTER CALM works", "enter calm", "intercom"),
        ("STOP HER missing", "stop her", "stopper"),
        ("the CURTIN rod is loose", "curtin", "curtain"),
        ("COBBWOODS in the corner", "cobbwoods", "cobwebs"),
        ("there is one tile cracked and the CROUT is dark", "crout", "grout"),
    ],
)
def test_words_that_nobody_says_on_a_walk_are_held_against_what_sounds_like_them(
    reader: Reader, line: str, heard_as: str, said: str
) -> None:
    """One word for two as well, and the first sound of what is said after a pause lost or changed."""
    told = with_sound(reader, heard(line), Weight(plain=1.0, context=1.5), said)
    assert (heard_as, said) in {(one.heard, one.read) for one in told}


def test_usual_words_of_everyday_talk_are_not_doubted(reader: Reader) -> None:
    lines = ("I was THERE when they did the work", "SO I SAID to him come in", "and WHAT ELSE do we have here")
    asked = [text for one in reader.ask(heard(*lines)) for text in one.readings]
    assert asked == []


def test_the_reason_says_that_other_words_are_likelier_on_a_walk(reader: Reader) -> None:
    [told] = with_sound(reader, heard("the HEAP HOME is missing"), Weight(plain=2.0, context=2.0), "peephole")
    assert "likelier to be said here" in told.why
