"""The documents keep up with the program."""

from __future__ import annotations

import argparse
import re
from pathlib import Path
from typing import get_args

import pytest
from pydantic import BaseModel

from narrate2report.cli import parser
from narrate2report.commands.guide import topics
from narrate2report.commands.judging_pages import KEYS as JUDGING
from narrate2report.commands.terminal_pages import KEYS
from narrate2report.records.base import Value
from narrate2report.records.comparison import (
    OUTCOMES,
    VERDICTS,
    Became,
    Compared,
    Comparison,
    FlawChange,
    SameRoom,
    UnclearRoom,
)
from narrate2report.records.findings import Entry, Findings, Seal
from narrate2report.records.likeness import Likeness
from narrate2report.records.settlement import Settlement
from narrate2report.records.unit import Dates, DepositTerms, InterestTerms, People, Remedy, Sum, Thing, Unit
from narrate2report.seal.mismatch import Layer

ROOT = Path(__file__).parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")


def commands() -> dict[str, argparse.ArgumentParser]:
    (choices,) = (action.choices for action in parser()._actions if isinstance(action.choices, dict))
    return dict(choices)


@pytest.mark.parametrize("command", commands())
def test_every_command_stands_in_the_readme(command: str) -> None:
    assert f"`narrate2report {command}" in README


def test_the_readme_names_no_command_that_is_not_there() -> None:
    named = set(re.findall(r"`narrate2report ([a-z]+)", README))
    assert named <= set(commands())


GUIDE_OF = {name: name for name in ("chapters", "draft", "report", "review", "statement", "worklist")} | {
    "annotations": "open-data",
    "batch": "batch",
    "compare": "comparing",
    "learn": "learning",
    "coverage": "planning",
    "plan": "planning",
}
OPTIONS = [
    (guide, action.option_strings[-1])
    for name, guide in GUIDE_OF.items()
    for action in commands()[name]._actions
    if action.option_strings and action.option_strings[-1] != "--help"
]


@pytest.mark.parametrize(("name", "option"), OPTIONS)
def test_every_option_of_a_command_with_a_guide_stands_in_it(name: str, option: str) -> None:
    assert f"`{option}" in topics()[name].read_text(encoding="utf-8")


@pytest.mark.parametrize("letter", [letter for keys, _ in KEYS for letter in keys.split(" ") if len(letter) == 1])
def test_every_answer_of_the_review_in_the_terminal_stands_in_its_guide(letter: str) -> None:
    assert f"`{letter}`" in topics()["review"].read_text(encoding="utf-8")


@pytest.mark.parametrize("letter", [letter for keys, _ in JUDGING for letter in keys.split(" ") if len(letter) == 1])
def test_every_answer_of_judging_in_the_terminal_stands_in_its_guide(letter: str) -> None:
    assert f"`{letter}`" in topics()["judging"].read_text(encoding="utf-8")


@pytest.mark.parametrize("word", [*OUTCOMES, *VERDICTS])
def test_every_outcome_and_verdict_stands_in_the_guide_on_judging(word: str) -> None:
    assert f"`{word}`" in topics()["judging"].read_text(encoding="utf-8")


PROMISED = (
    "chapters comparing draft findings judging open-data report review sealing settling speaking statement vocabulary"
    " worklist".split()
)


@pytest.mark.parametrize("name", PROMISED)
def test_each_promised_guide_is_there_and_named_in_the_readme(name: str) -> None:
    assert topics()[name].read_text(encoding="utf-8").startswith("# ")
    assert f"`{name}`" in README


def test_every_guide_is_named_in_the_readme() -> None:
    assert [name for name in topics() if f"`{name}`" not in README] == []


@pytest.mark.parametrize("command", ["seal", "verify", "amend", "key"])
def test_sealing_and_all_its_layers_and_options_stand_in_their_guide(command: str) -> None:
    guide = topics()["sealing"].read_text(encoding="utf-8")
    assert f"$ narrate2report {command}" in guide
    options = [a.option_strings[-1] for a in commands()[command]._actions if a.option_strings]
    told = {"--help", "--quiet"}
    assert [option for option in options if option not in guide and option not in told] == []
    assert [layer for layer in get_args(Layer) if f"| `{layer}` |" not in guide] == []


