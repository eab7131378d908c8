"""What counts as the same is data: a firm's own list adds to it, and a mistake in it is told where it stands."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from narrate2report.cli import main
from narrate2report.errors import BadVocabulary
from narrate2report.read.lexis.lexicon import load_vocabulary
from tests.compare.pair_files import walk_of

BEFORE = walk_of("1", "move_in 2020-01-01", "[kitchen]\n1 wall gouge | The wall is gouged.", "in.mp4")
AFTER = walk_of("1", "move_out 2021-01-01", "[kitchen]\n1 wall burn | The wall is burned.", "out.mp4")


def words(folder: Path, text: str) -> Path:
    (folder / "likeness.yaml").write_text(text, encoding="utf-8")
    return folder


def outcomes(folder: Path, *options: str) -> list[str]:
    for name, content in (("in.json", BEFORE), ("out.json", AFTER)):
        (folder / name).write_text(json.dumps(content), encoding="utf-8")
    out = folder / "changes.json"
    arguments = [str(folder / "in.json"), str(folder / "out.json"), "--out", str(out), "--quiet", *options]
    assert main(["compare", *arguments]) == 0
    return [change["outcome"] for change in json.loads(out.read_text(encoding="utf-8"))["changes"]]


def test_a_list_of_ones_own_makes_two_conditions_one(tmp_path: Path) -> None:
    assert outcomes(tmp_path) == ["gone", "new"]
    own = tmp_path / "own"
    own.mkdir()
    words(own, "conditions:\n  alike:\n    welding: [gouge, burn]\n")
    assert outcomes(tmp_path, "--vocab", str(own)) == ["unchanged"]


def test_it_has_no_part_in_the_version_of_the_words_that_reading_uses(tmp_path: Path) -> None:
    own = words(tmp_path, "conditions:\n  alike:\n    welding: [gouge, burn]\n")
    assert load_vocabulary(own).version == load_vocabulary().version
    assert load_vocabulary(own).likeness != load_vocabulary().likeness


def test_own_words_can_be_checked(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["vocab", "check", str(words(tmp_path, "places:\n  things:\n    range: [jukebox]\n"))]) == 0
    assert "likeness.yaml" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("conditions:\n  alike:\n    mine: [gouge, birn]\n", r"likeness.yaml:3: .*no such id 'birn'; use burn"),
        ("conditions:\n  grows:\n    teer: [missing]\n", r"likeness.yaml:3: .*no such id 'teer'; use tear"),
        ("components:\n  once: [spaceship]\n", r"likeness.yaml:2: .*no such id 'spaceship'"),
        ("rooms:\n  outside: [yrd]\n", r"likeness.yaml:2: .*no such id 'yrd'; use yard"),
        (
            "conditions:\n  alik:\n    mine: [gouge, burn]\n",
            r"likeness.yaml:2: conditions.alik: no such key; use alike",
        ),
        ("condition:\n  alike:\n    mine: [gouge, burn]\n", r"likeness.yaml:1: condition: no such key; use conditions"),
        ("conditions:\n  alike: [gouge, burn]\n", r"likeness.yaml:2: conditions.alike: blocks are wanted"),
    ],
)
def test_a_mistake_is_told_with_file_and_line(text: str, told: str, tmp_path: Path) -> None:
    with pytest.raises(BadVocabulary, match=told):
        load_vocabulary(words(tmp_path, text))
