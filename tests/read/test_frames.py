"""Ordinary ways to say what is said on a walk, written as frames by hands that had not seen the rules.

`{c}` stands for a component, `{a}` and `{n}` for damage. Each frame is filled with another component and flaw and read
by itself. What is not read yet is told by the failing share, so a share may only rise.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Final

import pytest

from narrate2report.records.findings import SOUND, Entry
from tests.read.told import Narrator

FRAMES: Final = Path(__file__).parent / "data" / "frames.tsv"

SEEN: Final = (
    ("fridge", {"refrigerator"}, "kitchen"), ("carpet", {"carpet"}, "bedroom"), ("mirror", {"mirror"}, "bathroom"),
    ("worktop", {"countertop"}, "kitchen"), ("skirting board", {"baseboard"}, "living room"),
    ("front door", {"door"}, "entry"), ("toilet", {"toilet"}, "bathroom"), ("ceiling", {"ceiling"}, "living room"),
)  # fmt: skip
TRIED: Final = (
    ("dishwasher", {"dishwasher"}, "kitchen"), ("ceiling fan", {"ceiling_fan"}, "bedroom"),
    ("oven", {"oven"}, "kitchen"),
    ("radiator", {"radiator"}, "bedroom"), ("extractor fan", {"exhaust_fan", "range_hood"}, "kitchen"),
    ("washing machine", {"washer"}, "laundry"), ("garage door", {"garage_door"}, "garage"),
)  # fmt: skip
FLAWS: Final = (("scratched", "scratch"), ("cracked", "crack"), ("stained", "stain"), ("dented", "dent"))


def is_well(one: Entry) -> bool:
    """Whether it tells that a thing is sound, or lacks a flaw."""
    return one.assertion == "absent" or one.condition in SOUND or one.outcome == "works"


@dataclass(frozen=True)
class Wanted:
    """What a frame must give: `of` is asked of the entries on its component, `none` of all."""

    least: float
    """The share of frames that are read right."""
    of: Callable[[Entry, str], bool] | None = None
    none: Callable[[Entry], bool] | None = None
    things: tuple[tuple[str, set[str], str], ...] = SEEN


WANTED: Final = {
    "cond": Wanted(0.85, lambda one, flaw: one.is_adverse and one.condition == flaw),
    "works": Wanted(0.875, lambda one, _: one.outcome == "works" or one.condition == "good", things=TRIED),
    "fails": Wanted(0.925, lambda one, _: one.is_adverse, things=TRIED),
    "untested": Wanted(0.85, lambda one, _: one.outcome == "not_tested", things=TRIED),
    "follow": Wanted(0.84, lambda one, _: one.kind == "follow_up"),
    "advice": Wanted(0.845, lambda one, _: one.kind == "advice"),
    "sound": Wanted(0.925, lambda one, _: is_well(one), lambda one: one.is_adverse),
    "none_a": Wanted(0.92, none=lambda one: one.is_adverse),
    "none_w": Wanted(0.93, none=lambda one: one.kind == "follow_up"),
}


def frames() -> Iterator[tuple[str, str]]:
    """Kind and words of each frame."""
    for line in FRAMES.read_text(encoding="utf-8").splitlines():
        if "\t" in line:
            kind, _, words = line.partition("\t")
            yield kind, words


@pytest.mark.parametrize("kind", WANTED)
def test_ordinary_ways_to_say_it_are_read(kind: str, entries: Narrator) -> None:
    wanted, asked = WANTED[kind], 0
    failed: list[str] = []
    for number, (told, words) in enumerate(frames()):
        if told != kind:
            continue
        thing, components, room = wanted.things[number % len(wanted.things)]
        adjective, flaw = FLAWS[number % len(FLAWS)]
        large = {"C": thing[0].upper() + thing[1:], "A": adjective.title(), "N": flaw.title()}
        said = words.format(c=thing, a=adjective, n=flaw, **large)
        read = entries(said, room=room).entries
        found = wanted.of is None or any(one.component in components and wanted.of(one, flaw) for one in read)
        spared = wanted.none is None or not any(wanted.none(one) for one in read)
        asked += 1
        if not (found and spared):
            failed.append(said)
    assert asked > len(FLAWS)
    share = 1 - len(failed) / asked
    assert share >= wanted.least, f"{share:.3f} of {asked} are read, not these:\n" + "\n".join(failed)
