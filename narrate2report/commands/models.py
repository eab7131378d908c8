"""`models`: the speech models that are here, whether each is as it should be, and how to add one."""

from __future__ import annotations

from rich.console import Console

from narrate2report.listen.models import SUMS, models_folder
from narrate2report.listen.shelf import Shelved, models_here

HOW_TO_ADD = """\
To add one, put the folder of a Whisper model in CTranslate2 form (model.bin, config.json,
tokenizer.json, vocabulary) into
  {place}
and name it: draft ... --model NAME. A {sums} file in its folder, as sha256sum writes it, is checked
before each use. Nothing is fetched from anywhere by this program."""


def models() -> None:
    """Print what is here. Each model is read in full to check it, so large ones take a few seconds."""
    console = Console(highlight=False, markup=False)
    for model in models_here():
        for line in _lines(model):
            console.print(line, soft_wrap=True)
    console.print()
    console.print(HOW_TO_ADD.format(place=models_folder(), sums=SUMS), soft_wrap=True)


def _lines(model: Shelved) -> list[str]:
    state = "verified" if model.verified else "not verified"
    lines = [f"{model.name}  {model.megabytes} MB  {state}", f"  {model.remark}"]
    if model.sha256 is not None:
        lines.append(f"  SHA-256 of its weights: {model.sha256}")
    if model.folder is not None:
        lines.append(f"  {model.folder}")
    return lines
