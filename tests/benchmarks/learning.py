"""What `learn` is worth: half of the narrations are corrected, words learnt from them, and the other half is scored.

    python tests/benchmarks/learning.py [--seeds 1 2 3 4] [--out-words 40] [--most 26] [--folder tests/narrations]

For each seed the narrations are shuffled and halved, and so many words that four of them say are taken out of the
vocabulary. Drafts of one half are put right by a simulated reviewer through the real review and seal; all proposals are
accepted; the other half is read without and with them. With `--out-words 0` it tells what one would gain today.
"""

from __future__ import annotations

import argparse
import contextlib
import io
import json
import random
import statistics
import tempfile
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from narrate2report.cli import main as narrate2report
from narrate2report.evaluate.matching import match
from narrate2report.intake.transcripts import read_transcript
from narrate2report.read.lexicon import load_vocabulary
from narrate2report.read.reading import Reader
from narrate2report.read.vocabulary import Vocabulary
from narrate2report.read.words import Tokenizer
from tests.learn.reviewer import Reviewer, marks_of_narration, reviewed
from tests.learn.thinned import choose, said_words, without
from tests.scoring import load_gold, score

FEWEST = 4
"""In so many narrations a word must be said to be taken out: else no half could teach it to the other."""


@dataclass(frozen=True)
class Split:
    """What one split came to: F1 over observations and over all entries, before and after, and the proposals."""

    observations: tuple[float, float]
    everything: tuple[float, float]
    proposals: int
    known: int
    """Proposals that the whole shipped vocabulary bears out."""

    @property
    def rise(self) -> float:
        """Of F1 over observations."""
        return self.observations[1] - self.observations[0]


def main() -> None:
    options = _options()
    narrations = sorted(path for path in options.folder.glob("*.txt") if _gold(path).is_file())
    splits = []
    for seed in options.seeds:
        made = split(narrations, seed, options.out_words, options.most)
        splits.append(made)
        print(
            f"seed {seed}: observations F1 {made.observations[0]:.4f} -> {made.observations[1]:.4f} ({made.rise:+.4f}),"
            f" all kinds {made.everything[0]:.4f} -> {made.everything[1]:.4f};"
            f" {made.proposals} proposals, {made.known} of them in the whole vocabulary",
            flush=True,
        )
    rises = [made.rise for made in splits]
    spread = statistics.stdev(rises) if len(rises) > 1 else 0.0
    proposals, known = sum(made.proposals for made in splits), sum(made.known for made in splits)
    print(f"mean rise {statistics.mean(rises):+.4f}, standard deviation {spread:.4f}, lowest {min(rises):+.4f}")
    print(f"{known} of {proposals} proposals stand in the whole vocabulary with that meaning")


def split(narrations: Sequence[Path], seed: int, out_words: int, most: int | None = None) -> Split:
    """One split: at most `most` narrations a half."""
    shuffled = list(narrations)
    random.Random(seed).shuffle(shuffled)
    half = len(shuffled) // 2
    taught, held = shuffled[:half][:most], shuffled[half:][:most]
    out = choose(said_words([path.read_text("utf-8") for path in narrations], FEWEST), out_words, seed)
    who = Reviewer.of([load_gold(_gold(path)) for path in narrations])
    whole, tokenizer = load_vocabulary(), Tokenizer(remembers=True)
    with tempfile.TemporaryDirectory() as name, without(out):
        walks, words = Path(name) / "walks", Path(name) / "words"
        walks.mkdir()
        reader = Reader(load_vocabulary(), tokenizer)
        for path in taught:
            reviewed(path, load_gold(_gold(path)), reader, who, walks / f"{path.stem}.findings.json")
        proposals = learn(walks, words)
        before = _scores(reader, held)
        after = _scores(Reader(load_vocabulary(words), tokenizer), held) if proposals else before
    for one in proposals:
        print(f"  {'.'.join(one['keys'])}: {one['phrase']} ({one['mends']} mended, {one['makes']} made)", flush=True)
    known = sum(_is_known(one, whole) for one in proposals)
    return Split((before[0], after[0]), (before[1], after[1]), len(proposals), known)


def learn(walks: Path, words: Path) -> list[dict[str, Any]]:
    """Run the command, accept every line, and give the proposals."""
    told = io.StringIO()
    with contextlib.redirect_stdout(told):
        if narrate2report(["learn", str(walks), "--to", str(words), "--json"]) != 0:
            raise SystemExit(f"{walks}: nothing could be learnt")
    for path in words.glob("*.yaml"):
        lines = path.read_text("utf-8").split("\n")
        path.write_text("\n".join(line[1:] if line.startswith('#   "') else line for line in lines), "utf-8")
    proposals: list[dict[str, Any]] = json.loads(told.getvalue())["proposals"]
    return proposals


def _scores(reader: Reader, narrations: Sequence[Path]) -> tuple[float, float]:
    """F1 over observations, and over all kinds of entries, counted over all narrations together."""
    hits = over = found = wrong = 0
    for path in narrations:
        gold = load_gold(_gold(path))
        findings = reader.read(read_transcript(path)).findings
        lines = [(said.start, said.end) for said in read_transcript(path).stretches]
        made = score(gold, [entry.model_dump(mode="json") for entry in findings.entries], lines)
        hits, over = hits + made.hits, over + len(made.missed) + len(made.extra)
        matched = match(marks_of_narration(path, gold), findings.entries)
        found += sum(not mark.optional for mark, _ in matched.found)
        wrong += len(matched.missed) + len(matched.extra)
    return 2 * hits / (2 * hits + over), 2 * found / (2 * found + wrong)


def _is_known(proposal: dict[str, Any], whole: Vocabulary) -> bool:
    """Whether the whole vocabulary gives the words to the same block, in whatever of its lists."""
    kind = proposal["file"].removesuffix(".yaml")
    if kind not in {"components", "conditions", "actions"}:
        return False
    block = getattr(whole, kind)[proposal["keys"][0]]
    return proposal["phrase"] in set(_words(block.model_dump()))


def _words(told: Any) -> Iterator[str]:
    if isinstance(told, str):
        yield told
    elif isinstance(told, dict):
        for one in told.values():
            yield from _words(one)
    elif isinstance(told, list | tuple):
        for one in told:
            yield from _words(one)


def _gold(narration: Path) -> Path:
    return narration.with_name(f"{narration.stem}.gold.json")


def _options() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("--folder", type=Path, default=Path(__file__).parents[1] / "narrations")
    parser.add_argument("--seeds", type=int, nargs="+", default=[1, 2, 3, 4])
    parser.add_argument("--out-words", type=int, default=40)
    parser.add_argument("--most", type=int, help="narrations of a half at the most")
    return parser.parse_args()


if __name__ == "__main__":
    main()
