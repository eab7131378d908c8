"""Sealed reviews teach words: proposed line by line, accepted by a person, and then read."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest

from narrate2report.cli import main
from narrate2report.records.beside import journal_beside
from tests.learn.firm import seal_walks


@pytest.fixture(scope="module")
def sealed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The sealed walks of a firm; not to be changed."""
    return seal_walks(tmp_path_factory.mktemp("firm") / "walks")


@pytest.fixture
def walks(sealed: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A copy of them, in the folder in which the test runs."""
    monkeypatch.chdir(tmp_path)
    return Path(shutil.copytree(sealed, tmp_path / "walks"))


def accept(folder: Path, *phrases: str) -> None:
    """Take the first mark away from the lines of these phrases."""
    for path in folder.glob("*.yaml"):
        lines = path.read_text(encoding="utf-8").splitlines(keepends=True)
        taken = [line[1:] if any(f'"{one}",' in line for one in phrases) else line for line in lines]
        path.write_text("".join(taken), encoding="utf-8")


def test_an_accepted_line_is_read_and_nothing_else_changes(walks: Path, capsys: pytest.CaptureFixture[str]) -> None:
    before = {path: path.read_bytes() for path in walks.rglob("*") if path.is_file()}
    assert main(["learn", "walks", "--to", "words"]) == 0
    assert {path: path.read_bytes() for path in walks.rglob("*") if path.is_file()} == before
    sentence = ["vocab", "try", "The sucker has a kerf.", "--room", "kitchen", "--vocab", "words", "--json"]
    assert main(["vocab", "check", "words"]) == 0
    capsys.readouterr()
    assert main(sentence) == 0
    assert "range_hood" not in capsys.readouterr().out
    accept(Path("words"), "sucker", "kerf")
    assert main(["vocab", "check", "words"]) == 0
    capsys.readouterr()
    assert main(sentence) == 0
    told = capsys.readouterr().out
    assert '"component": "range_hood"' in told
    assert '"condition": "gouge"' in told


@pytest.mark.usefixtures("walks")
def test_accepted_lines_stay_and_are_not_proposed_again(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["learn", "walks", "--to", "words"]) == 0
    accept(Path("words"), "sucker")
    (line,) = (one for one in Path("words/components.yaml").read_text("utf-8").splitlines() if '"sucker"' in one)
    capsys.readouterr()
    assert main(["learn", "walks", "--to", "words", "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert "sucker" not in {one["phrase"] for one in told["proposals"]}
    assert "kerf" in {one["phrase"] for one in told["proposals"]}
    assert line in Path("words/components.yaml").read_text("utf-8").splitlines()


@pytest.mark.usefixtures("walks")
def test_a_folder_can_be_written_to_again_when_nothing_new_is_proposed(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert main(["learn", "walks", "--to", "words"]) == 0
    accept(Path("words"), "sucker")
    for _ in range(2):
        assert main(["learn", "walks/2b", "--to", "words"]) == 0
    assert "No word to propose" in capsys.readouterr().out
    assert '"sucker"' in Path("words/components.yaml").read_text("utf-8")
    assert "kerf" not in Path("words/conditions.yaml").read_text("utf-8")
    assert main(["vocab", "check", "words"]) == 0
    assert main(["learn", "walks/2b", "--to", "none"]) == 0
    assert not Path("none").exists()


@pytest.mark.usefixtures("walks")
@pytest.mark.parametrize("name", ["components.yaml", "notes.txt"])
def test_what_somebody_wrote_by_hand_is_never_written_over(name: str, capsys: pytest.CaptureFixture[str]) -> None:
    Path("words").mkdir()
    by_hand = Path("words") / name
    by_hand.write_text("range_hood:\n  say: [sucker]\n", encoding="utf-8")
    assert main(["learn", "walks", "--to", "words"]) == 2
    told = capsys.readouterr().err
    assert "name another folder" in told
    assert told.count("\n") == 1
    assert by_hand.read_text(encoding="utf-8") == "range_hood:\n  say: [sucker]\n"


def test_a_walk_that_is_not_sealed_or_was_changed_since_is_passed_over_with_a_word(
    walks: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    journal = journal_beside(walks / "4c" / "walk.findings.json")
    journal.write_bytes(journal.read_bytes().replace(b'"Ida Pell"', b'"Ada Pell"', 1))
    (walks / "5d").mkdir()
    (walks / "5d" / "walk.txt").write_text("[0:00] Kitchen.\n[0:04] The sucker is greasy.\n", encoding="utf-8")
    assert main(["draft", "walks/5d/walk.txt", "--out", "walks/5d/walk.findings.json", "--quiet"]) == 0
    assert main(["learn", "walks"]) == 0
    told = capsys.readouterr().out
    assert "2 sealed walks read again; 1 walk passed over, not sealed yet." in told
    assert "passed over: walks/4c/walk.findings.json: does not match its seal" in told
    assert "range_hood.say: sucker" in told


def test_where_there_is_nothing_to_learn_from_one_line_says_so(
    walks: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "empty").mkdir()
    (tmp_path / "draft").mkdir()
    shutil.copy(walks / "2b" / "walk.txt", tmp_path / "draft")
    assert main(["draft", "draft/walk.txt", "--out", "draft/walk.findings.json", "--quiet"]) == 0
    (walks / "2b" / "walk.findings.json").write_text("{}", encoding="utf-8")
    capsys.readouterr()
    for folder, says in (
        ("none", "is no folder"),
        ("empty", "learn reads what was reviewed and sealed"),
        ("draft", "1 walk there not sealed yet"),
        ("walks/2b", "not a findings file"),
    ):
        assert main(["learn", folder, "--to", "words"]) == 2
        told = capsys.readouterr().err
        assert says in told
        assert told.count("\n") == 1
    assert not Path("words").exists()


@pytest.mark.usefixtures("walks")
def test_one_walk_proves_no_word(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["learn", "walks/2b"]) == 0
    assert "No word to propose" in capsys.readouterr().out


def test_a_copy_of_a_walk_counts_once(walks: Path, capsys: pytest.CaptureFixture[str]) -> None:
    shutil.copytree(walks / "2b", walks / "2b-again")
    for name in ("3a", "4c"):
        shutil.rmtree(walks / name)
    assert main(["learn", "walks", "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert told["walks"] == 1
    assert told["proposals"] == []
