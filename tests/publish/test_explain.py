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


def test_every_sentence_stands_in_a_line_with_its_fate_and_why() -> None:
    page = printed(
        explain(
            (
                Read(3, "Tub is fine.", "bathroom.hall", "entries", ("e1", "e2"), ("'fine' is sound",)),
                Read(9, "Looking for chips.", None, "checking_for", (), ("'looking for' opens a search",)),
            )
        ),
        width=200,
    )
    heading, tub, chips = page.splitlines()
    assert heading.split() == ["time", "room", "sentence", "became", "because"]
    assert "0:03" in tub
    assert "Hall bathroom" in tub
    assert "e1, e2" in tub
    assert "'fine' is sound" in tub
    assert "only being looked for" in chips
    assert "'looking for' opens a search" in chips
