"""The processor does the work unless a graphics card really can."""

from __future__ import annotations

import ctranslate2
import pytest

from narrate2report.listen import whisper
from narrate2report.listen.device import GPU, cards, choose_hearer
from narrate2report.listen.models import find_model
from tests.listen.sounds import CountingHearer


def test_without_a_card_the_processor_listens_and_nothing_is_said(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(ctranslate2, "get_cuda_device_count", lambda: 0)
    told: list[str] = []
    _, settings = choose_hearer(find_model(), "en", told.append)
    assert (settings["device"], settings["weights"]) == ("cpu", "int8")
    assert told == []


def test_a_driver_that_does_not_answer_is_no_card(monkeypatch: pytest.MonkeyPatch) -> None:
    def broken() -> int:
        raise RuntimeError("CUDA driver version is insufficient")

    monkeypatch.setattr(ctranslate2, "get_cuda_device_count", broken)
    assert cards() == 0


def test_a_card_whose_libraries_do_not_load_gives_one_line_and_the_processor(monkeypatch: pytest.MonkeyPatch) -> None:
    """This package of CTranslate2 finds no card here, so it is told that there is one."""
    monkeypatch.setattr(ctranslate2, "get_cuda_device_count", lambda: 1)
    told: list[str] = []
    load, settings = choose_hearer(find_model(), "en", told.append)
    assert settings["device"] == "cpu"
    (line,) = told
    assert line.startswith("the graphics card cannot be used (")
    assert line.endswith("); listening on the processor")
    assert "\n" not in line
    assert load().settings == settings


def test_a_card_that_works_is_used(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(ctranslate2, "get_cuda_device_count", lambda: 1)
    tried: list[object] = []

    def pretended(*arguments: object) -> CountingHearer:
        tried.extend(arguments)
        return CountingHearer()

    monkeypatch.setattr(whisper, "Whisper", pretended)
    told: list[str] = []
    load, settings = choose_hearer(find_model(), "en", told.append)
    assert tried[-1] is GPU
    assert (settings["device"], settings["weights"]) == ("cuda", "float16")
    assert told == []
    assert isinstance(load(), CountingHearer)
