"""Draft every narration of a folder and score the results against their hand-marked gold.

    python tests/benchmarks/score_narrations.py FOLDER --scorer SCORE.PY [--least-f1 0.75 ...]

FOLDER holds NAME.txt with NAME.gold.json; the scorer is a program that takes pairs of gold and findings files
and, with --json, prints its summary. The exit status is 1 where a bound is missed.
"""

from __future__ import annotations

import argparse
import json
import subprocess
import sys
import tempfile
from pathlib import Path
from typing import Any

from narrate2report.cli import main as narrate2report


def main() -> int:
    options = _options()
    narrations = sorted(path for path in options.folder.glob("*.txt") if _gold(path).is_file())
    if not narrations:
        sys.exit(f"{options.folder}: holds no NAME.txt with a NAME.gold.json")
    with tempfile.TemporaryDirectory() as folder:
        pairs: list[str] = []
        for narration in narrations:
            out = Path(folder) / f"{narration.stem}.findings.json"
            if narrate2report(["draft", str(narration), "--out", str(out), "--quiet"]) != 0:
                sys.exit(f"{narration}: could not be drafted")
            pairs += [str(_gold(narration)), str(out)]
        scorer = [sys.executable, str(options.scorer), *pairs]
        print(subprocess.run(scorer, check=True, capture_output=True, text=True).stdout, end="", flush=True)
        answer = subprocess.run([*scorer, "--json"], check=True, capture_output=True, text=True).stdout
    missed = _missed(json.loads(answer), options)
    for line in missed:
        print(f"MISSED: {line}")
    return 1 if missed else 0


def _options() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("folder", type=Path)
    parser.add_argument("--scorer", type=Path, required=True)
    parser.add_argument("--least-f1", type=float, default=0.0)
    parser.add_argument("--least-adverse-recall", type=float, default=0.0)
    parser.add_argument("--most-false-alarms", type=int, default=sys.maxsize)
    return parser.parse_args()


def _gold(narration: Path) -> Path:
    return narration.with_name(f"{narration.stem}.gold.json")


def _missed(summary: dict[str, Any], options: argparse.Namespace) -> list[str]:
    f1, recall = summary["observations"]["f1"], summary["adverse_recall"] or 0.0
    alarms = summary["false_alarms"]
    bounds = {
        f"observations F1 {f1:.3f}, at least {options.least_f1}": f1 >= options.least_f1,
        f"adverse recall {recall:.3f}, at least {options.least_adverse_recall}": (
            recall >= options.least_adverse_recall
        ),
        f"{alarms} false alarms, at most {options.most_false_alarms}": alarms <= options.most_false_alarms,
    }
    return [line for line, held in bounds.items() if not held]


if __name__ == "__main__":
    sys.exit(main())
