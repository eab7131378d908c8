"""The walk in time: what is drawn is what is told in words, in its place, within its width."""

from __future__ import annotations

from typing import Any
from xml.etree.ElementTree import Element, fromstring

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from narrate2report.publish.report_values import Lane, Spot, Tick, Timeline
from narrate2report.publish.report_whole import Around, telling_of
from narrate2report.publish.timeline import timeline_of
from narrate2report.publish.timeline_svg import TALLEST, as_file, drawn
from narrate2report.records.findings import Findings, RoomVisit
from tests.publish.walk import entry, evidence, findings

MARKS = ("attention", "fails", "possible", "untested", "works", "sound", "work", "fact")


def visit(room: str, start: float, end: float, clip: str = "walk.mp4") -> RoomVisit:
    return RoomVisit(room=room, recording=clip, start=start, end=end)


def line(record: Findings) -> Timeline:
    return timeline_of(telling_of(record, "resident", Around()))


def timeline(spots: list[Spot], length: float = 200.0, lanes: int = 1) -> Timeline:
    made = tuple(Lane(f"Room {number}", ((0.0, length),), tuple(spots), "0:00", "told") for number in range(lanes))
    return Timeline(length, made, (Tick(0.0, "0:00"), Tick(length / 2, "1:40")), "The walk", "It went.")


def shapes(picture: Element) -> list[Element]:
    return [one for one in picture.iter() if one.tag in {"polygon", "circle", "path"} or one.get("width") in {"5", "7"}]


def test_each_room_has_its_stays_and_entries_in_words() -> None:
    record = findings(
        entry(id="a", evidence=(evidence(10),)),
        entry(id="b", evidence=(evidence(20),), kind="check", outcome="works", component="oven"),
        entry(id="c", evidence=(evidence(30),), room="bedroom.2", component="wall"),
        entry(id="d", evidence=(evidence(40),), state="dropped"),
        rooms=[visit("kitchen", 5, 25), visit("bedroom.2", 25, 50), visit("kitchen", 60, 70)],
    )
    lanes = line(record).lanes
    assert [(one.room, one.times, one.told) for one in lanes] == [
        ("Kitchen", "0:05–0:25, 1:00–1:10", "Needs attention: 1, Works: 1"),
        ("Bedroom 2", "0:25–0:50", "Needs attention: 1"),
    ]
    assert [spot.at_s for spot in lanes[0].spots] == [10, 20]


def test_recordings_stand_one_after_the_other() -> None:
    clips: list[dict[str, Any]] = [
        {"file": "a.mp4", "sha256": "a" * 64, "bytes": 9, "duration_s": 100.0},
        {"file": "b.mp4", "sha256": "b" * 64, "bytes": 9, "duration_s": 50.0},
    ]
    record = findings(
        entry(evidence=(evidence(20, clip="b.mp4"),)), recordings=clips, rooms=[visit("kitchen", 10, 40, "b.mp4")]
    )
    told = line(record)
    assert told.length_s == 150
    assert told.lanes[0].spots[0].at_s == 120
    assert list(told.lanes[0].stays_s) == [(110, 140)]
    assert told.lanes[0].times == "b.mp4 0:10–0:40"
    assert [(one.at_s, one.file) for one in told.ticks if one.file] == [(0, "a.mp4"), (100, "b.mp4")]


def test_work_of_others_is_on_no_residents_timeline() -> None:
    work = entry(id="w", kind="follow_up", action="repair", party="owner")
    assert not line(findings(work)).lanes


def test_a_record_of_nothing_has_no_picture() -> None:
    assert not drawn(line(findings()), 480)


@given(
    st.lists(st.builds(Spot, st.floats(0, 1e5), st.sampled_from(MARKS)), max_size=60),
    st.sampled_from([340.0, 482.0, 760.0]),
    st.integers(1, 60),
)
@settings(max_examples=60)
def test_every_entry_is_drawn_or_counted_within_the_width_and_height(
    spots: list[Spot], width: float, lanes: int
) -> None:
    told = timeline(spots, length=max([1.0, *(spot.at_s for spot in spots)]), lanes=lanes)
    pictures = drawn(told, width)
    texts = [one.text or "" for picture in pictures for one in picture.iter("text")]
    counted = sum(int(text[1:]) for text in texts if text.startswith("+"))
    assert sum(len(shapes(picture)) for picture in pictures) + counted == len(spots) * lanes
    for picture in pictures:
        assert float(picture.get("height", "inf")) <= TALLEST
        for one in picture.iter():
            for name in ("x", "cx", "x1", "x2"):
                assert 0 <= float(one.get(name, "0")) <= width


@pytest.mark.parametrize("width", [340.0, 482.0])
def test_no_two_marks_look_alike_without_their_colour(width: float) -> None:
    told = timeline([Spot(number * 20.0, mark) for number, mark in enumerate(MARKS)])  # type: ignore[arg-type]
    (picture,) = drawn(told, width)
    drawn_as = {(one.tag, one.get("fill") == "none", one.get("r"), one.get("width")) for one in shapes(picture)}
    assert len(drawn_as) == len(MARKS)


@given(st.text(st.characters(exclude_categories=("Cs", "Cc")), max_size=200))
def test_any_name_of_a_room_stays_text(name: str) -> None:
    told = Timeline(10.0, (Lane(name, (), (), "", ""),), (Tick(0, "0:00", name),), name, name)
    (picture,) = drawn(told, 482)
    assert {one.tag.rpartition("}")[2] for one in fromstring(as_file(picture)).iter()} == {"svg", "g", "line", "text"}
