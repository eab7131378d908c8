"""What was learnt from reviewed walks makes the reading of other walks better."""

from __future__ import annotations

from pathlib import Path

from tests.learn.splits import split_of
from tests.learn.thinned import Word

NARRATIONS = Path(__file__).parents[1] / "narrations"
TAUGHT = ("z1_movein_south", "u2_leasing_onebed", "w1_onebed_leasing", "n1_movein_apartment", "v1_duplex_movein")
HELD = ("w6_unpunctuated_townhouse", "w2_duplex_moveout", "y1_loft_movein", "x3_british_checkin")
OUT = [
    Word("components", "toilet", "say", "toilet"),
    Word("components", "refrigerator", "say", "fridge"),
    Word("components", "dishwasher", "say", "dishwasher"),
    Word("components", "mirror", "say", "mirror"),
    Word("components", "ceiling", "say", "ceiling"),
]


def test_walks_that_nobody_reviewed_are_read_better_with_what_others_taught() -> None:
    taught, held = ([NARRATIONS / f"{name}.txt" for name in names] for names in (TAUGHT, HELD))
    made = split_of(taught, held, OUT)
    assert made.rise > 0.04
    assert made.everything[1] > made.everything[0]
    assert made.known >= 1
