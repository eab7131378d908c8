"""A record with the same text in every field that holds words, found by trying each of them."""

from __future__ import annotations

import copy
from collections.abc import Iterator
from functools import cache
from typing import Any

from pydantic import ValidationError

from narrate2report.records.files import record_json
from narrate2report.records.findings import (
    Acknowledged,
    Amended,
    Attribute,
    Coverage,
    Decision,
    Findings,
    Heard,
    RoomVisit,
    Seal,
    SealedFile,
    Size,
    Still,
    Unused,
)
from narrate2report.records.transcript import Gap
from tests.publish.walk import entry, evidence, findings

SHA = "b" * 64
STILL = Still(file="walk.stills/b.png", recording="walk.mp4", time=76.0, sha256=SHA)
AT = "2026-03-06T12:00:00Z"
BY = Decision(by="Ida Pell", at=AT, why="seen")
Path = tuple[str | int, ...]


def full() -> Findings:
    """A record in which every kind of entry and every part of a record stands, every field filled."""
    told: dict[str, Any] = {"note": "a note", "where": "by the sink", "state": "accepted", "decided": BY}
    told |= {"evidence": (evidence(5, "said so"),), "size": Size(text="an inch", value=1.0, unit="in")}
    told |= {"heard": (Heard(heard="cock", read="caulk", why="sounds alike", sureness=0.5),), "severity": "slight"}
    source = [{"value": "given so", "source": "given"}]
    acknowledged = Acknowledged(looked="not_looked_at", note="too dark", by="Ida Pell", at=AT)
    sealed = SealedFile(role="recording", file="walk.mp4", sha256="a" * 64, bytes=9)
    return findings(
        entry(id="a", stills=(STILL,), merged_into="b", split_from="c", **told),
        entry(id="b", kind="advice", **told),
        entry(id="c", kind="description", attribute=Attribute(name="type", value="gas"), **told),
        entry(id="d", kind="handover", component="key", quantity=2, direction="given", **told),
        entry(id="e", kind="follow_up", action="clean", party="resident", **told),
        entry(id="f", kind="check", outcome="not_tested", component="smoke_alarm", **told),
        entry(id="g", room="whole_unit", component="furniture", assertion="possible", **told),
        walkthrough={
            "kind": source, "unit": source, "residents": source, "inspector": source, "date": source,
            "clashes": ["unit: 2B (given), 2D (spoken at 0:06)"],
        },
        recordings=[
            {
                "file": "walk.mp4", "sha256": "a" * 64, "bytes": 9, "recorded_at": AT, "duration_s": 200.0,
                "device": "a phone", "location": "+00+000/", "tracks": [{"kind": "audio", "codec": "aac"}],
            }
        ],
        transcript={
            "engine": "timed notes", "model": "small", "model_sha256": "c" * 64, "language": "en",
            "vocabulary_version": "0" * 64, "time_precision": "line", "warnings": ["very quiet"],
            "gaps": [Gap(recording="walk.mp4", start=3, end=5)],
        },
        rooms=[RoomVisit(room="kitchen", recording="walk.mp4", start=0, end=90)],
        unused=[Unused(id="s", recording="walk.mp4", start=1, end=2, text="Okay.", reason="talk", because="talk")],
        coverage=[
            Coverage(room="kitchen", component="sink", status="not_noted"),
            Coverage(room="kitchen", component="oven", status="not_noted", acknowledged=acknowledged),
        ],
        amends=Amended(file="earlier.findings.json", sha256="d" * 64),
        seal=Seal(sha256="e" * 64, sealed_at=AT, sealed_by="Ida Pell", statement="It is so.", files=(sealed,)),
    )  # fmt: skip


def injected(text: str) -> Findings:
    """The full record with `text` in every field that takes any text."""
    content = record_json(full())
    for path in free_fields():
        put(content, path, text)
    return Findings.model_validate(content)


@cache
def free_fields() -> tuple[Path, ...]:
    """The fields that take any words: all but ids of a fixed set, hashes and the language."""
    whole = record_json(full())
    return tuple(path for path in texts(whole) if path[-1] != "language" and _takes_any(whole, path))


def _takes_any(whole: dict[str, object], path: Path) -> bool:
    tried = copy.deepcopy(whole)
    put(tried, path, "any words")
    try:
        Findings.model_validate(tried)
    except ValidationError:
        return False
    return True


def texts(content: object, at: Path = (), *, blank: bool = False) -> Iterator[Path]:
    """Where each text stands in a JSON value; with `blank`, also each nothing in the place of one."""
    if isinstance(content, str) or (blank and content is None):
        yield at
    steps = content.items() if isinstance(content, dict) else enumerate(content) if isinstance(content, list) else ()
    for step, value in steps:
        yield from texts(value, (*at, step), blank=blank)


def put(content: Any, path: Path, text: str | None) -> Any:
    """Set what stands at a place, and give what stood there before."""
    for step in path[:-1]:
        content = content[step]
    before, content[path[-1]] = content[path[-1]], text
    return before
