"""A walk in the contract's plain form is read as one of our own; what is no walk is told in one line."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from narrate2report.errors import BrokenRecord, NarrateError
from narrate2report.records.any_walk import read_any_walk
from narrate2report.records.files import write_record
from narrate2report.records.findings import Findings, Header, Unused
from tests.compare.pair_files import HERE, load_pair

UNUSED = Unused(id="s1", recording="in.mp4", start=0, end=1, text="Right.", reason="talk", because="nothing said")
PLAIN: dict[str, Any] = load_pair(HERE / "a1_garden_flat.txt").before


def read(folder: Path, content: object) -> Findings:
    path = folder / "walk.json"
    path.write_text(json.dumps(content), encoding="utf-8")
    return read_any_walk(path)


def test_the_plain_form_tells_the_same_facts(tmp_path: Path) -> None:
    findings = read(tmp_path, PLAIN)
    assert [source.value for source in findings.walkthrough.unit] == [PLAIN["walkthrough"]["unit"]]
    assert [entry.id for entry in findings.entries] == [entry["id"] for entry in PLAIN["entries"]]
    first, plain = findings.entries[3], PLAIN["entries"][3]
    assert (first.condition, first.where, first.evidence[0].quote) == (
        plain["condition"],
        plain["where"],
        plain["evidence"][0]["quote"],
    )
    assert first.evidence[0].recording == "in.mp4"
    assert first.evidence[0].sentences == tuple(map(str, plain["evidence"][0]["sentences"]))


def test_what_the_plain_form_leaves_out_is_not_made_up(tmp_path: Path) -> None:
    entry = {
        "id": "x",
        "kind": "condition",
        "room": "kitchen",
        "component": "sink",
        "condition": "chip",
        "evidence": [{"start": 1, "end": 2, "quote": "Chipped."}],
    }
    findings = read(
        tmp_path, {"schema": "narrate2report/findings/1", "recordings": [{"file": "a.mp4"}], "entries": [entry]}
    )
    (found,) = findings.entries
    assert (found.assertion, found.quantity, found.severity, found.where, found.pre_existing) == (
        *("present", None, None, None),
        False,
    )
    assert found.evidence[0].link == "a.mp4#t=1.00,2.00"
    assert findings.walkthrough.unit == ()
    assert findings.seal is None


def test_a_record_of_our_own_without_a_word_in_its_header_is_told_from_the_plain_form(tmp_path: Path) -> None:
    own = read(tmp_path, PLAIN).model_copy(update={"walkthrough": Header(), "unused": (UNUSED,)})
    path = tmp_path / "own.findings.json"
    write_record(path, own)
    assert read_any_walk(path) == own


def test_a_record_of_our_own_stays_as_it_is(tmp_path: Path) -> None:
    own = read(tmp_path, PLAIN)
    path = tmp_path / "own.findings.json"
    write_record(path, own)
    assert read_any_walk(path) == own


@pytest.mark.parametrize(
    "content",
    [
        [],
        {},
        {"entries": 3},
        {"entries": []},
        {"schema": "another/1", "entries": []},
        PLAIN | {"entries": [3]},
        PLAIN | {"entries": [{"id": "x"}]},
        PLAIN | {"recordings": ["in.mp4"]},
        PLAIN
        | {"entries": [PLAIN["entries"][0] | {"evidence": [{"recording": 7, "start": 0, "end": 1, "quote": "x"}]}]},
        PLAIN | {"entries": [PLAIN["entries"][0] | {"quantity": "many"}]},
        PLAIN | {"walkthrough": "move_in"},
    ],
    ids=str,
)
def test_what_is_no_walk_is_told_in_one_line_with_its_name(content: object, tmp_path: Path) -> None:
    with pytest.raises(NarrateError) as refused:
        read(tmp_path, content)
    assert "walk.json" in str(refused.value)
    assert "\n" not in str(refused.value)


def test_text_that_is_no_json_is_told(tmp_path: Path) -> None:
    (tmp_path / "walk.json").write_text("{", encoding="utf-8")
    with pytest.raises(BrokenRecord, match="not JSON"):
        read_any_walk(tmp_path / "walk.json")
