"""What repair by sound does to spoken narrations: words repaired rightly and wrongly, asked; recall; entries; time.

    python tests/benchmarks/sound_repair.py FOLDER... [--scorer SCORE.PY] [--rows FILE] [--show]

Each FOLDER holds NAME.wav with NAME.txt (what was said, one line a line), and for the scorer NAME.gold.json and
NAME.times.json; what is heard and weighed is kept beside them. Three readings of the same transcript are counted: as
heard, with repairs by the text alone, and with those that the sound decides.

A repair is right where the word read is the one that was said (or another form of it), else wrong, and harmful where
the word had been heard right. Trade words are those that name or describe something by themselves in the vocabulary;
their recall is the share of those said that stand in their place in what is read. `--rows` writes every reading that
was weighed with what is known of it: limits are chosen by such rows of other voices and narrations than are reported.
"""

from __future__ import annotations

import argparse
import json
import re
import subprocess
import sys
import time
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from rapidfuzz.distance import Levenshtein

from narrate2report.intake.gather import Clips, gather
from narrate2report.listen.listening import listen
from narrate2report.listen.weighing import weigh
from narrate2report.read.lexis.inflect import same_word
from narrate2report.read.lexis.lexicon import load_vocabulary
from narrate2report.read.lexis.words import SPELLINGS, Tokenizer
from narrate2report.read.misheard.neighbours import neighbours_of
from narrate2report.read.misheard.repair import Repairer
from narrate2report.read.reading import Reader
from narrate2report.read.speech.sentences import Sentence
from narrate2report.records.files import read_record, write_record
from narrate2report.records.findings import Heard
from narrate2report.records.transcript import Transcript
from narrate2report.records.weighing import Weighed

STAMP = re.compile(r"^\[[\d:.]+\]\s*")


def main() -> None:
    options = _options()
    bench = Bench(options)
    total: Counter[str] = Counter()
    for folder in options.folders:
        mine: Counter[str] = Counter()
        pairs: dict[str, list[Path]] = {"text": [], "sound": []}
        for sound in sorted(folder.glob("*.wav")):
            mine += bench.count(sound, pairs)
        print(folder.name, _told(mine), _scores(options.scorer, pairs), flush=True)
        total += mine
    print("all", _told(total))


def _options() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("folders", type=Path, nargs="+")
    parser.add_argument("--scorer", type=Path)
    parser.add_argument("--rows", type=Path)
    parser.add_argument("--show", action="store_true")
    return parser.parse_args()


@dataclass(frozen=True)
class Told:
    """A sentence with the words that were really said in it."""

    sentence: Sentence
    said: tuple[str, ...]


