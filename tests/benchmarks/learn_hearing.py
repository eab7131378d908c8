"""Learn how talk on a walk is written down, for `narrate2report/listen/tuning.npz`.

    python tests/benchmarks/learn_hearing.py --pack FOLDER/weights8.npz
    python tests/benchmarks/learn_hearing.py FOLDER --spoken SPOKEN --general GENERAL --held HELD --out tuning.npz

The first packs the bundled weights (8 bits a number, as listening uses them on a processor), the word pieces and the
filters into FOLDER, half as large as the model, so that they can be carried to a machine with a graphics card. The
second, there, needs numpy, PyTorch, tokenizers and soundfile alone. SPOKEN, GENERAL and HELD are folders of
`speak_for_learning.py`: narrations (those of tests/narrations/natural), ordinary English beside them lest it be
unlearned (of the Debian packages jargon-text, public domain, 1,120 sentences, and fortunes, 1,760, of 40 to 230
letters), and texts by other voices that are only measured. Told are the words that come out wrong, of a hundred,
before and after, clean, with the echo of a small room and with noise 15 dB below the voice.

Each window is of whole lines, at another pace and loudness each time, with echo or noise or neither, and parts of
what is heard left out. One in twenty is of something else than a voice, and nothing is to be written.
"""

from __future__ import annotations

import argparse
import json
import random
import re
import shutil
import sys
from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np
from numpy.typing import NDArray

if TYPE_CHECKING:
    from tests.benchmarks.whisper_in_torch import Ear, Whisper

RATE = 16_000
SCALES, FILTERS = "|scale", "filters"
MOST_S, LONGEST_S = (7, 13, 20, 27, 27), 28
"""Windows are drawn to last at most one of these, half of it at least; and none longer than the last."""
BATCH, RATE_OF_LEARNING, GENERAL_SHARE, NOBODY = 64, 1e-3, 1.4, 0.05
SEED = 7

Tensor = Any
"""A torch.Tensor; where the library is not installed, its types are not known."""


@dataclass(frozen=True)
class Line:
    text: str
    start: float
    end: float


@dataclass(frozen=True)
class Spoken:
    """A text that was spoken: its voice, its sound on the card in 16 bits, its lines."""

    voice: str
    sound: Tensor
    lines: tuple[Line, ...]
    share: float = 1.0

    @property
    def is_marked(self) -> bool:
        """Whether most lines end with a mark; others would teach to leave marks out."""
        return sum(line.text.rstrip()[-1:] in ".?!,…" for line in self.lines) > len(self.lines) / 2


def main() -> int:
    options = _options()
    if options.pack:
        pack(options.pack)
        return 0
    from tokenizers import Tokenizer

    sys.path.insert(0, str(Path(__file__).resolve().parents[2]))
    from tests.benchmarks.whisper_in_torch import Ear, Whisper

    packed = np.load(options.folder / "weights8.npz")
    model, ear = Whisper(dict(unpacked(packed)), options.rank, options.halves), Ear(packed[FILTERS])
    pieces = Pieces(Tokenizer.from_file(str(options.folder / "tokenizer.json")))
    held = list(spoken_in(options.held))
    model.tuned = False
    print("before", json.dumps(measured(model, ear, pieces, held)), flush=True)
    model.tuned = True
    texts = [each for each in spoken_in(options.spoken) if each.is_marked]
    learn(model, ear, pieces, [*texts, *spoken_in(options.general, GENERAL_SHARE)], options.steps)
    np.savez_compressed(options.out, **model.learned())  # type: ignore[arg-type, unused-ignore]
    print("after", json.dumps(measured(model, ear, pieces, held)), flush=True)
    return 0


def _options() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("folder", type=Path, nargs="?")
    parser.add_argument("--pack", type=Path, metavar="FILE")
    parser.add_argument("--spoken", type=Path)
    parser.add_argument("--general", type=Path)
    parser.add_argument("--held", type=Path)
    parser.add_argument("--steps", type=int, default=900)
    parser.add_argument("--rank", type=int, default=8)
    parser.add_argument("--halves", default="decoder|encoder", help="of the model, that are tuned (a pattern)")
    parser.add_argument("--out", type=Path)
    return parser.parse_args()


