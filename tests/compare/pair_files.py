"""Hand-marked pairs of walks, kept as short lines, made into records in the contract's plain form.

A line is `NUMBER COMPONENT WHAT [xCOUNT] [~SIZE] [@place@] [SEVERITY] [absent|possible] [pre] | QUOTE`, where WHAT is a
condition, `works`, `fails`, `not_tested`, `handover:given`, `desc:material=oak`, `advice` or `follow_up:repair`.
A gold line is `OUTCOME[/ACCEPTED...] BEFORE > AFTER` with numbers of entries; with `?` in front it is neither asked for
nor punished.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path
from typing import Any

HERE = Path(__file__).parent / "pairs"
_PLACE = re.compile(r"@([^@]+)@")
_SIZE = re.compile(r"~([\d.]+)(in|ft|cm|mm|m)$")
_LINE_S = 3.0


@dataclass(frozen=True)
class MarkedPair:
    """Two walks as JSON, and what became of every flaw as it was marked by hand."""

    name: str
    before: dict[str, Any]
    after: dict[str, Any]
    gold: list[dict[str, Any]]


def load_pair(path: Path) -> MarkedPair:
    text = path.read_text(encoding="utf-8")
    unit = re.search(r"^unit: (.+)$", text, re.MULTILINE)
    found = re.search(r"^before: (.+?)$(.+)^after: (.+?)$(.+)^gold:$(.+)", text, re.MULTILINE | re.DOTALL)
    assert unit is not None, path
    assert found is not None, path
    before, lines_before, after, lines_after, gold = found.groups()
    return MarkedPair(
        path.stem,
        walk_of(unit[1], before, lines_before, "in.mp4"),
        walk_of(unit[1], after, lines_after, "out.mp4"),
        [_gold(line) for line in gold.strip().splitlines()],
    )


def walk_of(unit: str, head: str, lines: str, file: str) -> dict[str, Any]:
    kind, date = head.split()
    entries: list[dict[str, Any]] = []
    rooms: list[dict[str, Any]] = []
    quoted: dict[str, float] = {}
    now = 0.0
    for line in map(str.strip, lines.strip().splitlines()):
        if line.startswith("["):
            rooms.append({"room": line.strip("[]"), "recording": 0, "start": now, "end": now + 1})
            quoted = {}
            continue
        fields, _, quote = line.partition(" | ")
        # What is told in one sentence has one time.
        start = quoted.setdefault(quote, now)
        entries.append(_entry(fields, quote, rooms[-1]["room"], start, file))
        now += _LINE_S
    recording = {"file": file, "sha256": ("a" if file == "in.mp4" else "b") * 64, "duration_s": now + 1}
    return {
        "schema": "narrate2report/findings/1",
        "walkthrough": {"kind": kind, "unit": unit, "date": date},
        "recordings": [recording],
        "transcript": {},
        "entries": entries,
        "rooms": rooms,
        "coverage": [],
        "unused": [],
    }


def _entry(fields: str, quote: str, room: str, start: float, file: str) -> dict[str, Any]:
    place = _PLACE.search(fields)
    number, component, what, *details = _PLACE.sub("", fields).split()
    end = start + _LINE_S - 0.5
    evidence = {
        "recording": 0,
        "start": start,
        "end": end,
        "sentences": [int(start)],
        "quote": quote,
        "link": f"{file}#t={start:.2f},{end:.2f}",
    }
    sizes = [size for one in details if (size := _SIZE.match(one))]
    return {
        "id": f"f-{int(number):04d}",
        "room": room,
        "component": component,
        **_what(what, details),
        "quantity": next((int(one[1:]) for one in details if re.fullmatch(r"x\d+", one)), None),
        "where": place[1] if place else None,
        "size": {"value": float(sizes[0][1]), "unit": sizes[0][2], "text": sizes[0][0][1:]} if sizes else None,
        "severity": next((one for one in details if one in ("slight", "moderate", "severe")), None),
        "pre_existing": "pre" in details,
        "evidence": [evidence],
        "heard": [],
        "confidence": 0.8,
        "because": [],
        "state": "accepted",
    }


def _what(what: str, details: list[str]) -> dict[str, Any]:
    kind, _, value = what.partition(":")
    if what in ("works", "fails", "not_tested"):
        return {"kind": "check", "outcome": what}
    if kind == "handover":
        return {"kind": kind, "direction": value}
    if kind == "desc":
        name, _, told = value.partition("=")
        return {"kind": "description", "attribute": {"name": name, "value": told}}
    if kind == "follow_up":
        return {"kind": kind, "action": value, "party": "manager"}
    if kind == "advice":
        return {"kind": kind}
    assertion = next((one for one in details if one in ("absent", "possible")), "present")
    return {"kind": "condition", "condition": what, "assertion": assertion}


def _gold(line: str) -> dict[str, Any]:
    outcomes, _, ids = line.removeprefix("?").partition(" ")
    before, _, after = ids.partition(">")
    outcome, *accepted = outcomes.split("/")
    return {
        "outcome": outcome,
        "alternatives": accepted,
        "before": _ids(before),
        "after": _ids(after),
        "optional": line.startswith("?"),
    }


def _ids(numbers: str) -> list[str]:
    return [f"f-{int(number):04d}" for number in numbers.split()]
