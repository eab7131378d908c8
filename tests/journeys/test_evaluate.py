"""How well a walk was read: by marks made by hand, and by what a person decided."""

from __future__ import annotations

import io
import json
import shutil
import sys
from pathlib import Path

import pytest

from narrate2report.cli import main
from tests.drafted import SAMPLES, Drafted
from tests.journeys.test_draft import NOTES

GOLD = SAMPLES / "move-in.gold.json"


def test_the_sample_is_scored_against_its_marks(move_in: Drafted, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["evaluate", str(GOLD), str(move_in.out), "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert told["observations"]["f1"] >= 0.95
    assert told["observations"]["recall"]["low"] < told["observations"]["recall"]["value"]
    assert told["false_alarms"] == 0


def test_the_table_names_what_was_missed_and_what_is_not_there(
    move_in: Drafted, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    marked = json.loads(GOLD.read_text(encoding="utf-8"))
    marked["entries"][3]["outcome"] = "fails"
    for name in ("move-in.times.json", "move-in.txt"):
        shutil.copy(SAMPLES / name, tmp_path)
    (tmp_path / GOLD.name).write_text(json.dumps(marked), encoding="utf-8")
    assert main(["evaluate", str(tmp_path / GOLD.name), str(move_in.out), "--errors"]) == 0
    told = capsys.readouterr().out
    assert "missed     check entry lock fails" in told
    assert "observations" in told


def test_a_reviewed_walk_tells_how_well_its_own_draft_was(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "walk.txt").write_text(NOTES, encoding="utf-8")
    out = tmp_path / "walk.findings.json"
    assert main(["draft", str(tmp_path / "walk.txt"), "--out", str(out), "--quiet"]) == 0
    assert main(["evaluate", str(out), str(out)]) == 2
    assert "still to be decided" in capsys.readouterr().err
    entries = json.loads(out.read_text(encoding="utf-8"))["entries"]
    answers = ["x"] + ["a"] * (len(entries) - 1) + ["q"]
    monkeypatch.setattr(sys, "stdin", io.StringIO("\n".join(answers) + "\n"))
    assert main(["review", str(out), "--terminal", "--by", "Ida Pell"]) == 0
    capsys.readouterr()
    assert main(["evaluate", str(out), str(out), "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert sum(kind["extra"] for kind in told["kinds"]) == 1
    assert sum(kind["missed"] for kind in told["kinds"]) == 0
    assert sum(kind["found"] for kind in told["kinds"]) == len(entries) - 1


@pytest.mark.parametrize(
    ("gold", "says"),
    [
        ("[]", "is no narration marked by hand"),
        ("{", "is not JSON"),
        ('{"entries": [{"line": 99}]}', "is no narration"),
    ],
)
def test_marks_that_cannot_be_used_are_told_in_one_line(
    gold: str, says: str, move_in: Drafted, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "walk.txt").write_text(NOTES, encoding="utf-8")
    (tmp_path / "walk.gold.json").write_text(gold, encoding="utf-8")
    assert main(["evaluate", str(tmp_path / "walk.gold.json"), str(move_in.out)]) == 2
    told = capsys.readouterr().err
    assert says in told
    assert told.count("\n") == 1


def test_files_come_in_pairs_and_marks_with_their_lines(
    move_in: Drafted, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["evaluate", str(GOLD)]) == 2
    assert "in pairs" in capsys.readouterr().err
    alone = shutil.copy(GOLD, tmp_path)
    assert main(["evaluate", str(alone), str(move_in.out)]) == 2
    assert "needs move-in.txt" in capsys.readouterr().err
