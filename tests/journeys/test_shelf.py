"""Many walks: listed by what they wait for, and searched by what was said in them."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from narrate2report.cli import main
from tests.journeys.test_draft import NOTES


@pytest.fixture
def shelf(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("NARRATE2REPORT_CACHE", str(tmp_path / "cache"))
    folder = tmp_path / "walks"
    for name, day in (("older", "2025-02-01"), ("newer", "2026-02-01")):
        (folder / name).mkdir(parents=True)
        (folder / name / "walk.txt").write_text(NOTES + "[9:00] In the bathroom, the caulk on the tub is loose.\n")
        out = folder / name / "walk.findings.json"
        asked = ["draft", str(folder / name / "walk.txt"), "--out", str(out), "--quiet", "--date", day, "--unit", name]
        assert main(asked) == 0
    (folder / "film.mp4").write_bytes(b"not looked into")
    return folder


def test_the_list_says_what_each_walk_waits_for(shelf: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["shelf", str(shelf)]) == 0
    told = capsys.readouterr().out.splitlines()
    assert told[0].startswith("to draft")
    assert told[0].endswith("film.mp4")
    assert [line.split()[-1] for line in told[1:3]] == ["older/walk.findings.json", "newer/walk.findings.json"]
    assert told[-1] == "3 walks: 1 to draft, 2 to review"
    assert main(["shelf", str(shelf), "--unit", "NEWER", "--json"]) == 0
    (walk,) = json.loads(capsys.readouterr().out)
    assert walk["path"] == "newer/walk.findings.json"
    assert walk["standing"] == "to_review"


def test_words_are_found_by_any_name_of_the_thing(shelf: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["find", "caulking bathtub", str(shelf), "--json"]) == 0
    hits = json.loads(capsys.readouterr().out)
    assert [hit["unit"] for hit in hits] == ["newer", "older"]
    assert hits[0]["quote"] == "In the bathroom, the caulk on the tub is loose."
    assert main(["find", "caulk bathtub", str(shelf)]) == 0
    told = capsys.readouterr().out
    assert (shelf / "newer" / "walk.txt").resolve().as_uri() + "#t=" in told
    assert main(["find", "xylophone", str(shelf)]) == 0
    assert "Found nowhere" in capsys.readouterr().out


def test_what_cannot_be_listed_or_looked_for_is_told_in_one_line(
    tmp_path: Path, shelf: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    for asked in (
        ["shelf", str(tmp_path / "none")],
        ["find", "?!", str(shelf)],
        ["find", "a", str(shelf), "--most", "0"],
    ):
        assert main(asked) == 2
        assert capsys.readouterr().err.count("\n") == 1