def pack(target: Path) -> None:
    """The published weights in 8 bits, each row with its scale, the word pieces and the filters beside them."""
    from faster_whisper.feature_extractor import FeatureExtractor

    from narrate2report.listen.models import UNTUNED, find_model
    from narrate2report.listen.tuning import HALF, variables

    folder = find_model(UNTUNED).ready_folder()
    weights = (folder / "model.bin").read_bytes()
    packed: dict[str, NDArray[Any]] = {FILTERS: np.asarray(FeatureExtractor().mel_filters, np.float32)}
    for name, place in variables(weights):
        if place.type != HALF:
            continue
        value = np.frombuffer(weights[place.start : place.end], np.float16).reshape(place.shape)
        if len(place.shape) == 2 and "encodings" not in name:
            scales = np.maximum(np.abs(value.astype(np.float32)).max(1), 1e-9) / 127
            packed[name + SCALES] = scales
            value = np.round(value / scales[:, None]).astype(np.int8)
        packed[name] = value
    target.parent.mkdir(parents=True, exist_ok=True)
    np.savez(target, **packed)  # type: ignore[arg-type, unused-ignore]
    shutil.copy(folder / "tokenizer.json", target.parent)


def unpacked(packed: Mapping[str, NDArray[Any]]) -> Iterator[tuple[str, NDArray[np.float32]]]:
    """Each variable of the model by its name."""
    for name in packed:
        if name == FILTERS or name.endswith(SCALES):
            continue
        value = packed[name].astype(np.float32)
        yield name, value * packed[name + SCALES][:, None] if name + SCALES in packed else value


def spoken_in(folder: Path, share: float = 1.0) -> Iterator[Spoken]:
    """What `speak_for_learning.py` wrote into a folder."""
    import soundfile
    import torch

    files = sorted(folder.glob("*.ogg"))
    with ThreadPoolExecutor() as pool:
        for file, (sound, _) in zip(
            files, pool.map(lambda each: soundfile.read(each, dtype="int16"), files), strict=True
        ):
            told = json.loads(file.with_suffix(".json").read_text(encoding="utf-8"))
            lines = tuple(Line(**line) for line in told["lines"])
            yield Spoken(told["voice"], torch.from_numpy(sound).cuda(), lines, share)


class Pieces:
    """Text to the model's word pieces and back."""

    def __init__(self, tokenizer: Any) -> None:
        self._tokenizer = tokenizer
        asked = ("<|startoftranscript|>", "<|en|>", "<|transcribe|>", "<|notimestamps|>")
        self.prompt = [tokenizer.token_to_id(each) for each in asked]
        self.end = tokenizer.token_to_id("<|endoftext|>")

    def of(self, text: str) -> list[int]:
        """The prompt, the text and the end behind it."""
        words = self._tokenizer.encode(text, add_special_tokens=False).ids[:400] if text else []
        return [*self.prompt, *words, self.end]

    def text(self, ids: Sequence[int]) -> str:
        return str(self._tokenizer.decode([each for each in ids[len(self.prompt) :] if each < self.end]))


def learn(model: Whisper, ear: Ear, pieces: Pieces, texts: Sequence[Spoken], steps: int) -> None:
    """Make the texts as likely on their sound as the narrow matrices can."""
    import torch
    from torch.nn import functional

    from tests.benchmarks.whisper_in_torch import warmed_and_cooled

    random.seed(SEED)
    torch.manual_seed(SEED)
    optimizer = torch.optim.AdamW(model.parameters, lr=RATE_OF_LEARNING, weight_decay=0.01)
    lately = 0.0
    for step in range(1, steps + 1):
        for group in optimizer.param_groups:
            group["lr"] = RATE_OF_LEARNING * warmed_and_cooled(step, steps)
        mel, ids, counts = batch(ear, pieces, texts)
        with torch.autocast("cuda", torch.bfloat16):
            encoded = model.encode(mel)
            decoded = model.decode(ids[:, :-1], encoded)[counts]
            loss = functional.cross_entropy(model.scores(decoded).float(), ids[:, 1:][counts])
        optimizer.zero_grad()
        loss.backward()
        torch.nn.utils.clip_grad_norm_(model.parameters, 1.0)
        optimizer.step()
        lately = 0.98 * lately + 0.02 * loss.item() if step > 1 else loss.item()
        if step % 100 == 0:
            print(f"step {step} of {steps}: loss {lately:.3f}", flush=True)


