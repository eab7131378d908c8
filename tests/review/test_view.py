"""What the page is told of a walk."""

from __future__ import annotations

from narrate2report.review.choices import Choice, Choices
from narrate2report.review.spine import sentences
from narrate2report.review.view import whole_view
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
