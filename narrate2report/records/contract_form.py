"""A findings file in the plain form of the contract, as other programs may write it, made whole.

In that form a fact of the header is one plain value, a recording is named by its number, ids of sentences may be
numbers, and what was not kept is left out. What is filled in says so, and nothing is made up: a size of 0 bytes means
that none was told, an entry without reasons gets the one that its file tells none. A seal is left out: only this
program's own form can be checked against one.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Final, get_args

from narrate2report.records.findings import Party
from narrate2report.records.moments import fragment

_SOURCE: Final = "as its file says"
_UNTOLD: Final = "its file tells no reason"
_NO_HASH: Final = "0" * 64
_HEADER = ("kind", "unit", "residents", "inspector", "date")
_FACTS: Final = {
    "engine": "not told",
    "model": None,
    "model_sha256": None,
    "language": "not told",
    "vocabulary_version": _NO_HASH,
    "time_precision": "line",
}


def is_contract_form(content: object) -> bool:
    """Whether parsed JSON holds a record whose header is plain values, and no list of clashes as in our own."""
    if not isinstance(content, dict) or not isinstance(content.get("entries"), list):
        return False
    walk = content.get("walkthrough", {})
    return isinstance(walk, dict) and "clashes" not in walk


def completed(content: Mapping[str, Any]) -> dict[str, Any]:
    """The same record with every field that this program's own form has; fields that it does not know are left out."""
    recordings = [_recording(one) for one in content.get("recordings") or []]
    files = [one["file"] for one in recordings]
    return {
        "schema": content.get("schema"),
        "walkthrough": _header(content.get("walkthrough") or {}),
        "recordings": recordings,
        "transcript": _FACTS | _known(content.get("transcript") or {}, _FACTS),
        "entries": [_entry(one, files) for one in content["entries"]],
        "rooms": [_visit(one, files) for one in content.get("rooms") or []],
        "coverage": content.get("coverage") or [],
        "unused": [],
        "seal": None,
    }


def _header(walk: Mapping[str, Any]) -> dict[str, Any]:
    return {name: [_sourced(one) for one in _listed(walk.get(name))] for name in _HEADER}


def _sourced(value: object) -> object:
    return value if isinstance(value, dict) else {"value": str(value), "source": _SOURCE}


def _listed(value: Any) -> list[Any]:
    if value is None:
        return []
    return value if isinstance(value, list) else [value]


def _known(block: Mapping[str, Any], names: Mapping[str, Any]) -> dict[str, Any]:
    return {name: block[name] for name in names if name in block}


def _recording(one: Mapping[str, Any]) -> dict[str, Any]:
    return {
        "file": one.get("file"),
        "sha256": one.get("sha256") or _NO_HASH,
        "bytes": one.get("bytes") or 0,
        "duration_s": one.get("duration_s"),
        "recorded_at": one.get("recorded_at"),
    }


_ENTRY = (
    *("id", "kind", "room", "component", "condition", "assertion", "outcome", "action", "quantity"),
    *("direction", "attribute", "where", "size", "severity", "note"),
)


def _entry(one: Mapping[str, Any], files: list[str]) -> dict[str, Any]:
    reasons = [why for why in one.get("because") or [] if isinstance(why, str)]
    sureness = one.get("confidence")
    size = one.get("size")
    return {
        **{name: one.get(name) for name in _ENTRY},
        "size": _size(size) if isinstance(size, dict) else size,
        "party": one.get("party") if one.get("party") in get_args(Party) else None,
        "assertion": one.get("assertion") or ("present" if one.get("kind") == "condition" else None),
        "pre_existing": bool(one.get("pre_existing")),
        "evidence": [_evidence(piece, files) for piece in one.get("evidence") or []],
        "confidence": 1 if sureness is None else sureness,
        "because": reasons or [_UNTOLD],
        "state": one.get("state") or "accepted",
        "merged_into": one.get("merged_into"),
    }


def _size(size: Mapping[str, Any]) -> dict[str, Any]:
    told = size.get("text") or f"{size.get('value', '')} {size.get('unit', '')}".strip()
    return {"text": told, "value": size.get("value"), "unit": size.get("unit")}


def _evidence(piece: Mapping[str, Any], files: list[str]) -> dict[str, Any]:
    named = _named(piece, files)
    start, end = piece.get("start"), piece.get("end")
    link = piece.get("link")
    if link is None and isinstance(start, int | float) and isinstance(end, int | float):
        link = fragment(named["recording"], start, end)
    return {
        **named,
        "start": start,
        "end": end,
        "sentences": [str(one) for one in piece.get("sentences") or []],
        "quote": piece.get("quote"),
        "link": link,
    }


def _visit(one: Mapping[str, Any], files: list[str]) -> dict[str, Any]:
    return _named(one, files) | {"room": one.get("room"), "start": one.get("start") or 0, "end": one.get("end") or 0}


def _named(place: Mapping[str, Any], files: list[str]) -> dict[str, Any]:
    """The recording by its file name, where the file counts them; the first where none is told."""
    told = place.get("recording", 0)
    if isinstance(told, int) and 0 <= told < len(files):
        return {"recording": files[told]}
    return {"recording": told}
