"""A comparison is read only where each change has its own name and each flaw stands in one of them."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from narrate2report.errors import BrokenRecord
from narrate2report.records.compared import read_comparison, read_records
from tests.settle.hand_made import judged, sample

Change = Callable[[list[dict[str, Any]]], object]


def altered(folder: Path, change: Change) -> Path:
    path = sample().written(folder)
    whole = json.loads(path.read_text(encoding="utf-8"))
    change(whole["changes"])
    path.write_text(json.dumps(whole), encoding="utf-8")
    return path


def test_what_was_compared_is_read(tmp_path: Path) -> None:
    path = altered(tmp_path, list)
    assert read_records(read_comparison(path), path)


@pytest.mark.parametrize(
    ("change", "told"),
    [
        (lambda changes: changes[2].update(id=changes[1]["id"]), "the change 'c2' stands in it twice"),
        (lambda changes: changes[2].update(after=changes[1]["after"]), "the entry 'a2' stands in more than one change"),
        (lambda changes: changes[1].update(after=["a2", "a2"]), "the entry 'a2' stands in more than one change"),
        (lambda changes: changes.append(changes[1] | {"judgement": judged()}), "the change 'c2' stands in it twice"),
    ],
)
def test_a_change_or_a_later_flaw_that_stands_twice_is_refused(tmp_path: Path, change: Change, told: str) -> None:
    with pytest.raises(BrokenRecord, match=rf"changes\.json: {told}; compare again"):
        read_comparison(altered(tmp_path, change))


def test_an_earlier_flaw_that_stands_twice_is_refused_beside_its_record(tmp_path: Path) -> None:
    path = altered(tmp_path, lambda changes: changes[-1].update(before=["b1"]))
    with pytest.raises(BrokenRecord, match="the entry 'b1' stands in more than one change"):
        read_records(read_comparison(path), path)


def test_what_is_sound_may_stand_beside_several_changes(tmp_path: Path) -> None:
    pair = sample()
    pair.before.append(pair.before[0].model_copy(update={"id": "praise", "condition": "good"}))
    for change in pair.changes[1:3]:
        change["before"] = ("praise",)
    path = pair.written(tmp_path)
    assert read_records(read_comparison(path), path)
