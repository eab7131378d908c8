"""On what the speech model runs: the processor, or a graphics card when there is one and its libraries load.

A card is tried out before anything is listened to, since its libraries are only loaded at the first use; where they do
not load, one line says so and the processor does the work. The settings tell which it was.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

import numpy as np

from narrate2report.listen.hearing import Hearer
from narrate2report.listen.models import Model
from narrate2report.records.clip import RATE

Settings = Mapping[str, str | int | float | bool]


@dataclass(frozen=True)
class Device:
    """What CTranslate2 is told: its name for the device, the form of the weights, windows decoded together, and how
    many threads hear at a time.
    """

    name: str
    weights: str
    at_once: int
    workers: int = 1


CPU = Device("cpu", "int8", at_once=1, workers=2)
"""Two threads with a core each and a window each. Of 6 minutes of talk, two windows at once in each thread save 5 % of
the processor's time and four 10 %, but take 680 and 850 MB where one takes 590, and whoever is killed has so many more
to hear again. Both cores for one thread take longer: with four windows at once, of up to 20 s, 0.65 of the time of
plain faster-whisper, where two threads took 0.47.
A beam of 1 with 5 only where it is unsure saves nothing: words gained go with windows redone.
"""
GPU = Device("cuda", "float16", at_once=16)


def choose_hearer(model: Model, language: str, on_note: Callable[[str], None]) -> tuple[Callable[[], Hearer], Settings]:
    """How to load the model, and the settings it is used with. It is loaded here only if there is a card to try.

    Raises ModelMissing when the model cannot be used at all.
    """
    from narrate2report.listen.whisper import Whisper, hearing_settings

    if cards():
        try:
            hearer = Whisper(model.ready_folder(), language, GPU)
            hearer.hear([np.zeros(RATE, np.float32)])
        except Exception as error:  # each library fails in its own way
            on_note(f"the graphics card cannot be used ({_first_line(error)}); listening on the processor")
        else:
            return lambda: hearer, hearing_settings(language, GPU)
    return lambda: Whisper(model.ready_folder(), language, CPU), hearing_settings(language, CPU)


def cards() -> int:
    """How many graphics cards there are that the model could run on."""
    import ctranslate2

    try:
        return int(ctranslate2.get_cuda_device_count())
    except RuntimeError:
        # Built without support for cards, or a driver that does not answer.
        return 0


def _first_line(error: Exception) -> str:
    return (str(error).strip().splitlines() or [type(error).__name__])[0]
