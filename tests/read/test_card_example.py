"""What the prompt card and the guide tell people to say is read whole."""

from __future__ import annotations

import re

import pytest

from narrate2report.publish.card_words import card_words
from narrate2report.shipped import shipped
from tests.read.told import Narrator

GUIDE = (shipped("guide") / "speaking.md").read_text(encoding="utf-8")
EXAMPLES = [card_words().example.strip("“”"), *re.findall(r'"(Window sill: [^"]+)"', GUIDE)]


@pytest.mark.parametrize("said", EXAMPLES)
def test_an_example_is_read_with_its_thing_flaw_number_place_and_size(said: str, entries: Narrator) -> None:
    (one,) = entries("Bedroom two.", said).entries
    assert (one.room, one.component, one.condition, one.quantity) == ("bedroom.2", "window_sill", "chip", 2)
    assert one.where == "on the left end"
    assert one.size is not None
    assert (one.size.value, one.size.unit) == (0.25, "in")
