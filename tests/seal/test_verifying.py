"""Whatever was changed after the seal is told, each change on a line of its own."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from narrate2report.errors import BadInput
from narrate2report.records.beside import journal_beside
from narrate2report.records.canonical import canonical_bytes, readable_bytes
from narrate2report.records.files import record_json, write_record
from narrate2report.records.findings import Findings
from narrate2report.seal.sealing import seal_sha256
from narrate2report.seal.verifying import Expected, verify
from tests.seal.walk import draft, on_disk

FILES = ["walk.findings.json", "walk.mp4", "walk.transcript.json", "walk.journal.jsonl", "walk.stills/e1-1.png"]
same_folder = settings(suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=150)


def told(path: Path, expected: Expected | None = None) -> list[str]:
    return [str(mismatch) for mismatch in verify(path, expected).mismatches]


def layers(path: Path) -> set[str]:
    return {mismatch.layer for mismatch in verify(path).mismatches}


def forged(path: Path, **parts: Any) -> None:
    """Someone changes the record and makes its hash fit again: only what the record rests on can tell."""
    record = on_disk(path).model_copy(update=parts)
    assert record.seal is not None
    seal = record.seal.model_copy(update={"sha256": seal_sha256(record_json(record))})
    write_record(path, record.model_copy(update={"seal": seal}))


def test_what_was_sealed_verifies(closed: Path) -> None:
    verified = verify(closed)
    assert verified.mismatches == ()
    assert [path.name for path, _ in verified.records] == ["walk.findings.json"]


LATER = {"device": None, "location": None, "note": None, "split_from": None, "sound": None, "asked": False}
"""Fields that an earlier version of the program did not have, with what stands there where they say nothing."""


def without_later(value: Any) -> Any:
    """A JSON value as that version would have written it."""
    if isinstance(value, dict):
        kept = {key: part for key, part in value.items() if key not in LATER or part != LATER[key]}
        if "reason" in kept and not kept.get("heard"):
            kept.pop("heard", None)  # of a sentence that gave no entry
        return {key: without_later(part) for key, part in kept.items()}
    return [without_later(part) for part in value] if isinstance(value, list) else value


def test_what_an_earlier_version_sealed_still_verifies(closed: Path) -> None:
    journal = journal_beside(closed)
    lines: list[bytes] = []
    for raw in journal.read_bytes().splitlines():
        line = without_later(json.loads(raw))
        if lines:
            line["previous"] = hashlib.sha256(lines[-1]).hexdigest()
        lines.append(canonical_bytes(line))
    journal.write_bytes(b"".join(line + b"\n" for line in lines))
    content = without_later(json.loads(closed.read_bytes()))
    assert content != json.loads(closed.read_bytes())
    for covered in content["seal"]["files"]:
        if covered["role"] == "journal":
            kept = journal.read_bytes()
            covered |= {"sha256": hashlib.sha256(kept).hexdigest(), "bytes": len(kept)}
    content["seal"]["sha256"] = seal_sha256(content)
    closed.write_bytes(readable_bytes(content))
    assert told(closed) == []


@given(st.data())
@same_folder
def test_any_one_byte_of_any_file_is_told(closed: Path, data: st.DataObject) -> None:
    name = data.draw(st.sampled_from(FILES))
    place = closed.parent / name
    whole = place.read_bytes()
    at = data.draw(st.integers(0, len(whole) - 1))
    flipped = bytearray(whole)
    flipped[at] ^= data.draw(st.integers(1, 255))
    place.write_bytes(flipped)
    try:
        found = verify(closed).mismatches
        assert any(Path(name).name in mismatch.where for mismatch in found) or name == "walk.findings.json"
        assert found
    except BadInput as error:
        pytest.fail(f"byte {at} of {name} makes the record look as if never sealed: {error}")
    finally:
        place.write_bytes(whole)


@given(st.data())
@same_folder
def test_any_byte_more_or_less_is_told(closed: Path, data: st.DataObject) -> None:
    name = data.draw(st.sampled_from(FILES))
    place = closed.parent / name
    whole = place.read_bytes()
    at = data.draw(st.integers(0, len(whole) - 1))
    more = data.draw(st.sampled_from([b"", b" ", b"\n", b"0"]))
    changed = whole[:at] + (more + whole[at:] if more else whole[at + 1 :])
    place.write_bytes(changed)
    try:
        assert (verify(closed).mismatches == ()) is (changed == whole)
    finally:
        place.write_bytes(whole)


@pytest.mark.parametrize("name", FILES[1:])
def test_a_file_that_is_gone_is_told(closed: Path, name: str) -> None:
    (closed.parent / name).unlink()
    assert any(line.startswith(f"files: {name}: ") and line.endswith("found missing") for line in told(closed))


def test_white_space_and_the_order_of_keys_are_part_of_the_sealed_bytes(closed: Path) -> None:
    content = json.loads(closed.read_bytes())
    turned = dict(reversed(content.items()))
    closed.write_bytes(json.dumps(content).encode())
    (line,) = told(closed)
    assert line.startswith("record: walk.findings.json: its form: expected the bytes that were sealed")
    assert line.endswith("changed in line 1")
    closed.write_bytes(readable_bytes(turned))
    assert layers(closed) == {"record"}


def test_every_mismatch_is_listed_not_only_the_first(closed: Path) -> None:
    for name in FILES[1:]:
        (closed.parent / name).write_bytes(b"{}")
    found = told(closed)
    for name in FILES[1:]:
        assert any(line.startswith(f"files: {name}: its SHA-256") for line in found)
        assert any(line.startswith(f"files: {name}: its size") for line in found)
    assert any(line.startswith("journal: ") for line in found)
    assert any(line.startswith("evidence: walk.transcript.json: its content: expected a transcript") for line in found)


def test_a_changed_entry_is_told_by_hash_and_by_journal(closed: Path) -> None:
    closed.write_bytes(closed.read_bytes().replace(b'"condition": "chip"', b'"condition": "hole"', 1))
    assert layers(closed) == {"seal", "journal"}


Forgery = Callable[[Findings], dict[str, Any]]
FORGERIES: dict[str, tuple[Forgery, str]] = {
    "an entry": (
        lambda record: {"entries": (record.entries[0].model_copy(update={"severity": "severe"}), record.entries[1])},
        "journal: walk.journal.jsonl: the record it leads to",
    ),
    "the unit": (
        lambda record: {"walkthrough": record.walkthrough.model_copy(update={"unit": ()})},
        "journal: walk.journal.jsonl: the draft that it began with",
    ),
    "the words": (
        lambda record: {"unused": (record.unused[0].model_copy(update={"text": "All good in here."}),)},
        "evidence: sentence s2: its words",
    ),
    "the recording's name": (
        lambda record: {"recordings": (record.recordings[0].model_copy(update={"file": "other.mp4"}),)},
        "files: other.mp4: the recording: expected covered by the seal",
    ),
    "the recording": (
        lambda record: {"recordings": (record.recordings[0].model_copy(update={"sha256": "0" * 64}),)},
        "files: walk.mp4: the recording that the record names",
    ),
    "its length": (
        lambda record: {"recordings": (record.recordings[0].model_copy(update={"duration_s": 60.0}),)},
        "evidence: entry e1: its end: expected within the 60.00 s of walk.mp4, found 78.30 s",
    ),
    "no files": (
        lambda record: {"seal": record.seal.model_copy(update={"files": ()}) if record.seal else None},
        "files: walk.journal.jsonl: the journal: expected covered by the seal",
    ),
    "a file elsewhere": (
        lambda record: {
            "seal": record.seal.model_copy(
                update={"files": (*record.seal.files, record.seal.files[0].model_copy(update={"file": "../x"}))}
            )
            if record.seal
            else None
        },
        "files: ../x: the recording: expected a file beside the record",
    ),
    "a decision": (
        lambda record: {"entries": (record.entries[0].model_copy(update={"state": "proposed"}), record.entries[1])},
        "decisions: Kitchen, countertop: chip (1:15): decided by a person: expected yes, found no",
    ),
    "a seal before": (
        lambda record: {"seal": record.seal.model_copy(update={"previous": "1" * 64}) if record.seal else None},
        "addendum: walk.findings.json: the seal before it",
    ),
}


@pytest.mark.parametrize(("change", "expected"), FORGERIES.values(), ids=FORGERIES.keys())
def test_a_forged_record_whose_hash_fits_is_told_by_what_it_rests_on(
    closed: Path, change: Forgery, expected: str
) -> None:
    forged(closed, **change(on_disk(closed)))
    assert [line for line in told(closed) if line.startswith(expected)]
    assert "seal" not in layers(closed)


def test_a_link_or_a_quote_that_does_not_fit_its_place_is_told(closed: Path) -> None:
    record = on_disk(closed)
    piece = record.entries[1].evidence[0]
    for change, what in [
        ({"link": "walk.mp4#t=1.00,2.00"}, "its link"),
        ({"quote": "Okay, moving on."}, "sentence s1"),
    ]:
        other = record.entries[1].model_copy(update={"evidence": (piece.model_copy(update=change),)})
        forged(closed, entries=(record.entries[0], other))
        assert [line for line in told(closed) if line.startswith(f"evidence: entry e2: {what}")]


def test_the_seal_that_was_sent_is_what_counts(closed: Path) -> None:
    seal = on_disk(closed).seal
    assert seal is not None
    assert told(closed, Expected(sha256=seal.sha256)) == []
    forged(closed, walkthrough=on_disk(closed).walkthrough.model_copy(update={"clashes": ("unit",)}))
    assert any("the seal that you hold" in line for line in told(closed, Expected(sha256=seal.sha256)))


def test_a_record_that_is_not_sealed_cannot_be_verified(tmp_path: Path) -> None:
    write_record(tmp_path / "walk.findings.json", draft())
    with pytest.raises(BadInput, match="is not sealed"):
        verify(tmp_path / "walk.findings.json")
