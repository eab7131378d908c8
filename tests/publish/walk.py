"""A small walk, written by hand, for the tests of what is printed."""

from __future__ import annotations

from typing import Any

from narrate2report.records.findings import Entry, Evidence, Findings
from narrate2report.records.moments import fragment

SEAL = {
    "sha256": "5" * 64,
    "sealed_at": "2026-03-07T10:00:00Z",
    "sealed_by": "Ida Pell",
    "statement": "so",
    "files": [],
}
"""A seal in its form, that matches nothing."""


def evidence(start: float, quote: str = "said so", clip: str = "walk.mp4") -> Evidence:
    return Evidence(
        recording=clip,
        start=start,
        end=start + 3,
        sentences=("s1",),
        quote=quote,
        link=fragment(clip, start, start + 3),
    )


def entry(**fields: Any) -> Entry:
    told = {
        "id": "e1",
        "kind": "condition",
        "room": "kitchen",
        "component": "countertop",
        "condition": "chip",
        "assertion": "present",
        "evidence": (evidence(75.3),),
        "confidence": 0.8,
        "because": ("'chip' said of the countertop",),
    }
    if fields.get("kind", "condition") != "condition":
        del told["condition"], told["assertion"]
    return Entry.model_validate(told | fields)


def findings(*entries: Entry, **parts: Any) -> Findings:
    whole: dict[str, Any] = {
        "walkthrough": {"unit": [{"value": "2B", "source": "given"}]},
        "recordings": [{"file": "walk.mp4", "sha256": "a" * 64, "bytes": 9, "duration_s": 200.0}],
        "transcript": {
            "engine": "timed notes",
            "model": None,
            "model_sha256": None,
            "language": "en",
            "vocabulary_version": "0" * 64,
            "time_precision": "line",
        },
        "entries": entries,
        "rooms": [],
        "coverage": [],
        "unused": [],
    }
    return Findings.model_validate(whole | parts)