def batch(ear: Ear, pieces: Pieces, texts: Sequence[Spoken]) -> tuple[Tensor, Tensor, Tensor]:
    """What is heard in some windows, what is to be written, and which of it counts (all behind the prompt)."""
    import torch
    from torch.nn import functional

    from tests.benchmarks.phone_sounds import as_phones_hear, nobody

    most = random.choice(MOST_S)
    sounds, said = [], []
    for text in random.choices(texts, [len(each.lines) * each.share for each in texts], k=BATCH):
        if random.random() < NOBODY:
            sounds.append(nobody(random.uniform(2, most)))
            said.append("")
            continue
        sound, words, _ = window(text, random.randrange(len(text.lines)), random.uniform(0.5, 1) * most)
        pace = random.choice((1.0, random.uniform(0.88, 1.12)))
        if pace != 1:
            sound = functional.interpolate(sound[None, None], scale_factor=pace, mode="linear")[0, 0][
                : LONGEST_S * RATE
            ]
        sounds.append(sound)
        said.append(words)
    lengths = [len(sound) for sound in sounds]
    mel = ear.features(as_phones_hear(_beside(sounds), lengths), lengths)
    for at, length in enumerate(lengths):
        if random.random() < 0.5:
            band, start = random.randrange(70), random.randrange(max(1, length // ear.HOP))
            mel[at, band : band + random.randrange(12)] = 0
            mel[at, :, start : start + random.randrange(25)] = 0
    told = [pieces.of(words) for words in said]
    ids = torch.full((BATCH, max(map(len, told))), pieces.end, device="cuda")
    counts = torch.zeros(BATCH, ids.shape[1] - 1, dtype=torch.bool, device="cuda")
    for at, each in enumerate(told):
        ids[at, : len(each)] = torch.tensor(each)
        counts[at, len(pieces.prompt) - 1 : len(each) - 1] = True
    return mel, ids, counts


def window(text: Spoken, first: int, most_s: float) -> tuple[Tensor, str, int]:
    """Whole lines from the first on that last no longer, at least one: sound, words and which was the last."""
    last = first
    while last + 1 < len(text.lines) and text.lines[last + 1].end - text.lines[first].start < most_s:
        last += 1
    start = max(0, int((text.lines[first].start - random.uniform(0, 0.3)) * RATE))
    end = min(int((text.lines[last].end + random.uniform(0, 0.25)) * RATE), start + LONGEST_S * RATE)
    words = " ".join(re.sub(r"\s+", " ", line.text.strip()) for line in text.lines[first : last + 1])
    return text.sound[start:end].float() / 32768, " " + words, last


def measured(model: Whisper, ear: Ear, pieces: Pieces, texts: Sequence[Spoken]) -> dict[str, float]:
    """Of a hundred words of each voice and condition, how many come out wrong."""
    import torch

    from tests.benchmarks.phone_sounds import drawn, noise, with_echo

    wrong: dict[str, int] = defaultdict(int)
    total: dict[str, int] = defaultdict(int)
    for text in texts:
        for condition in ("clean", "echo", "noise"):
            random.seed(1)
            torch.manual_seed(1)
            at = 0
            while at < len(text.lines):
                sound, said, last = window(text, at, 24)
                at = last + 1
                sounds = sound[None]
                if condition == "echo":
                    sounds = with_echo(sounds, drawn(1, 0.35, 0.35), drawn(1, 0.25, 0.25))
                if condition == "noise":
                    loud = float(sound.std()) * 10 ** (-15 / 20)
                    sounds = sounds + noise(drawn(1, 0.5, 0.5), len(sound)) * loud
                words = _words(said)
                wrong[f"{text.voice}/{condition}"] += _errors(words, _words(hear(model, pieces, ear, sounds)))
                total[f"{text.voice}/{condition}"] += len(words)
    return {name: round(100 * wrong[name] / total[name], 1) for name in total}


def hear(model: Whisper, pieces: Pieces, ear: Ear, sounds: Tensor, most: int = 220) -> str:
    """The likeliest piece, one after the other, of one window."""
    import torch

    with torch.no_grad(), torch.autocast("cuda", torch.bfloat16):
        encoded = model.encode(ear.features(sounds, [sounds.shape[1]]))
        ids = list(pieces.prompt)
        while len(ids) < most and ids[-1] != pieces.end:
            decoded = model.decode(torch.tensor([ids], device="cuda"), encoded)[:, -1]
            ids.append(int(model.scores(decoded)[0, : pieces.end + 1].argmax()))
    return pieces.text(ids)


def _words(text: str) -> list[str]:
    return re.sub(r"[^a-z0-9' ]", " ", text.lower().replace("\N{RIGHT SINGLE QUOTATION MARK}", "'")).split()


def _errors(said: Sequence[str], heard: Sequence[str]) -> int:
    """Words to put in, take out or exchange."""
    row = list(range(len(heard) + 1))
    for at, word in enumerate(said, 1):
        before, row[0] = row[0], at
        for other, one in enumerate(heard, 1):
            before, row[other] = row[other], min(row[other] + 1, row[other - 1] + 1, before + (word != one))
    return row[-1]


def _beside(sounds: Sequence[Tensor]) -> Tensor:
    """Sounds of several lengths as rows."""
    from torch.nn.utils.rnn import pad_sequence

    return pad_sequence(list(sounds), batch_first=True)


if __name__ == "__main__":
    raise SystemExit(main())
