"""What the speech model hears for the words of the trade: speaks every one in several voices and writes the table.

    python tests/benchmarks/mine_confusions.py --voices flite:slt flite:kal ... --keep FOLDER --out vocab/misheard.yaml

Each word of the vocabulary that may be misheard is spoken in a short sentence, in a phrase in which it stands
(`There are some dents on the door frame.`), by each voice. Sentences are heard as they would be in a walk, many to a
window, without any prompt. What was heard in the place of the word goes into the table, with how often and by how many
voices, where it is as many words; other spellings of one word do not. What was spoken and heard is kept in FOLDER, so
that a run that was interrupted goes on.
"""

from __future__ import annotations

import argparse
import json
import re
import sys
from collections import defaultdict
from collections.abc import Iterator, Sequence
from difflib import SequenceMatcher
from itertools import cycle, zip_longest
from pathlib import Path

import numpy as np

sys.path.insert(0, str(Path(__file__).parents[2]))

from narrate2report.listen.hearing import Heard
from narrate2report.listen.models import find_model
from narrate2report.listen.whisper import Whisper
from narrate2report.read.lexis.inflect import noun_forms, same_word, verb_forms
from narrate2report.read.lexis.lexicon import load_vocabulary
from narrate2report.read.lexis.vocabulary import Vocabulary
from narrate2report.read.lexis.words import SPELLINGS
from narrate2report.read.misheard.neighbours import neighbours_of
from narrate2report.read.misheard.sounds import apart, english_sounds
from narrate2report.records.clip import RATE, Sound
from tests.voices import say

FARTHEST = 0.5
"""How far apart the sounds of what was said and heard may be; beyond, the words were only counted off wrongly."""
TOO_COMMON = 1_500
"""In a million sentences: a word that common is heard right, and is never what was meant by another."""
GAP_S, LONGEST_S = 0.6, 27.0

HEAD = """\
# What the speech model was heard to write for words of the trade, spoken in several synthetic voices.
#   right word: {wrong word: {times: how often, voices: by how many of them}}
# Made by tests/benchmarks/mine_confusions.py; voices: VOICES.
# A row only proposes: whether the right word was said, the sound itself and the words beside it decide.
"""


def main() -> None:
    options = _options()
    options.keep.mkdir(parents=True, exist_ok=True)
    sentences, sounds = to_speak(load_vocabulary()), english_sounds()
    print(f"{len(sentences)} sentences", flush=True)
    found: dict[tuple[str, str], list[str]] = defaultdict(list)
    for voice in options.voices:
        for (sentence, words), heard in zip(sentences, heard_by(voice, sentences, options.keep), strict=True):
            for right, wrong in swapped(sentence, heard, words):
                if apart(sounds.of(right), sounds.of(wrong)) <= FARTHEST:
                    found[right, wrong].append(voice)
        print(f"{voice}: {len(found)} rows so far", flush=True)
    options.out.write_text(table(found, options.voices), encoding="utf-8")


def _options() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("--voices", nargs="+", required=True)
    parser.add_argument("--keep", type=Path, required=True, help="where what was spoken and heard is kept")
    parser.add_argument("--out", type=Path, required=True)
    return parser.parse_args()


def to_speak(vocabulary: Vocabulary) -> list[tuple[str, frozenset[str]]]:
    """Sentences in which every word stands once, each with the words that it is there for."""
    near, sounds = neighbours_of(vocabulary), english_sounds()
    wanted = {
        word
        for word in near.words | near.parts
        if len(word) > 2 and word.isalpha() and sounds.is_word(word) and sounds.common(word) < TOO_COMMON
    }
    things = list(_covering(sorted(_things(vocabulary)), wanted))
    flaws = list(_covering(sorted(_flaws(vocabulary)), wanted))
    states = list(_covering(sorted(_states(vocabulary)), wanted))
    usual = cycle(["wall", "door", "floor", "ceiling", "window", "cabinet"])
    said = []
    for (thing, one), (flaw, other) in zip_longest(things, flaws + states, fillvalue=("", frozenset[str]())):
        what = thing or next(usual)
        if not flaw:
            said.append((f"Now I am looking at the {what}.", one))
        elif (flaw, other) in flaws:
            some = "There are some" if flaw.endswith("s") else "There is a"
            said.append((f"{some} {flaw} on the {what}.", one | other))
        else:
            said.append((f"The {what} {'are' if what.endswith('s') else 'is'} {flaw}.", one | other))
    return said


def _covering(phrases: Sequence[str], wanted: set[str]) -> Iterator[tuple[str, frozenset[str]]]:
    """The shortest phrases that hold the wanted words; each word is then wanted no more."""
    for phrase in sorted(phrases, key=lambda one: (one.count(" ") == 0, one.count(" "), one)):
        new = frozenset(phrase.split()) & wanted
        if new:
            wanted -= new
            yield phrase, new


