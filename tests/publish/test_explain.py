"""The explanation shows every sentence with its fate and its reasons."""

from __future__ import annotations

from dataclasses import dataclass

from narrate2report.publish.explain import explain
from tests.publish.test_summary import printed


@dataclass(frozen=True)
class Read:
    start: float
    text: str
    room: str | None
    fate: str
    entries: tuple[str, ...]
    because: tuple[str, ...]


SENTENCES = (
    Read(3, "Tub is fine.", "bathroom.hall", "entries", ("e1", "e2"), ("'fine' is sound",)),
    Read(9, "Looking for chips.", None, "checking_for", (), ("'looking for' opens a search",)),
)


def test_every_sentence_stands_with_its_fate_and_why() -> None:
    lines = [line.strip() for line in printed(explain(SENTENCES)).splitlines() if line.strip()]
    assert lines == [
        "Hall bathroom",
        "0:03  Tub is fine.",
        "– e1, e2: 'fine' is sound",
        "0:09  Looking for chips.",
        "– only being looked for: 'looking for' opens a search",
    ]


def test_a_room_is_named_when_it_is_entered_and_not_again() -> None:
    stays = (SENTENCES[0], Read(5, "Sink too.", "bathroom.hall", "entries", ("e3",), ("same",)))
    assert printed(explain(stays)).count("Hall bathroom") == 1