class Bench:
    """The reader and the counts over recordings."""

    def __init__(self, options: argparse.Namespace) -> None:
        self._options = options
        self._vocabulary = load_vocabulary()
        self._reader = Reader(self._vocabulary)
        self._repairer = Repairer(self._vocabulary, Tokenizer())
        self._trade = neighbours_of(self._vocabulary).words

    def count(self, sound: Path, pairs: dict[str, list[Path]]) -> Counter[str]:
        """Hear, weigh and read one recording."""
        clips = gather([sound])
        assert isinstance(clips, Clips)
        transcript, listened = self._heard(sound, clips)
        began = time.process_time()
        passages = self._reader.ask(transcript)
        asked = time.process_time() - began
        keep = sound.with_suffix(".weighed.jsonl")
        fresh = not keep.exists()
        began = time.process_time()
        weighed = weigh(passages, clips.clips, transcript.engine, keep=keep)
        counts = Counter(passages=len(passages), readings=sum(len(one.readings) for one in passages))
        if fresh and listened:
            counts.update(listen_ms=int(listened * 1000), weigh_ms=int((time.process_time() - began + asked) * 1000))
        by_text, by_sound = self._reader.read(transcript), self._reader.read(transcript, weighed=weighed)
        for name, reading in (("text", by_text), ("sound", by_sound)):
            out = sound.with_suffix(f".{name}.findings.json")
            write_record(out, reading.findings)
            pairs[name] += [sound.with_suffix(".gold.json"), out]
        told = said_in(sound.with_suffix(".txt"), self._reader.sentences(transcript))
        said = [word for one in told for word in one.said]
        counts["said"] += len(said)
        counts["trade"] += sum(word in self._trade for word in said)
        for one, text, heard in zip(told, by_text.sentences, by_sound.sentences, strict=True):
            counts["trade_heard"] += self._recalled(one, one.sentence.text)
            counts["trade_text"] += self._recalled(one, text.spoken.text)
            counts["trade_sound"] += self._recalled(one, heard.spoken.text)
            for name, repairs in (("text", text.spoken.heard), ("sound", heard.spoken.heard)):
                for repair in repairs:
                    verdict = ("asked_" if repair.asked else "") + judged(repair, one)
                    counts[f"{name}_{verdict}"] += 1
                    if self._options.show and (name == "sound" or verdict != "right"):
                        found = f"{repair.heard} -> {repair.read}  {repair.sound}"
                        print(f"  {name} {verdict:12} {found}  {one.sentence.text}")
        if self._options.rows:
            self._write_rows(told, weighed, sound)
        return counts

    def _heard(self, sound: Path, clips: Clips) -> tuple[Transcript, float]:
        """The transcript of a recording, and the processor time of hearing it (told once beside it)."""
        place, took = sound.with_suffix(".transcript.json"), sound.with_suffix(".took.json")
        if not place.exists():
            began = time.process_time()
            write_record(place, listen(clips.clips, keep=None))
            took.write_text(json.dumps(time.process_time() - began))
        return read_record(place, Transcript), json.loads(took.read_text()) if took.exists() else 0.0

    def _recalled(self, told: Told, text: str) -> int:
        """How many of the trade words said in a sentence stand in their place in a text."""
        blocks = Levenshtein.opcodes(told.said, words_of(text))
        return sum(
            told.said[at] in self._trade for op in blocks if op.tag == "equal" for at in range(op.src_start, op.src_end)
        )

    def _write_rows(self, told: Sequence[Told], weighed: Sequence[Weighed], sound: Path) -> None:
        by_place = {(one.passage.start, one.passage.text): one for one in weighed}
        with self._options.rows.open("a", encoding="utf-8") as file:
            for row in self._rows(told, by_place):
                file.write(json.dumps({"of": str(sound), **row}) + "\n")

    def _rows(self, told: Sequence[Told], weighed: dict[tuple[float, str], Weighed]) -> Iterator[dict[str, Any]]:
        for one in told:
            if (found := weighed.get((one.sentence.start, one.sentence.text))) is None:
                continue
            weights = dict(zip(found.passage.readings, found.weights, strict=False))
            for proposal in self._repairer.proposals(one.sentence):
                doubt, weight = proposal.doubt, weights.get(proposal.reading)
                spoken = changed_words(one.sentence.text, proposal.reading)
                yield {
                    "heard": spoken, "said": doubt.words, "signs": dict(doubt.signs.measures()),
                    "weight": weight and weight.model_dump(), "text": one.sentence.text, "start": one.sentence.start,
                    "from": doubt.start, "to": doubt.end,
                    "verdict": judged(Heard(heard=spoken, read=doubt.words, why="", sureness=0), one),
                }  # fmt: skip