def _things(vocabulary: Vocabulary) -> set[str]:
    names = {name for term in vocabulary.components.values() for name in (*term.say, *term.else_)}
    names.update(name for term in vocabulary.components.values() for each in term.near.values() for name in each)
    return {form for name in names for form in noun_forms(name)}


def _flaws(vocabulary: Vocabulary) -> set[str]:
    return {form for term in vocabulary.conditions.values() for name in term.nouns for form in noun_forms(name)}


def _states(vocabulary: Vocabulary) -> set[str]:
    terms = vocabulary.conditions.values()
    found = {word for term in terms for word in term.adjectives}
    return found | {form for term in terms for verb in term.verbs for form in verb_forms(verb)}


def heard_by(voice: str, sentences: Sequence[tuple[str, frozenset[str]]], keep: Path) -> list[str]:
    """What was heard of each sentence, spoken by the voice."""
    path = keep / f"heard-{voice.replace(':', '-').replace('/', '-')}.jsonl"
    known: dict[str, str] = {}
    if path.exists():
        known = dict(map(json.loads, path.read_text(encoding="utf-8").splitlines()))
    missing = [sentence for sentence, _ in sentences if sentence not in known]
    model = Whisper(find_model().ready_folder()) if missing else None
    windows = list(_windows(missing, voice, keep / "sounds"))
    for at in range(0, len(windows), 4):
        several = windows[at : at + 4]
        assert model is not None
        for (_, spans), heard in zip(several, model.hear([sound for sound, _ in several]), strict=True):
            with path.open("a", encoding="utf-8") as file:
                for sentence, text in _told_apart(spans, heard):
                    known[sentence] = text
                    file.write(json.dumps([sentence, text]) + "\n")
    return [known[sentence] for sentence, _ in sentences]


Spans = list[tuple[str, float, float]]


def _windows(sentences: Sequence[str], voice: str, keep: Path) -> Iterator[tuple[Sound, Spans]]:
    pause = np.zeros(int(GAP_S * RATE), np.float32)
    pieces: list[Sound] = [pause]
    spans: Spans = []
    at = GAP_S
    for sentence in sentences:
        sound = say(sentence, voice, keep)
        if spans and at + len(sound) / RATE + GAP_S > LONGEST_S:
            yield np.concatenate(pieces), spans
            pieces, spans, at = [pause], [], GAP_S
        spans.append((sentence, at, at + len(sound) / RATE))
        pieces += [sound, pause]
        at += len(sound) / RATE + GAP_S
    if spans:
        yield np.concatenate(pieces), spans


def _told_apart(spans: Spans, heard: Heard) -> Iterator[tuple[str, str]]:
    """The words of a window by the sentence in which the middle of each lies, or which is nearest."""
    texts: list[list[str]] = [[] for _ in spans]
    for word in heard.words:
        middle = (word.start + word.end) / 2
        nearest = min(range(len(spans)), key=lambda at: max(spans[at][1] - middle, middle - spans[at][2], 0.0))
        texts[nearest].append(word.text)
    for (sentence, _, _), words in zip(spans, texts, strict=True):
        yield sentence, " ".join(words)


def swapped(said: str, heard: str, words: frozenset[str]) -> Iterator[tuple[str, str]]:
    """Each of the words that was heard as another one: what was said, what was heard."""
    one, other = _normal(said), _normal(heard)
    for way, first, last, begin, end in SequenceMatcher(None, one, other, autojunk=False).get_opcodes():
        if way == "replace" and last - first == end - begin:
            for right, wrong in zip(one[first:last], other[begin:end], strict=True):
                if right in words and wrong.isalpha() and len(wrong) > 2 and not one_to_read(right, wrong):
                    yield right, wrong


def one_to_read(right: str, wrong: str) -> bool:
    """Whether two words are one to whoever reads them: other forms, and `center` for `centre`."""
    return same_word(right, wrong) or sorted(right) == sorted(wrong)


def _normal(text: str) -> list[str]:
    words = re.findall(r"[a-z']+", text.lower().replace("-", " "))
    return [SPELLINGS.get(word, word) for word in words]


def table(found: dict[tuple[str, str], list[str]], voices: Sequence[str]) -> str:
    """The rows as YAML, in alphabetical order."""
    rows: dict[str, list[str]] = defaultdict(list)
    for (right, wrong), by in sorted(found.items()):
        rows[right].append(f"{_key(wrong)}: {{times: {len(by)}, voices: {len(set(by))}}}")
    lines = [f"{_key(right)}: {{{', '.join(row)}}}\n" for right, row in rows.items()]
    return HEAD.replace("VOICES", ", ".join(voices)) + "\n" + "".join(lines)


def _key(word: str) -> str:
    """A word as YAML takes it: some would be read as yes and no."""
    return f'"{word}"' if word in {"yes", "no", "on", "off", "true", "false", "null"} else word


if __name__ == "__main__":
    main()
