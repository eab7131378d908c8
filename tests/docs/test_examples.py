"""What the documents show is what the program does: word files can be used, commands print what stands there."""

from __future__ import annotations

import argparse
import os
import re
import shlex
import shutil
import sysconfig
from collections.abc import Iterator
from pathlib import Path

import pytest

from narrate2report.cli import main, parser
from narrate2report.commands.guide import topics
from tests.docs.examples import Example, run, steps
from tests.drafted import Drafted
from tests.learn.firm import seal_walks

ROOT = Path(__file__).parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")
VOCABULARY = topics()["vocabulary"].read_text(encoding="utf-8")

PAGE = topics()["examples"].read_text(encoding="utf-8")
EXAMPLES = [step for page in (README, PAGE) for step in steps(page) if isinstance(step, Example)]


def leaves(parser: argparse.ArgumentParser, *before: str) -> Iterator[tuple[str, ...]]:
    """The words with which each command begins: `plan`, `vocab try`."""
    inner = [action.choices for action in parser._actions if isinstance(action, argparse._SubParsersAction)]
    if not inner:
        yield before
    for name, choice in ((name, choice) for choices in inner for name, choice in choices.items()):
        yield from leaves(choice, *before, name)


@pytest.fixture(scope="module")
def office(tmp_path_factory: pytest.TempPathFactory, move_in: Drafted, move_out: Drafted) -> Iterator[Path]:
    """A folder in which the examples are typed: an index of its own, and nothing that has to be listened to again."""
    folder = tmp_path_factory.mktemp("office")
    (folder / "sample").mkdir()
    for name, drafted in (("move-in", move_in), ("move-out", move_out)):
        shutil.copy(drafted.heard, folder / "sample" / f".{name}.heard.jsonl")
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("NARRATE2REPORT_CACHE", str(tmp_path_factory.mktemp("cache")))
        # As in the pages, where the program is on the search path of whoever types.
        patch.setenv("PATH", sysconfig.get_path("scripts"), prepend=os.pathsep)
        yield folder


@pytest.fixture(scope="module")
def printed(office: Path) -> dict[Example, tuple[int, str, str]]:
    """What each example of the page and of the README came to, typed in the order of the pages."""
    told = {}
    for step in steps(PAGE):
        if isinstance(step, Example):
            told[step] = run(step, office)
        else:
            (office / step.name).parent.mkdir(exist_ok=True)
            (office / step.name).write_text(step.content, encoding="utf-8")
    elsewhere = office / "firm"
    elsewhere.mkdir()
    seal_walks(elsewhere / "walks")
    for step in steps(README):
        if isinstance(step, Example):
            told[step] = run(step, elsewhere)
    return told


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda example: example.command[:60])
def test_an_example_prints_what_stands_below_it(example: Example, printed: dict[Example, tuple[int, str, str]]) -> None:
    status, told, complained = printed[example]
    assert status == 0, complained
    assert example.tells_something
    if not example.is_borne_out_by(told):
        assert told.splitlines() == list(example.shown)  # told line by line where they part


@pytest.mark.parametrize("command", [*leaves(parser())], ids=" ".join)
def test_every_command_has_an_example(command: tuple[str, ...]) -> None:
    assert any(tuple(example.arguments[: len(command)]) == command for example in EXAMPLES)


def test_an_example_that_shows_something_else_would_be_found() -> None:
    example = Example("narrate2report shelf", ("...", "2 walks: ... sealed"))
    assert example.is_borne_out_by("to review\nsealed\n\n2 walks: 1 to review, 1 sealed\n")
    for otherwise in ("3 walks: 1 sealed\n", "2 walks: 1 sealed\nmore\n", "2 walks: 2 to review\n", ""):
        assert not example.is_borne_out_by(otherwise)
    assert not Example("narrate2report shelf", ("...", "...")).tells_something


COMMANDS = [
    (name, line.partition("narrate2report ")[2])
    for name, path in {**topics(), "README": ROOT / "README.md"}.items()
    for block in re.findall(r"^```[a-z]*\n(.+?)\n```$", path.read_text(encoding="utf-8"), re.DOTALL | re.MULTILINE)
    for line in block.split("\n")
    if re.match(r"(?:\$ )?narrate2report ", line)
]


@pytest.mark.parametrize(("page", "typed"), COMMANDS)
def test_whatever_a_page_has_its_reader_type_is_understood(page: str, typed: str) -> None:
    arguments = shlex.split(re.split(r" (?:&&|>|<) ", typed)[0], comments=True)
    assert callable(parser().parse_args(arguments).run), page


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
