"""What the page is told of a walk."""

from __future__ import annotations

from narrate2report.records.findings import Heard
from narrate2report.records.weighing import Weight
from narrate2report.review.choices import Choice, Choices
from narrate2report.review.spine import sentences
from narrate2report.review.view import progress, whole_view
from tests.publish import walk
from tests.review.hand_made import draft


def test_what_only_the_record_names_can_be_chosen_too_by_a_name_a_person_can_read() -> None:
    second = walk.entry(id="e7", room="bedroom.2", component="dado_rail", condition="hair_crack")
    record = draft().model_copy(update={"entries": (*draft().entries, second)})
    known = Choices(rooms=(Choice("kitchen", "Kitchen", ("galley",)),), conditions=(Choice("chip", "chip"),))
    told = whole_view(record, sentences(record), (), known)["choices"]
    assert told["rooms"][0] == {"id": "kitchen", "label": "Kitchen", "also": ["galley"]}
    labels = {kind: {one["id"]: one["label"] for one in told[kind]} for kind in told}
    assert labels["rooms"]["bedroom.2"] == "Bedroom 2"
    assert labels["components"]["dado_rail"] == "dado rail"
    assert labels["components"]["mirror"] == "mirror", "not spoken of, but part of the record"
    assert labels["conditions"]["hair_crack"] == "hair crack"
    assert all(len(labels[kind]) == len(told[kind]) for kind in told), "each stands there once"


def test_a_word_in_doubt_is_asked_at_its_entry_or_at_the_sentence_that_gave_none() -> None:
    doubt = Heard(
        heard="hut", read="hot", why="a reason", sureness=0.4, sound=Weight(plain=-4.5, context=-3.0), asked=True
    )
    repair = Heard(heard="cock", read="caulk", why="a reason", sureness=0.7)
    record = draft()
    entry = record.entries[0].model_copy(update={"heard": (repair, doubt)})
    silent = record.unused[0].model_copy(update={"heard": (repair, doubt)})
    record = record.model_copy(update={"entries": (entry, *record.entries[1:]), "unused": (silent, *record.unused[1:])})
    told = whole_view(record, sentences(record), (), Choices())
    [of_entry] = [one["heard"] for one in told["entries"] if one["id"] == entry.id]
    assert [(one["heard"], one["read"], one["asked"]) for one in of_entry] == [
        ("cock", "caulk", False),
        ("hut", "hot", True),
    ]
    assert "-4.5" in of_entry[1]["why"]
    asked = {one["id"]: one["unused"]["asked"] for one in told["sentences"] if one["unused"]}
    [question] = asked.pop(silent.id)
    assert "“hut”" in question
    assert "was “hot” said?" in question
    assert set(map(tuple, asked.values())) == {()}


def test_alarms_that_nobody_spoke_of_are_told_apart_and_again_after_a_decision() -> None:
    spoken = walk.entry(id="e8", room="hallway", component="smoke_alarm", kind="check", outcome="works")
    record = draft().model_copy(update={"entries": (*draft().entries, spoken)})
    assert progress(record, ())["called_out"] == ["CO alarm not spoken of anywhere."]
    left_out = record.model_copy(update={"entries": draft().entries})
    assert progress(left_out, ())["called_out"] == [
        "Smoke alarm not spoken of anywhere.",
        "CO alarm not spoken of anywhere.",
    ]
