"""What `learn` is worth: half of the narrations are corrected, words learnt from them, and the other half is scored.

    python tests/benchmarks/learning.py [--seeds 1 2 3 4] [--out-words 40] [--most 26] [--folder tests/narrations]

For each seed the narrations are shuffled and halved, and so many words that four of them say are taken out of the
vocabulary. Drafts of one half are put right by a simulated reviewer through the real review and seal; all proposals are
accepted; the other half is read without and with them. With `--out-words 0` it tells what one would gain today.
"""

from __future__ import annotations

import argparse
import random
import statistics
from collections.abc import Sequence
from pathlib import Path

from tests.learn.splits import Split, gold_of, split_of
from tests.learn.thinned import choose, said_words

FEWEST = 4
"""In so many narrations a word must be said to be taken out: else no half could teach it to the other."""


def main() -> None:
    options = _options()
    narrations = sorted(path for path in options.folder.glob("*.txt") if gold_of(path).is_file())
    splits = []
    for seed in options.seeds:
        made = split(narrations, seed, options.out_words, options.most)
        splits.append(made)
        for one in made.proposals:
            print(f"  {one}")
        print(
            f"seed {seed}: observations F1 {made.observations[0]:.4f} -> {made.observations[1]:.4f} ({made.rise:+.4f}),"
            f" all kinds {made.everything[0]:.4f} -> {made.everything[1]:.4f};"
            f" {len(made.proposals)} proposals, {made.known} of them in the whole vocabulary",
            flush=True,
        )
    rises = [made.rise for made in splits]
    spread = statistics.stdev(rises) if len(rises) > 1 else 0.0
    proposals, known = sum(len(made.proposals) for made in splits), sum(made.known for made in splits)
    print(f"mean rise {statistics.mean(rises):+.4f}, standard deviation {spread:.4f}, lowest {min(rises):+.4f}")
    print(f"{known} of {proposals} proposals stand in the whole vocabulary with that meaning")


def split(narrations: Sequence[Path], seed: int, out_words: int, most: int | None = None) -> Split:
    """One split: at most `most` narrations a half."""
    shuffled = list(narrations)
    random.Random(seed).shuffle(shuffled)
    half = len(shuffled) // 2
    out = choose(said_words([path.read_text("utf-8") for path in narrations], FEWEST), out_words, seed)
    return split_of(shuffled[:half][:most], shuffled[half:][:most], out)


def _options() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("--folder", type=Path, default=Path(__file__).parents[1] / "narrations")
    parser.add_argument("--seeds", type=int, nargs="+", default=[1, 2, 3, 4])
    parser.add_argument("--out-words", type=int, default=40)
    parser.add_argument("--most", type=int, help="narrations of a half at the most")
    return parser.parse_args()


if __name__ == "__main__":
    main()
