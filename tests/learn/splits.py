"""Walks that are reviewed teach the reading of walks that are not: measured on one split of narrations."""

from __future__ import annotations

import contextlib
import io
import json
import tempfile
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from narrate2report.cli import main as narrate2report
from narrate2report.evaluate.matching import match
from narrate2report.intake.transcripts import read_transcript
from narrate2report.read.lexis.lexicon import load_vocabulary
from narrate2report.read.lexis.vocabulary import Vocabulary
from narrate2report.read.lexis.words import Tokenizer
from narrate2report.read.reading import Reader
from tests.learn.reviewer import Reviewer, marks_of_narration, reviewed
from tests.learn.thinned import Word, without
from tests.scoring import load_gold, score


@dataclass(frozen=True)
class Split:
    """What one split came to: F1 over observations and over all entries, before and after, and the proposals."""

    observations: tuple[float, float]
    everything: tuple[float, float]
    proposals: tuple[str, ...]
    known: int
    """Proposals that the whole shipped vocabulary bears out."""

    @property
    def rise(self) -> float:
        """Of F1 over observations."""
        return self.observations[1] - self.observations[0]


def split_of(taught: Sequence[Path], held: Sequence[Path], out: Sequence[Word]) -> Split:
    """What the narrations `taught` teach for the reading of those `held`, without the words `out`."""
    who = Reviewer.of([load_gold(gold_of(path)) for path in (*taught, *held)])
    whole, tokenizer = load_vocabulary(), Tokenizer(remembers=True)
    with tempfile.TemporaryDirectory() as name, without(out):
        walks, words = Path(name) / "walks", Path(name) / "words"
        walks.mkdir()
        reader = Reader(load_vocabulary(), tokenizer)
        for path in taught:
            reviewed(path, load_gold(gold_of(path)), reader, who, walks / f"{path.stem}.findings.json")
        proposals = learn(walks, words)
        before = _scores(reader, held)
        after = _scores(Reader(load_vocabulary(words), tokenizer), held) if proposals else before
    known = sum(_is_known(one, whole) for one in proposals)
    told = tuple(
        f"{'.'.join(one['keys'])}: {one['phrase']} ({one['mends']} mended, {one['makes']} made)" for one in proposals
    )
    return Split((before[0], after[0]), (before[1], after[1]), told, known)


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
        gold = load_gold(gold_of(path))
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


def gold_of(narration: Path) -> Path:
    """The file with the marks of a narration."""
    return narration.with_name(f"{narration.stem}.gold.json")
