"""An invented firm whose people say `sucker` for the range hood and `kerf` for a gouge: walks reviewed and sealed."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from narrate2report.read.lexis.lexicon import load_vocabulary
from narrate2report.read.reading import Reader
from tests.learn.reviewer import Reviewer, reviewed

WALKS: dict[str, tuple[str, list[dict[str, Any]]]] = {
    "2b": (
        (
            "[0:00] Kitchen.\n[0:04] The sucker is greasy.\n[0:08] There's a kerf in the counter.\n"
            "[0:13] The oven is clean.\n[0:18] The walls are clean.\n"
        ),
        [
            {"line": 2, "kind": "condition", "room": "kitchen", "component": "range_hood", "condition": "grease"},
            {"line": 3, "kind": "condition", "room": "kitchen", "component": "countertop", "condition": "gouge"},
            {"line": 4, "kind": "condition", "room": "kitchen", "component": "oven", "condition": "clean"},
            {"line": 5, "kind": "condition", "room": "kitchen", "component": "wall", "condition": "clean"},
        ],
    ),
    "3a": (
        (
            "[0:00] This is the kitchen.\n[0:05] The sucker works.\n[0:09] One kerf in the floor by the door.\n"
            "[0:14] The sink is clean.\n[0:18] The ceiling is clean.\n"
        ),
        [
            {"line": 2, "kind": "check", "room": "kitchen", "component": "range_hood", "outcome": "works"},
            {"line": 3, "kind": "condition", "room": "kitchen", "component": "floor", "condition": "gouge"},
            {"line": 4, "kind": "condition", "room": "kitchen", "component": "sink", "condition": "clean"},
            {"line": 5, "kind": "condition", "room": "kitchen", "component": "ceiling", "condition": "clean"},
        ],
    ),
    "4c": (
        "[0:00] Okay, kitchen.\n[0:04] The sucker is loose.\n[0:08] The counter has two kerfs.\n",
        [
            {"line": 2, "kind": "condition", "room": "kitchen", "component": "range_hood", "condition": "loose"},
            {"line": 3, "kind": "condition", "room": "kitchen", "component": "countertop", "condition": "gouge"},
        ],
    ),
}


def seal_walks(folder: Path, *names: str) -> Path:
    """The walks of these names (all of them), each sealed in a folder of its own."""
    golds = [[_whole(mark) for mark in gold] for _, gold in WALKS.values()]
    who, reader = Reviewer.of(golds), Reader(load_vocabulary())
    for name in names or WALKS:
        text, gold = WALKS[name]
        here = folder / name
        here.mkdir(parents=True)
        (here / "walk.txt").write_text(text, encoding="utf-8")
        reviewed(here / "walk.txt", [_whole(mark) for mark in gold], reader, who, here / "walk.findings.json")
    return folder


def _whole(mark: dict[str, Any]) -> dict[str, Any]:
    return mark | ({"assertion": "present"} if mark["kind"] == "condition" else {})