def said_in(path: Path, sentences: Sequence[Sentence]) -> list[Told]:
    """Each sentence as heard with the words that were said in it, by the alignment of all words of both."""
    lines = path.read_text(encoding="utf-8").splitlines()
    said = [word for line in lines for word in words_of(STAMP.sub("", line.strip()))]
    heard = [words_of(sentence.text) for sentence in sentences]
    at_heard = [0]
    for op in Levenshtein.opcodes([word for words in heard for word in words], said):
        here = range(op.src_start + 1, op.src_end + 1)
        at_heard += [min(op.dest_end, op.dest_start + at - op.src_start) for at in here]
        if op.tag == "insert" or len(here) < op.dest_end - op.dest_start:
            at_heard[-1] = op.dest_end
    told, at = [], 0
    for sentence, words in zip(sentences, heard, strict=True):
        told.append(Told(sentence, tuple(said[at_heard[at] : at_heard[at + len(words)]])))
        at += len(words)
    return told


def changed_words(text: str, reading: str) -> str:
    """The words of a text that stand otherwise in a reading of it."""
    one, other = text.split(), reading.split()
    first = next(
        (at for at, (mine, theirs) in enumerate(zip(one, other, strict=False)) if mine != theirs), len(one) - 1
    )
    rest = zip(reversed(one[first:]), reversed(other[first:]), strict=False)
    last = len(one) - next((at for at, (mine, theirs) in enumerate(rest) if mine != theirs), 0)
    return " ".join(one[first : max(last, first + 1)]).strip('.,;:!?"')


def judged(repair: Heard, told: Told) -> str:
    """right: what is read was said there; harmful: what was heard had been right; wrong: neither; spelling: the same
    letters written together.
    """
    heard, read = words_of(repair.heard), words_of(repair.read)
    if "".join(heard) == "".join(read):
        return "spelling"
    words = words_of(told.sentence.text)
    places = [at for at in range(len(words)) if words[at : at + len(heard)] == heard]
    if not places:
        return "wrong"
    ops = Levenshtein.opcodes(words, told.said)
    verdicts = []
    for at in places:
        within = [op for op in ops if op.src_start < at + len(heard) and at < max(op.src_end, op.src_start + 1)]
        said: list[str] = []
        for op in within:
            if op.tag == "equal":
                first = max(0, at - op.src_start)
                last = min(op.src_end, at + len(heard)) - op.src_start
                said += told.said[op.dest_start + first : op.dest_start + last]
            elif op.tag == "replace" and op.src_end - op.src_start == op.dest_end - op.dest_start:
                first, last = max(0, at - op.src_start), min(op.src_end, at + len(heard)) - op.src_start
                said += told.said[op.dest_start + first : op.dest_start + last]
            else:
                said += told.said[op.dest_start : op.dest_end]
        if "".join(said) == "".join(heard):
            verdicts.append("harmful")
        elif "".join(said) == "".join(read) or (len(said) == len(read) and all(map(same_word, said, read))):
            verdicts.append("right")
        else:
            verdicts.append("wrong")
    return min(verdicts, key=["right", "wrong", "harmful"].index)


def words_of(text: str) -> tuple[str, ...]:
    """Words in one form, without marks; hyphens part."""
    words = re.findall(r"[a-z0-9']+", text.lower().replace("-", " "))
    return tuple(SPELLINGS.get(word, word).removesuffix("'s") for word in words)


def _told(counts: Counter[str]) -> dict[str, Any]:
    trade, said = max(1, counts["trade"]), max(1, counts["said"])
    wrong = counts["sound_wrong"] + counts["sound_harmful"]
    return {
        **dict(sorted(counts.items())),
        "recall": [round(counts[f"trade_{name}"] / trade, 4) for name in ("heard", "text", "sound")],
        "wrong_in_1000": round(1000 * wrong / said, 2),
    }


def _scores(scorer: Path | None, pairs: dict[str, list[Path]]) -> dict[str, float]:
    """Observations F1 from sound, by the text alone and by the sound."""
    if scorer is None:
        return {}
    found = {}
    for name, paths in pairs.items():
        told = subprocess.run([sys.executable, scorer, *paths, "--json"], check=True, capture_output=True, text=True)
        found[name] = round(float(json.loads(told.stdout)["observations"]["f1"]), 4)
    return found


if __name__ == "__main__":
    main()
