"""How fast narrations are read, beside the language model that the reading stands on, and how that grows.

    python tests/benchmarks/read_speed.py [--lines 1000 --most-lines 20000]

The bare model tags the same text in the same run, so that the ratio does not depend on the machine. Growth is
the time that a line takes in longer and longer walks: a reading that is linear keeps it level.
"""

from __future__ import annotations

import argparse
import random
import time
from collections.abc import Callable, Sequence
from functools import partial

from narrate2report.read.lexicon import load_vocabulary
from narrate2report.read.reading import read
from narrate2report.read.words import Tokenizer
from narrate2report.records.transcript import Engine, Recording, Stretch, Transcript

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
LINE_S = 6.0


def main() -> None:
    options = _options()
    vocabulary, tokenizer = load_vocabulary(), Tokenizer()
    text = narration(options.lines)
    words = sum(len(line.split()) for line in text)
    list(tokenizer.sentences(text[:10]))  # the model is loaded at its first use

    bare = _seconds(lambda: list(tokenizer.sentences(text)))
    whole = _seconds(lambda: read(transcript_of(text), vocabulary, tokenizer))
    print(f"{len(text)} lines, {words} words")
    print(f"language model alone  {words / bare:10,.0f} words/s")
    print(f"the whole reading     {words / whole:10,.0f} words/s   {whole / bare:.2f} times the model's time")

    print("growth:")
    first: float | None = None
    count = options.lines
    while count <= options.most_lines:
        transcript = transcript_of(narration(count))
        a_line_ms = 1000 * _seconds(partial(read, transcript, vocabulary, tokenizer)) / count
        first = first or a_line_ms
        print(f"  {count:7,} lines  {a_line_ms:7.2f} ms a line   {a_line_ms / first:5.2f} times the first", flush=True)
        count = _next(count, options.most_lines)


def narration(lines: int) -> list[str]:
    """An invented walk of so many lines; the same each time."""
    chance = random.Random(20)
    return [
        chance.choice(LINES).format(thing=chance.choice(THINGS), flaw=chance.choice(FLAWS), room=chance.choice(ROOMS))
        for _ in range(lines)
    ]


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


def _seconds(work: Callable[[], object]) -> float:
    """Time of the processor, so that other programs on the machine do not count."""
    start = time.process_time()
    work()
    return time.process_time() - start


def _next(count: int, most: int) -> int:
    return most if count < most < 2 * count else 2 * count


def _options() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("--lines", type=int, default=1_000)
    parser.add_argument("--most-lines", type=int, default=20_000)
    return parser.parse_args()


if __name__ == "__main__":
    main()
