"""The speech model's files are found, joined, and checked before they are used."""

from __future__ import annotations

import hashlib
import shutil
from pathlib import Path

import pytest

from narrate2report.cli import main
from narrate2report.errors import ModelMissing
from narrate2report.listen import models
from narrate2report.listen.models import CHECKSUMS, TUNED, UNTUNED, find_model
from narrate2report.listen.shelf import models_here
from narrate2report.records.cache import cache_folder

SMALL = {
    "config.json": b"{}",
    "tokenizer.json": b"[]",
    "vocabulary.txt": b"a\nb\n",
}


@pytest.fixture
def parts(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> tuple[Path, Path]:
    """A small model in two parts, with its own checksums, and an empty cache."""
    first, second = tmp_path / "part1", tmp_path / "part2"
    for folder in (first, second):
        folder.mkdir()
    for name, content in SMALL.items():
        (first / name).write_bytes(content)
    (first / "model.bin.part1").write_bytes(b"the first half, ")
    (second / "model.bin.part2").write_bytes(b"the second half")
    sums = {name: hashlib.sha256(content).hexdigest() for name, content in SMALL.items()}
    sums["model.bin"] = hashlib.sha256(b"the first half, the second half").hexdigest()
    monkeypatch.setattr(models, "CHECKSUMS", sums)
    monkeypatch.setattr(models, "_parts", lambda: (first, second))
    monkeypatch.setenv("NARRATE2REPORT_CACHE", str(tmp_path / "cache"))
    return first, second


@pytest.mark.parametrize(("name", "weights"), [(None, TUNED), (UNTUNED, CHECKSUMS["model.bin"])])
def test_the_bundled_models_are_there_and_as_they_should_be(
    name: str | None, weights: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("NARRATE2REPORT_CACHE", str(tmp_path))
    model = find_model(name)
    folder = model.ready_folder()
    assert model.sha256 == weights
    for file, expected in {**CHECKSUMS, "model.bin": weights}.items():
        assert hashlib.sha256((folder / file).read_bytes()).hexdigest() == expected
    assert [path.name for path in (tmp_path / "models").iterdir()] == [folder.name]


@pytest.mark.usefixtures("parts")
def test_the_parts_are_joined_in_the_cache_and_then_used_from_there() -> None:
    folder = find_model("base").ready_folder()
    assert folder.parent.parent == cache_folder()
    assert (folder / "model.bin").read_bytes() == b"the first half, the second half"
    made = (folder / "model.bin").stat().st_mtime_ns
    assert find_model("base").ready_folder() == folder
    assert (folder / "model.bin").stat().st_mtime_ns == made


@pytest.mark.usefixtures("parts")
@pytest.mark.parametrize("name", ["model.bin", "vocabulary.txt"])
def test_a_file_of_the_cache_that_changed_is_made_again(name: str) -> None:
    folder = find_model("base").ready_folder()
    whole = (folder / name).read_bytes()
    (folder / name).write_bytes(whole[:-1] + b"?")
    assert (find_model("base").ready_folder() / name).read_bytes() == whole


@pytest.mark.parametrize("asked_for", [None, "base"])
def test_a_damaged_package_is_refused_and_nothing_is_left(
    asked_for: str | None, parts: tuple[Path, Path], tmp_path: Path
) -> None:
    (parts[1] / "model.bin.part2").write_bytes(b"the second hal?")
    with pytest.raises(ModelMissing, match="damaged; install"):
        find_model(asked_for).ready_folder()
    assert list((tmp_path / "cache" / "models").iterdir()) == []


def test_packages_that_are_not_installed_are_named(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(models, "PARTS", ("no_such_weights_package",))
    with pytest.raises(ModelMissing, match="no_such_weights_package is missing"):
        find_model()


def test_a_cache_that_cannot_be_written_is_told(
    parts: tuple[Path, Path], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert parts
    (tmp_path / "file").touch()
    monkeypatch.setenv("NARRATE2REPORT_CACHE", str(tmp_path / "file"))
    with pytest.raises(ModelMissing, match="NARRATE2REPORT_CACHE"):
        find_model().ready_folder()


def test_a_folder_of_ones_own_is_used_as_it_is(tmp_path: Path) -> None:
    own = tmp_path / "my-model"
    own.mkdir()
    for name in ("model.bin", "config.json", "tokenizer.json"):
        (own / name).write_bytes(b"x")
    model = find_model(str(own))
    assert model.name == "my-model"
    assert model.sha256 == hashlib.sha256(b"x").hexdigest()
    assert model.ready_folder() == own


@pytest.fixture
def own(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A model of one's own in the models folder, with its publisher's checksums."""
    monkeypatch.setenv("NARRATE2REPORT_MODELS", str(tmp_path / "models"))
    folder = tmp_path / "models" / "larger"
    folder.mkdir(parents=True)
    for name in ("model.bin", "config.json", "tokenizer.json"):
        (folder / name).write_bytes(name.encode())
    write_sums(folder)
    return folder


def write_sums(folder: Path) -> None:
    lines = [
        f"{hashlib.sha256(path.read_bytes()).hexdigest()}  {path.name}\n" for path in folder.iterdir() if path.suffix
    ]
    (folder / "SHA256SUMS").write_text("".join(lines), encoding="utf-8")


def test_a_model_of_the_models_folder_is_found_by_its_name(own: Path) -> None:
    model = find_model("larger")
    assert model.ready_folder() == own
    assert model.sha256 == hashlib.sha256(b"model.bin").hexdigest()


@pytest.mark.parametrize("name", ["model.bin", "config.json"])
def test_a_model_that_is_not_what_its_checksums_say_is_refused(own: Path, name: str) -> None:
    (own / name).write_bytes(b"another")
    with pytest.raises(ModelMissing, match=f"{name} is damaged"):
        find_model("larger")
    (own / name).unlink()
    with pytest.raises(ModelMissing, match=r"missing|has no"):
        find_model("larger")


def test_what_is_here_is_listed_with_its_state(own: Path) -> None:
    for name in ("unchecked", "damaged", "torn"):
        shutil.copytree(own, own.with_name(name))
    (own.with_name("unchecked") / "SHA256SUMS").unlink()
    (own.with_name("damaged") / "model.bin").write_bytes(b"?")
    (own.with_name("torn") / "tokenizer.json").unlink()
    told = {model.name: model for model in models_here()}
    assert {name for name, model in told.items() if model.verified} == {"walk", "larger"}
    assert told["walk"].sha256 == TUNED
    assert "nothing to check it against" in told["unchecked"].remark
    assert told["unchecked"].sha256 is not None
    assert "model.bin is damaged" in told["damaged"].remark
    assert "has no tokenizer.json" in told["torn"].remark


def test_the_command_names_each_model_and_where_another_goes(own: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["models"]) == 0
    told = capsys.readouterr().out
    assert "walk  145 MB  verified" in told
    assert "--model base" in told
    assert "larger  0 MB  verified" in told
    assert str(own.parent) in told


def test_a_folder_that_holds_no_model_is_refused(tmp_path: Path) -> None:
    with pytest.raises(ModelMissing, match=r"has no model\.bin"):
        find_model(str(tmp_path))
    with pytest.raises(ModelMissing, match="is no model here and no folder"):
        find_model("enormous")
