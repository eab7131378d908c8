"""The speech models that are here, and whether each is as it should be."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from narrate2report.errors import ModelMissing
from narrate2report.listen.models import BUNDLED, NEEDED, SUMS, UNTUNED, WEIGHTS, fault_of, find_model, models_folder


@dataclass(frozen=True)
class Shelved:
    """A model that is here: its name for `--model`, where it lies (None: inside the program's packages), its size."""

    name: str
    folder: Path | None
    megabytes: int
    sha256: str | None
    """Of its weights; None when it cannot be used."""
    verified: bool
    remark: str
    """What its checksums say, or what is wrong with it, in plain words."""


def models_here() -> list[Shelved]:
    """The model that listens unless another is named, and those of the models folder, each checked now."""
    own = models_folder()
    folders = sorted(path for path in own.iterdir() if path.is_dir()) if own.is_dir() else []
    return [_bundled(), *(_own(folder) for folder in folders)]


def _bundled() -> Shelved:
    try:
        model = find_model()
        folder = model.ready_folder()
    except ModelMissing as error:
        return Shelved(BUNDLED, None, 0, None, False, str(error))
    size = (folder / WEIGHTS).stat().st_size
    remark = f"comes with the program: Whisper base, tuned to talk on a walk; as published it is --model {UNTUNED}"
    return Shelved(BUNDLED, None, round(size / 1e6), model.sha256, True, remark)


def _own(folder: Path) -> Shelved:
    missing = [each for each in NEEDED if not (folder / each).is_file()]
    if missing:
        return Shelved(folder.name, folder, 0, None, False, f"cannot be used: has no {missing[0]}")
    size = round((folder / WEIGHTS).stat().st_size / 1e6)
    if (fault := fault_of(folder)) is not None:
        return Shelved(folder.name, folder, size, None, False, f"cannot be used: {fault}")
    verified = (folder / SUMS).is_file()
    remark = f"as its {SUMS} say" if verified else f"nothing to check it against: its folder has no {SUMS}"
    return Shelved(folder.name, folder, size, find_model(str(folder)).sha256, verified, remark)
