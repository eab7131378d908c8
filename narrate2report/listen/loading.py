"""The weights of a checked folder as a model of the library, and how the processor's cores are shared out to it."""

from __future__ import annotations

import os
from pathlib import Path
from typing import TYPE_CHECKING

from narrate2report.errors import ModelMissing
from narrate2report.listen.device import Device
from narrate2report.records.cores import cores

if TYPE_CHECKING:
    from faster_whisper.tokenizer import Tokenizer
    from faster_whisper.transcribe import WhisperModel

MOST_CORES = 8
"""More bring nothing for windows of 30 s."""


def loaded_model(folder: Path, device: Device, workers: int = 1) -> WhisperModel:
    """The model of a checked folder, on the device; so many threads may ask it at a time, and share the cores.

    Raises ModelMissing when the library cannot take the folder.
    """
    from faster_whisper import WhisperModel

    try:
        model = WhisperModel(
            str(folder),
            device=device.name,
            compute_type=device.weights,
            cpu_threads=max(1, usable_cores() // workers),
            num_workers=workers,
            local_files_only=True,
        )
    except Exception as error:  # the libraries below raise bare ones for files that they cannot take
        raise ModelMissing(f"{folder}: is not a Whisper model for CTranslate2 ({error})") from error
    _sum_in_fixed_order(model)
    return model


def tokens_of(model: WhisperModel, language: str) -> Tokenizer:
    """What makes text into the model's tokens and back, for speech that is written down in its own language."""
    from faster_whisper.tokenizer import Tokenizer

    return Tokenizer(model.hf_tokenizer, model.model.is_multilingual, task="transcribe", language=language)


def _sum_in_fixed_order(model: WhisperModel) -> None:
    """Make what a model hears the same on any number of processor cores.

    The library multiplies sound with its filters by a product whose sums are cut into as many pieces as there are
    cores, and the last digit of a sum decides now and then between two words. The filters are nearly all zeros: as a
    sparse matrix they are added up one after the other, as fast.
    """
    from scipy.sparse import csr_array

    extractor = model.feature_extractor
    extractor.mel_filters = csr_array(extractor.mel_filters)


def usable_cores() -> int:
    """Processor cores that listening uses.

    OMP_NUM_THREADS, by which the libraries below are told how many, sets a lower number.
    """
    usable = cores()
    told = os.environ.get("OMP_NUM_THREADS", "")
    if told.isdecimal() and int(told) > 0:
        usable = min(usable, int(told))
    return max(1, min(MOST_CORES, usable))
