"""The speech model's files are found, joined, and checked before they are used."""

from __future__ import annotations

import hashlib
from pathlib import Path

import pytest

from narrate2report.errors import ModelMissing
from narrate2report.listen import models
from narrate2report.listen.models import CHECKSUMS, cache_folder, find_model

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


def test_the_bundled_model_is_there_and_as_published(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("NARRATE2REPORT_CACHE", str(tmp_path))
    model = find_model()
    folder = model.ready_folder()
    assert model.sha256 == CHECKSUMS["model.bin"]
    for name, expected in CHECKSUMS.items():
        assert hashlib.sha256((folder / name).read_bytes()).hexdigest() == expected
    assert [path.name for path in (tmp_path / "models").iterdir()] == [folder.name]


@pytest.mark.usefixtures("parts")
def test_the_parts_are_joined_in_the_cache_and_then_used_from_there() -> None:
    folder = find_model("base").ready_folder()
    assert folder.parent.parent == cache_folder()
    assert (folder / "model.bin").read_bytes() == b"the first half, the second half"
    made = (folder / "model.bin").stat().st_mtime_ns
    assert find_model().ready_folder() == folder
    assert (folder / "model.bin").stat().st_mtime_ns == made


@pytest.mark.usefixtures("parts")
@pytest.mark.parametrize("name", ["model.bin", "vocabulary.txt"])
def test_a_file_of_the_cache_that_changed_is_made_again(name: str) -> None:
    folder = find_model().ready_folder()
    whole = (folder / name).read_bytes()
    (folder / name).write_bytes(whole[:-1] + b"?")
    assert (find_model().ready_folder() / name).read_bytes() == whole


def test_a_damaged_package_is_refused_and_nothing_is_left(parts: tuple[Path, Path], tmp_path: Path) -> None:
    (parts[1] / "model.bin.part2").write_bytes(b"the second hal?")
    with pytest.raises(ModelMissing, match="damaged; install"):
        find_model().ready_folder()
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


def test_a_folder_that_holds_no_model_is_refused(tmp_path: Path) -> None:
    with pytest.raises(ModelMissing, match=r"has no model\.bin"):
        find_model(str(tmp_path))
    with pytest.raises(ModelMissing, match="neither 'base' nor a folder"):
        find_model("enormous")