@pytest.mark.parametrize("command", ["settle", "unit"])
def test_settling_and_all_its_options_stand_in_their_guide(command: str) -> None:
    guide = topics()["settling"].read_text(encoding="utf-8")
    assert f"$ narrate2report {command}" in guide
    options = [a.option_strings[-1] for a in commands()[command]._actions if a.option_strings]
    assert [option for option in options if f"`{option}" not in guide and option != "--help"] == []


@pytest.mark.parametrize("kind", [Unit, People, Dates, DepositTerms, InterestTerms, Sum, Thing, Remedy, Settlement])
def test_every_name_of_a_unit_file_and_of_a_settlement_stands_in_their_guide(kind: type[Value]) -> None:
    guide = topics()["settling"].read_text(encoding="utf-8")
    names = [field.alias or name for name, field in kind.model_fields.items()]
    assert [name for name in names if f"`{name}`" not in guide] == []


@pytest.mark.parametrize("kind", [Findings, Entry, Seal], ids=lambda kind: kind.__name__)
def test_every_field_of_the_file_stands_in_its_guide(kind: type[Findings] | type[Entry] | type[Seal]) -> None:
    guide = topics()["findings"].read_text(encoding="utf-8")
    names = [field.alias or name for name, field in kind.model_fields.items()]
    assert [name for name in names if f"`{name}`" not in guide] == []


@pytest.mark.parametrize(
    "kind", [Comparison, FlawChange, Compared, SameRoom, UnclearRoom], ids=lambda kind: kind.__name__
)
def test_every_field_and_outcome_of_a_comparison_stands_in_its_guide(kind: type[BaseModel]) -> None:
    guide = topics()["comparing"].read_text(encoding="utf-8")
    names = [field.alias or name for name, field in kind.model_fields.items()]
    assert [name for name in (*names, *get_args(Became)) if f"`{name}`" not in guide] == []


def test_every_list_of_likeness_stands_in_the_guide_on_words() -> None:
    guide = topics()["vocabulary"].read_text(encoding="utf-8")
    for section, field in Likeness.model_fields.items():
        inner = field.annotation
        names = inner.model_fields if isinstance(inner, type) and issubclass(inner, BaseModel) else ()
        assert [name for name in (section, *names) if f"`{name}`" not in guide] == []


@pytest.mark.parametrize("name", sorted(path.stem for path in (ROOT / "vocab").glob("*.yaml")))
def test_every_vocabulary_file_and_every_kind_of_cue_stands_in_its_guide(name: str) -> None:
    guide = topics()["vocabulary"].read_text(encoding="utf-8")
    assert f"`{name}.yaml`" in guide
    if name == "cues":
        cues = re.findall(r"^([a-z_]+):", (ROOT / "vocab" / "cues.yaml").read_text("utf-8"), re.MULTILINE)
        assert [cue for cue in cues if f"`{cue}`" not in guide] == []


def test_the_readme_holds_two_commands_that_do_all_set_up() -> None:
    shells = re.findall(r"```sh\n(.+?)\n```", README, flags=re.DOTALL)
    assert len(shells) == 2
    for shell in shells:
        assert "\n" not in shell
        assert "-m venv .venv" in shell
        assert "-r requirements.txt" in shell
    assert shells[0].endswith("narrate2report demo")
    assert shells[1].endswith("-m pytest -n auto")


def test_files_that_the_readme_points_to_are_there() -> None:
    for target in re.findall(r"\]\(([^)#:]+)\)", README):
        assert (ROOT / target).is_file(), target


def test_no_document_or_pin_names_where_packages_come_from_or_this_machine() -> None:
    for path in [*ROOT.glob("*.md"), *ROOT.glob("*.txt"), *ROOT.glob("*.toml"), *topics().values()]:
        text = path.read_text(encoding="utf-8")
        assert not re.search(r"https?://\S*/(?:simple|packages)/|--(?:extra-)?index-url|--find-links|file://", text)
        assert str(Path.home()) + "/" not in text
        assert str(ROOT) not in text
