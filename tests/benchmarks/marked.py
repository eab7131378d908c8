"""Narrations marked by hand, as the learners ask for them and read them: NAME.txt with NAME.gold.json."""

from __future__ import annotations

import argparse
import json
from pathlib import Path
from typing import Any

from tests.learn.splits import gold_of


def learning_options(doc: str | None) -> argparse.Namespace:
    """What a learner is told on the command line: `texts`, the narrations of all folders; `tried`; `out`."""
    parser = argparse.ArgumentParser(description=(doc or "").partition("\n")[0])
    parser.add_argument("folder", type=Path, nargs="+")
    parser.add_argument("--out", type=Path)
    parser.add_argument("--try", dest="tried", action="store_true")
    options = parser.parse_args()
    options.texts = [text for folder in options.folder for text in sorted(folder.glob("*.txt"))]
    return options


def marks_beside(text: Path) -> list[dict[str, Any]]:
    """What was marked in a narration."""
    gold: list[dict[str, Any]] = json.loads(gold_of(text).read_text(encoding="utf-8"))["entries"]
    return gold


def several(value: Any) -> list[Any]:
    """The values that a mark accepts in a field: one, or a list of them."""
    return value if isinstance(value, list) else [value]
