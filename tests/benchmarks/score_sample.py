"""Score a findings file of a sample recording against its gold; the exit status is 1 where a bound is missed.

    python tests/benchmarks/score_sample.py FINDINGS.json NAME.gold.json

NAME.times.json beside the gold holds the true times of the narration's lines. Bounds: observations F1 of
0.95, no adverse entry missed, no entry that opens more than 0.5 s before what it is about.
"""

from __future__ import annotations

import json
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from tests.scoring import load_gold, load_lines, score

LEAST_F1 = 0.95
MOST_EARLY_S = 0.5


def main(findings: Path, gold: Path) -> int:
    entries = json.loads(findings.read_text(encoding="utf-8"))["entries"]
    times = gold.with_name(gold.name.replace(".gold.json", ".times.json"))
    result = score(load_gold(gold), entries, load_lines(times))
    print(
        f"{gold.name}: observations F1 {result.f1:.3f} ({result.hits} found, {len(result.missed)} missed, "
        f"{len(result.extra)} extra), {len(result.missed_adverse)} adverse missed, "
        f"at most {result.early_s:.2f} s early"
    )
    for what, several in (("missed", result.missed), ("extra", result.extra)):
        for one in several:
            told = {name: value for name, value in one.items() if value and name not in ("evidence", "heard")}
            print(f"  {what}: {json.dumps(told)}")
    held = result.f1 >= LEAST_F1 and not result.missed_adverse and result.early_s <= MOST_EARLY_S
    return 0 if held else 1


if __name__ == "__main__":
    sys.exit(main(Path(sys.argv[1]), Path(sys.argv[2])))
