"""A walk of two clips, made by hand so that it is there at once, and any decision that can be asked about it."""

from __future__ import annotations

import hashlib
from pathlib import Path
from typing import Any

from hypothesis import strategies as st

from narrate2report.errors import BadInput
from narrate2report.records.files import write_record
from narrate2report.records.findings import Entry, Evidence, Findings, Still
from narrate2report.records.moments import fragment
from narrate2report.review import requests as ask
from narrate2report.review.desk import Desk
from tests.publish import walk

ONE, TWO = "one.mp4", "two.mp4"
LENGTH_S = 90.0
NOW = "2026-03-06T10:00:00.000Z"
WHO = "Ida Pell"


def said(number: int, clip: str, start: float, quote: str) -> Evidence:
    """A sentence that gave an entry."""
    return Evidence(
        recording=clip,
        start=start,
        end=start + 3,
        sentences=(f"s{number:04d}",),
        quote=quote,
        link=fragment(clip, start, start + 3),
    )


def entries() -> tuple[Entry, ...]:
    return (
        walk.entry(id="e1", evidence=(said(1, ONE, 4, "The counter is chipped."),)),
        walk.entry(id="e2", component="sink", condition="crack", evidence=(said(2, ONE, 9, "A crack in the sink."),)),
        walk.entry(id="e3", kind="check", component="oven", outcome="works", evidence=(said(4, ONE, 20, "It heats."),)),
        walk.entry(id="e4", room="bathroom", component="tub", evidence=(said(5, ONE, 30, "The tub is chipped."),)),
        walk.entry(id="e5", room="bathroom", component="tub", evidence=(said(6, TWO, 2, "That chip in the tub."),)),
        walk.entry(id="e6", kind="handover", component="key", direction="given", evidence=(said(7, TWO, 9, "A key."),)),
    )


def draft() -> Findings:
    def unused(number: int, clip: str, start: float) -> dict[str, Any]:
        told = {"text": f"What was said as number {number}.", "reason": "talk", "because": "nothing in it"}
        return {"id": f"s{number:04d}", "recording": clip, "start": start, "end": start + 2, **told}

    return walk.findings(
        *entries(),
        recordings=[{"file": clip, "sha256": "a" * 64, "bytes": 9, "duration_s": LENGTH_S} for clip in (ONE, TWO)],
        rooms=[
            {"room": room, "recording": ONE, "start": start, "end": start + 25}
            for room, start in (("kitchen", 0), ("bathroom", 25))
        ],
        unused=[unused(3, ONE, 14), unused(8, TWO, 15), unused(9, TWO, 20)],
        coverage=[
            {"room": "kitchen", "component": "sink", "status": "noted"},
            {"room": "kitchen", "component": "floor", "status": "not_noted"},
            {"room": "bathroom", "component": "mirror", "status": "not_noted"},
        ],
    )


def written(folder: Path) -> Path:
    """The findings file of this walk."""
    place = folder / "walk.findings.json"
    write_record(place, draft())
    return place


class PaperCamera:
    """Takes pictures that exist on paper only; there is none after 80 s."""

    def take(self, findings: Findings, wanted: ask.TakeStill) -> Still:
        entry = next((one for one in findings.entries if one.id == wanted.entry), None)
        if entry is None or (wanted.at or 0) > 80:
            raise BadInput("there is no picture at that moment")
        time = entry.evidence[0].start + 0.5 if wanted.at is None else wanted.at
        sha256 = hashlib.sha256(f"{entry.evidence[0].recording} {time}".encode()).hexdigest()
        recording = entry.evidence[0].recording
        return Still(file=f"walk.stills/{sha256[:16]}.jpg", recording=recording, time=time, sha256=sha256)


def opened(findings: Path) -> Desk:
    desk = Desk(findings, now=lambda: NOW)
    desk.camera = PaperCamera()
    return desk


def record_of(desk: Desk) -> Findings:
    """The record as it stands."""
    return desk.findings


_facts = st.one_of(
    st.builds(ask.Facts, condition=st.sampled_from(["chip", "crack", "stain", None])),
    st.builds(ask.Facts, assertion=st.sampled_from(["present", "absent", "possible"])),
    st.builds(ask.Facts, kind=st.sampled_from(["check", "condition"]), outcome=st.sampled_from(["works", "fails"])),
    st.builds(ask.Facts, kind=st.sampled_from(["advice", "description", "follow_up"])),
    st.builds(ask.Facts, room=st.sampled_from(["kitchen", "bathroom.2", None]), component=st.just("wall")),
    st.builds(ask.Facts, where=st.sampled_from(["on the left", ""]), severity=st.sampled_from(["slight", None])),
    st.builds(ask.Facts, size=st.sampled_from(["an inch", ""]), quantity=st.sampled_from([2, None])),
    st.builds(ask.Facts, note=st.text("ab ", max_size=5), pre_existing=st.booleans()),
    st.builds(ask.Facts, start=st.floats(0, 100), end=st.floats(0, 100)),
    st.builds(ask.Facts, start=st.floats(0, 30)),
)
_new = st.builds(
    ask.Facts,
    kind=st.sampled_from(["condition", "check", None]),
    component=st.sampled_from(["sink", "wall", None]),
    condition=st.just("chip"),
    outcome=st.just("works"),
    start=st.sampled_from([None, 3.0, 40.0]),
)


def requests(desk: Desk) -> st.SearchStrategy[ask.Request]:
    """Anything that can be asked of the walk as it stands, sensible or not."""
    one = st.sampled_from([*(entry.id for entry in desk.findings.entries), "e404"])
    some = st.lists(one, min_size=1, max_size=3).map(tuple)
    pictures = [still.sha256 for entry in desk.findings.entries for still in entry.stills]
    sentences = st.lists(st.sampled_from([sentence.id for sentence in desk.spine]), max_size=2).map(tuple)
    stretch = st.builds(ask.Stretch, recording=st.sampled_from([ONE, "none.mp4"]), start=st.just(5), end=st.just(9))
    gap = st.builds(
        ask.Gap, room=st.sampled_from(["kitchen", "bathroom"]), component=st.sampled_from(["floor", "mirror"])
    )
    moments = st.sampled_from([None, 1.5, 2.5, 85.0])
    return st.one_of(
        st.builds(ask.Accept, entries=some),
        st.builds(ask.Drop, entries=some, why=st.sampled_from([None, "not so"])),
        st.builds(ask.Withdraw, entry=one, why=st.just("it was the other one")),
        st.builds(ask.Reopen, entries=some),
        st.builds(ask.Change, entry=one, facts=_facts),
        st.builds(ask.Add, sentences=sentences, stretch=st.none() | stretch, facts=_new),
        st.builds(ask.Merge, entries=st.lists(one, min_size=2, max_size=3).map(tuple)),
        st.builds(ask.Split, entry=one),
        st.builds(ask.TakeStill, entry=one, at=moments),
        st.builds(ask.RemoveStill, entry=one, sha256=st.sampled_from([*pictures, "0" * 64])),
        st.builds(
            ask.Acknowledge,
            gaps=st.lists(gap, min_size=1, max_size=2).map(tuple),
            looked=st.sampled_from(["not_looked_at", "looked_at_since", "left_not_noted"]),
            note=st.sampled_from([None, "it is clean"]),
        ),
        st.just(ask.Undo()),
        st.just(ask.Redo()),
    )
