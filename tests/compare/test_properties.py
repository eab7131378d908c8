"""What holds for any two walks: nothing is lost, nothing is told twice, and order is no matter."""

from __future__ import annotations

import random
from collections import Counter
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from narrate2report.records.canonical import readable_bytes
from narrate2report.records.files import record_json
from narrate2report.records.findings import Entry, Findings
from tests.compare.pair_files import HERE, load_pair
from tests.compare.walks import compared, walk

ROOMS = (
    "kitchen",
    "bedroom.1",
    "bedroom.2",
    "bedroom.back",
    "bathroom",
    "bathroom.hall",
    "yard",
    "patio",
    "whole_unit",
)
COMPONENTS = (
    "wall",
    "floor",
    "carpet",
    "tile",
    "refrigerator",
    "door_gasket",
    "furniture",
    "fence",
    "key",
    "room_general",
)
CONDITIONS = (
    "scuff",
    "scratch",
    "mark",
    "stain",
    "discoloration",
    "hole",
    "nail_hole",
    "patched",
    "missing",
    "tear",
    "leak",
)
SOUND = ("good", "clean", "repaired")
PLACES = (
    None,
    "by the door",
    "at the doorway",
    "left of the window",
    "right of the window",
    "over the bed",
    "by the blorf",
)
QUOTES = ("Here.", "That one again.", "Another one.", "It is worse, all over.", "Only one scuff.", "It hasn't grown.")

SIZES = st.fixed_dictionaries(
    {"value": st.floats(0.1, 90), "unit": st.sampled_from(["in", "cm", "parsec"]), "text": st.just("so large")}
)
EVIDENCE = st.fixed_dictionaries(
    {"recording": st.just(0), "start": st.integers(0, 9), "end": st.just(10), "quote": st.sampled_from(QUOTES)}
)


def _drawn(draw: st.DrawFn, name: str) -> dict[str, Any]:
    kind = draw(st.sampled_from(["condition", "condition", "condition", "check", "description"]))
    facts: dict[str, Any] = {"kind": kind}
    if kind == "condition":
        facts |= {"condition": draw(st.sampled_from(CONDITIONS + SOUND))}
        facts |= {"assertion": draw(st.sampled_from(["present", "present", "absent", "possible"]))}
    elif kind == "check":
        facts |= {"outcome": draw(st.sampled_from(["works", "fails", "not_tested"]))}
    else:
        facts |= {"attribute": {"name": "material", "value": "oak"}}
    return facts | {
        "id": name,
        "room": draw(st.sampled_from(ROOMS)),
        "component": draw(st.sampled_from(COMPONENTS)),
        "quantity": draw(st.none() | st.integers(0, 9)),
        "where": draw(st.sampled_from(PLACES)),
        "size": draw(st.none() | SIZES),
        "severity": draw(st.sampled_from([None, "slight", "moderate", "severe"])),
        "pre_existing": draw(st.booleans()),
        "state": draw(st.sampled_from(["accepted", "accepted", "changed", "dropped"])),
        "evidence": [draw(EVIDENCE)],
    }


@st.composite
def walks(draw: st.DrawFn, letter: str = "f") -> Findings:
    entries = [_drawn(draw, f"{letter}-{number:04d}") for number in range(draw(st.integers(0, 9)))]
    return walk(
        {
            "schema": "narrate2report/findings/1",
            "walkthrough": {"unit": "1"},
            "recordings": [{"file": "walk.mp4"}],
            "entries": entries,
        }
    )


def flaws(findings: Findings) -> list[str]:
    return [entry.id for entry in findings.entries if entry.state != "dropped" and entry.is_adverse]


@given(walks(), walks())
@settings(max_examples=60)
def test_every_flaw_of_either_walk_stands_in_exactly_one_change(before: Findings, after: Findings) -> None:
    comparison = compared(before, after)
    for side, findings in (("before", before), ("after", after)):
        told = Counter(one for change in comparison.changes for one in getattr(change, side))
        assert told == Counter(flaws(findings))
    assert len({change.id for change in comparison.changes}) == len(comparison.changes)


@given(walks(), walks())
@settings(max_examples=60)
def test_which_side_tells_of_a_flaw_fits_what_became_of_it(before: Findings, after: Findings) -> None:
    for change in compared(before, after).changes:
        assert bool(change.before) == (change.outcome not in ("new", "no_baseline"))
        assert bool(change.after) == (change.outcome not in ("gone", "not_mentioned"))
        assert all(why.strip().endswith((".", ".”", "!”", "?”")) for why in change.because)


@given(walks())
@settings(max_examples=60)
def test_a_walk_beside_itself_is_unchanged(findings: Findings) -> None:
    assert {change.outcome for change in compared(findings, findings).changes} <= {"unchanged"}


@given(walks("b"), walks("a"))
@settings(max_examples=60)
def test_what_is_told_once_is_told_once_when_the_sides_are_swapped(before: Findings, after: Findings) -> None:
    """What has no partner and what it is silent about do not hang on which walk was first."""
    mirror = {"gone": "new", "not_mentioned": "no_baseline", "new": "gone", "no_baseline": "not_mentioned"}
    forth = {change.before + change.after: change.outcome for change in compared(before, after).changes}
    back = {change.before + change.after: change.outcome for change in compared(after, before).changes}
    for ids, outcome in forth.items():
        if outcome in mirror and back.get(ids) in mirror:
            assert back[ids] == mirror[outcome]


@given(walks(), walks(), st.randoms(use_true_random=False))
@settings(max_examples=60)
def test_the_order_of_entries_in_a_file_is_no_matter(
    before: Findings, after: Findings, shuffler: random.Random
) -> None:
    def shuffled(findings: Findings) -> Findings:
        entries: list[Entry] = list(findings.entries)
        shuffler.shuffle(entries)
        return findings.model_copy(update={"entries": tuple(entries)})

    assert _bytes(before, after) == _bytes(shuffled(before), shuffled(after))


def test_growth_is_mirrored_when_the_sides_are_swapped() -> None:
    """Of hand-marked pairs: what is more one way is less the other way, or not plainly so."""
    mirror = {"worse": {"better", "unchanged"}, "better": {"worse", "unchanged"}}
    for path in HERE.glob("*.txt"):
        pair = load_pair(path)
        before, after = walk(pair.before), walk(pair.after)
        forth = {(c.before, c.after): c.outcome for c in compared(before, after).changes if c.before and c.after}
        back = {(c.after, c.before): c.outcome for c in compared(after, before).changes if c.before and c.after}
        both = forth.keys() & back.keys()
        assert len(both) >= len(forth) / 2
        for pairing in both:
            assert back[pairing] in mirror.get(forth[pairing], {"unchanged", "better", "worse"})


def _bytes(before: Findings, after: Findings) -> bytes:
    return readable_bytes(record_json(compared(before, after)))
