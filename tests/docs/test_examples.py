"""What the documents show is what the program does: word files can be used, commands print what stands there."""

from __future__ import annotations

import re
import shlex
from pathlib import Path

import pytest

from narrate2report.cli import main
from narrate2report.commands.guide import topics

ROOT = Path(__file__).parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")
VOCABULARY = topics()["vocabulary"].read_text(encoding="utf-8")

BLOCK = re.compile(r"^```\n(.+?)\n```$", re.DOTALL | re.MULTILINE)
TRIAL = "$ narrate2report vocab try "


def shown_trials() -> list[tuple[str, list[str]]]:
    """Each command of the README that tries a sentence, with the lines shown below it."""
    blocks = [block.split("\n") for block in BLOCK.findall(README)]
    return [(lines[0], lines[1:]) for lines in blocks if lines[0].startswith(TRIAL)]


def test_the_readme_shows_a_sentence_that_is_tried() -> None:
    assert shown_trials()


@pytest.mark.parametrize(("command", "shown"), shown_trials())
def test_a_sentence_tried_in_the_readme_is_read_as_shown(
    command: str, shown: list[str], monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("COLUMNS", "80")
    assert main(shlex.split(command.removeprefix("$ "))[1:]) == 0
    assert [line.rstrip() for line in capsys.readouterr().out.splitlines()] == shown


def test_the_words_of_the_guide_can_be_used_as_it_says(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    files = re.findall(r"```yaml\n# (my-words/\w+\.yaml)\n(.+?)```", VOCABULARY, re.DOTALL)
    for name, content in files:
        (tmp_path / name).parent.mkdir(exist_ok=True)
        (tmp_path / name).write_text(content, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    commands = [line[2:] for line in VOCABULARY.splitlines() if line.startswith("$ narrate2report vocab")]
    assert {shlex.split(command)[2] for command in commands} == {"check", "try"}
    for command in commands:
        assert main(shlex.split(command)[1:]) == 0
    told = capsys.readouterr().out
    assert "new: dumbwaiter" in told
    assert "No word of yours means something else already." in told
    assert "check: dumbwaiter, works" in told
    assert "condition: range hood, worn" in told
