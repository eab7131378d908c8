"""Fit what each sign of a bearer counts, and how often each flaw befalls each component, on narrations marked by hand.

    PYTHONPATH=. python tests/benchmarks/fit_bearers.py FOLDER ... [--write]

FOLDER holds NAME.txt with NAME.gold.json. One case is one word for a condition whose line has marks of that
condition; its candidates are those that reading weighs up, right where a mark accepts them. The weights are those of
a log-linear choice between the candidates (conditional logit) with a quadratic penalty; a component that is a
candidate in several places gathers what all of them count. How often flaws befall a component is counted over all
marks of the other narrations, so that no narration speaks for itself.

Printed is how many cases are right when each tenth of the narrations is decided by weights and counts of the other
nine (whole narrations are left out, since a speaker repeats himself). With --write the weights of all of them go to
`sign_weights.py`, the counts to `vocab/befalls.yaml`.
"""

from __future__ import annotations

import argparse
import json
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any
from unittest.mock import patch

import numpy as np

from narrate2report.intake.transcripts import read_transcript
from narrate2report.read.lexis.befalls import Befalls
from narrate2report.read.lexis.lexicon import load_vocabulary
from narrate2report.read.lexis.phrase_tree import Mention
from narrate2report.read.meant.scene import Scene
from narrate2report.read.reading import Reader
from narrate2report.read.state import conditions, ranking
from narrate2report.read.state.ranking import weigh_up
from tests.benchmarks.log_linear import which
from tests.benchmarks.marked import marks_beside, several

PENALTY = 0.03
"""Of 0.03, 0.1 and 0.3, which differ by a tenth of a point on the cases left out."""

TENTHS = 10
COUNTED = "befalls it"
ROOT = Path(__file__).parents[2]


@dataclass(frozen=True)
class Option:
    """A candidate of a case: what it is, what the word would mean of it, its signs, and whether a mark accepts it."""

    component: str
    condition: str | None
    signs: dict[str, float]
    right: bool


@dataclass(frozen=True)
class Case:
    """One word for a condition in a narration."""

    narration: str
    line: int
    words: str
    sentence: str
    options: tuple[Option, ...]


def main() -> None:
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("folders", type=Path, nargs="+")
    parser.add_argument("--write", action="store_true")
    parser.add_argument("--wrong", action="store_true", help="print the cases left out that are decided wrongly")
    options = parser.parse_args()
    texts = sorted(text for folder in options.folders for text in folder.glob("*.txt"))
    golds = {text.stem: _marks(text) for text in texts}
    cases = list(_cases(texts, golds))
    tenth = {name: at % TENTHS for at, name in enumerate(sorted(golds, key=lambda name: name[::-1]))}
    reach = sum(any(one.right for one in case.options) for case in cases)
    print(f"{len(cases)} cases of {len(golds)} narrations; a right candidate in {reach / len(cases):.4f}")
    folds = [_with_counts(cases, golds, tenth, left) for left in range(TENTHS)]
    right = 0
    for left in range(TENTHS):
        weights = _fit([case for case in folds[left] if tenth[case.narration] != left])
        for case in folds[left]:
            if tenth[case.narration] == left:
                best = _best(case, weights)
                right += best.right
                if options.wrong and not best.right:
                    print(f"{case.narration} {case.line}: {case.words!r} {best.component} | {case.sentence}")
    print(f"right where left out: {right / len(cases):.4f}")
    weights = _fit(_with_counts(cases, golds, tenth, None))
    whole = Befalls(_counts(golds.values()))
    own = [_counted(case, whole) for case in cases]
    print(f"right where fitted:   {sum(_best(case, weights).right for case in own) / len(own):.4f}")
    if options.write:
        _write(weights, whole, f"{len(cases)} cases of {len(golds)} narrations, {right / len(cases):.1%} right")


Marks = list[dict[str, Any]]


def _marks(text: Path) -> Marks:
    told = marks_beside(text)
    return [{key: several(value) for key, value in one.items()} for one in told if one["kind"] == "condition"]


