"""What was learnt from reviewed walks makes the reading of other walks better."""

from __future__ import annotations

from pathlib import Path

from tests.learn.splits import split_of
from tests.learn.thinned import Word

NARRATIONS = Path(__file__).parents[1] / "narrations"
TAUGHT = (
    "z1_movein_south",
    "n7_furnished_movein",
    "u2_leasing_onebed",
    "w1_onebed_leasing",
)
HELD = ("u3_terrace_movein", "x3_british_checkin", "z3_student_hurried")
OUT = [
    Word("components", "ceiling", "say", "ceiling"),
    Word("components", "microwave", "say", "microwave"),
    Word("components", "toilet", "say", "toilet"),
]


def test_walks_that_nobody_reviewed_are_read_better_with_what_others_taught() -> None:
    taught, held = ([NARRATIONS / f"{name}.txt" for name in names] for names in (TAUGHT, HELD))
    made = split_of(taught, held, OUT)
    assert made.rise > 0.02
    assert made.everything[1] > made.everything[0]
    assert made.known >= 1
