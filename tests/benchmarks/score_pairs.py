"""Compare every pair of walks of a folder and score the changes against their hand-marked gold.

    python tests/benchmarks/score_pairs.py FOLDER --scorer SCORE_CHANGES.PY [--least-pairing 0.97 ...]

FOLDER holds NAME.in.json and NAME.out.json with NAME.changes.gold.json; the scorer is a program that takes pairs of
gold and changes files and, with --json, prints its summary. The exit status is 1 where a bound is missed.
"""

from __future__ import annotations

import argparse
import json
import subprocess
import sys
import tempfile
from pathlib import Path

from narrate2report.cli import main as narrate2report

GOLD = ".changes.gold.json"


def main() -> int:
    """Print the scorer's lines and each bound that is missed."""
    options = _options()
    golds = sorted(options.folder.glob(f"*{GOLD}"))
    if not golds:
        sys.exit(f"{options.folder}: holds no NAME{GOLD}")
    with tempfile.TemporaryDirectory() as folder:
        pairs: list[str] = []
        for gold in golds:
            name = gold.name.removesuffix(GOLD)
            before, after = (str(gold.with_name(f"{name}.{side}.json")) for side in ("in", "out"))
            out = Path(folder) / f"{name}.changes.json"
            if narrate2report(["compare", before, after, "--out", str(out), "--quiet"]) != 0:
                sys.exit(f"{gold}: its two walks could not be compared")
            pairs += [str(gold), str(out)]
        scorer = [sys.executable, str(options.scorer), *pairs]
        told = subprocess.run([*scorer, "--errors"], check=True, capture_output=True, text=True).stdout
        print(told, end="", flush=True)
        answer = json.loads(subprocess.run([*scorer, "--json"], check=True, capture_output=True, text=True).stdout)
    bounds = {
        f"pairing F1 {answer['pairing_f1']} < {options.least_pairing}": answer["pairing_f1"] >= options.least_pairing,
        f"outcomes F1 {answer['outcome_f1']} < {options.least_outcome}": answer["outcome_f1"] >= options.least_outcome,
        f"falsely new {answer['false_new']} > {options.most_falsely_new}": (
            answer["false_new"] <= options.most_falsely_new
        ),
    }
    missed = [line for line, holds in bounds.items() if not holds]
    for line in missed:
        print(f"MISSED: {line}")
    return 1 if missed else 0


def _options() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("folder", type=Path)
    parser.add_argument("--scorer", type=Path, required=True)
    parser.add_argument("--least-pairing", type=float, default=0.0)
    parser.add_argument("--least-outcome", type=float, default=0.0)
    parser.add_argument("--most-falsely-new", type=int, default=sys.maxsize)
    return parser.parse_args()


if __name__ == "__main__":
    sys.exit(main())