def _cases(texts: Sequence[Path], golds: dict[str, Marks]) -> Iterator[Case]:
    vocabulary = load_vocabulary()
    reader = Reader(vocabulary)
    for text in texts:
        seen: list[tuple[Scene, Mention, tuple[Option, ...]]] = []
        weighed = ranking.bear

        def watch(mention: Mention, grammar: Any, scene: Scene, *, noun: bool) -> Any:
            told = weighed(mention, grammar, scene, noun=noun)  # noqa: B023
            if scene.is_said(mention.start):
                options = tuple(
                    Option(one.component, sense.id if sense else None, dict(one.signs), False)
                    for one, sense in weigh_up(mention, grammar, scene, noun=noun)
                )
                seen.append((scene, mention, options))  # noqa: B023
            return told

        transcript = read_transcript(text)
        with patch.object(conditions, "bear", watch):
            reader.read(transcript)
        starts = [stretch.start for stretch in transcript.stretches]
        for scene, mention, options in seen:
            line = sum(start <= scene.spoken.sentence.start + 0.01 for start in starts)
            yield from _case(text.stem, line, scene, mention, options, golds[text.stem])


def _case(
    name: str, line: int, scene: Scene, mention: Mention, options: Sequence[Option], marks: Marks
) -> Iterator[Case]:
    here = [mark for mark in marks if line in mark["line"]]
    told = [mark for mark in here if any(one.condition in mark["condition"] for one in options)]
    if not told:
        return
    # Of several marks, one that would also accept this word is not the one that means it.
    told = [mark for mark in told if any(one.condition == mark["condition"][0] for one in options)] or told
    judged = tuple(
        replace(
            one, right=any(one.component in mark["component"] and one.condition in mark["condition"] for mark in told)
        )
        for one in options
    )
    words = scene.spoken.words(mention.start, mention.end)
    yield Case(name, line, words, scene.spoken.text, judged)


def _counts(golds: Any) -> dict[str, dict[str, int]]:
    counted: dict[str, Counter[str]] = {}
    for mark in (mark for marks in golds for mark in marks):
        counted.setdefault(mark["condition"][0], Counter()).update(mark["component"])
    return {condition: dict(sorted(told.items())) for condition, told in sorted(counted.items())}


def _with_counts(cases: Sequence[Case], golds: dict[str, Marks], tenth: dict[str, int], left: int | None) -> list[Case]:
    """The cases with counts from which their own tenth, and the one left out, are missing."""
    known = {
        own: Befalls(_counts(marks for name, marks in golds.items() if tenth[name] not in {own, left}))
        for own in range(TENTHS)
    }
    return [_counted(case, known[tenth[case.narration]]) for case in cases]


def _counted(case: Case, known: Befalls) -> Case:
    options = []
    for one in case.options:
        told = known.speaks_for(one.condition, one.component) if one.condition else 0.0
        counted = {sign: told for sign in one.signs if sign.startswith(COUNTED)}
        options.append(replace(one, signs=one.signs | counted))
    return replace(case, options=tuple(options))


def _fit(cases: Sequence[Case]) -> dict[str, float]:
    """The weights under which the right candidates are likeliest."""
    found = which([case.options for case in cases], least=1, variance=0.5 / PENALTY)
    return {sign: round(weight, 3) for sign, weight in found.items()}


def _best(case: Case, weights: dict[str, float]) -> Option:
    """As `ranking.rank` chooses."""
    scores: dict[str, float] = {}
    for one in case.options:
        own = sum(weights.get(sign, 0.0) * value for sign, value in one.signs.items())
        scores[one.component] = float(np.logaddexp(scores.get(one.component, -np.inf), own))
    first = max(scores, key=lambda component: scores[component])
    return next(one for one in case.options if one.component == first)


def _write(weights: dict[str, float], known: Befalls, measured: str) -> None:
    path = ROOT / "narrate2report" / "read" / "state" / "sign_weights.py"
    head = path.read_text().partition("WEIGHTS")[0]
    rows = "".join(f"    {json.dumps(sign)}: {weight},\n" for sign, weight in weights.items() if abs(weight) >= 0.005)
    path.write_text(f"{head}WEIGHTS: dict[str, float] = {{\n{rows}}}\n")
    lines = [
        "# How often each flaw was marked of each component in narrations of invented walks; a mark that",
        "# accepts several counts for each. Made by tests/benchmarks/fit_bearers.py with sign_weights.py:",
        f"# {measured} where left out.",
        "#   condition: {component: how often}",
        "",
    ]
    for condition, told in known.counts.items():
        lines += _row(condition, told)
    (ROOT / "vocab" / "befalls.yaml").write_text("\n".join(lines) + "\n")


def _row(condition: str, told: Any) -> list[str]:
    """One condition, wrapped to the width of the other files."""
    lines, line = [], f"{condition}: {{"
    for at, (component, times) in enumerate(told.items()):
        piece = f"{component}: {times}" + ("}" if at == len(told) - 1 else ", ")
        if len(line) + len(piece) > 118:
            lines.append(line.rstrip())
            line = "  "
        line += piece
    return [*lines, line]


if __name__ == "__main__":
    main()
